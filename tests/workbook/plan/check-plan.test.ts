import { checkPlan } from "../../../src/workbook/plan/check-plan";
import { cell, column, columns, twirl } from "../../../src/workbook/plan/formula";
import { formula, number, put, spill, text } from "../../../src/workbook/plan/cell-plans";
import type {
  ChartPlan,
  ChartSeries,
  SheetPlan,
  TablePlan,
  Validation,
  WorkbookPlan,
} from "../../../src/workbook/plan/schema";

const log: TablePlan = {
  name: "Log",
  at: { row: 4, column: 1 },
  columns: [
    { heading: "Trick", format: "text" },
    { heading: "Marks", format: "text" },
  ],
  rows: [[text("Spin"), text("ccd")]],
};

const sheet: SheetPlan = {
  name: "Practice",
  columnWidths: [12, 12],
  areas: [],
  cells: [put(1, 1, text("Practice"))],
  tables: [log],
  validations: [],
  rules: [],
  charts: [],
  frozen: { rows: 4, columns: 0 },
};

const series: ChartSeries = {
  name: "Rate",
  across: { row: 1, column: 1, rows: 3, columns: 1 },
  up: { row: 1, column: 2, rows: 3, columns: 1 },
  look: "rate",
};

const chart: ChartPlan = {
  name: "Rates",
  title: "Rates",
  description: "",
  on: { row: 10, column: 1, rows: 10, columns: 4 },
  across: { title: "Day", format: "date" },
  up: { title: "Up", format: "percent" },
  series: [series],
};

function plan(...sheets: readonly SheetPlan[]): WorkbookPlan {
  return { sheets, active: sheets[0]?.name ?? "" };
}

function withTable(change: Partial<TablePlan>): WorkbookPlan {
  return plan({ ...sheet, tables: [{ ...log, ...change }] });
}

function withValidation(validation: Validation): WorkbookPlan {
  return plan({ ...sheet, validations: [{ on: { row: 1, column: 1, rows: 1, columns: 1 }, validation }] });
}

test("a sound plan has no problems", () => {
  expect(checkPlan(plan(sheet))).toEqual([]);
});

test("a formula may read a sheet and a table that are there already", () => {
  const reading = plan({
    ...sheet,
    cells: [put(1, 1, formula(cell(1, 1, "Own log"))), put(1, 2, formula(columns("Own", "Try 1", "Try 2")))],
  });
  const reads = { sheets: ["Own log"], tables: [{ name: "Own", columns: ["Try 1", "Try 2"] }] };
  expect(checkPlan({ ...reading, reads })).toEqual([]);
  expect(checkPlan(reading).length).toBe(3);
  expect(checkPlan({ ...reading, reads: { ...reads, tables: [{ name: "Own", columns: ["Try 1"] }] } })).toEqual([
    "Sheet Practice: Own[Try 2] is not in the plan.",
  ]);
});

