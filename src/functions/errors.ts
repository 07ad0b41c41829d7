/**
 * From the core's Problem and Missing to the host's two cell errors that carry a message. The only file that knows
 * `CustomFunctions.Error`.
 */
import { Missing, Problem } from "../core/problem";
import type { Places } from "./places";

/** What a spill holds; null would show as 0, so an empty cell is an empty text. */
export type Cells = (string | number)[][];

/**
 * Runs a function's body and turns whatever it throws into a cell error, so that nothing but a value or one of the two
 * cell errors ever leaves a cell function.
 *
 * @param places where the call's ranges stand, so that a message names the sheet's own cell
 */
export function respond<Answer extends string | number | Cells>(answer: () => Answer, places?: Places): Answer {
  try {
    return requireFinite(answer());
  } catch (error) {
    throw cellError(places && error instanceof Problem ? placed(error, places) : error);
  }
}

function placed(problem: Problem, places: Places): Problem {
  const { argument, row, column = 1 } = problem.details;
  const cell = row === undefined ? undefined : places.cellOf(argument, row, column);
  return cell === undefined ? problem : new Problem({ ...problem.details, cell });
}

/** The host would show 0 for NaN and Infinity inside a spill without a word. */
function requireFinite<Answer extends string | number | Cells>(answer: Answer): Answer {
  const finite =
    typeof answer === "number"
      ? Number.isFinite(answer)
      : typeof answer === "string" ||
        answer.every((row) => row.every((v) => typeof v === "string" || Number.isFinite(v)));
  if (!finite) throw new Missing("These numbers are too large or too small for an answer");
  return answer;
}

function cellError(error: unknown): CustomFunctions.Error {
  if (error instanceof Missing) {
    return new CustomFunctions.Error(CustomFunctions.ErrorCode.notAvailable, error.message);
  }
  const message =
    error instanceof Problem
      ? error.message
      : `This is a mistake in the function, not in the sheet: please report it (${error instanceof Error ? error.message : String(error)}).`;
  return new CustomFunctions.Error(CustomFunctions.ErrorCode.invalidValue, message);
}
