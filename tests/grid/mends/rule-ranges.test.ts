import { CellValueType, type ICellData, UniverInstanceType } from "@univerjs/core";
import { FUniver } from "@univerjs/core/facade";
import "@univerjs/sheets/facade";
import "@univerjs/engine-formula/facade";
import { UniverFormulaEnginePlugin } from "@univerjs/engine-formula";
import { UniverSheetsPlugin } from "@univerjs/sheets";
import {
  CFRuleType,
  CFSubRuleType,
  ConditionalFormattingService,
  UniverSheetsConditionalFormattingPlugin,
} from "@univerjs/sheets-conditional-formatting";
import { UniverSheetsFormulaPlugin } from "@univerjs/sheets-formula";

import { keepEachRangeOnce } from "../../../src/grid/mends/dependency-ranges";
import { resourceNames } from "../../../src/grid/adapter/grid-writer";
import { enterRulesAgain } from "../../../src/grid/mends/rule-ranges";
import { univerWith } from "../engine";

const COLOUR = "#123456";
const rule = {
  cfId: "ready",
  ranges: [{ startRow: 0, endRow: 8, startColumn: 0, endColumn: 0 }],
  stopIfTrue: true,
  rule: {
    type: CFRuleType.highlightCell,
    subType: CFSubRuleType.formula,
    value: '=A1="Ready"',
    style: { bg: { rgb: COLOUR } },
  },
};

/** A log with a rule and without a formula, and a board that spills what stands in it, with a rule for one word. */
async function open(mended: boolean) {
  const univer = univerWith([
    UniverFormulaEnginePlugin,
    UniverSheetsPlugin,
    UniverSheetsFormulaPlugin,
    UniverSheetsConditionalFormattingPlugin,
  ]);
  const api = FUniver.newAPI(univer);
  const injector = univer.__getInjector();
  const unitId = `rules-${String(Math.random())}`;
  const words: Record<number, Record<number, ICellData>> = {};
  for (let row = 0; row < 4; row += 1) words[row] = { 0: { v: "Building", t: CellValueType.STRING } };
  const size = { rowCount: 30, columnCount: 6 };
  univer.createUnit(UniverInstanceType.UNIVER_SHEET, {
    id: unitId,
    sheets: {
      log: { id: "log", name: "Log", ...size, cellData: words },
      board: { id: "board", name: "Board", ...size, cellData: { 0: { 0: { f: "=Log!A1:A4" } } } },
    },
    sheetOrder: ["log", "board"],
    resources: [
      { name: resourceNames.rules, data: JSON.stringify({ board: [rule], log: [{ ...rule, cfId: "typed" }] }) },
    ],
  });
  keepEachRangeOnce(injector);
  if (mended) enterRulesAgain(injector);
  const settle = async (change: () => void): Promise<void> => {
    const end = api.getFormula().onCalculationEnd();
    change();
    await end;
  };
  const log = api.getActiveWorkbook()?.getSheetBySheetId("log");
  const board = api.getActiveWorkbook()?.getSheetBySheetId("board");
  if (!log || !board) throw new Error("A sheet is missing.");
  await settle(() => api.getFormula().executeCalculation());
  return {
    univer,
    write: (at: string, word: string) => settle(() => void log.getRange(at).setValue(word)),
    addRow: () => settle(() => void log.insertRowAfter(9)),
    word: (row: number): unknown => board.getSheet().getCell(row, 0)?.v,
    coloured: (row: number): boolean =>
      injector.get(ConditionalFormattingService).composeStyle(unitId, "board", row, 0)?.style?.bg?.rgb === COLOUR,
  };
}

test("a status is coloured by its word after the log has gained a row, in every row of the board", async () => {
  const { univer, write, addRow, word, coloured } = await open(true);
  const seen = (): unknown[] => [0, 1, 2, 3].map((row) => [word(row), coloured(row)]);
  await write("A2", "Ready");
  expect(seen()[1]).toEqual(["Ready", true]);
  for (const [at, text, row] of [
    ["A3", "Ready", 2],
    ["A2", "Building", 1],
    ["A1", "Ready", 0],
    ["A4", "Ready", 3],
  ] as const) {
    await addRow();
    await write(at, text);
    expect(seen()[row]).toEqual([text, text === "Ready"]);
  }
  univer.dispose();
});

test("the engine alone leaves the former colour: else there is nothing to mend", async () => {
  const { univer, write, addRow, word, coloured } = await open(false);
  await write("A2", "Ready");
  expect([word(1), coloured(1)]).toEqual(["Ready", true]);
  await addRow();
  await write("A3", "Ready");
  expect([word(2), coloured(2)]).toEqual(["Ready", false]);
  univer.dispose();
});
