/**
 * A log of practice, row by row. A coach's log is never perfect: a row is half typed, a letter is wrong. A row that
 * cannot be read is left out and told with its place and its reason, and every other row keeps counting.
 */
import { MOST_ATTEMPTS } from "../trade/limits";
import { LAST_DAY } from "./sheet";
import { grouped } from "./numbers-in-words";
import { AttemptLog } from "./attempt-log";
import { CELL_ERRORS } from "./cell-errors";
import type { DayLog } from "./day-log";
import { addMark, addPlainRun, isBlankMark, markProblem, type Cell, type MarkKey } from "./marks";
import { quote, shownText, type ProblemDetails } from "./problem";
import { stageCalled } from "./stages";
import { STAGES, type Stage } from "../trade/stages";

/** A cell that holds an error or what no cell of a log can, and what to say of it. */
export class BadCell {
  constructor(
    readonly found: string,
    readonly accepted: string,
  ) {}
}

export type LogCell = Cell | BadCell;

/** A cell that is a plain value; an error comes as its text. */
export function plainValue(value: string | number | boolean | null): LogCell {
  if (value === "") return null;
  // Few texts start with #, so the look-up costs nothing for marks and names.
  if (typeof value === "string") {
    return value.charCodeAt(0) === 35 && CELL_ERRORS.has(value.trim().toUpperCase()) ? errorCell(value) : value;
  }
  if (typeof value === "number" && !Number.isFinite(value)) {
    return new BadCell("a number without a finite value", "a number");
  }
  return value;
}

/** A cell that shows an error. */
export function errorCell(text: string): BadCell {
  return new BadCell(`the error ${shownText(text, 20)}`, "cells without errors: mend that cell first");
}

/** A column, or several columns side by side, row by row, as the host hands its cells over. */
export type LogRows = readonly (readonly unknown[])[];

export interface LogColumns {
  readonly dates?: LogRows | undefined;
  readonly athletes?: LogRows | undefined;
  readonly tricks?: LogRows | undefined;
  readonly stages?: LogRows | undefined;
  /** What was noted beside the attempts, one column; its cells may be empty. */
  readonly noted?: { readonly column: NotedColumn; readonly rows: LogRows } | undefined;
  /** Marks in one column or several; or how many were caught, and how many were tried. */
  readonly attempts:
    | { readonly marks: LogRows; readonly key?: MarkKey | undefined }
    | { readonly caught: LogRows; readonly tried: LogRows };
}

/** How a trick was done: which entrance, or under which conditions. */
type NotedColumn = "ways" | "conditions";

/** Which column of the log a cell stands in. */
export type LogColumn = "dates" | "athletes" | "tricks" | "stages" | NotedColumn | "marks" | "caught" | "attempts";

/** What is wrong with one row: each of its cells that cannot be read, or those that are still empty. */
export interface LeftOutRow {
  /** Row of the log, from 1. */
  readonly row: number;
  /** The first of the cells meant. */
  readonly column: LogColumn;
  /** Which of the columns of marks, from 1. */
  readonly cell: number;
  /** The row only waits for what is not typed yet. */
  readonly isWaiting: boolean;
  /** In words for the coach, a sentence or several: what was found and what is accepted. */
  readonly words: string;
}

export interface LogReading {
  /** Rows that hold anything, those left out among them. */
  readonly filled: number;
  readonly leftOut: number;
  /** The first of the rows left out, in the order of the log. */
  readonly told: readonly LeftOutRow[];
}

export interface ReadingRules {
  readonly length: number;
  /** A raw cell as a plain one; identity where the cells are plain already. */
  readonly plain: (raw: unknown) => LogCell;
  /** How many of the rows left out are told; the others are only counted. */
  readonly most: number;
  /** What the columns are called in messages, where not as here. */
  readonly names?: Readonly<Partial<Record<LogColumn, string>>>;
  /**
   * Where a row's attempts go, or undefined for a row that is not asked for: its marks are not looked at then. Columns
   * that the log does not have come as 0 and "".
   *
   * @param day whole sheet serial
   */
  readonly recordOf: (day: number, athlete: string, trick: string, stage: Stage | undefined) => DayLog | undefined;
  /**
   * Told of each row that counts, once its attempts are the latest of its record: what was noted is "" where nothing was.
   *
   * @param row from 0
   */
  readonly rowRead?:
    | ((day: number, athlete: string, trick: string, stage: Stage | undefined, noted: string, row: number) => void)
    | undefined;
}

