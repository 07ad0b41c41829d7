/** The sheet Club week against the sheet Week of single athletes, worked out by the page's engine with the built functions. */
import { calculate } from "../../src/grid/headless";
import { builtFunctions } from "../../src/tools/build-samples";
import { sampleRecords, sampleSettings } from "../../src/workbook/sample/sample-season";
import type { Content, WorkbookPlan } from "../../src/workbook/plan/schema";
import { seasonPlan, type SeasonRecords } from "../../src/workbook/season/season";
import { reader } from "./plain-values";

jest.setTimeout(300_000);

type Read = (address: string) => unknown;

const workedOut = async (plan: WorkbookPlan): Promise<{ readonly club: Read; readonly week: Read }> => {
  const workbook = await calculate(plan, builtFunctions());
  return { club: reader(workbook.get("Club week 2026")), week: reader(workbook.get("Week 2026")) };
};

const focusedOn = (athlete: string): SeasonRecords => {
  if (!sampleRecords.focus) throw new Error("The sample season shows nobody.");
  return { ...sampleRecords, focus: { ...sampleRecords.focus, athlete } };
};

/** A row of the club's plan: who, how long, the pace, the attempts, then the tricks. */
const lineOf = (club: Read, athlete: string): unknown[] => {
  const row = Array.from({ length: 30 }, (_, index) => 7 + index).find((at) => club(`A${String(at)}`) === athlete);
  return [..."BCDEFGHIJKL"].map((column) => club(`${column}${String(row)}`));
};

/** What the sheet Week gives its athlete, in the words of the club's plan. */
const givenBy = (week: Read): string[] =>
  Array.from({ length: 30 }, (_, index) => 5 + index)
    .map((row) => [week(`D${String(row)}`), week(`E${String(row)}`)] as const)
    .filter(([, attempts]) => Number(attempts) > 0)
    .map(([trick, attempts]) => `${String(trick)}: ${String(attempts)}`);

test.each(["M.K.", "D.L.", "J.T."])("%s has the same before them as on the sheet Week", async (athlete) => {
  const { club, week } = await workedOut(seasonPlan(sampleSettings, focusedOn(athlete)));
  const [minutes, pace, attempts, ...tricks] = lineOf(club, athlete);
  expect([minutes, attempts]).toEqual([sampleRecords.focus?.weekMinutes, week("B9")]);
  expect(pace).toBeCloseTo(Number(week("B7")), 12);
  const given = givenBy(week);
  expect(given.length).toBeGreaterThan(1);
  expect(tricks.filter((words) => words !== "")).toEqual(given);
});

test("own minutes and somebody away stand on the Season sheet; a day of the calendar is the next contest", async () => {
  const plan = seasonPlan({ ...sampleSettings, contestDate: null }, sampleRecords);
  const text = (words: string): Content => ({ kind: "text", text: words });
  const own: Readonly<Record<string, Content>> = { "A.R.": { kind: "number", value: 25 }, "D.L.": text("away") };
  const sheets = plan.sheets.map((sheet) => ({
    ...sheet,
    tables: sheet.tables.map((table) =>
      table.name === "Athletes_2026"
        ? {
            ...table,
            rows: table.rows.map(([name]) => [
              name as Content,
              own[name?.kind === "text" ? name.text : ""] ?? ({ kind: "empty" } as const),
            ]),
          }
        : table,
    ),
  }));
  const { club, week } = await workedOut({ ...plan, sheets });
  expect([..."ABCD"].map((column) => club(`${column}6`))).toEqual([
    "Athlete",
    "Minutes",
    "Attempts a minute",
    "Attempts",
  ]);
  expect(Array.from({ length: 7 }, (_, index) => club(`A${String(7 + index)}`))).toEqual([
    ...sampleSettings.athletes,
    "",
  ]);
  const [minutes, pace, attempts] = lineOf(club, "A.R.").map(Number);
  expect(minutes).toBe(25);
  expect(attempts).toBe(Math.floor(25 * Number(pace)));
  expect(lineOf(club, "D.L.").filter((words) => words !== "")).toEqual(["away"]);
  expect(lineOf(club, "M.K.")[0]).toBe(60);
  // The log ends on the day of the second contest: that is the next one, and a third is to come.
  expect([week("B13"), week("B14")]).toEqual([46103, 0]);
  expect(club("E4")).toBe(46103);
  expect(["A27", "B27", "A28", "B28", "A29"].map(week)).toEqual([
    ...["Brookmere spring cup", 0, "Larkfield summer gala", 83, ""],
  ]);
});
