/** Marks as the board's functions take them, out of tallies that a club writes the other way round, or that became days. */
import { call, operation, product, type Formula, type FormulaInput } from "../plan/formula";
import { EARLIEST_DAY, type OwnLog } from "./own-log";

/** The same formula where the marks are the usual ones. */
export function asMarks(raw: Formula, { tally = "caught/attempts", turned = null, writing = null }: OwnLog): Formula {
  const days = turned === null ? raw : daysAsTallies(raw, turned);
  // A number is no text, and stays what it is.
  const texts = writing === null ? days : call("IF", call("ISTEXT", days), call("SUBSTITUTE", call("LOWER", days), writing.text, writing.by), days); // prettier-ignore
  return tally === "caught/attempts" ? texts : turnedRound(texts, tally);
}

function daysAsTallies(raw: Formula, order: NonNullable<OwnLog["turned"]>): Formula {
  const [one, other] = order === "day/month" ? (["DAY", "MONTH"] as const) : (["MONTH", "DAY"] as const);
  const text = operation(operation(call(one, raw), "&", "/"), "&", call(other, raw));
  const isDay = product(call("ISNUMBER", raw), operation(raw, ">=", EARLIEST_DAY));
  return call("IF", call("IFERROR", isDay, 0), call("IFERROR", text, raw), raw);
}

/** Longer than either number of a tally. */
const PART_LENGTH = 20;

/** Caught of attempts, out of the two numbers in another order; a text that is no such tally stays as it is. */
function turnedRound(texts: Formula, reading: NonNullable<OwnLog["tally"]>): Formula {
  const spread = call("SUBSTITUTE", texts, "/", call("REPT", " ", PART_LENGTH));
  const part = (index: number): Formula =>
    operation(call("TRIM", call("MID", spread, 1 + index * PART_LENGTH, PART_LENGTH)), "*", 1);
  const names = reading.split("/");
  const of = (name: string): Formula | null => (names.includes(name) ? part(names.indexOf(name)) : null);
  const [caught, dropped] = [of("caught"), of("dropped")];
  const sum = (left: Formula | null, operator: "+" | "-", right: Formula | null): FormulaInput =>
    left !== null && right !== null ? operation(left, operator, right) : 0;
  const attempts = of("attempts") ?? sum(caught, "+", dropped);
  const made = caught ?? sum(of("attempts"), "-", dropped);
  const oneSlash = operation(
    operation(call("LEN", texts), "-", call("LEN", call("SUBSTITUTE", texts, "/", ""))),
    "=",
    1,
  );
  const holds = product(
    oneSlash,
    operation(made, ">=", 0),
    operation(made, "<=", attempts),
    operation(attempts, ">", 0),
  );
  const tally = operation(operation(made, "&", "/"), "&", attempts);
  return call("IFERROR", call("IF", holds, tally, texts), texts);
}
