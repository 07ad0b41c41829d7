/**
 * Lists to choose from that are a table's column: in the spreadsheet program such a list grows with the table, since it
 * names all of the column's cells. In the grid it gets the room below the column at once; empty cells are no choices.
 */
import type { IRange } from "@univerjs/core";

import { columnLetters } from "../../core/sheet";
import { VALIDATED_ROWS } from "../../workbook/plan/tables";
import { parseRange } from "../../xlsx/ranges";
import type { FileTable } from "../../xlsx/parts/tables/read";
import type { SheetEntry } from "../../xlsx/parts/workbook/read";
import type { ReadSheetPart } from "./sheets/read";
import { gridTableRange } from "./tables/grid-tables";

const LIST = /^=(?:('(?:[^']|'')+'|[\p{L}\p{N}_.]+)!)?(\$[A-Z]{1,3}\$\d+:\$[A-Z]{1,3}\$\d+)$/u;

/** What a list can name: a sheet that has been read, with its tables. */
interface ListedSheet extends ReadSheetPart {
  readonly entry: SheetEntry;
  readonly tables: readonly { readonly file: FileTable }[];
}

/** @param formula a list as the grid holds it, in a check on the given sheet */
export function growingList(formula: string, own: ListedSheet, sheets: readonly ListedSheet[]): string {
  const match = LIST.exec(formula);
  const range = match?.[2] === undefined ? undefined : parseRange(match[2]);
  if (match === null || range === undefined || range.startColumn !== range.endColumn) return formula;
  const name = match[1]?.replace(/^'|'$/g, "").replaceAll("''", "'");
  const sheet = name === undefined ? own : sheets.find(({ entry }) => entry.name === name);
  const isColumn = sheet?.tables.some(({ file }) => {
    const { startRow, endRow, startColumn, endColumn } = gridTableRange(file);
    const isWithin = startColumn <= range.startColumn && range.endColumn <= endColumn;
    return !file.hasTotals && isWithin && range.startRow === startRow + 1 && range.endRow === endRow;
  });
  if (sheet === undefined || isColumn !== true) return formula;
  const last = lastFreeRow(sheet, range);
  if (last <= range.endRow) return formula;
  const letters = columnLetters(range.startColumn + 1);
  const start = match[1] === undefined ? "=" : `=${match[1]}!`;
  return `${start}$${letters}$${range.startRow + 1}:$${letters}$${last + 1}`;
}

/** The last row before something else stands in the column, or before the room ends. */
function lastFreeRow({ sheet }: ListedSheet, { startRow, endRow, startColumn }: IRange): number {
  const end = Math.min(startRow + VALIDATED_ROWS, sheet.rowCount) - 1;
  for (let row = endRow + 1; row <= end; row += 1) {
    const cell = sheet.cellData?.[row]?.[startColumn];
    if (cell?.f || (cell?.v !== undefined && cell.v !== "")) return row - 1;
  }
  return end;
}
