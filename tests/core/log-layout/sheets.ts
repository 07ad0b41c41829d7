/** Blocks of invented sheets, written down as people see them. */
import { cellName } from "../../../src/workbook/plan/address";
import { cellValue, type CellBlock, type CellValue } from "../../../src/core/log-layout/cell-block";

/** A cell with a number format and the text that the sheet shows. */
interface Formatted {
  readonly value: number;
  readonly format: string;
  readonly text: string;
}

type Written = string | number | boolean | null | Formatted;

const MILLISECONDS_IN_DAY = 86_400_000;
const DAY_ZERO = Date.UTC(1899, 11, 30);

/** The sheet serial of a day such as `2026-03-12`. */
export function serial(day: string): number {
  return (Date.parse(`${day}T00:00:00Z`) - DAY_ZERO) / MILLISECONDS_IN_DAY;
}

/** A real date. */
export function day(iso: string): Formatted {
  const [year = "", month = "", date = ""] = iso.split("-");
  return { value: serial(iso), format: "dd/mm/yyyy", text: `${date}/${month}/${year}` };
}

/** What becomes of `8/10` in an unformatted cell. */
export function turned(iso: string, text: string): Formatted {
  return { value: serial(iso), format: "d-mmm", text };
}

/** Rows from a cell on, `B4` say; shorter rows are filled up with empty cells. */
export function sheet(from: string, rows: readonly (readonly Written[])[]): CellBlock {
  const found = /^([A-Z])(\d+)$/.exec(from);
  const columns = Math.max(...rows.map((row) => row.length));
  const full = rows.map((row) => Array.from({ length: columns }, (_, index) => row[index] ?? null));
  const isFormatted = (cell: Written): cell is Formatted => typeof cell === "object" && cell !== null;
  return {
    row: Number(found?.[2]),
    column: (found?.[1]?.charCodeAt(0) ?? 0) - 64,
    values: full.map((row) => row.map((cell): CellValue => (isFormatted(cell) ? cell.value : cellValue(cell)))),
    numberFormats: full.map((row) => row.map((cell) => (isFormatted(cell) ? cell.format : "General"))),
    texts: full.map((row) => row.map((cell) => (isFormatted(cell) ? cell.text : cell === null ? "" : String(cell)))),
  };
}

/** The number of a column by its letter. */
export function col(letter: string): number {
  return letter.charCodeAt(0) - 64;
}

export function addressOf(cell: { readonly row: number; readonly column: number }): string {
  return cellName(cell);
}
