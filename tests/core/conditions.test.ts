import fc from "fast-check";
import { ConditionLog, type ConditionRow } from "../../src/core/conditions";
import { Missing, Problem } from "../../src/core/problem";
import fromR from "../checks/trick-from-r.json";
import { runs } from "./runs";

type Row = readonly [condition: string | undefined, athlete: string, trick: string, caught: number, attempts: number];

function rowsOf(rows: readonly Row[]): ConditionRow[] {
  const log = new ConditionLog();
  for (const [condition, athlete, trick, caught, attempts] of rows) {
    log.add(condition, athlete, trick, { caught, attempts });
  }
  return log.rows();
}

/** Departments as tricks of one athlete, men as the condition. */
const ADMISSIONS: readonly Row[] = [
  ["men", "x", "A", 512, 825],
  [undefined, "x", "A", 89, 108],
  ["men", "x", "B", 353, 560],
  ["", "x", "B", 17, 25],
  ["men", "x", "C", 120, 325],
  [undefined, "x", "C", 202, 593],
  ["men", "x", "D", 138, 417],
  [" ", "x", "D", 131, 375],
  ["men", "x", "E", 53, 191],
  [undefined, "x", "E", 94, 393],
  ["men", "x", "F", 22, 373],
  [undefined, "x", "F", 24, 341],
];

test("R 4.2.2, mantelhaen.test(UCBAdmissions, correct = FALSE) and metafor: p 0.2169, difference -0.0184 from -0.0475 to 0.0106", () => {
  const given = fromR.strata.find(({ name }) => name.startsWith("UCBAdmissions"));
  const [men, ...others] = rowsOf(ADMISSIONS);
  expect(others).toEqual([]);
  expect(men).toMatchObject({ condition: "men", caught: 1198, attempts: 2691, verdict: "not clear yet" });
  expect(men?.p).toBeCloseTo(0.2169, 4);
  expect(men?.p).toBeCloseTo(given?.p ?? NaN, 10);
  expect(men?.difference?.difference).toBeCloseTo(given?.difference ?? NaN, 11);
  expect(men?.difference?.low).toBeCloseTo(-0.0475, 4);
  expect(men?.difference?.high).toBeCloseTo(0.0106, 4);
});

test("without the department A, where women are clearly ahead, nothing is left; in it alone the difference is clear", () => {
  const [inA] = rowsOf(ADMISSIONS.filter(([, , trick]) => trick === "A"));
  expect(inA).toMatchObject({ verdict: "worse" });
  expect(inA?.p).toBeLessThan(0.001);
});

test("an easy trick is not taken for a good hand", () => {
  // The left hand is tried on the easy trick, the right on the hard one; where both are, the left is worse.
  const rows = rowsOf([
    ["left hand", "Lea B.", "Flat spin", 80, 100],
    [undefined, "Lea B.", "Flat spin", 39, 40],
    [undefined, "Lea B.", "Triple illusion", 40, 100],
    ["left hand", "Lea B.", "Triple illusion", 2, 10],
  ]);
  // Left 82 of 110, right 79 of 140; and yet:
  expect(rows[0]).toMatchObject({ condition: "left hand", caught: 82, attempts: 110, verdict: "worse" });
});

test("fewer than 5 attempts on a side are never clear, counted on the tricks done both ways", () => {
  const withIt = (tries: number): ConditionRow | undefined =>
    rowsOf([
      ["tired", "Lea B.", "Flat spin", 0, tries],
      [undefined, "Lea B.", "Flat spin", 20, 20],
      ["tired", "Lea B.", "Illusion", 0, 30],
    ])[0];
  expect(withIt(4)?.difference?.high).toBeLessThan(0);
  expect([withIt(4)?.verdict, withIt(5)?.verdict]).toEqual(["not clear yet", "worse"]);
});

test("several in one cell, each once; blank is without; the others' rows are its comparison; most tried first, ties A to Z", () => {
  const rows = rowsOf([
    ["outdoors; tired ;; TIRED", "Lea B.", "Flat spin", 3, 10],
    ["Tired", "Lea B.", "flat SPIN", 4, 10],
    ["outdoors", "lea b.", "Flat spin", 6, 10],
    [" ; ", "Lea B.", "Flat spin", 9, 10],
    ["tired", "Mia K.", "Flat spin", 1, 1],
    ["tired", "Mia K.", "Flat spin", 0, 0],
  ]);
  expect(rows.map(({ condition, caught, attempts }) => [condition, caught, attempts])).toEqual([
    ["tired", 8, 21],
    ["outdoors", 9, 20],
  ]);
  // Lea's flat spin: tired 7 of 20, else 15 of 20. Mia is always tired, so she says nothing.
  expect(rows[0]?.difference?.difference).toBeCloseTo(7 / 20 - 15 / 20, 12);
  expect(rows[1]?.difference?.difference).toBeCloseTo(9 / 20 - 13 / 20, 12);
});

test("never without it", () => {
  const rows = rowsOf([
    ["outdoors", "Lea B.", "Flat spin", 3, 10],
    [undefined, "Mia K.", "Flat spin", 9, 10],
    [undefined, "Lea B.", "Cartwheel", 9, 10],
  ]);
  expect(rows).toEqual([
    {
      condition: "outdoors",
      caught: 3,
      attempts: 10,
      difference: undefined,
      p: undefined,
      verdict: "never without it",
    },
  ]);
});

describe("errors", () => {
  test("nothing noted", () => {
    expect(() => rowsOf([])).toThrow(Missing);
    expect(() => rowsOf([["; ", "a", "b", 3, 4]])).toThrow(
      "No condition is noted yet: note beside the marks what was different, such as left hand",
    );
  });

  test("a column of remarks", () => {
    const log = new ConditionLog();
    const words = Array.from({ length: 200 }, (_, word) => `word ${word}`);
    log.add(words.join(";"), "a", "b", { caught: 1, attempts: 1 });
    expect(() => log.add("one more", "a", "b", { caught: 1, attempts: 1 })).toThrow(Problem);
    expect(() => log.add("one more", "a", "b", { caught: 1, attempts: 1 })).toThrow(
      /^conditions: found more than 200 different conditions\./,
    );
    expect(log.rows()).toHaveLength(200);
  });
});

test("rows split up or in another order give the same", () => {
  const row = fc.tuple(
    fc.constantFrom("x", "y", "x;y", undefined),
    fc.constantFrom("Lea B.", "Mia K."),
    fc.constantFrom("Flat spin", "Cartwheel"),
    fc.integer({ min: 0, max: 9 }),
  );
  fc.assert(
    fc.property(fc.array(row, { minLength: 1, maxLength: 30 }), (given) => {
      if (given.every(([condition]) => condition === undefined)) return;
      const whole = rowsOf(
        given.map(([condition, athlete, trick, caught]): Row => [condition, athlete, trick, caught, 10]),
      );
      const split = rowsOf(
        [...given].reverse().flatMap(([condition, athlete, trick, caught]): Row[] => [
          [condition, athlete, trick, Math.min(caught, 4), 4],
          [condition, athlete, trick, caught - Math.min(caught, 4), 6],
        ]),
      );
      expect(split.map(({ condition, caught, attempts, verdict }) => [condition, caught, attempts, verdict])).toEqual(
        whole.map(({ condition, caught, attempts, verdict }) => [condition, caught, attempts, verdict]),
      );
      whole.forEach(({ p, difference }, index) => {
        if (p !== undefined) expect(split[index]?.p).toBeCloseTo(p, 10);
        if (difference) expect(split[index]?.difference?.high).toBeCloseTo(difference.high, 10);
      });
    }),
    runs(200),
  );
});
