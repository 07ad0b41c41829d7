/** Cell addresses as a spreadsheet writes them. Rows and columns count from 1. */

import { columnLetters, LAST_ROW } from "../../core/sheet";

export interface CellAddress {
  readonly row: number;
  readonly column: number;
}

/** A block of cells: its top left corner and its size. */
export interface Block extends CellAddress {
  readonly rows: number;
  readonly columns: number;
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
