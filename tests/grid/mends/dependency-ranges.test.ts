import { CellValueType, type ICellData, type RTree, UniverInstanceType } from "@univerjs/core";
import { FUniver } from "@univerjs/core/facade";
import "@univerjs/sheets/facade";
import "@univerjs/engine-formula/facade";
import { IDependencyManagerService, UniverFormulaEnginePlugin } from "@univerjs/engine-formula";
import { UniverSheetsPlugin } from "@univerjs/sheets";
import { UniverSheetsFormulaPlugin } from "@univerjs/sheets-formula";

import { cellAddress } from "../../../src/page/addresses";
import { keepEachRangeOnce } from "../../../src/grid/mends/dependency-ranges";
import { growTables } from "../../../src/grid/mends/growing-tables";
import { seededRandom } from "../../benchmarks/random";
import { type Engine, openEngine, univerWith } from "../engine";
import { smallPlan } from "../plan";

interface Index {
  readonly _dependencyRTreeCache: RTree;
}

/** How many ranges of more than one cell the engine's index holds. */
function rangesHeld(injector: Engine["injector"], sheetId?: string): number {
  const { _dependencyRTreeCache: index } = injector.get(IDependencyManagerService) as unknown as Index;
  const sheets = Object.values(index.toJSON())
    .flatMap((unit) => Object.entries(unit))
    .filter(([id]) => sheetId === undefined || id === sheetId);
  // Each sheet's part of the index is told as a tree of nodes.
  const count = (node: { children?: unknown[]; leaf?: boolean }): number =>
    node.leaf === true
      ? (node.children?.length ?? 0)
      : (node.children ?? []).reduce<number>((sum, child) => sum + count(child as typeof node), 0);
  return sheets.reduce((sum, [, tree]) => sum + count(tree as unknown as Parameters<typeof count>[0]), 0);
}

/** Four formulas over ranges that overlap, one over a whole column, one over single cells, one over another sheet, one over both. */
const formulas: Readonly<Record<string, string>> = {
  C1: "=SUM(A1:A9)",
  C2: "=SUM(A1:A4)+SUM(A5:A9)+SUM(B1:B9)",
  C3: "=SUM(A:A)",
  C4: "=A1+A2",
  C5: "=C1+C2",
  C6: "=SUM(Other!A1:A9)*2",
  C7: "=SUM(A1:A9)+SUM(Other!A1:A9)",
};

async function openCells(mended: boolean) {
  const univer = univerWith([UniverFormulaEnginePlugin, UniverSheetsPlugin, UniverSheetsFormulaPlugin]);
  const api = FUniver.newAPI(univer);
  const injector = univer.__getInjector();
  const cellData: Record<number, Record<number, ICellData>> = {};
  for (let row = 0; row < 9; row += 1) {
    cellData[row] = { 0: { v: row + 1, t: CellValueType.NUMBER }, 1: { v: 10, t: CellValueType.NUMBER } };
  }
  for (const [at, f] of Object.entries(formulas)) {
    const { row, column } = cellAddress(at);
    (cellData[row] ??= {})[column] = { f };
  }
  univer.createUnit(UniverInstanceType.UNIVER_SHEET, {
    id: `cells-${String(Math.random())}`,
    sheets: {
      cells: { id: "cells", name: "Cells", rowCount: 30, columnCount: 6, cellData },
      other: {
        id: "other",
        name: "Other",
        rowCount: 30,
        columnCount: 6,
        cellData: { 0: { 0: { v: 1, t: CellValueType.NUMBER } } },
      },
    },
    sheetOrder: ["cells", "other"],
  });
  if (mended) keepEachRangeOnce(injector);
  const settle = async (change: () => void): Promise<void> => {
    const end = api.getFormula().onCalculationEnd();
    change();
    await end;
  };
  await settle(() => api.getFormula().executeCalculation());
  const sheet = (name: string) => {
    const found = api.getActiveWorkbook()?.getSheetByName(name);
    if (!found) throw new Error(`There is no sheet ${name}.`);
    return found;
  };
  const write = (at: string, value: number | string, name = "Cells"): Promise<void> =>
    settle(() => void sheet(name).getRange(at).setValue(typeof value === "number" ? { v: value, t: CellValueType.NUMBER, f: null } : { f: value })); // prettier-ignore
  const answers = (): unknown[] => Object.keys(formulas).map((at) => sheet("Cells").getRange(at).getValue());
  return { univer, injector, api, sheet, settle, write, answers };
}

