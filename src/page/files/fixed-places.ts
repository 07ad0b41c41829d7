/**
 * Rows, columns and sheets that must stay where they are: what the page cannot show stands at their cells or reads them,
 * and would not move along.
 */
import "@univerjs/sheets/facade";
import type { FUniver } from "@univerjs/core/facade";

const MOVES_CELLS =
  /^sheet\.command\.(insert-(multi-)?(rows?|cols?)\b|remove-(row|col)\b|move-(rows|cols)|(insert|delete)-range-move|table-(insert|remove)-(row|col))/;
const LOSES_SHEET = /^sheet\.command\.(remove-sheet|set-worksheet-name)/;

/**
 * @param fixed what would be left behind on a sheet, by its id; undefined for a sheet that is free
 * @param tell says why nothing was done
 */
export function holdPlaces(
  api: FUniver,
  fixed: (sheetId: string) => string | undefined,
  tell: (kind: "places" | "sheet", sheet: string, what: string) => void,
): void {
  api.addEvent(api.Event.BeforeCommandExecute, (event) => {
    const kind = MOVES_CELLS.test(event.id) ? "places" : LOSES_SHEET.test(event.id) ? "sheet" : undefined;
    if (kind === undefined) return;
    const workbook = api.getActiveWorkbook();
    const given = (event.params as { readonly subUnitId?: string } | undefined)?.subUnitId;
    const sheet = given === undefined ? workbook?.getActiveSheet() : workbook?.getSheetBySheetId(given);
    const what = sheet ? fixed(sheet.getSheetId()) : undefined;
    if (!sheet || what === undefined) return;
    event.cancel = true;
    tell(kind, sheet.getSheetName(), what);
  });
}
