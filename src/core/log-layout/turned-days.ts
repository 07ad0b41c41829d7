/**
 * Days that the spreadsheet has probably turned round. Where a club writes the day first and the computer reads the month
 * first, 6.10.2025 becomes the 10th of June without a word, and 13.10.2025 stays a text, since there is no month 13. Such a
 * column gives itself away: its texts all begin with a day past the 12th, and its dates all fall on the 1st to the 12th.
 */
import { isLoggedDay, valueAt, type CellBlock } from "./cell-block";
import { numberedDay } from "./date-text";
import type { LogMapping } from "./mapping";
import { dateOfSerial } from "./serial-days";

export interface TurnedDays {
  readonly count: number;
  /** The first of them, from the top; at most 200. */
  readonly cells: readonly { readonly row: number; readonly column: number }[];
}

/** Fewer are no evidence. */
const LEAST_TEXTS = 3;
const LEAST_DAYS = 2;
const MOST_LISTED = 200;
const LAST_MONTH = 12;

const NONE: TurnedDays = { count: 0, cells: [] };

export function turnedDays(block: CellBlock, { date, firstRow, lastRow }: LogMapping): TurnedDays {
  if (date === null) return NONE;
  let texts = 0;
  const rows: number[] = [];
  for (let row = firstRow; row <= lastRow; row += 1) {
    const value = valueAt(block, row, date);
    if (isLoggedDay(value)) {
      if (dayOfMonth(value) > LAST_MONTH) return NONE;
      rows.push(row);
    } else if (typeof value === "string") {
      const orders = numberedDay(value)?.orders ?? [];
      if (orders.includes("ymd")) continue;
      // A text that reads both ways: then the spreadsheet has not read such texts at all.
      if (orders.length > 1) return NONE;
      texts += orders.length;
    }
  }
  if (texts < LEAST_TEXTS || rows.length < LEAST_DAYS) return NONE;
  return { count: rows.length, cells: rows.slice(0, MOST_LISTED).map((row) => ({ row, column: date })) };
}

function dayOfMonth(serial: number): number {
  return dateOfSerial(Math.floor(serial)).getUTCDate();
}
