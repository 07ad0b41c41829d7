/**
 * Every cell of a log that the board cannot read, with its address, what stands there and what would be read. The same
 * rules as the board's own formula: a row that is not whole is left out there, and named here.
 */
import { AttemptLog } from "../attempt-log";
import { isBlankMark, readKey, readMark, type MarkKey } from "../marks";
import { Problem, quote } from "../problem";
import {
  isError,
  isLoggedDay,
  isNumeral,
  numberIn,
  shownAt,
  showsDate,
  valueAt,
  type CellBlock,
  type CellValue,
} from "./cell-block";
import { areCounts } from "./column-profile";
import { asMark, isNumberKey, isSumRow } from "./as-read";
import { isDayInForm, numberedDay } from "./date-text";
import { isTotalsRow, repeatsHeadings } from "./heading-rows";
import {
  columnOf,
  hasOwnWords,
  recordColumns,
  type FilledDownRole,
  type LogMapping,
  type NameSource,
  type RecordColumns,
} from "./mapping";
import { rewritten } from "./mark-writing";
import { isNameOver } from "./names-over";
import { tallyNumbers } from "./tally-reading";

type CellRole = "date" | "athlete" | "trick" | "stage" | "marks" | "caught" | "attempts" | "dropped" | "bailed";

interface UnreadableCell {
  readonly row: number;
  readonly column: number;
  readonly role: CellRole;
  /** `missing`: the cell is empty, in a row that holds more. */
  readonly kind: "unreadable" | "missing";
  /** In words, as in the functions' messages. */
  readonly found: string;
  readonly accepted: string;
}

export interface UnreadableCells {
  /** The first ones, from the top; at most 200. */
  readonly cells: readonly UnreadableCell[];
  readonly count: number;
  /** Of these, the empty ones. */
  readonly missing: number;
  /** Rows that hold an attempt. */
  readonly entries: number;
  /** Of these, the rows that the board reads. */
  readonly readable: number;
  /** The last row that the board reads; null where it reads none. */
  readonly latestRow: number | null;
  /** Cells of marks that hold a day: tallies such as 8/10, turned when they were typed. */
  readonly talliesTurnedToDays: number;
  /** The different texts that are no marks, with how often each stands there; most first, at most 50. */
  readonly unknownMarks: readonly { readonly text: string; readonly count: number }[];
}

export const MOST_CELLS_LISTED = 200;
const MOST_UNKNOWN_MARKS = 50;

/**
 * @param headingRows so that headings written once more further down are not taken for entries
 */
export function unreadableCells(
  block: CellBlock,
  mapping: LogMapping,
  headingRows: readonly number[] = [],
): UnreadableCells {
  const reader = new LogReader(block, mapping);
  for (let row = mapping.firstRow; row <= mapping.lastRow; row += 1) {
    reader.lookForDay(row);
    reader.lookForName(row);
    if (isEntry(block, mapping, row) && !repeatsHeadings(block, row, headingRows) && !isSums(block, mapping, row)) {
      reader.readRow(row);
    }
  }
  return reader.answer();
}

/** A row that says something of attempts, or at least when, who and what. Others are separators and notes. */
function isEntry(block: CellBlock, mapping: LogMapping, row: number): boolean {
  // A set of drops alone is a row like any other where 0 is the mark of a drop.
  const isMade = (value: CellValue): boolean => (isNumberKey(mapping.key) ? value !== null : !isBlank(value));
  if (recordColumns(mapping.record).some((column) => isMade(valueAt(block, row, column)))) return true;
  const said = [mapping.date, columnOf(mapping.athlete), columnOf(mapping.trick)].filter(
    (column) => column !== null && valueAt(block, row, column) !== null,
  );
  // Where an empty cell is an attempt, a name alone begins a row too.
  if (mapping.blank !== null && said.some((column) => column !== mapping.date)) return true;
  return said.length >= 2;
}

