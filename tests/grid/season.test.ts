/** The season's formulas worked out by the open grid's engine, in both kinds of host. */
import { compareRates } from "../../src/core/compare";
import { assess } from "../../src/core/readiness";
import { logOf } from "../core/logs";
import { readFileSync } from "node:fs";
import path from "node:path";
import { cellName } from "../../src/workbook/plan/address";
import type { CalculatedValue } from "../../src/workbook/plan/calculated";
import type { FunctionsMetadata } from "../../src/grid/engine/custom-functions";
import { calculate, type HeadlessWorkbook } from "../../src/grid/headless";
import { sampleRecords, sampleSeason, sampleSettings } from "../../src/workbook/sample/sample-season";
import { seasonPlan } from "../../src/workbook/season/season";
import { STAGES_APART } from "../../src/trade/stages";
import { dropSpread } from "../../src/core/routine";
import { plain } from "./plain-values";

const APART: readonly string[] = STAGES_APART;
const dist = path.resolve(__dirname, "../../dist");
const built = (emptyCells: "zero" | "null") => ({
  functionsScript: readFileSync(path.join(dist, "functions.js"), "utf8"),
  functionsMetadata: JSON.parse(readFileSync(path.join(dist, "functions.json"), "utf8")) as FunctionsMetadata,
  emptyCells,
});

const worked = new Map<string, Promise<HeadlessWorkbook>>();

/** The sample season worked out: once for each kind of host, since that takes seconds. */
function sample(emptyCells: "zero" | "null" = "zero"): Promise<HeadlessWorkbook> {
  let workbook = worked.get(emptyCells);
  if (workbook === undefined) worked.set(emptyCells, (workbook = calculate(sampleSeason(), built(emptyCells))));
  return workbook;
}

/** The value to the right of the cell that holds these words, typed or worked out. */
function besides(workbook: HeadlessWorkbook, sheet: string, words: string): unknown {
  const values = workbook.get(sheet)?.values ?? new Map<string, CalculatedValue>();
  const typed = (sampleSeason().sheets.find(({ name }) => name === sheet)?.cells ?? []).flatMap(({ at, content }) =>
    content.kind === "text" && content.text === words ? [at] : [],
  );
  const workedOut = [...values].flatMap(([address, value]) => (plain(value) === words ? [cellAddress(address)] : []));
  const [found] = [...typed, ...workedOut];
  if (!found) throw new Error(`${sheet} does not show ${words}`);
  return plain(values.get(cellName({ row: found.row, column: found.column + 1 })));
}

function cellAddress(address: string): { row: number; column: number } {
  const [, letters = "", row = ""] = /^([A-Z]+)(\d+)$/.exec(address) ?? [];
  return { row: Number(row), column: [...letters].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) };
}

describe.each(["zero", "null"] as const)("empty cells as %s", (emptyCells) => {
  test.each([
    ["the sample season", () => sample(emptyCells)],
    ["an empty season", () => calculate(seasonPlan(sampleSettings), built(emptyCells))],
  ])("%s shows no error anywhere", async (_, workbook) => {
    const errors: string[] = [];
    let answers = 0;
    for (const [sheet, { values, messages }] of await workbook()) {
      answers += values.size;
      for (const [address, value] of values) {
        if (value.kind === "error") errors.push(`${sheet}!${address} ${value.name} ${messages.get(address) ?? ""}`);
      }
    }
    expect(answers).toBeGreaterThan(100);
    expect(errors).toEqual([]);
  });
});

test("the sample's landings and toss plan, worked by hand", async () => {
  const workbook = await sample();
  expect(besides(workbook, "Toss lab 2026", "Tosses")).toBe(10);
  // 2.7 over ten tosses to the right, 7.5 forward.
  expect(besides(workbook, "Toss lab 2026", "Mean sideways")).toBeCloseTo(0.27, 12);
  expect(besides(workbook, "Toss lab 2026", "Mean forward")).toBeCloseTo(0.75, 12);
  expect(besides(workbook, "Toss lab 2026", "Bias clear")).toBe("yes");
  // Six counts at 200 a minute are 1.8 s: 9.80665 × 1.8² / 8 m above the hand.
  expect(besides(workbook, "Toss lab 2026", "Airtime")).toBeCloseTo(1.8, 12);
  expect(besides(workbook, "Toss lab 2026", "Rise")).toBeCloseTo((9.80665 * 1.8 ** 2) / 8, 10);
});

