import fc from "fast-check";
import {
  HAND_TIMING_SECONDS,
  handAirtime,
  isHold,
  LONGEST_HOLD_SECONDS,
  riseOf,
  SHORTEST_HOLD_SECONDS,
  tapTempo,
} from "../../src/core/tempo";
import type { Check } from "../checks/check";

/** Tap times with these intervals between them. */
function taps(...intervals: readonly number[]): number[] {
  return intervals.reduce((times, interval) => [...times, (times.at(-1) ?? 0) + interval], [100]);
}

const even = (interval: number, times: number): number[] => Array<number>(times).fill(interval);

const TEMPOS: readonly Check<readonly number[], number>[] = [
  { source: "60 / 0.3", given: taps(...even(0.3, 8)), expected: 200, within: 1e-9, because: "sums of floats" },
  { source: "60 / 0.5", given: taps(0.5, 0.5, 0.5), expected: 120, within: 1e-9, because: "sums of floats" },
  {
    source: "the middle one of 0.29, 0.30, 0.31",
    given: taps(0.31, 0.29, 0.3),
    expected: 200,
    within: 1e-9,
    because: "sums of floats",
  },
  {
    source: "a missed tap makes one interval of two counts",
    given: taps(0.3, 0.3, 0.6, 0.3, 0.3),
    expected: 200,
    within: 1e-9,
    because: "sums of floats",
  },
  {
    source: "a double tap makes two short intervals",
    given: taps(0.3, 0.3, 0.1, 0.2, 0.3, 0.3, 0.3),
    expected: 200,
    within: 1e-9,
    because: "sums of floats",
  },
  {
    source: "only the latest sixteen intervals count",
    given: taps(...even(0.5, 30), ...even(0.3, 16)),
    expected: 200,
    within: 1e-9,
    because: "sums of floats",
  },
  {
    source: "a pause is a new start",
    given: taps(0.5, 0.5, 0.5, 0.5, 4.1, 0.3, 0.3, 0.3),
    expected: 200,
    within: 1e-9,
    because: "sums of floats",
  },
  {
    source: "a slow count is no pause: 60 / 2",
    given: taps(2, 2, 2),
    expected: 30,
    within: 1e-9,
    because: "sums of floats",
  },
];

test.each(TEMPOS)("counts a minute: $source", ({ given, expected, within }) => {
  expect(Math.abs((tapTempo(given)?.countsPerMinute ?? NaN) - expected)).toBeLessThanOrEqual(within);
});

test.each([
  { taps: [], what: "no tap" },
  { taps: taps(0.3, 0.3), what: "two intervals" },
  { taps: taps(0.3, 0.3, 0.3, 4.1, 0.3, 0.3), what: "two intervals after a pause" },
  { taps: taps(0.3, 0.6, 0.3), what: "two intervals once the outlier is left aside" },
])("says nothing yet from $what", ({ taps: given }) => {
  expect(tapTempo(given)).toBeUndefined();
});

test("tells how many intervals were used and how many left aside", () => {
  expect(tapTempo(taps(0.3, 0.3, 0.6, 0.3, 0.3, 0.3))).toMatchObject({ intervals: 5, outliers: 1 });
  expect(tapTempo(taps(...even(0.4, 40)))).toMatchObject({ intervals: 16, outliers: 0 });
});

test("an uneven hand keeps its intervals: the spread decides, not a fixed share", () => {
  // The median is 0.30 and the middle distance from it 0.06, so 2.5 × 1.4826 × 0.06 = 0.22 is let pass.
  const uneven = taps(0.22, 0.24, 0.3, 0.36, 0.4, 0.3, 0.24);
  expect(tapTempo(uneven)).toMatchObject({ intervals: 7, outliers: 0 });
});

test("the uncertainty, worked out by hand", () => {
  // Deviations −0.01, 0, 0.01, 0: s = √(0.0002/3) = 0.0081650; √(π/2)·s/√4 = 0.0051166; of 0.3 that is 1.70553 %.
  const found = tapTempo(taps(0.29, 0.3, 0.31, 0.3));
  expect(found?.uncertainty).toBeCloseTo(200 * 0.0170553, 3);
});

test("a metronome leaves no doubt", () => {
  expect(tapTempo(taps(...even(0.25, 12)))?.uncertainty).toBeCloseTo(0, 9);
});

