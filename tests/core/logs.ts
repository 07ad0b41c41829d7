import { AttemptLog } from "../../src/core/attempt-log";
import { DayLog } from "../../src/core/day-log";
import { readMark, readKey } from "../../src/core/marks";

/** A log from mark cells, one below the other. */
export function logOf(cells: readonly (string | boolean | number | null)[], key?: string): AttemptLog {
  const log = new AttemptLog();
  cells.forEach((cell, index) =>
    readMark(cell, "marks", index + 1, 1, log, key === undefined ? undefined : readKey(key)),
  );
  return log;
}

/** A record from rows of a day and a mark cell, in the log's order. */
export function recordOf(rows: readonly (readonly [day: number, cell: string])[]): DayLog {
  const record = new DayLog();
  rows.forEach(([day, cell], index) => {
    const before = record.asRead.entries;
    readMark(cell, "marks", index + 1, 1, record.asRead);
    record.noteDay(day, before);
  });
  return record;
}

/** The outcomes as letters; a tally as itself. */
export function lettersOf(log: AttemptLog): string {
  let letters = "";
  for (let entry = 0; entry < log.entries; entry++) {
    const tally = log.tallyAt(entry);
    letters += tally ? `[${tally.caught}/${tally.attempts}]` : "dcb".charAt(log.outcomeAt(entry));
  }
  return letters;
}
