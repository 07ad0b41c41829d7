import fc from "fast-check";
import { runs } from "./runs";
import { catchInterval, catchRate, chanceAbove, INTERVAL_METHODS } from "../../src/core/catch-rate";
import { binomialAtMost } from "../../src/core/tails";
import { INTERVAL_CHECKS, WALD_COVERAGE } from "../checks/intervals";
import { logOf } from "./logs";

test.each(INTERVAL_CHECKS)("$given: $source", ({ given, expected, within }) => {
  const { low, high } = catchInterval(given.caught, given.attempts, given.confidence, given.method);
  expect(Math.abs(low - expected[0])).toBeLessThanOrEqual(within);
  expect(Math.abs(high - expected[1])).toBeLessThanOrEqual(within);
});

/** P(the interval holds the true rate), by summing the binomial over the outcomes whose interval does. */
function coverage(attempts: number, rate: number, interval: (caught: number) => { low: number; high: number }): number {
  let sum = 0;
  for (let caught = 0; caught <= attempts; caught++) {
    const { low, high } = interval(caught);
    if (low <= rate && rate <= high)
      sum += binomialAtMost(caught, attempts, rate) - binomialAtMost(caught - 1, attempts, rate);
  }
  return sum;
}

test.each(WALD_COVERAGE)(
  "coverage of the plain interval at $given, and of ours: $source",
  ({ given, expected, within }) => {
    const { attempts, rate } = given;
    const wald = coverage(attempts, rate, (caught) => {
      const share = caught / attempts;
      const half = 1.959964 * Math.sqrt((share * (1 - share)) / attempts);
      return { low: share - half, high: share + half };
    });
    expect(Math.abs(wald - expected)).toBeLessThanOrEqual(within);
    // The same paper, section 4: Wilson's and Jeffreys' stay near 0.95, the exact one never falls below.
    expect(coverage(attempts, rate, (caught) => catchInterval(caught, attempts, 0.95, "exact"))).toBeGreaterThanOrEqual(
      0.95,
    );
    expect(coverage(attempts, rate, (caught) => catchInterval(caught, attempts, 0.95, "wilson"))).toBeGreaterThan(0.92);
  },
);

describe("chance of being at the standard", () => {
  test.each([
    { caught: 8, attempts: 10, expected: 0.466504044838 },
    { caught: 20, attempts: 20, expected: 0.997358751885 },
    { caught: 79, attempts: 100, expected: 0.392318722339 },
    { caught: 95, attempts: 100, expected: 0.999991464863 },
  ])("$caught of $attempts at 0.8, by R's pbeta", ({ caught, attempts, expected }) => {
    expect(chanceAbove(caught, attempts - caught, 0.8)).toBeCloseTo(expected, 11);
  });

  test("Albert, Bayesian Computation with R, section 2.4: a beta(3.26, 7.19) prior and 11 of 27", () => {
    // The posterior is Beta(14.26, 23.19); ours adds one half to each count.
    expect(chanceAbove(13.76, 22.69, 0.5)).toBeCloseTo(0.0690226, 6);
  });
});

describe("the share caught", () => {
  test("of all, and of the latest", () => {
    const log = logOf(["ccccc ddddd", "ccccd"]);
    expect(catchRate(log, undefined)).toBe(9 / 15);
    expect(catchRate(log, 5)).toBe(0.8);
    expect(catchRate(log, 7)).toBe(4 / 7);
    expect(catchRate(log, 400)).toBe(9 / 15);
  });

  test("tallies may be cut at their edges only", () => {
    const log = logOf(["8/10", "ccd", "1/2"]);
    expect([catchRate(log, undefined), catchRate(log, 2), catchRate(log, 5), catchRate(log, 15)]).toEqual([
      11 / 15,
      0.5,
      0.6,
      11 / 15,
    ]);
    expect(() => catchRate(log, 6)).toThrow(/marks, row 1, column 1: found the tally 8\/10.*such as 15/);
    expect(() => catchRate(log, 1)).toThrow(/row 3/);
  });

  test("without attempts there is none", () => {
    expect(() => catchRate(logOf([null]), undefined)).toThrow(/log the first set/);
  });
});

describe("properties of every method", () => {
  const tally = fc
    .integer({ min: 1, max: 5000 })
    .chain((attempts) => fc.tuple(fc.integer({ min: 0, max: attempts }), fc.constant(attempts)));
  const level = fc.double({ min: 0.01, max: 0.999, noNaN: true });

  test.each(INTERVAL_METHODS)(
    "%s: ordered, holds the share, mirrors, widens with confidence, moves up with a catch",
    (method) => {
      fc.assert(
        fc.property(tally, level, ([caught, attempts], confidence) => {
          const { low, high } = catchInterval(caught, attempts, confidence, method);
          const share = caught / attempts;
          expect(low).toBeGreaterThanOrEqual(0);
          expect(high).toBeLessThanOrEqual(1);
          // Jeffreys' interval at a low confidence may lie beside the plain share, since its middle is drawn to one half.
          if (method !== "jeffreys") {
            expect(low).toBeLessThanOrEqual(share + 1e-12);
            expect(high).toBeGreaterThanOrEqual(share - 1e-12);
          }
          const mirrored = catchInterval(attempts - caught, attempts, confidence, method);
          expect(mirrored.low).toBeCloseTo(1 - high, 9);
          expect(mirrored.high).toBeCloseTo(1 - low, 9);
          const wider = catchInterval(caught, attempts, confidence + (1 - confidence) / 2, method);
          expect(wider.low).toBeLessThanOrEqual(low + 1e-12);
          expect(wider.high).toBeGreaterThanOrEqual(high - 1e-12);
          if (caught < attempts) {
            const better = catchInterval(caught + 1, attempts, confidence, method);
            expect(better.low).toBeGreaterThanOrEqual(low);
            expect(better.high).toBeGreaterThanOrEqual(high);
            expect(chanceAbove(caught + 1, attempts - caught - 1, 0.8)).toBeGreaterThanOrEqual(
              chanceAbove(caught, attempts - caught, 0.8),
            );
          }
        }),
        runs(300),
      );
    },
  );

  test("full confidence is 0 to 1", () => {
    for (const method of INTERVAL_METHODS) expect(catchInterval(3, 9, 1, method)).toEqual({ low: 0, high: 1 });
  });
});
