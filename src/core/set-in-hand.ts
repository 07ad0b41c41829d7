/** A set that is not logged yet: what the board would say of this athlete and trick if it were. */
import type { Outcome } from "./attempt-log";
import { DayLog } from "./day-log";
import { assess, type Assessment } from "./readiness";

/**
 * The assessment with the set, as the board makes it once the set is logged at the foot of the log.
 *
 * @param record what the board counts of this athlete's this trick; undefined where nothing is logged yet
 * @param day whole sheet serial of the set's day
 */
export function assessWithSet(
  record: DayLog | undefined,
  set: readonly Outcome[],
  day: number,
  standard: number,
  setSize: number,
): Assessment {
  const together = record?.copy() ?? new DayLog();
  const { asRead } = together;
  const before = asRead.entries;
  for (const outcome of set) asRead.add(outcome);
  together.noteDay(day, before);
  return assess(together.inOrder(), standard, setSize);
}