/** Whether a row would be one of the log if its empty cells were attempts: its own names stand there, the others above. */
export function maybeEntry(block: CellBlock, mapping: LogMapping, row: number): boolean {
  if (isEntry(block, mapping, row)) return true;
  const own = (["athlete", "trick"] as const).flatMap((role) => {
    const column = columnOf(mapping[role]);
    return column === null || mapping.filledDown.includes(role) ? [] : [column];
  });
  return mapping.filledDown.length > 0 && own.length > 0 && own.every((column) => valueAt(block, row, column) !== null);
}

function isSums(block: CellBlock, { date, sums }: LogMapping, row: number): boolean {
  if (isSumRow(block, sums, row)) return true;
  return (
    (date === null || valueAt(block, row, date) === null || !isLoggedDay(valueAt(block, row, date))) &&
    isTotalsRow(block, row)
  );
}

const isBlank = (value: CellValue): boolean => value === null || value === 0;

class LogReader {
  private readonly cells: UnreadableCell[] = [];
  private readonly above: Partial<Record<FilledDownRole, true>> = {};
  private readonly unknown = new Map<string, number>();
  private readonly counts = new Map<number, boolean>();
  private readonly key: MarkKey | undefined;
  private count = 0;
  private missing = 0;
  private entries = 0;
  private readable = 0;
  private turned = 0;
  private latestRow: number | null = null;
  private scratch = new AttemptLog();
  private wholeRow = true;
  private noAttempts = false;

  constructor(
    private readonly block: CellBlock,
    private readonly mapping: LogMapping,
  ) {
    this.key = mapping.key === null ? undefined : readKey(mapping.key);
  }

  readRow(row: number): void {
    const { date, athlete, trick, stage, record } = this.mapping;
    this.wholeRow = true;
    this.noAttempts = false;
    if (date !== null) this.readDate(row, date);
    this.readName(row, athlete, "athlete");
    this.readName(row, trick, "trick");
    if (stage !== null) this.readStage(row, stage);
    if (record?.kind === "marks") this.readMarks(row, record);
    else if (record) this.readTally(row, record);
    // A row of 0 attempts counts as an empty one.
    if (this.wholeRow && this.noAttempts) return;
    this.entries += 1;
    if (!this.wholeRow) return;
    this.readable += 1;
    this.latestRow = row;
  }

  answer(): UnreadableCells {
    const unknownMarks = [...this.unknown]
      .map(([text, count]) => ({ text, count }))
      .sort((one, other) => other.count - one.count)
      .slice(0, MOST_UNKNOWN_MARKS);
    return {
      cells: this.cells,
      count: this.count,
      missing: this.missing,
      entries: this.entries,
      readable: this.readable,
      latestRow: this.latestRow,
      talliesTurnedToDays: this.turned,
      unknownMarks,
    };
  }

  private add(row: number, column: number, role: CellRole, found: string, accepted: string): void {
    const kind = found === MISSING ? "missing" : "unreadable";
    this.wholeRow = false;
    this.count += 1;
    if (kind === "missing") this.missing += 1;
    if (this.cells.length < MOST_CELLS_LISTED) this.cells.push({ row, column, role, kind, found, accepted });
  }

  /** Whether an empty cell means what the cell above it says. */
  private isFilledDown(role: FilledDownRole): boolean {
    return this.mapping.filledDown.includes(role) && this.above[role] === true;
  }

  private readDate(row: number, column: number): void {
    const value = valueAt(this.block, row, column);
    if (this.isDay(value)) return;
    if (isBlank(value)) {
      if (!this.isFilledDown("date")) this.add(row, column, "date", MISSING, "the day of the practice");
      return;
    }
    if (isError(value)) return this.addError(row, column, "date", value.error);
    this.add(row, column, "date", quote(value), typeof value === "string" ? dayAccepted(value) : "a date");
  }

  private isDay(value: CellValue): boolean {
    const { dateText } = this.mapping;
    return isLoggedDay(value) || (typeof value === "string" && dateText !== null && isDayInForm(value, dateText));
  }

  /** A day in any row, one of its own too, holds for the rows below it. */
  lookForDay(row: number): void {
    const { date } = this.mapping;
    if (date !== null && this.isDay(valueAt(this.block, row, date))) this.above.date = true;
  }

