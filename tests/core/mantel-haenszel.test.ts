import fc from "fast-check";
import { compareRates, type Tally } from "../../src/core/compare";
import { StratifiedComparison } from "../../src/core/mantel-haenszel";
import fromR from "../checks/trick-from-r.json";
import { runs } from "./runs";

const tally = (caught: number, attempts: number): Tally => ({ caught, attempts });
const comparisonOf = (strata: readonly (readonly [Tally, Tally])[]) => {
  const comparison = new StratifiedComparison();
  for (const [withIt, without] of strata) comparison.add(withIt, without);
  return comparison;
};

describe("published values", () => {
  const tolbutamide = comparisonOf([
    [tally(8, 106), tally(5, 120)],
    [tally(22, 98), tally(16, 85)],
  ]);

  test("Rothman, Greenland and Lash, Modern Epidemiology 2008, table 15-1: 0.035, 90 % from -0.018 to 0.088 (0.0874 by Sato's variance, in the tests of R's metafor)", () => {
    const found = tolbutamide.difference(0.9);
    expect(found?.difference).toBeCloseTo(0.0349, 4);
    expect(found?.low).toBeCloseTo(-0.0176, 4);
    expect(found?.high).toBeCloseTo(0.0874, 4);
  });

  test("R 4.2.2, mantelhaen.test(UCBAdmissions, correct = FALSE): X-squared 1.5246, p 0.2169", () => {
    // Men's and women's tallies by department A to F, from the data set's help.
    const admissions = comparisonOf([
      [tally(512, 825), tally(89, 108)],
      [tally(353, 560), tally(17, 25)],
      [tally(120, 325), tally(202, 593)],
      [tally(138, 417), tally(131, 375)],
      [tally(53, 191), tally(94, 393)],
      [tally(22, 373), tally(24, 341)],
    ]);
    expect(admissions.p()).toBeCloseTo(0.2169, 4);
    // All departments together men seem to be admitted far more often: 1198 of 2691 against 557 of 1835.
    expect(compareRates(tally(557, 1835), tally(1198, 2691), 0.95)).toMatchObject({ verdict: "B better" });
    expect(admissions.difference(0.95)?.difference).toBeLessThan(0);
  });

  test("R's metafor against Stata's metan, dat.bcg: -0.0033, from -0.0039 to -0.0027", () => {
    const given = fromR.strata.find(({ name }) => name.startsWith("dat.bcg"));
    const found = comparisonOf(strataOf(given as Given)).difference(0.95);
    expect(found?.difference).toBeCloseTo(-0.0033, 4);
    expect(found?.low).toBeCloseTo(-0.0039, 4);
    expect(found?.high).toBeCloseTo(-0.0027, 4);
  });
});

type Given = (typeof fromR.strata)[number];
const strataOf = (given: Given) =>
  given.with.map(
    (caught, index) =>
      [
        tally(caught, given.withAttempts[index] ?? NaN),
        tally(given.without[index] ?? NaN, given.withoutAttempts[index] ?? NaN),
      ] as const,
  );

test.each(fromR.strata)("metafor 3.8-1 and mantelhaen.test (tests/checks/trick-from-r.R): $name", (given) => {
  const comparison = comparisonOf(strataOf(given));
  const found = comparison.difference(given.confidence);
  expect(comparison.strata).toBe(given.with.length);
  expect(found?.difference).toBeCloseTo(given.difference, 11);
  expect(found?.low).toBeCloseTo(Math.max(-1, given.low), 10);
  expect(found?.high).toBeCloseTo(Math.min(1, given.high), 10);
  expect(comparison.p() / given.p).toBeCloseTo(1, 8);
});

describe("a side that was always caught, or never, is not taken for certain", () => {
  test.each([
    ["3 of 3 against 25 of 50", tally(3, 3), tally(25, 50)],
    ["0 of 3 against 25 of 50", tally(0, 3), tally(25, 50)],
    ["9 of 10 against 4 of 4", tally(9, 10), tally(4, 4)],
    ["1 of 1 against 0 of 1", tally(1, 1), tally(0, 1)],
    ["5 of 5 against 9 of 9", tally(5, 5), tally(9, 9)],
  ])("one stratum is Newcombe's interval: %s", (_, withIt, without) => {
    const found = comparisonOf([[withIt, without]]).difference(0.95);
    const newcombe = compareRates(without, withIt, 0.95);
    expect(found?.difference).toBeCloseTo(newcombe.difference, 13);
    expect(found?.low).toBeCloseTo(newcombe.low, 13);
    expect(found?.high).toBeCloseTo(newcombe.high, 13);
  });

  test("nor are strata in which both sides did the same without exception", () => {
    const found = comparisonOf([
      [tally(3, 3), tally(3, 3)],
      [tally(0, 3), tally(0, 3)],
    ]).difference(0.95);
    expect(found?.difference).toBe(0);
    expect(found?.low).toBeLessThan(-0.3);
    expect(found?.high).toBeGreaterThan(0.3);
  });
});

test("strata with one side only say nothing", () => {
  const comparison = comparisonOf([
    [tally(3, 5), tally(0, 0)],
    [tally(0, 0), tally(7, 9)],
  ]);
  expect(comparison.strata).toBe(0);
  expect(comparison.difference(0.95)).toBeUndefined();
  expect(comparison.p()).toBe(1);
});

test("where all were caught nothing speaks for a difference", () => {
  expect(comparisonOf([[tally(9, 9), tally(4, 4)]]).p()).toBe(1);
});

describe("properties", () => {
  const side = fc
    .integer({ min: 0, max: 60 })
    .chain((attempts) => fc.integer({ min: 0, max: attempts }).map((caught) => tally(caught, attempts)));
  const strata = fc.array(fc.tuple(side, side), { minLength: 1, maxLength: 12 });

  test("swapped sides and catches for misses turn the difference round; the order of the strata and one-sided ones change nothing", () => {
    fc.assert(
      fc.property(strata, (given) => {
        const comparison = comparisonOf(given);
        const found = comparison.difference(0.95);
        if (!found) return;
        expect(found.low).toBeLessThanOrEqual(found.difference);
        expect(found.high).toBeGreaterThanOrEqual(found.difference);
        expect(found.low).toBeGreaterThanOrEqual(-1);
        expect(found.high).toBeLessThanOrEqual(1);
        const missed = ({ caught, attempts }: Tally) => tally(attempts - caught, attempts);
        const turned = [
          comparisonOf(given.map(([withIt, without]) => [without, withIt])),
          comparisonOf(given.map(([withIt, without]) => [missed(withIt), missed(without)])),
        ];
        for (const other of turned) {
          expect(other.difference(0.95)?.difference).toBeCloseTo(-found.difference, 12);
          expect(other.difference(0.95)?.low).toBeCloseTo(-found.high, 10);
          expect(other.p()).toBeCloseTo(comparison.p(), 10);
        }
        const reordered = comparisonOf([...given].reverse().concat([[tally(2, 4), tally(0, 0)]]));
        expect(reordered.difference(0.95)?.low).toBeCloseTo(found.low, 11);
        expect(reordered.p()).toBeCloseTo(comparison.p(), 11);
      }),
      runs(400),
    );
  });

  test("the variance is never below none", () => {
    fc.assert(
      fc.property(strata, (given) => {
        const found = comparisonOf(given).difference(0.95);
        if (found) expect(Number.isFinite(found.low) && Number.isFinite(found.high)).toBe(true);
      }),
      runs(1000),
    );
  });
});
