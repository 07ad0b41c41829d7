import { french } from "../../../src/taskpane/words/french";
import { english, speak } from "../../../src/taskpane/words/texts";
import {
  dayOrder,
  numberedDayTyped,
  pastedNoDays,
  typedDay,
  wholeDayTyped,
} from "../../../src/taskpane/words/typed-day";

const now = new Date(2026, 10, 29, 12);
/** 13 October 2026: 1 January 2026 is 46023, and 285 days later. */
const TUESDAY = 46_308;

afterEach(() => speak(english));

// Orders as the CLDR has them (version 48, dates of the locales, format yMd), from memory: the month first in the United
// States alone of these.
test.each<[language: string, preferred: readonly string[], order: string]>([
  ["en", ["en-US", "fr"], "mdy"],
  ["en", ["en-GB"], "dmy"],
  ["en", ["fr-CA", "en-AU"], "dmy"],
  ["fr", ["en-US"], "dmy"],
  ["fr", ["fr-CA"], "dmy"],
  ["de", ["de-DE"], "dmy"],
  ["sv", ["sv-SE"], "dmy"],
  ["en", ["de-DE"], "mdy"],
  ["", [], "dmy"],
  ["nonsense_", ["?"], "dmy"],
])("a page in %p for somebody who prefers %p reads %s", (language, preferred, order) => {
  expect(dayOrder(language, preferred)).toBe(order);
});

test.each(["dmy", "mdy"] as const)("a day that is typed, %s", (order) => {
  expect(typedDay("Tue 13 Oct", { of: "log", order, now })).toEqual({ kind: "day", serial: TUESDAY });
});

test("the year that is left out is that of what the days are of", () => {
  const year = (of: "log" | "calendar" | "plan", text: string): number => {
    const read = typedDay(text, { of, order: "dmy", now });
    return read.kind === "day" ? new Date(Date.UTC(1899, 11, 30 + read.serial)).getUTCFullYear() : Number.NaN;
  };
  expect([year("log", "13 Mar"), year("calendar", "13 Mar"), year("plan", "13 Mar")]).toEqual([2026, 2027, 2027]);
  expect([year("log", "5 June"), year("calendar", "5 June"), year("plan", "5 June")]).toEqual([2026, 2026, 2027]);
});

test("what is no day is refused with today as an example, in the page's order", () => {
  expect(typedDay(" 10 ", { of: "log", order: "dmy", now })).toEqual({
    kind: "wrong",
    isNoDay: true,
    words: "“10” is not a day. Today, for example, can be typed as 29/11/2026, 29 Nov or 2026-11-29.",
  });
  expect(typedDay("10", { of: "log", order: "mdy", now })).toMatchObject({
    words: "“10” is not a day. Today, for example, can be typed as 11/29/2026, 29 Nov or 2026-11-29.",
  });
  expect(pastedNoDays(2, "A4, A7", "dmy", now)).toBe(
    "2 pasted cells are not days and stay as text: A4, A7. Today, for example, can be typed as 29/11/2026, 29 Nov or 2026-11-29.",
  );
});

test("each example is read as the day that it is of, in both languages", () => {
  for (const language of [english, french]) {
    speak(language);
    for (const order of ["dmy", "mdy"] as const) {
      const read = typedDay("soon", { of: "log", order, now });
      const words = read.kind === "wrong" ? read.words : "";
      const examples = /(?:typed as|s’écrire) (\S+), (.+) (?:or|ou) (\S+)\.$/.exec(words)?.slice(1) ?? [];
      expect(examples).toHaveLength(3);
      for (const example of examples) {
        expect(typedDay(example, { of: "log", order, now })).toEqual({ kind: "day", serial: TUESDAY + 47 });
      }
    }
  }
});

test("a day of the week that does not fit is told, not passed over", () => {
  expect(typedDay("Mon 13 Oct", { of: "log", order: "dmy", now })).toEqual({
    kind: "wrong",
    isNoDay: false,
    words: "13 Oct 2026 is a Tuesday. Correct the day or the day of the week, or leave the day of the week out.",
  });
});

test("a whole day is one with its year", () => {
  expect(["13 Oct 2026", "13/10/2026", "13 Oct", "10"].map((text) => wholeDayTyped(text, "mdy"))).toEqual([
    TUESDAY,
    TUESDAY,
    null,
    null,
  ]);
});

test.each<[text: string, order: "dmy" | "mdy", pattern: string | null]>([
  ["13/10/2026", "dmy", "dd/mm/yyyy"],
  ["13/10/2026", "mdy", "dd/mm/yyyy"],
  ["10.13.2026", "dmy", "mm.dd.yyyy"],
  ["2026-10-13", "mdy", "yyyy-mm-dd"],
  ["8/10", "dmy", null],
  ["13 Oct 2026", "dmy", null],
])("%p, %s first, is shown as %p", (text, order, pattern) => {
  expect(numberedDayTyped(text, order)).toEqual(pattern === null ? null : { serial: TUESDAY, pattern });
});
