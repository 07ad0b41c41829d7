/**
 * A block of a sheet as the layout is looked for in: what each cell holds and, where known, how the sheet shows it.
 * Rows and columns are those of the sheet, counted from 1.
 */
import { CELL_ERRORS } from "../cell-errors";

/** A cell that shows an error, such as `#N/A`. */
interface CellError {
  readonly error: string;
}

export type CellValue = string | number | boolean | null | CellError;

/** Row by row; the three grids have one size. */
export interface CellBlock {
  /** The sheet's row and column of the block's first cell. */
  readonly row: number;
  readonly column: number;
  readonly values: readonly (readonly CellValue[])[];
  /** Codes such as `d/m/yyyy`; without them a number that could be a day is taken for one. */
  readonly numberFormats?: readonly (readonly string[])[];
  /** Each cell as the sheet shows it. */
  readonly texts?: readonly (readonly string[])[];
}

export function lastRowOf(block: CellBlock): number {
  return block.row + block.values.length - 1;
}

export function lastColumnOf(block: CellBlock): number {
  return block.column + (block.values[0]?.length ?? 0) - 1;
}

/** What a cell of the sheet holds; nothing outside the block. Texts of spaces only are nothing. */
export function valueAt(block: CellBlock, row: number, column: number): CellValue {
  const value = block.values[row - block.row]?.[column - block.column] ?? null;
  return typeof value === "string" && value.trim() === "" ? null : value;
}

/** A count that stands there as a text, as a file of plain text brings it in: digits alone, without a nought before them. */
const NUMERAL = /^\s*(?:0|[1-9]\d{0,3})\s*$/;

export function isNumeral(value: CellValue): value is string {
  return typeof value === "string" && NUMERAL.test(value);
}

/** The number in a cell, also where it stands there as a text. */
export function numberIn(value: CellValue): number | null {
  if (typeof value === "number") return value;
  return isNumeral(value) ? Number(value) : null;
}

/** How the sheet shows the cell, or undefined where that is not known. */
export function shownAt(block: CellBlock, row: number, column: number): string | undefined {
  return block.texts?.[row - block.row]?.[column - block.column];
}

/** Whether the cell's number is shown as a day; undefined where its format is not known. */
export function showsDate(block: CellBlock, row: number, column: number): boolean | undefined {
  const format = block.numberFormats?.[row - block.row]?.[column - block.column];
  return format === undefined ? undefined : isDateFormat(format);
}

/** Whether the cell's number is shown as so many per cent; false where its format is not known. */
export function isShownAsRate(block: CellBlock, row: number, column: number): boolean {
  const format = block.numberFormats?.[row - block.row]?.[column - block.column] ?? "";
  return format.replace(/"[^"]*"|\\./g, "").includes("%");
}

export function isError(value: CellValue): value is CellError {
  return typeof value === "object" && value !== null;
}

/** A value as a host hands it over: errors come as texts, empty cells as "". */
export function cellValue(raw: unknown): CellValue {
  if (typeof raw === "string") {
    if (raw === "") return null;
    return raw.startsWith("#") && CELL_ERRORS.has(raw) ? { error: raw } : raw;
  }
  return typeof raw === "number" || typeof raw === "boolean" ? raw : null;
}

const formatsRead = new Map<string, boolean>();

/** Whether a number format code shows a day: it has a year or a day in it, outside quotes and brackets. */
export function isDateFormat(format: string): boolean {
  let answer = formatsRead.get(format);
  if (answer === undefined) {
    const codes = format.replace(/"[^"]*"|\[[^\]]*\]|\\.|_.|\*./g, "");
    answer = !/^(general|standard)$/i.test(codes) && (/[dy]/i.test(codes) || /mmm/i.test(codes));
    formatsRead.set(format, answer);
  }
  return answer;
}

/** The first and last days that a practice log can hold: 1 January 1980 and 31 December 2079. */
const EARLIEST_LOGGED = 29221;
const LATEST_LOGGED = 65745;

export function isLoggedDay(value: CellValue): value is number {
  return typeof value === "number" && value >= EARLIEST_LOGGED && value < LATEST_LOGGED + 1;
}
