/** Cells of another format as a sheet of a new workbook. */
import { LAST_ROW } from "../../../core/sheet";
import type { AreaPlan, CellPlan, Content, NumberFormat, SheetPlan } from "../../../workbook/plan/schema";

export type OtherCell =
  | { readonly kind: "text"; readonly text: string }
  | { readonly kind: "number"; readonly value: number; readonly format?: NumberFormat }
  | { readonly kind: "date"; readonly serial: number };

export interface PlacedCell {
  /** Counted from 1. */
  readonly row: number;
  readonly column: number;
  readonly cell: OtherCell;
}

const LONGEST_NAME = 31;
const WIDTH = 14;
const MOST_WIDTHS = 200;

/** @param taken names of other sheets, in small letters */
export function sheetName(wanted: string, taken: ReadonlySet<string>): string {
  const plain = wanted.replace(/[\\/?*[\]:]/g, " ").replace(/^'+|'+$/g, "").replace(/\s+/g, " ").trim() || "Log"; // prettier-ignore
  for (let attempt = 1; ; attempt += 1) {
    const ending = attempt === 1 ? "" : ` (${String(attempt)})`;
    const name = `${plain.slice(0, LONGEST_NAME - ending.length).trim()}${ending}`;
    if (!taken.has(name.toLowerCase())) return name;
  }
}

export function sheetOfCells(name: string, cells: readonly PlacedCell[]): SheetPlan {
  const columns = cells.reduce((most, { column }) => Math.max(most, column), 1);
  return {
    name,
    columnWidths: Array.from({ length: Math.min(columns, MOST_WIDTHS) }, () => WIDTH),
    areas: textBelow(cells),
    cells: cells.map(planned),
    tables: [],
    validations: [],
    rules: [],
    charts: [],
    frozen: { rows: 0, columns: 0 },
  };
}

/** Free rows in which what is typed below such texts stays one: 8/10 would be a day there. */
const ROWS_BELOW = 1000;

function textBelow(cells: readonly PlacedCell[]): readonly AreaPlan[] {
  const columns = new Map<number, { texts: number; all: number; last: number }>();
  for (const { row, column, cell } of cells) {
    const known = columns.get(column) ?? { texts: 0, all: 0, last: 0 };
    known.all += 1;
    if (formatOf(cell) === "text") known.texts += 1;
    known.last = Math.max(known.last, row);
    columns.set(column, known);
  }
  return [...columns].flatMap(
    ([column, { texts, all, last }]) =>
    2 * texts < all || last >= LAST_ROW ? [] : [{ on: { row: last + 1, column, rows: Math.min(ROWS_BELOW, LAST_ROW - last), columns: 1 }, look: "plain" as const, format: "text" as const }], // prettier-ignore
  );
}

function planned({ row, column, cell }: PlacedCell): CellPlan {
  return { at: { row, column }, content: contentOf(cell), look: "plain", format: formatOf(cell) };
}

function contentOf(cell: OtherCell): Content {
  if (cell.kind === "number") return { kind: "number", value: cell.value };
  return cell;
}

/** What a spreadsheet would take for something else as soon as the cell is edited: a day, a number, a formula. */
const LOOKS_LIKE_MORE = /^[\s=+\-@']|^\d/;

function formatOf(cell: OtherCell): NumberFormat {
  if (cell.kind === "text") return LOOKS_LIKE_MORE.test(cell.text) ? "text" : "general";
  return cell.kind === "date" ? "date" : (cell.format ?? "general");
}
