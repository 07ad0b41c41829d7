import fc from "fast-check";
import { meanRun, missSteps, slumpChart, slumpState } from "../../src/core/slump";
import { seededRandom } from "../benchmarks/random";
import { logOf } from "./logs";

describe("mean runs", () => {
  /** A walk of single steps up and down, held at 0: the reflected random walk of any probability text. */
  test.each([
    { rate: 0.5, limit: 3, expected: 12, because: "H(H + 1) at even odds" },
    { rate: 2 / 3, limit: 3, expected: 33, because: "solved by hand: misses at 1/3" },
    { rate: 1 / 3, limit: 3, expected: 6.375, because: "solved by hand: misses at 2/3" },
  ])("$because", ({ rate, limit, expected }) => {
    expect(meanRun(rate, 2, limit)).toBeCloseTo(expected, 12);
  });

  /** The chart's linear equations once more, whole and by elimination. */
  function byElimination(rate: number, steps: number, limit: number): number {
    const miss = 1 - rate;
    const rows = Array.from({ length: limit }, (_, score) => {
      const row = new Array<number>(limit + 1).fill(0);
      const add = (at: number, by: number) => (row[at] = (row[at] ?? 0) + by);
      add(score, 1);
      add(Math.max(0, score - 1), -rate);
      if (score + steps - 1 < limit) add(score + steps - 1, -miss);
      row[limit] = 1;
      return row;
    });
    for (let pivot = 0; pivot < limit; pivot++) {
      const best = rows
        .slice(pivot)
        .reduce(
          (most, row, index) => (Math.abs(row[pivot] ?? 0) > Math.abs(rows[most]?.[pivot] ?? 0) ? pivot + index : most),
          pivot,
        );
      [rows[pivot], rows[best]] = [rows[best] as number[], rows[pivot] as number[]];
      const from = rows[pivot] as number[];
      rows.forEach((row, index) => {
        if (index === pivot) return;
        const factor = (row[pivot] as number) / (from[pivot] as number);
        for (let column = pivot; column <= limit; column++)
          row[column] = (row[column] as number) - factor * (from[column] as number);
      });
    }
    return (rows[0]?.[limit] as number) / (rows[0]?.[0] as number);
  }

  test.each([
    [0.9, 5, 13],
    [0.9, 5, 4],
    [0.9, 5, 1],
    [0.8, 3, 9],
    [0.95, 9, 21],
    [0.7, 5, 13],
  ])("at rate %p with %p steps and limit %p the same by elimination", (rate, steps, limit) => {
    expect(meanRun(rate, steps, limit) / byElimination(rate, steps, limit)).toBeCloseTo(1, 10);
  });

  test("the same by simulation, within four standard errors", () => {
    const [rate, steps, limit, rounds] = [0.9, 5, 13, 4000];
    const random = seededRandom(9);
    const runs = Array.from({ length: rounds }, () => {
      let [score, run] = [0, 0];
      while (score < limit) {
        score = Math.max(0, score + (random() < rate ? -1 : steps - 1));
        run++;
      }
      return run;
    });
    const mean = runs.reduce((sum, run) => sum + run, 0) / rounds;
    const deviation = Math.sqrt(runs.reduce((sum, run) => sum + (run - mean) ** 2, 0) / rounds);
    expect(Math.abs(mean - meanRun(rate, steps, limit))).toBeLessThan((4 * deviation) / Math.sqrt(rounds));
  });

  test("the limit is the smallest that keeps false alarms rare enough", () => {
    for (const [usual, slumped, falseAlarm] of [
      [0.9, 0.7, 500],
      [0.95, 0.8, 1000],
      [0.8, 0.5, 100],
      [0.9, 0.7, 1],
    ] as const) {
      const { missSteps: steps, limit } = slumpChart(usual, slumped, falseAlarm);
      expect(meanRun(usual, steps, limit)).toBeGreaterThanOrEqual(falseAlarm);
      if (limit > 1) expect(meanRun(usual, steps, limit - 1)).toBeLessThan(falseAlarm);
      // A slump is told much sooner than a false alarm.
      if (falseAlarm > 1) expect(meanRun(slumped, steps, limit)).toBeLessThan(falseAlarm / 5);
    }
  });
});

test("steps by the paper's formula, worked by hand for 90 and 70 %", () => {
  // γ = ln(0.9/0.7) / ln(0.3·0.9/(0.1·0.7)) = 0.2513/1.3499 = 0.1862, so m = round(5.37) = 5.
  expect(missSteps(0.9, 0.7)).toBe(5);
  expect(missSteps(0.3, 0.2)).toBe(2);
});

describe("the chart over a log", () => {
  const chart = { missSteps: 5, limit: 13 };

  test.each([
    ["ccccc", { signal: "steady", since: undefined, score: 0 }],
    ["ccccc d", { signal: "steady", since: undefined, score: 4 }],
    // 4, 3, 7, 11, 10, 13 (held at the limit): told at the attempt that reaches it, since the first after the last 0.
    ["cc d c d d c d", { signal: "slump", since: 3, score: 13 }],
    ["cc d c d d c b", { signal: "slump", since: 3, score: 13 }],
    // It stays a slump on the way down …
    ["cc d c d d c d cccccc cccccc", { signal: "slump", since: 3, score: 1 }],
    // … until the score is back at 0.
    ["cc d c d d c d cccccc cccccc c", { signal: "steady", since: undefined, score: 0 }],
  ])("%p", (marks, expected) => {
    expect(slumpState(logOf([marks]), chart)).toEqual(expected);
  });

  test("a catch in place of a miss never raises the score", () => {
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom("c", "c", "c", "d"), { minLength: 1, maxLength: 80 }),
        fc.nat(),
        (letters, place) => {
          const better = letters.map((letter, index) => (index === place % letters.length ? "c" : letter));
          const [before, after] = [letters, better].map((run) => slumpState(logOf([run.join("")]), chart).score) as [
            number,
            number,
          ];
          expect(after).toBeLessThanOrEqual(before);
        },
      ),
    );
  });
});
