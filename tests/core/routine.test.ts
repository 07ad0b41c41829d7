import fc from "fast-check";
import { runs } from "./runs";
import { swapVerdict } from "../../src/core/advice";
import {
  cleanChance,
  compareTricks,
  dropChance,
  dropChances,
  dropSpread,
  expectedDrops,
  links,
  routineScore,
} from "../../src/core/routine";
import { clock, timeline } from "../../src/core/timeline";

const misses = (...chances: number[]) => chances.map((chance) => 1 - chance);

test.each([
  {
    source: "R package poibin, as printed in the tests of a Python port",
    rates: misses(0.4163448, 0.334027, 0.9689613),
    chances: [0.0120647, 0.39129134, 0.46189012, 0.13475384],
    within: 5e-8,
  },
  {
    source: "R package poisbinom, as printed in the tests of SciPy",
    rates: misses(0.9480654803913988, 0.052428488100509374, 0.25863527358887417, 0.057764076043633206),
    chances: [0.03437634436780603, 0.6435428452689714, 0.2936345519235537, 0.027703664750390235, 0.0007425936892786034],
    within: 1e-12,
  },
  { source: "R package poibin", rates: misses(0.3, 0.8, 0.3), chances: [0.098, 0.476, 0.354, 0.072], within: 1e-12 },
  {
    source: "R package PoissonBinomial 1.2.5, a routine of ten tosses",
    rates: [0.98, 0.95, 0.9, 0.85, 0.8, 0.97, 0.93, 0.88, 0.99, 0.75],
    chances: [0.335841929272, 0.40187385076, 0.199202255066, 0.053572024473, 0.008600855529],
    within: 1e-11,
  },
  {
    source: "binomial table, n = 10, p = 0.05 (cumulative 0.5987, 0.9139)",
    rates: Array<number>(10).fill(0.95),
    chances: [0.5987, 0.9139 - 0.5987],
    within: 0.0001,
  },
])("chances of drops: $source", ({ rates, chances, within }) => {
  const ours = dropChances(rates, rates.length);
  chances.forEach((chance, drops) => expect(Math.abs((ours[drops] ?? NaN) - chance)).toBeLessThanOrEqual(within));
});

test("numbers that surprise a coach: eight tosses at 90, 95 and 98 % are clean 43, 66 and 85 % of the time", () => {
  expect([0.9, 0.95, 0.98].map((rate) => Math.round(100 * cleanChance(Array<number>(8).fill(rate))))).toEqual([
    43, 66, 85,
  ]);
});

/** Every course of the routine, one by one. */
function everyCourse(rates: readonly number[]): { caught: boolean[]; chance: number }[] {
  return Array.from({ length: 2 ** rates.length }, (_, course) => {
    const caught = rates.map((_rate, toss) => ((course >> toss) & 1) === 1);
    return { caught, chance: rates.reduce((chance, rate, toss) => chance * (caught[toss] ? rate : 1 - rate), 1) };
  });
}

const rates = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 9 });

test("the same as going through every course of the routine", () => {
  fc.assert(
    fc.property(rates, fc.nat(9), (all, drops) => {
      const courses = everyCourse(all);
      const sum = (keep: (missed: number) => boolean) =>
        courses
          .filter(({ caught }) => keep(caught.filter((hit) => !hit).length))
          .reduce((total, { chance }) => total + chance, 0);
      expect(cleanChance(all)).toBeCloseTo(
        sum((missed) => missed === 0),
        12,
      );
      expect(dropChance(all, drops)).toBeCloseTo(
        sum((missed) => missed <= drops),
        12,
      );
      expect(expectedDrops(all)).toBeCloseTo(
        courses.reduce((total, { caught, chance }) => total + chance * caught.filter((hit) => !hit).length, 0),
        12,
      );
    }),
    runs(200),
  );
});

test("the order of the tosses changes nothing, a better rate never hurts", () => {
  fc.assert(
    fc.property(rates, fc.nat(), fc.double({ min: 0, max: 1, noNaN: true }), (all, place, other) => {
      const reversed = [...all].reverse();
      expect(cleanChance(reversed)).toBeCloseTo(cleanChance(all), 14);
      expect(dropChance(reversed, 1)).toBeCloseTo(dropChance(all, 1), 13);
      const better = all.map((rate, toss) => (toss === place % all.length ? Math.max(rate, other) : rate));
      expect(cleanChance(better)).toBeGreaterThanOrEqual(cleanChance(all));
      expect(dropChance(better, 1)).toBeGreaterThanOrEqual(dropChance(all, 1) - 1e-12);
    }),
  );
});

test("the spread ends where the rest is below a millionth", () => {
  fc.assert(
    fc.property(rates, (all) => {
      const spread = dropSpread(all);
      const shown = spread.reduce((sum, chance) => sum + chance, 0);
      expect(1 - shown).toBeLessThan(1e-6 + 1e-12);
      // One fewer would leave more than that, unless nothing is left to leave out.
      if (spread.length > 1)
        expect(1 - (shown - (spread[spread.length - 1] ?? 0))).toBeGreaterThanOrEqual(1e-6 - 1e-12);
    }),
  );
});

