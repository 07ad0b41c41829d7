import { contestChance } from "../../src/core/contest-chance";
import { Missing } from "../../src/core/problem";
import type { PracticeDay } from "../../src/core/ready-date";
import { forecasts, SHAPES, shareTrue } from "../benchmarks/contest-forecasts";
import fromR from "../checks/contest-from-r.json";

const START = 46000;
const onDays = (days: readonly number[], caught: readonly number[], attempts: readonly number[]): PracticeDay[] =>
  days.map((day, index) => ({
    date: START + day,
    caught: caught[index] as number,
    attempts: attempts[index] as number,
  }));

describe("a clear trend against R 4.2.2, glm with family quasibinomial (tests/checks/contest-from-r.R)", () => {
  test("some are clear and some are not", () => {
    expect(new Set(fromR.trends.map(({ clear }) => clear)).size).toBe(2);
  });

  test.each(fromR.trends)("$caught of $attempts, $ahead days ahead", ({ days, caught, attempts, ahead, ...told }) => {
    const contest = START + Math.max(...days) + ahead;
    const found = contestChance(onDays(days, caught, attempts), contest, 0.8, 10, 0.8);
    expect(found.from).toBe(told.clear ? "trend" : "level");
    if (!told.clear) return;
    for (const figure of ["rate", "low", "high", "chance"] as const) expect(found[figure]).toBeCloseTo(told[figure], 9);
  });
});

describe("the level", () => {
  test("16 of 20 on one day, by hand: equal weights nearly, and the chance is READINESS's", () => {
    const found = contestChance(onDays([0], [16], [20]), START, 0.8, 10, 0.8);
    expect(found).toMatchObject({ from: "level", rate: expect.closeTo(0.8, 12) as number });
    // R 4.2.2: w <- (1 - 2^(-20/30)) / (1 - 2^(-1/30)); pbeta(0.8, 0.8 * w + .5, 0.2 * w + .5, lower.tail = FALSE)
    expect(found.chance).toBeCloseTo(0.474218697452074, 9);
  });

  test("the order of the rows changes nothing", () => {
    const days = onDays([0, 2, 5, 9], [8, 7, 9, 8], [10, 10, 10, 10]);
    expect(contestChance([...days].reverse(), START + 12, 0.8, 10, 0.8)).toEqual(
      contestChance(days, START + 12, 0.8, 10, 0.8),
    );
  });
});

test("a rise is not carried further, a fall is", () => {
  const days = [0, 3, 7, 10, 14, 17, 21];
  const rise = [2, 3, 4, 5, 6, 7, 8];
  const attempts = days.map(() => 10);
  const rate = (caught: readonly number[], ahead: number): number =>
    contestChance(onDays(days, caught, attempts), START + 21 + ahead, 0.8, 10, 0.8).rate;
  expect(rate(rise, 14)).toBe(rate(rise, 0));
  expect(rate([...rise].reverse(), 14)).toBeLessThan(rate([...rise].reverse(), 0) - 0.1);
});

describe("what cannot be told", () => {
  const days = onDays([0, 10], [8, 9], [10, 10]);
  const asked = (contest: number) => () => contestChance(days, contest, 0.8, 10, 0.8);
  test("further ahead than the log reaches back", () => {
    expect(asked(START + 20)).not.toThrow();
    expect(asked(START + 21)).toThrow(
      "The contest is 11 days after the last practice, and the log reaches back 10 days: a forecast reaches no further ahead than the log reaches back",
    );
  });
  test("further than eight weeks", () => {
    const long = onDays([0, 100], [8, 9], [10, 10]);
    expect(() => contestChance(long, START + 156, 0.8, 10, 0.8)).not.toThrow();
    expect(() => contestChance(long, START + 157, 0.8, 10, 0.8)).toThrow(/no forecast reaches further than 56 days/);
  });
  test("later rows are left out, and a log of later rows alone is none", () => {
    const more = [...days, ...onDays([20], [1], [10])];
    expect(contestChance(more, START + 15, 0.8, 10, 0.8)).toEqual(contestChance(days, START + 15, 0.8, 10, 0.8));
    expect(asked(START - 1)).toThrow(Missing);
  });
});

test.each([0, 1])("a standard of %d has a chance", (standard) => {
  const days = [0, 3, 7, 10, 14, 17, 21];
  for (const caught of [
    [2, 3, 4, 5, 6, 7, 8],
    [5, 5, 5, 5, 5, 5, 5],
  ]) {
    const found = contestChance(onDays(days, caught, [10, 10, 10, 10, 10, 10, 10]), START + 30, standard, 10, 0.8);
    expect(found.chance).toBe(1 - standard);
  }
});

// The promise of the forecast: of those that say 70 to 80 %, between 65 and 85 % come true where the rate stays, rises to a
// plateau, or rises at once; where it goes on rising more come true than were told.
describe.each([0, 0.4])("forecasts that say 70 to 80 %%, days that differ by %d on the log-odds", (dayEffect) => {
  test.each(SHAPES)("$name", (shape) => {
    const { told, share } = shareTrue(forecasts(shape, 8_000, dayEffect), 0.7, 0.8);
    expect(told).toBeGreaterThan(200);
    expect(share).toBeGreaterThan(0.65);
    if (shape.name !== "goes on rising") expect(share).toBeLessThan(0.85);
  });
});
