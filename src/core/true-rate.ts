/**
 * What the true rate may be, from weighted counts: Beta(caught + ½, missed + ½), as `chanceAbove` has it. A board asks
 * once a set whether the chance is from a threshold on and once a row for the middle 95 %, so both are answered here with
 * as few evaluations of the beta distribution as will do: each takes microseconds.
 */
import { chanceAbove, type Interval } from "./catch-rate";
import { betaBelow, twoSidedDeviate } from "./tails";

/**
 * A chance that is asked for, with its normal deviate. The deviate is worked out when it is first asked for: the pane reads
 * this file without the numeric library where that has not come, and goes on counting without a status.
 */
export class Threshold {
  private known: number | undefined;

  /** @param chance between 0 and 1 */
  constructor(readonly chance: number) {}

  get deviate(): number {
    return (this.known ??= Math.sign(this.chance - 0.5) * twoSidedDeviate(Math.abs(2 * this.chance - 1)));
  }
}

/** `deviateNearly` is good to this where at least half a catch and half a miss are counted; 0.015 is the most found. */
const DEVIATE_WITHIN = 0.03;

/**
 * Whether `chanceAbove` is at least this. First the mean and the mode are asked: with a ≥ b > 1 the median of Beta(a, b)
 * lies between them (Payton, Young and Young 1989, Communications in Statistics, Theory and Methods 18:4147–4155), and 0.6
 * standard deviations on either side of the mean at least 25 % lie above and less than 82 % (between the normal
 * distribution's 27 and 73 % and the exponential's 33 and 80 %). Then the approximation, and where that is too close to
 * the threshold the distribution itself.
 */
export function isChanceFrom(least: Threshold, caught: number, missed: number, standard: number): boolean {
  if (caught > missed && missed > 0.5) {
    const attempts = caught + missed;
    const mean = (caught + 0.5) / (attempts + 1);
    if (least.chance <= 0.5 && mean >= standard) return true;
    if (least.chance >= 0.5 && caught - 0.5 < standard * (attempts - 1)) return false;
    const isNearMean = (standard - mean) ** 2 <= (0.36 * mean * (1 - mean)) / (attempts + 2);
    if (isNearMean && least.chance <= 0.25) return true;
    if (isNearMean && least.chance >= 0.82) return false;
  }
  if (caught >= 0.5 && standard > 0 && standard < 1) {
    // With less than half a miss the chance is no smaller than with half a miss.
    const over = deviateNearly(caught, Math.max(0.5, missed), standard) - least.deviate;
    if (over > DEVIATE_WITHIN) return true;
    if (over < -DEVIATE_WITHIN && missed >= 0.5) return false;
  }
  return chanceAbove(caught, missed, standard) >= least.chance;
}

/**
 * The normal deviate of `chanceAbove`, nearly: Peizer and Pratt 1968, Journal of the American Statistical Association
 * 63:1416–1456, whose counts less one half are just the caught and the missed.
 *
 * @param rate between 0 and 1, neither included
 */
function deviateNearly(caught: number, missed: number, rate: number): number {
  const attempts = caught + missed;
  const rest = 1 - rate;
  const away =
    caught +
    1 / 6 -
    (attempts + 1 / 3) * rate +
    0.02 * (rest / (caught + 0.5) - rate / (missed + 0.5) + (rest - 0.5) / (attempts + 1));
  const skew = rest * skewness(caught / (attempts * rate)) + rate * skewness(missed / (attempts * rest));
  return away * Math.sqrt((1 + skew) / ((attempts + 1 / 6) * rate * rest));
}

/** Peizer and Pratt's g. */
function skewness(ratio: number): number {
  const short = 1 - ratio;
  if (Math.abs(short) < 1e-3) return short / 3 + (short * short) / 6;
  return (1 - ratio * ratio + 2 * ratio * Math.log(ratio)) / (short * short);
}

/** Half of what is left out of the middle 95 %. */
const OUTSIDE_LOGARITHM = Math.log(0.025);
/** `twoSidedDeviate(0.95)`, written out for the same reason. */
const OUTSIDE_DEVIATE = 1.959963984540054;
const OUTSIDE_DENSITY = Math.exp(-(OUTSIDE_DEVIATE ** 2) / 2) / Math.sqrt(2 * Math.PI);
const MOST_STEPS = 60;

/** The middle 95 % of what the true rate may be, good to nine digits. */
export function middleOfRate(caught: number, missed: number): Interval {
  const constant = logarithmOfBeta(caught + 0.5, missed + 0.5);
  return { low: share(lowerOdds(caught, missed, constant)), high: share(-lowerOdds(missed, caught, constant)) };
}

