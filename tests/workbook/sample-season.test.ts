/** The sample season tells the story it is meant to tell. The status rule is worked out here a second time, from its words. */
import { readFileSync } from "node:fs";
import path from "node:path";
import { Workbook } from "@cj-tech-master/excelts";
import { sampleRecords, sampleSettings } from "../../src/workbook/sample-season";
import { STAGES, type PracticeEntry } from "../../src/workbook/season";

const { standard, setSize } = sampleSettings;

/** P(rate ≥ x) for Beta(a, b), a and b at least ½: Simpson's rule over the angle with rate = sin². */
function chanceAtLeast(x: number, a: number, b: number): number {
  const density = (angle: number): number => Math.sin(angle) ** (2 * a - 1) * Math.cos(angle) ** (2 * b - 1);
  const integral = (from: number, to: number): number => {
    const panels = 2000;
    const step = (to - from) / panels;
    let sum = density(from) + density(to);
    for (let panel = 1; panel < panels; panel++) sum += density(from + panel * step) * (panel % 2 === 1 ? 4 : 2);
    return (sum * step) / 3;
  };
  const split = Math.asin(Math.sqrt(x));
  const above = integral(split, Math.PI / 2);
  return above / (above + integral(0, split));
}

function binomialAtMost(caught: number, attempts: number, rate: number): number {
  let term = (1 - rate) ** attempts;
  let sum = term;
  for (let k = 1; k <= caught; k++) {
    term *= ((attempts - k + 1) / k) * (rate / (1 - rate));
    sum += term;
  }
  return sum;
}

function status(marks: string): string {
  const caughtIn = (set: string): number => [...set].filter((mark) => mark === "c").length;
  const evidence = (until: number): number => {
    let caught = 0.5;
    let missed = 0.5;
    for (let index = 0; index < until; index++) {
      const weight = 2 ** (-(until - 1 - index) / 30);
      if (marks[index] === "c") caught += weight;
      else missed += weight;
    }
    return chanceAtLeast(standard, caught, missed);
  };
  const holds = (until: number): boolean =>
    until >= setSize && caughtIn(marks.slice(until - setSize, until)) >= standard * setSize;

  if (marks.length === 0) return "No attempts";
  if (marks.length < setSize) return "Too few";
  const judgings = Array.from({ length: Math.floor(marks.length / setSize) }, (_, index) => (index + 1) * setSize);
  const earned = [...judgings, marks.length].some((until) => holds(until) && evidence(until) >= 0.5);
  const now = evidence(marks.length);
  const lastSet = marks.slice(-setSize);
  if (!earned) return holds(marks.length) ? "Confirm" : "Building";
  const bails = [...lastSet].filter((mark) => mark === "b").length;
  if (now < 0.35 || binomialAtMost(caughtIn(lastSet), setSize, standard) < 0.05 || bails >= 2) return "At risk";
  return holds(marks.length) && now >= 0.9 ? "Solid" : "Ready";
}

describe("the second status rule itself", () => {
  test("8 of 10 is at least 80 % with a chance that statistics software gives", () => {
    // R 4.2.2: pbeta(0.8, 8.5, 2.5, lower.tail = FALSE) and pbeta(0.8, 24.5, 4.5, lower.tail = FALSE)
    expect(chanceAtLeast(0.8, 8.5, 2.5)).toBeCloseTo(0.4665040448, 8);
    expect(chanceAtLeast(0.8, 24.5, 4.5)).toBeCloseTo(0.7684568008, 8);
    expect(chanceAtLeast(0.5, 3.5, 3.5)).toBeCloseTo(0.5, 10);
  });
  test("and 6 of 10 or fewer, or 5 or fewer, has the chance at 80 % that it gives", () => {
    // R 4.2.2: pbinom(6, 10, 0.8) and pbinom(5, 10, 0.8)
    expect(binomialAtMost(6, 10, 0.8)).toBeCloseTo(0.1208738816, 9);
    expect(binomialAtMost(5, 10, 0.8)).toBeCloseTo(0.0327934976, 9);
  });
});

const APART = ["Body only", "Toss only", "Wall"];

function countedMarks(athlete: string, trick: string): string {
  return sampleRecords.practice
    .filter((entry) => entry.athlete === athlete && entry.trick === trick && !APART.includes(entry.stage))
    .map(({ marks }) => marks.replaceAll(" ", ""))
    .join("");
}

