import { CellValueType, type ICellData, ICommandService, type IRange, IUniverInstanceService } from "@univerjs/core";
import { SortRangeCommand, SortType } from "@univerjs/sheets-sort";

import { cellAddress } from "../../../src/page/addresses";
import { growTables } from "../../../src/grid/mends/growing-tables";
import { sortRows } from "../../../src/grid/mends/sort-rows";
import { type Engine, openEngine } from "../engine";
import { smallPlan } from "../plan";

/** The table of the plan has its headings in row 3 and its rows in 4 to 6; its last column is calculated. */
describe("sorting a table", () => {
  let engine: Engine;
  let refusals: string[];

  beforeEach(async () => {
    engine = await openEngine(smallPlan);
    growTables(engine.api, engine.injector);
    // Undo works on the workbook that has the focus.
    engine.injector.get(IUniverInstanceService).focusUnit(engine.api.getActiveWorkbook()?.getId() ?? "");
    refusals = [];
    sortRows(engine.injector, (reason) => refusals.push(reason));
  });

  afterEach(() => {
    engine.close();
  });

  function sheet(name = "Log O'Hara") {
    const found = engine.api.getActiveWorkbook()?.getSheetByName(name);
    if (!found) throw new Error(`There is no sheet ${name}.`);
    return found;
  }

  function put(address: string, cell: ICellData): void {
    const { row, column } = cellAddress(address);
    sheet().getRange(row, column).setValue(cell);
  }

  /** What is in the column from row 4 to the last one, `undefined` for nothing. */
  function column(letter: string, last = 6): unknown[] {
    return Array.from({ length: last - 3 }, (_, index) => raw(`${letter}${String(index + 4)}`)?.v);
  }

  function raw(address: string, name?: string) {
    const { row, column: at } = cellAddress(address);
    return sheet(name).getSheet().getCellRaw(row, at);
  }

  function everyCell(): unknown {
    return structuredClone(sheet().getSheet().getCellMatrix().getMatrix());
  }

  async function sort(letter: string, type: SortType, range: Partial<IRange> = {}, hasTitle = false): Promise<boolean> {
    const done = await engine.injector.get(ICommandService).executeCommand(SortRangeCommand.id, {
      unitId: engine.api.getActiveWorkbook()?.getId(),
      subUnitId: sheet().getSheetId(),
      range: { startRow: 3, endRow: 5, startColumn: 0, endColumn: 3, ...range },
      orderRules: [{ colIndex: cellAddress(`${letter}1`).column, type }],
      hasTitle,
    });
    return done;
  }

  const text = (v: string): ICellData => ({ v, t: CellValueType.STRING });

  test("moves whole rows, text as it was typed and days as days", async () => {
    await sort("B", SortType.DESC);
    expect(column("B")).toEqual(["c", "0110", "=1+1"]);
    // Each day is still beside the mark that it was typed with.
    const days: Record<string, number> = { c: 46391, "0110": 46392, "=1+1": 46393 };
    expect(column("A")).toEqual(column("B").map((mark) => days[String(mark)]));
    expect([4, 5, 6].map((row) => raw(`B${String(row)}`)?.t)).toEqual(Array(3).fill(CellValueType.STRING));
    expect([4, 5, 6].map((row) => raw(`A${String(row)}`)?.t)).toEqual(Array(3).fill(CellValueType.NUMBER));
  });

  test("keeps the calculated column right, and the answers that read the table", async () => {
    put("C6", { v: 0.5, t: CellValueType.NUMBER });
    await engine.settled();
    expect(column("D")).toEqual([3, 4, 1]);
    await sort("C", SortType.ASC);
    await engine.settled();
    expect(column("C")).toEqual([0.5, 1.5, 2]);
    expect(column("D")).toEqual([1, 3, 4]);
    expect(raw("E2", "Answers")?.v).toBe("[[0.5],[1.5],[2]]");
    // The formula is still one that follows what is typed.
    put("C4", { v: 5, t: CellValueType.NUMBER });
    await engine.settled();
    expect(column("D")).toEqual([10, 3, 4]);
  });

  test("moves a formula of a single row along, so that it reads its own row", async () => {
    put("C5", { f: "=$A5-46390+A5*0" });
    await engine.settled();
    expect(column("C")).toEqual([1.5, 2, undefined]);
    await sort("A", SortType.DESC, { endRow: 4 });
    await engine.settled();
    expect(raw("C4")?.f).toBe("=$A4-46390+A4*0");
    expect(column("C")).toEqual([2, 1.5, undefined]);
    expect(raw("C5")?.f).toBeUndefined();
  });

  test("is taken back and done again in one step each, to the last cell", async () => {
    put("C5", { f: "=A5-46390" });
    await engine.settled();
    const before = everyCell();
    const formerly = raw("E2", "Answers")?.v;
    await sort("A", SortType.DESC);
    await engine.settled();
    const after = everyCell();
    expect(after).not.toEqual(before);
    for (let round = 0; round < 2; round += 1) {
      await engine.api.undo();
      await engine.settled();
      expect(everyCell()).toEqual(before);
      expect(raw("E2", "Answers")?.v).toBe(formerly);
      await engine.api.redo();
      await engine.settled();
      expect(everyCell()).toEqual(after);
    }
  });

  test.each([
    [SortType.ASC, [2, 10, "0110", "9", "Ed", "Émil", "Eva", "x-b", "xa", true]],
    [SortType.DESC, [true, "xa", "x-b", "Eva", "Émil", "Ed", "9", "0110", 10, 2]],
  ])("orders numbers, text as in a dictionary, then truths: %s", async (type, expected) => {
    const values = ["xa", 10, "Eva", true, "9", "x-b", 2, "Émil", "0110", "Ed"];
    values.forEach((v, index) => {
      const t =
        typeof v === "number"
          ? CellValueType.NUMBER
          : typeof v === "boolean"
            ? CellValueType.BOOLEAN
            : CellValueType.STRING;
      put(`H${String(index + 4)}`, { v: v === true ? 1 : (v as string | number), t });
    });
    await sort("H", type, { endRow: 13, startColumn: 7, endColumn: 7 });
    expect(column("H", 13)).toEqual(expected.map((v) => (v === true ? 1 : v)));
  });

  test("reads text that is marked as text as text", async () => {
    ["ccdc", "0110", "cd", "110"].forEach((v, index) =>
      put(`H${String(index + 4)}`, { v, t: CellValueType.FORCE_STRING }),
    );
    await sort("H", SortType.ASC, { endRow: 7, startColumn: 7, endColumn: 7 });
    expect(column("H", 7)).toEqual(["0110", "110", "ccdc", "cd"]);
  });

  test.each([SortType.ASC, SortType.DESC])("puts gaps last and empty rows after them: %s", async (type) => {
    // Row by row: a gap in the column, nothing at all, a value, nothing at all, another gap.
    const rows: readonly (readonly [string, string])[] = [
      ["first", ""],
      ["", ""],
      ["third", "m"],
      ["", ""],
      ["fifth", ""],
    ];
    rows.forEach(([left, right], index) => {
      if (left !== "") put(`H${String(index + 4)}`, text(left));
      if (right !== "") put(`I${String(index + 4)}`, text(right));
    });
    await sort("I", type, { endRow: 8, startColumn: 7, endColumn: 8 });
    expect(column("H", 8)).toEqual(["third", "first", "fifth", undefined, undefined]);
    expect(column("I", 8)).toEqual(["m", undefined, undefined, undefined, undefined]);
  });

  test.each([SortType.ASC, SortType.DESC])("leaves equal rows in their order: %s", async (type) => {
    for (let row = 4; row < 24; row += 1) {
      put(`H${String(row)}`, text(row % 2 === 0 ? "a" : "b"));
      put(`I${String(row)}`, { v: row, t: CellValueType.NUMBER });
    }
    await sort("H", type, { endRow: 22, startColumn: 7, endColumn: 8 });
    const even = [4, 6, 8, 10, 12, 14, 16, 18, 20, 22];
    const odd = even.map((row) => row + 1);
    expect(column("I", 23)).toEqual(type === SortType.ASC ? [...even, ...odd] : [...odd, ...even]);
  });

  test("leaves the first row where it is said to be a title", async () => {
    await sort("A", SortType.DESC, { startRow: 2 }, true);
    expect(raw("A3")?.v).toBe("Date");
    expect(column("A")).toEqual([46393, 46392, 46391]);
  });

  test("leaves what is sorted already without a step for Undo", async () => {
    const before = everyCell();
    expect(await sort("A", SortType.ASC)).toBe(true);
    await engine.api.undo();
    expect(everyCell()).toEqual(before);
  });

  test("says why it does not sort merged cells, and what a formula has filled", async () => {
    sheet().getRange(3, 0, 2, 1).merge();
    const merged = everyCell();
    expect(await sort("A", SortType.DESC)).toBe(false);
    expect(refusals).toEqual([expect.stringContaining("merged")]);
    expect(everyCell()).toEqual(merged);

    put("H4", { f: "=TWIRL.TALLY(B4:B6)" });
    await engine.settled();
    const filled = everyCell();
    expect(await sort("H", SortType.DESC, { startColumn: 7, endColumn: 8 })).toBe(false);
    expect(refusals).toEqual([expect.anything(), expect.stringContaining("formula")]);
    expect(everyCell()).toEqual(filled);
  });
});
