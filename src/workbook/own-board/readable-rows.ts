/**
 * Which rows of a club's log the board reads. A board over a log in which one row is not whole would show that row's
 * error and nothing else; so such rows are handed over empty, and the sheet says how many they are and where.
 */
import { isNumberKey, isNumberSign } from "../../core/log-layout/as-read";
import { hasOwnWords } from "../../core/log-layout/mapping";
import { call, operation, product, type Formula, type FormulaInput } from "../plan/formula";
import { daysFromText, filledDown, namesOver } from "./days-from-text";
import type { LogReferences } from "./log-references";
import { asMarks } from "./marks-from-text";
import { EARLIEST_DAY, LATEST_DAY, type OwnLog } from "./own-log";
import type { ReadingColumns } from "./reading-columns";

/** Cells of the new sheet that the conditions look at. */
export interface OwnCells {
  /** The one athlete or trick that the whole log is about. */
  readonly athlete: Formula;
  readonly trick: Formula;
  /** Lists of what is left out. */
  readonly marksLeftOut: Formula;
  readonly stagesLeftOut: Formula;
  readonly sumsLeftOut: Formula;
}

export interface ReadableRows {
  /** The key that the functions still need; null where the marks are handed over as the usual ones. */
  readonly key: string | null;
  readonly date: Formula;
  /** A column, or the one cell that holds the name for all rows. */
  readonly athlete: Formula;
  readonly trick: Formula;
  /** Marks as the functions take them, one column or several; tallies as texts such as 8/10. */
  readonly marks: Formula;
  /** The numbers of a tally; null where the log has marks. */
  readonly tally: { readonly caught: Formula; readonly attempts: Formula } | null;
  /** 1 for each row that the board reads, 0 for the others. */
  readonly reads: Formula;
  /** 1 for each row that is begun and not read. */
  readonly leftOut: Formula;
  /** 1 for each mark that is left out of its row; null where a row has one cell of marks. */
  readonly marksLeftOut: Formula | null;
}

const is = (left: FormulaInput, operator: "=" | "<>" | "<" | "<=" | ">" | ">=", right: FormulaInput): Formula =>
  operation(left, operator, right);

/** A column in the rows that are read; empty texts in the others. */
export function inRowsRead({ reads }: ReadableRows, value: FormulaInput): Formula {
  return call("IF", reads, value, "");
}

export function readableRows(
  log: OwnLog,
  own: OwnCells,
  references: LogReferences,
  reading: ReadingColumns,
): ReadableRows {
  const date = dateColumn(log, references, reading);
  const athlete = nameColumn(log, "athlete", own, references, reading);
  const trick = nameColumn(log, "trick", own, references, reading);
  const attempts = attemptColumns(log, own, references, reading);
  const conditions = [
    call("ISNUMBER", date),
    // The number of a week is no day of January 1900.
    is(date, ">=", EARLIEST_DAY),
    is(date, "<", LATEST_DAY + 1),
    ...("name" in log.athlete ? [] : [is(athlete, "<>", "")]),
    ...("name" in log.trick ? [] : [is(trick, "<>", "")]),
    ...attempts.conditions,
    ...meantConditions(log, own, references),
  ];
  const [first, ...others] = conditions;
  // A cell with an error holds nothing.
  const reads = reading.keep("Read", call("IFERROR", product(first ?? 1, ...others), 0), { format: "number" });
  const begun = begunRows(log, { date, athlete, trick }, attempts.begun, references);
  // What is practised apart, and a row of 0 attempts, is left out on purpose.
  const meant = [...meantConditions(log, own, references), ...attempts.meant];
  const leftOut = reading.keep(
    "Left out",
    product(begun, is(reads, "=", 0), ...meant.map((condition) => call("IFERROR", call("IF", condition, 1, 0), 1))),
    { format: "number" },
  );
  const { marks, tally, marksLeftOut } = attempts;
  const key = isNumberKey(log.key) ? null : log.key;
  return { key, date, athlete, trick, marks, tally, reads, leftOut, marksLeftOut };
}

/** The stages that are not practised apart, and rows that do not add others up; a row without a stage counts. */
function meantConditions({ stage, sums }: OwnLog, own: OwnCells, references: LogReferences): readonly Formula[] {
  const isNone = (column: number, list: Formula): Formula =>
    call("ISNA", call("MATCH", references.column(column), list, 0));
  return [
    ...(stage === null ? [] : [isNone(stage, own.stagesLeftOut)]),
    ...(sums?.columns ?? []).map((column) => isNone(column, own.sumsLeftOut)),
  ];
}

/* ---- when, who, what ---- */

function dateColumn(log: OwnLog, references: LogReferences, reading: ReadingColumns): Formula {
  let days = references.column(log.date);
  if (log.dateText !== null) days = reading.keep("Day", daysFromText(days, log.dateText), { format: "date" });
  if (!log.filledDown.includes("date")) return days;
  return reading.keep("Day, filled down", filledDown(days, "day"), { format: "date" });
}

