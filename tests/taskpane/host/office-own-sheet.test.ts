import { officeHost } from "../../../src/taskpane/host/office-host";
import { texts } from "../../../src/taskpane/words/texts";
import { fakeSheets, type FakeSheets, type HeldCell, type HeldSheet, type SheetsOptions } from "../fake-office-sheets";

let host: FakeSheets;

function open(options: SheetsOptions): void {
  host = fakeSheets(options);
  Object.assign(globalThis, {
    Excel: { run: <Answer>(work: (context: Excel.RequestContext) => Promise<Answer>) => work(host.context) },
  });
}

type Held = HeldCell | string | number | boolean | null;

/** A sheet from rows of values, the first row at A1. */
function sheet(name: string, rows: readonly (readonly Held[])[], more: Partial<HeldSheet> = {}): HeldSheet {
  const cells = new Map<string, HeldCell>();
  rows.forEach((row, at) =>
    row.forEach((value, column) => {
      if (value === null) return;
      cells.set(`${String.fromCharCode(65 + column)}${String(at + 1)}`, typeof value === "object" ? value : { value });
    }),
  );
  return { name, cells, ...more };
}

const day = (value: number, text: string): HeldCell => ({ value, format: "dd/mm/yyyy", text });

const log = sheet("Log", [
  ["Our log"],
  [],
  ["Day", "Who", "Trick", "Marks", null, "When", "Contest", "Who", "Drops"],
  [day(46000, "09/12/2025"), "M.K.", "Two spin", "ccd", null, day(46010, "19/12/2025"), "Winter", "M.K.", 1],
  [day(46001, "10/12/2025"), "A.R.", "Two spin", { value: "#N/A", formula: "=NA()" }],
]);

describe("what is read as the log", () => {
  test.each<[because: string, selected: string, from: readonly [number, number], size: readonly [number, number]]>([
    ["one cell: the columns around it, all rows", "B4", [1, 1], [5, 4]],
    ["one cell of the list beside it", "H4", [1, 6], [5, 4]],
    ["the title over the log", "A1", [1, 1], [5, 4]],
    ["the headings: these columns, from there down", "A3:D3", [3, 1], [3, 4]],
    ["whole columns", "A1:D9999", [1, 1], [5, 4]],
    ["one column only: those around it", "D3:D5", [1, 1], [5, 4]],
  ])("%s", async (_, selected, [row, column], [rows, columns]) => {
    open({ sheets: [log], active: "Log", selected });
    const { block, sheet: name, table } = await officeHost.readLog();
    expect([name, table]).toEqual(["Log", null]);
    expect([block.row, block.column]).toEqual([row, column]);
    expect([block.values.length, block.values[0]?.length]).toEqual([rows, columns]);
    expect(host.done).toEqual([]);
  });

  test("values, formats, errors and what is shown come over", async () => {
    open({ sheets: [log], active: "Log", selected: "A4" });
    const { block } = await officeHost.readLog();
    expect(block.values[3]).toEqual([46000, "M.K.", "Two spin", "ccd"]);
    expect(block.values[1]).toEqual([null, null, null, null]);
    expect(block.values[4]?.[3]).toEqual({ error: "#N/A" });
    expect([block.numberFormats?.[3]?.[0], block.texts?.[3]?.[0]]).toEqual(["dd/mm/yyyy", "09/12/2025"]);
  });

  test("a table is read whole, by one cell of it, and without its row of sums", async () => {
    const tables = [{ name: "Our_log", area: "A3:D6", totals: true }];
    const rows = [...Array.from(log.cells)];
    open({
      sheets: [{ ...log, cells: new Map([...rows, ["A6", { value: "Total" }]]), tables }],
      active: "Log",
      selected: "C4",
    });
    const { block, table } = await officeHost.readLog();
    expect(table?.name).toBe("Our_log");
    expect([...(table?.headings ?? [])]).toEqual([
      [1, "Day"],
      [2, "Who"],
      [3, "Trick"],
      [4, "Marks"],
    ]);
    expect([block.row, block.column, block.values.length]).toEqual([3, 1, 3]);
  });

  test("a table whose headings are hidden is read as any other cells", async () => {
    open({
      sheets: [{ ...log, tables: [{ name: "Our_log", area: "A3:D5", showHeaders: false }] }],
      active: "Log",
      selected: "C4",
    });
    expect((await officeHost.readLog()).table).toBeNull();
  });

  test("an empty sheet is said to be empty", async () => {
    open({ sheets: [sheet("Empty", [])], active: "Empty", selected: "B2" });
    await expect(officeHost.readLog()).rejects.toThrow(texts.nothingToRead);
  });
});

