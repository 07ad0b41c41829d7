/** Where a table of a plan lies on its sheet: the same answer for every writer. */
import type { Block, TableColumn, TablePlan, Validation } from "./schema";

/** How many rows, from the first below the headings, get the columns' validation, so that rows added later have it. */
export const VALIDATED_ROWS = 2000;
/** At least so many of them are free: a long log gets more. */
const FREE_ROWS = 1000;

/** Headings and rows. */
export function tableBlock(table: TablePlan): Block {
  return { ...table.at, rows: table.rows.length + 1, columns: table.columns.length };
}

/** The cells of one column, without its heading. */
export function columnBlock(table: TablePlan, heading: string): Block {
  return { row: table.at.row + 1, column: columnNumber(table, heading), rows: table.rows.length, columns: 1 };
}

/** The cells of one column that its validation holds for: the present rows and the room for later ones. */
export function validatedBlock(table: TablePlan, column: TableColumn): Block {
  return {
    row: table.at.row + 1,
    column: columnNumber(table, column.heading),
    rows: Math.max(VALIDATED_ROWS, table.rows.length + FREE_ROWS),
    columns: 1,
  };
}

/** Whether anything is said about a value that the validation does not know. A list without such words only suggests. */
export function saysNo({ allowed, errorMessage }: Validation): boolean {
  if (allowed.kind === "none") return false;
  return allowed.kind !== "list" || allowed.strict || errorMessage !== undefined;
}

function columnNumber(table: TablePlan, heading: string): number {
  const index = table.columns.findIndex((column) => column.heading === heading);
  if (index < 0) throw new Error(`Table ${table.name} has no column ${heading}.`);
  return table.at.column + index;
}
