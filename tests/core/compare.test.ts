import fc from "fast-check";
import { compareRates, fisherExact } from "../../src/core/compare";
import fromR from "../checks/curves-from-r.json";

const tally = (caught: number, attempts: number) => ({ caught, attempts });
const NEWCOMBE = "Newcombe 1998, Statistics in Medicine 17:873-890, Table II, method 10";

/** The paper takes the first less the second; ours is B less A, so its first is our B. */
test.each([
  { source: `${NEWCOMBE}, (a)`, b: tally(56, 70), a: tally(48, 80), low: 0.0524, high: 0.3339 },
  { source: `${NEWCOMBE}, (c)`, b: tally(6, 7), a: tally(2, 7), low: 0.0582, high: 0.8062 },
  { source: `${NEWCOMBE}, (d)`, b: tally(5, 56), a: tally(0, 29), low: -0.0381, high: 0.1926 },
  { source: `${NEWCOMBE}, (f)`, b: tally(0, 10), a: tally(0, 10), low: -0.2775, high: 0.2775 },
  { source: `${NEWCOMBE}, (g)`, b: tally(10, 10), a: tally(0, 20), low: 0.6791, high: 1 },
  {
    source: "WUSS 2016, paper 127, 84 of 101 less 89 of 105",
    b: tally(84, 101),
    a: tally(89, 105),
    low: -0.1177,
    high: 0.0851,
  },
  {
    source: "Fagerland, Lydersen and Laake 2017, chapter 4, Perondi et al. 2004",
    b: tally(7, 34),
    a: tally(1, 34),
    low: 0.0189,
    high: 0.3404,
  },
])("$source", ({ a, b, low, high }) => {
  const compared = compareRates(a, b, 0.95);
  expect(Math.abs(compared.low - low)).toBeLessThanOrEqual(0.00005);
  expect(Math.abs(compared.high - high)).toBeLessThanOrEqual(0.00005);
  expect(compared.difference).toBeCloseTo(b.caught / b.attempts - a.caught / a.attempts, 14);
  expect(compared.verdict).toBe(low > 0 ? "B better" : "no clear difference");
});

describe("Fisher's exact test", () => {
  test.each([
    {
      source: "R documentation of fisher.test: Fisher's convictions of twins, 0.0005367",
      a: tally(2, 17),
      b: tally(10, 13),
      p: 0.0005367,
      within: 5e-8,
    },
    { source: "exact fraction 1/126", a: tally(5, 5), b: tally(0, 5), p: 1 / 126, within: 1e-14 },
    { source: "exact fraction 1/21", a: tally(4, 5), b: tally(0, 5), p: 1 / 21, within: 1e-14 },
    { source: "exact fraction 1/1716", a: tally(7, 7), b: tally(0, 7), p: 1 / 1716, within: 1e-14 },
    { source: "SciPy, TestFisherExact: 0.4545454545", a: tally(0, 2), b: tally(6, 10), p: 0.4545454545, within: 5e-11 },
  ])("$source", ({ a, b, p, within }) => {
    expect(Math.abs(fisherExact(a, b) - p)).toBeLessThanOrEqual(within);
  });

  test.each(fromR.fisher)("$tallies against R 4.2.2 (tests/checks/curves-from-r.R)", ({ tallies, p }) => {
    const [caughtA, attemptsA, caughtB, attemptsB] = tallies as [number, number, number, number];
    expect(fisherExact(tally(caughtA, attemptsA), tally(caughtB, attemptsB)) / p).toBeCloseTo(1, 10);
  });

  test("the verdict follows the interval: touching 0 is no difference", () => {
    // 0 of 10 against 0 of 10 at no confidence: the interval is 0 to 0.
    expect(compareRates(tally(0, 10), tally(0, 10), 0).verdict).toBe("no clear difference");
    expect(compareRates(tally(9, 10), tally(1, 10), 0.95).verdict).toBe("A better");
  });

  test("far apart at ten million is 0 and not NaN", () => {
    expect(fisherExact(tally(0, 10_000_000), tally(10_000_000, 10_000_000))).toBe(0);
  });
});

test("swapping the two turns the answer round; full agreement is p = 1", () => {
  const one = fc
    .integer({ min: 1, max: 300 })
    .chain((attempts) => fc.record({ caught: fc.integer({ min: 0, max: attempts }), attempts: fc.constant(attempts) }));
  fc.assert(
    fc.property(one, one, fc.double({ min: 0.5, max: 0.999, noNaN: true }), (a, b, confidence) => {
      const there = compareRates(a, b, confidence);
      const back = compareRates(b, a, confidence);
      expect(back.difference).toBeCloseTo(-there.difference, 14);
      expect(back.low).toBeCloseTo(-there.high, 12);
      expect(back.p).toBeCloseTo(there.p, 10);
      expect(there.low).toBeLessThanOrEqual(there.difference + 1e-12);
      expect(there.high).toBeGreaterThanOrEqual(there.difference - 1e-12);
      expect(there.p).toBeGreaterThanOrEqual(0);
      expect(there.p).toBeLessThanOrEqual(1);
      expect(fisherExact(a, a)).toBeCloseTo(1, 10);
      const turned = { "A better": "B better", "B better": "A better", "no clear difference": "no clear difference" };
      expect(back.verdict).toBe(turned[there.verdict]);
    }),
  );
});
