/**
 * References to the columns of a club's log, open at the foot, so that rows added later count: by the table's own names
 * where the log is a table, else from its first row down to a far one.
 */
import { LAST_ROW } from "../../core/sheet";
import { cells, column, columns, type Formula } from "../plan/formula";
import type { OwnLog, OwnTable } from "./own-log";

/**
 * Free rows that are read below a log that is no table, at least, where nothing else is said: years of practice. More
 * would make each edit slower.
 */
const ROOM_ROWS = 3000;

export interface LogReferences {
  /** One column of the log, or several side by side. */
  readonly column: (first: number, last?: number) => Formula;
  /** The last row that is read; null where there is none, since the log is a table. */
  readonly farRow: number | null;
}

/**
 * @param roomRows free rows that are read below a log that is no table, at least
 * @param fixed whether the references have to have a size that is known: beside columns of the new sheet they do
 */
export function logReferences(log: OwnLog, fixed: boolean, roomRows = ROOM_ROWS): LogReferences {
  const { table } = log;
  if (table !== null && !fixed && !log.endsAt && isPlain(table)) {
    const heading = (at: number): string => {
      const found = table.headings.get(at);
      if (found === undefined) throw new Error(`Table ${table.name} has no column ${String(at)}.`);
      return found;
    };
    return {
      farRow: null,
      column: (first, last = first) =>
        first === last ? column(table.name, heading(first)) : columns(table.name, heading(first), heading(last)),
    };
  }
  // A round number, since the coach is told it.
  const farRow = log.endsAt ?? Math.min(LAST_ROW, Math.ceil((log.lastRow + roomRows) / 100) * 100);
  return {
    farRow,
    column: (first, last = first) =>
      cells({ row: log.firstRow, column: first }, { row: farRow, column: last }, log.sheet),
  };
}

/** Headings that structured references hold as they are, in every host; others are referred to by their cells. */
function isPlain({ name, headings }: OwnTable): boolean {
  return (
    /^[\p{L}_][\p{L}\p{N}_.]*$/u.test(name) &&
    [...headings.values()].every((heading) => /^[\p{L}\p{N}][\p{L}\p{N} _.()%°-]*$/u.test(heading))
  );
}
