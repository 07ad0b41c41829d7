/**
 * Tables that grow: what is typed just below a table belongs to it, as in a spreadsheet program. The new row gets the
 * formulas of the calculated columns and the look of the row above.
 */
import "@univerjs/sheets/facade";
import "@univerjs/sheets-table/facade";
import {
  CellValueType,
  type ICellData,
  type IDisposable,
  type Injector,
  IUndoRedoService,
  type Nullable,
  type Worksheet,
} from "@univerjs/core";
import type { FUniver } from "@univerjs/core/facade";
import {
  type IMoveRangeMutationParams,
  type ISetRangeValuesMutationParams,
  MoveRangeMutation,
  SetRangeValuesMutation,
} from "@univerjs/sheets";
import type { ITableInfo } from "@univerjs/sheets-table";
import { hasMethods, type Mend } from "./mend";

/** Who else writes cells: what the engine works out is not typed by anybody. */
const workedOut = "formula.mutation.set-formula-calculation-result";

/** Has every table of the workbook grow from now on. */
export function growTables(api: FUniver, injector: Injector): IDisposable {
  const undoRedo = injector.get(IUndoRedoService);
  const isTakingBack = takingBack(api);
  return api.addEvent(api.Event.CommandExecuted, ({ id, params }) => {
    const written = writtenBy(id, params);
    if (!written) return;
    // A table that has just been given back its former size would take its rows in again.
    if (isTakingBack()) return;
    const worksheet = api.getActiveWorkbook()?.getSheetBySheetId(written.sheetId);
    if (!worksheet) return;
    const touched = worksheet.getSubTableInfos().filter(({ range }) => touchesRow(written, range.endRow + 1, range));
    // A turn later: what was typed is a step for Undo of its own by then, and what the cell does not take is taken back,
    // which is done only while nothing else was done after it.
    const tableIds = touched.map(({ id }) => id);
    if (tableIds.length > 0) setTimeout(() => growWhereFilled(api, undoRedo, written.sheetId, tableIds));
  });
}

interface Written {
  readonly sheetId: string;
  /** By row and column. */
  readonly cells: Readonly<Record<number, object | undefined>>;
}

/** What was typed or pasted, or pasted where it was not before; undefined where nothing was. */
function writtenBy(id: string, params: unknown): Written | undefined {
  if (id === MoveRangeMutation.id) {
    const { to } = params as IMoveRangeMutationParams;
    return { sheetId: to.subUnitId, cells: to.value as Written["cells"] };
  }
  if (id !== SetRangeValuesMutation.id) return undefined;
  const { trigger, cellValue, subUnitId } = params as ISetRangeValuesMutationParams;
  return trigger === workedOut || !cellValue ? undefined : { sheetId: subUnitId, cells: cellValue as Written["cells"] };
}

function growWhereFilled(api: FUniver, undoRedo: IUndoRedoService, sheetId: string, tableIds: readonly string[]): void {
  const workbook = api.getActiveWorkbook();
  const worksheet = workbook?.getSheetBySheetId(sheetId);
  for (const table of worksheet?.getSubTableInfos() ?? []) {
    if (!workbook || !worksheet || !tableIds.includes(table.id)) continue;
    const rows = filledRowsBelow(worksheet.getSheet(), table);
    if (rows > 0) void oneStep(undoRedo, workbook.getId(), () => growTable(worksheet, table, rows));
  }
}

/** Tells whether Undo is at work. */
function takingBack(api: FUniver): () => boolean {
  let isAtWork = false;
  const done = (): void => {
    isAtWork = false;
  };
  api.addEvent(api.Event.BeforeUndo, () => {
    isAtWork = true;
    // Where there is nothing to take back, nobody says that it is done.
    setTimeout(done);
  });
  api.addEvent(api.Event.Undo, done);
  return () => isAtWork;
}

export type SheetFacade = NonNullable<
  ReturnType<NonNullable<ReturnType<FUniver["getActiveWorkbook"]>>["getSheetBySheetId"]>
>;

function touchesRow({ cells }: Written, row: number, range: ITableInfo["range"]): boolean {
  return Object.keys(cells[row] ?? {}).some((key) => {
    const column = Number(key);
    return column >= range.startColumn && column <= range.endColumn;
  });
}

