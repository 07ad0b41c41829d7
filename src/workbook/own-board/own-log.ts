/** A club's own log, as the board's formulas need to know it. Rows and columns are those of its sheet, counted from 1. */

/** An athlete or trick of its own in each row, one for the whole sheet, or one alone in a row over its block of rows. */
type NameSource = { readonly column: number } | { readonly name: string } | { readonly over: number };

/**
 * Marks in one column or in several side by side; or two of the three numbers caught, attempts and dropped. Bails that
 * are counted apart from the drops are attempts too, and not caught.
 */
type AttemptSource =
  | { readonly kind: "marks"; readonly first: number; readonly last: number }
  | { readonly kind: "tally"; readonly caught: number; readonly attempts: number }
  | { readonly kind: "tally"; readonly caught: number; readonly dropped: number; readonly bailed?: number }
  | { readonly kind: "tally"; readonly attempts: number; readonly dropped: number; readonly bailed?: number };

/** A table of the workbook, with the heading of each of its columns. */
export interface OwnTable {
  readonly name: string;
  readonly headings: ReadonlyMap<number, string>;
}

export interface OwnLog {
  readonly sheet: string;
  /** The table that the log is, where it is one: rows added to it count for ever. */
  readonly table: OwnTable | null;
  /** The first and last row with something in it, without headings and sums. */
  readonly firstRow: number;
  readonly lastRow: number;
  readonly date: number;
  /** What stands over the dates: so that headings written once more further down are told from rows. */
  readonly dateHeading: string;
  /** How days that stand as text are read; null where they are not. */
  readonly dateText: {
    readonly order: "ymd" | "dmy" | "mdy";
    readonly separator: string;
    /** A time of day stands behind the day. */
    readonly timed?: true;
    /** The month is a word: the places of year, month and day among the words, from 0. */
    readonly places?: readonly [year: number, month: number, day: number];
  } | null;
  readonly athlete: NameSource;
  readonly trick: NameSource;
  readonly stage: number | null;
  readonly attempts: AttemptSource;
  /** The club's own marks; null for the usual ones. */
  readonly key: string | null;
  /** Columns in which a cell stands for the empty ones below it. */
  readonly filledDown: readonly ("date" | "athlete" | "trick")[];
  /** What an empty cell among marks of one attempt each stands for; none where left out. */
  readonly blank?: "caught" | "dropped" | null;
  /** What the numbers of a tally say, in their order; `caught/attempts` where left out. */
  readonly tally?:
    | "caught/attempts"
    | "dropped/attempts"
    | "caught/dropped"
    | "dropped/caught"
    | "attempts/caught"
    | "attempts/dropped";
  /** How days among the marks are read back as tallies; not at all where left out. */
  readonly turned?: "day/month" | "month/day" | null;
  /** Whether numbers that stand as texts are read as numbers; not where left out. */
  readonly numberTexts?: boolean;
  /** A text that is changed wherever it stands among marks: ` of ` to a slash. None where left out. */
  readonly writing?: { readonly text: string; readonly by: string } | null;
  /** The last row before another list below the log: nothing is read from there on. None where left out. */
  readonly endsAt?: number | null;
  /** Rows that say one of these texts in one of these columns add others up: they are left out. */
  readonly sums?: { readonly columns: readonly number[]; readonly texts: readonly string[] } | null;
}

/** The first and last days that a log is read for, as the sheet's numbers: 1 January 1980 to 31 December 2079. */
export const EARLIEST_DAY = 29221;
export const LATEST_DAY = 65745;
