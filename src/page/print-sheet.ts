/**
 * Prints sheets, as the page cannot print the grid's drawing: their cells as they are shown, in the columns that their plans
 * print, with the headings on each page, the charts where they lie or below, and no gaps of empty rows.
 */
import "@univerjs/sheets/facade";
import { CellValueType, HorizontalAlign, type Injector, type IStyleData } from "@univerjs/core";
import type { FUniver } from "@univerjs/core/facade";
import type { FWorksheet } from "@univerjs/sheets/facade";

import { type StatusDrawing, statusLooks, statusWordLooks } from "../workbook/plan/looks";
import type { Status } from "../trade/statuses";
import type { Block, ChartPlan, ColumnSpan } from "../workbook/plan/schema";
import type { PrintPlans } from "../grid/adapter/print-plans";
import { chartOn, type SheetCharts } from "../grid/adapter/sheet-charts";

/** Inside a cell of the printed table, left and right together. */
const PADDING_PIXELS = 8;

/** The room on a page of A4 inside its margins, at 96 dots an inch. */
const PAGE_PIXELS = { landscape: 1040, portrait: 710 } as const;

interface PrintParts {
  readonly api: FUniver;
  readonly injector: Injector;
  readonly charts: SheetCharts;
  readonly prints: PrintPlans;
}

/**
 * Lays sheets out for paper, each from a new page on, and opens the browser's own dialog.
 * @param names of sheets; the shown one where left out. One that is gone is passed over.
 */
export function printSheets(parts: PrintParts, names?: readonly string[]): void {
  const workbook = parts.api.getActiveWorkbook();
  if (!workbook) return;
  const wanted = names ?? [workbook.getActiveSheet().getSheetName()];
  const sheets = wanted.flatMap((name) => workbook.getSheetByName(name) ?? []);
  if (sheets.length === 0) return;
  const papers = sheets.map((sheet) => paperOf(sheet, parts));
  document.body.append(...papers);
  document.body.dataset["printing"] = "";
  window.addEventListener(
    "afterprint",
    () => {
      for (const paper of papers) paper.remove();
      delete document.body.dataset["printing"];
    },
    { once: true },
  );
  window.print();
}

function paperOf(sheet: FWorksheet, { injector, charts, prints }: PrintParts): HTMLElement {
  const print = prints.of(sheet.getSheetId());
  const used = usedSize(sheet);
  const spans = print?.columns ?? [{ first: 1, last: used.columns }];
  const orientation = print?.orientation ?? "landscape";
  const paper = document.createElement("div");
  paper.className = `page-paper page-paper-${orientation}`;
  const picture = (chart: ChartPlan, width: number, height: number): SVGSVGElement =>
    chartOn(chart, sheet, injector, { width, height });
  for (const span of spans) {
    const own = charts.of(sheet.getSheetId()).filter(({ on }) => on.column >= span.first && on.column <= span.last);
    const table = spanTable(sheet, { span, lastRow: used.rows, repeatRows: print?.repeatRows ?? 0 }, own, picture);
    if (table === null && own.length === 0) continue;
    const section = document.createElement("section");
    if (table !== null) {
      table.element.style.zoom = String(Math.min(1, PAGE_PIXELS[orientation] / table.width));
      section.append(table.element);
    }
    const below = own.filter((chart) => table?.inPlace.has(chart) !== true);
    section.append(...below.map((chart) => picture(chart, 620, 420)));
    paper.append(section);
  }
  return paper;
}

function usedSize(sheet: FWorksheet): { readonly rows: number; readonly columns: number } {
  return { rows: sheet.getLastRow() + 1, columns: sheet.getLastColumn() + 1 };
}

interface SpanTable {
  readonly element: HTMLTableElement;
  readonly width: number;
  /** The charts that stand in it, over the cells that they cover on the sheet. */
  readonly inPlace: ReadonlySet<ChartPlan>;
}

interface Printed {
  readonly span: ColumnSpan;
  readonly lastRow: number;
  readonly repeatRows: number;
}

