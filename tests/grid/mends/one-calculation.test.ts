import { ICommandService, type Injector } from "@univerjs/core";
import {
  FormulaExecuteStageType,
  ICalculateFormulaService,
  type ISetFormulaCalculationNotificationMutation,
  SetFormulaCalculationNotificationMutation,
  SetFormulaCalculationStartMutation,
} from "@univerjs/engine-formula";
import { TriggerCalculationController } from "@univerjs/sheets-formula";

import { type GridState, reportStates } from "../../../src/grid/calculation-state";
import { calculateOneByOne, calculationsDue } from "../../../src/grid/mends/one-calculation";
import { openCells } from "../engine";

const patience = 10_000;

/** C1 fills C1:C3 with the doubles of A1:A3, and D1 adds them up; G1 is one more than F1, and H1 than that. */
async function open(mended: boolean) {
  const first = { 0: { v: 1 }, 2: { f: "=A1:A3*2" }, 3: { f: "=SUM(C1:C3)" }, 5: { v: 1 }, 6: { f: "=F1+1" } };
  const { univer, api, injector, unitId, read, write } = openCells({
    0: { ...first, 7: { f: "=G1+1" } },
    1: { 0: { v: 2 } },
    2: { 0: { v: 3 } },
  });
  const commands = injector.get(ICommandService);
  if (mended) calculateOneByOne(injector);
  const states: { readonly state: GridState; readonly shown: readonly unknown[] }[] = [];
  reportStates(injector, { beginRun: () => undefined }, (state) => {
    states.push({ state, shown: ["F1", "G1", "H1", "A1", "D1"].map(read) });
  });
  /** Resolves once ready has been said and nothing has been said since, for longer than the engine gathers edits. */
  const quiet = async (): Promise<void> => {
    const until = Date.now() + patience;
    for (let said = -1; Date.now() < until && (said !== states.length || states.at(-1)?.state !== "ready");) {
      said = states.length;
      await new Promise((resolve) => setTimeout(resolve, 300));
    }
  };
  api.getFormula().executeCalculation();
  await quiet();
  states.length = 0;
  return {
    univer,
    injector,
    states,
    quiet,
    read,
    write,
    /** Does something once, when a calculation comes to a stage. */
    atStage: (stage: FormulaExecuteStageType, act: () => void): void => {
      const listener = commands.onCommandExecuted(({ id, params }) => {
        if (id !== SetFormulaCalculationNotificationMutation.id) return;
        if ((params as ISetFormulaCalculationNotificationMutation).stageInfo?.stage !== stage) return;
        listener.dispose();
        act();
      });
    },
    /** What the engine does when the moment is over for which it has gathered what was typed into F1. */
    begin: (): void => {
      const range = { startRow: 0, endRow: 0, startColumn: 5, endColumn: 5 };
      const dirtyRanges = [{ unitId, sheetId: "cells", range }];
      commands.syncExecuteCommand(SetFormulaCalculationStartMutation.id, { commands: [], dirtyRanges });
    },
    /** What the engine does where an edit comes while a calculation is under way. */
    stopTooLate: (): void => {
      const gathering = injector.get(TriggerCalculationController) as unknown as { _restartCalculation: boolean };
      gathering._restartCalculation = true;
    },
    embolden: (at: string): void => void api.getActiveWorkbook()?.getActiveSheet().getRange(at).setFontWeight("bold"),
    /** Typed without the engine's own beginning: the tests choose its moment. */
    writeQuietly: (value: number): void => {
      const worksheet = api.getActiveWorkbook()?.getActiveSheet().getSheet();
      const cell = worksheet?.getCellMatrix().getValue(0, 5);
      if (cell) cell.v = value;
    },
  };
}

