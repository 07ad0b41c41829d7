import fc from "fast-check";
import { runs } from "./runs";
import { placementAdvice } from "../../src/core/advice";
import { filmAirtime } from "../../src/core/film";
import { lineSpread } from "../../src/core/line-spread";
import { biasChance, placement } from "../../src/core/placement";
import fromR from "../checks/curves-from-r.json";

test.each(fromR.hotelling)("Hotelling's T² against R's pf: $name", ({ x, y, p }) => {
  expect(biasChance([...x], [...y]) / p).toBeCloseTo(1, 10);
});

describe("marks on one line", () => {
  test("along it Student's t decides: Student 1908, Biometrika 6:1, gain in hours of sleep, t = 4.0621 on 9 degrees, p = 0.00283", () => {
    // The ten differences as R's data set sleep prints them; R 4.2.2, t.test: p-value = 0.002833.
    const gain = [1.2, 2.4, 1.3, 1.3, 0, 1, 1.8, 0.8, 4.6, 1.4];
    expect(
      biasChance(
        gain,
        gain.map(() => 0),
      ),
    ).toBeCloseTo(0.002833, 6);
    // The same line turned: still one line, the same chance.
    expect(
      biasChance(
        gain.map((value) => 3 * value),
        gain.map((value) => -4 * value),
      ),
    ).toBeCloseTo(0.002833, 6);
  });

  test("beside it every toss is off", () => {
    expect(biasChance([1, 2, 3, 4], [0.5, 0.5, 0.5, 0.5])).toBe(0);
    expect(biasChance([2, 2, 2, 2], [1, 1, 1, 1])).toBe(0);
    expect(biasChance([0, 0, 0, 0], [0, 0, 0, 0])).toBe(1);
  });
});

describe("marks near one line", () => {
  // T² does not change when the two numbers are mixed or measured in other units (Johnson and Wichern, section 5.2), so
  // R's values hold for the same marks pressed almost onto the diagonal.
  test.each(fromR.hotelling)("pressed onto the diagonal, R's value still: $name", ({ x, y, p }) => {
    for (const pressed of [1e-2, 1e-4]) {
      const nearDiagonal = x.map((value, toss) => value + pressed * (y[toss] ?? NaN));
      expect(biasChance([...x], nearDiagonal) / p).toBeCloseTo(1, 9);
    }
  });
});

test("turning the hall round does not change whether there is a drift", () => {
  const mark = fc.double({ min: -3, max: 3, noNaN: true });
  fc.assert(
    fc.property(
      fc.array(fc.tuple(mark, mark), { minLength: 5, maxLength: 20 }),
      fc.double({ min: 0, max: 6.28, noNaN: true }),
      (marks, angle) => {
        const [x, y] = [marks.map(([across]) => across), marks.map(([, along]) => along)];
        const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
        const turned = biasChance(
          x.map((value, toss) => cos * value - sin * (y[toss] ?? NaN)),
          x.map((value, toss) => sin * value + cos * (y[toss] ?? NaN)),
        );
        expect(turned).toBeCloseTo(biasChance(x, y), 9);
      },
    ),
    runs(300),
  );
});

test("a placement by hand", () => {
  const placed = placement([0.3, 0.4, 0.5, 0.4], [0, 0, 0, 0.3]);
  expect(placed).toMatchObject({ tosses: 4, biasClear: true });
  expect([placed.meanSideways, placed.meanForward]).toEqual([expect.closeTo(0.4, 12), expect.closeTo(0.075, 12)]);
  expect([placed.spreadSideways, placed.spreadForward]).toEqual([
    expect.closeTo(Math.sqrt(0.02 / 3), 12),
    expect.closeTo(0.15, 12),
  ]);
  // Distances 0.3, 0.4, 0.5, 0.5: half of them within 0.4, nine tenths only within the largest.
  expect([placed.within50, placed.within90]).toEqual([0.4, 0.5]);
  expect(placementAdvice(placed)).toMatch(/^Drifts to the right: release from the midline/);
});

test("few tosses say nothing of a drift, one has no spread", () => {
  expect(placement([1], [1])).toMatchObject({
    tosses: 1,
    spreadSideways: undefined,
    spreadForward: undefined,
    biasClear: undefined,
  });
  expect(placementAdvice(placement([1], [1]))).toBe("Mark 3 more landings before reading a drift from them.");
  expect(placementAdvice(placement([1, -1, 1, -1], [1, -1, -1, 1]))).toMatch(/^No clear drift/);
  expect(placementAdvice(placement([0, 0.1, 0, -0.1], [-1, -1.1, -0.9, -1]))).toMatch(
    /^Drifts back: .*stand back, the baton returns/,
  );
});

test("film: JCGM 100:2008, two readings, each uniform over a frame", () => {
  // A 30 Hz film: half-width 1/60 s each, standard uncertainty (1/60)/√3 each, √2 of that together.
  const { seconds, uncertainty } = filmAirtime(112, 178, 30);
  expect(seconds).toBeCloseTo(2.2, 12);
  expect(uncertainty).toBeCloseTo((Math.SQRT2 * (1 / 60)) / Math.sqrt(3), 14);
  // SMPTE ST 12: 30000/1001 frames a second are 17982 frames in ten minutes of drop-frame code.
  expect(filmAirtime(0, 17982, 30000 / 1001).seconds).toBeCloseTo(600, 1);
});

test("a line of six by hand", () => {
  const spread = lineSpread(
    [2.0, 2.1, 2.1, 2.1, 2.3, 1.9].map((airtimeSeconds, place) => ({ name: `A${place}`, airtimeSeconds })),
    180,
  );
  // Median 2.1 s; three counts a second.
  expect(spread.map(({ countsOff }) => Number(countsOff.toFixed(9)))).toEqual([-0.3, 0, 0, 0, 0.6, -0.6]);
  expect(spread.map(({ off }) => off)).toEqual([undefined, undefined, undefined, undefined, "late", "early"]);
});
