import { dateTextsOf, isDayInForm, numberedDay, saysDay } from "../../../src/core/log-layout/date-text";

test.each<[text: string, orders: readonly string[]]>([
  ["2026-03-12", ["ymd"]],
  ["2026/3/5", ["ymd"]],
  ["12.03.2026", ["dmy", "mdy"]],
  ["13.03.2026", ["dmy"]],
  ["3/14/26", ["mdy"]],
  [" 5 / 5 / 2026 ", ["dmy", "mdy"]],
  ["29.2.2028", ["dmy"]],
])("%p is a day in the orders %p", (text, orders) => {
  expect(numberedDay(text)?.orders).toEqual(orders);
});

test.each(["8/10", "29.2.2026", "31/31/2026", "2026-13-01", "12.03/2026", "12.03.1926", "c", "", "12.3.", "1.2.345"])(
  "%p is no day",
  (text) => {
    expect(numberedDay(text)).toBeNull();
  },
);

test.each([
  "12 March 2026",
  "12. März",
  "Mar 12, 2026",
  "12 de agosto",
  "2 août",
  "Tue 12/03/2026",
  "12.3.",
  "1.2.2026",
])("%p says a day", (text) => {
  expect(saysDay(text)).toBe(true);
});

test.each(["8/10", "ccdcc", "March", "M.K.", "Double turn 2", "360", "Thumb flip 3"])("%p says no day", (text) => {
  expect(saysDay(text)).toBe(false);
});

describe("the form of a column", () => {
  test("is told by one day that reads one way only", () => {
    expect(dateTextsOf(["3/4/2026", "25/4/2026", "soon"])).toEqual({
      count: 3,
      forms: [{ order: "dmy", separator: "/" }],
      readTwoWays: 1,
    });
  });

  test("stays open where every day reads both ways, and the same day both ways tells nothing", () => {
    expect(dateTextsOf(["3.4.2026", "5.5.2026"])).toEqual({
      count: 2,
      forms: [
        { order: "dmy", separator: "." },
        { order: "mdy", separator: "." },
      ],
      readTwoWays: 1,
    });
  });

  test("a day of another form is not read", () => {
    const form = { order: "dmy", separator: "." } as const;
    expect(["1.2.2026", "14.1.26", "1/2/2026", "2026.2.1", "1.14.2026"].map((text) => isDayInForm(text, form))).toEqual(
      [true, true, false, false, false],
    );
  });
});
