/**
 * Rows put into a table or taken out of it. The grid gives a row that is put in below the headings the headings' looks, and no
 * row the formulas of the calculated columns. It takes as many rows off a table's end as are taken out of the sheet,
 * also where some of them lie below the table; a table whose last row goes has none left, and what reads it answers no
 * more; and with the row of its headings the table itself is gone. Here a row looks and works out as the rows beside it,
 * the last row of a table is emptied instead, and the headings stay.
 */
import "@univerjs/sheets/facade";
import "@univerjs/sheets-table/facade";
import { ICommandService, type ICellData, type Injector, type IRange, IUndoRedoService } from "@univerjs/core";
import type { FUniver } from "@univerjs/core/facade";
import {
  type IInsertRowCommandParams,
  InsertRowCommand,
  RemoveRowCommand,
  SheetsSelectionsService,
} from "@univerjs/sheets";
import type { ITableInfo } from "@univerjs/sheets-table";

import { hasMethods, type Mend } from "./mend";
import { oneStep, type SheetFacade, writeCells } from "./growing-tables";

/** @param tell says why nothing was done */
function keepTablesWhole(api: FUniver, injector: Injector, tell: (words: string) => void): void {
  api.addEvent(api.Event.BeforeCommandExecute, (event) => {
    const sheet = api.getActiveWorkbook()?.getActiveSheet();
    if (!sheet) return;
    if (event.id === InsertRowCommand.id) {
      dress(sheet, event.params as IInsertRowCommandParams);
    } else if (event.id === RemoveRowCommand.id) {
      const given = (event.params as { readonly range?: IRange } | undefined)?.range;
      const range = given ?? injector.get(SheetsSelectionsService).getCurrentLastSelection()?.range;
      if (range && takeOut(injector, sheet, range, tell)) event.cancel = true;
    }
  });
}

/** Gives the rows that are put in the looks and the formulas of the table's rows. */
function dress(sheet: SheetFacade, params: IInsertRowCommandParams): void {
  const { startRow, endRow } = params.range;
  for (const { range, columns } of sheet.getSubTableInfos()) {
    if (startRow <= range.startRow || startRow > range.endRow) continue;
    const isBelowHeadings = startRow === range.startRow + 1;
    const cells = (params.cellValue ??= {}) as Record<number, Record<number, ICellData>>;
    for (let row = startRow; row <= endRow; row += 1) {
      for (let column = range.startColumn; column <= range.endColumn; column += 1) {
        const style = sheet.getSheet().getCellRaw(startRow, column)?.s;
        const formula = columns[column - range.startColumn]?.formula;
        if (!isBelowHeadings && !formula) continue;
        const cell = ((cells[row] ??= {})[column] ??= {});
        if (isBelowHeadings) cell.s = style ?? null;
        if (formula) cell.f = formula;
      }
    }
  }
}

/** Takes rows out in its own way, or says why they stay. False where the grid's way is right. */
function takeOut(injector: Injector, sheet: SheetFacade, range: IRange, tell: (words: string) => void): boolean {
  const { startRow, endRow } = range;
  const tables = sheet.getSubTableInfos();
  const beheaded = tables.find(({ range: table }) => startRow <= table.startRow && endRow >= table.startRow);
  if (beheaded) {
    tell(headingsStay(sheet.getSheetName(), beheaded.range.startRow + 1));
    return true;
  }
  const emptied = tables.filter(({ range: table }) => startRow === table.startRow + 1 && endRow >= table.endRow);
  const cuts = tables
    .map(({ range: table }) => table.endRow + 1)
    .filter((below) => startRow < below && below <= endRow)
    .sort((one, other) => other - one);
  if (emptied.length === 0 && cuts.length === 0) return false;
  const commands = injector.get(ICommandService);
  const workbookId = sheet.getWorkbook().getUnitId();
  void oneStep(injector.get(IUndoRedoService), workbookId, async () => {
    let last = endRow;
    // From the lowest rows upwards: what is above stays where it is.
    for (const first of [...cuts, startRow + (emptied.length > 0 ? 1 : 0)]) {
      const rows = { ...range, startRow: first, endRow: last };
      // Where rows must stay, nothing of it is done.
      if (first <= last && !(await commands.executeCommand(RemoveRowCommand.id, { range: rows }))) return;
      last = first - 1;
    }
    for (const table of emptied) empty(sheet, table);
  });
  return true;
}

function headingsStay(sheet: string, row: number): string {
  return `${sheet}: row ${String(row)} holds the headings of a table, and what reads that table would lose it. Nothing was taken out.`;
}

/** What was typed into the table's first row goes; what is worked out there stays. */
function empty(sheet: SheetFacade, { range, columns }: ITableInfo): void {
  const row = range.startRow + 1;
  const cells: Record<number, ICellData> = {};
  for (let column = range.startColumn; column <= range.endColumn; column += 1) {
    if (columns[column - range.startColumn]?.formula) continue;
    cells[column] = { v: null, f: null, si: null, p: null };
  }
  writeCells(sheet, { [row]: cells });
}

/** For the list of mends. */
export const wholeTables: Mend<"api" | "injector" | "tell"> = {
  name: "whole-tables",
  why: "A row put into a table would lack its formulas, and a table could lose its headings or its last row.",
  until: "The grid puts rows into tables and takes them out as a spreadsheet program does.",
  isNeeded: (injector) =>
    hasMethods(injector.get(ICommandService), "executeCommand") &&
    hasMethods(injector.get(SheetsSelectionsService), "getCurrentLastSelection"),
  apply: ({ api, injector, tell }) => keepTablesWhole(api, injector, tell),
};
