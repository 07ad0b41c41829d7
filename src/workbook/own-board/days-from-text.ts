/** Formulas that read a column of a club's log before the board does, on the new sheet: the log stays as it is. */
import { BETWEEN_DAY_WORDS, JULY_START, MONTH_STARTS } from "../../core/log-layout/date-text";
import { EARLIEST_YEAR, LATEST_YEAR } from "../plan/days";
import { call, operation, product, type Formula, type FormulaInput } from "../plan/formula";
import type { LogReferences } from "./log-references";
import type { OwnLog } from "./own-log";

const isNumber = (of: FormulaInput): Formula => call("ISNUMBER", of);

/** Longer than any part of a day as text. */
const PART_LENGTH = 20;

/**
 * The real days of a column, and those written as text in the club's own form. By the parts of the text: the
 * spreadsheet's own reading of such texts differs from computer to computer.
 */
export function daysFromText(days: Formula, form: NonNullable<OwnLog["dateText"]>): Formula {
  const wide = call("REPT", " ", PART_LENGTH);
  const spread = form.places
    ? call("SUBSTITUTE", plainWords(days), " ", wide)
    : call("SUBSTITUTE", form.timed ? beforeTime(days) : days, form.separator, wide);
  const places = form.places ?? (["y", "m", "d"] as const).map((letter) => form.order.indexOf(letter));
  const part = (letter: "y" | "m" | "d"): Formula =>
    call("TRIM", call("MID", spread, 1 + (places["ymd".indexOf(letter)] ?? 0) * PART_LENGTH, PART_LENGTH));
  const written = part("y");
  // A year of two digits is one of this century.
  const year =
    form.order === "ymd" || form.places
      ? written
      : operation(call("IF", operation(call("LEN", written), "=", 2), "20", ""), "&", written);
  const [month, day] = [form.places ? monthInWords(part("m")) : part("m"), part("d")];
  const serial = call("DATE", year, month, day);
  // 31 February would roll over into March.
  const holds = product(
    // A word is a month or none.
    form.places ? 1 : operation(operation(month, "*", 1), "<=", 12),
    operation(call("DAY", serial), "=", operation(day, "*", 1)),
    operation(operation(year, "*", 1), ">=", EARLIEST_YEAR),
    operation(operation(year, "*", 1), "<=", LATEST_YEAR),
  );
  return call("IF", isNumber(days), days, call("IFERROR", call("IF", holds, serial, ""), ""));
}

/** The words of a day with one space between them. */
function plainWords(days: Formula): Formula {
  return call(
    "TRIM",
    BETWEEN_DAY_WORDS.reduce<Formula>((text, sign) => call("SUBSTITUTE", text, sign, " "), days),
  );
}

/** What stands before the time of day. */
function beforeTime(days: Formula): Formula {
  const text = operation(call("TRIM", call("SUBSTITUTE", days, "T", " ")), "&", " ");
  return call("MID", text, 1, operation(call("SEARCH", " ", text), "-", 1));
}

/** The number of a month by the first letters of its name, in the languages that headings are read in. */
function monthInWords(word: Formula): Formula {
  const start = operation("|", "&", call("MID", word, 1, 3));
  const place = call("SEARCH", start, MONTH_STARTS);
  const isJuly = operation(call("MID", word, 1, JULY_START.length), "=", JULY_START);
  return call("IF", isJuly, 7, operation(call("MID", MONTH_STARTS, operation(place, "+", START_LENGTH), 2), "*", 1));
}

/** A line and three letters. */
const START_LENGTH = 4;

/** Each row with the latest filled cell at it or above it. */
export function filledDown(column: Formula, kind: "day" | "name", sums: Formula | null = null): Formula {
  const some = kind === "day" ? isNumber(column) : operation(column, "<>", "");
  // A row of sums names nobody for the rows below it.
  const filled = sums === null ? some : product(some, call("ISNA", call("MATCH", column, sums, 0)));
  const row = call("ROW", column);
  // Dividing by "not filled" is an error, and LOOKUP passes errors over.
  return call("IFERROR", call("LOOKUP", row, operation(row, "/", filled), column), "");
}

/** Each row with the latest name that stands alone in a row above it: a text there, no day, and no attempts. */
export function namesOver(
  { date, dateText, athlete, trick, stage, attempts }: OwnLog,
  over: number,
  references: LogReferences,
): Formula {
  const names = references.column(over);
  const isEmpty = (column: number): Formula => operation(references.column(column), "=", "");
  const record =
    attempts.kind === "marks"
      ? Array.from({ length: attempts.last - attempts.first + 1 }, (_, index) => attempts.first + index)
      : Object.values(attempts).filter((column): column is number => typeof column === "number");
  const own = [athlete, trick].flatMap((source) => ("column" in source ? [source.column] : []));
  const columns = [date, ...own, ...(stage === null ? [] : [stage]), ...record];
  const empty = columns.filter((column) => column !== over).map(isEmpty);
  const row = call("ROW", names);
  // A day as text stands in the same column where the day comes first.
  const noDay = dateText === null || over !== date ? [] : [operation(daysFromText(names, dateText), "=", "")];
  const isName = product(call("ISTEXT", names), ...noDay, ...empty);
  // Dividing by "no name" is an error, and LOOKUP passes errors over.
  return call("IFERROR", call("LOOKUP", row, operation(row, "/", isName), names), "");
}
