import fc from "fast-check";
import { chancesToBeBest, gaussLegendre } from "../../src/core/chance-best";
import type { Tally } from "../../src/core/compare";
import { betaBelow } from "../../src/core/tails";
import fromR from "../checks/trick-from-r.json";
import { runs } from "./runs";

const tally = (caught: number, attempts: number): Tally => ({ caught, attempts });

test.each(fromR.best.map((given, index) => ({ index, ways: given.caught.length, ...given })))(
  "$index: $ways ways, $how by R 4.2.2 (tests/checks/trick-from-r.R)",
  ({ caught, attempts, chances }) => {
    const found = chancesToBeBest(caught.map((count, index) => tally(count, attempts[index] ?? NaN)));
    expect(found.length).toBe(chances.length);
    // Asked for: 1e-6. Reached: 3e-15 below a thousand attempts, 1.1e-11 with a million.
    chances.forEach((chance, index) => expect(Math.abs((found[index] ?? NaN) - chance)).toBeLessThanOrEqual(1e-10));
  },
);

describe("exact values", () => {
  test("one way is the best", () => {
    expect(chancesToBeBest([tally(0, 3)])).toEqual([1]);
  });

  test("equal records are equally likely to be the best", () => {
    for (const one of [tally(0, 0), tally(0, 7), tally(7, 7), tally(4, 9), tally(800_000, 1_000_000)]) {
      for (const count of [2, 3, 11]) {
        for (const chance of chancesToBeBest(new Array<Tally>(count).fill(one))) {
          expect(chance).toBeCloseTo(1 / count, 10);
        }
      }
    }
  });

  test("caught once of once against nothing tried: 1/2 + 2/π², by hand from the arcsine law", () => {
    const [chance] = chancesToBeBest([tally(1, 1), tally(0, 0)]);
    expect(chance).toBeCloseTo(0.5 + 2 / Math.PI ** 2, 12);
  });

  test("an untried way against a sure one at ten million", () => {
    // The other's rate is 1/2 to 0.0002: an untried way is above it with 1/2 by the arcsine law.
    const [sure, untried] = chancesToBeBest([tally(5_000_000, 10_000_000), tally(0, 0)]);
    expect(sure).toBeCloseTo(0.5, 9);
    expect(untried).toBeCloseTo(0.5, 9);
  });

  test("far apart at a million is certain and not NaN", () => {
    expect(chancesToBeBest([tally(900_000, 1_000_000), tally(1, 1_000_000)])).toEqual([1, 0]);
  });
});

test("the rule of 16 nodes: Abramowitz and Stegun, table 25.4, and polynomials up to the 15th degree exactly up to each node", () => {
  const { nodes, weights, upTo } = gaussLegendre();
  expect(nodes[8]).toBeCloseTo(0.095012509837637, 14);
  expect(weights[8]).toBeCloseTo(0.189450610455068, 14);
  expect(nodes[15]).toBeCloseTo(0.98940093499165, 14);
  expect(weights[15]).toBeCloseTo(0.027152459411754, 14);
  for (const degree of [0, 1, 7, 15]) {
    for (let node = 0; node < 16; node++) {
      let integral = 0;
      for (let other = 0; other < 16; other++) {
        integral += (upTo[16 * node + other] ?? NaN) * (nodes[other] ?? NaN) ** degree;
      }
      expect(integral).toBeCloseTo(((nodes[node] ?? NaN) ** (degree + 1) - (-1) ** (degree + 1)) / (degree + 1), 13);
    }
  }
});

describe("properties", () => {
  const one = fc
    .tuple(fc.integer({ min: 0, max: 6 }), fc.double({ min: 0, max: 1, noNaN: true }), fc.integer({ min: 1, max: 9 }))
    .map(([power, share, lead]) => tally(Math.round(share * lead * 10 ** power), lead * 10 ** power));

  test("together 1; another order gives the same; one more catch never lowers a way's chance; two ways agree with the other's point of view", () => {
    fc.assert(
      fc.property(fc.array(one, { minLength: 2, maxLength: 8 }), fc.nat(7), (ways, chosen) => {
        const chances = chancesToBeBest(ways);
        expect(chances.reduce((sum, chance) => sum + chance, 0)).toBeCloseTo(1, 12);
        for (const chance of chances) expect(chance >= 0 && chance <= 1).toBe(true);
        const reversed = chancesToBeBest([...ways].reverse()).reverse();
        chances.forEach((chance, index) => expect(Math.abs(chance - (reversed[index] ?? NaN))).toBeLessThan(1e-9));
        const index = chosen % ways.length;
        const way = ways[index] as Tally;
        const better = ways.map((given, at) => (at === index ? tally(way.caught + 1, way.attempts + 1) : given));
        expect((chancesToBeBest(better)[index] ?? NaN) - (chances[index] ?? NaN)).toBeGreaterThan(-1e-9);
      }),
      runs(120),
    );
  });

  test("a sure way as the rival: the chance is the upper tail of the other's own distribution", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 40 }), fc.integer({ min: 0, max: 40 }), (caught, missed) => {
        // A rate known to 5e-5 at 0.7: the chance differs from the tail there by far less than 1e-3.
        const [chance] = chancesToBeBest([tally(caught, caught + missed), tally(7_000_000, 10_000_000)]);
        expect(Math.abs((chance ?? NaN) - (1 - betaBelow(0.7, caught + 0.5, missed + 0.5)))).toBeLessThan(1e-4);
      }),
      runs(60),
    );
  });
});
