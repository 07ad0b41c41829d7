/** Where a log's headings and its rows are: the headings may take two rows, stand under titles, or be missing. */
import { isError, isNumeral, lastColumnOf, lastRowOf, valueAt, type CellBlock, type CellValue } from "./cell-block";
import { attemptsIn, isDayCell } from "./column-profile";
import { saysDay } from "./date-text";
import { attemptNumber, headingMatches, namesTotals, type HeadingRole } from "./heading-words";
import { plainText } from "./plain-words";

export interface LogRows {
  /** None, one or two rows. */
  readonly headingRows: readonly number[];
  readonly firstRow: number;
  /** The last row of the log: what stands below are sums, or nothing. */
  readonly lastRow: number;
  /** Rows of sums at the foot. */
  readonly totalsRows: readonly number[];
  /** The last row before another list below the log; null where there is none. */
  readonly endsAt: number | null;
}

/** Headings stand near the top: further down a row of words is a row of the log. */
const ROWS_LOOKED_AT = 40;
/** A row of a log says when, who and what at least. */
const LEAST_CELLS_OF_A_ROW = 3;
/** Headings below so many rows of that kind belong to another list. */
const LEAST_ROWS_OF_A_LOG = 4;

export function findLogRows(block: CellBlock): LogRows {
  const headingRows = findHeadingRows(block);
  const below = headingRows.length > 0 ? (headingRows.at(-1) ?? 0) + 1 : block.row;
  const firstRow = firstLogRow(block, below, headingRows.length > 0);
  return { headingRows, firstRow, ...findFoot(block, firstRow, headingRows) };
}

/** The log's rows where the coach has said which row holds the headings, or that none does (0). */
export function logRowsBelow(block: CellBlock, headingRow: number): LogRows {
  const headingRows = headingRow < block.row ? [] : [headingRow];
  const second = headingRow >= block.row && isSecondHeading(block, headingRow + 1) ? [headingRow + 1] : [];
  const all = [...headingRows, ...second];
  const firstRow = firstLogRow(block, (all.at(-1) ?? block.row - 1) + 1, true);
  return { headingRows: all, firstRow, ...findFoot(block, firstRow, all) };
}

/* ---- headings ---- */

function findHeadingRows(block: CellBlock): readonly number[] {
  const last = Math.min(lastRowOf(block), block.row + ROWS_LOOKED_AT - 1);
  const firstData = firstRowWithDay(block, last);
  const end = firstData ?? last + 1;
  let best: { readonly row: number; readonly score: number } | null = null;
  let rowsAbove = 0;
  for (let row = block.row; row < end && rowsAbove < LEAST_ROWS_OF_A_LOG; row += 1) {
    const score = headingRowScore(block, row);
    if (filledIn(block, row) >= LEAST_CELLS_OF_A_ROW) rowsAbove += 1;
    if (
      score >= (holdsAnyDay(block, row) ? SCORE_BESIDE_A_DAY : 2) &&
      (best === null || score > best.score) &&
      !recursBelow(block, row)
    )
      best = { row, score };
  }
  if (best === null) return structuralHeading(block, firstData);
  const rows = [best.row];
  if (best.row > block.row && isUpperHeading(block, best.row - 1)) rows.unshift(best.row - 1);
  if (rows.length === 1 && best.row + 1 < end && isSecondHeading(block, best.row + 1)) rows.push(best.row + 1);
  return rows;
}

const ROWS_COMPARED = 300;
const MOST_RECURRING = 2;

/** Whether the words of a row stand in its columns again and again, as names and stages do; headings recur all together. */
function recursBelow(block: CellBlock, row: number): boolean {
  let recurring = 0;
  const last = Math.min(lastRowOf(block), row + ROWS_COMPARED);
  for (const column of columnsFilled(block, row)) {
    const words = valueAt(block, row, column);
    if (typeof words !== "string") continue;
    let times = 0;
    for (let below = block.row; below <= last; below += 1) {
      if (below !== row && sameHeading(words, valueAt(block, below, column)) && !repeatsHeadings(block, below, [row])) {
        times += 1;
      }
    }
    if (times >= MOST_RECURRING) recurring += 1;
  }
  return recurring > 0;
}

