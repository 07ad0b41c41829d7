/** History by day, bars by set, stages, and the attempts that a proof takes. */
import fc from "fast-check";
import { AttemptLog } from "../../src/core/attempt-log";
import { chanceAbove } from "../../src/core/catch-rate";
import { catchBars, historyByDay, historyBySet } from "../../src/core/history";
import { DayLog } from "../../src/core/day-log";
import { readMark } from "../../src/core/marks";
import { readiness } from "../../src/core/readiness";
import { proofAttempts } from "../../src/core/proof-attempts";
import { stageCalled, StageLog } from "../../src/core/stages";
import { STAGES, type Stage } from "../../src/trade/stages";
import { logOf, recordOf } from "./logs";

test("history by day, in order of time, with Wilson's interval (Newcombe 1998: 10 of 10 from 0.7225, 5 of 10 0.2366 to 0.7634)", () => {
  const days = historyByDay(
    recordOf([
      [46301, "ccccc ddd"],
      [46300, "ccccc"],
      [46302, ""],
      [46301, "dd"],
      [46300, "ccccc"],
    ]),
  );
  expect(days.map(({ date, caught, attempts }) => [date, caught, attempts])).toEqual([
    [46300, 10, 10],
    [46301, 5, 10],
  ]);
  expect(days[0]?.interval.low).toBeCloseTo(0.7225, 4);
  expect(days[1]?.interval.high).toBeCloseTo(0.7634, 4);
});

test.each([
  ["cccccccccc", "█"],
  ["dddddddddd", "▁"],
  ["ccccc ddddd", "▅"],
  ["ccccccccdd", "▇"],
  ["cccccccccc ddddd", "█▁"],
  ["c".repeat(10) + "d".repeat(300), "▁".repeat(20)],
])("bars of %p", (marks, bars) => {
  expect(catchBars(logOf([marks]), 10)).toBe(bars);
});

test("a tally has its bar as a whole", () => {
  expect(catchBars(logOf(["4/5", "6/10", "c"]), 10)).toBe("▆█");
});

/** The log of the first so many attempts, which a tally's end lies on. */
function beginning(marks: readonly string[], attempts: number): AttemptLog {
  const whole = logOf(marks);
  const log = new AttemptLog();
  for (let entry = 0; entry < whole.entries && log.attempts < attempts; entry += 1) {
    const tally = whole.tallyAt(entry);
    if (tally) log.addTally(tally.caught, tally.attempts, tally.row, tally.column);
    else log.add(whole.outcomeAt(entry));
  }
  return log;
}

describe("a record set by set", () => {
  const rows = (...marks: readonly string[]): DayLog => recordOf(marks.map((cell, index) => [46300 + index, cell]));

  test("each set of ten has Wilson's interval (Newcombe 1998: 10 of 10 from 0.7225, 5 of 10 0.2366 to 0.7634)", () => {
    const sets = historyBySet(rows("ccccc ddddd", "ccccc", "ccccc", "cdd"), 0.8, 10);
    expect(sets.map(({ date, caught, attempts }) => [date, caught, attempts])).toEqual([
      [46300, 5, 10],
      [46302, 10, 10],
      [46303, 1, 3],
    ]);
    expect(sets[0]?.interval.low).toBeCloseTo(0.2366, 4);
    expect(sets[0]?.interval.high).toBeCloseTo(0.7634, 4);
    expect(sets[1]?.interval.low).toBeCloseTo(0.7225, 4);
    expect(sets[1]?.interval.high).toBe(1);
  });

  test("a tally belongs to one set, empty rows do no harm, and an old set typed at the foot stands first", () => {
    const record = recordOf([
      [46300, "c"],
      [46301, ""],
      [46302, "8/10"],
      [46290, "ccccc ccccb"],
    ]);
    expect(
      historyBySet(record, 0.8, 10).map(({ date, caught, attempts, bails }) => [date, caught, attempts, bails]),
    ).toEqual([
      [46290, 9, 10, 1],
      [46302, 9, 11, 0],
    ]);
    expect(historyBySet(new DayLog(), 0.8, 10)).toEqual([]);
  });

  test("the status at each end is that of the record so far, and the bars are the same sets", () => {
    const cell = fc.oneof(
      fc.stringMatching(/^[cdb]{1,14}$/),
      fc.tuple(fc.nat(10), fc.integer({ min: 1, max: 10 })).map(([more, of]) => `${Math.min(more, of)}/${of}`),
    );
    fc.assert(
      fc.property(fc.array(cell, { maxLength: 12 }), fc.integer({ min: 3, max: 12 }), (marks, setSize) => {
        const sets = historyBySet(rows(...marks), 0.8, setSize);
        const whole = logOf(marks);
        expect(sets.reduce((sum, set) => sum + set.attempts, 0)).toBe(whole.attempts);
        expect(sets.reduce((sum, set) => sum + set.caught, 0)).toBe(whole.caught);
        // Each status is what the record up to that set alone is judged as.
        let attempts = 0;
        for (const set of sets) {
          attempts += set.attempts;
          expect(set.judged.status).toBe(readiness(beginning(marks, attempts), 0.8, setSize));
        }
        expect(Math.min(20, sets.length)).toBe(catchBars(whole, setSize).length);
      }),
    );
  });
});

