/** Cell addresses as a spreadsheet writes them. Rows and columns count from 1. */

export interface CellAddress {
  readonly row: number;
  readonly column: number;
}

/** A block of cells: its top left corner and its size. */
export interface Block extends CellAddress {
  readonly rows: number;
  readonly columns: number;
}

/** The last row and column of a sheet in the `.xlsx` format. */
export const LAST_ROW = 1_048_576;
export const LAST_COLUMN = 16_384;

/** `A` for 1, `Z` for 26, `AA` for 27. */
export function columnLetters(column: number): string {
  if (!Number.isInteger(column) || column < 1 || column > LAST_COLUMN) {
    throw new RangeError(`There is no column ${column} on a sheet.`);
  }
  let letters = "";
  for (let rest = column; rest > 0; rest = Math.floor((rest - 1) / 26)) {
    letters = String.fromCharCode(65 + ((rest - 1) % 26)) + letters;
  }
  return letters;
}

/** `B5` for row 5, column 2. */
export function cellName(address: CellAddress): string {
  if (!Number.isInteger(address.row) || address.row < 1 || address.row > LAST_ROW) {
    throw new RangeError(`There is no row ${address.row} on a sheet.`);
  }
  return `${columnLetters(address.column)}${address.row}`;
}

/** `B5:D9`, or `B5` for a block of one cell. */
export function blockName(block: Block): string {
  const first = cellName(block);
  const last = cellName({ row: block.row + block.rows - 1, column: block.column + block.columns - 1 });
  return first === last ? first : `${first}:${last}`;
}