/** A to Z, as the board has them. */
const story = [
  { athlete: "A.R.", trick: "Double spin", expected: "Solid" },
  { athlete: "A.R.", trick: "Flat under-leg", expected: "Confirm" },
  { athlete: "A.R.", trick: "Open hand back catch", expected: "Building" },
  { athlete: "A.R.", trick: "Single illusion", expected: "Ready" },
  { athlete: "A.R.", trick: "Triple spin", expected: "Building" },
  { athlete: "J.T.", trick: "Double spin", expected: "Ready" },
  { athlete: "J.T.", trick: "Flat under-leg", expected: "Building" },
  { athlete: "J.T.", trick: "Open hand back catch", expected: "Building" },
  { athlete: "J.T.", trick: "Single illusion", expected: "Too few" },
  { athlete: "M.K.", trick: "Cartwheel blind catch", expected: "At risk" },
  { athlete: "M.K.", trick: "Double illusion", expected: "Too few" },
  { athlete: "M.K.", trick: "Double spin", expected: "Solid" },
  { athlete: "M.K.", trick: "Front walkover", expected: "Building" },
  { athlete: "M.K.", trick: "Single illusion", expected: "Solid" },
  { athlete: "M.K.", trick: "Triple spin", expected: "Ready" },
] as const;

test.each(story)("$athlete $trick ends $expected", ({ athlete, trick, expected }) => {
  expect(status(countedMarks(athlete, trick))).toBe(expected);
});

test("the board stored in the sample workbook shows the same statuses, as the built functions gave them", async () => {
  const workbook = new Workbook();
  await workbook.xlsx.load(readFileSync(path.join(__dirname, "../../sample-workbooks/season.xlsx")));
  const board = workbook.getWorksheet("Board 2027");
  // The first cell holds the formula with the first heading as its answer; the headings' row is part of the spill.
  const shown = Array.from({ length: story.length + 1 }, (_, index) =>
    ["A", "B", "K"].map((letter) => board?.getCell(`${letter}${5 + index}`).value),
  );
  const expected = story.map(({ athlete, trick, expected: word }) => [athlete, trick, word]);
  expect(shown.slice(0, -1)).toEqual(expected);
  expect(shown.at(-1)).toEqual([null, null, null]);
});

test("the trick at risk was ready before it slid", () => {
  const marks = countedMarks("M.K.", "Cartwheel blind catch");
  expect(["Ready", "Solid"]).toContain(status(marks.slice(0, 150)));
});

test("the story names every athlete and trick that was practised", () => {
  const practised = new Set(sampleRecords.practice.map(({ athlete, trick }) => `${athlete} ${trick}`));
  expect(practised).toEqual(new Set(story.map(({ athlete, trick }) => `${athlete} ${trick}`)));
});

describe("the log is believable", () => {
  const { practice } = sampleRecords;

  test("days run from January to March 2027, in order, three or four a week", () => {
    const days = [...new Set(practice.map(({ date }) => date))];
    expect(days).toEqual([...days].sort((one, other) => one - other));
    // 1 January and 31 March 2027, counted from 30 December 1899.
    const serial = (month: number, day: number): number =>
      (Date.UTC(2027, month - 1, day) - Date.UTC(1899, 11, 30)) / 86_400_000;
    expect(days[0]).toBeGreaterThanOrEqual(serial(1, 1));
    expect(days.at(-1)).toBeLessThanOrEqual(serial(3, 31));
    const weeks = new Map<number, number>();
    for (const day of days) {
      const week = Math.floor((day - serial(1, 4)) / 7);
      weeks.set(week, (weeks.get(week) ?? 0) + 1);
    }
    expect(weeks.size).toBe(10);
    for (const count of weeks.values()) expect([3, 4]).toContain(count);
    expect(sampleSettings.contestDate).toBe(serial(3, 21));
  });

  test("marks are sets of c, d and b in fives, at most ten", () => {
    for (const { marks } of practice) expect(marks).toMatch(/^(?=(?:[cdb] ?){1,10}$)[cdb]{1,5}( [cdb]{1,5})?$/);
  });

  test("stages follow each other as a trick is learned, the contest apart", () => {
    const furthest = new Map<string, number>();
    for (const { athlete, trick, stage } of practice.filter((entry: PracticeEntry) => entry.stage !== "Contest")) {
      const key = `${athlete} ${trick}`;
      expect(STAGES.indexOf(stage)).toBeGreaterThanOrEqual(furthest.get(key) ?? 0);
      furthest.set(key, STAGES.indexOf(stage));
    }
    expect(new Set(practice.map(({ stage }) => stage))).toEqual(new Set(STAGES));
  });

  test("two bails end a set, and the note says so", () => {
    const stopped = practice.filter(({ marks }) => [...marks].filter((mark) => mark === "b").length >= 2);
    expect(stopped.length).toBeGreaterThan(0);
    for (const { marks, note } of stopped) {
      expect(marks.endsWith("b")).toBe(true);
      expect(note).toMatch(/^Two bails/);
    }
  });

  test("every athlete and trick is one of the season's", () => {
    for (const { athlete, trick } of practice) {
      expect(sampleSettings.athletes).toContain(athlete);
      expect(sampleSettings.tricks.map(({ name }) => name)).toContain(trick);
    }
    expect(new Set(sampleRecords.trickDetails.keys())).toEqual(new Set(sampleSettings.tricks.map(({ name }) => name)));
  });
});
