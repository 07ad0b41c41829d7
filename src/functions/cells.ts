/**
 * Raw cells to plain ones, once for all functions: what is empty, what is an error, what is a number, a name or a date.
 * An empty cell arrives as the number 0 from some hosts and as null or "" from others, and nothing tells that 0 from a
 * typed one; so 0 is read as empty in every range of marks, names, stages and dates.
 */
import { LAST_DAY } from "../core/sheet";
import { AttemptLog } from "../core/attempt-log";
import { addPlainRun, isBlankMark, readMark, type Cell, type MarkKey } from "../core/marks";
import { acceptedDay, BadCell, errorCell, plainValue, type LogCell } from "../core/practice-log";
import { Problem, quote } from "../core/problem";

/**
 * One raw cell as a text, number, truth value or null; or what to say of an error, and of what is none of these. Made
 * without a throw, since a large log asks this hundreds of thousands of times.
 */
export function logCell(raw: unknown): LogCell {
  if (raw === null || raw === undefined) return null;
  if (typeof raw === "string" || typeof raw === "number" || typeof raw === "boolean") return plainValue(raw);
  return objectCell(raw);
}

/**
 * One raw cell as `logCell` reads it. Row and column count from 1.
 *
 * @throws Problem for an error, and for what is no text, number, truth value or null
 */
export function plainCell(raw: unknown, argument: string, row?: number, column?: number): Cell {
  const cell = logCell(raw);
  if (!(cell instanceof BadCell)) return cell;
  throw new Problem({ ...place(argument, row, column), found: cell.found, accepted: cell.accepted });
}

interface Place {
  readonly argument: string;
  readonly row?: number;
  readonly column?: number;
}

function place(argument: string, row: number | undefined, column: number | undefined): Place {
  return row === undefined || column === undefined ? { argument } : { argument, row, column };
}

/** Error objects, and the host's data types, which carry a plain value beside what they show. */
function objectCell(raw: unknown): LogCell {
  const error = property(raw, "code") ?? (property(raw, "type") === "Error" ? property(raw, "basicValue") : undefined);
  if (typeof error === "string") return errorCell(error);
  const basic = property(raw, "basicValue");
  if (typeof basic === "string" || typeof basic === "boolean" || typeof basic === "number") return logCell(basic);
  return new BadCell(quote(raw), "a plain cell: text, number or empty");
}

/** Reads a property of anything at all; a getter or proxy that throws counts as nothing there. */
function property(raw: unknown, name: string): unknown {
  try {
    return (raw as Record<string, unknown>)[name];
  } catch {
    return undefined;
  }
}

/** Whether an argument was left out. */
export function isLeftOut(raw: unknown): boolean {
  return raw === null || raw === undefined || raw === "";
}

export type Rows = readonly (readonly unknown[])[];

/** A range as rows of raw cells. A single value is a range of one cell; a row that is none holds its one value. */
export function rowsOf(raw: unknown): Rows {
  if (!Array.isArray(raw)) return [[raw]];
  for (let row = 0; row < raw.length; row++) {
    if (!Array.isArray(raw[row])) return Array.from(raw, (one: unknown) => (Array.isArray(one) ? one : [one]));
  }
  return raw as Rows;
}

/** The rows of a range as they came. */
function allRows(raw: unknown): readonly unknown[] {
  return Array.isArray(raw) ? raw : [[raw]];
}

/** A mark range to attempts in order: row by row, left to right. */
export function readMarks(raw: unknown, key: MarkKey | undefined, argument = "marks"): AttemptLog {
  const log = new AttemptLog();
  const rows = allRows(raw);
  // A whole column is a million rows, each in a place of its own in memory: they are gone through once.
  for (let row = 0; row < rows.length; row++) {
    const cells = rows[row];
    if (!Array.isArray(cells)) {
      addMarkCell(cells, row, 0, key, log, argument);
      continue;
    }
    for (let column = 0; column < cells.length; column++) {
      const cell: unknown = cells[column];
      // The quick look that settles nearly all cells of a whole column.
      if (cell !== "" && cell !== null) addMarkCell(cell, row, column, key, log, argument);
    }
  }
  return log;
}

function addMarkCell(
  raw: unknown,
  row: number,
  column: number,
  key: MarkKey | undefined,
  log: AttemptLog,
  argument: string,
): void {
  if (!key) {
    if (raw === 0) return;
    if (typeof raw === "string" && addPlainRun(raw, log)) return;
  }
  const cell = plainCell(raw, argument, row + 1, column + 1);
  if (cell !== null) readMark(cell, argument, row + 1, column + 1, log, key);
}

/** What a column holds, and with it what in it counts as empty. */
export type ColumnKind = "name" | "date" | "marks" | "number";

interface Column {
  readonly kind: ColumnKind;
  readonly raw: unknown;
}

interface AlignedColumn {
  readonly argument: string;
  readonly kind: ColumnKind;
  readonly rows: Rows;
}

/** Columns that belong together, row by row. */
export class AlignedColumns<Name extends string> {
  readonly length: number;
  private readonly columns: readonly AlignedColumn[];
  private readonly byName: Readonly<Record<string, Rows>>;

