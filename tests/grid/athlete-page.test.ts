/** One athlete's page over the finished season, worked out by the page's engine with the built functions. */
import { calculate, type HeadlessSheet } from "../../src/grid/headless";
import { builtFunctions } from "../../src/tools/build-samples";
import { checkPlan } from "../../src/workbook/plan/check-plan";
import { sampleRecords, sampleSeason, sampleSettings } from "../../src/workbook/sample/sample-season";
import { athletePages } from "../../src/workbook/season/athlete-page";
import { freeSheetName } from "../../src/workbook/season/names";
import { seasonPlan } from "../../src/workbook/season/season";
import { reader } from "./plain-values";

jest.setTimeout(300_000);

const pages = [
  { athlete: "M.K.", tricks: ["Triple spin", "Double spin"], sheetName: "M.K. 2026" },
  { athlete: "A.R.", tricks: ["Flat under-leg"], sheetName: "A.R. 2026" },
];
const page = athletePages("2026", pages, true);
const APART = ["Body only", "Toss only", "Wall"];

describe("an athlete's page", () => {
  let answers: HeadlessSheet;
  beforeAll(async () => {
    const season = sampleSeason();
    const calculated = await calculate({ ...season, sheets: [...season.sheets, ...page.sheets] }, builtFunctions());
    const found = calculated.get("M.K. 2026");
    if (!found) throw new Error("The page was not worked out.");
    answers = found;
  });

  const textAt = (address: string): string | undefined => {
    const value = answers.values.get(address);
    return value?.kind === "text" ? value.text : undefined;
  };

  test("may be added to a workbook that has the season, and to no other", () => {
    expect(checkPlan(page)).toEqual([]);
    const alone = { sheets: page.sheets, active: page.active };
    expect(checkPlan(alone).join()).toMatch(/Board 2026, which is not in the plan/);
  });

  test("holds the tricks that this athlete has practised as a whole, and nobody else's", () => {
    const own = sampleRecords.practice.filter(({ athlete, stage }) => athlete === "M.K." && !APART.includes(stage));
    const expected = [...new Set(own.map(({ trick }) => trick))].sort();
    expect(expected.length).toBeGreaterThan(3);
    expect(expected.map((_, index) => textAt(`A${String(22 + index)}`))).toEqual(expected);
    expect(textAt(`A${String(22 + expected.length)}`)).toBeUndefined();
    const others = new Set(sampleRecords.practice.map(({ athlete }) => athlete).filter((name) => name !== "M.K."));
    const shown = [...answers.values.values()].flatMap((value) => (value.kind === "text" ? [value.text] : []));
    expect(shown.filter((words) => others.has(words))).toEqual([]);
  });

  test("counts the chosen trick's first day as the log has it", () => {
    const rows = sampleRecords.practice.filter(
      ({ athlete, trick, stage }) => athlete === "M.K." && trick === "Triple spin" && !APART.includes(stage),
    );
    const first = Math.min(...rows.map(({ date }) => date));
    const marks = rows.flatMap(({ date, marks: typed }) => (date === first ? [...typed] : [])).join("");
    expect(answers.values.get("I7")).toEqual({ kind: "number", value: first });
    expect(answers.values.get("J7")).toEqual({ kind: "number", value: (marks.match(/c/g) ?? []).length });
    expect(answers.values.get("K7")).toEqual({ kind: "number", value: (marks.match(/[cdb]/g) ?? []).length });
  });

  test("shows no error", () => {
    expect([...answers.values].filter(([, value]) => value.kind === "error")).toEqual([]);
  });
});

test.each([
  ["M.K.", [], "M.K. 2027"],
  ["M.K.", ["m.k. 2027"], "M.K. 2027 (2)"],
  ["A/B [x]", [], "A-B -x- 2027"],
  ["'quoted'", [], "quoted 2027"],
  ["x".repeat(40), [], `${"x".repeat(26)} 2027`],
])("the sheet of %s is named as a sheet may be", (athlete, taken, expected) => {
  expect(freeSheetName(athlete, "2027", taken)).toBe(expected);
});

test("the days are those to the next contest of the calendar; a season from before has its one day", async () => {
  const today = Math.floor(Date.now() / 86_400_000) + 25_569;
  const records = {
    ...sampleRecords,
    practice: [],
    calendar: [today + 40, today - 3, today + 90].map((date) => ({ date, contest: "Larkfield open" })),
  };
  const season = seasonPlan({ ...sampleSettings, contestDate: today + 60 }, records);
  const daysLeft = async (hasCalendar: boolean): Promise<unknown> => {
    const { sheets } = athletePages("2026", pages, hasCalendar);
    const calculated = await calculate({ ...season, sheets: [...season.sheets, ...sheets] }, builtFunctions());
    return reader(calculated.get("M.K. 2026"))("B4");
  };
  // The test and the sheet may stand on two sides of midnight, or of a time zone.
  expect([39, 40, 41]).toContain(await daysLeft(true));
  expect([59, 60, 61]).toContain(await daysLeft(false));
});
