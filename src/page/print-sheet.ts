/**
 * Prints the sheet that is shown, as the page cannot print the grid's drawing: its cells as they are shown, in the
 * columns that its plan prints, with its headings on each page and its charts below.
 */
import "@univerjs/sheets/facade";
import type { Injector } from "@univerjs/core";
import type { FUniver } from "@univerjs/core/facade";
import type { FWorksheet } from "@univerjs/sheets/facade";

import { statusLooks, statusWordLooks } from "../workbook/plan/looks";
import type { Status } from "../trade/statuses";
import type { ColumnSpan } from "../workbook/plan/schema";
import type { PrintPlans } from "../grid/adapter/print-plans";
import { chartOn, type SheetCharts } from "../grid/adapter/sheet-charts";

/** The room on a page of A4 inside its margins, at 96 dots an inch. */
const PAGE_PIXELS = { landscape: 1040, portrait: 710 } as const;

interface PrintParts {
  readonly api: FUniver;
  readonly injector: Injector;
  readonly charts: SheetCharts;
  readonly prints: PrintPlans;
}

/** Lays the shown sheet out for paper and opens the browser's own dialog. */
export function printSheet({ api, injector, charts, prints }: PrintParts): void {
  const sheet = api.getActiveWorkbook()?.getActiveSheet();
  if (!sheet) return;
  const print = prints.of(sheet.getSheetId());
  const used = usedSize(sheet);
  const spans = print?.columns ?? [{ first: 1, last: used.columns }];
  const orientation = print?.orientation ?? "landscape";
  const paper = document.createElement("div");
  paper.className = `page-paper page-paper-${orientation}`;
  for (const span of spans) {
    const table = spanTable(sheet, span, used.rows, print?.repeatRows ?? 0);
    const own = charts.of(sheet.getSheetId()).filter(({ on }) => on.column >= span.first && on.column <= span.last);
    if (table === null && own.length === 0) continue;
    const section = document.createElement("section");
    if (table !== null) {
      const width = table.width;
      table.element.style.zoom = String(Math.min(1, PAGE_PIXELS[orientation] / width));
      section.append(table.element);
    }
    section.append(...own.map((chart) => chartOn(chart, sheet, injector, { width: 620, height: 420 })));
    paper.append(section);
  }
  document.body.append(paper);
  document.body.dataset["printing"] = "";
  window.addEventListener(
    "afterprint",
    () => {
      paper.remove();
      delete document.body.dataset["printing"];
    },
    { once: true },
  );
  window.print();
}

function usedSize(sheet: FWorksheet): { readonly rows: number; readonly columns: number } {
  return { rows: sheet.getLastRow() + 1, columns: sheet.getLastColumn() + 1 };
}

interface SpanTable {
  readonly element: HTMLTableElement;
  readonly width: number;
}

/** Columns side by side as a table; null where nothing stands in them. Rows and columns count from 1. */
function spanTable(sheet: FWorksheet, span: ColumnSpan, lastRow: number, repeatRows: number): SpanTable | null {
  const matrix = sheet.getSheet();
  const columns = [...Array(span.last - span.first + 1).keys()].map((index) => span.first + index);
  const shown = (row: number, column: number): string => {
    const value = matrix.getCell(row - 1, column - 1)?.v;
    return value === undefined || value === null ? "" : String(value);
  };
  const texts = [...Array(lastRow).keys()].map((index) => columns.map((column) => shown(index + 1, column)));
  const end = texts.reduce((last, row, index) => (row.some((text) => text !== "") ? index + 1 : last), 0);
  if (end === 0) return null;

  const table = document.createElement("table");
  const widths = columns.map((column) => sheet.getColumnWidth(column - 1));
  const group = document.createElement("colgroup");
  for (const width of widths) {
    const col = document.createElement("col");
    col.style.width = `${String(width)}px`;
    group.append(col);
  }
  const head = document.createElement("thead");
  const body = document.createElement("tbody");
  texts.slice(0, end).forEach((row, index) => {
    const line = document.createElement("tr");
    for (let at = 0; at < columns.length;) {
      // A text runs on over the empty cells beside it, as it does on the sheet.
      let cells = 1;
      while (row[at] !== "" && at + cells < columns.length && row[at + cells] === "") cells += 1;
      const cell = document.createElement(index < repeatRows ? "th" : "td");
      cell.textContent = row[at] ?? "";
      cell.colSpan = cells;
      drawCell(cell, sheet, index, (columns[at] ?? 1) - 1);
      line.append(cell);
      at += cells;
    }
    (index < repeatRows ? head : body).append(line);
  });
  table.append(group, head, body);
  return { element: table, width: widths.reduce((sum, width) => sum + width, 0) };
}

/** The cell's own look; a status word has its colours by its word, as the sheet's rules say. */
function drawCell(cell: HTMLTableCellElement, sheet: FWorksheet, row: number, column: number): void {
  const style = sheet.getSheet().getComposedCellStyle(row, column);
  const look = statusWordLooks[cell.textContent as Status] as keyof typeof statusLooks | undefined;
  const status = look === undefined ? undefined : statusLooks[look];
  const colour = status?.textColour ?? style.cl?.rgb;
  const fill = status?.fill ?? style.bg?.rgb;
  if (colour) cell.style.color = colour;
  if (fill) cell.style.backgroundColor = fill;
  cell.style.fontWeight = status?.bold === true || style.bl === 1 ? "bold" : "normal";
  if (style.it === 1) cell.style.fontStyle = "italic";
  if (style.fs) cell.style.fontSize = `${String(style.fs)}pt`;
}