const OWN_NAMES: Readonly<Record<LogColumn, string>> = {
  dates: "dates",
  athletes: "athletes",
  tricks: "tricks",
  stages: "stages",
  ways: "ways",
  conditions: "conditions",
  marks: "marks",
  caught: "caught",
  attempts: "attempts",
};

/** What a cell's reading answers where the cell is empty, and where it cannot be read. */
const EMPTY = Symbol("empty");
const BAD = Symbol("cannot be read");
type Read<Value> = Value | typeof EMPTY | typeof BAD;

/** Reads every row once, in the log's own order. */
// eslint-disable-next-line complexity -- the one loop through which every row of a log goes: kept whole, column by column
export function readPracticeLog(columns: LogColumns, rules: ReadingRules): LogReading {
  const { plain, recordOf, rowRead, most } = rules;
  const { dates, athletes, tricks, stages, noted, attempts } = columns;
  const hasOnlyAttempts = !dates && !athletes && !tricks && !stages;
  const stageReader = new StageReader();
  const told: LeftOutRow[] = [];
  let filled = 0;
  let leftOut = 0;
  const leaveOut = (row: number): void => {
    leftOut += 1;
    if (told.length < most) told.push(describeRow(columns, rules, row));
  };
  for (let row = 0; row < rules.length; row++) {
    const day = dates ? readDay(dates[row]?.[0], plain) : 0;
    const athlete = athletes ? readWords(athletes[row]?.[0], plain) : "";
    const trick = tricks ? readWords(tricks[row]?.[0], plain) : "";
    const stage = stages ? stageReader.read(stages[row]?.[0], plain) : undefined;
    const note = noted ? readNote(noted.rows[row]?.[0], plain) : "";
    if (
      typeof day !== "number" ||
      typeof athlete !== "string" ||
      typeof trick !== "string" ||
      typeof stage === "symbol" ||
      typeof note === "symbol"
    ) {
      const isEmpty =
        (day === EMPTY || !dates) &&
        (athlete === EMPTY || !athletes) &&
        (trick === EMPTY || !tricks) &&
        (stage === EMPTY || !stages) &&
        note === "" &&
        hasNoAttempts(attempts, row, plain);
      if (isEmpty) continue;
      filled += 1;
      leaveOut(row);
      continue;
    }
    const record = recordOf(day, athlete, trick, stage);
    if (!record) {
      filled += 1;
      continue;
    }
    const log = record.asRead;
    const before = log.entries;
    const added = addAttempts(attempts, row, plain, log);
    // A row of 0 attempts counts as empty: some hosts hand an empty cell over as 0.
    if (added === EMPTY && "tried" in attempts && isOpen(attempts.tried[row]?.[0])) continue;
    if (added === EMPTY && hasOnlyAttempts && note === "") continue;
    filled += 1;
    if (added === true) {
      record.noteDay(day, before);
      rowRead?.(day, athlete, trick, stage, note, row);
    } else {
      log.cutTo(before);
      leaveOut(row);
    }
  }
  return { filled, leftOut, told };
}

/** Later than any day that a sheet knows. */
const DAYS_END = LAST_DAY + 1;

/** A whole sheet serial; a time of day is dropped. */
function readDay(raw: unknown, plain: ReadingRules["plain"]): Read<number> {
  if (typeof raw === "number" && raw >= 1 && raw < DAYS_END) return Math.floor(raw);
  const cell = plain(raw);
  if (isEmptyCell(cell)) return EMPTY;
  return typeof cell === "number" && cell >= 1 && cell < DAYS_END ? Math.floor(cell) : BAD;
}

/** A name; a number, such as a trick called 360, is its digits. */
function readWords(raw: unknown, plain: ReadingRules["plain"]): Read<string> {
  // A letter or digit at the start: neither empty nor an error.
  if (typeof raw === "string" && raw.charCodeAt(0) > 35 && raw.charCodeAt(0) < 127) return raw;
  const cell = plain(raw);
  if (isEmptyCell(cell)) return EMPTY;
  return typeof cell === "string" ? cell : typeof cell === "number" ? String(cell) : BAD;
}

/** What was noted beside the attempts; "" where nothing was. */
function readNote(raw: unknown, plain: ReadingRules["plain"]): string | typeof BAD {
  const words = readWords(raw, plain);
  return words === EMPTY ? "" : words;
}

