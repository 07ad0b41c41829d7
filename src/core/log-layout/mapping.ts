/** Which columns of a club's log mean what. Rows and columns are those of the sheet, counted from 1. */
import type { DateTextForm } from "./date-text";

/** Where a row's athlete or trick stands: in a column, or nowhere, since the whole sheet is about one. */
export type NameSource = { readonly column: number } | { readonly name: string };

/** Where a row's attempts stand. */
export type RecordColumns =
  /** Marks or tallies such as `ccdcc` and `8/10`, in one column or in several side by side, one attempt or set each. */
  | { readonly kind: "marks"; readonly first: number; readonly last: number }
  /** Two numbers of three: the third follows from them. */
  | { readonly kind: "tally"; readonly caught: number; readonly attempts: number }
  | { readonly kind: "tally"; readonly caught: number; readonly dropped: number }
  | { readonly kind: "tally"; readonly attempts: number; readonly dropped: number };

/** The columns that a club may fill once for several rows: the rows below it mean the same. */
export type FilledDownRole = "date" | "athlete" | "trick";

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
  ];
}

export function columnOf(source: NameSource | null): number | null {
  return source !== null && "column" in source ? source.column : null;
}
