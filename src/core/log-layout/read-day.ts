/** One day as somebody types it, read as a sheet counts days. */
import { fullYear, isDay, numberedDay, type DateOrder } from "./date-text";
import { isDayParticle, monthsNamed, weekdaysNamed } from "./day-words";
import { plainWords } from "./plain-words";
import { dateOfSerial, serialOfDate } from "./serial-days";

export interface DayReading {
  /** Which of two numbers is the day where both could be: 3/4/2026. One that reads one way only is read that way. */
  readonly order: Exclude<DateOrder, "ymd">;
  /** The sheet serial of today. */
  readonly today: number;
  /**
   * Where the year is left out, it is the last such day that is at the most this many days ahead: a log is of what has
   * been, and a list of contests is of what has been and what comes.
   */
  readonly daysAhead: number;
}

/** A log's days: somebody whose clock is wrong, or who writes tomorrow's practice down today, still gets this year. */
export const LOGGED_DAYS_AHEAD = 31;
/** Half a year: the nearest such day, whether it has been or comes. */
export const NEAREST_DAYS_AHEAD = 182;
/** The next such day. */
export const COMING_DAYS_AHEAD = 364;

export interface ReadDay {
  /** Sheet serial: 1 January 2026 is 46023. */
  readonly serial: number;
  /** Whether the year was written, and not found. */
  readonly saysYear: boolean;
  /** False where a day of the week is written and that day is another one. */
  readonly weekdayFits: boolean;
}

interface Parts {
  readonly year: number | undefined;
  /** From 1. */
  readonly month: number;
  readonly day: number;
}

/**
 * Reads `13/10/2026`, `14.10.2026`, `2026-10-13`, `13/10`, `13 Oct`, `13 oct. 2026`, `October 13th`, `Tue 13 Oct`; names in the
 * seven languages of `day-words.ts`. Null for everything else, a lone number among it: nobody types a day as a serial.
 */
export function readDay(text: string, reading: DayReading): ReadDay | null {
  const plain = text.trim().replace(/\p{Pd}/gu, "-");
  if (plain.length > LONGEST || !/\d/.test(plain)) return null;
  const weekday = /^(\p{L}[\p{L}\p{M}]+)[.,]?\s+(\d.*)$/u.exec(plain);
  const named = weekday?.[1] === undefined ? [] : weekdaysNamed(plainWords(weekday[1]).join(""));
  const numbers = numbered(named.length > 0 ? (weekday?.[2] ?? "") : plain, reading.order);
  if (numbers !== null) return dayOf(numbers, named, reading);
  const inWords = worded(plain);
  return inWords === null ? null : dayOf(inWords.parts, inWords.weekdays, reading);
}

const LONGEST = 40;

/** `13/10/2026`, and `13/10`, `13.10.` where the year is left out. */
function numbered(text: string, order: DayReading["order"]): Parts | null {
  const full = numberedDay(text);
  if (full !== null) {
    const read = full.orders.includes(order) ? order : full.orders[0];
    const [first, second, third] = full.parts;
    if (read === "ymd") return { year: first, month: second, day: third };
    const [day, month] = read === "dmy" ? [first, second] : [second, first];
    return { year: fullYear(third), month, day };
  }
  const short = /^(\d{1,2})\s?[./-]\s?(\d{1,2})\.?$/.exec(text);
  if (short === null) return null;
  const [first, second] = [Number(short[1]), Number(short[2])];
  const [dayFirst, monthFirst] = [
    { year: undefined, month: second, day: first },
    { year: undefined, month: first, day: second },
  ];
  const [wanted, other] = order === "dmy" ? [dayFirst, monthFirst] : [monthFirst, dayFirst];
  return [wanted, other].find(({ month, day }) => isDay(LEAP_YEAR, month, day)) ?? null;
}

/** Has a 29 February. */
const LEAP_YEAR = 2028;

/** The signs that are written with a day: `Tue, 13-Oct-'26`. */
const WRITES_DAYS = /^[\p{L}\p{M}\d\s.,'’/-]+$/u;
/** A sign before a number or inside one is none of them: -13 Oct, 13.5 Oct. */
const SIGNED = /(^|\s)[.,/-]\d|\d[.,'’/-]+\d/;

/** A month by its name, the day, and at will the year and a day of the week. */
function worded(text: string): { readonly parts: Parts; readonly weekdays: readonly number[] } | null {
  if (!WRITES_DAYS.test(text) || SIGNED.test(text)) return null;
  const words = plainWords(text).filter((word) => !isDayParticle(word));
  const letters = words.filter((word) => !/\d/.test(word));
  const monthWord = monthAmong(letters);
  const others = letters.filter((word) => word !== monthWord);
  const [month, twice] = monthWord === undefined ? [] : monthsNamed(monthWord);
  if (month === undefined || twice !== undefined || others.length > 1) return null;
  const weekdays = others.flatMap((word) => weekdaysNamed(word));
  if (others.length > 0 && weekdays.length === 0) return null;
  const numbers = words.filter((word) => /^\d+$/.test(word));
  const [first = "", second] = numbers;
  if (numbers.length > 2 || first === "") return null;
  // The year is the one of four digits; else the day comes first.
  const [day, year] = first.length === 4 ? [second, first] : [first, second];
  if (day === undefined || day.length > 2 || (year !== undefined && year.length !== 2 && year.length !== 4))
    return null;
  return {
    parts: { year: year === undefined ? undefined : fullYear(Number(year)), month: month + 1, day: Number(day) },
    weekdays,
  };
}

/** `mar` is a month, and a day of the week where another word names the month. */
function monthAmong(words: readonly string[]): string | undefined {
  const named = words.filter((word) => monthsNamed(word).length > 0);
  return named.length > 1 ? named.find((word) => weekdaysNamed(word).length === 0) : named[0];
}

function dayOf(
  { year, month, day }: Parts,
  weekdays: readonly number[],
  { today, daysAhead }: DayReading,
): ReadDay | null {
  const serial = year === undefined ? latest(month, day, today + daysAhead) : serialOf(year, month, day);
  if (serial === null) return null;
  return {
    serial,
    saysYear: year !== undefined,
    weekdayFits: weekdays.length === 0 || weekdays.includes(weekdayOf(serial)),
  };
}

/** The last such day up to the last one that may be meant. */
function latest(month: number, day: number, last: number): number | null {
  const lastYear = dateOfSerial(last).getUTCFullYear();
  for (let year = lastYear; year > lastYear - YEARS_TO_TRY; year -= 1) {
    const serial = serialOf(year, month, day);
    if (serial !== null && serial <= last) return serial;
  }
  return null;
}

/** A 29 February that is still to come was last four years before. */
const YEARS_TO_TRY = 5;

function serialOf(year: number, month: number, day: number): number | null {
  return isDay(year, month, day) ? serialOfDate(year, month, day) : null;
}

function weekdayOf(serial: number): number {
  return dateOfSerial(serial).getUTCDay();
}
