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
  /** A time of day stands behind the day, and is left out. */
  readonly timed?: true;
  /** The month is a word: where among the text's words the year, the month and the day stand, counted from 0. */
  readonly places?: readonly [year: number, month: number, day: number];
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
  return dayInForm(text, form) !== null;
}

/** The sheet's number of a day written in the club's own form; null for any other text. */
export function dayInForm(text: string, form: DateTextForm): number | null {
  if (form.places) return wordedDay(dayWords(text), form.places);
  const day = numberedDay(form.timed ? beforeTime(text) : text);
  if (day === null || day.separator !== form.separator || !day.orders.includes(form.order)) return null;
  const part = (letter: string): number => day.parts[form.order.indexOf(letter)] ?? 0;
  return serialOfDate(fullYear(part("y")), part("m"), part("d"));
}

/** What stands before the time of day: up to the first space, or the letter between the two. */
const beforeTime = (text: string): string => text.trim().replace(/T/gi, " ").split(" ")[0] ?? "";

/**
 * The first three letters of each month in the seven languages, with its number; of French `juillet` four, since June
 * begins with the same three. The board's formula looks in this list too.
 */
export const MONTH_STARTS =
  "|jan01|ene01|gen01|feb02|fév02|fev02|mar03|mär03|mrz03|mae03|mrt03|maa03|apr04|avr04|abr04|may05|mai05|mag05|mei05" +
  "|jun06|jui06|giu06|jul07|lug07|aug08|aoû08|aou08|ago08|sep09|set09|oct10|okt10|ott10|out10|nov11|dec12|déc12|dez12|dic12|";
export const JULY_START = "juil";
/** Characters between the words of a day. */
export const BETWEEN_DAY_WORDS = [",", ".", "-", "/"] as const;

function dayWords(text: string): readonly string[] {
  return text
    .replace(/[,./-]/g, " ")
    .trim()
    .split(/ +/);
}

function monthOf(word: string): number | null {
  const plain = word.toLowerCase();
  if (plain.startsWith(JULY_START)) return 7;
  const at = plain.length < 3 ? -1 : MONTH_STARTS.indexOf(`|${plain.slice(0, 3)}`);
  return at < 0 ? null : Number(MONTH_STARTS.slice(at + 4, at + 6));
}

function wordedDay(
  words: readonly string[],
  [yearAt, monthAt, dayAt]: readonly [number, number, number],
): number | null {
  const [year = "", month = "", day = ""] = [words[yearAt], words[monthAt], words[dayAt]];
  const number = monthOf(month);
  if (!/^\d{4}$/.test(year) || !/^\d{1,2}$/.test(day) || number === null) return null;
  return isDay(Number(year), number, Number(day)) ? serialOfDate(Number(year), number, Number(day)) : null;
}

/** A day with its month in words, the year in four digits: `Mon 7 Sep 2026`, `7 de septiembre de 2026`. */
function wordedForm(text: string): DateTextForm | null {
  const words = dayWords(text);
  const yearAt = words.findIndex((word) => /^\d{4}$/.test(word));
  const dayAt = words.findIndex((word) => /^\d{1,2}$/.test(word));
  // A weekday may begin like a month: the month stands beside the day, or a small word further.
  const months = words.flatMap((word, at) => (at !== 0 || words.length === 3) && monthsNamed(plainWords(word).join("")).length > 0 && monthOf(word) !== null ? [at] : []); // prettier-ignore
  const [monthAt] = months;
  if (yearAt < 0 || dayAt < 0 || monthAt === undefined || months.length !== 1 || words.length > MOST_DAY_WORDS)
    return null;
  const order = yearAt < dayAt ? "ymd" : dayAt < monthAt ? "dmy" : "mdy";
  return { order, separator: " ", places: [yearAt, monthAt, dayAt] };
}

const MOST_DAY_WORDS = 6;

/** The forms in which a text is a day. */
function formsOf(text: string): { readonly forms: readonly DateTextForm[]; readonly isTwoDays: boolean } {
  const plain = numberedDay(text);
  const timed = plain === null && TIME_BEHIND.test(text) ? numberedDay(beforeTime(text)) : null;
  const day = plain ?? timed;
  if (day !== null) {
    const { separator, orders, parts } = day;
    return {
      forms: orders.map((order) => ({ order, separator, ...(timed === null ? {} : { timed: true as const }) })),
      // 5/5/2026 is the same day both ways.
      isTwoDays: orders.length > 1 && parts[0] !== parts[1],
    };
  }
  const worded = wordedForm(text);
  return { forms: worded !== null && dayInForm(text, worded) !== null ? [worded] : [], isTwoDays: false };
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
    const { forms, isTwoDays } = formsOf(text);
    if (isTwoDays) readTwoWays += 1;
    for (const form of forms) {
      const key = JSON.stringify(form);
      const known = fits.get(key);
      if (known) known.count += 1;
      else fits.set(key, { form, count: 1 });
    }
  }
  const most = Math.max(0, ...[...fits.values()].map(({ count }) => count));
  const forms = [...fits.values()].filter(({ count }) => count === most).map(({ form }) => form);
  forms.sort((one, other) => ORDERS.indexOf(one.order) - ORDERS.indexOf(other.order));
  return { count: texts.length, forms, readTwoWays };
}