/** The first row with a day and enough beside it, or in the row below a day alone, to be a row of the log. */
function firstRowWithDay(block: CellBlock, last: number): number | undefined {
  for (let row = block.row; row <= last; row += 1) {
    if (isDayOverItsRows(block, row)) return row;
    if (filledIn(block, row) < LEAST_CELLS_OF_A_ROW) continue;
    const heading = holdsAnyDay(block, row) ? SCORE_BESIDE_A_DAY : 3;
    if (headingRowScore(block, row) >= heading || namesSum(block, row)) continue;
    for (let column = block.column; column <= lastColumnOf(block); column += 1) {
      if (holdsDay(block, row, column)) return row;
    }
  }
  return undefined;
}

/** A day in a row of its own, over a row of the log that has none in its column. */
function isDayOverItsRows(block: CellBlock, row: number): boolean {
  const [column, another] = columnsFilled(block, row);
  if (column === undefined || another !== undefined || !holdsDay(block, row, column)) return false;
  const below = columnsFilled(block, row + 1);
  return below.length >= LEAST_CELLS_OF_A_ROW - 1 && !below.includes(column);
}

/** A week's total carries a day too, and is no row of the log all the same. */
function namesSum(block: CellBlock, row: number): boolean {
  return columnsFilled(block, row).some((column) => {
    const value = valueAt(block, row, column);
    return typeof value === "string" && namesTotals(value);
  });
}

/** A list beside the log may have its headings in a row of the log, and a row of its own beside the log's headings. */
function holdsAnyDay(block: CellBlock, row: number): boolean {
  return columnsFilled(block, row).some((column) => holdsDay(block, row, column));
}

/** More than such a list's headings name. */
const SCORE_BESIDE_A_DAY = 4.5;

function holdsDay(block: CellBlock, row: number, column: number): boolean {
  const value = valueAt(block, row, column);
  // "Set 1" is a set, and not the first of September.
  if (typeof value === "string") return attemptNumber(value) === null && saysDay(value);
  return isDayCell(block, row, column);
}

/** How many different things the row's words name. Words that recur, as marks do, name nothing. */
function headingRowScore(block: CellBlock, row: number): number {
  const roles = new Map<HeadingRole, number>();
  const seen = new Map<string, number>();
  let numbered = 0;
  for (let column = block.column; column <= lastColumnOf(block); column += 1) {
    const value = valueAt(block, row, column);
    if (typeof value === "number" && !isDayCell(block, row, column) && value === numbered + 1) numbered += 1;
    if (typeof value !== "string") continue;
    const plain = plainText(value);
    seen.set(plain, (seen.get(plain) ?? 0) + 1);
    for (const { role, score } of headingMatches(value)) roles.set(role, Math.max(score, roles.get(role) ?? 0));
  }
  const repeated = [...seen].filter(([plain, times]) => times > 1 && headingMatches(plain).length > 0).length;
  if (repeated > 1) return 0;
  // One attempt a column, numbered: as good as a word.
  if (numbered >= 3) roles.set("attempts", 1);
  return [...roles.values()].filter((score) => score >= 0.35).reduce((sum, score) => sum + Math.max(score, 0.7), 0);
}

/** So many marks in a cell are no word: no heading is made of c, d and b alone. */
const LEAST_MARKS = 3;
/** `8 of 10`, `8/10`, `8 von 10`; `c-d-c`. */
const TALLY_OR_PARTED = /^\s*(?:\d{1,4}\D{1,6}\d{1,4}|\p{L}(?:-\p{L})+)\s*$/u;