test("twice as slow is half the tempo and half its uncertainty", () => {
  const intervals = fc.array(fc.double({ min: 0.2, max: 1, noNaN: true }), { minLength: 4, maxLength: 16 });
  fc.assert(
    fc.property(intervals, (given) => {
      const [fast, slow] = [tapTempo(taps(...given)), tapTempo(taps(...given.map((interval) => 2 * interval)))];
      expect(slow === undefined).toBe(fast === undefined);
      if (!fast || !slow) return;
      expect(slow.countsPerMinute).toBeCloseTo(fast.countsPerMinute / 2, 6);
      expect(slow.uncertainty).toBeCloseTo(fast.uncertainty / 2, 6);
    }),
  );
});

test("the tempo lies between the slowest and the fastest interval", () => {
  const intervals = fc.array(fc.double({ min: 0.1, max: 3, noNaN: true }), { minLength: 3, maxLength: 30 });
  fc.assert(
    fc.property(intervals, (given) => {
      const found = tapTempo(taps(...given));
      if (!found) return;
      expect(found.countsPerMinute).toBeGreaterThanOrEqual(60 / Math.max(...given) - 1e-6);
      expect(found.countsPerMinute).toBeLessThanOrEqual(60 / Math.min(...given) + 1e-6);
      expect(found.uncertainty).toBeGreaterThanOrEqual(0);
      expect(found.intervals + found.outliers).toBeLessThanOrEqual(16);
    }),
  );
});

describe("a held button", () => {
  test("one toss: its time, and the spread of a hand", () => {
    expect(handAirtime([1.83])).toEqual({ seconds: 1.83, uncertainty: HAND_TIMING_SECONDS });
    // The published spread of a start and a stop, N(0, 0.10²).
    expect(HAND_TIMING_SECONDS).toBe(0.1);
  });

  test("four tosses: the mean, and half the spread of a hand", () => {
    const { seconds, uncertainty } = handAirtime([1.8, 1.82, 1.84, 1.86]);
    expect(seconds).toBeCloseTo(1.83, 12);
    expect(uncertainty).toBeCloseTo(0.05, 12);
  });

  test("tosses that differ more than a hand does: their own spread", () => {
    // s of 1.5 and 2.1 is 0.6/√2 = 0.424264; over √2 that is 0.3.
    expect(handAirtime([1.5, 2.1]).uncertainty).toBeCloseTo(0.3, 9);
  });

  test.each([
    { seconds: SHORTEST_HOLD_SECONDS - 0.001, is: false },
    { seconds: SHORTEST_HOLD_SECONDS, is: true },
    { seconds: LONGEST_HOLD_SECONDS, is: true },
    { seconds: LONGEST_HOLD_SECONDS + 0.001, is: false },
    { seconds: Number.NaN, is: false },
  ])("of $seconds s is a toss: $is", ({ seconds, is }) => {
    expect(isHold(seconds)).toBe(is);
  });
});

describe("the rise of an airtime", () => {
  const RISES: readonly Check<{ seconds: number; unit: "m" | "ft" }, number>[] = [
    // 9.80665 × 2² / 8
    {
      source: "gT²/8 by hand, 2 s",
      given: { seconds: 2, unit: "m" },
      expected: 4.903325,
      within: 1e-12,
      because: "exact",
    },
    {
      source: "the same over 0.3048 m a foot",
      given: { seconds: 2, unit: "ft" },
      expected: 16.08702428,
      within: 5e-9,
      because: "eight printed digits",
    },
  ];

  test.each(RISES)("$source", ({ given, expected, within }) => {
    const { rise } = riseOf({ seconds: given.seconds, uncertainty: 0.1 }, given.unit);
    expect(Math.abs(rise - expected)).toBeLessThanOrEqual(within);
  });

  test("its uncertainty is half the difference that the airtime's makes both ways", () => {
    const airtime = fc.double({ min: 0.3, max: 4, noNaN: true });
    fc.assert(
      fc.property(airtime, fc.constantFrom<"m" | "ft">("m", "ft"), (seconds, unit) => {
        const uncertainty = 0.01;
        const at = (time: number): number => riseOf({ seconds: time, uncertainty }, unit).rise;
        const difference = (at(seconds + uncertainty) - at(seconds - uncertainty)) / 2;
        expect(riseOf({ seconds, uncertainty }, unit).uncertainty).toBeCloseTo(difference, 9);
      }),
    );
  });
});
