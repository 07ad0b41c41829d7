/** Formulas that read a column of a club's log before the board does, on the new sheet: the log stays as it is. */
import { EARLIEST_YEAR, LATEST_YEAR } from "../plan/days";
import { call, operation, product, type Formula, type FormulaInput } from "../plan/formula";
import type { OwnLog } from "./own-log";

const isNumber = (of: FormulaInput): Formula => call("ISNUMBER", of);

/** Longer than any part of a day as text. */
const PART_LENGTH = 20;

/**
 * The real days of a column, and those written as text in the club's own form. By the parts of the text: the
 * spreadsheet's own reading of such texts differs from computer to computer.
 */
export function daysFromText(days: Formula, form: NonNullable<OwnLog["dateText"]>): Formula {
  const spread = call("SUBSTITUTE", days, form.separator, call("REPT", " ", PART_LENGTH));
  const part = (letter: string): Formula =>
    call("TRIM", call("MID", spread, 1 + form.order.indexOf(letter) * PART_LENGTH, PART_LENGTH));
  const written = part("y");
  // A year of two digits is one of this century.
  const year =
    form.order === "ymd"
      ? written
      : operation(call("IF", operation(call("LEN", written), "=", 2), "20", ""), "&", written);
  const [month, day] = [part("m"), part("d")];
  const serial = call("DATE", year, month, day);
  // 31 February would roll over into March.
  const holds = product(
    operation(operation(month, "*", 1), "<=", 12),
    operation(call("DAY", serial), "=", operation(day, "*", 1)),
    operation(operation(year, "*", 1), ">=", EARLIEST_YEAR),
    operation(operation(year, "*", 1), "<=", LATEST_YEAR),
  );
  return call("IF", isNumber(days), days, call("IFERROR", call("IF", holds, serial, ""), ""));
}

/** Each row with the latest filled cell at it or above it. */
export function filledDown(column: Formula, kind: "day" | "name"): Formula {
  const filled = kind === "day" ? isNumber(column) : operation(column, "<>", "");
  const row = call("ROW", column);
  // Dividing by "not filled" is an error, and LOOKUP passes errors over.
  return call("IFERROR", call("LOOKUP", row, operation(row, "/", filled), column), "");
}