function nameColumn(
  log: OwnLog,
  role: "athlete" | "trick",
  own: OwnCells,
  references: LogReferences,
  reading: ReadingColumns,
): Formula {
  const source = log[role];
  if ("name" in source) return own[role];
  if ("over" in source) {
    const tree = namesOver(log, source.over, references);
    return reading.keep(role === "athlete" ? "Athlete, over its rows" : "Trick, over its rows", tree);
  }
  const names = references.column(source.column);
  if (!log.filledDown.includes(role)) return names;
  const sums = log.sums?.columns.includes(source.column) === true ? own.sumsLeftOut : null;
  const heading = role === "athlete" ? "Athlete, filled down" : "Trick, filled down";
  return reading.keep(heading, filledDown(names, "name", sums));
}

/* ---- attempts ---- */

interface AttemptColumns {
  /** What a row has to keep to be read. */
  readonly conditions: readonly Formula[];
  readonly marks: Formula;
  readonly tally: ReadableRows["tally"];
  readonly marksLeftOut: Formula | null;
  /** Whether a row holds anything there. */
  readonly begun: Formula;
  /** What holds unless a row says that there were no attempts. */
  readonly meant: readonly Formula[];
}

function attemptColumns(
  log: OwnLog,
  own: OwnCells,
  references: LogReferences,
  reading: ReadingColumns,
): AttemptColumns {
  return log.attempts.kind === "marks"
    ? markColumns(log, log.attempts, own, references, reading)
    : tallyColumns(log, log.attempts, references, reading);
}

function markColumns(
  log: OwnLog,
  { first, last }: { readonly first: number; readonly last: number },
  { marksLeftOut }: OwnCells,
  references: LogReferences,
  reading: ReadingColumns,
): AttemptColumns {
  const { key, blank = null } = log;
  const raw = references.column(first, last);
  const numbers = isNumberKey(key);
  const read = asMarks(raw, log);
  // A day, into which the sheet has turned a tally, is no text; neither is an error.
  const text = key === null ? operation(call("ISTEXT", read), "+", call("ISLOGICAL", raw)) : call("ISTEXT", read);
  const filled = is(raw, "<>", "");
  if (first === last && !numbers && blank === null && read === raw) {
    // One cell a row: a row that is read has its marks as they stand, and a column of texts on the sheet would be slow.
    const conditions = [filled, text, call("ISNA", call("MATCH", raw, marksLeftOut, 0))];
    return { conditions, marks: raw, tally: null, marksLeftOut: null, begun: filled, meant: [] };
  }
  const listed = call(
    "ISNUMBER",
    call("MATCH", numbers ? operation(raw, "&", "") : log.writing ? read : raw, marksLeftOut, 0),
  );
  const known = call("IF", listed, "", numbers ? lettersForNumbers(raw, key) : read);
  const width = last - first + 1;
  const marked = numbers ? call("IFERROR", known, "") : call("IF", text, known, "");
  const marks = reading.keep("Marks", blank === null ? marked : call("IF", filled, marked, signFor(blank, key)), {
    width,
  });
  if (width === 1) {
    return { conditions: [is(marks, "<>", "")], marks, tally: null, marksLeftOut: null, begun: filled, meant: [] };
  }
  const oneEach = call("SEQUENCE", width, 1, 1, 0);
  const filledCells = call("IFERROR", call("IF", filled, 1, 0), 1);
  const readCells = call("IF", is(marks, "=", ""), 0, 1);
  // Drops alone are marked: a row without one is all caught, where something of its own tells it from a free row.
  const isWhole = blank === "caught" && hasOwnWords(log);
  return {
    // A row without a single mark is an athlete who was not there, whatever an empty cell means in the others.
    conditions: isWhole
      ? []
      : [is(call("MMULT", blank === null ? readCells : product(readCells, filledCells), oneEach), ">", 0)],
    marks,
    tally: null,
    marksLeftOut: product(filledCells, call("IF", is(marks, "=", ""), 1, 0)),
    begun: is(call("MMULT", filledCells, oneEach), ">", 0),
    meant: [],
  };
}

/** The sign of the log's own marks for what an empty cell stands for. */
function signFor(blank: "caught" | "dropped", key: string | null): string {
  // Marks that are numbers are handed over as letters.
  const areNumbers: boolean = isNumberKey(key);
  const signs = (areNumbers || key === null ? "c/d" : key).split("/").map((sign) => sign.trim());
  return signs[blank === "caught" ? 0 : 1] ?? "";
}

/**
 * The number 0 cannot be told from an empty cell once it is handed over, so such marks are handed over as the letters
 * that they stand for. Other numbers stay what they are: the functions refuse them by name.
 */
