/** The share caught, its intervals and the chance that the true rate is at a standard. */
import type { AttemptLog } from "./attempt-log";
import { Missing, Problem } from "./problem";
import { betaAbove, betaQuantile, betaQuantileAbove, twoSidedDeviate } from "./tails";

export type IntervalMethod = "wilson" | "exact" | "jeffreys";
export const INTERVAL_METHODS: readonly IntervalMethod[] = ["wilson", "exact", "jeffreys"];

export interface Interval {
  readonly low: number;
  readonly high: number;
}

export const NO_ATTEMPTS = "No attempts logged yet: log the first set";

/**
 * The share caught of the latest `last` attempts, or of all.
 *
 * @throws Missing without attempts; Problem where `last` would cut a tally in two, since nothing says which of its
 * attempts were the latest.
 */
export function catchRate(log: AttemptLog, last: number | undefined, argument = "marks"): number {
  if (log.attempts === 0) throw new Missing(NO_ATTEMPTS);
  if (last === undefined || last >= log.attempts) return log.caught / log.attempts;
  const latest = log.latest(last);
  if (latest.attempts > last) {
    const cut = tallyAcross(log, last);
    throw new Problem({
      argument,
      row: cut.row,
      column: cut.column,
      found: `the tally ${cut.caught}/${cut.attempts}, which the latest ${last} attempts would cut in two`,
      accepted: `last on a tally's edge, such as ${latest.attempts}`,
    });
  }
  return latest.caught / latest.attempts;
}

function tallyAcross(log: AttemptLog, last: number) {
  let attempts = 0;
  for (let entry = log.entries - 1; entry >= 0; entry--) {
    const tally = log.tallyAt(entry);
    attempts += tally ? tally.attempts : 1;
    if (attempts > last && tally) return tally;
  }
  throw new Error("no tally lies across that edge");
}

/**
 * An interval for the true rate. Which method when: Wilson's is close to its stated confidence at every size and is the
 * default; the exact one never promises too much and is wide; Jeffreys' lies between (Brown, Cai and DasGupta 2001,
 * Statistical Science 16:101–133).
 *
 * @param caught whole, 0 to attempts
 * @param attempts whole, at least 1
 * @param confidence share from 0 to 1
 */
export function catchInterval(caught: number, attempts: number, confidence: number, method: IntervalMethod): Interval {
  if (confidence >= 1) return { low: 0, high: 1 };
  switch (method) {
    case "wilson":
      return wilson(caught, attempts, twoSidedDeviate(confidence));
    case "exact":
      return clopperPearson(caught, attempts, confidence);
    case "jeffreys":
      return jeffreys(caught, attempts, confidence);
  }
}

/** Score interval without continuity correction: Newcombe 1998, Statistics in Medicine 17:857–872, method 3. */
function wilson(caught: number, attempts: number, deviate: number): Interval {
  const missed = attempts - caught;
  const squared = deviate * deviate;
  const half = deviate * Math.sqrt(squared + (4 * caught * missed) / attempts);
  const scale = 2 * (attempts + squared);
  // At the ends the limit is 0 or 1 exactly; the formula would leave a last digit there.
  return {
    low: caught === 0 ? 0 : Math.max(0, (2 * caught + squared - half) / scale),
    high: missed === 0 ? 1 : Math.min(1, (2 * caught + squared + half) / scale),
  };
}

/** Clopper and Pearson 1934, Biometrika 26:404–413, by beta quantiles. */
function clopperPearson(caught: number, attempts: number, confidence: number): Interval {
  const tail = (1 - confidence) / 2;
  const missed = attempts - caught;
  return {
    low: caught === 0 ? 0 : betaQuantile(tail, caught, missed + 1),
    high: missed === 0 ? 1 : betaQuantileAbove(tail, caught + 1, missed),
  };
}

/** Equal tails of Beta(caught + ½, missed + ½), with the ends of Brown, Cai and DasGupta 2001, section 4.1. */
function jeffreys(caught: number, attempts: number, confidence: number): Interval {
  const tail = (1 - confidence) / 2;
  const missed = attempts - caught;
  return {
    low: caught === 0 ? 0 : betaQuantile(tail, caught + 0.5, missed + 0.5),
    high: missed === 0 ? 1 : betaQuantileAbove(tail, caught + 0.5, missed + 0.5),
  };
}

/**
 * Probability that the true rate is at least the standard, from Jeffreys' prior: Beta(caught + ½, missed + ½).
 * The counts may be weighted, so they need not be whole.
 */
export function chanceAbove(caught: number, missed: number, standard: number): number {
  return betaAbove(standard, caught + 0.5, missed + 0.5);
}