/** How many rows without a gap stand below the table now: a whole block may have been pasted. */
function filledRowsBelow(sheet: Worksheet, { range }: ITableInfo): number {
  let rows = 0;
  while (rowHolds(sheet, range.endRow + 1 + rows, range.startColumn, range.endColumn)) rows += 1;
  return rows;
}

function rowHolds(sheet: Worksheet, row: number, firstColumn: number, lastColumn: number): boolean {
  if (row >= sheet.getRowCount()) return false;
  for (let column = firstColumn; column <= lastColumn; column += 1) {
    if (holdsSomething(sheet.getCellRaw(row, column))) return true;
  }
  return false;
}

function holdsSomething(cell: Nullable<ICellData>): boolean {
  if (!cell) return false;
  return Boolean(cell.f) || Boolean(cell.si) || (cell.v !== null && cell.v !== undefined && cell.v !== "");
}

/** Has all that the action does to the workbook be one step for Undo, also where it is part of another such action. */
export async function oneStep(
  undoRedo: IUndoRedoService,
  workbookId: string,
  action: () => Promise<void>,
): Promise<void> {
  let batch: IDisposable | undefined;
  try {
    batch = undoRedo.__tempBatchingUndoRedo(workbookId);
  } catch {
    // The steps are being gathered already.
  }
  try {
    await action();
  } finally {
    batch?.dispose();
  }
}

/** Cells by row and column, counted from 0. */
export type CellMatrix = Record<number, Record<number, ICellData>>;

/**
 * Gives the table this many rows more, with their formulas and looks, and with what `content` has in store for them. All
 * cells in one write: half of it undone would look like a row that somebody has just typed.
 */
export async function growTable(
  worksheet: SheetFacade,
  table: ITableInfo,
  rows: number,
  content: CellMatrix = {},
): Promise<void> {
  const { startRow, startColumn, endColumn, endRow } = table.range;
  await worksheet.setTableRange(table.id, { startRow, startColumn, endColumn, endRow: endRow + rows });
  const sheet = worksheet.getSheet();
  const cells: CellMatrix = {};
  // One row further than the table: it is to be formatted before anything is typed there.
  for (let row = endRow + 1; row <= Math.min(endRow + rows + 1, sheet.getRowCount() - 1); row += 1) {
    for (let column = startColumn; column <= endColumn; column += 1) {
      const cell = grownCell({
        belongs: row <= endRow + rows,
        here: sheet.getCellRaw(row, column),
        above: sheet.getCellRaw(endRow, column),
        given: content[row]?.[column],
        formula: table.columns[column - startColumn]?.formula,
      });
      if (cell) (cells[row] ??= {})[column] = cell;
    }
  }
  writeCells(worksheet, cells);
}

interface Grown {
  /** Whether the cell's row is the table's now; the one below it is not. */
  readonly belongs: boolean;
  readonly here: Nullable<ICellData>;
  readonly above: Nullable<ICellData>;
  readonly given: ICellData | undefined;
  /** Of a calculated column. */
  readonly formula: string | undefined;
}

/** What a cell below the table is to hold, or undefined where it stays as it is. */
function grownCell({ belongs, here, above, given, formula }: Grown): ICellData | undefined {
  const style = here?.s ? undefined : above?.s;
  const filled = belongs && Boolean(formula) && !given && !holdsSomething(here);
  // A calculated column is drawn as one only where it holds its formula.
  const styled = Boolean(style) && (belongs || !formula);
  if (!given && !filled && !styled) return undefined;
  return {
    ...(here?.v === undefined ? {} : { v: here.v, t: here.t ?? CellValueType.STRING }),
    ...given,
    ...(filled ? { f: formula ?? "" } : {}),
    ...(styled && style ? { s: style } : {}),
  };
}

/** One write, and so one step for Undo. */
export function writeCells(worksheet: SheetFacade, cells: CellMatrix): void {
  if (Object.keys(cells).length > 0) worksheet.getRange(0, 0).setValues(cells);
}

/** For the list of mends. */
export const growingTables: Mend<"api" | "injector"> = {
  name: "growing-tables",
  why: "What is typed just below a table would not belong to it.",
  until: "The grid's tables grow as a spreadsheet program's do.",
  isNeeded: (injector) => hasMethods(injector.get(IUndoRedoService), "pushUndoRedo"),
  apply: ({ api, injector }) => void growTables(api, injector),
};
