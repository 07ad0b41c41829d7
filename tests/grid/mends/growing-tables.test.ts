import { CellValueType, IUniverInstanceService } from "@univerjs/core";

import { cellAddress } from "../../../src/page/addresses";
import { growTables } from "../../../src/grid/mends/growing-tables";
import { PREPARED_ROWS } from "../../../src/grid/adapter/grid-writer";
import { rowsBelowTables, takeIn } from "../../../src/grid/adapter/rows-below-tables";
import { type Engine, openEngine } from "../engine";
import { smallPlan } from "../plan";

/** The table of the plan has its headings in row 3 and its rows in 4 to 6; its last column is calculated. */
describe("a table", () => {
  let engine: Engine;

  beforeEach(async () => {
    engine = await openEngine(smallPlan);
    growTables(engine.api, engine.injector);
    // Undo works on the workbook that has the focus.
    engine.injector.get(IUniverInstanceService).focusUnit(engine.api.getActiveWorkbook()?.getId() ?? "");
  });

  afterEach(() => {
    engine.close();
  });

  function sheet(name = "Log O'Hara") {
    const found = engine.api.getActiveWorkbook()?.getSheetByName(name);
    if (!found) throw new Error(`There is no sheet ${name}.`);
    return found;
  }

  function raw(address: string, name?: string) {
    const { row, column } = cellAddress(address);
    return sheet(name).getSheet().getCellRaw(row, column);
  }

  async function type(address: string, value: string | number): Promise<void> {
    const { row, column } = cellAddress(address);
    const t = typeof value === "number" ? CellValueType.NUMBER : CellValueType.STRING;
    sheet().getRange(row, column).setValue({ v: value, t });
    await engine.settled();
  }

  function lastRow(): number {
    return (sheet().getSubTableInfos()[0]?.range.endRow ?? -1) + 1;
  }

  test("takes in what is typed just below it, and the answers count it at once and later", async () => {
    // The engine keeps a formula as it reads it now, with the table as it is now.
    await type("C5", 2.5);
    expect(raw("E1", "Answers")?.v).toBe(4);
    await type("B7", "b");
    expect(lastRow()).toBe(7);
    expect(raw("E2", "Answers")?.v).toBe("[[1.5],[2.5],[null],[null]]");
    await type("C7", 3);
    expect(raw("E2", "Answers")?.v).toBe("[[1.5],[2.5],[null],[3]]");
    await type("C7", 4);
    expect(raw("E1", "Answers")?.v).toBe(8);
  });

  test("fills its calculated column and keeps what was typed", async () => {
    await type("C7", 3);
    expect(raw("C7")).toMatchObject({ v: 3, t: CellValueType.NUMBER });
    expect(raw("D7")).toMatchObject({ f: "=Log_A[[#This Row],[Length (s)]]*2", v: 6, s: raw("D6")?.s });
  });

  test("grows row by row beyond the rows that were prepared", async () => {
    for (let row = 7; row < 7 + PREPARED_ROWS + 2; row += 1) {
      const { column } = cellAddress("B1");
      sheet()
        .getRange(row - 1, column)
        .setValue({ v: "0110", t: CellValueType.STRING });
      // Each row is taken in before the next is typed, as a person types.
      await new Promise((resolve) => setTimeout(resolve, 0));
    }
    await engine.settled();
    const end = 6 + PREPARED_ROWS + 2;
    expect(lastRow()).toBe(end);
    expect(raw(`B${String(end + 1)}`)?.s).toBe(raw("B6")?.s);
    expect(raw(`D${String(end + 1)}`)?.f).toBeUndefined();
  });

  test("takes in a whole pasted block", async () => {
    sheet()
      .getRange(6, 1, 3, 1)
      .setValues([["c"], ["d"], ["c"]]);
    await engine.settled();
    expect(lastRow()).toBe(9);
    expect(["D7", "D8", "D9"].map((address) => raw(address)?.f)).toEqual(
      Array(3).fill("=Log_A[[#This Row],[Length (s)]]*2"),
    );
  });

  test.each([
    ["a row further down", "B8"],
    ["beside it", "E7"],
    ["inside it", "B5"],
  ])("stays as it is when something is typed %s", async (_, address) => {
    await type(address, "c");
    expect(lastRow()).toBe(6);
  });

  test("stays as it is when the cell below is cleared", async () => {
    await type("B7", "");
    expect(lastRow()).toBe(6);
  });

  describe("with rows below it that are not counted", () => {
    async function typeRow(row: number): Promise<void> {
      await type(`B${String(row)}`, "c");
      await type(`C${String(row)}`, 3);
    }

    const below = () => rowsBelowTables(engine.api).map(({ sheetName, rows }) => ({ sheetName, rows }));

    test("tells them when a line was left empty", async () => {
      expect(below()).toEqual([]);
      await typeRow(8);
      await typeRow(11);
      expect(lastRow()).toBe(6);
      expect(below()).toEqual([{ sheetName: "Log O'Hara", rows: [7, 10] }]);
    });

    test("takes them in, with the calculated column, and gives them back in one step", async () => {
      await typeRow(8);
      const [found] = rowsBelowTables(engine.api);
      if (!found) throw new Error("Nothing was found below the table.");
      const done = engine.settled();
      await takeIn(engine.api, engine.injector, found);
      await done;
      expect(lastRow()).toBe(8);
      expect(below()).toEqual([]);
      expect(raw("D8")).toMatchObject({ f: "=Log_A[[#This Row],[Length (s)]]*2", v: 6 });
      expect(raw("E1", "Answers")?.v).toBe(6.5);
      await engine.api.undo();
      await engine.settled();
      expect(lastRow()).toBe(6);
      expect(raw("E1", "Answers")?.v).toBe(3.5);
      expect(raw("C8")?.v).toBe(3);
      expect(raw("D8")?.f).toBeUndefined();
      expect(below()).toEqual([{ sheetName: "Log O'Hara", rows: [7] }]);
    });

    test("takes a pasted block back in two steps, its growth first, and does it again", async () => {
      const answer = () => raw("E1", "Answers")?.v;
      sheet()
        .getRange(6, 1, 2, 2)
        .setValues([
          ["c", 3],
          ["d", 4],
        ]);
      await engine.settled();
      expect([lastRow(), answer()]).toEqual([8, 10.5]);
      await engine.api.undo();
      await engine.settled();
      expect([lastRow(), answer(), raw("C8")?.v]).toEqual([6, 3.5, 4]);
      expect(below()).toEqual([{ sheetName: "Log O'Hara", rows: [6, 7] }]);
      await engine.api.undo();
      await engine.settled();
      expect([lastRow(), answer(), raw("C8")?.v]).toEqual([6, 3.5, undefined]);
      expect(below()).toEqual([]);
      await engine.api.redo();
      await engine.settled();
      expect([lastRow(), answer(), raw("D8")?.v]).toEqual([8, 10.5, 8]);
    });

    test("leaves a note alone, and a sum", async () => {
      await type("B9", "Bring the short batons");
      sheet().getRange(9, 1).setValue({ f: "=COUNTA(B4:B6)" });
      sheet().getRange(9, 2).setValue({ f: "=SUM(C4:C6)" });
      await engine.settled();
      expect(below()).toEqual([]);
    });
  });
});
