/**
 * Is the trick reliable enough for the routine? The practice rule (8 of 10 in a row, comfortably) with the evidence
 * behind it. The bare rule passes a true 70 % trick in 38 % of sets, so it is asked for together with the chance, from
 * the whole record with the latest attempts weighing most, that the true rate is at the standard.
 */
import { CAUGHT, type AttemptLog, type Tallied } from "./attempt-log";
import { catchInterval, chanceAbove, type Interval } from "./catch-rate";
import { streaks, type Streaks } from "./streak";
import { binomialAtMost } from "./tails";

export const STATUSES = ["No attempts", "Too few", "Building", "Confirm", "Ready", "Solid", "At risk"] as const;
export type Status = (typeof STATUSES)[number];

/** An attempt this many attempts ago weighs half as much as the latest. */
const HALF_LIFE_ATTEMPTS = 30;
const DECAY = Math.pow(2, -1 / HALF_LIFE_ATTEMPTS);
/** The rule earns its word only when the evidence is at least even. */
const EARNED_EVIDENCE = 0.5;
const SOLID_EVIDENCE = 0.9;
const RISK_EVIDENCE = 0.35;
/** A last set that would be this rare at the standard is a slide, not luck. */
const POOR_SET_CHANCE = 0.05;
/** Two bails in a set are a reason to stop, whatever the catches say. */
export const RISK_BAILS = 2;
/** The recent rate looks back this many sets. */
const RECENT_SETS = 3;
const RECENT_CONFIDENCE = 0.95;

/** Rates typed as 1 − 0.2 must not fail by their last digit. */
const ROUNDING = 1e-9;

export interface Assessment {
  readonly status: Status;
  readonly attempts: number;
  readonly lastSet: Tallied;
  readonly recent: Tallied;
  /** Wilson's 95 % interval of the recent rate; undefined without attempts. */
  readonly recentInterval: Interval | undefined;
  /** E: the chance that the true rate is at the standard; undefined without attempts. */
  readonly evidence: number | undefined;
  /** Undefined where a tally hides the order. */
  readonly streaks: Streaks | undefined;
}

/**
 * Only the status; see `assess`.
 *
 * @param standard share to be caught, 0 to 1
 * @param setSize attempts in a set, whole, at least 1
 */
export function readiness(log: AttemptLog, standard: number, setSize: number): Status {
  return walk(log, standard, setSize).status;
}

/**
 * The status of the record up to each of some entries, in one walk: what `readiness` answers for each of these beginnings.
 *
 * @param ends how many entries each beginning has, in rising order
 */
export function readinessAfter(log: AttemptLog, standard: number, setSize: number, ends: readonly number[]): Status[] {
  const found: Walked[] = [];
  walk(log, standard, setSize, ends, found);
  return found.map(({ status }) => status);
}

/** The status and the figures behind it. */
export function assess(log: AttemptLog, standard: number, setSize: number): Assessment {
  const walked = walk(log, standard, setSize);
  const recent = log.latest(RECENT_SETS * setSize);
  const some = log.attempts > 0;
  return {
    status: walked.status,
    attempts: log.attempts,
    lastSet: walked.lastSet,
    recent,
    recentInterval: some ? catchInterval(recent.caught, recent.attempts, RECENT_CONFIDENCE, "wilson") : undefined,
    evidence: some ? walked.evidence : undefined,
    streaks: log.hasTallies ? undefined : streaks(log),
  };
}

interface Walked {
  readonly status: Status;
  readonly lastSet: Tallied;
  readonly evidence: number;
}

/**
 * Walks through the log, judging at the entry that completes each `setSize` attempts counted from the first, and once
 * more at the end. For single attempts that is after every set; a tally is judged at its end, since its order is unknown.
 *
 * @param ends after how many entries to note what would be found if the log ended there, in rising order
 * @param found where it is noted
 */
function walk(
  log: AttemptLog,
  standard: number,
  setSize: number,
  ends: readonly number[] = [],
  found: Walked[] = [],
): Walked {
  // The weights are plain variables, aged and added to entry by entry: this loop sees every attempt of the club.
  let weightCaught = 0;
  let weightMissed = 0;
  let attempts = 0;
  let nextJudging = setSize;
  let earned = false;
  for (let entry = 0; entry < log.entries; entry++) {
    const tally = log.tallyAt(entry);
    if (tally) {
      // The tally's attempts share its weights evenly: 1 + d + d² + … over its attempts.
      const aged = Math.pow(DECAY, tally.attempts);
      const weight = (1 - aged) / (1 - DECAY);
      const share = tally.caught / tally.attempts;
      weightCaught = weightCaught * aged + weight * share;
      weightMissed = weightMissed * aged + weight * (1 - share);
      attempts += tally.attempts;
    } else {
      const caught = log.outcomeAt(entry) === CAUGHT ? 1 : 0;
      weightCaught = weightCaught * DECAY + caught;
      weightMissed = weightMissed * DECAY + (1 - caught);
      attempts += 1;
    }
    if (attempts >= nextJudging) {
      nextJudging = (Math.floor(attempts / setSize) + 1) * setSize;
      // Once earned a trick stays earned; only what it is now is judged anew, and that at the end.
      earned ||=
        holds(log.latest(setSize, entry + 1), standard, setSize) &&
        chanceAbove(weightCaught, weightMissed, standard) >= EARNED_EVIDENCE;
    }
    if (entry + 1 === ends[found.length]) {
      found.push(walkedTo(log, entry + 1, attempts, weightCaught, weightMissed, earned, standard, setSize));
    }
  }
  return walkedTo(log, log.entries, attempts, weightCaught, weightMissed, earned, standard, setSize);
}

/** What is found where the log ends. The numbers come one by one: captured in a closure they would slow the walk. */
function walkedTo(
  log: AttemptLog,
  end: number,
  attempts: number,
  weightCaught: number,
  weightMissed: number,
  earnedBefore: boolean,
  standard: number,
  setSize: number,
): Walked {
  const lastSet = log.latest(setSize, end);
  const evidence = chanceAbove(weightCaught, weightMissed, standard);
  const earned = earnedBefore || (holds(lastSet, standard, setSize) && evidence >= EARNED_EVIDENCE);
  return { status: statusNow(attempts, lastSet, evidence, earned, standard, setSize), lastSet, evidence };
}

/** The rule: a whole set, and the share caught in it at the standard. */
function holds(set: Tallied, standard: number, setSize: number): boolean {
  return set.attempts >= setSize && set.caught >= standard * set.attempts - ROUNDING;
}

function statusNow(
  attempts: number,
  lastSet: Tallied,
  evidence: number,
  earned: boolean,
  standard: number,
  setSize: number,
): Status {
  if (attempts === 0) return "No attempts";
  if (attempts < setSize) return "Too few";
  const rule = holds(lastSet, standard, setSize);
  if (!earned) return rule ? "Confirm" : "Building";
  const poorSet = binomialAtMost(lastSet.caught, lastSet.attempts, standard) < POOR_SET_CHANCE;
  if (evidence < RISK_EVIDENCE || poorSet || lastSet.bails >= RISK_BAILS) return "At risk";
  return rule && evidence >= SOLID_EVIDENCE ? "Solid" : "Ready";
}