describe("a long log", () => {
  const rows = Array.from({ length: 9000 }, (_, row) => [day(40000 + row, ""), "M.K.", "Two spin", "ccdcc"]);

  test("is read in rounds, and says how far it is", async () => {
    open({ sheets: [sheet("Log", [["Day", "Who", "Trick", "Marks"], ...rows])], active: "Log", selected: "A1" });
    const told: number[] = [];
    const { block } = await officeHost.readLog((done, of) => {
      expect(of).toBe(9001);
      told.push(done);
    });
    expect(block.values.length).toBe(9001);
    expect(block.values[9000]).toEqual([48999, "M.K.", "Two spin", "ccdcc"]);
    expect(block.numberFormats?.length).toBe(9001);
    // Values, formats and texts of 12,000 cells with notes of a hundred letters stay under 5 MB.
    expect(host.largest()).toBeLessThanOrEqual(12_000);
    expect(told.length).toBeGreaterThan(2);
    expect([...told].sort((one, other) => one - other)).toEqual(told);
  });

  test("is read in smaller rounds where the host finds that too much", async () => {
    open({
      sheets: [sheet("Log", [["Day", "Who", "Trick", "Marks"], ...rows.slice(0, 2000)])],
      active: "Log",
      selected: "A1",
      mostCells: 900,
    });
    const { block } = await officeHost.readLog();
    expect(block.values.length).toBe(2001);
    expect(block.values.map(([value]) => value).slice(1)).toEqual(
      rows.slice(0, 2000).map(([one]) => (one as HeldCell).value),
    );
  });

  test("is given up where even one row is too much", async () => {
    open({ sheets: [log], active: "Log", selected: "A4", mostCells: 2 });
    await expect(officeHost.readLog()).rejects.toThrow(/Too much at once/);
  });
});

test("a cell is shown and selected; a sheet that is gone is said to be gone", async () => {
  open({ sheets: [log], active: "Log", selected: "A1" });
  await officeHost.goToCell("Log", { row: 5, column: 4 });
  expect(host.done).toEqual(["Log activated", "Log!D5 selected"]);
  await expect(officeHost.goToCell("Log 2", { row: 5, column: 4 })).rejects.toThrow(texts.sheetGone("Log 2"));
});

