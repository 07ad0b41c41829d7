/** What the sheets Week and Trick say of the contest, worked out by the page's engine with the built functions. */
import { calculate, type HeadlessWorkbook } from "../../src/grid/headless";
import { builtFunctions } from "../../src/tools/build-samples";
import { sampleRecords, sampleSettings } from "../../src/workbook/sample/sample-season";
import type { Content } from "../../src/workbook/plan/schema";
import { seasonPlan } from "../../src/workbook/season/season";
import { reader } from "./plain-values";

jest.setTimeout(300_000);

const lastDay = Math.max(...sampleRecords.practice.map(({ date }) => date));

/** One contest is counted down, that of the settings. */
const records = { ...sampleRecords, calendar: [] };

const workedOut = (contestDate: number | null): Promise<HeadlessWorkbook> =>
  calculate(seasonPlan({ ...sampleSettings, contestDate }, records), builtFunctions());

test("three weeks ahead every line of the board is counted down, and the sheet Trick shows its own", async () => {
  const workbook = await workedOut(lastDay + 21);
  const [week, trick, board] = ["Week 2026", "Trick 2026", "Board 2026"].map((name) => reader(workbook.get(name)));
  expect([week?.("B13"), week?.("B14")]).toEqual([lastDay + 21, 21]);
  // As the sheet's columns are drawn and the formulas of other sheets take them.
  expect([..."NOPQRSTUVWX"].map((column) => week?.(`${column}4`))).toEqual([
    ...["Athlete", "Trick", "Status", "Practices left", "Sets left", "Chance on the day", "Rate on the day"],
    ...["Low", "High", "Last day to swap", "What to do"],
  ]);
  const lines = Array.from({ length: 400 }, (_, row) => ["N", "O", "P", "Q", "R", "S", "W", "X"].map((column) => week?.(`${column}${String(5 + row)}`))); // prettier-ignore
  const counted = lines.filter(([athlete]) => athlete !== "");
  const pair = (athlete: unknown, name: unknown): string => `${String(athlete)} ${String(name)}`;
  const onBoard = Array.from({ length: 400 }, (_, row) => pair(board?.(`A${String(5 + row)}`), board?.(`B${String(5 + row)}`))); // prettier-ignore
  expect(counted.map(([athlete, name]) => pair(athlete, name)).sort()).toEqual(
    onBoard.filter((line) => line.trim() !== "").sort(),
  );
  // Three weeks at the pace of the latest four: three quarters of the days on which the trick was practised whole.
  for (const [athlete, name, , practices] of counted) {
    const days = sampleRecords.practice.filter(
      (entry) =>
        entry.athlete === athlete &&
        entry.trick === name &&
        entry.date > lastDay - 28 &&
        !["Body only", "Toss only", "Wall"].includes(entry.stage),
    );
    expect(practices).toBe(Math.floor((new Set(days.map(({ date }) => date)).size * 21) / 28));
  }
  const { athlete, trick: chosen } = sampleRecords.focus ?? { athlete: "", trick: "" };
  const [, , , practices, sets, chance, lastToSwap, whatToDo] =
    counted.find(([of, on]) => of === athlete && on === chosen) ?? [];
  expect(["I20", "I21", "I22", "I23", "I24"].map((address) => trick?.(address))).toEqual([
    practices,
    sets,
    chance,
    lastToSwap,
    whatToDo,
  ]);
  expect(Number(lastToSwap)).toBeGreaterThan(lastDay);
  expect(Number(lastToSwap)).toBeLessThan(lastDay + 21);
});

test.each([
  ["without a day it asks for one", null, "Type a contest's date on the Season sheet."],
  ["after the contest it says so", lastDay - 1, "The contests of the Season sheet are over."],
])("%s, and the sheet Trick stays empty", async (_, contestDate, words) => {
  const workbook = await workedOut(contestDate);
  expect(reader(workbook.get("Week 2026"))("N4")).toBe(words);
  expect(["I20", "I21", "I22", "I23", "I24"].map(reader(workbook.get("Trick 2026")))).toEqual(["", "", "", "", ""]);
});

test("days off on the Season sheet are left out, and the last two weeks are said", async () => {
  const plan = seasonPlan({ ...sampleSettings, contestDate: lastDay + 12 }, records);
  const day = (serial: number): Content => ({ kind: "date", serial });
  const rows: Content[][] = [[day(lastDay + 1), day(lastDay + 6), { kind: "empty" }]];
  const sheets = plan.sheets.map((sheet) => ({
    ...sheet,
    tables: sheet.tables.map((table) => (table.name === "Days_off_2026" ? { ...table, rows } : table)),
  }));
  const [open, closed] = await Promise.all(
    [plan, { ...plan, sheets }].map(async (one) => reader((await calculate(one, builtFunctions())).get("Week 2026"))),
  );
  const practicesLeft = (week: typeof open) =>
    Array.from({ length: 40 }, (_, row) => Number(week?.(`Q${String(5 + row)}`))).reduce((sum, left) => sum + left, 0);
  expect(practicesLeft(open)).toBeGreaterThan(40);
  // Half of the days are left; each line is rounded down by itself.
  expect(practicesLeft(closed) / practicesLeft(open)).toBeGreaterThan(0.35);
  expect(practicesLeft(closed) / practicesLeft(open)).toBeLessThanOrEqual(0.5);
  expect(closed?.("A3")).toMatch(/^The last two weeks: about half the attempts/);
});
