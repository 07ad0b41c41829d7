/**
 * What the board makes of a club's log, row by row, by the same rules as its formulas: so that the pane can say it before
 * the board is put, and so that a log can be held against what was really practised.
 */
import { AttemptLog } from "../attempt-log";
import { addMark, readKey } from "../marks";
import { comparable } from "../text";
import { isError, isLoggedDay, lastRowOf, numberIn, valueAt, type CellBlock, type CellValue } from "./cell-block";
import { dayInForm } from "./date-text";
import { isNameOver } from "./names-over";
import {
  hasOwnWords,
  type FilledDownRole,
  type LogMapping,
  type NameSource,
  type RecordColumns,
  type TurnedOrder,
} from "./mapping";
import { rewritten } from "./mark-writing";
import { dateOfSerial } from "./serial-days";
import { readTally, tallyNumbers } from "./tally-reading";

/** What one row adds to the record. */
export interface ReadRow {
  readonly row: number;
  /** The sheet's number of the day. */
  readonly day: number;
  readonly athlete: string;
  readonly trick: string;
  readonly caught: number;
  readonly attempts: number;
  readonly bailed: number;
}

/** What is left out on the board's sheet. */
interface LeftOut {
  /** Texts that are no marks. */
  readonly marks: readonly string[];
  readonly stages: readonly string[];
}

/** The rows that count, from the top. A mark that is none and not listed has its row refused by name, so it is not here. */
export function rowsAsRead(block: CellBlock, mapping: LogMapping, leftOut: LeftOut): readonly ReadRow[] {
  return new Reading(block, mapping, leftOut).rows();
}

class Reading {
  private readonly marksOut: ReadonlySet<string>;
  private readonly stagesOut: ReadonlySet<string>;
  private readonly sums: ReadonlySet<string>;
  private readonly above: Partial<Record<FilledDownRole, string | number>> = {};
  private readonly over: Partial<Record<"athlete" | "trick", string>> = {};

  constructor(
    private readonly block: CellBlock,
    private readonly mapping: LogMapping,
    leftOut: LeftOut,
  ) {
    this.marksOut = new Set(leftOut.marks.map(comparable));
    this.stagesOut = new Set(leftOut.stages.map(comparable));
    this.sums = new Set((mapping.sums?.texts ?? []).map(comparable));
  }

  rows(): readonly ReadRow[] {
    const found: ReadRow[] = [];
    for (let row = this.mapping.firstRow; row <= (this.mapping.endsAt ?? lastRowOf(this.block)); row += 1) {
      const read = this.row(row);
      if (read !== null) found.push(read);
    }
    return found;
  }

  private row(row: number): ReadRow | null {
    const { mapping } = this;
    const day = this.day(row);
    const athlete = this.name(row, "athlete", mapping.athlete);
    const trick = this.name(row, "trick", mapping.trick);
    if (mapping.stage !== null && this.isOut(row, mapping.stage, this.stagesOut)) return null;
    if (mapping.sums?.columns.some((column) => this.isOut(row, column, this.sums)) === true) return null;
    const attempts = mapping.record === null ? null : this.attempts(row, mapping.record);
    if (day === null || athlete === null || trick === null || attempts === null || attempts.attempts === 0) return null;
    return { row, day, athlete, trick, ...attempts };
  }

  private isOut(row: number, column: number, texts: ReadonlySet<string>): boolean {
    const value = valueAt(this.block, row, column);
    return typeof value === "string" && texts.has(comparable(value));
  }

  private day(row: number): number | null {
    const { date, dateText, filledDown } = this.mapping;
    const value = date === null ? null : valueAt(this.block, row, date);
    const read = isLoggedDay(value)
      ? Math.floor(value)
      : typeof value === "string" && dateText !== null
        ? dayInForm(value, dateText)
        : null;
    if (!filledDown.includes("date")) return read;
    if (read !== null) this.above.date = read;
    const above = this.above.date;
    return typeof above === "number" ? above : null;
  }

  private name(row: number, role: "athlete" | "trick", source: NameSource | null): string | null {
    if (source === null) return null;
    if ("name" in source) return source.name === "" ? null : source.name;
    if ("over" in source) {
      if (isNameOver(this.block, this.mapping, row, source.over)) {
        this.over[role] = String(valueAt(this.block, row, source.over)).trim();
        return null;
      }
      return this.over[role] ?? null;
    }
    const value = valueAt(this.block, row, source.column);
    const read = value === null || isError(value) ? null : String(value).trim();
    if (!this.mapping.filledDown.includes(role)) return read;
    // A row of sums names nobody for the rows below it.
    const isSum =
      this.mapping.sums?.columns.includes(source.column) === true && this.isOut(row, source.column, this.sums);
    if (read !== null && !isSum) this.above[role] = read;
    const above = this.above[role];
    return typeof above === "string" ? above : null;
  }