test("the index does not grow with calculations, as it does in the engine alone", async () => {
  const counts: number[][] = [];
  for (const mended of [false, true]) {
    const { univer, injector, write } = await openCells(mended);
    const seen = [rangesHeld(injector)];
    for (let value = 20; value < 25; value += 1) {
      await write("A3", value);
      seen.push(rangesHeld(injector));
    }
    counts.push(seen);
    univer.dispose();
  }
  const [alone, mended] = counts as [number[], number[]];
  // Were the engine's own no longer to grow, there would be nothing to mend.
  expect(alone.at(-1)).toBeGreaterThan(alone[0] ?? 0);
  expect(new Set(mended)).toEqual(new Set([alone[0]]));
});

test("what the formulas answer follows every change: cells, formulas, rows, sheets", async () => {
  const { univer, injector, api, sheet, settle, write, answers } = await openCells(true);
  const a = [1, 2, 3, 4, 5, 6, 7, 8, 9];
  const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
  let other = 1;
  const expected = (): number[] => {
    const [first, second] = [sum(a), sum(a) + 90];
    return [first, second, first, (a[0] ?? 0) + (a[1] ?? 0), first + second, other * 2, first + other];
  };
  expect(answers()).toEqual(expected());
  const random = seededRandom(5);
  for (let round = 0; round < 12; round += 1) {
    const place = Math.floor(random() * 9);
    a[place] = Math.floor(random() * 100);
    await write(`A${String(place + 1)}`, a[place]);
    other = round + 2;
    await write("A1", other, "Other");
    expect(answers()).toEqual(expected());
  }
  const before = rangesHeld(injector);

  // Another formula in a cell, and the former one again: what it read is no longer followed, and then is.
  await write("C2", "=SUM(B1:B2)");
  expect(sheet("Cells").getRange("C2").getValue()).toBe(20);
  expect(rangesHeld(injector)).toBe(before - 2);
  await write("C2", formulas["C2"] ?? "");
  a[6] = 1000;
  await write("A7", 1000);
  expect(answers()).toEqual(expected());
  expect(rangesHeld(injector)).toBe(before);

  // One sheet's part of the index goes, as when its rows change: it comes back, and nothing is twice on the other sheet.
  const parts = (): number[] => ["cells", "other"].map((id) => rangesHeld(injector, id));
  const held = parts();
  const unitId = api.getActiveWorkbook()?.getId() ?? "";
  const { _dependencyRTreeCache: index } = injector.get(IDependencyManagerService) as unknown as Index;
  index.removeById(unitId, "cells");
  expect(parts()).toEqual([0, held[1]]);
  await write("A1", (a[0] = 77));
  await write("A2", (a[1] = 78));
  expect(parts()).toEqual(held);
  expect(answers()).toEqual(expected());

  // A row in the middle of the ranges moves and widens them.
  await settle(() => void sheet("Cells").insertRowAfter(8));
  await write("A10", 5);
  await write("A9", 7);
  a[8] = 7;
  const widened = rangesHeld(injector);
  for (const value of [3, 4, 5]) {
    await write("A5", value);
    a[4] = value;
  }
  expect(sheet("Cells").getRange("C1").getValue()).toBe(sum(a));
  expect(rangesHeld(injector)).toBe(widened);

  // A sheet that goes takes its part of the index along; everything worked out anew begins the index anew.
  await settle(() => void api.getActiveWorkbook()?.deleteSheet("other"));
  await settle(() => api.getFormula().executeCalculation());
  const anew = rangesHeld(injector);
  for (const value of [8, 9]) {
    await write("A2", value);
    a[1] = value;
    expect(sheet("Cells").getRange("C1").getValue()).toBe(sum(a));
    expect(sheet("Cells").getRange("C4").getValue()).toBe((a[0] ?? 0) + value);
    expect(rangesHeld(injector)).toBe(anew);
  }
  univer.dispose();
});

test("a table that grows row by row leaves nothing of its former sizes in the index", async () => {
  const engine = await openEngine(smallPlan);
  growTables(engine.api, engine.injector);
  const sheet = engine.api.getActiveWorkbook()?.getSheetByName("Log O'Hara");
  const type = async (row: number, value: number): Promise<void> => {
    sheet?.getRange(row, 2).setValue({ v: value, t: CellValueType.NUMBER });
    await engine.settled();
    // The row is taken into the table, and what it changes is worked out.
    await new Promise((resolve) => setTimeout(resolve, 50));
  };
  await type(6, 1);
  const before = rangesHeld(engine.injector);
  for (let row = 7; row < 12; row += 1) await type(row, 1);
  await type(11, 2);
  expect(sheet?.getSubTableInfos()[0]?.range.endRow).toBe(11);
  expect(rangesHeld(engine.injector)).toBe(before);
  engine.close();
});