const { practice, contests, routine } = sampleRecords;

/** Single marks in order, of the stages that the board counts. */
function countedMarks(athlete: string, trick: string): string {
  return practice
    .filter((entry) => entry.athlete === athlete && entry.trick === trick)
    .filter(({ stage }) => !APART.includes(stage))
    .map(({ marks }) => marks.replaceAll(" ", ""))
    .join("");
}

function caughtIn(marks: string): number {
  return [...marks].filter((mark) => mark === "c").length;
}

/**
 * The weighted share caught since the last slide, as the readiness rule has it (held to R in its own tests); nothing for a
 * trick that was never practised joined.
 */
function recentRate(athlete: string, trick: string): number | undefined {
  const marks = countedMarks(athlete, trick);
  return marks === "" ? undefined : assess(logOf([marks]), sampleSettings.standard, sampleSettings.setSize).recentRate;
}

const tosses = routine.map(({ trick }) => trick).filter((trick) => sampleRecords.trickDetails.has(trick));

test.each(["zero", "null"] as const)(
  "the sample's routine from the marks of its tosses, empty cells as %s",
  async (emptyCells) => {
    const workbook = await sample(emptyCells);
    const shown = workbook.get("Routine 2026")?.values ?? new Map<string, CalculatedValue>();
    const rates = routine.map(({ trick }) => recentRate("M.K.", trick));
    expect(rates.filter((rate) => rate !== undefined)).toHaveLength(7);
    rates.forEach((rate, index) => {
      const cell = plain(shown.get(`G${7 + index}`));
      if (rate === undefined) expect(cell).toBe("");
      else expect(cell).toBeCloseTo(rate, 12);
    });
    const known = rates.filter((rate) => rate !== undefined);
    const clean = known.reduce((product, rate) => product * rate, 1);
    expect(besides(workbook, "Routine 2026", "Chance of no drop")).toBeCloseTo(clean, 12);
    expect(besides(workbook, "Routine 2026", "Drops to expect")).toBeCloseTo(7 - known.reduce((a, b) => a + b), 12);
    // The weakest link first: the trick with the lowest rate.
    expect(plain(shown.get("N7"))).toBe("Cartwheel blind catch");
    expect(Math.min(...known)).toBe(recentRate("M.K.", "Cartwheel blind catch"));
    // How likely no drop is stands in the spread as well, in its first line.
    expect(plain(shown.get("L29"))).toBeCloseTo(clean, 12);
    // 16+5+72+3+6+96+5+3+88+6+64+7+32 = 403 counts, at 200 a minute 120.9 s: under the limit of 150.
    expect(plain(shown.get("W19"))).toBe("2:00.9");
  },
);

test("the sample's board from the marks alone", async () => {
  const board = (await sample()).get("Board 2026")?.values;
  const pairs = [...new Set(practice.map(({ athlete, trick }) => `${athlete}|${trick}`))].sort();
  pairs.forEach((pair, index) => {
    const [athlete = "", trick = ""] = pair.split("|");
    const marks = countedMarks(athlete, trick);
    const lastSet = marks.slice(-sampleSettings.setSize);
    const days = practice.filter((entry) => entry.athlete === athlete && entry.trick === trick);
    const counted = days.filter(({ stage }) => !APART.includes(stage));
    const shown = ["A", "B", "C", "D", "L"].map((column) => plain(board?.get(`${column}${5 + index}`)));
    expect(shown).toEqual([
      athlete,
      trick,
      marks.length,
      `${caughtIn(lastSet)}/${lastSet.length}`,
      counted.at(-1)?.date,
    ]);
  });
  expect(board?.get(`A${5 + pairs.length}`)).toBeUndefined();
});

