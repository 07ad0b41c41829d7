/** The season's formulas worked out by the open grid's engine, in both kinds of host. */
import { readFileSync } from "node:fs";
import path from "node:path";
import { cellName } from "../../src/workbook/address";
import type { CalculatedValue } from "../../src/workbook/calculated";
import type { FunctionsMetadata } from "../../src/preview/custom-functions";
import { calculate, type HeadlessWorkbook } from "../../src/preview/headless";
import { sampleSeason, sampleSettings } from "../../src/workbook/sample-season";
import { seasonPlan } from "../../src/workbook/season";

const dist = path.resolve(__dirname, "../../dist");
const built = (emptyCells: "zero" | "null") => ({
  functionsScript: readFileSync(path.join(dist, "functions.js"), "utf8"),
  functionsMetadata: JSON.parse(readFileSync(path.join(dist, "functions.json"), "utf8")) as FunctionsMetadata,
  emptyCells,
});

function plain(value: CalculatedValue | undefined): unknown {
  if (value === undefined) return undefined;
  return value.kind === "error" ? value.name : value.kind === "text" ? value.text : value.value;
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
    ["the sample season", sampleSeason()],
    ["an empty season", seasonPlan(sampleSettings)],
  ])("%s shows no error anywhere", async (_, plan) => {
    const errors: string[] = [];
    for (const [sheet, { values, messages }] of await calculate(plan, built(emptyCells))) {
      for (const [address, value] of values) {
        if (value.kind === "error") errors.push(`${sheet}!${address} ${value.name} ${messages.get(address) ?? ""}`);
      }
    }
    expect(errors).toEqual([]);
  });
});

test("the sample's landings and toss plan, worked by hand", async () => {
  const workbook = await calculate(sampleSeason(), built("zero"));
  expect(besides(workbook, "Toss lab 2027", "Tosses")).toBe(10);
  // 2.7 over ten tosses to the right, 7.5 forward.
  expect(besides(workbook, "Toss lab 2027", "Mean sideways")).toBeCloseTo(0.27, 12);
  expect(besides(workbook, "Toss lab 2027", "Mean forward")).toBeCloseTo(0.75, 12);
  expect(besides(workbook, "Toss lab 2027", "Bias clear")).toBe("yes");
  // Six counts at 200 a minute are 1.8 s: 9.80665 × 1.8² / 8 m above the hand.
  expect(besides(workbook, "Toss lab 2027", "Airtime")).toBeCloseTo(1.8, 12);
  expect(besides(workbook, "Toss lab 2027", "Rise")).toBeCloseTo((9.80665 * 1.8 ** 2) / 8, 10);
});

test.each(["zero", "null"] as const)(
  "the sample's routine from its own rates, empty cells as %s",
  async (emptyCells) => {
    const workbook = await calculate(sampleSeason(), built(emptyCells));
    const routine = workbook.get("Routine 2027")?.values ?? new Map<string, CalculatedValue>();
    const rates = Array.from({ length: 9 }, (_, row) => plain(routine.get(`F${7 + row}`))).filter(
      (rate): rate is number => typeof rate === "number",
    );
    expect(rates.length).toBe(4);
    const clean = rates.reduce((product, rate) => product * rate, 1);
    expect(besides(workbook, "Routine 2027", "Chance of no drop")).toBeCloseTo(clean, 12);
    expect(besides(workbook, "Routine 2027", "Drops to expect")).toBeCloseTo(4 - rates.reduce((a, b) => a + b), 12);
    // The weakest link first: the trick with the lowest rate.
    expect(plain(routine.get("M7"))).toBe("Cartwheel blind catch");
    expect(plain(routine.get("K29"))).toBeCloseTo(clean, 12);
  },
);

test("M.K.'s week and contests in the sample, worked by hand", async () => {
  const workbook = await calculate(sampleSeason(), built("zero"));
  const week = workbook.get("Week 2027")?.values ?? new Map<string, CalculatedValue>();
  const attempts = Array.from({ length: 6 }, (_, row) => plain(week.get(`E${5 + row}`)));
  expect(attempts.reduce((sum: number, some) => sum + Number(some), 0)).toBeLessThanOrEqual(60);
  // From the last practice on Saturday 13 March to the contest on Sunday 21 March 2027.
  expect(besides(workbook, "Week 2027", "Days to the contest")).toBe(8);
  const contests = workbook.get("Contests 2027")?.values ?? new Map<string, CalculatedValue>();
  // M.K.: two contests, eight tosses, two drops.
  expect(["K8", "L8", "M8", "N8"].map((address) => plain(contests.get(address)))).toEqual([2, 8, 2, 1]);
});
