/** One sheet of the file as the grid keeps it: cells, rows, columns and what lies around them. */
import {
  BooleanNumber,
  type IColumnData,
  type IFreeze,
  type IRange,
  type IRowData,
  type IWorksheetData,
} from "@univerjs/core";

import { LAST_COLUMN, LAST_ROW } from "../../../core/sheet";
import { PREPARED_ROWS } from "../../adapter/grid-writer";
import { readColour } from "../../../xlsx/parts/styles/colours";
import { refuse } from "../../../xlsx/package/file-refused";
import { limits } from "../../../xlsx/package/limits";
import { columnPixels, rowPixels } from "../../../xlsx/parts/layout/measures";
import { type GridPlace, parsePlace, parseRange } from "../../../xlsx/ranges";
import { type ArrayFormula, type CellReading, SheetCells } from "../cells/read";
import { styleId } from "../styles/read";
import { gridTableRange } from "../tables/grid-tables";
import type { SheetEntry } from "../../../xlsx/parts/workbook/read";
import { child, children, decimalNumber, isTrue, parseXml, wholeNumber, type XmlElement } from "../../../xlsx/xml/tree";

/** Rows and columns beyond what is used: room for a log to grow and for answers to spill. */
const SPARE_ROWS = 1000;
const SPARE_COLUMNS = 12;
const LEAST_COLUMNS = 26;
/** A row that is drawn to the sheet's end is not all room that is wanted. */
const MOST_DRAWN_COLUMNS = 100;
/** A stray cell at the foot of a sheet of a million rows is no room that anyone needs. */
const MOST_NAMED_ROWS = 200_000;
const USUAL_ROW_POINTS = 15;
const USUAL_COLUMN_CHARACTERS = 8;
const PADDING_CHARACTERS = 5 / 7;

type GridSheetData = Partial<IWorksheetData> & {
  readonly id: string;
  readonly name: string;
  readonly rowCount: number;
  readonly columnCount: number;
};

export interface ReadSheetPart {
  readonly sheet: GridSheetData;
  /** The part's own tree, its rows left out. */
  readonly root: XmlElement;
  readonly source: string;
  /** Cells whose formula the grid cannot work out. */
  readonly keptFormulas: readonly GridPlace[];
  /** What those formulas say, each once. */
  readonly keptTexts: ReadonlySet<string>;
  /** By the key of their own cell: formulas that the file marks as ones for a whole block. */
  readonly arrays: ReadonlyMap<number, ArrayFormula>;
}

export function readSheetPart(text: string, entry: SheetEntry, id: string, reading: CellReading): ReadSheetPart {
  const cells = new SheetCells(reading);
  const rowData: Record<number, Partial<IRowData>> = {};
  const { root, source } = parseXml(text, {
    parent: "sheetData",
    each: (row) => {
      if (row.name !== "row") return;
      const number = cells.readRow(row);
      const data = readRow(row);
      if (data !== undefined) rowData[number] = data;
    },
  });
  if (root.name !== "worksheet") refuse("damaged");

  const merges = readMerges(root);
  const growing = reading.tables.filter(({ hasTotals }) => !hasTotals).map(gridTableRange);
  const lastRow = Math.max(
    cells.lastRow,
    ...merges.map(({ endRow }) => endRow),
    ...reading.tables.map(({ range }) => range.endRow),
  );
  const lastColumn = Math.max(
    cells.lastColumn,
    Math.min(cells.lastDrawnColumn, MOST_DRAWN_COLUMNS),
    ...merges.map(({ endColumn }) => endColumn),
    ...reading.tables.map(({ range }) => range.endColumn),
  );
  const rowCount = Math.min(
    LAST_ROW,
    Math.max(lastRow + 1 + SPARE_ROWS, Math.min(cells.lastNamedRow + 1, MOST_NAMED_ROWS)),
  );
  const columnCount = Math.min(LAST_COLUMN, Math.max(LEAST_COLUMNS, lastColumn + 1 + SPARE_COLUMNS));
  trim(cells, rowCount, columnCount);
  const columns = readColumns(root, columnCount);
  prepareCells(cells, columns, growing, rowCount, reading);

  const view = child(child(root, "sheetViews"), "sheetView");
  const format = child(root, "sheetFormatPr");
  const tabColour = readColour(child(child(root, "sheetPr"), "tabColor"), reading.styles.palette);
  return {
    sheet: {
      id,
      name: entry.name,
      hidden: entry.isHidden ? BooleanNumber.TRUE : BooleanNumber.FALSE,
      ...(tabColour === undefined ? {} : { tabColor: tabColour }),
      rowCount,
      columnCount,
      defaultRowHeight: rowPixels(decimalNumber(format, "defaultRowHeight") ?? USUAL_ROW_POINTS),
      defaultColumnWidth: usualColumnPixels(format),
      cellData: cells.cells,
      rowData: Object.fromEntries(Object.entries(rowData).filter(([row]) => Number(row) < rowCount)),
      columnData: columns,
      mergeData: merges,
      freeze: readFreeze(view),
      showGridlines: isTrue(view, "showGridLines", true) ? BooleanNumber.TRUE : BooleanNumber.FALSE,
      rightToLeft: isTrue(view, "rightToLeft") ? BooleanNumber.TRUE : BooleanNumber.FALSE,
      zoomRatio: (wholeNumber(view, "zoomScale") ?? 100) / 100,
    },
    root,
    source,
    keptFormulas: cells.keptFormulas,
    keptTexts: cells.keptTexts,
    arrays: cells.arrays,
  };
}

