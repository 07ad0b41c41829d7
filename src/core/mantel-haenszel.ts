/**
 * Two ways compared within strata (the same day; the same athlete's same trick), so that a good day is not taken for a
 * good way, nor an easy trick for a good hand.
 */
import { catchInterval, type Interval } from "./catch-rate";
import type { Tally } from "./compare";
import { normalOutside, twoSidedDeviate } from "./tails";

export interface RateDifference extends Interval {
  /** Rate with it less rate without it, −1 to 1. */
  readonly difference: number;
}

/** Beneath this a variance is none: what is left of it comes from rounding. */
const NO_VARIANCE = 1e-15;

/** Takes one stratum after another and keeps sums only. */
export class StratifiedComparison {
  /** How many strata have attempts on both sides; the others say nothing and are left out. */
  strata = 0;
  private withIt = { caught: 0, attempts: 0 };
  private without = { caught: 0, attempts: 0 };
  /** Σ n₁n₂/n and Σ (caught₁ n₂ − caught₂ n₁)/n: the weights, and the differences times their weights. */
  private weight = 0;
  private weighted = 0;
  /** Sato's sums. */
  private sumP = 0;
  private sumQ = 0;
  /** Cochran's: caught with it less what was to be expected, and its variance. */
  private excess = 0;
  private variance = 0;

  /** Attempts on the side that has fewer, over the strata that count. */
  get fewest(): number {
    return Math.min(this.withIt.attempts, this.without.attempts);
  }

  /** @param withIt and `without`: caught whole, 0 to attempts */
  add(withIt: Tally, without: Tally): void {
    const { caught: c1, attempts: n1 } = withIt;
    const { caught: c2, attempts: n2 } = without;
    if (n1 === 0 || n2 === 0) return;
    const n = n1 + n2;
    const caught = c1 + c2;
    this.strata += 1;
    this.withIt.caught += c1;
    this.withIt.attempts += n1;
    this.without.caught += c2;
    this.without.attempts += n2;
    this.weight += (n1 * n2) / n;
    this.weighted += (c1 * n2 - c2 * n1) / n;
    this.sumP += (n1 * n1 * c2 - n2 * n2 * c1 + (n1 * n2 * (n2 - n1)) / 2) / (n * n);
    this.sumQ += (c1 * (n2 - c2) + c2 * (n1 - c1)) / (2 * n);
    this.excess += c1 - (n1 * caught) / n;
    this.variance += ((n1 / n) * (n2 / n) * caught * (n - caught)) / (n - 1);
  }

  /**
   * The Mantel–Haenszel risk difference (Mantel and Haenszel's weights: Greenland and Robins 1985, Biometrics 41:55–68)
   * with Sato's variance (Sato 1989, Biometrics 45:1323–1324), which holds with few large strata and with many small ones.
   *
   * That variance takes a side that was always caught, or never, for certain, were it only caught once of once. There
   * the interval keeps the difference and takes Wilson's margins of the two sides over the strata together, as
   * Newcombe's does; with a single stratum it is Newcombe's.
   *
   * @param confidence share from 0 to 1
   * @returns undefined where no stratum has attempts on both sides
   */
  difference(confidence: number): RateDifference | undefined {
    if (this.strata === 0) return undefined;
    const difference = this.weighted / this.weight;
    const variance = (difference * this.sumP + this.sumQ) / (this.weight * this.weight);
    const { below, above } =
      variance > NO_VARIANCE && isMixed(this.withIt) && isMixed(this.without)
        ? even(twoSidedDeviate(confidence) * Math.sqrt(variance))
        : this.wilsonMargins(confidence);
    return { difference, low: Math.max(-1, difference - below), high: Math.min(1, difference + above) };
  }

  /**
   * Two-sided p of the Cochran–Mantel–Haenszel test without continuity correction (Mantel and Haenszel 1959, Journal of
   * the National Cancer Institute 22:719–748). Where all were caught, or none, nothing speaks for a difference: 1.
   */
  p(): number {
    return this.variance > 0 ? normalOutside(Math.abs(this.excess) / Math.sqrt(this.variance)) : 1;
  }

  /** Newcombe 1998, Statistics in Medicine 17:873–890, method 10: each side's own margins, squared and added. */
  private wilsonMargins(confidence: number): { readonly below: number; readonly above: number } {
    const [rateWith, rateWithout] = [rate(this.withIt), rate(this.without)];
    const scoreWith = catchInterval(this.withIt.caught, this.withIt.attempts, confidence, "wilson");
    const scoreWithout = catchInterval(this.without.caught, this.without.attempts, confidence, "wilson");
    return {
      below: Math.hypot(rateWith - scoreWith.low, scoreWithout.high - rateWithout),
      above: Math.hypot(scoreWith.high - rateWith, rateWithout - scoreWithout.low),
    };
  }
}

function even(margin: number): { readonly below: number; readonly above: number } {
  return { below: margin, above: margin };
}

function isMixed({ caught, attempts }: Tally): boolean {
  return caught > 0 && caught < attempts;
}

function rate({ caught, attempts }: Tally): number {
  return caught / attempts;
}
