import "@univerjs/engine-formula/facade";
import { CellValueType } from "@univerjs/core";

import { type Engine, openEngine } from "../engine";
import { smallPlan } from "../plan";

const LOG = "Log O'Hara";

/** The plan's first answer, in A1 of Answers, counts each mark of B4:B6 in a block of its own row: three marks, and a heading. */
describe("cells that a spill has left empty", () => {
  let engine: Engine;
  let calculations = 0;

  beforeEach(async () => {
    engine = await openEngine(smallPlan);
    // Who reads the block's cells, one of them by way of an answer that gets smaller with it.
    await put("Answers", 0, 6, { f: "=COUNTA(A1:B9)" });
    await put("Answers", 0, 8, { f: '=FILTER(A1:A9,A1:A9<>"")' });
    await put("Answers", 0, 10, { f: "=COUNTA(I1:I9)" });
    await put("Answers", 0, 11, { f: '=COUNTIF(A1:A9,"0110")' });
    await put("Answers", 0, 12, { f: "=COUNTA(A2:B9)" });
    await mark(4, "c");
    engine.api.getFormula().calculationEnd(() => (calculations += 1));
    calculations = 0;
  });

  afterEach(() => {
    engine.close();
  });

  async function put(sheet: string, row: number, column: number, cell: object): Promise<void> {
    engine.api.getActiveWorkbook()?.getSheetByName(sheet)?.getRange(row, column).setValue(cell);
    await engine.settled();
  }

  const mark = (row: number, value: string): Promise<void> =>
    put(LOG, row - 1, 1, { v: value, t: CellValueType.STRING });

  const shown = (row: number, column: number): unknown =>
    engine.api.getActiveWorkbook()?.getSheetByName("Answers")?.getSheet().getCell(row, column)?.v;

  /** The cells of both blocks that hold something, and how often one mark is among them. */
  const read = (): unknown[] => [shown(0, 6), shown(0, 10), shown(0, 11)];

  test("are read as empty in the same calculation, when the block gets smaller", async () => {
    expect(read()).toEqual([8, 4, 1]);
    await mark(5, "c");
    expect(calculations).toBe(1);
    expect(read()).toEqual([6, 3, 0]);
  });

  test("are read as empty in the same calculation, when the block turns into an error", async () => {
    await mark(5, "x");
    expect(calculations).toBe(1);
    expect(shown(0, 0)).toBe("#VALUE!");
    expect(shown(1, 0)).toBeUndefined();
    expect(read()[0]).toBe(1);
    await mark(5, "0110");
    expect(calculations).toBe(2);
    expect(read()).toEqual([8, 4, 1]);
  });

  test("are read as empty where the formula itself is typed over", async () => {
    expect(shown(0, 12)).toBe(6);
    await put("Answers", 0, 0, { v: "oops", t: CellValueType.STRING, f: null, si: null });
    // What reads the block's lower rows alone learns of it in a calculation of its own.
    while (calculations < 2) await engine.settled();
    expect(read()).toEqual([1, 1, 0]);
    expect(shown(0, 12)).toBe(0);
  });
});
