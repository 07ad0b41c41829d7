/** The own board as the spreadsheet program is given it: every formula is taken, and the log stays as it was. */
import { ownBoardPlan, type OwnLog } from "../../../src/workbook/own-board/own-board";
import { writeWithOffice } from "../../../src/workbook/office/office-writer";
import { fakeContext, FakeWorkbook, type FakeCell } from "../fake-office";

const LOG = "Club's log";
const rows: readonly (readonly (string | number)[])[] = [
  ["Day", "Who", "Trick", "How", "Try 1", "Try 2"],
  [46000, "M.K.", "Two spin", "together", "x", "o"],
  [46000, "A.R.", "Two spin", "alone", "x", "sick"],
];

function workbookWithLog(asTable: boolean): FakeWorkbook {
  const workbook = new FakeWorkbook([LOG]);
  const sheet = workbook.sheet(LOG);
  rows.forEach((row, at) =>
    row.forEach((value, column) => {
      const cell: FakeCell = { value, formula: null, format: "General" };
      sheet.cells.set(`${String.fromCharCode(65 + column)}${String(at + 1)}`, cell);
    }),
  );
  const area = { row: 1, column: 1, rows: 3, columns: 6 };
  if (asTable) sheet.tables.push({ name: "Our_log", style: "TableStyleMedium2", area });
  return workbook;
}

const log: OwnLog = {
  sheet: LOG,
  table: null,
  firstRow: 2,
  lastRow: 3,
  date: 1,
  dateHeading: "Day",
  dateText: null,
  athlete: { column: 2 },
  trick: { column: 3 },
  stage: 4,
  attempts: { kind: "marks", first: 5, last: 6 },
  key: "x/o",
  filledDown: [],
};
const headings = new Map((rows[0] ?? []).map((heading, at) => [at + 1, String(heading)]));

test.each<[because: string, own: OwnLog]>([
  ["cells", log],
  ["a table", { ...log, table: { name: "Our_log", headings } }],
  [
    "days as text, and cells filled down",
    { ...log, dateText: { order: "dmy", separator: "." }, filledDown: ["date", "athlete"] },
  ],
  ["numbers", { ...log, attempts: { kind: "tally", attempts: 5, dropped: 6 }, key: null, athlete: { name: "M.K." } }],
  ["marks that are numbers", { ...log, key: "0/1/b" }],
])("a log of %s", async (_, own) => {
  const workbook = workbookWithLog(own.table !== null);
  const before = JSON.stringify([...workbook.sheet(LOG).cells]);
  await writeWithOffice(
    fakeContext(workbook).context,
    ownBoardPlan(own, {
      sheetName: "Board (Club's log)",
      standard: 0.8,
      setSize: 10,
      focus: { athlete: "M.K.", trick: "Two spin" },
      athletes: ["M.K.", "A.R."],
      tricks: ["Two spin"],
      marksLeftOut: ["sick", "=1+1"],
      stagesApart: ["alone"],
    }),
  );
  const board = workbook.sheet("Board (Club's log)");
  const formulas = [...board.cells.values()].flatMap(({ formula }) => (formula === null ? [] : [formula]));
  expect(formulas.filter((formula) => formula.includes("TWIRL.")).length).toBe(4);
  expect(formulas.length).toBeGreaterThan(5);
  expect(JSON.stringify([...workbook.sheet(LOG).cells])).toBe(before);
  expect(workbook.sheet(LOG).settings).toEqual([]);
  expect(workbook.activeId).toBe(board.id);
});
