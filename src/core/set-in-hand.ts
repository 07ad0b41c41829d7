/** A set that is not logged yet: what the board would say of this athlete and trick if it were. */
import { AttemptLog, type Outcome } from "./attempt-log";
import { STAGES_APART } from "./board";
import { readMark, type Cell } from "./marks";
import { assess, type Assessment } from "./readiness";
import { comparable } from "./text";

const APART = new Set(STAGES_APART.map(comparable));

/** Whether a stage is practised apart from the joined trick: the board leaves it out. */
export function isApart(stage: string): boolean {
  return APART.has(comparable(stage));
}

export interface LoggedMarks {
  readonly cell: Cell;
  /** Row inside the log, from 1, for the message about a cell that cannot be read. */
  readonly row: number;
}

/**
 * The assessment after the logged marks and the set, as the board makes it.
 *
 * @param logged this athlete's marks for this trick, in the log's order, without the stages practised apart
 * @throws Problem where a logged cell cannot be read; the board shows no row then either
 */
export function assessWithSet(
  logged: readonly LoggedMarks[],
  set: readonly Outcome[],
  standard: number,
  setSize: number,
): Assessment {
  const log = new AttemptLog();
  for (const { cell, row } of logged) readMark(cell, "Marks", row, 1, log);
  for (const outcome of set) log.add(outcome);
  return assess(log, standard, setSize);
}