function lettersForNumbers(raw: Formula, key: string): Formula {
  const pairs = key.split("/").map((sign, index) => ({ sign: sign.trim().toLowerCase(), letter: "cdb".charAt(index) }));
  // The other sign first: it may be a letter that a number becomes.
  pairs.sort((one, other) => Number(isNumberSign(one.sign)) - Number(isNumberSign(other.sign)));
  const text = call("LOWER", operation(raw, "&", ""));
  const run = pairs.reduce((so, { sign, letter }) => call("SUBSTITUTE", so, sign, letter), text);
  const number = pairs
    .filter(({ sign }) => isNumberSign(sign))
    .reduce((so, { sign, letter }) => call("IF", is(raw, "=", Number(sign)), letter, so), raw);
  return call("IF", call("ISNUMBER", raw), number, run);
}

function tallyColumns(
  { numberTexts = false }: OwnLog,
  source: Exclude<OwnLog["attempts"], { kind: "marks" }>,
  references: LogReferences,
  reading: ReadingColumns,
): AttemptColumns {
  const [one, other] =
    "caught" in source
      ? [source.caught, "attempts" in source ? source.attempts : source.dropped]
      : [source.attempts, source.dropped];
  const numbers = (column: number, heading: string): Formula =>
    numberTexts ? reading.keep(heading, numbersFromTexts(references.column(column))) : references.column(column);
  const typed = [
    numbers(one, "caught" in source ? "Caught" : "Attempts"),
    numbers(other, "dropped" in source ? "Dropped" : "Attempts"),
  ] as const;
  const bails = "bailed" in source && source.bailed !== undefined ? numbers(source.bailed, "Bailed") : null;
  const plus = (count: Formula): Formula =>
    bails === null ? count : operation(count, "+", call("IF", call("ISNUMBER", bails), bails, 0));
  const caught = "caught" in source ? typed[0] : operation(typed[0], "-", plus(typed[1]));
  const attempts = !("attempts" in source)
    ? operation(typed[0], "+", plus(typed[1]))
    : "caught" in source
      ? typed[1]
      : typed[0];
  const counts = typed.flatMap((column) => [
    call("ISNUMBER", column),
    is(column, ">=", 0),
    is(call("INT", column), "=", column),
  ]);
  return {
    conditions: [
      ...counts,
      ...(bails === null ? [] : [isCountOrEmpty(bails)]),
      is(caught, ">=", 0),
      is(caught, "<=", attempts),
      is(attempts, ">", 0),
    ],
    marks: operation(operation(caught, "&", "/"), "&", attempts),
    tally: { caught, attempts },
    marksLeftOut: null,
    begun: is(typed[0], "<>", ""),
    // An empty cell equals 0 too, but is no number.
    meant: [is(product(call("ISNUMBER", typed[0]), call("ISNUMBER", typed[1]), is(attempts, "=", 0)), "=", 0)],
  };
}

/** Texts of digits alone as the numbers that they look like; 8/10 as text stays a text, whatever day it could be. */
function numbersFromTexts(column: Formula): Formula {
  const trimmed = call("TRIM", column);
  const value = operation(trimmed, "*", 1);
  const isNumeral = is(call("TEXT", value, "0"), "=", trimmed);
  const read = call("IFERROR", call("IF", isNumeral, value, column), column);
  return call("IF", call("ISTEXT", column), read, call("IF", is(column, "=", ""), "", column));
}

function isCountOrEmpty(column: Formula): Formula {
  const isCount = product(is(column, ">=", 0), is(call("INT", column), "=", column));
  return call("IF", call("ISNUMBER", column), isCount, is(column, "=", ""));
}

/* ---- what is left out ---- */

/**
 * A row is begun where two of its cells hold something: a month's name or a sum at the foot is no row of the log, and
 * neither are the headings once more.
 */
function begunRows(
  log: OwnLog,
  { date, athlete, trick }: Pick<ReadableRows, "date" | "athlete" | "trick">,
  attempted: Formula,
  references: LogReferences,
): Formula {
  const own = [
    { filled: call("ISNUMBER", date), usable: !log.filledDown.includes("date") },
    { filled: is(athlete, "<>", ""), usable: "column" in log.athlete && !log.filledDown.includes("athlete") },
    { filled: is(trick, "<>", ""), usable: "column" in log.trick && !log.filledDown.includes("trick") },
  ].filter(({ usable }) => usable);
  const looked = own.length === 3 ? own : [...own, { filled: attempted }];
  const sum = looked.map(({ filled }) => filled).reduce((left, right) => operation(left, "+", right));
  // One alone is TRUE or FALSE, which no number is compared with.
  const enough = looked.length === 1 ? sum : is(sum, ">=", 2);
  const heading = is(references.column(log.date), "<>", log.dateHeading);
  // A cell with an error holds something. Few steps, since each of them is taken for every row.
  return call("IFERROR", log.dateHeading === "" ? enough : product(enough, heading), 1);
}
