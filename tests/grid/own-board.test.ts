/**
 * The board over a club's own log, worked out by the page's engine with the built functions, in both kinds of host.
 */
import { rowsAsRead } from "../../src/core/log-layout/as-read";
import { findLayout, type Corrections } from "../../src/core/log-layout/find-layout";
import { stagesInLog } from "../../src/core/log-layout/stages";
import { unreadableCells } from "../../src/core/log-layout/unreadable-cells";
import { isError, type CellBlock } from "../../src/core/log-layout/cell-block";
import { calculate, type HeadlessSheet } from "../../src/grid/headless";
import type { EmptyCells } from "../../src/grid/engine/custom-functions";
import { namesInLog, namesOfRow, ownLogOf } from "../../src/taskpane/parts/own-sheet/own-log";
import { checkPlan } from "../../src/workbook/plan/check-plan";
import { printFormula } from "../../src/workbook/plan/formula";
import { ownBoardName, ownBoardPlan, type OwnLog } from "../../src/workbook/own-board/own-board";
import type { CellPlan, Content, SheetPlan, WorkbookPlan } from "../../src/workbook/plan/schema";
import { builtFunctions } from "../../src/tools/build-samples";
import { layouts, type ClubLayout } from "../core/log-layout/layouts";
import { day, serial, sheet, turned } from "../core/log-layout/sheets";
import { lookAtLog } from "../../src/taskpane/parts/own-sheet/own-sheet-state";

const LOG = "Our log 2019–2026";

type Rows = Parameters<typeof sheet>[1];

function contentOf(value: CellBlock["values"][number][number]): Content {
  if (value === null) return { kind: "empty" };
  if (isError(value)) return { kind: "text", text: value.error };
  if (typeof value === "number") return { kind: "number", value };
  return { kind: "text", text: value === true ? "TRUE" : value === false ? "FALSE" : value };
}

/** The club's sheet with more rows written below it, from the row after its last one on. */
function logSheet(block: CellBlock, more: CellBlock["values"] = []): SheetPlan {
  const rows = [...block.values, ...more];
  return {
    name: LOG,
    columnWidths: [],
    areas: [],
    cells: rows.flatMap((row, at) =>
      row.flatMap((value, index): CellPlan[] => {
        const content = contentOf(value);
        if (content.kind === "empty") return [];
        const place = { row: block.row + at, column: block.column + index };
        return [{ at: place, content, look: "plain", format: "general" }];
      }),
    ),
    tables: [],
    charts: [],
    validations: [],
    rules: [],
    frozen: { rows: 0, columns: 0 },
  };
}

interface Board {
  readonly rowsRead: unknown;
  readonly rowsLeftOut: unknown;
  readonly firstLeftOut: unknown;
  readonly value: (address: string) => unknown;
  /** Athlete, trick, attempts and last set of each row of the board. */
  readonly rows: readonly (readonly unknown[])[];
}

function readBoard(answers: HeadlessSheet): Board {
  const value = (address: string): unknown => {
    const found = answers.values.get(address);
    if (found === undefined) return undefined;
    if (found.kind === "text") return found.text;
    return found.kind === "error" ? `${found.name} ${answers.messages.get(address) ?? ""}` : found.value;
  };
  const rows: unknown[][] = [];
  for (let row = 9; value(`A${String(row)}`) !== undefined; row += 1) {
    rows.push(["A", "B", "C", "D"].map((column) => value(`${column}${String(row)}`)));
  }
  return { rowsRead: value("F4"), rowsLeftOut: value("F5"), firstLeftOut: value("F6"), value, rows };
}

const EMPTY_CELLS: readonly EmptyCells[] = ["zero", "null"];

async function boards(plan: WorkbookPlan, name: string): Promise<readonly Board[]> {
  const answers: Board[] = [];
  for (const emptyCells of EMPTY_CELLS) {
    const found = (await calculate(plan, { ...builtFunctions(), emptyCells })).get(name);
    if (!found) throw new Error(`No sheet ${name}`);
    answers.push(readBoard(found));
  }
  return answers;
}

