import fc from "fast-check";
import { loadPrompt, planReason } from "../../src/core/advice";
import { practicePlan, trainingLoad } from "../../src/core/week";

const record = (trick: string, caught: number, attempts: number, weight = 1) => ({ trick, caught, attempts, weight });
const planned = (...args: Parameters<typeof practicePlan>) =>
  practicePlan(...args).map(({ trick, attempts }) => [trick, attempts]);

describe("the week's plan by hand", () => {
  // Jeffreys means: 19.5/21 = 0.929, 12.5/21 = 0.595, 14.5/21 = 0.690; needs 0.02 (the least), 0.305 and 0.210.
  const records = [record("Flat", 19, 20), record("Two spin", 12, 20), record("Illusion", 14, 20)];

  test("set by set to the largest need for the sets it has, at most three of one trick", () => {
    // 0.305, 0.210, 0.152, 0.105, 0.102, 0.070, then only Flat is left, which takes three.
    const order: [number, number[]][] = [
      [10, [10, 0, 0]],
      [20, [10, 10, 0]],
      [30, [20, 10, 0]],
      [40, [20, 20, 0]],
      [50, [30, 20, 0]],
      [60, [30, 30, 0]],
      [79, [30, 30, 10]],
      [500, [30, 30, 30]],
    ];
    for (const [budget, [two, illusion, flat]] of order) {
      expect(planned(records, budget, 0.8, 10)).toEqual([
        ["Two spin", two],
        ["Illusion", illusion],
        ["Flat", flat],
      ]);
    }
  });

  test("weights move it, and the order with it", () => {
    // 0.305 to 3 × 0.210.
    const weighted = [record("Two spin", 12, 20), record("Illusion", 14, 20, 3)];
    expect(planned(weighted, 30, 0.8, 10)).toEqual([
      ["Illusion", 20],
      ["Two spin", 10],
    ]);
  });

  test("what is at risk in the routine comes before what is not in it", () => {
    const routine = [record("Solid one", 28, 30), record("Slipping", 18, 30), record("Not in it", 15, 30, 0.25)];
    expect(planned(routine, 20, 0.8, 10)).toEqual([
      ["Slipping", 20],
      ["Not in it", 0],
      ["Solid one", 0],
    ]);
  });

  test("small budgets", () => {
    expect(planned(records, 9, 0.8, 10).map(([, attempts]) => attempts)).toEqual([0, 0, 0]);
    const good = [record("Flat", 19, 20), record("Two spin", 20, 20), record("Illusion", 18, 20)];
    // Needs 0.02, 0.02 and 0.9 − 18.5/21 = 0.019, which is the least as well: the earlier first.
    expect(planned(good, 20, 0.8, 10).map(([, attempts]) => attempts)).toEqual([10, 10, 0]);
  });

  test("each reason in its own words", () => {
    const plan = practicePlan([...records, record("Blind catch", 1, 20, 0)], 10, 0.8, 10);
    expect(plan.map((one) => planReason(one, 0.8, 10))).toEqual([
      "About 20 % short of the standard.",
      "About 11 % short; no set of 10 left for it this time.",
      "Meets the standard; no set left for it this time.",
      "Its weight is 0.",
    ]);
    const [, , flat] = practicePlan(records, 70, 0.8, 10);
    expect(flat && planReason(flat, 0.8, 10)).toBe("Meets the standard: one set keeps it warm.");
    const [, , surer] = practicePlan(records, 500, 0.8, 10);
    expect(surer && planReason(surer, 0.8, 10)).toBe("Meets the standard: there is time to make it surer.");
  });
});

test("d'Hondt's method: 340,000, 280,000, 160,000 and 60,000 votes and 7 seats give 3, 3, 1 and 0 (the example of the method in general reference works, from memory, reproduced)", () => {
  // As needs: the standard and the least are out of the way, and no one is over the limit of three.
  const votes = [340, 280, 160, 60];
  const plan = practicePlan(
    votes.map((weight, index) => record(`Trick ${index}`, 1, 2, weight)),
    7,
    0.8,
    1,
  );
  expect(plan.map(({ attempts }) => attempts)).toEqual([3, 3, 1, 0]);
});

test("no set is lost while a trick can take one, and a larger need never gets less", () => {
  const some = fc.record({ caught: fc.nat(20), weight: fc.double({ min: 0.001, max: 3, noNaN: true }) });
  fc.assert(
    fc.property(fc.array(some, { minLength: 1, maxLength: 12 }), fc.nat(60), (tricks, sets) => {
      const records = tricks.map(({ caught, weight }, index) => record(`Trick ${index}`, caught, 20, weight));
      const plan = practicePlan(records, sets * 10, 0.8, 10);
      expect(plan.reduce((sum, { attempts }) => sum + attempts, 0)).toBe(10 * Math.min(sets, 3 * tricks.length));
      for (const [index, { attempts }] of plan.entries()) {
        expect(attempts).toBeLessThanOrEqual(30);
        expect(attempts).toBeLessThanOrEqual(plan[index - 1]?.attempts ?? Infinity);
      }
    }),
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
