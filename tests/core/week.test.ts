import fc from "fast-check";
import { loadPrompt, planReason } from "../../src/core/advice";
import { largestRemainders, practicePlan, trainingLoad } from "../../src/core/week";

const record = (trick: string, caught: number, attempts: number, weight = 1) => ({ trick, caught, attempts, weight });
const shares = (...args: Parameters<typeof practicePlan>) => practicePlan(...args).map(({ attempts }) => attempts);

describe("the week's plan by hand", () => {
  // Jeffreys means: 19.5/21 = 0.929, 12.5/21 = 0.595, 14.5/21 = 0.690; shortfalls of 0.8: 0.205 and 0.110.
  const records = [record("Flat", 19, 20), record("Two spin", 12, 20), record("Illusion", 14, 20)];

  test("one set keeps the good trick warm, the rest goes 0.205 to 0.110", () => {
    // Seven sets: one to Flat, six in the proportion 3.91 to 2.09.
    expect(shares(records, 70, 0.8, 10)).toEqual([10, 40, 20]);
    expect(shares(records, 79, 0.8, 10)).toEqual([10, 40, 20]);
  });

  test("weights move it", () => {
    // 0.205 to 3 × 0.110: 2.30 and 3.70 of six sets.
    expect(shares([records[0], records[1], { ...records[2], weight: 3 }] as typeof records, 70, 0.8, 10)).toEqual([
      10, 20, 40,
    ]);
  });

  test("small budgets", () => {
    expect(shares(records, 9, 0.8, 10)).toEqual([0, 0, 0]);
    expect(shares(records, 10, 0.8, 10)).toEqual([10, 0, 0]);
    const good = [record("Flat", 19, 20), record("Two spin", 20, 20), record("Illusion", 18, 20)];
    expect(shares(good, 20, 0.8, 10)).toEqual([10, 0, 10]);
    expect(shares(good, 90, 0.8, 10)).toEqual([10, 10, 10]);
    // Two good tricks and one set: the one that falls short comes first.
    expect(
      shares([record("Flat", 19, 20), record("Two spin", 20, 20), record("Illusion", 2, 20)], 10, 0.8, 10),
    ).toEqual([0, 0, 10]);
  });

  test("each reason in its own words", () => {
    const planned = practicePlan([...records, record("Blind catch", 1, 20, 0)], 20, 0.8, 10);
    expect(planned.map((one) => planReason(one, 0.8, 10))).toEqual([
      "Meets the standard: one set keeps it warm.",
      "About 20 % short of the standard.",
      "About 11 % short; no set of 10 left for it this time.",
      "Its weight is 0.",
    ]);
    expect(planReason({ trick: "Flat", attempts: 0, reason: "no set left", mean: 0.9 }, 0.8, 10)).toMatch(
      /^Meets the standard; no set left/,
    );
  });
});

test("largest remainders: the apportionment example of Hamilton's method in Balinski and Young, Fair Representation (from memory, reproduced)", () => {
  // Populations 21,878, 9,713, 4,167, 3,252, 1,065 and a house of 36: quotas 19.66, 8.73, 3.74, 2.92, 0.96.
  expect(largestRemainders([21878, 9713, 4167, 3252, 1065], 36)).toEqual([19, 9, 4, 3, 1]);
});

test("all sets are given out whole, and a larger need never gets less", () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: 0.001, max: 1, noNaN: true }), { minLength: 1, maxLength: 12 }),
      fc.nat(60),
      (needs, total) => {
        const given = largestRemainders(needs, total);
        expect(given.reduce((sum, share) => sum + share, 0)).toBe(total);
        needs.forEach((need, one) =>
          needs.forEach((less, other) => {
            if (need > less) expect(given[one]).toBeGreaterThanOrEqual(given[other] ?? NaN);
          }),
        );
      },
    ),
  );
});

describe("practice load by hand", () => {
  const asOf = 46400;
  const minutes = new Map<number, number>();
  // Four weeks of three hours, then a week of five on four days.
  for (let week = 1; week <= 4; week++) for (const day of [0, 2, 4]) minutes.set(asOf - 6 - 7 * week + day, 60);
  for (const [day, spent] of [
    [0, 75],
    [2, 75],
    [4, 75],
    [6, 75],
  ] as const)
    minutes.set(asOf - 6 + day, spent);
  minutes.set(asOf + 1, 600);

  test("hours, rest days, the mean of the weeks before, the change", () => {
    expect(trainingLoad(minutes, asOf)).toEqual({
      hours: 5,
      restDays: 3,
      usualHours: 3,
      change: expect.closeTo(2 / 3, 12) as number,
    });
  });

  test("a log that does not reach back says nothing of a change", () => {
    const short = new Map([...minutes].filter(([date]) => date > asOf - 21));
    expect(trainingLoad(short, asOf)).toMatchObject({ usualHours: undefined, change: undefined });
    expect(
      trainingLoad(
        new Map([
          [asOf - 34, 0],
          [asOf, 60],
        ]),
        asOf,
      ),
    ).toMatchObject({ usualHours: 0, change: undefined });
  });

  test("prompts, never a score: NATA position statement 2019 for hours and rest days", () => {
    const load = { hours: 5, restDays: 3, usualHours: 4.5, change: 0.1 };
    expect(loadPrompt(load, 13)).toMatch(/^Nothing stands out/);
    expect(loadPrompt({ ...load, hours: 13 }, 13)).toMatch(/^Nothing stands out/);
    expect(loadPrompt({ ...load, hours: 13.5 }, 13)).toMatch(/More hours in seven days than the age/);
    expect(loadPrompt({ ...load, restDays: 1 }, 13)).toMatch(/Fewer than two rest days/);
    expect(loadPrompt({ ...load, change: 0.5 }, 13)).toMatch(
      /A jump above the four weeks before.*doctor's advice comes first/,
    );
  });
});