  /** A name over the rows below it. */
  lookForName(row: number): void {
    for (const role of ["athlete", "trick"] as const) {
      const source = this.mapping[role];
      if (source !== null && "over" in source && isNameOver(this.block, this.mapping, row, source.over)) {
        this.above[role] = true;
      }
    }
  }

  private readName(row: number, source: NameSource | null, role: "athlete" | "trick"): void {
    if (source !== null && "over" in source && this.above[role] !== true) {
      this.add(row, source.over, role, MISSING, NAME_ACCEPTED[role]);
    }
    const column = columnOf(source);
    if (column === null) return;
    const value = valueAt(this.block, row, column);
    if (typeof value === "string" || (typeof value === "number" && value !== 0)) {
      this.above[role] = true;
      return;
    }
    if (isError(value)) return this.addError(row, column, role, value.error);
    if (isBlank(value)) {
      if (!this.isFilledDown(role)) this.add(row, column, role, MISSING, NAME_ACCEPTED[role]);
      return;
    }
    this.add(row, column, role, quote(value), NAME_ACCEPTED[role]);
  }

  private readStage(row: number, column: number): void {
    const value = valueAt(this.block, row, column);
    if (isError(value)) this.addError(row, column, "stage", value.error);
  }

  private addError(row: number, column: number, role: CellRole, error: string): void {
    this.add(row, column, role, `the error ${error}`, "a cell without an error: mend it first");
  }

  private readMarks(row: number, record: RecordColumns & { readonly kind: "marks" }): void {
    const { blank, tally } = this.mapping;
    const isWhole = record.first === record.last || (blank === "caught" && hasOwnWords(this.mapping));
    let filled = blank !== null && isWhole ? 1 : 0;
    for (let column = record.first; column <= record.last; column += 1) {
      const value = asMark(valueAt(this.block, row, column), this.mapping);
      if (typeof value === "string" && tally !== "caught/attempts" && this.isTurnedRound(row, column, value)) {
        filled += 1;
      } else if (isError(value)) {
        filled += 1;
        this.addError(row, column, "marks", value.error);
      } else if (isNumeral(value) && this.areCountsIn(column)) {
        filled += 1;
        this.add(
          row,
          column,
          "marks",
          quote(value),
          "marks: numbers stand in this column, and nobody says of how many",
        );
        this.unknown.set(value.trim(), (this.unknown.get(value.trim()) ?? 0) + 1);
      } else if (!isBlankMark(value, this.key)) {
        filled += 1;
        this.readMark(row, column, value);
      }
    }
    if (filled === 0) {
      this.add(row, record.first, "marks", MISSING, "the attempts of this row");
    }
  }

  /** Whether a column of marks holds counts as texts: then its `10` is no run of a one and a nought. */
  private areCountsIn(column: number): boolean {
    let known = this.counts.get(column);
    if (known === undefined) {
      const { firstRow, lastRow } = this.mapping;
      const cells = Array.from({ length: lastRow - firstRow + 1 }, (_, at) =>
        valueAt(this.block, firstRow + at, column),
      );
      known = areCounts(cells.filter(isNumeral));
      this.counts.set(column, known);
    }
    return known;
  }

  /** A tally that cannot be what its heading says: 12 dropped of 10. */
  private isTurnedRound(row: number, column: number, text: string): boolean {
    const raw = valueAt(this.block, row, column);
    if (typeof raw !== "string" || rewritten(raw, this.mapping.writing) !== text || tallyNumbers(text) === null)
      return false;
    this.add(row, column, "marks", `the tally ${text}`, `a tally of ${this.mapping.tally}`);
    this.unknown.set(text.trim(), (this.unknown.get(text.trim()) ?? 0) + 1);
    return true;
  }

  private readMark(row: number, column: number, value: Exclude<CellValue, { readonly error: string }>): void {
    if (typeof value === "number" && this.isTurnedTally(row, column, value)) {
      this.turned += 1;
      const shown = shownAt(this.block, row, column);
      this.add(row, column, "marks", `a date${shown ? ` (${shown})` : ""}`, TALLY_ACCEPTED);
      return;
    }
    try {
      readMark(value, "marks", row, column, this.scratchLog(), this.key);
    } catch (error) {
      if (!(error instanceof Problem)) throw error;
      this.add(row, column, "marks", error.details.found, error.details.accepted);
      const text = String(value).trim();
      this.unknown.set(text, (this.unknown.get(text) ?? 0) + 1);
    }
  }