  /**
   * @param columns by the arguments' names; one whose range was left out is `undefined`
   * @throws Problem where the ranges differ in their number of rows
   */
  constructor(
    columns: Readonly<Record<Name, Column | undefined>>,
    private readonly key?: MarkKey,
  ) {
    const given = Object.entries<Column | undefined>(columns).flatMap(([argument, column]) =>
      column ? [{ argument, kind: column.kind, all: allRows(column.raw) }] : [],
    );
    const [first, ...others] = given;
    for (const other of others) {
      if (other.all.length !== first?.all.length) {
        throw new Problem({
          argument: other.argument,
          found: `${other.all.length} rows where ${first?.argument} has ${first?.all.length}`,
          accepted: "ranges with the same number of rows",
        });
      }
    }
    // Whole columns are nearly all blank: the rows after the last filled one are looked at once and never again.
    this.length = given.reduce((filled, { kind, all }) => this.filledRows(kind, all, filled), 0);
    this.columns = given.map(({ argument, kind, all }) => ({
      argument,
      kind,
      rows: rowsOf(all.length === this.length ? all : all.slice(0, this.length)),
    }));
    this.byName = Object.fromEntries(this.columns.map(({ argument, rows }) => [argument, rows]));
  }

  /** The number of rows up to a column's last filled one, or `atLeast` where that is more. */
  private filledRows(kind: ColumnKind, all: readonly unknown[], atLeast: number): number {
    const zeroIsBlank = kind !== "marks" || isBlankMark(0, this.key);
    for (let row = all.length; row > atLeast; row--) {
      const cells = all[row - 1];
      if (!Array.isArray(cells)) return row;
      // The quick look that settles nearly all of a million rows.
      const only: unknown = cells[0];
      const blank = only === 0 ? zeroIsBlank : only === null || only === "" || only === undefined;
      if (blank && cells.length === 1) continue;
      if (this.contentOf(kind, cells) === FILLED) return row;
    }
    return atLeast;
  }

  rows(name: Name): Rows {
    return this.byName[name] ?? [];
  }

  /**
   * Whether the row holds anything. A row blank in every column is skipped. The number 0 in a column of numbers leaves
   * that open: it is an empty cell from some hosts and a number from all.
   *
   * @throws Problem naming the row where it is blank in some columns only
   */
  isFilled(row: number): boolean {
    let blank: AlignedColumn | undefined;
    let filled: AlignedColumn | undefined;
    for (const column of this.columns) {
      const content = this.contentOf(column.kind, column.rows[row] ?? []);
      if (content === BLANK) blank ??= column;
      else if (content === FILLED) filled ??= column;
    }
    if (blank && filled) {
      throw new Problem({
        argument: blank.argument,
        row: row + 1,
        column: 1,
        found: `an empty cell in a row that is filled in ${filled.argument}`,
        accepted: "rows filled in every column, or empty in every column",
      });
    }
    return filled !== undefined;
  }

  /** Whether the row holds nothing but numbers that are 0. */
  isOpen(row: number): boolean {
    return this.columns.some(({ kind, rows }) => this.contentOf(kind, rows[row] ?? []) === OPEN);
  }

  private contentOf(kind: ColumnKind, cells: readonly unknown[]): number {
    let content = BLANK;
    for (let column = 0; column < cells.length; column++) {
      const raw = cells[column];
      if (raw === null || raw === undefined || raw === "") continue;
      if (raw === 0) {
        if (kind === "marks" && !isBlankMark(0, this.key)) return FILLED;
        if (kind === "number") content = OPEN;
      } else if (typeof raw !== "string" || !isOnlySpace(raw)) {
        return FILLED;
      }
    }
    return content;
  }
}

/** What a row holds in one column. */
const BLANK = 0;
const OPEN = 1;
const FILLED = 2;

function isOnlySpace(text: string): boolean {
  // A visible first character settles it without making another text.
  const first = text.charCodeAt(0);
  return (first <= 32 || first >= 128) && text.trim() === "";
}

/** A name in a column; a number, such as a trick called 360, is its digits. */
export function readName(rows: Rows, row: number, argument: string): string {
  const cell = plainCell(rows[row]?.[0], argument, row + 1, 1);
  if (typeof cell === "string") return cell;
  if (typeof cell === "number") return String(cell);
  throw new Problem({ argument, row: row + 1, column: 1, found: quote(cell), accepted: "a name" });
}

/** A whole sheet serial; a time of day is dropped. */
export function readDate(rows: Rows, row: number, argument: string): number {
  return dateOf(plainCell(rows[row]?.[0], argument, row + 1, 1), argument, row + 1, 1);
}

export function dateOf(cell: Cell, argument: string, row?: number, column?: number): number {
  if (typeof cell === "number" && cell >= 1 && cell < LAST_DAY + 1) return Math.floor(cell);
  throw new Problem({ ...place(argument, row, column), found: quote(cell), accepted: acceptedDay(cell) });
}