const broken: readonly { name: string; plan: WorkbookPlan; problem: RegExp }[] = [
  {
    name: "two sheets of one name",
    plan: plan(sheet, { ...sheet, name: "PRACTICE", tables: [] }),
    problem: /Two sheets/,
  },
  { name: "a sheet name too long", plan: plan({ ...sheet, name: "x".repeat(32) }), problem: /32 characters/ },
  { name: "a sheet name with a slash", plan: plan({ ...sheet, name: "8/10" }), problem: /holds one of/ },
  { name: "a sheet name in quotes", plan: plan({ ...sheet, name: "'a" }), problem: /begins or ends/ },
  { name: "an active sheet that is not there", plan: { sheets: [sheet], active: "Board" }, problem: /shown first/ },
  {
    name: "two tables of one name",
    plan: plan(sheet, { ...sheet, name: "Other", tables: [{ ...log, name: "LOG" }] }),
    problem: /Two tables/,
  },
  { name: "a table named as a sheet", plan: withTable({ name: "practice" }), problem: /both called/ },
  { name: "a table name with a space", plan: withTable({ name: "My log" }), problem: /cannot be the name/ },
  { name: "a table name like a cell", plan: withTable({ name: "Log27" }), problem: /reads as a cell/ },
  {
    name: "a table name like a cell in rows and columns",
    plan: withTable({ name: "R1C1" }),
    problem: /reads as a cell/,
  },
  { name: "a table without rows", plan: withTable({ rows: [] }), problem: /no rows/ },
  { name: "a row too short", plan: withTable({ rows: [[text("Spin")]] }), problem: /1 cells for 2 columns/ },
  {
    name: "two columns of one heading",
    plan: withTable({
      columns: [log.columns[0] ?? { heading: "", format: "text" }, { heading: "TRICK", format: "text" }],
    }),
    problem: /two columns called/,
  },
  {
    name: "a value in a calculated column",
    plan: withTable({
      columns: [
        { heading: "Trick", format: "text" },
        { heading: "Marks", format: "text", formula: cell(1, 1) },
      ],
    }),
    problem: /calculated column Marks/,
  },
  {
    name: "a spill inside a table",
    plan: withTable({ rows: [[text("Spin"), spill(twirl("BOARD"))]] }),
    problem: /inside a table it cannot/,
  },
  {
    name: "a cell inside a table",
    plan: plan({ ...sheet, cells: [put(5, 2, text("x"))] }),
    problem: /B5 lies in table Log/,
  },
  {
    name: "a cell planned twice",
    plan: plan({ ...sheet, cells: [put(1, 1, text("x")), put(1, 1, text("y"))] }),
    problem: /A1 is planned twice/,
  },
  {
    name: "tables over each other",
    plan: plan({ ...sheet, tables: [log, { ...log, name: "Other", at: { row: 5, column: 2 } }] }),
    problem: /Log and Other overlap/,
  },
  {
    name: "a cell off the sheet",
    plan: plan({ ...sheet, cells: [put(0, 1, text("x"))] }),
    problem: /outside the sheet/,
  },
  {
    name: "a rule off the sheet",
    plan: plan({
      ...sheet,
      rules: [{ on: { row: 1_048_576, column: 1, rows: 2, columns: 1 }, text: "Ready", look: "ready" }],
    }),
    problem: /a rule at .* outside/,
  },
  ...(
    [
      ["a chart off the sheet", { on: { row: 1, column: 16_384, rows: 2, columns: 2 } }, /chart Rates at .* outside/],
      ["a chart with no series", { series: [] }, /Rates has no series/],
      ["a chart without a name", { name: " " }, /a chart has no name/],
      [
        "an axis that ends before it begins",
        { up: { title: "Up", format: "percent", least: 1, most: 0 } },
        /Up of .* ends/,
      ],
      [
        "a series of two lengths",
        { series: [{ ...series, up: { row: 1, column: 2, rows: 4, columns: 1 } }] },
        /Rate of chart Rates wants two columns/,
      ],
      [
        "a series off the sheet",
        { series: [{ ...series, across: { row: 0, column: 1, rows: 3, columns: 1 } }] },
        /a series of chart Rates at .* outside/,
      ],
    ] as const
  ).map(([name, change, problem]) => ({
    name,
    plan: plan({ ...sheet, charts: [{ ...chart, ...change } as ChartPlan] }),
    problem,
  })),
  {
    name: "two charts of one name",
    plan: plan({ ...sheet, charts: [chart, { ...chart, name: "RATES" }] }),
    problem: /two charts are called RATES/,
  },
  {
    name: "a formula that reads a missing sheet",
    plan: plan({ ...sheet, cells: [put(1, 1, formula(cell(1, 1, "Season 2026")))] }),
    problem: /Season 2026, which is not in the plan/,
  },
  {
    name: "a formula that reads a missing column",
    plan: plan({ ...sheet, cells: [put(1, 1, spill(twirl("BOARD", column("Log", "Date"))))] }),
    problem: /Log\[Date\] is not in the plan/,
  },
  {
    name: "a list from a missing column",
    plan: withValidation({
      allowed: { kind: "list", source: { kind: "column", table: "Log", column: "Hand" }, strict: true },
    }),
    problem: /Log\[Hand\] is not in the plan/,
  },
  {
    name: "a word with a comma in a list",
    plan: withValidation({ allowed: { kind: "list", source: { kind: "words", words: ["a,b"] }, strict: true } }),
    problem: /holds a comma/,
  },
  {
    name: "an input message too long",
    plan: withValidation({ allowed: { kind: "none" }, inputMessage: "x".repeat(256) }),
    problem: /longer than 255/,
  },
  {
    name: "an input title too long",
    plan: withValidation({ allowed: { kind: "none" }, inputTitle: "x".repeat(33) }),
    problem: /longer than 32/,
  },
  { name: "not a number", plan: plan({ ...sheet, cells: [put(1, 1, number(NaN))] }), problem: /cannot hold NaN/ },
  {
    name: "a text too long for a cell",
    plan: plan({ ...sheet, cells: [put(1, 1, text("c".repeat(32_768)))] }),
    problem: /32768 characters/,
  },
];

test.each(broken)("$name is found", ({ plan: given, problem }) => {
  expect(checkPlan(given).join("\n")).toMatch(problem);
});