async function boardsOver(
  block: CellBlock,
  corrections: Parameters<typeof findLayout>[1] = {},
  more: CellBlock["values"] = [],
): Promise<{ readonly boards: readonly Board[]; readonly found: ReturnType<typeof unreadableCells> }> {
  const layout = findLayout(block, corrections);
  const log = ownLogOf(LOG, null, layout);
  if (log === null) throw new Error("Something is missing.");
  const found = unreadableCells(block, layout.mapping, layout.headingRows);
  const sheetName = ownBoardName(LOG, []);
  const plan = ownBoardPlan(log, {
    sheetName,
    standard: 0.8,
    setSize: 10,
    focus: namesOfRow(block, layout, found.latestRow),
    athletes: namesInLog(block, layout, "athlete"),
    tricks: namesInLog(block, layout, "trick"),
    marksLeftOut: found.unknownMarks.map(({ text }) => text),
    stagesApart: stagesInLog(block, layout.mapping)
      .filter(({ soundsApart }) => soundsApart)
      .map(({ stage }) => stage),
    roomRows: 40,
  });
  expect(checkPlan(plan)).toEqual([]);
  const both = { ...plan, sheets: [logSheet(block, more), ...plan.sheets] };
  return { boards: await boards(both, sheetName), found };
}

describe.each(layouts.map((layout) => [layout.name, layout] as const))("%s", (_, layout) => {
  test("the board reads the rows that are not listed as unreadable", async () => {
    const { boards: answers, found } = await boardsOver(layout.block, layout.corrections);
    expect(answers.length).toBe(2);
    for (const board of answers) {
      expect(board.value("A8")).toBe("Athlete");
      expect(board.rows.length).toBeGreaterThan(0);
      // In a row of several cells one unreadable mark is left out and the others are read.
      const manyCells = typeof board.value("F7") === "number";
      if (!manyCells) expect(board.rowsRead).toBe(found.readable - (layout.apart ?? 0));
      if (!manyCells) expect(board.rowsLeftOut).toBe(found.entries - found.readable);
      expect(Number(board.rowsRead) + Number(board.rowsLeftOut)).toBe(found.entries - (layout.apart ?? 0));
      expect(board.value("O8")).toBe("Date");
    }
    expect(answers[1]?.rows).toEqual(answers[0]?.rows);
  });
});

function layoutCalled(start: string): ClubLayout {
  const found = layouts.find(({ name }) => name.startsWith(start));
  if (!found) throw new Error(`No layout ${start}`);
  return found;
}

async function boardOf(start: string, more: CellBlock["values"] = []): Promise<Board> {
  const layout = layoutCalled(start);
  const { boards: answers } = await boardsOver(layout.block, layout.corrections, more);
  const [first] = answers;
  if (!first) throw new Error("No board");
  return first;
}