/** A few words recur in every row. */
class StageReader {
  private readonly known = new Map<string, Stage | typeof BAD>();

  read(raw: unknown, plain: ReadingRules["plain"]): Read<Stage> {
    const words = readWords(raw, plain);
    if (typeof words === "symbol") return words;
    let stage = this.known.get(words);
    if (stage === undefined) this.known.set(words, (stage = stageCalled(words) ?? BAD));
    return stage;
  }
}

/** The number 0 is an empty cell from some hosts. */
export function isEmptyCell(cell: LogCell): boolean {
  return cell === null || cell === 0 || (typeof cell === "string" && cell.trim() === "");
}

/** An empty cell or the number 0 in a column of numbers: nothing tells the two apart. */
function isOpen(raw: unknown): boolean {
  return raw === null || raw === undefined || raw === 0 || (typeof raw === "string" && raw.trim() === "");
}

type Attempts = LogColumns["attempts"];

/** Adds a row's attempts and answers true; or says that there are none, or that some cell cannot be read. */
function addAttempts(
  attempts: Attempts,
  row: number,
  plain: ReadingRules["plain"],
  log: AttemptLog,
): true | typeof EMPTY | typeof BAD {
  if ("tried" in attempts) return addTally(attempts, row, plain, log);
  const { marks, key } = attempts;
  const cells = marks[row];
  const before = log.entries;
  const count = cells?.length ?? 0;
  for (let column = 0; column < count; column++) {
    const raw = cells?.[column];
    if (raw === null || raw === "" || raw === undefined || (raw === 0 && !key)) continue;
    if (typeof raw === "string" && !key && addPlainRun(raw, log)) continue;
    const cell = plain(raw);
    if (cell instanceof BadCell || !addMark(cell, row + 1, column + 1, log, key)) return BAD;
  }
  return log.entries > before ? true : EMPTY;
}

function addTally(
  { caught, tried }: Extract<Attempts, { tried: LogRows }>,
  row: number,
  plain: ReadingRules["plain"],
  log: AttemptLog,
): true | typeof EMPTY | typeof BAD {
  const [rawCaught, rawTried] = [caught[row]?.[0], tried[row]?.[0]];
  if (isOpen(rawTried) && isOpen(rawCaught)) return EMPTY;
  const [k, n] = [plain(rawCaught), plain(rawTried)];
  if (!isCount(k) || !isCount(n) || n === 0 || k > n) return BAD;
  log.addTally(k, n, row + 1, 1);
  return true;
}

function isCount(cell: LogCell): cell is number {
  return typeof cell === "number" && Number.isInteger(cell) && cell >= 0 && cell <= MOST_ATTEMPTS;
}

function hasNoAttempts(attempts: Attempts, row: number, plain: ReadingRules["plain"]): boolean {
  if ("tried" in attempts) return isOpen(attempts.caught[row]?.[0]) && isOpen(attempts.tried[row]?.[0]);
  const { marks, key } = attempts;
  for (const raw of marks[row] ?? []) {
    if (raw === null || raw === "" || raw === undefined || (raw === 0 && !key)) continue;
    const cell = plain(raw);
    if (cell instanceof BadCell || !isBlankMark(cell, key)) return false;
  }
  return true;
}

/* ---- what is told of a row that is left out ---- */

interface Complaint {
  readonly column: LogColumn;
  readonly cell: number;
  /** Undefined where the cell is empty. */
  readonly details: Pick<ProblemDetails, "found" | "accepted"> | undefined;
}

function describeRow(columns: LogColumns, rules: ReadingRules, row: number): LeftOutRow {
  const names = { ...OWN_NAMES, ...rules.names };
  const complaints = complaintsOf(columns, rules, row);
  const wrong = complaints.filter(({ details }) => details !== undefined);
  const empty = complaints.filter(({ details }) => details === undefined);
  const [first] = wrong.length > 0 ? wrong : empty;
  if (!first) throw new Error("A row was left out without a reason.");
  const words = [
    ...wrong.map(({ column, details }) => `${names[column]}: found ${details?.found}. Accepted: ${details?.accepted}.`),
    ...(empty.length > 0 ? [`Not complete yet: nothing in ${listOf(empty.map(({ column }) => names[column]))}.`] : []),
  ];
  return {
    row: row + 1,
    column: first.column,
    cell: first.cell,
    isWaiting: wrong.length === 0,
    words: words.join(" "),
  };
}