describe("stages", () => {
  const log = new StageLog();
  const add = (trick: string, stage: string, marks: string) =>
    readMark(marks, "marks", 1, 1, log.recordOf(trick, stageCalled(stage) as Stage).asRead);
  add("Two spin", "joined", "45/50");
  add("two spin", "Wall", "48/50");
  add("Two spin", "IN CONTEXT", "44/50");
  add("Two spin", "Run-through", "20/50");
  add("Flat", "Joined", "9/10");

  test("rates in the order of learning; where it breaks is the first clear fall (45 of 50 to 20 of 50)", () => {
    const [flat, spin] = log.rows();
    expect(flat).toMatchObject({ trick: "Flat", breaksAt: undefined });
    expect(spin).toMatchObject({ trick: "Two spin", breaksAt: "Run-through" });
    expect(spin?.tallies.map((tally) => tally?.caught)).toEqual([undefined, undefined, 48, 45, 44, 20, undefined]);
  });

  test("by athlete: a fall that the club together hides, athletes A to Z in whatever case they are typed", () => {
    const byAthlete = new StageLog();
    const note = (athlete: string, stage: Stage, marks: string) =>
      readMark(marks, "marks", 1, 1, byAthlete.recordOf("Two spin", stage, athlete).asRead);
    note("Zoé K.", "Joined", "45/50");
    note("Lea B.", "Joined", "30/50");
    note(" zoé k.", "Run-through", "30/50");
    note("Lea B.", "Run-through", "48/50");
    expect(byAthlete.rows().map(({ athlete, trick, breaksAt }) => [athlete, trick, breaksAt])).toEqual([
      ["Lea B.", "Two spin", undefined],
      ["Zoé K.", "Two spin", "Run-through"],
    ]);
    const together = new StageLog();
    readMark("75/100", "marks", 1, 1, together.recordOf("Two spin", "Joined").asRead);
    readMark("78/100", "marks", 1, 1, together.recordOf("Two spin", "Run-through").asRead);
    expect(together.rows()[0]).toMatchObject({ athlete: "", breaksAt: undefined });
  });

  test("stages are known in whatever case they are typed, and no other word is one", () => {
    expect(stageCalled("warm-up")).toBeUndefined();
    expect(STAGES.map((stage) => stageCalled(` ${stage.toUpperCase()} `))).toEqual([...STAGES]);
  });
});

describe("attempts that a proof takes", () => {
  /** The definition, attempt by attempt. */
  function byDefinition(rate: number, standard: number, confidence: number, most: number): number {
    let last = 0;
    for (let attempts = 1; attempts <= most; attempts++) {
      const caught = Math.round(rate * attempts);
      if (chanceAbove(caught, attempts - caught, standard) < confidence) last = attempts;
    }
    return last + 1;
  }

  test.each([
    [0.9, 0.8, 0.95, 400],
    [0.95, 0.8, 0.99, 300],
    [0.87, 0.8, 0.9, 800],
    [1, 0.8, 0.95, 100],
    [0.55, 0.5, 0.8, 1500],
    [0.9, 0.8, 0.5, 200],
    [0.6, 0, 0.95, 50],
    [0.33, 0.2, 0.975, 400],
  ])("rate %p, standard %p, confidence %p", (rate, standard, confidence, most) => {
    expect(proofAttempts(rate, standard, confidence)).toBe(byDefinition(rate, standard, confidence, most));
  });

  test("Wilks' sizes for 95 % with 95 % confidence and no miss are 59; with Jeffreys' prior fewer are needed, and 58 of that order", () => {
    // Wilks' 59 is the smallest n with 0.95^n ≤ 0.05, the uniform prior's is 58; Jeffreys' prior leans to the ends.
    const attempts = proofAttempts(1, 0.95, 0.95);
    expect(attempts).toBe(byDefinition(1, 0.95, 0.95, 200));
    expect(attempts).toBeLessThan(58);
  });

  test("near its limit, and beyond it", () => {
    const near = proofAttempts(0.8021, 0.8, 0.95);
    expect(near).toBeGreaterThan(90_000);
    expect(near).toBeLessThanOrEqual(100_000);
    expect(() => proofAttempts(0.8018, 0.8, 0.95)).toThrow(/More than 100,000/);
    expect(() => proofAttempts(0.8, 0.8, 0.95)).toThrow(/not above the standard/);
    expect(() => proofAttempts(0.9, 0.8, 1)).toThrow(/entirely sure/);
  });
});