describe("the figures, added up by hand", () => {
  test.each<[start: string, rows: readonly (readonly unknown[])[]]>([
    [
      "a French log",
      [
        ["J.T.", "Double tour", 10, "9/10"],
        ["J.T.", "Illusion", 10, "4/10"],
        ["M.K.", "Double tour", 10, "7/10"],
      ],
    ],
    [
      // A 2 among the numbers 1 and 0 is left out; the other three attempts of that row count.
      "one column an attempt with the numbers",
      [
        ["A.R.", "Thumb flip", 3, "2/3"],
        ["A.R.", "Two spin", 4, "2/4"],
        ["M.K.", "Thumb flip", 4, "4/4"],
        ["M.K.", "Two spin", 4, "3/4"],
      ],
    ],
    [
      // Catches and drops: 6 of 10, 9 of 10, 12 of 15; the row without drops is left out.
      "an Italian log",
      [
        ["G.M.", "Illusione doppia", 10, "6/10"],
        ["S.P.", "Illusione doppia", 10, "9/10"],
        ["S.P.", "Ruota", 15, "12/15"],
      ],
    ],
    [
      // 12 throws and 2 drops are 10 of 12; 10 and 5 are 5 of 10.
      "throws and drops",
      [
        ["A.R.", "Two spin", 10, "5/10"],
        ["M.K.", "Two spin", 12, "10/12"],
      ],
    ],
    [
      // x is caught: xxoxx, xooxx, xxx(-)x, xxOxx.
      "a Portuguese log",
      [
        ["B.A.", "Dois giros", 5, "3/5"],
        ["B.A.", "Roda", 5, "4/5"],
        ["R.F.", "Dois giros", 5, "4/5"],
        ["R.F.", "Roda", 4, "4/4"],
      ],
    ],
    [
      "one athlete's own sheet",
      [
        ["M.K.", "Illusion", 10, "5/10"],
        ["M.K.", "Two spin", 20, "9/10"],
      ],
    ],
  ])("%s", async (start, rows) => {
    expect((await boardOf(start)).rows).toEqual(rows);
  });

  test("a day that is written once a practice stands for the rows below", async () => {
    const board = await boardOf("months apart");
    const last = Object.fromEntries(
      board.rows.map(([athlete], index) => [athlete, board.value(`L${String(9 + index)}`)]),
    );
    // A.R.'s row of October cannot be read.
    expect(last).toEqual({ "A.R.": serial("2025-09-01"), "J.T.": serial("2025-10-01"), "M.K.": serial("2025-10-01") });
  });

  test("days as text are read in the form that the coach has said", async () => {
    const board = await boardOf("days as text that read both ways");
    expect(board.rows).toEqual([
      ["J.T.", "Blind", 10, "4/10"],
      ["J.T.", "Two spin", 10, "9/10"],
      ["M.K.", "Two spin", 20, "8/10"],
    ]);
    // Month first: 7 April is July the 4th.
    expect(["L9", "L10", "L11"].map(board.value)).toEqual(["2026-07-04", "2026-03-04", "2026-05-04"].map(serial));
  });
});

const HEAD = ["Day", "Who", "Trick"];
const some = (cells: (index: number) => Rows[number]): Rows =>
  Array.from({ length: 6 }, (_, index) => [
    day(`2026-03-0${String(index + 1)}`),
    ["M.K.", "A.R."][index % 2] ?? "",
    index % 3 === 0 ? "Two\u00A0 spin" : "Two spin",
    ...cells(index),
  ]);

const withDays = (days: readonly string[]): Rows => [
  [...HEAD, "Marks"],
  ...days.map((one, index): Rows[number] => [one, ["M.K.", "A.R."][index % 2] ?? "", "Two spin", "ccd"]),
];