describe("points", () => {
  test("by hand: two tosses of 1 and 2 points, 0.5 off for a drop", () => {
    const score = routineScore(
      [
        { rate: 0.9, value: 1 },
        { rate: 0.8, value: 2 },
      ],
      0.5,
    );
    // Totals 3 (0.72), 1.5 (0.08), 0.5 (0.18), -1 (0.02).
    expect(score.expected).toBeCloseTo(2.35, 12);
    expect(score.standardDeviation).toBeCloseTo(Math.sqrt(0.09 * 2.25 + 0.16 * 6.25), 12);
    expect([score.worstInTen, score.bestInTen, score.exact]).toEqual([0.5, 3, true]);
  });

  test("quantiles the same as going through every course", () => {
    const toss = fc.record({
      rate: fc.double({ min: 0, max: 1, noNaN: true }),
      value: fc.integer({ min: 0, max: 12 }).map((quarters) => quarters / 4),
    });
    fc.assert(
      fc.property(fc.array(toss, { minLength: 1, maxLength: 8 }), fc.constantFrom(0, 0.5, 0.75), (tosses, dropCost) => {
        const totals = everyCourse(tosses.map(({ rate }) => rate)).map(({ caught, chance }) => ({
          chance,
          points: tosses.reduce((sum, { value }, place) => sum + (caught[place] ? value : -dropCost), 0),
        }));
        const score = routineScore(tosses, dropCost);
        const below = (limit: number) =>
          totals.filter(({ points }) => points <= limit + 1e-9).reduce((sum, { chance }) => sum + chance, 0);
        const strictlyBelow = (limit: number) =>
          totals.filter(({ points }) => points < limit - 1e-9).reduce((sum, { chance }) => sum + chance, 0);
        expect(score.expected).toBeCloseTo(
          totals.reduce((sum, { chance, points }) => sum + chance * points, 0),
          10,
        );
        for (const [point, share] of [
          [score.worstInTen, 0.1],
          [score.bestInTen, 0.9],
        ] as const) {
          expect(below(point)).toBeGreaterThanOrEqual(share - 1e-9);
          expect(strictlyBelow(point)).toBeLessThanOrEqual(share + 1e-9);
        }
      }),
      runs(200),
    );
  });

  test("beyond 100,000 totals the normal distribution is used, and said so", () => {
    const tosses = Array.from({ length: 40 }, (_, toss) => ({ rate: 0.9, value: Math.sqrt(toss + 2) }));
    const score = routineScore(tosses, 0.5);
    expect(score.exact).toBe(false);
    expect(score.bestInTen - score.expected).toBeCloseTo(1.2815515655446004 * score.standardDeviation, 10);
  });
});

describe("links and swaps", () => {
  test("by hand: the weakest toss gains most", () => {
    const chain = links([0.9, 0.8, 0.95]);
    expect(chain.map(({ cleanIfSure }) => cleanIfSure)).toEqual([
      expect.closeTo(0.76, 12),
      expect.closeTo(0.855, 12),
      expect.closeTo(0.72, 12),
    ]);
    expect(chain.map(({ gain }) => gain)).toEqual([
      expect.closeTo(0.076, 12),
      expect.closeTo(0.171, 12),
      expect.closeTo(0.036, 12),
    ]);
    const inPoints = links([0.9, 0.8], { values: [2, 1], dropCost: 0.5 });
    expect(inPoints.map(({ gain }) => gain)).toEqual([expect.closeTo(0.25, 12), expect.closeTo(0.3, 12)]);
  });

  test("what a toss gains is what the clean chance gains when its rate is set to 1, also beside a rate of 0", () => {
    fc.assert(
      fc.property(rates, (all) => {
        links(all).forEach(({ gain, cleanIfSure }, place) => {
          const sure = all.map((rate, toss) => (toss === place ? 1 : rate));
          expect(cleanIfSure).toBeCloseTo(cleanChance(sure), 12);
          expect(gain).toBeCloseTo(cleanChance(sure) - cleanChance(all), 12);
        });
      }),
    );
  });

  test("keep or swap by hand", () => {
    const swap = compareTricks({ rate: 0.6, value: 1 }, { rate: 0.95, value: 0.7 }, 0.5);
    expect([swap.pointsNow, swap.pointsOther, swap.difference]).toEqual([
      expect.closeTo(0.4, 12),
      expect.closeTo(0.64, 12),
      expect.closeTo(0.24, 12),
    ]);
    // 0.76 × 1 − 0.24 × 0.5 = 0.64.
    expect(swap.breakEvenRate).toBeCloseTo(0.76, 12);
    expect(swapVerdict(swap)).toMatch(/^Swap until the present trick is caught 76 %/);
    expect(swapVerdict(compareTricks({ rate: 0.9, value: 1 }, { rate: 0.95, value: 0.7 }, 0.5))).toMatch(/^Keep/);
    expect(swapVerdict(compareTricks({ rate: 0.5, value: 0.5 }, { rate: 1, value: 1 }, 0.5))).toMatch(/at no rate/);
    expect(swapVerdict(compareTricks({ rate: 0.5, value: 1 }, { rate: 0.5, value: 1 }, 0.5))).toMatch(
      /Both bring the same/,
    );
    expect(compareTricks({ rate: 0.5, value: 0 }, { rate: 0.5, value: 1 }, 0).breakEvenRate).toBeUndefined();
  });
});

test("the timeline adds counts up, and clocks round to tenths", () => {
  expect(
    timeline(
      [
        { trick: "Flat", counts: 6 },
        { trick: "Two spin", counts: 9 },
      ],
      180,
    ),
  ).toEqual([
    { trick: "Flat", counts: 6, startSeconds: 0, endSeconds: 2 },
    { trick: "Two spin", counts: 9, startSeconds: 2, endSeconds: 5 },
  ]);
  expect([0, 2, 59.94, 59.96, 125.25, 3600].map(clock)).toEqual([
    "0:00.0",
    "0:02.0",
    "0:59.9",
    "1:00.0",
    "2:05.3",
    "60:00.0",
  ]);
});