/** Columns side by side as a table; null where nothing stands in them. Rows and columns count from 1. */
function spanTable(
  sheet: FWorksheet,
  { span, lastRow, repeatRows }: Printed,
  charts: readonly ChartPlan[],
  picture: (chart: ChartPlan, width: number, height: number) => SVGSVGElement,
): SpanTable | null {
  const columns = [...Array(span.last - span.first + 1).keys()].map((index) => span.first + index);
  const matrix = sheet.getSheet();
  const shown = (row: number, column: number): string => {
    const value = matrix.getCell(row - 1, column - 1)?.v;
    return value === undefined || value === null ? "" : String(value);
  };
  const texts = [...Array(lastRow).keys()].map((index) => columns.map((column) => shown(index + 1, column)));
  const end = texts.reduce((last, row, index) => (row.some((text) => text !== "") ? index + 1 : last), 0);
  if (end === 0) return null;

  const widths = columns.map((column) => sheet.getColumnWidth(column - 1));
  const widthFrom = (at: number, cells: number): number =>
    widths.slice(at, at + cells).reduce((sum, width) => sum + width, 0);
  const inPlace = new Set(charts.filter(({ on }) => standsFree(on, span, texts, repeatRows)));
  const covering = (row: number, column: number): ChartPlan | undefined =>
    [...inPlace].find(({ on }) => contains(on, row, column));

  const table = document.createElement("table");
  const width = widthFrom(0, columns.length);
  // Without a width of its own a table takes its columns' from their words.
  table.style.width = `${String(width)}px`;
  table.append(columnWidths(widths));
  const head = document.createElement("thead");
  const body = document.createElement("tbody");
  for (const [index, row] of texts.slice(0, end).entries()) {
    const isCovered = columns.some((column) => covering(index + 1, column));
    const isEmpty = (at: number): boolean => texts[at]?.every((text) => text === "") === true;
    // The room that a list has on the sheet would be a gap on paper.
    if (index >= repeatRows && !isCovered && isEmpty(index) && isEmpty(index - 1)) continue;
    const line = document.createElement("tr");
    for (const [at, column] of columns.entries()) {
      const chart = covering(index + 1, column);
      if (chart !== undefined) {
        const { on } = chart;
        if (index + 1 !== on.row || column !== on.column) continue;
        const height = [...Array(on.rows).keys()].reduce((sum, under) => sum + sheet.getRowHeight(index + under), 0);
        const cell = document.createElement("td");
        [cell.rowSpan, cell.colSpan] = [on.rows, on.columns];
        cell.append(picture(chart, widthFrom(at, on.columns) - PADDING_PIXELS, height));
        line.append(cell);
        continue;
      }
      // A text runs on over the empty cells beside it, as it does on the sheet.
      let cells = 1;
      while (row[at] !== "" && row[at + cells] === "" && !covering(index + 1, columns[at + cells] ?? 0)) cells += 1;
      line.append(
        printedCell(sheet, row[at] ?? "", {
          as: index < repeatRows ? "th" : "td",
          row: index,
          column: column - 1,
          room: widthFrom(at, cells) - PADDING_PIXELS,
        }),
      );
    }
    (index < repeatRows ? head : body).append(line);
  }
  table.append(head, body);
  return { element: table, width, inPlace };
}

function contains({ row: top, column: left, rows, columns }: Block, row: number, column: number): boolean {
  return row >= top && row < top + rows && column >= left && column < left + columns;
}

/** Whether a chart's cells lie whole in the span and below what each page repeats, with nothing written under it. */
function standsFree(on: Block, span: ColumnSpan, texts: readonly (readonly string[])[], repeatRows: number): boolean {
  if (on.row <= repeatRows || on.row + on.rows - 1 > texts.length || on.column + on.columns - 1 > span.last)
    return false;
  const from = on.column - span.first;
  return texts
    .slice(on.row - 1, on.row - 1 + on.rows)
    .every((row) => row.slice(from, from + on.columns).every((text) => text === ""));
}

function columnWidths(widths: readonly number[]): HTMLTableColElement {
  const group = document.createElement("colgroup");
  for (const width of widths) {
    const col = document.createElement("col");
    col.style.width = `${String(width)}px`;
    group.append(col);
  }
  return group;
}

const SIDES = [
  ["borderTop", "t"],
  ["borderRight", "r"],
  ["borderBottom", "b"],
  ["borderLeft", "l"],
] as const;

interface PrintedCell {
  readonly as: "th" | "td";
  /** From 0. */
  readonly row: number;
  readonly column: number;
  /** How wide its words may run, in pixels. */
  readonly room: number;
}

/** The cell's own look; a status word has its colours by its word, as the sheet's rules say. */
function printedCell(sheet: FWorksheet, words: string, { as, row, column, room }: PrintedCell): HTMLTableCellElement {
  const cell = document.createElement(as);
  const style = sheet.getSheet().getComposedCellStyle(row, column);
  const look = statusWordLooks[words as Status] as keyof typeof statusLooks | undefined;
  const status = look === undefined ? undefined : statusLooks[look];
  const fill = status?.fill ?? style.bg?.rgb;
  if (fill) cell.style.backgroundColor = fill;
  for (const [side, at] of SIDES) {
    const line = style.bd?.[at];
    if (line) cell.style[side] = `1px solid ${line.cl.rgb ?? "currentColor"}`;
  }
  if (words === "") return cell;
  const text = printedWords(words, style, status);
  const isNumber = sheet.getSheet().getCellRaw(row, column)?.t === CellValueType.NUMBER;
  const toTheRight = style.ht ? style.ht === HorizontalAlign.RIGHT : isNumber;
  if (toTheRight) text.style.textAlign = "right";
  else text.style.width = `${String(room)}px`;
  cell.append(text);
  return cell;
}

function printedWords(words: string, style: IStyleData, status: StatusDrawing | undefined): HTMLElement {
  const text = document.createElement("div");
  text.textContent = words;
  const colour = status?.textColour ?? style.cl?.rgb;
  if (colour) text.style.color = colour;
  text.style.fontWeight = status?.bold === true || style.bl === 1 ? "bold" : "normal";
  if (style.it === 1) text.style.fontStyle = "italic";
  if (style.fs) text.style.fontSize = `${String(style.fs)}pt`;
  return text;
}
