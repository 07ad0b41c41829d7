import fc from "fast-check";
import { changeInWords } from "../../src/core/advice";
import { changeDay, lookForChange } from "../../src/core/change-day";
import { dayInWords } from "../../src/core/day-text";
import { DayTallies, type DayTally } from "../../src/core/day-tallies";
import { Missing, Problem } from "../../src/core/problem";
import fromR from "../checks/trick-from-r.json";
import { runs } from "./runs";

const FIRST = 46100;
/** One practice day after the other, or as far apart as asked. */
const daysOf = (caught: readonly number[], attempts: readonly number[], apart = 1): DayTally[] =>
  caught.map((count, day) => ({ date: FIRST + apart * day, caught: count, attempts: attempts[day] ?? NaN }));

function near(actual: number | undefined, expected: number, within: number): void {
  expect(Math.abs((actual ?? NaN) - expected)).toBeLessThanOrEqual(within);
}

describe("the posterior against R 4.2.2 (tests/checks/trick-from-r.R)", () => {
  const cases = fromR.changes.map((given, index) => ({ name: `record ${index + 1}`, ...given }));
  test("there are records with a change and without", () => {
    const told = cases.filter((given) => given.told !== null).length;
    expect(told).toBeGreaterThan(15);
    expect(cases.length - told).toBeGreaterThan(10);
  });

  test.each(cases)("$name, each start on its own", ({ caught, attempts, chance, starts, told }) => {
    const days = daysOf(caught, attempts, 3);
    const look = lookForChange(days);
    near(look.chance, chance, 1e-8);
    expect(look.starts[0]).toBe(0);
    starts.forEach((start, index) => near(look.starts[index + 1], start, 1e-8));
    const change = changeDay(days);
    if (told === null) {
      expect(change).toMatchObject({ change: "none seen", told: undefined });
      near(change.chance, chance, 1e-8);
      return;
    }
    const dayAt = (place: number) => FIRST + 3 * (place - 1);
    expect(change.change).toBe(told.after < told.before ? "slid" : "risen");
    expect(change.told).toMatchObject({
      since: dayAt(told.since),
      earliest: dayAt(told.earliest),
      latest: dayAt(told.latest),
    });
    near(change.chance, told.chance, 1e-8);
    near(change.told?.before.rate, told.before, 1e-12);
    near(change.told?.after.rate, told.after, 1e-12);
  });

  test.each(fromR.integrals)("the weights are integrals over the rate: %#", ({ caught, attempts, chance, starts }) => {
    const look = lookForChange(daysOf(caught, attempts));
    near(look.chance, chance, 1e-9);
    starts.forEach((start, index) => near(look.starts[index + 1], start, 1e-9));
  });
});

test("by hand: c, c, d on three days. Two catches weigh 3/8, one of two 1/8, two of three 1/16; so 2/3 that it changed, 3/4 of it on day 3", () => {
  const look = lookForChange(daysOf([1, 1, 0], [1, 1, 1]));
  expect(look.chance).toBeCloseTo(2 / 3, 13);
  expect([...look.starts]).toEqual([0, expect.closeTo(1 / 4, 13), expect.closeTo(3 / 4, 13)]);
  expect(look.likeliest).toBe(2);
});

describe("coal-mining explosions 1851 to 1962 (Jarrett 1979, data of R's package boot), a day as one attempt", () => {
  const [coal] = fromR.coal as [(typeof fromR.coal)[number]];
  const days = Array.from({ length: coal.events.at(-1) ?? 0 }, (_, day) => ({ date: day + 1, caught: 0, attempts: 1 }));
  for (const event of coal.events) {
    const day = days[event - 1];
    if (day) day.caught += 1;
  }
  for (const day of days) day.attempts = Math.max(1, day.caught);
  const look = lookForChange(days);

  test("likeliest day 10 March 1890: Raftery and Akman 1986, Biometrika 73:85-89 (from memory, reproduced to two days)", () => {
    // The first explosion, day 1, was on 15 March 1851.
    const published = (Date.UTC(1890, 2, 10) - Date.UTC(1851, 2, 15)) / 86_400_000 + 1;
    near(look.likeliest + 1, published, 2);
    expect(look.chance).toBeGreaterThan(0.999999999);
  });

  test("the whole posterior as R has it", () => {
    const sums = look.starts.map(
      (
        (sum) => (start: number) =>
          (sum += start)
      )(0),
    );
    const point = (share: number) => sums.findIndex((sum) => sum >= share) + 1;
    expect([look.likeliest + 1, point(0.05), point(0.5), point(0.95)]).toEqual([
      coal.mode,
      coal.early,
      coal.median,
      coal.late,
    ]);
    near(Math.log(look.chance / (1 - look.chance)), coal.logOdds, 0.01);
  });

  test("by years: looked at again from there on nothing else is seen in what follows", () => {
    const years = Array.from({ length: 111 }, (_, year) => {
      const caught = coal.events.filter((event) => Math.floor((event - 1) / 365.2425) === year).length;
      return { date: 1851 + year, caught, attempts: 365 };
    });
    const change = changeDay(years);
    expect(change.change).toBe("slid");
    expect(change.told?.since).toBeGreaterThanOrEqual(1889);
    expect(change.told?.since).toBeLessThanOrEqual(1891);
    expect(lookForChange(years.slice((change.told?.since ?? NaN) - 1851)).chance).toBeLessThan(0.9);
  });
});