describe("formulas that the workbook does not know", () => {
  const call = (formula: string, value: string | number = "#NAME?"): HeldCell => ({ formula, value });
  const knows = (formula: string): string | number => (formula.includes("UNHEARD") ? "#NAME?" : 7);

  test("are written again on every sheet, and nothing else is", async () => {
    open({
      sheets: [
        sheet("One", [
          [call("=_xldudf_TWIRL_STREAK(C1:C9)", 4), call("=SUM(A1)", 4), "TWIRL.STREAK"],
          [call("=TWIRL.STREAK(C1:C9)"), call("=TWIRL.STREAK(C1:C9)", 3), call("=UNKNOWN(A1)")],
        ]),
        sheet("Empty", []),
        sheet("Two", [
          [call("=_xldudf_TWIRL_BOARD(A9:A99)"), { ...call("=_xldudf_TWIRL_BOARD(A9:A99)"), spilledFrom: "A1" }],
        ]),
      ],
      active: "One",
      selected: "A1",
      answer: knows,
    });
    expect(await officeHost.repairFormulas()).toEqual({
      repaired: 3,
      stillUnknown: 0,
      refused: 0,
      protectedSheets: [],
    });
    expect(host.done).toEqual([
      "One!A1 = =TWIRL.STREAK(C1:C9)",
      "One!A2 = =TWIRL.STREAK(C1:C9)",
      "Two!A1 = =TWIRL.BOARD(A9:A99)",
    ]);
  });

  test("a connection that goes at any step leaves each cell as it was or as it is to be; again mends the others", async () => {
    const rows = () => [
      [call("=_xldudf_TWIRL_STREAK(C1)"), call("=SUM(A1)", 4)],
      [call("=_xldudf_TWIRL_STREAK(C2)"), call("=_xldudf_TWIRL_STREAK(C3)")],
    ];
    const all = ["One!A1 = =TWIRL.STREAK(C1)", "One!A2 = =TWIRL.STREAK(C2)", "One!B2 = =TWIRL.STREAK(C3)"];
    open({ sheets: [sheet("One", rows())], active: "One", selected: "A1", answer: knows });
    await officeHost.repairFormulas();
    const steps = host.syncs();
    expect(steps).toBeGreaterThan(2);
    for (let goneAtSync = 1; goneAtSync <= steps; goneAtSync += 1) {
      const held = sheet("One", rows());
      open({ sheets: [held], active: "One", selected: "A1", answer: knows, goneAtSync });
      await officeHost.repairFormulas().catch(() => undefined);
      // Whatever was written is whole, and nothing but the broken calls was.
      expect(host.done.filter((written) => !all.includes(written))).toEqual([]);
      open({ sheets: [held], active: "One", selected: "A1", answer: knows });
      await officeHost.repairFormulas();
      expect([...held.cells.values()].map(({ formula }) => formula)).toEqual([
        "=TWIRL.STREAK(C1)",
        "=SUM(A1)",
        "=TWIRL.STREAK(C2)",
        "=TWIRL.STREAK(C3)",
      ]);
    }
  });

  test("on a protected sheet stay, and are told", async () => {
    open({
      sheets: [
        sheet("Safe", [[call("=_xldudf_TWIRL_STREAK(C1)"), call("=_xldudf_TWIRL_STREAK(C1)")]], { protected: true }),
        sheet("Free", [[call("=_xldudf_TWIRL_STREAK(C1)")]]),
      ],
      active: "Safe",
      selected: "A1",
      answer: knows,
    });
    expect(await officeHost.repairFormulas()).toEqual({
      repaired: 1,
      stillUnknown: 0,
      refused: 0,
      protectedSheets: [{ sheet: "Safe", cells: 2 }],
    });
    expect(host.done).toEqual(["Free!A1 = =TWIRL.STREAK(C1)"]);
  });

  test("that stay unknown, and cells that the host will not write, are counted apart", async () => {
    open({
      sheets: [
        sheet("One", [
          [call("=TWIRL.UNHEARD(C1)"), call("=_xldudf_TWIRL_STREAK(C1)"), call("=_xldudf_TWIRL_STREAK(C2)")],
        ]),
      ],
      active: "One",
      selected: "A1",
      answer: knows,
      refusedCells: ["One!B1"],
    });
    expect(await officeHost.repairFormulas()).toEqual({
      repaired: 1,
      stillUnknown: 1,
      refused: 1,
      protectedSheets: [],
    });
  });

  test("are none in most workbooks", async () => {
    open({ sheets: [log, sheet("Empty", [])], active: "Log", selected: "A1" });
    expect(await officeHost.repairFormulas()).toEqual({
      repaired: 0,
      stillUnknown: 0,
      refused: 0,
      protectedSheets: [],
    });
    expect(host.done).toEqual([]);
  });
});
