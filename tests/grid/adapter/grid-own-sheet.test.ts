/** The try-out page's side of Use my sheet and Repair formulas, over the grid's own model. */
import { gridOwnSheet } from "../../../src/grid/adapter/grid-own-sheet";
import type { GridCell } from "../../../src/grid/engine/messages";
import type { OwnSheetHost } from "../../../src/taskpane/host/own-sheet-host";
import { texts } from "../../../src/taskpane/words/texts";
import { openEngine, type Engine } from "../engine";
import { smallPlan } from "../plan";

let engine: Engine;
let host: OwnSheetHost;
let shown: GridCell[];

beforeEach(async () => {
  engine = await openEngine(smallPlan);
  shown = [];
  host = gridOwnSheet({ ...engine, show: (cell) => shown.push(cell) });
});

afterEach(() => engine.close());

function sheet(name: string) {
  const found = engine.api.getActiveWorkbook()?.getSheetByName(name);
  if (!found) throw new Error(`No sheet ${name}`);
  return found;
}

/** Shows a new sheet and writes a log on it. */
async function newLog(): Promise<ReturnType<typeof sheet>> {
  const workbook = engine.api.getActiveWorkbook();
  const made = workbook?.create("Club log", 200, 20);
  if (!workbook || !made) throw new Error("No sheet was made");
  workbook.setActiveSheet(made);
  made.getRange("B1:E5").setValues([
    ["Our club", "", "", ""],
    ["", "", "", ""],
    ["Day", "Who", "Trick", "Marks"],
    [46000, "M.K.", "Two spin", "ccd"],
    [46001, "A.R.", "Two spin", "0110"],
  ]);
  made.getRange("E5").setValue({ v: "0110", t: 1 });
  made.getRange("D5").setValue({ v: 1, t: 3 });
  made.getRange("B4").setValue({ v: 46000, t: 2, s: { n: { pattern: "d/m/yyyy" } } });
  made.getRange("G3:I3").setValues([["When", "Contest", "Place"]]);
  return made;
}

test("reads the columns around a cell, with formats, texts and truth values", async () => {
  const made = await newLog();
  made.setActiveSelection(made.getRange("D4"));
  const { sheet: name, table, block } = await host.readLog();
  expect([name, table, block.row, block.column]).toEqual(["Club log", null, 1, 2]);
  expect(block.values).toEqual([
    ["Our club", null, null, null],
    [null, null, null, null],
    ["Day", "Who", "Trick", "Marks"],
    [46000, "M.K.", "Two spin", "ccd"],
    [46001, "A.R.", true, "0110"],
  ]);
  expect(block.numberFormats?.[3]).toEqual(["d/m/yyyy", "General", "General", "General"]);
});

test("reads what is selected, from there down to the last used row", async () => {
  const made = await newLog();
  made.setActiveSelection(made.getRange("B3:D3"));
  const { block } = await host.readLog();
  expect([block.row, block.column, block.values.length, block.values[0]?.length]).toEqual([3, 2, 3, 3]);
});

test("reads a table whole, with the names of its columns", async () => {
  const log = sheet("Log O'Hara");
  engine.api.getActiveWorkbook()?.setActiveSheet(log);
  log.setActiveSelection(log.getRange("B5"));
  const { table, block } = await host.readLog();
  expect(table?.name).toBe("Log_A");
  expect([...(table?.headings ?? [])]).toEqual([
    [1, "Date"],
    [2, "Marks"],
    [3, "Length (s)"],
    [4, "Twice"],
  ]);
  expect(block.values.length).toBe(4);
  expect(block.values[1]).toEqual([46391, "c", 1.5, 3]);
});

test("reads what a formula has spilled into the cells", async () => {
  const answers = sheet("Answers");
  engine.api.getActiveWorkbook()?.setActiveSheet(answers);
  answers.setActiveSelection(answers.getRange("A1:C9"));
  const spilled = answers.getSheet().getCell(1, 0)?.v;
  const { block } = await host.readLog();
  expect(spilled).not.toBeUndefined();
  expect(block.values[1]?.[0]).toBe(spilled);
});

test("says so where nothing stands", async () => {
  const workbook = engine.api.getActiveWorkbook();
  const made = workbook?.create("Nothing", 20, 20);
  if (!workbook || !made) throw new Error("No sheet was made");
  workbook.setActiveSheet(made);
  made.setActiveSelection(made.getRange("A1"));
  await expect(host.readLog()).rejects.toThrow(texts.nothingToRead);
});

test("a sheet whose name holds an exclamation mark is refused before anything is put", async () => {
  const made = await newLog();
  made.setName("Oh no!");
  made.setActiveSelection(made.getRange("D4"));
  await expect(host.readLog()).rejects.toThrow(texts.markInSheetName("Oh no!"));
  made.setName("Club log");
});

test("goes to a cell; a sheet that is gone is said to be gone", async () => {
  await host.goToCell("Answers", { row: 3, column: 2 });
  expect(shown).toEqual([{ sheetId: sheet("Answers").getSheetId(), row: 2, column: 1 }]);
  await expect(host.goToCell("Gone", { row: 3, column: 2 })).rejects.toThrow(texts.sheetGone("Gone"));
});

test("formulas as a file holds them are written again and work; the others stay", async () => {
  const answers = sheet("Answers");
  const known = answers.getRange("E1").getFormula();
  answers.getRange("H1").setFormula("=_xldudf_TWIRL_SHOW(E1)");
  answers.getRange("H2").setFormula("=NOTHINGOFOURS(E1)");
  answers.getRange("H3").setFormula("=_xldudf_TWIRL_UNHEARD(E1)");
  await engine.settled();
  expect(answers.getSheet().getCellRaw(0, 7)?.v).toBe("#NAME?");
  expect(await host.repairFormulas()).toEqual({ repaired: 1, stillUnknown: 1, refused: 0, protectedSheets: [] });
  expect(answers.getRange("H1").getFormula()).toBe("=TWIRL.SHOW(E1)");
  expect(answers.getSheet().getCellRaw(0, 7)?.v).not.toBe("#NAME?");
  expect(answers.getRange("H2").getFormula()).toBe("=NOTHINGOFOURS(E1)");
  expect(answers.getRange("E1").getFormula()).toBe(known);
  expect(await host.repairFormulas()).toEqual({ repaired: 0, stillUnknown: 1, refused: 0, protectedSheets: [] });
});
