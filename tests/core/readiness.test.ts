import fc from "fast-check";
import { runs } from "./runs";
import { nextStep, reasonInWords } from "../../src/core/advice";
import { AttemptLog } from "../../src/core/attempt-log";
import { chanceAbove } from "../../src/core/catch-rate";
import { assess, judgedAfter, readiness, type Assessment } from "../../src/core/readiness";
import { STATUSES } from "../../src/trade/statuses";
import byHand from "../checks/readiness-by-hand.json";
import fromR from "../checks/readiness-from-r.json";
import { logOf } from "./logs";

interface ByHand {
  readonly marks: string;
  readonly standard: number;
  readonly setSize: number;
  readonly status: string;
  readonly chance: number | null;
  readonly because: string;
}

interface FromR {
  readonly marks: string;
  readonly standard: number;
  readonly setSize: number;
  readonly status: string;
  readonly chance?: number;
  readonly rate?: number;
  readonly low?: number;
  readonly high?: number;
  /** Caught, attempts and the usual rate of a slide at the record's end. */
  readonly slide?: readonly number[];
}

/** Cells parted by spaces, one below the other. */
const cellsOf = (marks: string): string[] => marks.split(" ").filter((cell) => cell !== "");
const assessed = (marks: string, standard = 0.8, setSize = 10): Assessment =>
  assess(logOf(cellsOf(marks)), standard, setSize);

describe("records worked by hand with the rule's text beside (tests/checks/readiness-by-hand.json)", () => {
  test.each(byHand as ByHand[])("$marks is $status: $because", ({ marks, standard, setSize, status, chance }) => {
    const found = assessed(marks, standard, setSize);
    expect(found.status).toBe(status);
    if (chance === null) expect(found.chance).toBeUndefined();
    else expect(Math.abs((found.chance ?? NaN) - chance)).toBeLessThanOrEqual(0.00005);
    expect(readiness(logOf(cellsOf(marks)), standard, setSize)).toBe(status);
  });

  test("there are thirty, and every word is among them", () => {
    expect(byHand).toHaveLength(30);
    expect(new Set(byHand.map(({ status }) => status))).toEqual(new Set(STATUSES));
  });
});

describe("2,000 random records, as a second reading of the rule in R judges them (tests/checks/readiness-from-r.R)", () => {
  const records = fromR as FromR[];

  test("word, chance, rate, range and slide are the same", () => {
    const wrong = records.filter(({ marks, standard, setSize, status, chance, rate, low, high, slide }) => {
      const found = assessed(marks, standard, setSize);
      const { reason, recentRate, recentInterval } = found;
      const near = (one: number | undefined, other: number | undefined): boolean =>
        // Nine digits are kept of R's values.
        one === undefined || other === undefined
          ? one === other
          : Math.abs(one - other) <= 2e-8 * Math.abs(other) + 1e-12;
      const told = reason.kind === "slide" ? [reason.caught, reason.attempts, reason.usual] : [];
      return !(
        found.status === status &&
        near(found.chance, chance) &&
        near(recentRate, rate) &&
        near(recentInterval?.low, low) &&
        near(recentInterval?.high, high) &&
        told.length === (slide?.length ?? 0) &&
        told.every((value, index) => near(value, slide?.[index]))
      );
    });
    expect(wrong).toEqual([]);
  });

  test("every word and enough slides are among them, at several standards and set sizes", () => {
    expect(records).toHaveLength(2000);
    for (const status of STATUSES) {
      expect(records.filter((record) => record.status === status).length).toBeGreaterThan(20);
    }
    expect(records.filter(({ slide }) => slide !== undefined).length).toBeGreaterThan(50);
    expect(new Set(records.map(({ standard }) => standard)).size).toBe(6);
    expect(new Set(records.map(({ setSize }) => setSize)).size).toBe(6);
  });

  test("the judgement at any place within a record is that of the record up to there", () => {
    for (const { marks, standard, setSize } of records.slice(0, 300)) {
      const log = logOf(cellsOf(marks));
      const ends = Array.from({ length: log.entries }, (_, index) => index + 1).filter(
        (end) => end % 7 === 0 || end === log.entries,
      );
      const within = judgedAfter(log, standard, setSize, ends);
      ends.forEach((end, index) => {
        const beginning = new AttemptLog();
        for (let entry = 0; entry < end; entry++) {
          const tally = log.tallyAt(entry);
          if (tally) beginning.addTally(tally.caught, tally.attempts, tally.row, tally.column);
          else beginning.add(log.outcomeAt(entry));
        }
        const { status, reason, lastSet, chance } = assess(beginning, standard, setSize);
        expect(within[index]).toEqual({ status, reason, lastSet, chance });
      });
    }
  });
});

