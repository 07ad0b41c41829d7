/**
 * Days written as text. The cell functions take real dates only, so a log with such days needs them read: but 3/4/2026
 * is two different days in two countries, and nothing is read that can be read in two ways.
 */
import { monthsNamed } from "./day-words";
import { plainWords } from "./plain-words";
import { serialOfDate } from "./serial-days";

/** `y` year, `m` month, `d` day, in the order in which they stand. */
export type DateOrder = "ymd" | "dmy" | "mdy";

/** A club's way to write days as text: `12.3.2026` is `{ order: "dmy", separator: "." }`. */
export interface DateTextForm {
  readonly order: DateOrder;
  readonly separator: string;
}

/** Three numbers with one separator; the year has two or four digits. */
interface NumberedDay {
  readonly parts: readonly [number, number, number];
  readonly separator: string;
  /** The orders in which this is a day of the calendar. */
  readonly orders: readonly DateOrder[];
}

const NUMBERED = /^\s*(\d{1,4})\s*([./-])\s*(\d{1,2})\s*\2\s*(\d{1,4})\.?\s*$/;

/** Reads `12.3.2026`, `2026-03-12`, `3/12/26`; null for anything else, also for a day with a weekday before it. */
export function numberedDay(text: string): NumberedDay | null {
  const found = NUMBERED.exec(text);
  if (!found) return null;
  const [, first = "", separator = "", second = "", third = ""] = found;
  const parts = [Number(first), Number(second), Number(third)] as const;
  const orders: DateOrder[] = [];
  if (first.length === 4) {
    if (isDay(parts[0], parts[1], parts[2])) orders.push("ymd");
  } else if (first.length <= 2 && (third.length === 4 || third.length === 2)) {
    const year = fullYear(parts[2]);
    if (isDay(year, parts[1], parts[0])) orders.push("dmy");
    if (isDay(year, parts[0], parts[1])) orders.push("mdy");
  }
  return orders.length > 0 ? { parts, separator, orders } : null;
}

/** Whether a text is a day in the club's own form, as the board's formula reads it. */
export function isDayInForm(text: string, form: DateTextForm): boolean {
  const day = numberedDay(text);
  return day !== null && day.separator === form.separator && day.orders.includes(form.order);
}

/** The sheet's number of a day written in the club's own form; null for any other text. */
export function dayInForm(text: string, form: DateTextForm): number | null {
  const day = numberedDay(text);
  if (day === null || day.separator !== form.separator || !day.orders.includes(form.order)) return null;
  const part = (letter: string): number => day.parts[form.order.indexOf(letter)] ?? 0;
  return serialOfDate(fullYear(part("y")), part("m"), part("d"));
}

/** The year that two digits stand for; four stay what they are. */
export function fullYear(year: number): number {
  return year < 100 ? 2000 + year : year;
}

/** The years that a practice log can hold. */
const EARLIEST_YEAR = 1980;
const LATEST_YEAR = 2079;

/** Whether there is such a day, in the years that a practice log can hold. */
export function isDay(year: number, month: number, day: number): boolean {
  if (year < EARLIEST_YEAR || year > LATEST_YEAR || month < 1 || month > 12 || day < 1) return false;
  // Day 0 of the month after is the last one of this.
  return day <= new Date(Date.UTC(year, month, 0)).getUTCDate();
}

/** A time of day behind a day: `2026-09-07T17:30:00Z`, `7/9/2026 17:30`. */
const TIME_BEHIND = /(?<=\d)[T,\s]\s*\d{1,2}:\d{2}(?::\d{2}(?:\.\d+)?)?\s*(?:Z|[+-]\d{2}:?\d{2}|[ap]\.?m\.?)?\s*$/iu;

/** Whether a text says a day in any way: numbers, the month's name, a weekday before it, the year left out. */
export function saysDay(written: string): boolean {
  if (written.length > 40 || !/\d/.test(written)) return false;
  const text = written.replace(TIME_BEHIND, "");
  if (numberedDay(text) !== null) return true;
  const words = plainWords(text);
  const numbers = words.filter((word) => /^\d+$/.test(word));
  const letters = words.filter((word) => !/\d/.test(word));
  if (letters.some((word) => monthsNamed(word).length > 0)) {
    return (
      numbers.length >= 1 && numbers.length <= 2 && numbers.some((word) => Number(word) >= 1 && Number(word) <= 31)
    );
  }
  // A weekday before the numbers: Tue 12/03/2026.
  const rest = /^\p{L}+[.,]?\s+(.*)$/u.exec(text.trim());
  if (rest?.[1] !== undefined && numberedDay(rest[1]) !== null) return true;
  // 12.3. without a year, as it is written where dots are used; 8/10 is a tally and no day.
  return /^\s*\d{1,2}\.\s?\d{1,2}\.\s*$/.test(text);
}

/** How the days that are written as text in a column can be read. */
export interface DateTexts {
  readonly count: number;
  /** The forms in which every one of them reads as a day: none, one, or two where nothing tells which is meant. */
  readonly forms: readonly DateTextForm[];
  /** How many read as two different days, taken alone. */
  readonly readTwoWays: number;
}

const ORDERS: readonly DateOrder[] = ["ymd", "dmy", "mdy"];

/**
 * The forms that fit the most of a column's texts; a text in another form stays unreadable.
 * @param texts those that say a day
 */
export function dateTextsOf(texts: readonly string[]): DateTexts {
  const fits = new Map<string, { readonly form: DateTextForm; count: number }>();
  let readTwoWays = 0;
  for (const text of texts) {
    const day = numberedDay(text);
    if (!day) continue;
    // 5/5/2026 is the same day both ways.
    if (day.orders.length > 1 && day.parts[0] !== day.parts[1]) readTwoWays += 1;
    for (const order of day.orders) {
      const key = order + day.separator;
      const known = fits.get(key);
      if (known) known.count += 1;
      else fits.set(key, { form: { order, separator: day.separator }, count: 1 });
    }
  }
  const most = Math.max(0, ...[...fits.values()].map(({ count }) => count));
  const forms = [...fits.values()].filter(({ count }) => count === most).map(({ form }) => form);
  forms.sort((one, other) => ORDERS.indexOf(one.order) - ORDERS.indexOf(other.order));
  return { count: texts.length, forms, readTwoWays };
}