describe("looked at again", () => {
  test("a slide and what came after it: the latest change is told, before it the stretch between the two", () => {
    const caught = [19, 18, 19, 20, 9, 8, 10, 9, 18, 19, 18, 20];
    const change = changeDay(daysOf(caught, new Array<number>(12).fill(20), 2));
    expect(change.change).toBe("risen");
    expect(change.told).toMatchObject({
      since: FIRST + 16,
      earliest: FIRST + 16,
      latest: FIRST + 16,
      before: { caught: 36, attempts: 80 },
      after: { caught: 75, attempts: 80 },
    });
    expect(change).toMatchObject({ days: 12, caught: 187, attempts: 240 });
  });

  test("two days are enough for another look", () => {
    const change = changeDay(daysOf([50, 48, 5, 30], [50, 50, 50, 50]));
    expect(change.change).toBe("risen");
    expect(change.told).toMatchObject({ since: FIRST + 3, before: { caught: 5, attempts: 50 } });
  });
});

describe("nothing to answer", () => {
  test.each([0, 1, 2])("%p practice days", (count) => {
    const days = daysOf([9, 9], [10, 10]).slice(0, count);
    expect(() => changeDay(days)).toThrow(Missing);
    expect(() => changeDay(days)).toThrow("Fewer than 3 practice days: a change can be told from the third on");
  });

  test("more practice days than anyone has", () => {
    const days = daysOf(new Array<number>(20_001).fill(1), new Array<number>(20_001).fill(1));
    expect(changeDay(days.slice(1)).change).toBe("none seen");
    expect(() => changeDay(days)).toThrow(Problem);
    expect(() => changeDay(days)).toThrow(
      "dates: found more than 20,000 practice days. Accepted: one trick's own days.",
    );
  });

  test("one day alone holds no change", () => {
    expect(lookForChange(daysOf([3], [9]))).toMatchObject({ chance: 0, likeliest: 0 });
  });
});

test("days from rows in any order, rows of one day together, empty rows left out", () => {
  const tallies = new DayTallies();
  tallies.add(46302, { caught: 3, attempts: 5 });
  tallies.add(46300, { caught: 1, attempts: 1 });
  tallies.add(46301, { caught: 0, attempts: 0 });
  tallies.add(46302, { caught: 4, attempts: 5 });
  tallies.add(46302, { caught: 1, attempts: 1 });
  expect(tallies.days()).toEqual([
    { date: 46300, caught: 1, attempts: 1 },
    { date: 46302, caught: 8, attempts: 11 },
  ]);
});