/** What each word promises beside its figures, whatever the record. */
test("word and figures never disagree", () => {
  const letter = fc.constantFrom("c", "c", "c", "c", "c", "c", "c", "d", "d", "b");
  const cell = fc.oneof(
    { weight: 5, arbitrary: fc.array(letter, { minLength: 1, maxLength: 14 }).map((letters) => letters.join("")) },
    {
      weight: 1,
      arbitrary: fc.tuple(fc.nat(30), fc.nat(30)).map(([caught, missed]) => `${caught}/${caught + missed + 1}`),
    },
  );
  const good = fc.constantFrom("cccccccccc", "cccccccccd", "cccccdcccc");
  fc.assert(
    fc.property(
      fc
        .tuple(fc.array(good, { maxLength: 5 }), fc.array(cell, { maxLength: 8 }))
        .map(([one, other]) => [...one, ...other]),
      fc.constantFrom(0.5, 0.7, 0.8, 0.9),
      fc.constantFrom(5, 10, 12),
      (cells, standard, setSize) => {
        const {
          status,
          reason,
          chance = NaN,
          recentRate = NaN,
          recentInterval,
          lastSet,
          attempts,
        } = assess(logOf(cells), standard, setSize);
        if (attempts === 0) return;
        const atStandard = lastSet.attempts >= setSize && lastSet.caught >= standard * lastSet.attempts - 1e-9;
        if (status === "Solid") expect([chance >= 0.9, atStandard]).toEqual([true, true]);
        if (status === "Ready") expect(chance).toBeGreaterThanOrEqual(0.5);
        if (status === "Building") expect(atStandard).toBe(false);
        if (status === "Confirm" && reason.kind === "record fallen") expect(chance).toBeLessThan(0.5);
        if (status === "Confirm" && reason.kind !== "record fallen") expect(atStandard).toBe(true);
        if (status === "At risk") {
          if (reason.kind === "slide") {
            expect(reason.caught).toBeLessThan(standard * reason.attempts);
            expect(reason.usual).toBeGreaterThan(reason.caught / reason.attempts);
          } else if (reason.kind === "low chance") expect(chance).toBeLessThan(0.25);
          else expect([reason.kind, lastSet.bails >= 2]).toEqual(["bails", true]);
        }
        // The chance is the part of the same distribution at or above the standard: at its middle 95 % it says so.
        const { low, high } = recentInterval ?? { low: NaN, high: NaN };
        expect(low < high).toBe(true);
        expect(low >= standard).toBe(chance >= 0.975);
        expect(high >= standard).toBe(chance >= 0.025);
        expect(recentRate).toBeGreaterThanOrEqual(0);
        expect(recentRate).toBeLessThanOrEqual(1);
      },
    ),
    runs(3000),
  );
});

test("a catch in place of a miss in the last set never lowers the word", () => {
  // A better past may: the same poor set is then a slide.
  const order = ["Building", "At risk", "Confirm", "Ready", "Solid"];
  const letter = fc.constantFrom("c", "c", "c", "c", "d");
  fc.assert(
    fc.property(fc.array(letter, { minLength: 10, maxLength: 60 }), fc.nat(9), (letters, place) => {
      const whole = letters.slice(0, letters.length - (letters.length % 10));
      const better = whole.map((one, index) => (index === whole.length - 1 - place ? "c" : one));
      const [before, after] = [whole, better].map((run) => readiness(logOf([run.join("")]), 0.8, 10)) as [
        string,
        string,
      ];
      // Never Ready yet and Ready once are two ladders: the step from one to the other is a good one.
      if (before === "Confirm" && after === "At risk") throw new Error("a catch has lowered the word");
      expect(order.indexOf(after)).toBeGreaterThanOrEqual(order.indexOf(before));
    }),
    runs(2000),
  );
});

describe("tallies", () => {
  test.each([
    ["8/10", "Confirm", "one set only"],
    ["3/5", "Too few", "set not full"],
    ["9/10 9/10", "Ready", "holds"],
    ["1000000/1000000", "Solid", "holds"],
    ["1000000/1000000 700000/1000000", "At risk", "slide"],
    ["1000000/1000000 500/1000000", "At risk", "slide"],
    ["1000000/1000000 850000/1000000", "Ready", "holds"],
  ])("%s is %s: %s", (marks, status, kind) => {
    expect(assessed(marks)).toMatchObject({ status, reason: { kind } });
  });

  test("the last set is the latest rows that add up to a set at least", () => {
    expect(assessed("5/5 6/8 3/4").lastSet).toEqual({ caught: 9, attempts: 12, bails: 0 });
  });

  test("a run of equal attempts weighs the same as a tally and as single marks", () => {
    for (const [marks, tally] of [
      ["cccccccccc", "10/10"],
      ["dddddddddd", "0/10"],
    ] as const) {
      const [single, tallied] = [assessed(`${marks} ${marks}`), assessed(`${tally} ${tally}`)];
      expect(tallied.chance).toBeCloseTo(single.chance ?? NaN, 12);
      expect(tallied.status).toBe(single.status);
      expect(tallied.streaks).toBeUndefined();
    }
  });

  test("streaks are counted over the marks since the last tally", () => {
    expect(assessed("ddd ccccc").streaks).toEqual({ current: 5, best: 5, misses: 3 });
    expect(assessed("ccccc 8/10 dcc").streaks).toEqual({ current: 2, best: 2, misses: 1 });
    expect(assessed("ccccc 8/10").streaks).toBeUndefined();
    expect(assessed("").streaks).toEqual({ current: 0, best: 0, misses: 0 });
  });
});

