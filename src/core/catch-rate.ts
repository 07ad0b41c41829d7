/** The share caught, its intervals and the chance that the true rate is at a standard. */
import type { AttemptLog } from "./attempt-log";
import { Missing, Problem } from "./problem";
import { betaAbove, betaBelow, betaQuantile, betaQuantileAbove, twoSidedDeviate } from "./tails";

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

/** Half of what is left out of the middle 95 %. */
const OUTSIDE_LOGARITHM = Math.log(0.025);
const MOST_STEPS = 60;

/**
 * The middle 95 % of what the true rate may be, of the same distribution as `chanceAbove`. A board shows it in every row,
 * so it is solved here in some ten evaluations; the library's own inverse takes ten times as long. The counts may be
 * weighted.
 */
export function middleOfRate(caught: number, missed: number): Interval {
  const [a, b] = [caught + 0.5, missed + 0.5];
  return { low: share(lowerOdds(a, b)), high: share(-lowerOdds(b, a)) };
}

function share(logOdds: number): number {
  return 1 / (1 + Math.exp(-logOdds));
}

/**
 * The log-odds under which 2.5 % of Beta(a, b) lie, by the secant rule on the logarithm of the tail: that is concave and
 * rises in the log-odds, so that the rule cannot swing.
 */
function lowerOdds(a: number, b: number): number {
  const spread = Math.sqrt(1 / a + 1 / b);
  const tail = (odds: number): number => Math.log(betaBelow(share(odds), a, b)) - OUTSIDE_LOGARITHM;
  let before = Math.log(a / b) - (a > 1 && b > 1 ? lowerOddsNearly(a, b) : 2 * spread);
  let odds = before + spread / 50;
  let [heightBefore, height] = [tail(before), tail(odds)];
  for (let step = 0; step < MOST_STEPS && height !== heightBefore; step++) {
    const wanted = (-height * (odds - before)) / (height - heightBefore);
    const move = Math.min(4 * spread, Math.max(-4 * spread, wanted));
    [before, heightBefore] = [odds, height];
    odds += move;
    // The rule's error falls with the power 1.6 of the one before.
    if (Math.abs(move) <= 1e-9 * (1 + Math.abs(odds))) break;
    height = tail(odds);
  }
  return odds;
}

/** How far the lower 2.5 % lie under the log-odds of a/b: Abramowitz and Stegun 26.5.22, as a first guess. */
function lowerOddsNearly(a: number, b: number): number {
  const deviate = 1.96;
  const skew = (deviate * deviate - 3) / 6;
  const [ofA, ofB] = [1 / (2 * a - 1), 1 / (2 * b - 1)];
  const size = 2 / (ofA + ofB);
  return 2 * ((deviate * Math.sqrt(size + skew)) / size - (ofB - ofA) * (skew + 5 / 6 - 2 / (3 * size)));
}

/**
 * Whether `chanceAbove` is at least this. The beta distribution is worked out only where its mean and its mode do not
 * tell: with a ≥ b > 1 its median lies between them (Payton, Young and Young 1989, Communications in Statistics, Theory
 * and Methods 18:4147–4155), and 0.6 standard deviations on either side of the mean at least 25 % lie above and less
 * than 82 % (between the normal distribution's 27 and 73 % and the exponential's 33 and 80 %). A board asks this once a
 * set.
 *
 * @param least 0 to 1
 */
export function isChanceFrom(least: number, caught: number, missed: number, standard: number): boolean {
  if (caught > missed && missed > 0.5) {
    const attempts = caught + missed;
    const mean = (caught + 0.5) / (attempts + 1);
    if (least <= 0.5 && mean >= standard) return true;
    if (least >= 0.5 && caught - 0.5 < standard * (attempts - 1)) return false;
    const isNearMean = (standard - mean) ** 2 <= (0.36 * mean * (1 - mean)) / (attempts + 2);
    if (isNearMean && least <= 0.25) return true;
    if (isNearMean && least >= 0.82) return false;
  }
  return chanceAbove(caught, missed, standard) >= least;
}