function listOf(words: readonly string[]): string {
  return words.length < 2 ? (words[0] ?? "") : `${words.slice(0, -1).join(", ")} and ${words[words.length - 1]}`;
}

const A_NAME = "a name";
const WORDS = "words";

function complaintsOf(columns: LogColumns, { plain }: ReadingRules, row: number): readonly Complaint[] {
  const { dates, athletes, tricks, stages, noted, attempts } = columns;
  const one = (column: LogColumn, rows: LogRows | undefined, wrong: (cell: Cell) => Complaint["details"] | null) => {
    if (!rows) return [];
    const cell = plain(rows[row]?.[0]);
    if (cell instanceof BadCell) return [{ column, cell: 1, details: cell }];
    if (isEmptyCell(cell)) return [{ column, cell: 1, details: undefined }];
    const details = wrong(cell);
    return details === null ? [] : [{ column, cell: 1, details }];
  };
  const words =
    (accepted: string) =>
    (cell: Cell): Complaint["details"] | null =>
      typeof cell === "boolean" ? { found: quote(cell), accepted } : null;
  const name = words(A_NAME);
  return [
    ...one("dates", dates, (cell) => dayComplaint(cell)),
    ...one("athletes", athletes, name),
    ...one("tricks", tricks, name),
    ...one("stages", stages, (cell) =>
      stageCalled(String(cell)) ? null : { found: quote(cell), accepted: STAGES.join(", ") },
    ),
    // What was noted may be empty.
    ...(noted ? one(noted.column, noted.rows, words(WORDS)).filter(({ details }) => details) : []),
    ...("tried" in attempts ? tallyComplaints(attempts, row, plain) : markComplaints(attempts, row, plain)),
  ];
}

function dayComplaint(cell: Cell): Complaint["details"] | null {
  if (typeof cell === "number" && cell >= 1 && cell < DAYS_END) return null;
  return { found: quote(cell), accepted: acceptedDay(cell) };
}

/** What a column of days takes, with what to do where a text was found. */
export function acceptedDay(cell: Cell): string {
  return `a date${typeof cell === "string" ? ", not text: type it again in a cell formatted as a date" : ""}`;
}

function markComplaints(
  { marks, key }: Extract<Attempts, { marks: LogRows }>,
  row: number,
  plain: ReadingRules["plain"],
): readonly Complaint[] {
  const scratch = new AttemptLog();
  const complaints = (marks[row] ?? []).flatMap((raw, index): readonly Complaint[] => {
    const cell = plain(raw);
    if (cell instanceof BadCell) return [{ column: "marks", cell: index + 1, details: cell }];
    if (addMark(cell, row + 1, index + 1, scratch, key)) return [];
    const { details } = markProblem(cell, "marks", row + 1, index + 1, key);
    return [{ column: "marks", cell: index + 1, details }];
  });
  if (complaints.length === 0 && scratch.entries === 0) return [{ column: "marks", cell: 1, details: undefined }];
  return complaints;
}

function tallyComplaints(
  { caught, tried }: Extract<Attempts, { tried: LogRows }>,
  row: number,
  plain: ReadingRules["plain"],
): readonly Complaint[] {
  // An empty cell is 0 in some hosts: caught without attempts, and neither of them, wait for the attempts in all.
  if (isOpen(tried[row]?.[0])) return [{ column: "attempts", cell: 1, details: undefined }];
  const [k, n] = [plain(caught[row]?.[0]), plain(tried[row]?.[0])];
  const complaints = [
    { column: "caught" as const, value: k },
    { column: "attempts" as const, value: n },
  ].flatMap(({ column, value }): readonly Complaint[] => {
    if (value instanceof BadCell) return [{ column, cell: 1, details: value }];
    if (value === null || (typeof value === "string" && value.trim() === "")) {
      return [{ column, cell: 1, details: undefined }];
    }
    if (isCount(value)) return [];
    const accepted = `a whole number from 0 to ${grouped(MOST_ATTEMPTS)}`;
    return [{ column, cell: 1, details: { found: quote(value), accepted } }];
  });
  if (complaints.length > 0 || !isCount(k) || !isCount(n) || k <= n) return complaints;
  const found = `${String(k)} caught of ${String(n)} attempts`;
  return [{ column: "caught", cell: 1, details: { found, accepted: "no more caught than attempts" } }];
}