describe("what the pane says will be counted is what the formulas count", () => {
  test.each<[because: string, rows: Rows, corrections: Corrections]>([
    ["an empty cell is dropped", [[...HEAD, 1, 2, 3], ...some((index) => ["✓", index % 2 === 0 ? null : "✓", null])], { key: null, blank: "dropped" }], // prettier-ignore
    ["an empty cell is caught", [[...HEAD, 1, 2, 3], ...some((index) => ["x", index === 2 ? "sick" : null, null])], { key: "c/x", blank: "caught" }], // prettier-ignore
    ["1 and nothing", [[...HEAD, 1, 2, 3], ...some((index) => [1, index % 2 === 0 ? null : 1, null])], { key: "1/0", blank: "dropped" }], // prettier-ignore
    ["one attempt a row", [[...HEAD, "Caught"], ...some((index) => [index % 2 === 0 ? null : "✓"])], { key: null, blank: "dropped" }], // prettier-ignore
    ["drops", [[...HEAD, "Drops"], ...some((index) => [index === 3 ? "12/10" : `${String(index)}/10`])], {}],
    ["caught and dropped", [[...HEAD, "Caught/dropped"], ...some((index) => [`${String(index)}/${String(10 - index)}`])], {}], // prettier-ignore
    ["dropped and caught", [[...HEAD, "Drops/caught"], ...some((index) => [`${String(index)}/${String(10 - index)}`])], {}], // prettier-ignore
    ["tried and caught", [[...HEAD, "Tried/caught"], ...some((index) => [`10/${String(index + 2)}`])], {}],
    ["tried and dropped", [[...HEAD, "Tried/dropped"], ...some((index) => [`10/${String(index + 1)}`])], {}],
    ["tallies that became days", [[...HEAD, "Result"], ...some((index) => [index % 2 === 0 ? turned("2026-10-08", "8-Oct") : "9/10"])], { turned: "day/month" }], // prettier-ignore
    ["bails beside", [[...HEAD, "Caught", "Dropped", "Bails"], ...some((index) => [7, 2, index === 1 ? null : 1])], {}],
    ["tries, drops and bails", [[...HEAD, "Tried", "Dropped", "Bails"], ...some((index) => [10, 2, index === 1 ? null : 1])], {}], // prettier-ignore
    ["sums with a day", [[...HEAD, "Caught", "Tried"], ...some(() => [7, 10]), [day("2026-03-09"), "Week total", null, 42, 60], [day("2026-03-09"), "Week total", "Two spin", 42, 60]], {}], // prettier-ignore
    ["names over blocks", [["M.K."], ["Day", "Trick", "Marks"], [day("2026-03-01"), "Two spin", "ccd"], [], ["A.R."], ["Day", "Trick", "Marks"], [day("2026-03-01"), "Two spin", "cdd"], [day("2026-03-02"), "Two spin", "ccc"]], { athlete: { over: 1 } }], // prettier-ignore
    [
      "8 of 10",
      [[...HEAD, "Result"], ...some((index) => [index === 3 ? "sick of it" : `${String(index + 2)} of 10`])],
      {},
    ],
    ["8 : 10 and one as usual", [[...HEAD, "Result"], ...some((index) => [index === 3 ? "9/10" : `${String(index + 2)} : 10`])], {}], // prettier-ignore
    ["2 of 10, of drops", [[...HEAD, "Drops"], ...some((index) => [`${String(index)} of 10`])], {}],
    ["C-D-C", [[...HEAD, "Marks"], ...some((index) => ["C-D-C-C-D-C".slice(0, 3 + 2 * (index % 3)), "ok"])], {}],
    ["numbers as texts", [[...HEAD, "Caught", "Tried"], ...some((index) => [index === 2 ? " 7 " : String(index + 4), index === 3 ? "8/10" : "10"])], {}], // prettier-ignore
    ["numbers as texts, with bails", [[...HEAD, "Caught", "Dropped", "Bails"], ...some((index) => [String(index + 4), "2", index === 1 ? null : "1"])], {}], // prettier-ignore
    ["days in words", withDays(["Mon 7 Sep 2026", "Tue 8 Sept 2026", "Wed 9 Sep 2026", "Thu 31 Sep 2026", "Fri 11 Dec 2026", "soon"]), {}], // prettier-ignore
    ["days in French", withDays(["lun. 7 sept. 2026", "mar. 7 juil. 2026", "dim. 7 juin 2026", "sam. 7 févr. 2026", "ven. 7 août 2026", "lun. 7 déc. 2026"]), {}], // prettier-ignore
    ["days in German", withDays(["Mo., 7. September 2026", "Sa., 7. März 2026", "Do., 7. Mai 2026", "Mi., 7. Oktober 2026", "Fr., 7. August 2026"]), {}], // prettier-ignore
    ["the month first, in words", withDays(["September 7, 2026", "October 8, 2026", "March 12, 2026", "May 1, 2026"]), {}], // prettier-ignore
    ["time stamps", withDays(["2026-09-07T17:30:00Z", "2026-09-08T17:30:00Z", "2026-02-31T17:30:00Z", "2026-09-10T17:30:00Z"]), {}], // prettier-ignore
    ["days with a time", withDays(["27/9/2026 17:30", "28/9/2026 7:30", "13/10/2026 17:30", "1/11/2026 17:30"]), {}],
    ["another list below", [[...HEAD, "Caught", "Tried"], ...some((index) => [index, 10]), [], ["Date", "Contest", "Athlete", "Place", "Of"], [day("2026-05-16"), "Spring cup", "M.K.", 3, 7], [day("2026-06-13"), "Oxley open", "A.R.", 5, 8]], {}], // prettier-ignore
    ["names over blocks, with days as text", [["M.K."], ["Day", "Trick", "Marks"], ["13.1.2026", "Two spin", "ccd"], ["14.1.2026", null, null], [], ["A.R."], ["15.1.2026", "Two spin", "cdd"], ["16.1.2026", "Two spin", "ccc"]], { athlete: { over: 1 } }], // prettier-ignore
    ["the numbers of weeks in one row", [[...HEAD, "Marks"], ...some((index) => ["ccd".slice(0, 1 + (index % 3))]), [12, "M.K.", "Two spin", "ccc"]], {}], // prettier-ignore
  ])("%s", async (_, rows, corrections) => {
    const block = sheet("A1", rows);
    const { layout, unreadable } = lookAtLog({ sheet: LOG, table: null, block }, corrections);
    const read = rowsAsRead(block, layout.mapping, {
      marks: unreadable.unknownMarks.map(({ text }) => text),
      stages: [],
    });
    const sums = new Map<string, number>();
    for (const { athlete, attempts } of read) sums.set(athlete, (sums.get(athlete) ?? 0) + attempts);
    const latest = new Map(read.map((row) => [row.athlete, `${String(row.caught)}/${String(row.attempts)}`]));
    const { boards: answers } = await boardsOver(block, corrections);
    for (const board of answers) {
      expect(board.rows.map(([athlete, , attempts]) => [athlete, attempts])).toEqual(
        [...sums].sort(([one], [other]) => (one < other ? -1 : 1)),
      );
      // A tally is a set of its own; of marks in order the last ten are shown.
      if (read.every(({ attempts }) => attempts >= 10)) {
        expect(board.rows.map(([athlete, , , last]) => [athlete, last])).toEqual(
          [...latest].sort(([one], [other]) => (one < other ? -1 : 1)),
        );
      }
      expect(board.rowsRead).toBe(read.length);
    }
  });
});