test("M.K.'s week in the sample, worked by hand", async () => {
  const workbook = await sample();
  const week = workbook.get("Week 2026")?.values ?? new Map<string, CalculatedValue>();
  // An hour, at the pace of all rows of M.K.'s with minutes, whatever their stage.
  const timed = practice.filter((entry) => entry.athlete === "M.K." && (entry.minutes ?? 0) > 0);
  const tried = timed.reduce((sum, { marks }) => sum + marks.replaceAll(" ", "").length, 0);
  const taken = timed.reduce((sum, entry) => sum + (entry.minutes ?? 0), 0);
  expect(besides(workbook, "Week 2026", "Attempts a minute, so far")).toBeCloseTo(tried / taken, 12);
  expect(besides(workbook, "Week 2026", "Attempts to share out")).toBe(Math.floor((60 * tried) / taken));
  // Eleven tricks, whole sets of ten, at most three of a trick; the one at risk in the routine comes first.
  const planned = Array.from({ length: 11 }, (_, row) => ({
    trick: plain(week.get(`D${5 + row}`)),
    attempts: Number(plain(week.get(`E${5 + row}`))),
    weight: plain(week.get(`L${5 + row}`)),
    listed: plain(week.get(`H${5 + row}`)),
  }));
  const danced = new Set(routine.map(({ trick }) => trick));
  expect(planned.map(({ listed, weight }) => [listed, weight])).toEqual(
    planned.map(({ listed }) => [listed, danced.has(String(listed)) ? 1 : 0.25]),
  );
  expect(planned.reduce((sum, { attempts }) => sum + attempts, 0)).toBe(Math.floor((6 * tried) / taken) * 10);
  expect(planned.every(({ attempts }) => attempts % 10 === 0 && attempts <= 30)).toBe(true);
  expect(planned[0]).toMatchObject({ trick: "Cartwheel blind catch", attempts: 30 });
  // The log ends on the day of the cup.
  expect(besides(workbook, "Week 2026", "Days to the contest")).toBe(0);
  // Monday 16 to Sunday 22 March 2026: practice on Monday, Wednesday and Friday; the contest's minutes are not logged.
  const lastWeek = practice.filter(({ athlete, date }) => athlete === "M.K." && date > 46096 && date <= 46103);
  const minutes = lastWeek.reduce((sum, entry) => sum + (entry.minutes ?? 0), 0);
  const daysOn = new Set(lastWeek.filter((entry) => entry.minutes !== null).map(({ date }) => date)).size;
  expect(besides(workbook, "Week 2026", "Hours in 7 days")).toBeCloseTo(minutes / 60, 12);
  expect(besides(workbook, "Week 2026", "Rest days in 7")).toBe(7 - daysOn);
});

// For whoever stands first on the board too: the engine took its first line for a toss of the routine.
test.each(sampleSettings.athletes)("the drops that the board predicts for %s, worked by hand", async (athlete) => {
  const { focus } = sampleRecords;
  if (focus === null) throw new Error("The sample shows nobody.");
  const plan = seasonPlan(sampleSettings, { ...sampleRecords, focus: { ...focus, athlete } });
  const shown = (await calculate(plan, built("zero"))).get("Contests 2026")?.values;
  const rates = tosses.flatMap((trick) => recentRate(athlete, trick) ?? []);
  expect(plain(shown?.get("T17"))).toBeCloseTo(
    rates.reduce((sum, rate) => sum + 1 - rate, 0),
    9,
  );
});

test("the limits of a club's own rules, worked by hand", async () => {
  const workbook = await sample();
  const shown = workbook.get("Routine 2026")?.values ?? new Map<string, CalculatedValue>();
  // Seven of the routine's rows are tosses; two are spins, and none is a quad. Seconds are the timeline's last line.
  const [nowAt, saysAt] = ["AH", "AI"];
  const now = [7, 8, 9, 10].map((row) => plain(shown.get(`${nowAt}${String(row)}`)));
  expect([now[0], now[2], now[3]]).toEqual([7, 2, 0]);
  const counts = 16 + 5 + 72 + 3 + 6 + 96 + 5 + 3 + 88 + 6 + 64 + 7 + 32;
  expect(now[1]).toBeCloseTo((counts * 60) / sampleSettings.countsPerMinute, 9);
  const says = [7, 8, 9, 10].map((row) => plain(shown.get(`${saysAt}${String(row)}`)));
  expect(says).toEqual(["Within", "Within", "Within", "Within"]);
  expect(plain(shown.get("A5"))).toBe("");

  const limits = [
    { on: "Tosses", named: "", most: 6 },
    { on: "Seconds", named: "", most: 100 },
    { on: "Tricks named", named: "SPIN", most: 0 },
    { on: "Tricks named", named: "", most: 0 },
  ] as const;
  const strict = await calculate(seasonPlan(sampleSettings, { ...sampleRecords, limits }), built("zero"));
  const found = strict.get("Routine 2026")?.values ?? new Map<string, CalculatedValue>();
  const over = Math.round((counts * 600) / sampleSettings.countsPerMinute - 1000) / 10;
  expect([7, 8, 9, 10].map((row) => plain(found.get(`${saysAt}${String(row)}`)))).toEqual([
    "1 over",
    `${String(over)} over`,
    "2 over",
    "",
  ]);
  expect(plain(found.get("A5"))).toBe("3 limits are passed: see Limits of your rules, far right.");
});

