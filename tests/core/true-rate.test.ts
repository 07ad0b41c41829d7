import fc from "fast-check";
import { chanceAbove } from "../../src/core/catch-rate";
import { betaQuantile, betaQuantileAbove } from "../../src/core/tails";
import { isChanceFrom, middleOfRate, Threshold } from "../../src/core/true-rate";
import { runs } from "./runs";

/** Weights as logs have them, with none, hardly any and very many among them. */
const weight = fc.oneof(
  fc.constant(0),
  fc.double({ min: 0, max: 2, noNaN: true }),
  fc.double({ min: 0, max: 45, noNaN: true }),
  fc.double({ min: -8, max: 7, noNaN: true }).map((power) => 10 ** power),
);

test("the middle 95 % is that of the library's own inverse, from no attempts to a log of ten million", () => {
  fc.assert(
    fc.property(weight, weight, (caught, missed) => {
      const { low, high } = middleOfRate(caught, missed);
      const [a, b] = [caught + 0.5, missed + 0.5];
      // The library's inverse is itself held to R's qbeta (tails.test.ts).
      expect(Math.abs(low / betaQuantile(0.025, a, b) - 1)).toBeLessThan(1e-9);
      expect(Math.abs(high / betaQuantileAbove(0.025, a, b) - 1)).toBeLessThan(1e-9);
    }),
    runs(2000),
  );
});

test.each([
  // R 4.2.2: qbeta(c(0.025, 0.975), caught + 0.5, missed + 0.5)
  [0, 0, 0.00154133313344, 0.998458666867],
  [0, 0.3, 0.000825959707937, 0.978830769556],
  [0.4, 43.4, 0.000365366055686, 0.0761860437553],
  [43.8, 0, 0.94457294948, 0.999988853033],
  [36, 7.8, 0.690054942982, 0.912893252497],
  [8, 2, 0.49722550356, 0.955940586447],
  [1, 1, 0.0608302759201, 0.93916972408],
  [800000, 200000, 0.799215146779, 0.800783116641],
])("the middle 95 %% of %d caught and %d missed, by R's qbeta", (caught, missed, low, high) => {
  const found = middleOfRate(caught, missed);
  expect(found.low / low).toBeCloseTo(1, 9);
  expect(found.high / high).toBeCloseTo(1, 9);
});

describe("whether the chance is from a threshold on, mostly without the beta distribution", () => {
  const thresholds = [0.25, 0.5, 0.82].map((chance) => new Threshold(chance));

  function expectSame(caught: number, missed: number, standard: number): void {
    const chance = chanceAbove(caught, missed, standard);
    for (const least of thresholds) {
      // An even chance of even weights may miss its half by the library's last digits: 6e-10 at ten million of each.
      if (Math.abs(chance - least.chance) < 1e-10 + 1e-16 * (caught + missed)) continue;
      expect([least.chance, isChanceFrom(least, caught, missed, standard)]).toEqual([
        least.chance,
        chance > least.chance,
      ]);
    }
  }

  test("around the mean", () => {
    fc.assert(
      fc.property(weight, weight, fc.double({ min: -0.12, max: 0.12, noNaN: true }), (caught, missed, away) => {
        expectSame(caught, missed, Math.min(1, Math.max(0, (caught + 0.5) / (caught + missed + 1) + away)));
      }),
      runs(20_000),
    );
  });

  test("with millions of attempts at their mean, where the library itself is on the wrong side of a half", () => {
    const [caught, missed] = [9999999.999999836, 9999977.99214591];
    const mean = (caught + 0.5) / (caught + missed + 1);
    // R 4.2.2: pbeta(mean, caught + 0.5, missed + 0.5, lower.tail = FALSE) - 0.5 is 6.5e-11.
    expect(chanceAbove(caught, missed, mean)).toBeLessThan(0.5);
    expect(isChanceFrom(new Threshold(0.5), caught, missed, mean)).toBe(true);
    expectSame(caught, missed, mean);
  });

  test("close to the thresholds, where an approximation would be wrong", () => {
    fc.assert(
      fc.property(
        weight,
        weight,
        fc.constantFrom(...thresholds),
        fc.double({ min: -0.02, max: 0.02, noNaN: true }),
        (caught, missed, { chance }, away) => {
          expectSame(caught, missed, betaQuantileAbove(chance + away, caught + 0.5, missed + 0.5));
        },
      ),
      runs(10_000),
    );
  });

  test("at standards of 0 and 1", () => {
    expect(thresholds.map((least) => isChanceFrom(least, 3, 2, 0))).toEqual([true, true, true]);
    expect(thresholds.map((least) => isChanceFrom(least, 40, 0, 1))).toEqual([false, false, false]);
  });
});