  /** What the marks say is not wanted here; one log for many of them is quicker than one for each. */
  private scratchLog(): AttemptLog {
    if (this.scratch.entries > SCRATCH_ENTRIES) this.scratch = new AttemptLog();
    return this.scratch;
  }

  private isTurnedTally(row: number, column: number, value: number): boolean {
    return isLoggedDay(value) && Number.isInteger(value) && showsDate(this.block, row, column) !== false;
  }

  private readTally(row: number, record: RecordColumns & { readonly kind: "tally" }): void {
    const bailed = this.bailedIn(row, record);
    const parts = (["caught", "attempts", "dropped"] as const).flatMap((role) => {
      const column = (record as Partial<Record<typeof role, number>>)[role];
      return column === undefined ? [] : [{ role, column, value: this.countAt(row, column) }];
    });
    let whole = true;
    for (const { role, column, value } of parts) {
      if (isWholeCount(value)) continue;
      whole = false;
      if (isError(value)) this.addError(row, column, role, value.error);
      else if (value === null) this.add(row, column, role, MISSING, `how many were ${TALLY_WORDS[role]}`);
      else {
        const asText = typeof value === "string" && /^\s*\d+\s*$/.test(value);
        this.add(row, column, role, quote(value), asText ? NUMBER_NOT_TEXT : "a whole number of attempts");
      }
    }
    const [first, second] = parts;
    if (!whole || !first || !second) return;
    if ("attempts" in record) {
      const [part, attempts] = first.role === "attempts" ? [second, first] : [first, second];
      const gone = Number(part.value) + (part.role === "dropped" ? bailed : 0);
      if (gone > Number(attempts.value)) {
        const found = `${String(gone)} ${TALLY_WORDS[part.role]} of ${String(attempts.value)} attempts`;
        this.add(row, part.column, part.role, found, `no more ${TALLY_WORDS[part.role]} than attempts`);
      } else if (attempts.value === 0) this.noAttempts = true;
    } else if (Number(first.value) + Number(second.value) + bailed === 0) this.noAttempts = true;
  }

  private countAt(row: number, column: number): CellValue {
    const value = valueAt(this.block, row, column);
    return this.mapping.numberTexts ? (numberIn(value) ?? value) : value;
  }

  /** The bails of a row, where they have a column of their own and stand in it as a number; else none. */
  private bailedIn(row: number, record: RecordColumns & { readonly kind: "tally" }): number {
    const column = "bailed" in record ? record.bailed : undefined;
    const value = column === undefined ? null : this.countAt(row, column);
    if (column === undefined || value === null) return 0;
    if (isWholeCount(value)) return Number(value);
    if (isError(value)) this.addError(row, column, "bailed", value.error);
    else this.add(row, column, "bailed", quote(value), "a whole number of attempts");
    return NaN;
  }
}

const SCRATCH_ENTRIES = 5000;
const MISSING = quote(null);
const NAME_ACCEPTED = { athlete: "the athlete’s name or initials", trick: "the trick’s name" } as const;
const TALLY_WORDS = { caught: "caught", attempts: "tried", dropped: "dropped" } as const;
const NUMBER_NOT_TEXT = "the number itself: here it is a text that looks like one";
const TALLY_ACCEPTED =
  "the tally as text: 8/10 typed into an unformatted cell turns into a date; format the cell as text and type it again";

/** The most attempts that the functions take. */
const MOST_ATTEMPTS = 10_000_000;
const isWholeCount = (value: CellValue): boolean =>
  typeof value === "number" && Number.isInteger(value) && value >= 0 && value <= MOST_ATTEMPTS;

function dayAccepted(text: string): string {
  const day = numberedDay(text);
  if (day !== null && day.orders.length > 1 && day.parts[0] !== day.parts[1]) {
    return "a date, not text: day first or month first cannot be told here";
  }
  return "a date, not text: type it again in a cell formatted as a date";
}
