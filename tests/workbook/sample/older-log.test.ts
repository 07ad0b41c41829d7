/** The club's own older log, as another library reads it from the file: its layout, its size, and its mess, counted. */
import { readFileSync } from "node:fs";
import path from "node:path";
import { Workbook, type CellValue, type Worksheet } from "@cj-tech-master/excelts";
import { checkPlan } from "../../../src/workbook/plan/check-plan";
import { olderLog } from "../../../src/workbook/sample/older-log";
import { sampleSettings } from "../../../src/workbook/sample/sample-season";

const HEADING_ROW = 3;

let sheet: Worksheet;
let rows: readonly (readonly CellValue[])[];

beforeAll(async () => {
  const workbook = new Workbook();
  await workbook.xlsx.load(readFileSync(path.join(__dirname, "../../../sample-workbooks/older-log.xlsx")));
  expect(workbook.worksheets.map(({ name }) => name)).toEqual(["Log", "Notes"]);
  const found = workbook.getWorksheet("Log");
  if (!found) throw new Error("There is no sheet Log.");
  sheet = found;
  rows = Array.from({ length: sheet.rowCount - HEADING_ROW }, (_, index) =>
    Array.from({ length: 7 }, (__, column) => sheet.getCell(HEADING_ROW + 1 + index, 1 + column).value),
  );
});

function filled(): readonly (readonly CellValue[])[] {
  return rows.filter((row) => row.some((value) => value !== null));
}

test("nothing in it would be refused", () => {
  expect(checkPlan(olderLog())).toEqual([]);
});

test("the headings are the club's own, in the third row, and there is no table", () => {
  const headings = Array.from({ length: 13 }, (_, column) => sheet.getCell(HEADING_ROW, 1 + column).value);
  const first = ["Day", "Name", "Move", "What we did", "Good", "Tries", "Remark"];
  expect(headings).toEqual([...first, null, "When", "Contest", "Who", "Drops", null]);
  expect(sheet.getCell("A1").value).toMatch(/^PRACTICE LOG/);
  expect(sheet.getTables()).toEqual([]);
});

test("about 600 rows over two seasons, parted by three empty ones", () => {
  expect(filled().length).toBeGreaterThanOrEqual(560);
  expect(filled().length).toBeLessThanOrEqual(640);
  expect(rows.length - filled().length).toBe(3);
  expect(rows[0]?.[0]).toEqual(new Date(Date.UTC(2024, 8, 17)));
  const days = filled()
    .map(([day]) => day)
    .filter((day) => day instanceof Date)
    .map((day) => day.getTime());
  expect(days).toEqual([...days].sort((one, other) => one - other));
  expect(new Date(days.at(-1) ?? 0).getUTCFullYear()).toBe(2026);
});

test("five athletes, none of them of the sample season, however they are spelled", () => {
  const names = new Set(filled().flatMap(([, name]) => (typeof name === "string" ? [name.trim().toUpperCase()] : [])));
  expect(names).toEqual(new Set(["B.F.", "C.H.", "E.V.", "G.P.", "L.O."]));
  for (const name of names) expect(sampleSettings.athletes).not.toContain(name);
});

describe("what cannot be read, counted in the file", () => {
  const faults = [
    { what: "days that are words", count: 4, is: ([day]: readonly CellValue[]) => !(day instanceof Date) },
    { what: "rows without a name", count: 1, is: ([, name]: readonly CellValue[]) => name === null },
    {
      what: "catches that are words",
      count: 4,
      is: ([, , , , good]: readonly CellValue[]) => typeof good !== "number",
    },
    { what: "tries that are words", count: 1, is: (row: readonly CellValue[]) => typeof row[5] === "string" },
    { what: "tries left out", count: 2, is: (row: readonly CellValue[]) => row[5] === null },
    { what: "more caught than tried", count: 3, is: (row: readonly CellValue[]) => isMore(row[4], row[5]) },
  ];
  function isMore(good: CellValue | undefined, tries: CellValue | undefined): boolean {
    return typeof good === "number" && typeof tries === "number" && good > tries;
  }

  test.each(faults)("$count $what", ({ count, is }) => {
    expect(filled().filter(is)).toHaveLength(count);
  });

  test("everywhere else are whole numbers, at most 20, and words for the move and the way", () => {
    const sound = filled().filter((row) => !faults.some(({ is }) => is(row)));
    expect(filled().length - sound.length).toBe(14);
    for (const [, , move, way, good, tries] of sound) {
      expect(typeof move === "string" && typeof way === "string").toBe(true);
      for (const value of [good, tries]) expect(Number.isInteger(value)).toBe(true);
      expect(Number(tries)).toBeGreaterThanOrEqual(5);
      expect(Number(tries)).toBeLessThanOrEqual(20);
    }
  });
});

test("the second block stands to the right, eight results long", () => {
  const drops = Array.from({ length: 12 }, (_, index) => sheet.getCell(HEADING_ROW + 1 + index, 12).value);
  expect(drops.filter((value) => typeof value === "number")).toHaveLength(8);
  expect(drops.slice(8)).toEqual([null, null, null, null]);
});
