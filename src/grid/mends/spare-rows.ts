/**
 * Sheets without an end: where somebody writes close to a sheet's last row, more rows are put below it. A spreadsheet
 * program has a million rows from the start; the grid has those that it was opened with, and a log grows every week.
 */
import "@univerjs/sheets/facade";
import type { IDisposable } from "@univerjs/core";
import type { FUniver } from "@univerjs/core/facade";
import {
  type ISetRangeValuesMutationParams,
  SetRangeValuesMutation,
  SetWorksheetRowCountMutation,
} from "@univerjs/sheets";

import { LAST_ROW } from "../../core/sheet";
import type { Mend } from "./mend";

/** Fewer rows than this below what is written are too few: more than a screen shows. */
export const LEAST_SPARE_ROWS = 100;
const MORE_ROWS = 1000;

export function keepSpareRows(api: FUniver): IDisposable {
  return api.addEvent(api.Event.CommandExecuted, ({ id, params }) => {
    if (id !== SetRangeValuesMutation.id) return;
    const { subUnitId, cellValue } = params as ISetRangeValuesMutationParams;
    const workbook = api.getActiveWorkbook();
    const sheet = workbook?.getSheetBySheetId(subUnitId)?.getSheet();
    if (!workbook || !sheet || !cellValue) return;
    let last = -1;
    for (const row in cellValue) last = Math.max(last, Number(row));
    const rowCount = sheet.getRowCount();
    if (rowCount >= LAST_ROW || last + LEAST_SPARE_ROWS < rowCount) return;
    // The mutation and not the command: Undo has nothing to take back here.
    api.syncExecuteCommand(SetWorksheetRowCountMutation.id, {
      unitId: workbook.getId(),
      subUnitId,
      rowCount: Math.min(LAST_ROW, Math.max(rowCount, last + 1) + MORE_ROWS),
    });
  });
}

/** For the list of mends. */
export const spareRows: Mend<"api"> = {
  name: "spare-rows",
  why: "A sheet would end at the row with which it was opened.",
  until: "The grid's sheets have a million rows from the start.",
  isNeeded: () => true,
  apply: ({ api }) => void keepSpareRows(api),
};