/** Whether a row holds attempts, as no heading does: marks, a tally, TRUE or FALSE, one sign in several cells. */
function holdsAttempts(block: CellBlock, row: number): boolean {
  const signs = new Map<string, number>();
  for (const column of columnsFilled(block, row)) {
    const value = valueAt(block, row, column);
    if (typeof value === "boolean") return true;
    if (typeof value !== "string") continue;
    if (attemptsIn(value) >= LEAST_MARKS || TALLY_OR_PARTED.test(value)) return true;
    const sign = value.trim();
    const times = (signs.get(sign) ?? 0) + 1;
    if (sign.length <= 2 && times >= LEAST_MARKS) return true;
    signs.set(sign, times);
  }
  return false;
}

/** A row of words in no known language: right above the first row of the log, over most of its columns. */
function structuralHeading(block: CellBlock, firstData: number | undefined): readonly number[] {
  if (firstData === undefined || firstData === block.row || startsAbove(block, firstData) !== null) return [];
  let rows = 0;
  // Rows between are the log's own, in which the day was forgotten.
  for (let row = firstData - 1; row >= block.row && rows < MOST_BETWEEN; row -= 1) {
    if (filledIn(block, row) === 0 || holdsAttempts(block, row) || allStandBelow(block, row)) continue;
    if (isHeadingLike(block, row, firstData)) return [row];
    rows += 1;
  }
  return [];
}

const MOST_BETWEEN = 3;

/** Whether each word of a row stands in its column further down as well, as no row of headings does. */
function allStandBelow(block: CellBlock, row: number): boolean {
  const last = Math.min(lastRowOf(block), row + ROWS_COMPARED);
  const words = columnsFilled(block, row).filter((column) => typeof valueAt(block, row, column) === "string");
  return (
    words.length > 0 &&
    words.every((column) => {
      const own = String(valueAt(block, row, column));
      for (let below = row + 1; below <= last; below += 1) {
        if (sameHeading(own, valueAt(block, below, column)) && !repeatsHeadings(block, below, [row])) return true;
      }
      return false;
    })
  );
}

function isHeadingLike(block: CellBlock, row: number, firstData: number): boolean {
  const below = isDayOverItsRows(block, firstData) ? columnsFilled(block, firstData + 1) : [];
  const filledBelow = [...columnsFilled(block, firstData), ...below];
  const words = filledBelow.filter((column) => {
    const value = valueAt(block, row, column);
    return typeof value === "string" && !isNumeral(value) && !saysDay(value);
  });
  const distinct = new Set(words.map((column) => plainText(String(valueAt(block, row, column)))));
  return words.length >= 2 && words.length >= filledBelow.length * 0.6 && distinct.size === words.length;
}

/**
 * A row of group names above the headings: it stands over the columns that the headings tell apart, and is no title,
 * which stands in the first column alone.
 */
function isUpperHeading(block: CellBlock, row: number): boolean {
  const filled = columnsFilled(block, row);
  if (filled.length === 0 || holdsAnyDay(block, row + 1)) return false;
  if (filled.some((column) => typeof valueAt(block, row, column) !== "string" || holdsDay(block, row, column))) {
    return false;
  }
  const [only, ...others] = filled;
  if (filled.length === 1 && only !== undefined) {
    // A title too may name what a log is about; the name of a group stands over columns of that kind.
    return namesAttempts(wordsAt(block, row, only)) && namesAttempts(wordsAt(block, row + 1, only));
  }
  // The first may be a title, beside which something else is noted.
  return others.some((column) => headingMatches(wordsAt(block, row, column)).length > 0);
}

function namesAttempts(words: string): boolean {
  if (attemptNumber(words) !== null) return true;
  return headingMatches(words).some(({ role }) => ATTEMPT_ROLES.has(role));
}

const ATTEMPT_ROLES: ReadonlySet<HeadingRole> = new Set(["marks", "caught", "attempts", "dropped"]);

