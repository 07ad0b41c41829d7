/** Days as they are typed. Days of the week and serials from the calendar of `Date`; the ways to write them are common practice. */
import {
  COMING_DAYS_AHEAD,
  LOGGED_DAYS_AHEAD,
  NEAREST_DAYS_AHEAD,
  readDay,
  type DayReading,
} from "../../../src/core/log-layout/read-day";

/** The sheet serial of a day, by another way than the reader's. */
function serial(day: string): number {
  return Math.round((Date.parse(`${day}T00:00:00Z`) - Date.parse("1899-12-30T00:00:00Z")) / 86_400_000);
}

const TODAY = "2026-11-29";
const reading = (order: DayReading["order"], today = TODAY, daysAhead = LOGGED_DAYS_AHEAD): DayReading => ({
  order,
  today: serial(today),
  daysAhead,
});
const read = (text: string, as: DayReading): string | null => {
  const day = readDay(text, as);
  return day === null
    ? null
    : new Date(Date.parse("1899-12-30T00:00:00Z") + day.serial * 86_400_000).toISOString().slice(0, 10);
};

test("counts days as sheets do", () => {
  expect(readDay("2026-01-01", reading("dmy"))?.serial).toBe(46023);
});

describe("the same day in either order", () => {
  test.each<[typed: string, day: string]>([
    ["13/10/2026", "2026-10-13"],
    ["10/13/2026", "2026-10-13"],
    ["13.10.2026", "2026-10-13"],
    ["13-10-26", "2026-10-13"],
    ["13\u201110\u20112026", "2026-10-13"],
    [" 2026-10-13 ", "2026-10-13"],
    ["2026/10/13", "2026-10-13"],
    ["13 Oct", "2026-10-13"],
    ["13 oct. 2026", "2026-10-13"],
    ["Oct 13, 2026", "2026-10-13"],
    ["13-Oct-26", "2026-10-13"],
    ["13 Oct '26", "2026-10-13"],
    ["2026 Oct 13", "2026-10-13"],
    ["October 13th", "2026-10-13"],
    ["the 13th of October", "2026-10-13"],
    ["Tue 13 Oct", "2026-10-13"],
    ["Tue, 13/10/2026", "2026-10-13"],
    ["13/10", "2026-10-13"],
    ["13.10.", "2026-10-13"],
    ["mar. 13 oct.", "2026-10-13"],
    ["mardi 13 octobre 2026", "2026-10-13"],
    ["1er août 2026", "2026-08-01"],
    ["13 de octubre de 2026", "2026-10-13"],
    ["terça-feira, 13 de outubro", "2026-10-13"],
    ["13. März 2026", "2026-03-13"],
    ["Di 13. Oktober", "2026-10-13"],
    ["dinsdag 13 oktober", "2026-10-13"],
    ["martedì 13 ottobre", "2026-10-13"],
    ["29 Feb 2028", "2028-02-29"],
  ])("%p is %s", (typed, day) => {
    expect([read(typed, reading("dmy")), read(typed, reading("mdy"))]).toEqual([day, day]);
    expect(readDay(typed, reading("dmy"))?.weekdayFits).toBe(true);
  });
});

describe("a day that reads both ways", () => {
  test.each<[typed: string, dayFirst: string, monthFirst: string]>([
    ["03/04/2026", "2026-04-03", "2026-03-04"],
    ["3.4.26", "2026-04-03", "2026-03-04"],
    ["5/6", "2026-06-05", "2026-05-06"],
    ["Fri 3/4/2026", "2026-04-03", "2026-03-04"],
  ])("%p is %s where the day comes first and %s where the month does", (typed, dayFirst, monthFirst) => {
    expect([read(typed, reading("dmy")), read(typed, reading("mdy"))]).toEqual([dayFirst, monthFirst]);
  });
});

describe("a year that is left out", () => {
  test.each<[typed: string, today: string, daysAhead: number, day: string, because: string]>([
    ["13 Oct", "2026-11-29", LOGGED_DAYS_AHEAD, "2026-10-13", "it has been this year"],
    ["30 Nov", "2026-11-29", LOGGED_DAYS_AHEAD, "2026-11-30", "tomorrow's practice may be written down"],
    ["2 Jan", "2026-12-20", LOGGED_DAYS_AHEAD, "2027-01-02", "two weeks ahead"],
    ["13 Mar", "2026-11-29", LOGGED_DAYS_AHEAD, "2026-03-13", "a log holds no day of next spring"],
    ["28 Dec", "2027-01-10", LOGGED_DAYS_AHEAD, "2026-12-28", "two weeks ago"],
    [
      "13 Mar",
      "2026-11-29",
      NEAREST_DAYS_AHEAD,
      "2027-03-13",
      "a contest in three and a half months is the nearer one",
    ],
    ["13 Oct", "2026-11-29", NEAREST_DAYS_AHEAD, "2026-10-13", "a contest six weeks ago is the nearer one"],
    ["5 June", "2026-11-29", COMING_DAYS_AHEAD, "2027-06-05", "the contest that a season works towards comes"],
    ["29 Feb", "2027-06-01", LOGGED_DAYS_AHEAD, "2024-02-29", "no other year had one"],
    ["29 Feb", "2028-01-01", LOGGED_DAYS_AHEAD, "2024-02-29", "the next one is two months ahead"],
  ])("%p on %s, %d days ahead, is %s: %s", (typed, today, daysAhead, day) => {
    expect(read(typed, reading("dmy", today, daysAhead))).toBe(day);
    expect(readDay(typed, reading("dmy", today, daysAhead))?.saysYear).toBe(false);
  });
});

test.each(["Mon 13 Oct", "lundi 13/10/2026", "Wed, October 13"])(
  "the day of the week of %p is another one",
  (typed) => {
    expect(readDay(typed, reading("dmy"))).toMatchObject({ serial: serial("2026-10-13"), weekdayFits: false });
  },
);

test.each([
  "10",
  "46308",
  "20261013",
  "2026",
  "10,5",
  "",
  "soon",
  "October",
  "Oct 2026",
  "32 Oct",
  "31/9",
  "29 Feb 2026",
  "13/13/2026",
  "13/10/1926",
  "-13 Oct",
  "13.5 Oct",
  "13 Oct 2026 18:30",
  "8/10 Oct",
  "13 jui",
  "13 Octopus",
  "Marble 13",
  "Lea 13 Oct",
  "Tue Wed 13 Oct",
  "13 14 Oct 2026",
  "ccdcc ccccd",
  "1".repeat(60),
])("%p is no day", (typed) => {
  expect([readDay(typed, reading("dmy")), readDay(typed, reading("mdy"))]).toEqual([null, null]);
});