function readRow(row: XmlElement): Partial<IRowData> | undefined {
  const height = decimalNumber(row, "ht");
  const isHidden = isTrue(row, "hidden");
  const style = isTrue(row, "customFormat") ? wholeNumber(row, "s") : undefined;
  if (height === undefined && !isHidden && style === undefined) return undefined;
  return {
    ...(height === undefined ? {} : { h: rowPixels(height), ia: BooleanNumber.FALSE }),
    ...(isHidden ? { hd: BooleanNumber.TRUE } : {}),
    ...(style === undefined || style === 0 ? {} : { s: styleId(style) }),
  };
}

function readMerges(root: XmlElement): IRange[] {
  const merges = children(child(root, "mergeCells"), "mergeCell");
  if (merges.length > limits.merges) refuse("damaged");
  return merges.flatMap(({ attributes }) => {
    const range = parseRange(attributes["ref"] ?? "");
    const isMerge = range !== undefined && (range.endRow > range.startRow || range.endColumn > range.startColumn);
    return isMerge ? [range] : [];
  });
}

/** Looks far beyond all content would only cost memory; the file keeps them. */
function trim({ cells }: SheetCells, rowCount: number, columnCount: number): void {
  for (const [row, line] of Object.entries(cells)) {
    if (Number(row) >= rowCount) {
      Reflect.deleteProperty(cells, row);
      continue;
    }
    for (const column of Object.keys(line ?? {})) {
      if (Number(column) >= columnCount) Reflect.deleteProperty(line ?? {}, column);
    }
  }
}

function readColumns(root: XmlElement, columnCount: number): Record<number, Partial<IColumnData>> {
  const columns: Record<number, Partial<IColumnData>> = {};
  for (const column of children(child(root, "cols"), "col")) {
    const first = (wholeNumber(column, "min") ?? 1) - 1;
    const last = Math.min((wholeNumber(column, "max") ?? 1) - 1, columnCount - 1);
    const characters = decimalNumber(column, "width");
    const style = wholeNumber(column, "style") ?? 0;
    for (let number = Math.max(0, first); number <= last; number += 1) {
      columns[number] = {
        ...(characters === undefined ? {} : { w: columnPixels(characters) }),
        ...(isTrue(column, "hidden") ? { hd: BooleanNumber.TRUE } : {}),
        ...(style === 0 ? {} : { s: styleId(style) }),
      };
    }
  }
  return columns;
}

/**
 * Cells without content that get their look before anything is typed there: the grid reads what is typed by the cell's
 * own number format, never by its column's, and `8/10` must not become a date in a column of text.
 */
function prepareCells(
  { cells, lastRow, lastColumn }: SheetCells,
  columns: Readonly<Record<number, Partial<IColumnData>>>,
  tables: readonly IRange[],
  rowCount: number,
  { styles, budget }: CellReading,
): void {
  const prepare = (column: number, from: number, to: number, style: unknown): void => {
    if (typeof style !== "string") return;
    for (let row = from; row <= Math.min(to, rowCount - 1); row += 1) {
      const line = (cells[row] ??= {});
      if (line[column] !== undefined) continue;
      budget.cell();
      line[column] = { s: style };
    }
  };
  for (const { startRow, endRow, startColumn, endColumn } of tables) {
    for (let column = startColumn; column <= endColumn; column += 1) {
      const style = columns[column]?.s ?? (endRow > startRow ? cells[endRow]?.[column]?.s : undefined);
      prepare(column, endRow + 1, endRow + PREPARED_ROWS, style);
    }
  }
  for (const [column, { s }] of Object.entries(columns)) {
    const style = typeof s === "string" ? styles.cellStyles[Number(s.slice(1))] : undefined;
    if (style?.n && Number(column) <= lastColumn) prepare(Number(column), 0, lastRow + PREPARED_ROWS, s);
  }
}

function usualColumnPixels(format: XmlElement | undefined): number {
  const characters = decimalNumber(format, "defaultColWidth");
  if (characters !== undefined) return columnPixels(characters);
  // Where no width is given the program rounds its own up to a multiple of eight.
  const base = wholeNumber(format, "baseColWidth") ?? USUAL_COLUMN_CHARACTERS;
  return Math.ceil(columnPixels(base + PADDING_CHARACTERS) / 8) * 8;
}

function readFreeze(view: XmlElement | undefined): IFreeze {
  const pane = child(view, "pane");
  const isFrozen = /^frozen/.test(pane?.attributes["state"] ?? "");
  const columns = isFrozen ? Math.trunc(decimalNumber(pane, "xSplit") ?? 0) : 0;
  const rows = isFrozen ? Math.trunc(decimalNumber(pane, "ySplit") ?? 0) : 0;
  if (columns <= 0 && rows <= 0) return { xSplit: 0, ySplit: 0, startRow: -1, startColumn: -1 };
  // Rows that were scrolled away above the frozen ones stay out of sight in the program that wrote this; here they show.
  const first = view?.attributes["topLeftCell"];
  const origin = first === undefined ? { row: 0, column: 0 } : parsePlace(first);
  const startRow = rows > 0 ? rows + origin.row : -1;
  const startColumn = columns > 0 ? columns + origin.column : -1;
  return { xSplit: columns, ySplit: rows, startRow, startColumn };
}