/** A second row of headings: words of headings or the attempts' numbers, and nothing that a log's row would hold. */
function isSecondHeading(block: CellBlock, row: number): boolean {
  const filled = columnsFilled(block, row);
  if (filled.length === 0 || filled.some((column) => holdsDay(block, row, column))) return false;
  const seen = new Set<string>();
  let numbers = 0;
  for (const column of filled) {
    const value = valueAt(block, row, column);
    if (isError(value) || typeof value === "boolean" || value === null) return false;
    const words = String(value);
    const number = attemptNumber(words);
    if (number !== null) {
      if (number !== numbers + 1 && numbers > 0) return false;
      numbers = number;
    } else if (typeof value === "number" || headingMatches(words).length === 0) {
      return false;
    }
    const plain = plainText(words);
    if (seen.has(plain)) return false;
    seen.add(plain);
  }
  return true;
}

/** The heading over a column: the words of its rows, a group's name reaching over the columns to its right. */
export function headingOver(block: CellBlock, headingRows: readonly number[], column: number): string {
  const own = headingRows.map((row) => wordsAt(block, row, column));
  const [upper = "", lower] = own;
  if (lower === undefined) return upper;
  if (lower === "") return upper;
  if (upper !== "") return `${upper} ${lower}`;
  const [row] = headingRows;
  for (let left = column - 1; row !== undefined && left >= block.column; left -= 1) {
    const group = wordsAt(block, row, left);
    // A name over a column that has no heading of its own below belongs to that column alone.
    if (group !== "") return wordsAt(block, headingRows[1] ?? row, left) === "" ? lower : `${group} ${lower}`;
  }
  return lower;
}

function wordsAt(block: CellBlock, row: number, column: number): string {
  const value = valueAt(block, row, column);
  if (value === null || isError(value)) return "";
  return String(value).trim().replace(/\s+/g, " ");
}

/* ---- rows ---- */

function firstLogRow(block: CellBlock, from: number, hasHeadings: boolean): number {
  const last = lastRowOf(block);
  if (!hasHeadings) {
    const withDay = firstRowWithDay(block, Math.min(last, from + ROWS_LOOKED_AT));
    if (withDay !== undefined) return startsAbove(block, withDay) ?? firstLike(block, withDay);
  }
  let row = from;
  while (row < last && filledIn(block, row) === 0) row += 1;
  return Math.min(row, Math.max(last, from));
}

/** The first of several rows of a log above the first day that can be read: their days are written in another way. */
function startsAbove(block: CellBlock, withDay: number): number | null {
  const above: number[] = [];
  for (let row = block.row; row < withDay; row += 1) {
    if (filledIn(block, row) >= LEAST_CELLS_OF_A_ROW) above.push(row);
  }
  return above.length >= LEAST_ROWS_OF_A_LOG ? (above[0] ?? null) : null;
}

/** A row above the first day that says as much, without a day, is a row of the log in which it was forgotten. */
function firstLike(block: CellBlock, withDay: number): number {
  const filled = columnsFilled(block, withDay);
  let row = withDay;
  while (row > block.row) {
    const above = columnsFilled(block, row - 1);
    if (above.length < LEAST_CELLS_OF_A_ROW - 1) break;
    // A note or an attempt may stand in the one and not in the other.
    const shared = above.filter((column) => filled.includes(column)).length;
    if (shared < Math.max(2, above.length / 2) && !holdsAttempts(block, row - 1)) break;
    row -= 1;
  }
  return row;
}

/** Rows of sums are looked for from the foot up; what follows the last row of the log is no part of it. */
function findFoot(
  block: CellBlock,
  firstRow: number,
  headingRows: readonly number[],
): Pick<LogRows, "lastRow" | "totalsRows" | "endsAt"> {
  const totalsRows: number[] = [];
  const endsAt = beforeAnotherList(block, firstRow, headingRows) ?? beforeRemarks(block, firstRow);
  let row = endsAt ?? lastRowOf(block);
  for (; row > firstRow; row -= 1) {
    if (filledIn(block, row) === 0) continue;
    if (!isTotalsRow(block, row)) break;
    totalsRows.unshift(row);
  }
  return { lastRow: row, totalsRows, endsAt };
}

