import fc from "fast-check";
import { leftOutOfFirstTries } from "../../src/core/advice";
import { FirstTriesLog, type FirstTries } from "../../src/core/first-tries";
import { Missing } from "../../src/core/problem";
import { readRows } from "./rows";
import { runs } from "./runs";

function firstTries(rows: readonly (readonly [number, string])[], breakDays = 7): FirstTries {
  const log = new FirstTriesLog();
  readRows(rows, (date, row) => log.add(date, row));
  return log.rows(breakDays);
}

const counts = ({ rows }: FirstTries) => rows.map(({ name, caught, attempts }) => [name, caught, attempts]);

test("by hand: four days, the last after eight days off", () => {
  const found = firstTries([
    [46300, "dcccc"],
    [46300, "c"],
    [46301, "b"],
    [46301, "ccd"],
    [46303, "c"],
    [46312, "dd"],
  ]);
  expect(counts(found)).toEqual([
    ["First of the day", 1, 4],
    ["Later that day", 7, 9],
    ["First day back", 0, 2],
    ["Other days", 8, 11],
  ]);
  expect(found.daysBegunWithTally).toBe(0);
  expect(leftOutOfFirstTries(found)).toBe("");
});

test("Newcombe 1998, Statistics in Medicine 17:873-890, Table II: (f) and (c), less the row below", () => {
  // Ten days with one try and one more, none caught: (f), 0 of 10 against 0 of 10.
  const none = firstTries(Array.from({ length: 10 }, (_, day) => [46300 + day, "dd"] as const));
  expect(none.rows[0]?.difference).toMatchObject({ difference: 0 });
  expect(none.rows[0]?.difference?.low).toBeCloseTo(-0.2775, 4);
  expect(none.rows[0]?.difference?.high).toBeCloseTo(0.2775, 4);
  expect(none.rows[0]?.verdict).toBe("not clear yet");
  // (c): 6 of 7 on the first day back, 2 of 7 before, 0.0582 to 0.8062.
  const back = firstTries([
    [46300, "ccddddd"],
    [46308, "ccccccd"],
  ]);
  expect(back.rows[2]).toMatchObject({ name: "First day back", caught: 6, attempts: 7, verdict: "better" });
  expect(back.rows[2]?.difference?.low).toBeCloseTo(0.0582, 4);
  expect(back.rows[2]?.difference?.high).toBeCloseTo(0.8062, 4);
  expect(back.rows[1]).toMatchObject({ difference: undefined, verdict: undefined });
  expect(back.rows[3]).toMatchObject({ difference: undefined, verdict: undefined });
});

test("cold is worse: 2 of 12 firsts against 10 of 12 later", () => {
  const found = firstTries(Array.from({ length: 12 }, (_, day) => [46300 + day, day < 2 ? "cd" : "dc"] as const));
  expect(found.rows[0]).toMatchObject({ caught: 2, attempts: 12, verdict: "worse" });
  expect(found.rows[1]).toMatchObject({ caught: 10, attempts: 12 });
  expect(found.rows[0]?.difference?.difference).toBeCloseTo(-8 / 12, 12);
});

test("fewer than 5 attempts on a side are never clear: 4 of 4 firsts dropped against 12 of 12 caught later", () => {
  const cold = (days: number) => firstTries(Array.from({ length: days }, (_, day) => [46300 + day, "dccc"] as const));
  expect(cold(4).rows[0]?.difference?.high).toBeLessThan(0);
  expect([cold(4).rows[0]?.verdict, cold(5).rows[0]?.verdict]).toEqual(["not clear yet", "worse"]);
});

test.each([
  [7, 46307, 0],
  [7, 46308, 3],
  [1, 46301, 0],
  [1, 46302, 3],
])(
  "a break of %p days off: practice on 46300 and %p has %p attempts on a first day back",
  (breakDays, date, attempts) => {
    const found = firstTries(
      [
        [46300, "cc"],
        [date, "ccd"],
      ],
      breakDays,
    );
    expect(found.rows[2]?.attempts).toBe(attempts);
    expect(found.rows[3]?.attempts).toBe(5 - attempts);
  },
);

test("a day that begins with a tally is left out of the first two rows, and said; a tally later in the day counts", () => {
  const found = firstTries([
    [46300, "8/10"],
    [46300, "ccc"],
    [46301, "c"],
    [46301, "3/4"],
  ]);
  expect(counts(found)).toEqual([
    ["First of the day", 1, 1],
    ["Later that day", 3, 4],
    ["First day back", 0, 0],
    ["Other days", 15, 18],
  ]);
  expect(found.daysBegunWithTally).toBe(1);
  expect(leftOutOfFirstTries(found)).toBe(
    "1 day begins with a tally, which does not say how the first try went: left out of the first two rows.",
  );
  expect(leftOutOfFirstTries({ ...found, daysBegunWithTally: 3 })).toMatch(/^3 days begin with a tally/);
  // No day back: nothing to compare, and no interval of nothing.
  expect(found.rows[2]).toMatchObject({ interval: undefined, difference: undefined, verdict: undefined });
});

test("no attempts", () => {
  expect(() => firstTries([])).toThrow(Missing);
  expect(() => firstTries([[46300, ""]])).toThrow("No attempts logged yet: log the first set");
});

test("the days may come in any order; the first two rows have the days' attempts, the last two all; the first of a day is one", () => {
  const row = fc.tuple(fc.integer({ min: 46300, max: 46340 }), fc.stringMatching(/^[cdb]{1,6}$/));
  fc.assert(
    fc.property(fc.array(row, { minLength: 1, maxLength: 25 }), fc.integer({ min: 1, max: 9 }), (rows, breakDays) => {
      const found = firstTries(rows, breakDays);
      const newestFirst = [...rows].sort(([one], [other]) => other - one);
      expect(firstTries(newestFirst, breakDays)).toEqual(found);
      const later = rows.map(([date, cell]) => [date + 365, cell] as const);
      expect(firstTries(later, breakDays)).toEqual(found);
      const all = rows.reduce((sum, [, cell]) => sum + cell.length, 0);
      const [first, rest, back, other] = found.rows.map(({ attempts }) => attempts);
      expect((first ?? NaN) + (rest ?? NaN)).toBe(all);
      expect((back ?? NaN) + (other ?? NaN)).toBe(all);
      expect(first).toBe(new Set(rows.map(([date]) => date)).size);
    }),
    runs(200),
  );
});
