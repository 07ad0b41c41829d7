import { ICommandService, IUniverInstanceService, RedoCommand, UndoCommand } from "@univerjs/core";
import { RemoveSheetCommand } from "@univerjs/sheets";

import { followDeletedSheets } from "../../../src/grid/mends/deleted-sheets";
import { type Engine, openEngine } from "../engine";
import { smallPlan } from "../plan";

/** The table of the plan's log holds 1.5 and 2; their sum is told in E1 of another sheet. */
describe("a sheet that is deleted", () => {
  const LOG = "Log O'Hara";
  let engine: Engine;

  beforeEach(async () => {
    engine = await openEngine(smallPlan);
    followDeletedSheets(engine.injector, () => {
      engine.calculate();
    });
    engine.injector.get(IUniverInstanceService).focusUnit(engine.api.getActiveWorkbook()?.getId() ?? "");
  });

  afterEach(() => {
    engine.close();
  });

  const sum = () => engine.api.getActiveWorkbook()?.getSheetByName("Answers")?.getSheet().getCellRaw(0, 4)?.v;

  async function run(id: string, params?: object): Promise<void> {
    const done = engine.settled();
    await engine.injector.get(ICommandService).executeCommand(id, params);
    await done;
  }

  test("leaves nothing standing of what read it, until it is brought back", async () => {
    const workbook = engine.api.getActiveWorkbook();
    const subUnitId = workbook?.getSheetByName(LOG)?.getSheetId();
    expect(sum()).toBe(3.5);
    await run(RemoveSheetCommand.id, { unitId: workbook?.getId(), subUnitId });
    expect(sum()).toMatch(/^#/);
    await run(UndoCommand.id);
    expect(sum()).toBe(3.5);
    await run(RedoCommand.id);
    expect(sum()).toMatch(/^#/);
    await run(UndoCommand.id);
    expect(sum()).toBe(3.5);
  });
});
