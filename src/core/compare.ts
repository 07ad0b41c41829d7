/** Two ways of doing a trick, two hands, practice and contest: is one truly caught more often? */
import { catchInterval } from "./catch-rate";

export interface Tally {
  readonly caught: number;
  readonly attempts: number;
}

type Comparison = "A better" | "B better" | "no clear difference";

interface Compared {
  /** Rate of B less rate of A. */
  readonly difference: number;
  readonly low: number;
  readonly high: number;
  /** Fisher's exact two-sided p. */
  readonly p: number;
  readonly verdict: Comparison;
}

/**
 * Difference of the two rates with Newcombe's hybrid score interval without continuity correction (Newcombe 1998,
 * Statistics in Medicine 17:873–890, method 10) and Fisher's exact p. The verdict follows the interval.
 *
 * @param a and `b`: caught whole, 0 to attempts; attempts whole, at least 1
 */
export function compareRates(a: Tally, b: Tally, confidence: number): Compared {
  const [rateA, rateB] = [a.caught / a.attempts, b.caught / b.attempts];
  const scoreA = catchInterval(a.caught, a.attempts, confidence, "wilson");
  const scoreB = catchInterval(b.caught, b.attempts, confidence, "wilson");
  const difference = rateB - rateA;
  const low = difference - Math.hypot(rateB - scoreB.low, scoreA.high - rateA);
  const high = difference + Math.hypot(scoreB.high - rateB, rateA - scoreA.low);
  return {
    difference,
    low: Math.max(-1, low),
    high: Math.min(1, high),
    p: fisherExact(a, b),
    verdict: low > 0 ? "B better" : high < 0 ? "A better" : "no clear difference",
  };
}

/** Tables as likely as the one seen count as well, though their last digit may differ (R's fisher.test does the same). */
const SAME_CHANCE = 1 + 1e-7;

/**
 * Fisher's exact test, two-sided: the sum over all tables with these margins that are no more likely than the one seen
 * (Fisher 1935, The Logic of Inductive Inference, Journal of the Royal Statistical Society 98:39–54).
 *
 * The chances are taken relative to the likeliest table, from it outwards, each from its neighbour: no factorial is ever
 * needed and nothing overflows. Far out they vanish, and with them what they would add.
 */
export function fisherExact(a: Tally, b: Tally): number {
  const caught = a.caught + b.caught;
  const all = a.attempts + b.attempts;
  const least = Math.max(0, caught - b.attempts);
  const most = Math.min(caught, a.attempts);
  // How the chance grows from x to x + 1 of A's attempts caught.
  const growth = (x: number): number => ((a.attempts - x) * (caught - x)) / ((x + 1) * (b.attempts - caught + x + 1));
  const mode = Math.min(most, Math.max(least, Math.floor(((a.attempts + 1) * (caught + 1)) / (all + 2))));
  const seen = relativeChance(mode, a.caught, growth);
  let [total, extreme] = [1, 1 <= seen * SAME_CHANCE ? 1 : 0];
  const add = (chance: number): void => {
    total += chance;
    if (chance <= seen * SAME_CHANCE) extreme += chance;
  };
  // Beyond this a table adds nothing to either sum, nor do those farther out.
  const nothing = seen * 1e-20;
  for (let [x, chance] = [mode, 1]; x < most && chance > nothing; x++) add((chance *= growth(x)));
  for (let [x, chance] = [mode, 1]; x > least && chance > nothing; x--) add((chance /= growth(x - 1)));
  return Math.min(1, extreme / total);
}

/** The chance of x relative to that of the likeliest table. */
function relativeChance(mode: number, x: number, growth: (x: number) => number): number {
  let chance = 1;
  for (let at = mode; at < x && chance > 0; at++) chance *= growth(at);
  for (let at = mode; at > x && chance > 0; at--) chance /= growth(at - 1);
  return chance;
}
