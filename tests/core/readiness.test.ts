import fc from "fast-check";
import { runs } from "./runs";
import { nextStep } from "../../src/core/advice";
import { assess, readiness, STATUSES } from "../../src/core/readiness";
import { betaAbove, binomialAtMost } from "../../src/core/tails";
import { logOf } from "./logs";

/**
 * The rule once more, written straight from its definition and without any running sums: the weight of each attempt by
 * its age, the sets cut out of the list.
 */
function statusByDefinition(letters: string, standard: number, setSize: number): string {
  const all = [...letters];
  if (all.length === 0) return "No attempts";
  if (all.length < setSize) return "Too few";
  const evidence = (upTo: number): number => {
    let [caught, missed] = [0, 0];
    all.slice(0, upTo).forEach((letter, index) => {
      const weight = 2 ** (-(upTo - 1 - index) / 30);
      if (letter === "c") caught += weight;
      else missed += weight;
    });
    return betaAbove(standard, 0.5 + caught, 0.5 + missed);
  };
  const lastSet = (upTo: number) => all.slice(Math.max(0, upTo - setSize), upTo);
  const caughtIn = (set: string[]) => set.filter((letter) => letter === "c").length;
  const rule = (upTo: number) => upTo >= setSize && caughtIn(lastSet(upTo)) / setSize >= standard - 1e-12;
  const judgings = Array.from({ length: Math.floor(all.length / setSize) }, (_, index) => (index + 1) * setSize);
  const earned = [...judgings, all.length].some((upTo) => rule(upTo) && evidence(upTo) >= 0.5);
  const now = all.length;
  if (!earned) return rule(now) ? "Confirm" : "Building";
  const set = lastSet(now);
  const bails = set.filter((letter) => letter === "b").length;
  if (evidence(now) < 0.35 || binomialAtMost(caughtIn(set), setSize, standard) < 0.05 || bails >= 2) return "At risk";
  return rule(now) && evidence(now) >= 0.9 ? "Solid" : "Ready";
}

/** Worked by hand: E from R's pbeta, the binomial tail from a table. */
test.each([
  ["", "No attempts", "nothing logged"],
  ["ccccccccc", "Too few", "nine of ten"],
  ["ccccc ccddd", "Building", "7 of 10 fails the rule"],
  ["ccccc cccdd", "Confirm", "8 of 10 unweighted has E = 0.467, and the drops came last"],
  ["ccccc ccccd", "Ready", "9 of 10: E is 0.73 with the drop last"],
  ["ccccc ccccc ccccc", "Solid", "15 of 15: E is above 0.98"],
  ["ccccc ccccc ccccc ccccc ccccc ccddd", "Ready", "7 of 10 after 20 catches: the rule fails now, the evidence holds"],
  ["ccccc ccccc ccccc ccccc ccccc ddddd", "At risk", "5 of 10 has a chance of 3.3 % at 0.8 (binomial table)"],
  ["ccccc ccccc ccccc ccccc ccccc cccbb", "At risk", "two bails in the last set"],
  ["ccccc ccccc ccccc ccccc ccccc ccccb", "Solid", "one bail, 9 of 10"],
])("%p is %s: %s", (marks, status) => {
  expect(readiness(logOf([marks]), 0.8, 10)).toBe(status);
});

test("the judging falls on whole sets from the first attempt, and once at the end", () => {
  // Ten catches in a row across two sets: they count while they are the latest, and between two judgings they do not.
  expect(readiness(logOf(["dddd cccccc cccc"]), 0.7, 10)).toBe("Ready");
  expect(readiness(logOf(["dddd cccccc cccc dddddd"]), 0.7, 10)).toBe("Building");
});

test("the same as the rule written out from its definition", () => {
  const letter = fc.constantFrom("c", "c", "c", "c", "c", "c", "d", "b");
  const run = fc.array(letter, { maxLength: 90 });
  const slide = fc
    .tuple(fc.array(fc.constantFrom("c", "c", "c", "c", "c", "c", "c", "c", "d"), { maxLength: 60 }), run)
    .map(([good, bad]) => [...good, ...bad]);
  const seen = new Set<string>();
  fc.assert(
    fc.property(
      fc.oneof(run, slide),
      fc.constantFrom(0.5, 0.7, 0.8, 0.9, 0.95),
      fc.constantFrom(1, 5, 10, 12),
      (letters, standard, setSize) => {
        const marks = letters.join("");
        const status = readiness(logOf([marks]), standard, setSize);
        seen.add(status);
        expect(status).toBe(statusByDefinition(marks, standard, setSize));
      },
    ),
    runs(3000),
  );
  expect([...seen].sort()).toEqual([...STATUSES].sort());
});

