/**
 * What the sheet says in words. One place, so that the words stay short, plain and the trade's own, and the cautions
 * stand where the work can hurt. The order of acting on a trick that fails (repeat it for five catches, run it between
 * its neighbours, change the way in or out, put in a safer trick) is common practice, no source.
 */
import { RISK_BAILS, type Assessment } from "./readiness";

/** The next step for a status, one short sentence. */
export function nextStep({ status, attempts, lastSet }: Assessment, setSize: number): string {
  if (lastSet.bails >= RISK_BAILS) {
    return "Do not push repetitions after bails: back to body and toss apart until both feel safe.";
  }
  switch (status) {
    case "No attempts":
      return `Log a first set of ${setSize}.`;
    case "Too few":
      return `Log ${setSize - attempts} more to judge it.`;
    case "Building":
      return "Body and toss apart, then joined: five catches running before the next step.";
    case "Confirm":
      return "A good set that may be luck: show it again, best on another day.";
    case "Ready":
      return "Run it with the trick before and the trick after, then in the run-through.";
    case "Solid":
      return "Keep it warm with one set a practice; spend the time on weaker tricks.";
    case "At risk":
      return "Stop and repeat for five catches running; then between its neighbours; else another way in or out, or a safer trick.";
  }
}

/** Room under the ceiling that a toss should leave: common practice, no source. */
export const CLEARANCE_METRES = 0.5;

/**
 * The verdict on a planned toss.
 *
 * @param ceilingRoom from the baton's highest point to the ceiling; undefined where no ceiling was given
 * @param clearance what should be left, in the same unit
 */
export function tossVerdict(ceilingRoom: number | undefined, clearance: number, leanDegrees: number): string {
  if (ceilingRoom === undefined) {
    return "Measure the ceiling and its lights before this toss; keep the lane clear.";
  }
  if (ceilingRoom < 0) return "Hits the ceiling: fewer counts, faster counts or another hall.";
  if (ceilingRoom < clearance) return "Too close to the ceiling or its lights: fewer counts or faster counts.";
  if (leanDegrees > STEEP_LEAN_DEGREES)
    return "Fits, but travels far for its height: keep the lane clear and check the landing mark.";
  return "Fits under this ceiling; keep the lane clear.";
}

/** Beyond this the toss drifts more than it rises near the hand: common practice, no source. */
const STEEP_LEAN_DEGREES = 20;