describe("properties", () => {
  const day = fc
    .integer({ min: 1, max: 40 })
    .chain((attempts) => fc.record({ caught: fc.integer({ min: 0, max: attempts }), attempts: fc.constant(attempts) }));
  const record = fc
    .array(day, { minLength: 3, maxLength: 25 })
    .map((days) => days.map((one, index) => ({ date: FIRST + 2 * index, ...one })));

  test("the starts add up to 1, the chance lies between 0 and 1, earliest ≤ since ≤ latest or the mode lies in a tail", () => {
    fc.assert(
      fc.property(record, (days) => {
        const look = lookForChange(days);
        near(
          look.starts.reduce((sum, start) => sum + start, 0),
          1,
          1e-9,
        );
        expect(look.chance).toBeGreaterThanOrEqual(0);
        expect(look.chance).toBeLessThanOrEqual(1);
        const { told } = changeDay(days);
        if (told) {
          expect(told.earliest).toBeLessThanOrEqual(told.latest);
          expect(told.before.attempts + told.after.attempts).toBeLessThanOrEqual(
            days.reduce((sum, { attempts }) => sum + attempts, 0),
          );
        }
      }),
      runs(200),
    );
  });

  test("later dates are told later by as much; catches for misses turns a slide into a rise; backwards is as likely", () => {
    fc.assert(
      fc.property(record, fc.integer({ min: 1, max: 2000 }), (days, shift) => {
        const here = changeDay(days);
        const later = changeDay(days.map((one) => ({ ...one, date: one.date + shift })));
        expect(later.told?.since).toBe(here.told && here.told.since + shift);
        expect(later.told?.earliest).toBe(here.told && here.told.earliest + shift);
        expect(later.chance).toBe(here.chance);
        const turned = changeDay(days.map((one) => ({ ...one, caught: one.attempts - one.caught })));
        expect(turned.told?.since).toBe(here.told?.since);
        expect(turned.change).toBe({ "none seen": "none seen", slid: "risen", risen: "slid" }[here.change]);
        const { chance, starts } = lookForChange(days);
        const back = lookForChange(days.map((one) => ({ ...one })).reverse());
        near(back.chance, chance, 1e-10);
        for (let place = 1; place < starts.length; place++) {
          near(back.starts[starts.length - place], starts[place] ?? NaN, 1e-9);
        }
      }),
      runs(150),
    );
  });

  test("a larger gap between two stretches is more clearly a change", () => {
    const chances = [18, 15, 12, 9, 6].map(
      (caught) => lookForChange(daysOf([18, 18, 18, caught, caught], [20, 20, 20, 20, 20])).chance,
    );
    expect(chances).toEqual([...chances].sort((one, other) => one - other));
    expect(chances[0]).toBeLessThan(0.2);
    expect(chances[4]).toBeGreaterThan(0.99);
  });
});

describe("in words", () => {
  test.each([
    [
      [19, 18, 19, 20, 9, 8, 10],
      /^Since 23 March 2026 45 % caught of 60, before that 95 % of 80: a slide and not just a bad day, with a chance of over 99 %\.$/,
    ],
    [
      [9, 8, 10, 9, 18, 19, 18],
      /^Since 23 March 2026 92 % caught of 60, before that 45 % of 80: a rise and not just a good day, with a chance of over 99 %\.$/,
    ],
    [
      [17, 18, 16, 17, 18, 17, 16],
      /^No change seen in 7 practice days: 85 % caught of 140; its ups and downs are what luck brings \(chance of a change \d+ %\)\.$/,
    ],
    [
      [19, 18, 19, 18, 16, 15, 16],
      /^No change seen in 7 practice days: 86 % caught of 140; not clear yet, log some more days \(chance of a change \d\d %\)\.$/,
    ],
    [
      [19, 19, 18, 16, 13, 12, 11],
      /^Since \d+ March 2026 \(between \d+ March 2026 and \d+ March 2026\) \d+ % caught of \d+, before that \d+ % of \d+: a slide/,
    ],
  ])("%p", (caught, words) => {
    expect(changeInWords(changeDay(daysOf(caught, new Array<number>(caught.length).fill(20))))).toMatch(words);
  });

  test("a chance is never told as 0 or 100 %", () => {
    const words = (chance: number) =>
      changeInWords({ change: "none seen", chance, days: 3, caught: 1, attempts: 3, told: undefined });
    expect(words(0.0049)).toContain("(chance of a change under 1 %)");
    expect(words(0.005)).toContain("(chance of a change 1 %)");
    expect(words(0.994)).toContain("(chance of a change 99 %)");
    expect(words(0.995)).toContain("(chance of a change over 99 %)");
    expect(words(0.24)).toContain("luck");
    expect(words(0.25)).toContain("not clear yet");
  });

  test("days as the 1900 system of sheets counts them (ECMA-376 part 1, 18.17.4.1: serial 1 is 1 January 1900, 2,958,465 is 31 December 9999)", () => {
    expect([1, 59, 61, 25569, 46100, 2958465].map(dayInWords)).toEqual([
      "1 January 1900",
      "28 February 1900",
      "1 March 1900",
      "1 January 1970",
      "19 March 2026",
      "31 December 9999",
    ]);
  });

  test("days as the language's own calendar has them (ECMA-262, time values are proleptic Gregorian)", () => {
    const inEnglish = new Intl.DateTimeFormat("en-GB", { dateStyle: "long", timeZone: "UTC" });
    for (let serial = 61; serial <= 2958465; serial += serial < 1600 ? 1 : 997) {
      const found = dayInWords(serial);
      const expected = inEnglish.format((serial - 25569) * 86_400_000);
      if (found !== expected) expect({ serial, found }).toEqual({ serial, found: expected });
    }
  });
});
