/** The tables of the page's workbook, read and added to as the pane asks. */
import "@univerjs/sheets/facade";
import "@univerjs/sheets-table/facade";
import {
  CellValueType,
  ICommandService,
  type ICellData,
  type Injector,
  IUndoRedoService,
  type Nullable,
} from "@univerjs/core";
import type { FUniver } from "@univerjs/core/facade";
import { type ITableJson, SetSheetTableCommand, TableColumnDataTypeEnum } from "@univerjs/sheets-table";

import type { CellValue, TableContent } from "../../taskpane/host/host";
import { texts } from "../../taskpane/words/texts";
import { blockName, cellName } from "../../workbook/plan/address";
import { quoteSheetName } from "../../workbook/plan/formula";
import type { Block, Content } from "../../workbook/plan/schema";
import { growTable, oneStep, type SheetFacade, writeCells } from "../mends/growing-tables";

type Book = NonNullable<ReturnType<FUniver["getActiveWorkbook"]>>;

interface FoundTable {
  readonly id: string;
  readonly sheet: SheetFacade;
  readonly headings: readonly string[];
  /** Of the headings. */
  readonly firstRow: number;
  readonly firstColumn: number;
  readonly lastRow: number;
}

export function readTables(book: Book, names: readonly string[]): readonly TableContent[] {
  return names.map((name) => {
    const { sheet, headings, firstRow, firstColumn, lastRow } = find(book, name);
    return {
      sheet: sheet.getSheetName(),
      at: { row: firstRow + 1, column: firstColumn + 1 },
      headings,
      rows: values(sheet, firstRow + 1, firstColumn, lastRow - firstRow, headings.length),
    };
  });
}

export function readBlock(book: Book, sheetName: string, block: Block): readonly (readonly CellValue[])[] {
  const sheet = book.getSheetByName(sheetName);
  if (!sheet) throw new Error(`There is no sheet ${sheetName}.`);
  return values(sheet, block.row - 1, block.column - 1, block.rows, block.columns);
}

/** One step for Undo: the table's new row and what stands in it go and come together. */
export async function appendRow(
  book: Book,
  injector: Injector,
  name: string,
  cells: ReadonlyMap<string, Content>,
): Promise<string> {
  const table = find(book, name);
  const { sheet, headings, firstColumn } = table;
  const unknown = [...cells.keys()].find((heading) => !headings.includes(heading));
  if (unknown !== undefined) throw new Error(`The table ${name} has no column ${unknown}.`);

  const row = firstFreeRow(table);
  const written: Record<number, ICellData> = {};
  headings.forEach((heading, index) => {
    const content = cells.get(heading);
    if (content && content.kind !== "empty") written[firstColumn + index] = cellOf(content);
  });
  await oneStep(injector.get(IUndoRedoService), book.getId(), async () => {
    const info = book.getTableInfo(table.id);
    if (row > table.lastRow && info) await growTable(sheet, info, 1, { [row]: written });
    else writeCells(sheet, { [row]: written });
  });
  const block: Block = { row: row + 1, column: firstColumn + 1, rows: 1, columns: headings.length };
  return `${quoteSheetName(sheet.getSheetName())}!${blockName(block)}`;
}

