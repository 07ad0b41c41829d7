/**
 * The rows of the log that count for the joined trick, as the board counts them: without the stages in which body and
 * toss are practised apart.
 */
import { STAGES_APART } from "../../trade/stages";
import { call, column, operation, product, type Formula } from "../plan/formula";
import { tableNames } from "./names";
import { PRACTICE } from "./practice-sheet";

export type PracticeHeading = (typeof PRACTICE)[keyof typeof PRACTICE];

export function practiceColumn(label: string, heading: PracticeHeading): Formula {
  return column(tableNames(label).practice, heading);
}

/** 1 in each row of the log whose stage counts for the joined trick, 0 in the others. */
export function isJoined(label: string): Formula {
  const stage = practiceColumn(label, PRACTICE.stage);
  const [first, ...others] = STAGES_APART;
  return product(operation(stage, "<>", first), ...others.map((word) => operation(stage, "<>", word)));
}

/**
 * A column of the log, only the rows in which the condition is not 0; an empty text where there are none. A row with an
 * error in a cell that the condition looks at is left out: it would take the others with it.
 */
export function practiceWhere(label: string, heading: PracticeHeading, condition: Formula): Formula {
  return call("FILTER", practiceColumn(label, heading), call("IFERROR", condition, 0), "");
}