function share(logOdds: number): number {
  return 1 / (1 + Math.exp(-logOdds));
}

/**
 * The log-odds under which 2.5 % of Beta(caught + ½, missed + ½) lie, by Newton's rule on the logarithm of the tail:
 * that is concave and rises in the log-odds, so that the rule cannot swing. Near the end the series of the inverse is
 * taken to its third term, whose error falls with the fourth power: from the approximation one step is mostly enough.
 *
 * @param constant logarithm of B(caught + ½, missed + ½)
 */
function lowerOdds(caught: number, missed: number, constant: number): number {
  const [a, b] = [caught + 0.5, missed + 0.5];
  const spread = Math.sqrt(1 / a + 1 / b);
  let odds = firstLowerOdds(caught, missed, constant);
  for (let step = 0; step < MOST_STEPS; step++) {
    const rate = share(odds);
    const tail = betaBelow(rate, a, b);
    const slope = density(odds, a, b, constant) / tail;
    const newton = (OUTSIDE_LOGARITHM - Math.log(tail)) / slope;
    // The logarithm of the density rises by this, and that of the slope by so much less.
    const rise = a - (a + b) * rate;
    const bend = rise - slope;
    const isClose = Math.abs(newton) * (Math.abs(rise) + slope + 1 / spread) < 0.02;
    if (isClose) {
      const third = (2 * bend * bend + (a + b) * rate * (1 - rate) + slope * bend) / 6;
      return odds + newton * (1 - newton * (bend / 2 - newton * third));
    }
    odds += Math.min(4 * spread, Math.max(-4 * spread, newton));
  }
  return odds;
}

/** Of the log-odds. */
function density(odds: number, a: number, b: number, constant: number): number {
  // ln(1 + e^−odds) and ln(1 + e^odds) differ by the odds.
  const over = Math.log1p(Math.exp(-Math.abs(odds)));
  return Math.exp(odds < 0 ? a * odds - (a + b) * over - constant : -b * odds - (a + b) * over - constant);
}

/** Where to begin. */
function firstLowerOdds(caught: number, missed: number, constant: number): number {
  if (caught >= 1 && missed >= 1) return lowerOddsNearly(caught, missed, constant);
  const a = caught + 0.5;
  // Hardly any caught: the tail is nearly x^a / (a B(a, b)).
  if (caught <= missed) return Math.min(0, (OUTSIDE_LOGARITHM + Math.log(a) + constant) / a);
  // Hardly any missed: −ln x is nearly from the gamma distribution with shape b over a + (b − 1)/2 (Wise 1950, Biometrika
  // 37:208–218). Its quantile, in the missed: a parabola through R's qgamma(0.975, c(0.5, 1, 1.5)).
  const quantile = 2.512 + missed * (2.546 - 0.384 * missed);
  return -Math.log(Math.expm1(quantile / (a + (missed - 0.5) / 2)));
}

/** Abramowitz and Stegun 26.5.22, brought to where the closer approximation has it. */
function lowerOddsNearly(caught: number, missed: number, constant: number): number {
  const skew = (OUTSIDE_DEVIATE ** 2 - 3) / 6;
  const [ofCaught, ofMissed] = [1 / (2 * caught), 1 / (2 * missed)];
  const size = 2 / (ofCaught + ofMissed);
  const below =
    (OUTSIDE_DEVIATE * Math.sqrt(size + skew)) / size - (ofMissed - ofCaught) * (skew + 5 / 6 - 2 / (3 * size));
  let odds = Math.log((caught + 0.5) / (missed + 0.5)) - 2 * below;
  const slope = density(odds, caught + 0.5, missed + 0.5, constant) / OUTSIDE_DENSITY;
  for (let step = 0; step < 2; step++) {
    odds += (deviateNearly(caught, missed, share(odds)) - OUTSIDE_DEVIATE) / slope;
  }
  return odds;
}

/** The logarithm of the beta function, to some ten digits. */
function logarithmOfBeta(a: number, b: number): number {
  return logarithmOfGamma(a) + logarithmOfGamma(b) - logarithmOfGamma(a + b);
}

/** Stirling's series (Abramowitz and Stegun 6.1.41) from 6 on, to which Γ(z + 1) = z Γ(z) leads. */
function logarithmOfGamma(z: number): number {
  let shifted = z;
  let product = 1;
  for (; shifted < 6; shifted++) product *= shifted;
  const inverse = 1 / shifted;
  const series = inverse * (1 / 12 - inverse * inverse * (1 / 360 - (inverse * inverse) / 1260));
  return (shifted - 0.5) * Math.log(shifted) - shifted + 0.5 * Math.log(2 * Math.PI) + series - Math.log(product);
}
