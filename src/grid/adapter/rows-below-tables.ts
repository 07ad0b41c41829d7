/**
 * Rows that somebody has typed below a table with an empty row between, or that are left below it when a step is taken
 * back. A table grows by what is typed just below it, as in a spreadsheet program; these rows look like the log and are
 * not counted. They are not taken in unasked, since a club may keep notes below its log: the page says that they are there.
 */
import "@univerjs/sheets/facade";
import "@univerjs/sheets-table/facade";
import { type Injector, IUndoRedoService, type Worksheet } from "@univerjs/core";
import type { FUniver } from "@univerjs/core/facade";
import type { ITableInfo } from "@univerjs/sheets-table";

import { growTable, oneStep } from "../mends/growing-tables";

export interface RowsBelow {
  readonly sheetId: string;
  readonly sheetName: string;
  readonly tableId: string;
  /** Counted from 0. */
  readonly rows: readonly number[];
}

/** A note below a table fills one cell, a row of a log several. */
const LEAST_FILLED = 2;

/** Of every table of the workbook that has such rows. */
export function rowsBelowTables(api: FUniver): readonly RowsBelow[] {
  return (api.getActiveWorkbook()?.getSheets() ?? []).flatMap((facade) => {
    const sheet = facade.getSheet();
    const tables = facade.getSubTableInfos();
    return tables.flatMap((table): RowsBelow[] => {
      const rows = typedRowsBelow(sheet, table, tables);
      if (rows.length === 0) return [];
      return [{ sheetId: facade.getSheetId(), sheetName: facade.getSheetName(), tableId: table.id, rows }];
    });
  });
}

function typedRowsBelow(sheet: Worksheet, { range }: ITableInfo, tables: readonly ITableInfo[]): number[] {
  const { startColumn, endColumn, endRow } = range;
  // What stands below another table is that table's matter.
  const end = tables
    .filter(({ range: other }) => other.startRow > endRow)
    .filter(({ range: other }) => other.startColumn <= endColumn && other.endColumn >= startColumn)
    .reduce((first, { range: other }) => Math.min(first, other.startRow), sheet.getCellMatrix().getLength());
  const least = Math.min(LEAST_FILLED, endColumn - startColumn + 1);
  const rows: number[] = [];
  for (let row = endRow + 1; row < end; row += 1) {
    let filled = 0;
    for (let column = startColumn; filled < least && column <= endColumn; column += 1) {
      const cell = sheet.getCellRaw(row, column);
      // A sum below the table is no row of it.
      if (!cell?.f && !cell?.si && cell?.v !== undefined && cell.v !== null && cell.v !== "") filled += 1;
    }
    if (filled >= least) rows.push(row);
  }
  return rows;
}

/** Has the table reach down to the last of these rows, in one step for Undo. */
export async function takeIn(api: FUniver, injector: Injector, { sheetId, tableId, rows }: RowsBelow): Promise<void> {
  const workbook = api.getActiveWorkbook();
  const sheet = workbook?.getSheetBySheetId(sheetId);
  const table = sheet?.getSubTableInfos().find(({ id }) => id === tableId);
  const last = rows.at(-1);
  if (!workbook || !sheet || !table || last === undefined || last <= table.range.endRow) return;
  await oneStep(injector.get(IUndoRedoService), workbook.getId(), () =>
    growTable(sheet, table, last - table.range.endRow),
  );
}