describe("an edit that comes when a calculation knows what is due, and has not begun with it", () => {
  const meanwhile = async (mended: boolean) => {
    const grid = await open(mended);
    grid.atStage(FormulaExecuteStageType.START_CALCULATION, () => {
      grid.writeQuietly(10);
      grid.begin();
    });
    grid.write("A1", 5);
    await grid.quiet();
    const shown = ["D1", "G1", "H1"].map(grid.read);
    const due = calculationsDue(grid.injector);
    grid.univer.dispose();
    return { shown, due };
  };

  test("is in the answers, as the one before it is", async () => {
    await expect(meanwhile(true)).resolves.toEqual({ shown: [20, 11, 12], due: 0 });
  });

  // Should this one fail, the engine has been put right: the mend can go.
  test("is in none of the engine's own", async () => {
    await expect(meanwhile(false)).resolves.toEqual({ shown: [20, 2, 3], due: 0 });
  });
});

test("edits at every stage of a calculation are in the answers, and ready is not said before", async () => {
  const grid = await open(true);
  const stages = [
    FormulaExecuteStageType.START,
    FormulaExecuteStageType.START_DEPENDENCY,
    FormulaExecuteStageType.START_CALCULATION,
    FormulaExecuteStageType.CURRENTLY_CALCULATING,
    FormulaExecuteStageType.START_CALCULATION_ARRAY_FORMULA,
    FormulaExecuteStageType.CALCULATION_COMPLETED,
  ];
  for (const [index, stage] of stages.entries()) {
    const typed = 100 + index;
    grid.states.length = 0;
    grid.atStage(stage, () => grid.write("F1", typed));
    grid.write("A1", index);
    await grid.quiet();
    expect(["D1", "G1", "H1"].map(grid.read)).toEqual([2 * (index + 5), typed + 1, typed + 2]);
    const ready = grid.states.filter(({ state }) => state === "ready");
    expect(ready.map(({ shown }) => shown)).toEqual(
      ready.map(() => [typed, typed + 1, typed + 2, index, 2 * (index + 5)]),
    );
    expect(ready).toHaveLength(1);
  }
  grid.univer.dispose();
}, 60_000);

test("what is merely looks, and what the engine writes itself, is not waited for", async () => {
  const grid = await open(true);
  grid.embolden("F1");
  await new Promise((resolve) => setTimeout(resolve, 500));
  expect(grid.states).toEqual([]);
  grid.write("F1", 3);
  await grid.quiet();
  const done = [3, 4, 5, 1, 12];
  // From the edit on, and nothing for its answers.
  expect(grid.states.map(({ state }) => state)).toEqual(["calculating", "ready"]);
  expect(grid.states.at(-1)?.shown).toEqual(done);
  grid.univer.dispose();
});

test("one that was to stop for an edit and had come to its end before is followed by one that has everything", async () => {
  const grid = await open(true);
  grid.atStage(FormulaExecuteStageType.CALCULATION_COMPLETED, () => {
    grid.writeQuietly(20);
    grid.stopTooLate();
  });
  grid.write("A1", 7);
  await grid.quiet();
  expect(["D1", "G1", "H1"].map(grid.read)).toEqual([24, 21, 22]);
  grid.univer.dispose();
});

test("a calculation that fails holds none up, and who asked for it hears of it", async () => {
  const begun: unknown[] = [];
  const calculation = {
    execute: ({ id }: { readonly id: number }): Promise<void> => {
      begun.push(id);
      return id === 1 ? Promise.reject(new Error("A circle.")) : Promise.resolve();
    },
    _executeLock: { acquire: () => Promise.resolve() },
  };
  const model = { getFormulaData: () => 1, getArrayFormulaCellData: () => 2, getArrayFormulaRange: () => 3 };
  const injector = { get: (of: unknown) => (of === ICalculateFormulaService ? calculation : model) };
  const given = injector as unknown as Injector;
  calculateOneByOne(given);
  const failing = calculation.execute({ id: 1 });
  const following = calculation.execute({ id: 2 });
  expect(calculationsDue(given)).toBe(2);
  await expect(failing).rejects.toThrow("A circle.");
  await following;
  expect(begun).toEqual([1, 2]);
  expect(calculationsDue(given)).toBe(0);
});