/** A heading that a list of its own begins with, such as the contests, names a day and something else. */
const LEAST_HEADINGS = 2;

function beforeAnotherList(block: CellBlock, firstRow: number, headingRows: readonly number[]): number | null {
  for (let row = firstRow + 1; row < lastRowOf(block); row += 1) {
    if (isOtherHeading(block, row) && !repeatsHeadings(block, row, headingRows)) return row - 1;
  }
  return null;
}

/** Remarks or a legend at the foot, below an empty row: a word or two a row, no day, no number, no attempts. */
function beforeRemarks(block: CellBlock, firstRow: number): number | null {
  let row = lastRowOf(block);
  while (row > firstRow && filledIn(block, row) === 0) row -= 1;
  const foot = row;
  for (; row > firstRow && filledIn(block, row) > 0; row -= 1) {
    const filled = columnsFilled(block, row);
    const isRemark = filled.length < LEAST_CELLS_OF_A_ROW && filled.every((column) => typeof valueAt(block, row, column) === "string"); // prettier-ignore
    if (!isRemark || holdsAnyDay(block, row) || holdsAttempts(block, row) || namesSum(block, row)) return null;
  }
  return row > firstRow && foot > row + 1 ? row : null;
}

function isOtherHeading(block: CellBlock, row: number): boolean {
  const filled = columnsFilled(block, row);
  if (filled.length < LEAST_CELLS_OF_A_ROW) return false;
  let [days, known] = [0, 0];
  for (const column of filled) {
    const value = valueAt(block, row, column);
    if (typeof value !== "string") return false;
    const matches = headingMatches(value);
    if (matches.some(({ role, score }) => role === "date" && score >= 1)) days += 1;
    if (matches.some(({ score }) => score >= 0.6)) known += 1;
  }
  return days === 1 && known >= LEAST_HEADINGS && headingRowScore(block, row) >= 1 && !holdsAttempts(block, row);
}

/** A row that names a sum, or holds nothing but numbers, and has no day. */
export function isTotalsRow(block: CellBlock, row: number): boolean {
  const filled = columnsFilled(block, row);
  if (filled.some((column) => holdsDay(block, row, column))) return false;
  return namesSum(block, row) || filled.every((column) => typeof valueAt(block, row, column) === "number");
}

/** Headings written once more further down, as on each printed page. */
export function repeatsHeadings(block: CellBlock, row: number, headingRows: readonly number[]): boolean {
  return headingRows.some((headingRow) => {
    let same = 0;
    let other = 0;
    for (let column = block.column; column <= lastColumnOf(block); column += 1) {
      const here = valueAt(block, row, column);
      if (here === null) continue;
      // Long logs have this asked for each row: texts are compared, and only as they stand.
      if (typeof here === "string" && sameHeading(here, valueAt(block, headingRow, column))) same += 1;
      // The number of an attempt over its column.
      else if (typeof here === "number" && here === valueAt(block, headingRow, column)) continue;
      else other += 1;
      if (other > same + lastColumnOf(block) - column) return false;
    }
    return same >= 2 && same > other;
  });
}

function sameHeading(here: string, heading: CellValue): boolean {
  return (
    typeof heading === "string" && (here === heading || here.trim().toLowerCase() === heading.trim().toLowerCase())
  );
}

export function columnsFilled(block: CellBlock, row: number): readonly number[] {
  const columns: number[] = [];
  for (let column = block.column; column <= lastColumnOf(block); column += 1) {
    if (valueAt(block, row, column) !== null) columns.push(column);
  }
  return columns;
}

function filledIn(block: CellBlock, row: number): number {
  return columnsFilled(block, row).length;
}
