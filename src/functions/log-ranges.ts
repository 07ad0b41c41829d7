/**
 * A log's ranges as a cell function gets them: read row by row, with the rows that cannot be read left out and told.
 */
import type { MarkKey } from "../core/marks";
import {
  readPracticeLog,
  type LeftOutRow,
  type LogColumn,
  type LogColumns,
  type LogReading,
  type LogRows,
  type ReadingRules,
} from "../core/practice-log";
import { grouped } from "../core/numbers-in-words";
import { Missing } from "../core/problem";
import { rowByRow } from "../core/row-by-row";
import type { RowOfMarks } from "../core/row-of-marks";
import { AlignedColumns, isLeftOut, logCell, type ColumnKind } from "./cells";
import type { Places } from "./places";

/** Rows left out that a board tells; the others are only counted. */
export const MOST_TOLD = 20;
/** More would not be read on one sheet. */
export const MOST_CHECKED = 1000;
/** What stands in a board's first column before a row that is left out. */
export const NOT_COUNTED = "Not counted";

/** The ranges of a log by their arguments' names; one that is left out is not given. */
export type LogRanges = Partial<Record<LogColumn, unknown>>;

const KINDS: Readonly<Record<keyof LogRanges, ColumnKind>> = {
  dates: "date",
  athletes: "name",
  tricks: "name",
  stages: "name",
  ways: "name",
  conditions: "name",
  marks: "marks",
  caught: "number",
  attempts: "number",
};

/**
 * @throws Problem where the ranges differ in their number of rows
 */
export function readLog(
  ranges: LogRanges,
  key: MarkKey | undefined,
  { most, recordOf, rowRead }: Pick<ReadingRules, "most" | "recordOf" | "rowRead">,
): LogReading {
  const names = Object.keys(ranges) as (keyof LogRanges)[];
  const given = names.filter((name) => name !== "stages" || !isLeftOut(ranges.stages));
  const columns = new AlignedColumns<string>(
    Object.fromEntries(given.map((name) => [name, { kind: KINDS[name], raw: ranges[name] }])),
    key,
  );
  const rows = (name: keyof LogRanges) => (given.includes(name) ? columns.rows(name) : undefined);
  const marks = rows("marks");
  return readPracticeLog(
    {
      dates: rows("dates"),
      athletes: rows("athletes"),
      tricks: rows("tricks"),
      stages: rows("stages"),
      noted: notedIn(rows),
      attempts: marks ? { marks, key } : { caught: columns.rows("caught"), tried: columns.rows("attempts") },
    },
    { length: columns.length, plain: logCell, most, recordOf, rowRead },
  );
}

/**
 * A log of exchanges: who threw, who caught. Its rows are read as those of a log, and told by their own names.
 *
 * @throws Problem where the ranges differ in their number of rows
 */
export function readExchanges(
  raw: { readonly throwers: unknown; readonly catchers: unknown; readonly marks: unknown },
  key: MarkKey | undefined,
  most: number,
  use: (thrower: string, catcher: string, row: RowOfMarks) => void,
): LogReading {
  const columns = new AlignedColumns(
    {
      throwers: { kind: "name", raw: raw.throwers },
      catchers: { kind: "name", raw: raw.catchers },
      marks: { kind: "marks", raw: raw.marks },
    },
    key,
  );
  return readPracticeLog(
    {
      athletes: columns.rows("throwers"),
      tricks: columns.rows("catchers"),
      attempts: { marks: columns.rows("marks"), key },
    },
    {
      length: columns.length,
      plain: logCell,
      most,
      names: { athletes: "throwers", tricks: "catchers" },
      ...rowByRow((row, { athlete: thrower, trick: catcher }) => use(thrower, catcher, row)),
    },
  );
}

/** The column of what was noted, where there is one. */
function notedIn(rows: (name: LogColumn) => LogRows | undefined): LogColumns["noted"] {
  for (const column of ["ways", "conditions"] as const) {
    const noted = rows(column);
    if (noted) return { column, rows: noted };
  }
  return undefined;
}

/** Where a row that is left out stands: the sheet's cell, or the row of the range where the host does not tell. */
function placeOf({ row, column, cell }: LeftOutRow, places: Places): string {
  return places.cellOf(column, row, cell) ?? `row ${row}`;
}

/** A row of a spill for each row left out that is told, and one for the others. */
export function leftOutRows(
  { leftOut, told }: LogReading,
  places: Places,
  cells: (place: string, words: string) => (string | number)[],
): (string | number)[][] {
  const others = leftOut - told.length;
  return [
    ...told.map((row) => cells(placeOf(row, places), row.words)),
    ...(others > 0 ? [cells(`and ${grouped(others)} more`, "LOGCHECK tells more of them.")] : []),
  ];
}

/** Rows below a table for those that do not count: where they stand, and why in the last column. */
export function footRows(reading: LogReading, places: Places, columns: number): (string | number)[][] {
  return leftOutRows(reading, places, (place, words) => [NOT_COUNTED, place, ...blanks(columns - 3), words]);
}

/** As many empty cells. */
export function blanks(count: number): string[] {
  return Array.from({ length: count }, () => "");
}

/**
 * An answer from a log of which rows may be left out: where there is none, they may be why.
 *
 * @throws Missing as the answer does, with how many rows do not count and where the first told stands
 */
export function answerFrom<Answer>(reading: LogReading, places: Places, answer: () => Answer): Answer {
  try {
    return answer();
  } catch (error) {
    if (!(error instanceof Missing) || reading.leftOut === 0) throw error;
    throw new Missing(`${error.message}. ${notCounted(reading, places)}`);
  }
}

/** Rows that do not count, in a sentence without its stop: how many, and where the first told stands. */
function notCounted({ leftOut, told: [first] }: LogReading, places: Places): string {
  const rows = leftOut === 1 ? "1 row does not count" : `${grouped(leftOut)} rows do not count`;
  if (!first) return rows;
  return `${rows}: ${leftOut === 1 ? "" : "the first is "}${placeOf(first, places)}`;
}

/** The same as a whole sentence, where there are any. */
export function leftOutSentence(reading: LogReading, places: Places): string[] {
  return reading.leftOut === 0 ? [] : [`${notCounted(reading, places)}.`];
}
