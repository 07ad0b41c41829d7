import fc from "fast-check";
import { betaBinomialAtMost, isRarerThan } from "../../src/core/beta-binomial";
import fromR from "../checks/beta-binomial-from-r.json";
import { runs } from "./runs";

describe("against R 4.2.2, summed from its lbeta and lchoose (tests/checks/beta-binomial-from-r.R)", () => {
  const rows = fromR as unknown as readonly (readonly [number, number, number, number, number])[];
  const summed = rows.filter(([, attempts]) => attempts <= 10_000);
  const integrated = rows.filter(([, attempts]) => attempts > 10_000);

  // Reached: 4e-12, of which R's lbeta is the larger part.
  test("summed term by term: 1e-10 relative", () => {
    expect(summed.length).toBeGreaterThan(200);
    const wrong = summed.filter(
      ([most, attempts, a, b, value]) => !(Math.abs(betaBinomialAtMost(most, attempts, a, b) / value - 1) <= 1e-10),
    );
    expect(wrong).toEqual([]);
  });

  test("integrated, up to a million attempts: 1e-8 absolute", () => {
    expect(integrated.length).toBeGreaterThan(100);
    const wrong = integrated.filter(
      ([most, attempts, a, b, value]) => !(Math.abs(betaBinomialAtMost(most, attempts, a, b) - value) <= 1e-8),
    );
    expect(wrong).toEqual([]);
  });
});

test("by hand: with a = b = 1 every number caught is as likely, (most + 1)/(attempts + 1)", () => {
  expect(betaBinomialAtMost(6, 10, 1, 1)).toBeCloseTo(7 / 11, 14);
  expect(betaBinomialAtMost(0, 1, 3, 1)).toBeCloseTo(1 / 4, 14);
  expect(betaBinomialAtMost(39_999, 79_999, 1, 1)).toBeCloseTo(0.5, 9);
});

test("the ends are exact, and a tail that no number can hold is 0", () => {
  expect([betaBinomialAtMost(-1, 5, 2, 2), betaBinomialAtMost(5, 5, 2, 2)]).toEqual([0, 1]);
  expect(betaBinomialAtMost(0, 10_000, 1000, 1)).toBeLessThan(1e-300);
  expect(betaBinomialAtMost(0, 1_000_000, 1000, 1)).toBeLessThan(1e-12);
});

test("both ways meet where one takes over from the other, and more caught is never less likely", () => {
  const shape = fc.integer({ min: 10, max: 12_000 }).map((tenths) => tenths / 10);
  fc.assert(
    fc.property(shape, shape, fc.integer({ min: 0, max: 9_998 }), (a, b, most) => {
      const [at, more] = [betaBinomialAtMost(most, 10_000, a, b), betaBinomialAtMost(most + 1, 10_000, a, b)];
      expect(more).toBeGreaterThanOrEqual(at);
      // One attempt more, and as many caught: between the two neighbours of the same size.
      const beyond = betaBinomialAtMost(most, 10_001, a, b);
      expect(beyond).toBeLessThanOrEqual(at + 2e-8);
      expect(betaBinomialAtMost(most + 1, 10_001, a, b)).toBeGreaterThanOrEqual(at - 2e-8);
    }),
    runs(500),
  );
});

test("the bound that spares the sum says what the sum says, also where it takes over", () => {
  const shape = fc.oneof(
    fc.double({ min: 1, max: 4, noNaN: true }),
    fc.double({ min: 1, max: 130, noNaN: true }),
    fc.double({ min: 0, max: 6, noNaN: true }).map((power) => 10 ** power),
  );
  const attempts = fc.oneof(fc.integer({ min: 1, max: 40 }), fc.integer({ min: 1, max: 20_000 }));
  fc.assert(
    fc.property(
      shape,
      shape,
      attempts,
      fc.double({ min: -3, max: 0.5, noNaN: true }),
      fc.constantFrom(1 / 150, 2 / 150, 0.05),
      (a, b, size, deviations, share) => {
        const mean = (size * a) / (a + b);
        const deviation = Math.sqrt((mean * b * (a + b + size)) / ((a + b) * (a + b + 1)));
        const most = Math.min(size, Math.max(0, Math.ceil(mean + deviations * deviation)));
        expect(isRarerThan(share, most, size, a, b)).toBe(betaBinomialAtMost(most, size, a, b) < share);
      },
    ),
    runs(10_000),
  );
});