test("the sample's contests, worked by hand", async () => {
  const workbook = await sample();
  const shown = workbook.get("Contests 2026")?.values ?? new Map<string, CalculatedValue>();
  // M.K.: two contests of seven tosses; the leap back catch dropped at the first, the blind catch and the triple at the second.
  expect(["K9", "L9", "M9", "N9"].map((address) => plain(shown.get(address)))).toEqual([2, 14, 3, 1.5]);
  expect(besides(workbook, "Contests 2026", "Routines at contests")).toBe(12);
  // 6 drops at the winter contest, 4 at the cup.
  expect(besides(workbook, "Contests 2026", "Drops that happened")).toBe(10);
  const predicted = contests
    .flatMap(({ athlete }) => tosses.map((trick) => recentRate(athlete, trick)))
    .reduce<number>((sum, rate) => sum + (rate === undefined ? 0 : 1 - rate), 0);
  expect(besides(workbook, "Contests 2026", "Drops predicted")).toBeCloseTo(predicted, 10);
  // What chance gives: all these tosses together are one Poisson binomial count, whose 95 % are reckoned exactly here.
  const all = contests.flatMap(({ athlete }) => tosses.flatMap((trick) => recentRate(athlete, trick) ?? []));
  const least = (share: number): number => {
    let below = 0;
    return dropSpread(all).findIndex((chance) => (below += chance) >= share);
  };
  const [low, high] = ["Chance alone gives from", "up to, in 95 of 100 seasons"].map((words) =>
    Number(besides(workbook, "Contests 2026", words)),
  );
  expect([least(0.025) - 1, least(0.025)]).toContain(low);
  expect([least(0.975), least(0.975) + 1]).toContain(high);
  expect(plain(shown.get("S26"))).toMatch(/^(Within|More|Fewer)/);
  // Contest tosses are first tries: the first mark of each day's first row at each trick, whole ones alone.
  const firsts = new Map<string, string>();
  for (const { athlete, stage, date, trick, marks } of practice) {
    const key = `${String(date)} ${trick}`;
    if (athlete !== "M.K." || stage === "Contest" || APART.includes(stage) || firsts.has(key)) continue;
    firsts.set(key, marks.charAt(0));
  }
  const marks = [...firsts.values()].join("");
  expect(marks).toMatch(/^[cdb]{100,}$/);
  expect(besides(workbook, "Contests 2026", "Practice: caught")).toBe(caughtIn(marks));
  expect(besides(workbook, "Contests 2026", "Practice: attempts")).toBe(marks.length);
  expect(besides(workbook, "Contests 2026", "Contests: caught")).toBe(11);
  expect(besides(workbook, "Contests 2026", "Contests: tosses")).toBe(14);
  // COMPARE's own figures, and what they come to in words.
  const compared = compareRates(
    { caught: caughtIn(marks), attempts: marks.length },
    { caught: 11, attempts: 14 },
    0.95,
  );
  const found = ["S14", "T14", "U14", "V14", "W14"].map((address) => plain(shown.get(address)));
  expect(found.slice(0, 3)).toEqual([compared.difference, compared.low, compared.high]);
  expect(compared.verdict).toBe("no clear difference");
  expect(found[4]).toMatch(/^No clear difference so far/);
});

test("the run-throughs are counted where they are chosen, by day", async () => {
  const season = sampleSeason();
  const sheets = season.sheets.map((sheet) => ({
    ...sheet,
    cells: sheet.cells.map((cell) =>
      cell.content.kind === "text" && cell.content.text === "First tries"
        ? { ...cell, content: { kind: "text", text: "Run-through" } as const }
        : cell,
    ),
  }));
  const workbook = await calculate({ ...season, sheets }, built("zero"));
  const marks = practice
    .filter(({ athlete, stage }) => athlete === "M.K." && stage === "Run-through")
    .map((entry) => entry.marks.replaceAll(" ", ""))
    .join("");
  expect(besides(workbook, "Contests 2026", "Practice: caught")).toBe(caughtIn(marks));
  expect(besides(workbook, "Contests 2026", "Practice: attempts")).toBe(marks.length);
});
