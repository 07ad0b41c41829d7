/**
 * Raw cells to plain ones, once for all functions: what is empty, what is an error, what is a number, a name or a date.
 * An empty cell arrives as the number 0 from some hosts and as null or "" from others, and nothing tells that 0 from a
 * typed one; so 0 is read as empty in every range of marks, names, stages and dates.
 */
import { AttemptLog } from "../core/attempt-log";
import { isBlankMark, readMark, type Cell, type MarkKey } from "../core/marks";
import { Problem, quote } from "../core/problem";

/** The texts of the host's cell errors: inside a range they arrive as error objects or as these texts. */
const ERROR_TEXTS = new Set([
  "#N/A",
  "#VALUE!",
  "#REF!",
  "#DIV/0!",
  "#NUM!",
  "#NAME?",
  "#NULL!",
  "#SPILL!",
  "#CALC!",
  "#GETTING_DATA",
  "#BUSY!",
  "#CONNECT!",
  "#FIELD!",
  "#BLOCKED!",
  "#UNKNOWN!",
  "#PYTHON!",
  "#EXTERNAL!",
  "#TIMEOUT!",
]);

export interface Place {
  readonly argument: string;
  readonly row?: number;
  readonly column?: number;
}

/** One raw cell as a text, number, truth value or null. Errors and what is none of these are refused. */
export function plainCell(raw: unknown, place: Place): Cell {
  if (raw === null || raw === undefined || raw === "") return null;
  if (typeof raw === "string") {
    // Few texts start with #, so the look-up costs nothing for marks and names.
    if (raw.charCodeAt(0) === 35 && ERROR_TEXTS.has(raw.trim().toUpperCase())) refuseError(raw, place);
    return raw;
  }
  if (typeof raw === "number") {
    if (!Number.isFinite(raw))
      throw new Problem({ ...place, found: "a number without a finite value", accepted: "a number" });
    return raw;
  }
  if (typeof raw === "boolean") return raw;
  return plainObject(raw, place);
}

/** Error objects, and the host's data types, which carry a plain value beside what they show. */
function plainObject(raw: unknown, place: Place): Cell {
  const error = property(raw, "code") ?? (property(raw, "type") === "Error" ? property(raw, "basicValue") : undefined);
  if (typeof error === "string") refuseError(error, place);
  const basic = property(raw, "basicValue");
  if (typeof basic === "string" || typeof basic === "boolean" || typeof basic === "number") {
    return plainCell(basic, place);
  }
  throw new Problem({ ...place, found: quote(raw), accepted: "a plain cell: text, number or empty" });
}

/** Reads a property of anything at all; a getter or proxy that throws counts as nothing there. */
function property(raw: unknown, name: string): unknown {
  try {
    return (raw as Record<string, unknown>)[name];
  } catch {
    return undefined;
  }
}

function refuseError(text: string, place: Place): never {
  throw new Problem({
    ...place,
    found: `the error ${text.slice(0, 20)}`,
    accepted: "cells without errors: mend that cell first",
  });
}

/** Whether an argument was left out. */
export function isLeftOut(raw: unknown): boolean {
  return raw === null || raw === undefined || raw === "";
}

/** A range as rows of raw cells. A single value is a range of one cell; what is no row at all counts as an empty one. */
export function rowsOf(raw: unknown): readonly (readonly unknown[])[] {
  if (!Array.isArray(raw)) return [[raw]];
  return raw.every(Array.isArray) ? raw : raw.map((row: unknown) => (Array.isArray(row) ? row : [row]));
}

/** A mark range to attempts in order: row by row, left to right. */
export function readMarks(raw: unknown, key: MarkKey | undefined, argument = "marks"): AttemptLog {
  const log = new AttemptLog();
  rowsOf(raw).forEach((row, index) => addMarks(row, index, key, log, argument));
  return log;
}

/** Adds one row of mark cells to a log. */
export function addMarks(
  row: readonly unknown[],
  index: number,
  key: MarkKey | undefined,
  log: AttemptLog,
  argument = "marks",
): void {
  for (let column = 0; column < row.length; column++) {
    const place = { argument, row: index + 1, column: column + 1 };
    const cell = plainCell(row[column], place);
    if (cell !== null) readMark(cell, place, log, key);
  }
}

/** What a column holds, and with it what in it counts as empty. */
export type ColumnKind = "name" | "date" | "marks" | "number";

export interface Column {
  readonly kind: ColumnKind;
  readonly raw: unknown;
}

/** Columns that belong together, row by row. */
export class AlignedColumns {
  readonly length: number;
  private readonly columns: readonly { argument: string; kind: ColumnKind; rows: readonly (readonly unknown[])[] }[];

  /**
   * @throws Problem where the ranges differ in their number of rows
   */
  constructor(
    columns: Readonly<Record<string, Column>>,
    private readonly key: MarkKey | undefined,
  ) {
    this.columns = Object.entries(columns).map(([argument, { kind, raw }]) => ({ argument, kind, rows: rowsOf(raw) }));
    const [first, ...others] = this.columns;
    const rows = first?.rows.length ?? 0;
    for (const other of others) {
      if (other.rows.length !== rows) {
        throw new Problem({
          argument: other.argument,
          found: `${other.rows.length} rows where ${first?.argument} has ${rows}`,
          accepted: "ranges with the same number of rows",
        });
      }
    }
    this.length = rows;
  }

  /**
   * Whether the row holds anything. A row blank in every column is skipped.
   *
   * @throws Problem naming the row where it is blank in some columns only
   */
  isFilled(row: number): boolean {
    let blank: string | undefined;
    let filled: string | undefined;
    for (const column of this.columns) {
      if (this.isBlank(column.kind, column.rows[row])) blank ??= column.argument;
      else filled ??= column.argument;
    }
    if (blank !== undefined && filled !== undefined) {
      throw new Problem({
        argument: blank,
        row: row + 1,
        column: 1,
        found: `an empty cell in a row that is filled in ${filled}`,
        accepted: "rows filled in every column, or empty in every column",
      });
    }
    return filled !== undefined;
  }

  private isBlank(kind: ColumnKind, row: readonly unknown[] | undefined): boolean {
    if (row === undefined) return true;
    for (const raw of row) {
      if (raw === null || raw === undefined || raw === "") continue;
      if (raw === 0) {
        if (kind === "number" || (kind === "marks" && !isBlankMark(0, this.key))) return false;
      } else if (typeof raw !== "string" || raw.trim() !== "") {
        return false;
      }
    }
    return true;
  }
}

/** A name in a column; a number, such as a trick called 360, is its digits. */
export function readName(row: readonly unknown[] | undefined, index: number, argument: string): string {
  const place = { argument, row: index + 1, column: 1 };
  const cell = plainCell(row?.[0], place);
  if (typeof cell === "string") return cell;
  if (typeof cell === "number") return String(cell);
  throw new Problem({ ...place, found: quote(cell), accepted: "a name" });
}

/** 31 December 9999, the last day that a sheet knows. */
export const LAST_DATE = 2958465;

/** A whole sheet serial; a time of day is dropped. */
export function readDate(row: readonly unknown[] | undefined, index: number, argument: string): number {
  const place = { argument, row: index + 1, column: 1 };
  return dateOf(plainCell(row?.[0], place), place);
}

export function dateOf(cell: Cell, place: Place): number {
  if (typeof cell === "number" && cell >= 1 && cell < LAST_DATE + 1) return Math.floor(cell);
  const hint = typeof cell === "string" ? ", not text: type it again in a cell formatted as a date" : "";
  throw new Problem({ ...place, found: quote(cell), accepted: `a date${hint}` });
}