/** One step for Undo: the columns, their headings and how their cells are drawn come and go together. */
export async function addColumns(
  book: Book,
  injector: Injector,
  name: string,
  headings: readonly string[],
): Promise<void> {
  const { id, sheet, headings: present, firstRow, firstColumn, lastRow } = find(book, name);
  const added = headings.filter((heading) => !present.includes(heading));
  if (added.length === 0) return;
  const from = firstColumn + present.length;
  const worksheet = sheet.getSheet();
  for (let row = firstRow; row <= lastRow; row += 1) {
    for (let column = from; column < from + added.length; column += 1) {
      if (valueAt(sheet, row, column) === "") continue;
      throw new Error(texts.cellNotEmpty(cellName({ row: row + 1, column: column + 1 })));
    }
  }
  const columns = book.getTableInfo(id)?.columns ?? [];
  const typed = columns.map(({ formula }) => !formula).lastIndexOf(true);
  const cells: Record<number, Record<number, ICellData>> = {};
  for (let row = firstRow; row <= lastRow; row += 1) {
    // As the last column is drawn in which somebody types: what is worked out looks another way.
    const style = worksheet.getCellRaw(row, firstColumn + Math.max(0, typed))?.s;
    const looks = style === null || style === undefined ? {} : { s: style };
    added.forEach((heading, index) => {
      const words = row === firstRow ? { v: heading, t: CellValueType.STRING } : {};
      (cells[row] ??= {})[from + index] = { ...looks, ...words };
    });
  }
  await oneStep(injector.get(IUndoRedoService), book.getId(), async () => {
    const missing = from + added.length - worksheet.getColumnCount();
    if (missing > 0) sheet.insertColumnsAfter(worksheet.getColumnCount() - 1, missing);
    await injector.get(ICommandService).executeCommand(SetSheetTableCommand.id, {
      unitId: book.getId(),
      tableId: id,
      rowColOperation: {
        operationType: "insert",
        rowColType: "column",
        index: from,
        count: added.length,
        columnsJson: added.map((heading) => newColumn(heading)),
      },
    });
    writeCells(sheet, cells);
  });
}

function newColumn(heading: string): ITableJson["columns"][number] {
  return {
    id: crypto.randomUUID(),
    displayName: heading,
    dataType: TableColumnDataTypeEnum.None,
    formula: "",
    meta: {},
    style: {},
  };
}

function find(book: Book, name: string): FoundTable {
  const info = book.getTableInfoByName(name);
  const sheet = info && book.getSheetBySheetId(info.subUnitId);
  if (!info || !sheet) throw new Error(`The workbook has no table ${name}.`);
  const { startRow, startColumn, endRow } = info.range;
  return {
    id: info.id,
    sheet,
    headings: info.columns.map(({ displayName }) => displayName),
    firstRow: startRow,
    firstColumn: startColumn,
    lastRow: endRow,
  };
}

/** The row after the last one in which somebody has written something; a calculated column does not count. */
function firstFreeRow({ sheet, headings, firstRow, firstColumn, lastRow }: FoundTable): number {
  let row = lastRow;
  const isTyped = (cell: Nullable<ICellData>): boolean => !cell?.f && !cell?.si && valueOf(cell) !== "";
  while (
    row > firstRow &&
    !headings.some((_, index) => isTyped(sheet.getSheet().getCellRaw(row, firstColumn + index)))
  ) {
    row -= 1;
  }
  return row + 1;
}

function values(sheet: SheetFacade, row: number, column: number, rows: number, columns: number): CellValue[][] {
  return Array.from({ length: rows }, (_, down) =>
    Array.from({ length: columns }, (_, across) => valueAt(sheet, row + down, column + across)),
  );
}

/** The cell's own value, a day as its number: the grid hands out what it shows instead, where it can. */
function valueAt(sheet: SheetFacade, row: number, column: number): CellValue {
  const own = valueOf(sheet.getSheet().getCellRaw(row, column));
  // What another formula has spilled into a cell is not its own.
  return own === "" ? valueOf(sheet.getSheet().getCell(row, column)) : own;
}

function valueOf(cell: Nullable<ICellData>): CellValue {
  const value = cell?.v;
  if (value === null || value === undefined) return "";
  return cell?.t === CellValueType.BOOLEAN ? Boolean(value) : value;
}

function cellOf(content: Exclude<Content, { kind: "empty" }>): ICellData {
  switch (content.kind) {
    case "text":
      // Said to be text, so that neither `=1+1` nor `0110` is read as anything else.
      return { v: content.text, t: CellValueType.STRING };
    case "number":
      return { v: content.value, t: CellValueType.NUMBER };
    case "date":
      return { v: content.serial, t: CellValueType.NUMBER };
    case "formula":
      throw new Error("A row of typed cells holds no formula.");
  }
}