describe("rows that are added later", () => {
  const english = "an English log";

  test("count once they are whole", async () => {
    const before = await boardOf(english);
    const later = [serial("2025-09-08"), "Z.Z.", "New trick", "Joined", "ccccc", null, null];
    const after = await boardOf(english, [later]);
    expect(after.rowsRead).toBe(Number(before.rowsRead) + 1);
    expect(after.rows).toEqual([...before.rows, ["Z.Z.", "New trick", 5, "5/5"]]);
  });

  test("are left out while something is missing, and the sheet says which row", async () => {
    const before = await boardOf("no headings: days, initials");
    const after = await boardOf("no headings: days, initials", [[serial("2025-09-10"), "M.K.", null, null]]);
    expect([before.rowsLeftOut, before.firstLeftOut]).toEqual([0, ""]);
    expect([after.rowsLeftOut, after.firstLeftOut]).toEqual([1, 7]);
    expect(after.rows).toEqual(before.rows);
  });

  test("a mark that is none and not listed is told below the board, and every other row counts", async () => {
    const board = await boardOf(english, [[serial("2025-09-08"), "M.K.", "Blind catch", "Joined", "sick", null, null]]);
    const before = await boardOf(english);
    expect(board.rows).toEqual([...before.rows, ["Not counted", "row 6", "", ""]]);
    expect(board.value(`M${String(9 + before.rows.length)}`)).toMatch(
      /^marks: found the text "sick"\. Accepted: c, d or b/,
    );
    expect(board.value("H5")).toMatch(/ rows do not count$/);
  });

  test("a stage that is practised apart is not counted", async () => {
    const board = await boardOf(english, [
      [serial("2025-09-08"), "M.K.", "Blind catch", "TOSS only", "ccccc", null, null],
    ]);
    expect(board.rows).toEqual((await boardOf(english)).rows);
    expect(board.rowsLeftOut).toBe((await boardOf(english)).rowsLeftOut);
  });
});

