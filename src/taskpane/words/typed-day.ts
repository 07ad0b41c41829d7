/**
 * Days that somebody types, into a field of the pane or into a cell of the try-out page: one reader, one order, one way to
 * say how a day is typed.
 */
import { isDateFormat } from "../../core/log-layout/cell-block";
import { numberedDay } from "../../core/log-layout/date-text";
import {
  COMING_DAYS_AHEAD,
  type DayReading,
  LOGGED_DAYS_AHEAD,
  NEAREST_DAYS_AHEAD,
  type ReadDay,
  readDay,
} from "../../core/log-layout/read-day";
import { dayInShort, dayInWords, serialOfDay, weekdayInWords } from "./day";
import { texts } from "./texts";

export type DayOrder = DayReading["order"];

/** Whether a number format shows a day. */
export const showsDay = isDateFormat;

/**
 * What the days are of, for a year that is left out: a log's have been, a list of contests has both, and what is planned
 * anew comes.
 */
type DaysOf = "log" | "calendar" | "plan";

const daysAhead: Readonly<Record<DaysOf, number>> = {
  log: LOGGED_DAYS_AHEAD,
  calendar: NEAREST_DAYS_AHEAD,
  plan: COMING_DAYS_AHEAD,
};

interface TypedDayOptions {
  readonly of: DaysOf;
  readonly order?: DayOrder;
  readonly now?: Date;
}

/** The sheet serial of a typed day, or what is wrong with it and how a day is typed. */
export type TypedDay =
  | { readonly kind: "day"; readonly serial: number }
  /** `isNoDay`: it says no day at all; else it says one twice, and not the same. */
  | { readonly kind: "wrong"; readonly words: string; readonly isNoDay: boolean };

export function typedDay(text: string, { of, order = dayOrder(), now = new Date() }: TypedDayOptions): TypedDay {
  const read = readDay(text, { order, today: serialOfDay(now), daysAhead: daysAhead[of] });
  if (read?.weekdayFits === true) return { kind: "day", serial: read.serial };
  return { kind: "wrong", words: whyNoDay(text, read, order, now), isNoDay: read === null };
}

/** The sheet serial of a day that is typed with its year, in words or numbers; null for anything else. */
export function wholeDayTyped(text: string, order: DayOrder = dayOrder()): number | null {
  const read = readDay(text, { order, today: 0, daysAhead: 0 });
  return read?.saysYear === true && read.weekdayFits ? read.serial : null;
}

/** A day in numbers with its year, and the number format that shows it as it was typed; null for anything else. */
export function numberedDayTyped(
  text: string,
  order: DayOrder = dayOrder(),
): { readonly serial: number; readonly pattern: string } | null {
  const numbers = numberedDay(text);
  const read = numbers === null ? null : readDay(text, { order, today: 0, daysAhead: 0 });
  if (numbers === null || read === null) return null;
  const dayFirst = numbers.orders.includes(order) ? order === "dmy" : order === "mdy";
  const parts = numbers.orders.includes("ymd") ? "yyyy mm dd" : dayFirst ? "dd mm yyyy" : "mm dd yyyy";
  return { serial: read.serial, pattern: parts.replaceAll(" ", numbers.separator) };
}

/**
 * Whether the day or the month comes first, by the page's language and the region that the browser adds to it: the month
 * in American English, the day nearly everywhere else. Where the year comes first, so does the day in what is typed short.
 * @param language of the document, such as `en`
 * @param preferred the browser's languages, such as `en-US`, the dearest first
 */
export function dayOrder(
  language = typeof document === "undefined" ? "" : document.documentElement.lang,
  preferred: readonly string[] = typeof navigator === "undefined" ? [] : navigator.languages,
): DayOrder {
  const spoken = language.split("-")[0];
  const region = preferred.find((one) => one.split("-")[0] === spoken);
  const parts = partsOfDay([region ?? language, language, "en-GB"]);
  const place = (type: string): number => parts.findIndex((part) => part.type === type);
  return place("month") < place("day") && place("day") < place("year") ? "mdy" : "dmy";
}

/** In the first of these languages that the browser knows. */
function partsOfDay(locales: readonly string[]): readonly Intl.DateTimeFormatPart[] {
  for (const locale of locales) {
    try {
      return new Intl.DateTimeFormat(locale, { day: "numeric", month: "numeric", year: "numeric" }).formatToParts(0);
    } catch {
      // An empty or broken code.
      continue;
    }
  }
  return [];
}

function whyNoDay(typed: string, read: ReadDay | null, order: DayOrder, now: Date): string {
  if (read !== null) return texts.otherWeekday(dayInWords(read.serial), weekdayInWords(read.serial));
  return `${texts.notADay(typed.trim())} ${todayAsExample(order, now)}`;
}

/** A sentence for cells that were to hold days and hold something else: they stay as they are. */
export function pastedNoDays(count: number, cells: string, order: DayOrder, now: Date): string {
  return `${texts.pastedNoDays(count, cells)} ${todayAsExample(order, now)}`;
}

/** Three ways to type today, such as 29/11/2026, 29 Nov or 2026-11-29. */
function todayAsExample(order: DayOrder, now: Date): string {
  const [day, month] = [now.getDate(), now.getMonth() + 1].map((part) => String(part).padStart(2, "0")) as [
    string,
    string,
  ];
  const year = String(now.getFullYear());
  const numbers = order === "dmy" ? `${day}/${month}/${year}` : `${month}/${day}/${year}`;
  return texts.dayExample(numbers, dayInShort(serialOfDay(now)), `${year}-${month}-${day}`);
}
