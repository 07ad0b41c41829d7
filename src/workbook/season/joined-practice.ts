/**
 * The rows of the log that count for the joined trick, as the board counts them: without the stages in which body and
 * toss are practised apart.
 */
import { STAGES_APART } from "../../trade/stages";
import { call, column, leftOut, operation, product, twirl, type Formula } from "../plan/formula";
import { tableNames } from "./names";
import { PRACTICE } from "./practice-sheet";

export type PracticeHeading = (typeof PRACTICE)[keyof typeof PRACTICE];

export function practiceColumn(label: string, heading: PracticeHeading): Formula {
  return column(tableNames(label).practice, heading);
}

/** What every function over a whole log takes first, in its order: days, athletes, tricks, marks. */
export function logColumns(label: string): readonly Formula[] {
  return [PRACTICE.date, PRACTICE.athlete, PRACTICE.trick, PRACTICE.marks].map((heading) =>
    practiceColumn(label, heading),
  );
}

/** 1 in each row of the log whose stage counts for the joined trick, 0 in the others. */
export function isJoined(label: string): Formula {
  return isJoinedStage(practiceColumn(label, PRACTICE.stage));
}

/** The same for a column of stages. */
export function isJoinedStage(stages: Formula): Formula {
  const [first, ...others] = STAGES_APART;
  return product(operation(stages, "<>", first), ...others.map((word) => operation(stages, "<>", word)));
}

/**
 * The marks of the log's rows in which the condition is not 0, nothing in the others: a function that passes rows without
 * marks over reads the log's other columns as they stand, and nothing is filtered column by column.
 */
export function marksWhere(label: string, condition: Formula): Formula {
  // A cell that is empty would come back as 0: a drop.
  const marks = operation(practiceColumn(label, PRACTICE.marks), "&", "");
  return call("IF", call("IFERROR", condition, 0), marks, "");
}

/** TRICKHISTORY over an athlete's rows in which the condition is not 0, all tricks and stages of a day together. */
export function athleteByDay(label: string, athlete: Formula, condition: Formula, standard = leftOut): Formula {
  const athletes = practiceColumn(label, PRACTICE.athlete);
  // The athlete stands in for the trick as well.
  return twirl(
    "TRICKHISTORY",
    practiceColumn(label, PRACTICE.date),
    athletes,
    athletes,
    marksWhere(label, condition),
    athlete,
    athlete,
    standard,
  );
}

/**
 * A column of the log, only the rows in which the condition is not 0; an empty text where there are none. A row with an
 * error in a cell that the condition looks at is left out: it would take the others with it.
 */
export function practiceWhere(label: string, heading: PracticeHeading, condition: Formula): Formula {
  return call("FILTER", practiceColumn(label, heading), call("IFERROR", condition, 0), "");
}
