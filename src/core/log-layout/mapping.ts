/** Which columns of a club's log mean what. Rows and columns are those of the sheet, counted from 1. */
import type { DateTextForm } from "./date-text";

/**
 * Where a row's athlete or trick stands: in a column; nowhere, since the whole sheet is about one; or alone in a row over
 * the rows of its block, in the column given.
 */
export type NameSource = { readonly column: number } | { readonly name: string } | { readonly over: number };

/** Where a row's attempts stand. */
export type RecordColumns =
  /** Marks or tallies such as `ccdcc` and `8/10`, in one column or in several side by side, one attempt or set each. */
  | { readonly kind: "marks"; readonly first: number; readonly last: number }
  /** Two numbers of three: the third follows from them. */
  | { readonly kind: "tally"; readonly caught: number; readonly attempts: number }
  | { readonly kind: "tally"; readonly caught: number; readonly dropped: number; readonly bailed?: number }
  | { readonly kind: "tally"; readonly attempts: number; readonly dropped: number; readonly bailed?: number };

/** What the two numbers of a tally such as `8/10` say, in their order. */
export type TallyReading =
  "caught/attempts" | "dropped/attempts" | "caught/dropped" | "dropped/caught" | "attempts/caught" | "attempts/dropped";

/** Which numbers a tally was before the spreadsheet took it for a day: 8/10 is 8 October here and 10 August there. */
export type TurnedOrder = "day/month" | "month/day";

/** Rows that add others up: those that say one of these texts in one of these columns. They are no part of the record. */
export interface SumRows {
  readonly columns: readonly number[];
  readonly texts: readonly string[];
}

/** The columns that a club may fill once for several rows: the rows below it mean the same. */
export type FilledDownRole = "date" | "athlete" | "trick";

/** What is put in the place of a text, wherever it stands in a cell of marks. */
export interface MarkWriting {
  /** In small letters. */
  readonly text: string;
  readonly by: "/" | "";
}

export interface LogMapping {
  /** The rows of the log itself: below its headings, without the sums at its foot. */
  readonly firstRow: number;
  readonly lastRow: number;
  readonly date: number | null;
  /** How days that stand there as text are read; null where they are not. */
  readonly dateText: DateTextForm | null;
  readonly athlete: NameSource | null;
  readonly trick: NameSource | null;
  readonly stage: number | null;
  readonly record: RecordColumns | null;
  /** The club's own marks, `caught/dropped` or `caught/dropped/bailed`; null for the usual ones. */
  readonly key: string | null;
  readonly filledDown: readonly FilledDownRole[];
  /** What an empty cell stands for among cells of one attempt each; null where it stands for none. */
  readonly blank: "caught" | "dropped" | null;
  readonly tally: TallyReading;
  /** How days among the marks are read back as tallies; null where they are not. */
  readonly turned: TurnedOrder | null;
  readonly sums: SumRows | null;
  /** Whether numbers of attempts stand there as texts too, and are read as the numbers that they look like. */
  readonly numberTexts: boolean;
  /** How marks that are written in another way are changed to be read; null where they are not. */
  readonly writing: MarkWriting | null;
  /** The last row before another list that stands below the log; null where none does. */
  readonly endsAt: number | null;
}

/** The columns of a record, each once. */
export function recordColumns(record: RecordColumns | null): readonly number[] {
  if (record === null) return [];
  if (record.kind === "marks") {
    return Array.from({ length: record.last - record.first + 1 }, (_, index) => record.first + index);
  }
  return [
    ...("caught" in record ? [record.caught] : []),
    ...("attempts" in record ? [record.attempts] : []),
    ...("dropped" in record ? [record.dropped] : []),
    ...("bailed" in record && record.bailed !== undefined ? [record.bailed] : []),
  ];
}

/**
 * Whether a row without any mark can be told from a free one, since a day or a name of its own stands in it: then all its
 * attempts are what an empty cell stands for.
 */
export function hasOwnWords({
  date,
  athlete,
  trick,
  filledDown,
}: Pick<LogMapping, "date" | "athlete" | "trick" | "filledDown">): boolean {
  const own = [date, columnOf(athlete), columnOf(trick)];
  return (["date", "athlete", "trick"] as const).some((role, at) => own[at] !== null && !filledDown.includes(role));
}

/** The column in which each row has its own name; null for names over blocks and for one name for all. */
export function columnOf(source: NameSource | null): number | null {
  return source !== null && "column" in source ? source.column : null;
}
