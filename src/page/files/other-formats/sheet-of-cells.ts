/** Cells of another format as a sheet of a new workbook. */
import type { CellPlan, Content, NumberFormat, SheetPlan } from "../../../workbook/plan/schema";

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
    areas: [],
    cells: cells.map(planned),
    tables: [],
    validations: [],
    rules: [],
    charts: [],
    frozen: { rows: 0, columns: 0 },
  };
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