  private attempts(row: number, record: RecordColumns): Omit<ReadRow, "row" | "day" | "athlete" | "trick"> | null {
    return record.kind === "marks" ? this.marks(row, record) : this.tally(row, record);
  }

  private marks(
    row: number,
    { first, last }: RecordColumns & { readonly kind: "marks" },
  ): { readonly caught: number; readonly attempts: number; readonly bailed: number } | null {
    const { key, blank } = this.mapping;
    const log = new AttemptLog();
    const marks = key === null ? undefined : readKey(key);
    const width = last - first + 1;
    let filled = 0;
    let [blankCaught, blanks] = [0, 0];
    for (let column = first; column <= last; column += 1) {
      const value = asMark(valueAt(this.block, row, column), this.mapping);
      if (value === null) {
        blanks += 1;
        if (blank === "caught") blankCaught += 1;
        continue;
      }
      if (isError(value)) continue;
      if (typeof value === "number" && !isNumberKey(key)) continue;
      if (this.marksOut.has(comparable(String(value)))) continue;
      filled += 1;
      if (!addMark(value, 2, 1, log, marks)) return null;
    }
    const isWhole = width === 1 || (blank === "caught" && hasOwnWords(this.mapping));
    if (filled === 0 && (blank === null || !isWhole)) return null;
    const { caught, attempts, bails } = log.sumOf(0, log.entries);
    if (blank === null) return { caught, attempts, bailed: bails };
    return { caught: caught + blankCaught, attempts: attempts + blanks, bailed: bails };
  }

  private tally(
    row: number,
    record: RecordColumns & { readonly kind: "tally" },
  ): { readonly caught: number; readonly attempts: number; readonly bailed: number } | null {
    const bailed = "bailed" in record && record.bailed !== undefined ? this.count(row, record.bailed, 0) : 0;
    const of = (column: number | undefined): number | null =>
      column === undefined ? 0 : this.count(row, column, null);
    const caught = of("caught" in record ? record.caught : undefined);
    const dropped = of("dropped" in record ? record.dropped : undefined);
    const tried = of("attempts" in record ? record.attempts : undefined);
    if (bailed === null || caught === null || dropped === null || tried === null) return null;
    const attempts = "attempts" in record ? tried : caught + dropped + bailed;
    const made = "caught" in record ? caught : tried - dropped - bailed;
    return made < 0 || made > attempts || attempts === 0 ? null : { caught: made, attempts, bailed: 0 };
  }

  private count(row: number, column: number, empty: number | null): number | null {
    const cell = valueAt(this.block, row, column);
    if (cell === null) return empty;
    const value = this.mapping.numberTexts ? numberIn(cell) : cell;
    return typeof value === "number" && Number.isInteger(value) && value >= 0 ? value : null;
  }
}

/** A cell of marks as the functions are handed it: a day read back as a tally, a tally the usual way round. */
export function asMark(
  value: CellValue,
  { tally, turned, writing }: Pick<LogMapping, "tally" | "turned" | "writing">,
): CellValue {
  const read = typeof value === "number" && turned !== null && isLoggedDay(value) ? turnedBack(value, turned) : value;
  if (typeof read !== "string") return read;
  const text = rewritten(read, writing);
  const numbers = tally === "caught/attempts" ? null : tallyNumbers(text);
  const counts = numbers === null ? null : readTally(numbers, tally);
  return counts === null ? text : `${String(counts.caught)}/${String(counts.attempts)}`;
}

/** Whether a row says of itself that it adds others up. */
export function isSumRow(block: CellBlock, sums: LogMapping["sums"], row: number): boolean {
  if (sums === null) return false;
  const texts = new Set(sums.texts.map(comparable));
  return sums.columns.some((column) => {
    const value = valueAt(block, row, column);
    return typeof value === "string" && texts.has(comparable(value));
  });
}

export const isNumberSign = (sign: string): boolean => sign === "0" || sign === "1";

/** Whether marks are the numbers 1 and 0, with at most one sign of another kind. */
export function isNumberKey(key: string | null): key is string {
  const signs = key?.split("/").map((sign) => sign.trim()) ?? [];
  return signs.some(isNumberSign) && signs.filter((sign) => !isNumberSign(sign)).length <= 1;
}

/** The tally that a day was before the spreadsheet took it for one. */
export function turnedBack(serial: number, order: TurnedOrder): string {
  const day = dateOfSerial(Math.floor(serial));
  const [date, month] = [day.getUTCDate(), day.getUTCMonth() + 1];
  return order === "day/month" ? `${String(date)}/${String(month)}` : `${String(month)}/${String(date)}`;
}
