/**
 * Days that the spreadsheet has probably turned round. Where a club writes the day first and the computer reads the month
 * first, 6.10.2025 becomes the 10th of June without a word, and 13.10.2025 stays a text, since there is no month 13. Such a
 * column gives itself away: its texts all begin with a day past the 12th, and its dates all fall on the 1st to the 12th.
 * Where there are few of either, or none of the texts, it is told by the time that the log then takes: practices that lie
 * days apart lie months apart once they are turned.
 */
import { isLoggedDay, valueAt, type CellBlock } from "./cell-block";
import { numberedDay } from "./date-text";
import type { LogMapping } from "./mapping";
import { dateOfSerial, serialOfDate } from "./serial-days";

export interface TurnedDays {
  readonly count: number;
  /** The first of them, from the top; at most 200. */
  readonly cells: readonly { readonly row: number; readonly column: number }[];
}

/** So many of both are evidence by themselves. */
const MANY_TEXTS = 3;
const MANY_DAYS = 2;
const MOST_LISTED = 200;
const LAST_MONTH = 12;
/** Without a text: how much longer the log takes as it stands than turned back. */
const LEAST_STRETCH = 3;
/** A log of fewer days apart says nothing. */
const LEAST_SPAN = 28;

const NONE: TurnedDays = { count: 0, cells: [] };

export function turnedDays(block: CellBlock, { date, firstRow, lastRow }: LogMapping): TurnedDays {
  if (date === null) return NONE;
  const texts: number[] = [];
  const rows: number[] = [];
  const stand: number[] = [];
  let isInternational = false;
  for (let row = firstRow; row <= lastRow; row += 1) {
    const value = valueAt(block, row, date);
    if (isLoggedDay(value)) {
      if (dayOfMonth(value) > LAST_MONTH) return NONE;
      rows.push(row);
      stand.push(Math.floor(value));
    } else if (typeof value === "string") {
      const day = numberedDay(value);
      const orders = day?.orders ?? [];
      if (orders.includes("ymd")) isInternational = true;
      if (day === null || orders.includes("ymd")) continue;
      // A text that reads both ways: then the spreadsheet has not read such texts at all.
      if (orders.length > 1) return NONE;
      const [first, second, year] = day.parts;
      const [date, month] = orders[0] === "dmy" ? [first, second] : [second, first];
      texts.push(serialOfDate(year < 100 ? 2000 + year : year, month, date));
    }
  }
  // Texts that every computer reads stand in cells for texts: nothing has been read there.
  if (isInternational && texts.length === 0) return NONE;
  if (rows.length === 0 || !isEvidence(stand, texts)) return NONE;
  return { count: rows.length, cells: rows.slice(0, MOST_LISTED).map((row) => ({ row, column: date })) };
}

function isEvidence(stand: readonly number[], texts: readonly number[]): boolean {
  if (texts.length >= MANY_TEXTS && stand.length >= MANY_DAYS) return true;
  const back = stand.map(turnedBack);
  const [asItStands, turned] = [spanOf([...stand, ...texts]), spanOf([...back, ...texts])];
  if (texts.length > 0) return turned <= asItStands;
  return asItStands >= LEAST_SPAN && turned * LEAST_STRETCH <= asItStands;
}

function spanOf(days: readonly number[]): number {
  return days.reduce((most, one) => Math.max(most, one), -Infinity) - days.reduce((least, one) => Math.min(least, one), Infinity); // prettier-ignore
}

/** Day and month the other way round. */
function turnedBack(serial: number): number {
  const day = dateOfSerial(serial);
  return serialOfDate(day.getUTCFullYear(), day.getUTCDate(), day.getUTCMonth() + 1);
}

function dayOfMonth(serial: number): number {
  return dateOfSerial(Math.floor(serial)).getUTCDate();
}
