import { CellValueType, type ICellData, type Plugin, type PluginCtor, UniverInstanceType } from "@univerjs/core";
import { FUniver } from "@univerjs/core/facade";
import "@univerjs/sheets/facade";
import "@univerjs/engine-formula/facade";
import { UniverFormulaEnginePlugin } from "@univerjs/engine-formula";
import { UniverSheetsPlugin } from "@univerjs/sheets";
import { UniverSheetsFormulaPlugin } from "@univerjs/sheets-formula";

import { cellAddress } from "../../../src/page/addresses";
import { followChainedSpills } from "../../../src/grid/mends/chained-spills";
import { keepEachRangeOnce } from "../../../src/grid/mends/dependency-ranges";
import { univerWith } from "../engine";

const plugins: readonly PluginCtor<Plugin>[] = [
  UniverFormulaEnginePlugin,
  UniverSheetsPlugin,
  UniverSheetsFormulaPlugin,
];

/** Each spill reads the lower rows of the one before, not the cell of its formula; H1 reads the last of them. */
const formulas: Readonly<Record<string, string>> = {
  C1: "=A1:A5*2",
  D1: "=C2:C5*2",
  E1: "=D2:D4*2",
  F1: "=E2:E3*2",
  H1: "=F2+1",
  H2: "=D4+1",
};

async function open(mended: boolean) {
  const univer = univerWith(plugins);
  const api = FUniver.newAPI(univer);
  const injector = univer.__getInjector();
  const cellData: Record<number, Record<number, ICellData>> = {};
  for (let row = 0; row < 5; row += 1) cellData[row] = { 0: { v: row + 1, t: CellValueType.NUMBER } };
  for (const [at, f] of Object.entries(formulas)) {
    const { row, column } = cellAddress(at);
    (cellData[row] ??= {})[column] = { f };
  }
  univer.createUnit(UniverInstanceType.UNIVER_SHEET, {
    id: `chain-${String(Math.random())}`,
    sheets: { cells: { id: "cells", name: "Cells", rowCount: 30, columnCount: 10, cellData } },
    sheetOrder: ["cells"],
  });
  keepEachRangeOnce(injector);
  if (mended) followChainedSpills(injector);
  const settle = async (change: () => void): Promise<void> => {
    const end = api.getFormula().onCalculationEnd();
    change();
    await end;
  };
  const read = (at: string): unknown => api.getActiveWorkbook()?.getActiveSheet().getRange(at).getValue();
  const write = (at: string, value: number): Promise<void> =>
    settle(() => void api.getActiveWorkbook()?.getActiveSheet().getRange(at).setValue(value));
  await settle(() => api.getFormula().executeCalculation());
  return { univer, read, write, workOutAnew: () => settle(() => api.getFormula().executeCalculation()) };
}

test("what reads the spill of a spill follows what is typed, at every length of the chain", async () => {
  const { univer, read, write, workOutAnew } = await open(true);
  // By hand: A5 is doubled on its way through C, D, E and F into F2 (C5, D4, E3, F2).
  expect([read("H1"), read("H2")]).toEqual([5 * 16 + 1, 5 * 4 + 1]);
  for (const value of [7, 0, 11]) {
    await write("A5", value);
    expect([read("F2"), read("H1"), read("H2")]).toEqual([value * 16, value * 16 + 1, value * 4 + 1]);
  }
  await workOutAnew();
  expect([read("H1"), read("H2")]).toEqual([11 * 16 + 1, 11 * 4 + 1]);
  univer.dispose();
});

test("the engine alone leaves such a cell as it was: else there is nothing to mend", async () => {
  const { univer, read, write } = await open(false);
  const before = read("H1");
  await write("A5", 7);
  expect(read("A5")).toBe(7);
  expect(read("H1")).toBe(before);
  univer.dispose();
});
