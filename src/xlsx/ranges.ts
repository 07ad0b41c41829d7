/** Blocks of cells as the file writes them (`B2:D9`, `C:C`, `3:5`) and as the grid counts them, from 0. */
import { columnLetters, columnNumber, LAST_COLUMN, LAST_ROW } from "../core/sheet";
import { refuse } from "./package/file-refused";

/** A block of cells: first and last row and column, counted from 0. */
export interface CellRange {
  startRow: number;
  endRow: number;
  startColumn: number;
  endColumn: number;
}

export interface GridPlace {
  readonly row: number;
  readonly column: number;
}

/** The column's number, from 0, or -1 for letters that name none. */
export function columnIndex(letters: string): number {
  const column = columnNumber(letters);
  return column <= LAST_COLUMN ? column - 1 : -1;
}

/** @throws FileRefused for an address outside every sheet */
export function parsePlace(name: string): GridPlace {
  // Read by hand: a large sheet has hundreds of thousands of addresses.
  let index = 0;
  let column = 0;
  for (; index < name.length; index += 1) {
    const letter = name.charCodeAt(index) & 0xdf;
    if (letter < 65 || letter > 90) break;
    column = column * 26 + (letter - 64);
  }
  let row = 0;
  const digits = index;
  for (; index < name.length; index += 1) {
    const digit = name.charCodeAt(index) - 48;
    if (digit < 0 || digit > 9) break;
    row = row * 10 + digit;
  }
  if (index < name.length || digits === 0 || row < 1) refuse("damaged");
  if (row > LAST_ROW || column > LAST_COLUMN) refuse("tooManyRows");
  return { row: row - 1, column: column - 1 };
}

const BLOCK = /^\$?([A-Za-z]{1,3})?\$?(\d{1,7})?(?::\$?([A-Za-z]{1,3})?\$?(\d{1,7})?)?$/;

/** Whole columns reach from the first row to the last, whole rows likewise. Undefined for what is no block. */
export function parseRange(text: string): CellRange | undefined {
  const match = BLOCK.exec(text.trim());
  if (match === null) return undefined;
  const [, fromLetters, fromRow, toLetters = fromLetters, toRow = fromRow] = match;
  if (fromLetters === undefined && fromRow === undefined) return undefined;
  if ((fromLetters === undefined) !== (toLetters === undefined)) return undefined;
  if ((fromRow === undefined) !== (toRow === undefined)) return undefined;
  const columns = fromLetters === undefined ? [0, LAST_COLUMN - 1] : [fromLetters, toLetters ?? ""].map(columnIndex);
  const rows = fromRow === undefined ? [0, LAST_ROW - 1] : [Number(fromRow) - 1, Number(toRow) - 1];
  if ([...columns, ...rows].some((number) => number < 0) || rows.some((row) => row >= LAST_ROW)) return undefined;
  return {
    startRow: Math.min(...rows),
    endRow: Math.max(...rows),
    startColumn: Math.min(...columns),
    endColumn: Math.max(...columns),
  };
}

/** A list of blocks with spaces between (`sqref`); what is no block is left out. */
export function parseRanges(text: string | undefined): CellRange[] {
  return (text ?? "").split(/\s+/).flatMap((part) => {
    const range = parseRange(part);
    return range === undefined ? [] : [range];
  });
}

export function placeName({ row, column }: GridPlace): string {
  return `${columnLetters(column + 1)}${row + 1}`;
}

export function rangeName(range: CellRange): string {
  const first = placeName({ row: range.startRow, column: range.startColumn });
  const last = placeName({ row: range.endRow, column: range.endColumn });
  return first === last ? first : `${first}:${last}`;
}

export function rangeNames(ranges: readonly CellRange[]): string {
  return ranges.map(rangeName).join(" ");
}

export function contains(range: CellRange, { row, column }: GridPlace): boolean {
  return row >= range.startRow && row <= range.endRow && column >= range.startColumn && column <= range.endColumn;
}