test("a catch in place of a miss never lowers the word", () => {
  // From worst to best for a trick that never earned its word, and for one that did.
  const order = ["No attempts", "Too few", "Building", "Confirm", "At risk", "Ready", "Solid"];
  fc.assert(
    fc.property(
      fc.array(fc.constantFrom("c", "c", "c", "d"), { minLength: 1, maxLength: 60 }),
      fc.nat(),
      (letters, place) => {
        const better = letters.map((letter, index) => (index === place % letters.length ? "c" : letter));
        const [before, after] = [letters, better].map((run) => readiness(logOf([run.join("")]), 0.8, 10)) as [
          string,
          string,
        ];
        // A better past can only earn the word; once earned in both, what it is now can only be better.
        expect(order.indexOf(after)).toBeGreaterThanOrEqual(order.indexOf(before));
      },
    ),
    runs(2000),
  );
});

describe("tallies", () => {
  test("a set as a tally weighs as its attempts do in the mean", () => {
    expect(readiness(logOf(["9/10", "9/10", "10/10"]), 0.8, 10)).toBe("Solid");
    expect(readiness(logOf(["8/10"]), 0.8, 10)).toBe("Confirm");
    expect(readiness(logOf(["3/5"]), 0.8, 10)).toBe("Too few");
  });

  test("a tally earns the word at its own end, and a poor one later does not take it back", () => {
    expect(readiness(logOf(["10/10", "10/10", "10/10", "7/10"]), 0.8, 10)).toBe("Ready");
    expect(readiness(logOf(["7/10", "7/10", "7/10", "7/10"]), 0.8, 10)).toBe("Building");
  });

  test("without attempts there are no figures", () => {
    expect(assess(logOf([]), 0.8, 10)).toMatchObject({
      status: "No attempts",
      recentInterval: undefined,
      evidence: undefined,
    });
  });

  test("the last set is the latest rows that add up to a set at least", () => {
    const { lastSet } = assess(logOf(["5/5", "6/8", "3/4"]), 0.8, 10);
    expect(lastSet).toEqual({ caught: 9, attempts: 12, bails: 0 });
  });

  test("a run of equal attempts weighs the same as a tally and as single marks", () => {
    for (const marks of ["cccccccccc", "dddddddddd"]) {
      const single = assess(logOf([marks, marks]), 0.8, 10);
      const share = marks.startsWith("c") ? "10/10" : "0/10";
      const tallied = assess(logOf([share, share]), 0.8, 10);
      expect(tallied.evidence).toBeCloseTo(single.evidence ?? NaN, 12);
      expect(tallied.status).toBe(single.status);
      expect(tallied.streaks).toBeUndefined();
    }
  });
});

test("the recent rate looks back three sets", () => {
  const assessment = assess(logOf(["ddddd ddddd", "ccccc ccccc", "ccccc ddddd", "ccccc cccdd"]), 0.8, 10);
  expect(assessment.recent).toEqual({ caught: 23, attempts: 30, bails: 0 });
  // Wilson's interval of 23 of 30, by R's prop.test(23, 30, correct = FALSE): 0.591 to 0.882.
  expect(assessment.recentInterval?.low).toBeCloseTo(0.591, 3);
  expect(assessment.recentInterval?.high).toBeCloseTo(0.882, 3);
});

test("every status has its own next step, one sentence and short; bails come first", () => {
  const assessment = assess(logOf(["ccccc ccccd"]), 0.8, 10);
  const steps = STATUSES.map((status) => nextStep({ ...assessment, status }, 10));
  expect(new Set(steps).size).toBe(STATUSES.length);
  for (const step of steps) {
    expect(step.length).toBeLessThanOrEqual(130);
    expect(step).toMatch(/^[A-Z].*\.$/);
  }
  expect(nextStep(assess(logOf(["ccccc cccbb"]), 0.8, 10), 10)).toMatch(/Do not push repetitions/);
  expect(nextStep(assess(logOf(["ccccc cc"]), 0.8, 10), 10)).toBe("Log 3 more to judge it.");
});
