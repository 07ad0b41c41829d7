/** Practice days as a cell function gets them: a column of dates beside two of numbers. */
import type { PracticeDay } from "../core/ready-date";
import { readCell, requireTally } from "./arguments";
import { AlignedColumns, readDate } from "./cells";

/** One row of two number columns. */
export function tallyOf(
  columns: AlignedColumns<"caught" | "attempts">,
  row: number,
): { caught: number; attempts: number } {
  return requireTally(
    {
      caught: readCell("caught", columns.rows("caught")[row]?.[0], row, 0),
      attempts: readCell("attempts", columns.rows("attempts")[row]?.[0], row, 0),
    },
    { argument: "caught", row: row + 1, column: 1 },
  );
}

/**
 * The rows with an attempt, as they stand.
 *
 * @throws Problem for a date or count that cannot be read, a row filled in part only, or ranges of different length
 */
export function readPracticeDays(raw: {
  readonly dates: unknown;
  readonly caught: unknown;
  readonly attempts: unknown;
}): PracticeDay[] {
  const columns = new AlignedColumns({
    dates: { kind: "date", raw: raw.dates },
    caught: { kind: "number", raw: raw.caught },
    attempts: { kind: "number", raw: raw.attempts },
  });
  const days: PracticeDay[] = [];
  for (let row = 0; row < columns.length; row++) {
    if (!columns.isFilled(row)) continue;
    const date = readDate(columns.rows("dates"), row, "dates");
    const tally = tallyOf(columns, row);
    if (tally.attempts > 0) days.push({ date, ...tally });
  }
  return days;
}
