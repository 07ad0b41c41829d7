import fc from "fast-check";
import { streakAttempts, streakChance, streaks } from "../../src/core/streak";
import { STREAK_ATTEMPTS_CHECKS, STREAK_CHANCE_CHECKS } from "../checks/streaks";
import { logOf } from "./logs";

test.each(STREAK_CHANCE_CHECKS)("$given: $source", ({ given, expected, within }) => {
  expect(Math.abs(streakChance(given.rate, given.length, given.attempts) - expected)).toBeLessThanOrEqual(within);
});

test.each(STREAK_ATTEMPTS_CHECKS)("$given: $source", ({ given, expected, within }) => {
  expect(Math.abs(streakAttempts(given.rate, given.length) - expected)).toBeLessThanOrEqual(within);
});

/** Every sequence of catches and misses, one by one. */
function byEnumeration(rate: number, length: number, attempts: number): number {
  let chance = 0;
  for (let sequence = 0; sequence < 2 ** attempts; sequence++) {
    let run = 0;
    let found = false;
    let probability = 1;
    for (let attempt = 0; attempt < attempts; attempt++) {
      const caught = (sequence >> attempt) & 1;
      probability *= caught ? rate : 1 - rate;
      run = caught ? run + 1 : 0;
      found ||= run >= length;
    }
    if (found) chance += probability;
  }
  return chance;
}

test("the same as going through every sequence", () => {
  for (const rate of [0.1, 0.6, 0.95]) {
    for (const [length, attempts] of [
      [1, 5],
      [2, 7],
      [3, 12],
      [5, 13],
      [12, 12],
      [4, 3],
    ] as const) {
      expect(streakChance(rate, length, attempts)).toBeCloseTo(byEnumeration(rate, length, attempts), 12);
    }
  }
});

test("a rare streak keeps its digits", () => {
  // One catch in a thousand, three in a row within three attempts: r³ exactly.
  expect(streakChance(0.001, 3, 3) / 1e-9).toBeCloseTo(1, 12);
});

test("ends: no rate, sure rate, too few attempts", () => {
  expect([streakChance(0, 1, 9), streakChance(1, 9, 9), streakChance(1, 9, 8), streakChance(0.5, 1, 0)]).toEqual([
    0, 1, 0, 0,
  ]);
  expect(streakAttempts(1, 7)).toBe(7);
  expect(() => streakAttempts(0, 3)).toThrow(/rate of 0/);
  expect(() => streakAttempts(0.001, 6)).toThrow(/more than 1e15/);
});

test("more attempts, a higher rate and a shorter streak never lower the chance", () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.integer({ min: 1, max: 12 }),
      fc.integer({ min: 0, max: 300 }),
      (one, other, length, attempts) => {
        const [low, high] = [Math.min(one, other), Math.max(one, other)];
        const chance = streakChance(low, length, attempts);
        expect(chance).toBeGreaterThanOrEqual(0);
        expect(streakChance(high, length, attempts)).toBeGreaterThanOrEqual(chance - 1e-12);
        expect(streakChance(low, length, attempts + 1)).toBeGreaterThanOrEqual(chance);
        expect(streakChance(low, length + 1, attempts)).toBeLessThanOrEqual(chance + 1e-12);
      },
    ),
  );
});

test("the mean is near the rate's inverse for one catch, and near a sure rate it keeps its digits", () => {
  expect(streakAttempts(0.25, 1)).toBeCloseTo(4, 12);
  // (1 − r^L) / ((1 − r) r^L) for r = 1 − 1e-9 and L = 10 is 10 + 55e-9 to first order.
  expect(streakAttempts(1 - 1e-9, 10) - 10).toBeCloseTo(55e-9, 12);
});

test.each([
  ["ccdcc c", { current: 3, best: 3, misses: 1 }],
  ["cccc dd b", { current: -3, best: 4, misses: 3 }],
  ["d", { current: -1, best: 0, misses: 1 }],
  ["", { current: 0, best: 0, misses: 0 }],
])("streaks in %p", (marks, expected) => {
  expect(streaks(logOf([marks]))).toEqual(expected);
});

test("streaks turn round with catches and drops", () => {
  fc.assert(
    fc.property(fc.array(fc.constantFrom("c", "d"), { minLength: 1 }), (letters) => {
      const one = streaks(logOf([letters.join("")]));
      const other = streaks(logOf([letters.map((letter) => (letter === "c" ? "d" : "c")).join("")]));
      expect(other).toEqual({ current: -one.current, best: one.misses, misses: one.best });
    }),
  );
});