test("after a slide what came before it counts no longer", () => {
  // 5 of 10 after 30 of 30: rate, range and chance are those of the slide's set alone, as a tally weighs it.
  const { recentRate, recentInterval, chance } = assessed("10/10 10/10 10/10 5/10");
  expect(recentRate).toBeCloseTo(0.5, 12);
  const alone = assessed("5/10");
  expect(chance).toBe(alone.chance);
  expect(recentInterval).toEqual(alone.recentInterval);
});

test("without attempts there are no figures", () => {
  expect(assessed("")).toMatchObject({
    status: "No attempts",
    reason: { kind: "nothing logged" },
    recentRate: undefined,
    recentInterval: undefined,
    chance: undefined,
  });
});

test("all caught is a rate of exactly one", () => {
  expect(assessed("ccccccc 13/13 cccc 10/10").recentRate).toBe(1);
  expect(assessed("ddddddd 0/13 dd").recentRate).toBe(0);
});

describe("words", () => {
  /** The status, its reason in words, and what is done next. */
  test.each([
    ["", "No attempts", "nothing logged yet", "Log a first set of 10."],
    ["ccccccc", "Too few", "3 more to a whole set", "Log 3 more to judge it."],
    ["7/10", "Building", "7 of 10; the standard is 80 %", "Body and toss apart, then joined"],
    ["8/10", "Confirm", "8 of 10, and one set only so far", "Never Ready yet, one set only: show another set"],
    [
      "8/10 8/10",
      "Confirm",
      "8 of 10; chance 47 %, 82 % is asked for",
      "Never Ready yet, chance 47 % of 82 %: show another set",
    ],
    ["9/10 9/10", "Ready", "9 of 10; chance 84 %", "9 of 10; chance 84 %: run it with the trick before"],
    ["9/10 9/10 7/10", "Ready", "7 of 10, no slide; chance 56 %", "7 of 10, no slide; chance 56 %: run it"],
    ["48/50", "Solid", "48 of 50; chance 99 %", "48 of 50; chance 99 %: keep it warm"],
    ["10/10 10/10 10/10 5/10", "At risk", "5 of 10; 100 % is usual", "5 of 10; 100 % is usual: repeat for five"],
    [
      "10/10 10/10 10/10 8/10 7/10 7/10 7/10",
      "Confirm",
      "was Ready; chance 41 % now",
      "Was Ready; chance 41 % now: show another set",
    ],
    ["10/10 10/10 10/10 8/10 7/10 7/10 7/10 7/10 7/10 7/10", "At risk", "chance 17 %", "Chance 17 %: repeat for five"],
    ["cccccccccc cccccccccc ccccccccbb", "At risk", "two bails", "Two bails: do not push repetitions"],
    [
      "cccccccccc cccccccccc cccccbbbbb",
      "At risk",
      "5 of 10; 100 % is usual; 5 bails",
      "5 of 10; 100 % is usual; 5 bails: do not",
    ],
    ["ccccccccbb", "Confirm", "8 of 10, and one set only so far", "Two bails: do not push repetitions"],
  ])("%s: %s, %s", (marks, status, reason, next) => {
    const found = assessed(marks);
    expect([found.status, reasonInWords(found)]).toEqual([status, reason]);
    const step = nextStep(found, 10);
    expect(step.startsWith(next)).toBe(true);
    expect(step).toMatch(/^[A-Z0-9].*\.$/);
    expect(step.length).toBeLessThanOrEqual(145);
  });

  test("At risk never goes without its reason, whatever the record", () => {
    const atRisk = (fromR as FromR[]).filter(({ status }) => status === "At risk");
    for (const { marks, standard, setSize } of atRisk) {
      expect(nextStep(assessed(marks, standard, setSize), setSize)).toMatch(/is usual|hance [\d.]+ %|bails/);
    }
  });
});

test("the chance shown is that of its own weights", () => {
  // By hand: a last catch weighs 1, a drop one attempt before 2^(-1/30).
  const { chance, recentRate } = assessed("dc", 0.8, 2);
  const weight = 2 ** (-1 / 30);
  expect(recentRate).toBeCloseTo(1 / (1 + weight), 14);
  expect(chance).toBeCloseTo(chanceAbove(1, weight, 0.8), 14);
});