describe("a log that is a table", () => {
  const log: OwnLog = {
    sheet: LOG,
    table: {
      name: "Our_log",
      headings: new Map([
        [1, "Day"],
        [2, "Who"],
        [3, "Skill"],
        [4, "Try 1"],
        [5, "Try 2"],
      ]),
    },
    firstRow: 2,
    lastRow: 3,
    date: 1,
    dateHeading: "Day",
    dateText: null,
    athlete: { column: 2 },
    trick: { column: 3 },
    stage: null,
    attempts: { kind: "marks", first: 4, last: 5 },
    key: null,
    filledDown: [],
  };
  const plan = ownBoardPlan(log, {
    sheetName: "Board (Our log)",
    standard: 0.8,
    setSize: 10,
    focus: { athlete: "M.K.", trick: "Two spin" },
    athletes: ["M.K."],
    tricks: ["Two spin"],
    marksLeftOut: ["sick"],
    stagesApart: [],
  });
  const tableSheet: SheetPlan = {
    ...logSheet({ row: 1, column: 1, values: [[]] }),
    tables: [
      {
        name: "Our_log",
        at: { row: 1, column: 1 },
        columns: ["Day", "Who", "Skill", "Try 1", "Try 2"].map((heading) => ({ heading, format: "general" })),
        rows: [
          [serial("2026-01-05"), "M.K.", "Two spin", "c", "d"],
          [serial("2026-01-05"), "A.R.", "Two spin", "c", "sick"],
          [serial("2026-01-07"), "A.R.", "Two spin", null, null],
        ].map((row) => row.map(contentOf)),
      },
    ],
  };

  test("is referred to by the table's own names, so that it may grow for ever", async () => {
    expect(checkPlan(plan)).toEqual([]);
    const formulas = plan.sheets[0]?.cells.flatMap(({ content }) =>
      content.kind === "formula" ? [printFormula(content.formula, "sheet")] : [],
    );
    expect(formulas?.filter((formula) => formula.includes("TWIRL.")).length).toBe(4);
    expect(formulas?.filter((formula) => formula.includes("'!"))).toEqual([]);
    const answers = await boards({ ...plan, sheets: [tableSheet, ...plan.sheets] }, "Board (Our log)");
    for (const board of answers) {
      expect(board.rows).toEqual([
        ["A.R.", "Two spin", 1, "1/1"],
        ["M.K.", "Two spin", 2, "1/2"],
      ]);
      expect([board.rowsRead, board.rowsLeftOut, board.firstLeftOut, board.value("F7")]).toEqual([2, 1, 4, 1]);
    }
  });
});

test("no formula is longer than a cell holds, whatever the log", () => {
  const headings = new Map(Array.from({ length: 26 }, (_, at) => [at + 1, `A rather long heading ${String(at + 1)}`]));
  const wide: OwnLog = {
    sheet: "x".repeat(31),
    table: { name: `T${"y".repeat(40)}`, headings },
    firstRow: 900_000,
    lastRow: 1_000_000,
    date: 1,
    dateHeading: "A rather long heading 1",
    dateText: { order: "dmy", separator: "." },
    athlete: { column: 2 },
    trick: { column: 3 },
    stage: 4,
    attempts: { kind: "marks", first: 6, last: 25 },
    key: "0/1/x",
    filledDown: ["date", "athlete", "trick"],
  };
  const tally: OwnLog = { ...wide, attempts: { kind: "tally", attempts: 5, dropped: 6 }, key: null };
  for (const log of [wide, tally]) {
    for (const own of [log, { ...log, dateText: null, filledDown: [] }, { ...log, table: null }]) {
      const plan = ownBoardPlan(own, {
        sheetName: "Board",
        standard: 0.8,
        setSize: 10,
        focus: { athlete: "", trick: "" },
        athletes: Array.from({ length: 300 }, (_, at) => `Athlete ${String(at)}`),
        tricks: ["with, comma"],
        marksLeftOut: Array.from({ length: 50 }, (_, at) => `text ${String(at)}`),
        stagesApart: [],
      });
      expect(checkPlan(plan)).toEqual([]);
      for (const { content } of plan.sheets[0]?.cells ?? []) {
        if (content.kind === "formula") expect(printFormula(content.formula, "file").length).toBeLessThan(8192);
      }
    }
  }
});

test.each([
  ["Log", [], "Board (Log)"],
  ["Log", ["board (log)"], "Board (Log) 2"],
  ["Log", ["Board (Log)", "Board (Log) 2"], "Board (Log) 3"],
  ["Trainingsprotokoll der Gruppe 20", [], "Board (Trainingsprotokoll der)"],
  ["🎽".repeat(15), [], `Board (${"🎽".repeat(11)})`],
])("the new sheet beside %p with %p is called %p", (log, taken, name) => {
  expect(ownBoardName(log, taken)).toBe(name);
  expect(name.length).toBeLessThanOrEqual(31);
});
