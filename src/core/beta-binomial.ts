/**
 * How likely so few catches are where the rate itself is only known from a record: the lower tail of the beta-binomial
 * distribution (Johnson, Kemp and Kotz 2005, Univariate Discrete Distributions, section 6.2.2).
 */
import { betaBelow } from "./tails";

/** Up to here the tail is summed term by term, beyond it integrated: both take some ten microseconds at the most. */
const LONGEST_SUM = 10_000;
/** What is smaller than this against the sum so far, and falls on, no longer counts. */
const NEGLIGIBLE = 1e-17;
const NEGLIGIBLE_LOGARITHM = Math.log(NEGLIGIBLE);

/**
 * P(X ≤ most) for X from BetaBinomial(attempts, a, b): the number caught of `attempts` when the rate is from Beta(a, b).
 * The work is bounded whatever the arguments, since one tally may hold millions of attempts.
 *
 * Up to 10,000 attempts the tail keeps its relative digits; beyond, it is exact to 1e-8 in absolute terms.
 *
 * @param most whole, may lie outside 0 to attempts
 * @param attempts whole, at least 1
 * @param a at least 1, need not be whole
 * @param b at least 1, need not be whole
 */
export function betaBinomialAtMost(most: number, attempts: number, a: number, b: number): number {
  if (most >= attempts) return 1;
  if (most < 0) return 0;
  return attempts <= LONGEST_SUM ? summed(most, attempts, a, b) : integrated(most, attempts, a, b);
}

/**
 * Whether `betaBinomialAtMost` is under this share, which is mostly plain from the mean and the variance: where a ≥ b the
 * distribution leans to its lower side, and at 1.5 standard deviations below the mean and under lie at least 6.6 % (the
 * normal and the even distribution have 6.7 %, an exponential to the lower side 8.2 %). A board asks this twice a set.
 *
 * @param share at most 0.05
 */
export function isRarerThan(share: number, most: number, attempts: number, a: number, b: number): boolean {
  if (a >= b) {
    const size = a + b;
    const mean = (attempts * a) / size;
    const variance = (mean * b * (size + attempts)) / (size * (size + 1));
    if (most >= mean || (mean - most) ** 2 <= 2.25 * variance) return false;
  }
  return betaBinomialAtMost(most, attempts, a, b) < share;
}

/**
 * Each probability against that of `most`, downwards and upwards from there by the ratio of neighbours: all terms are
 * positive, so no digits are lost, and no gamma function is needed. With a and b from 1 on the probabilities rise to one
 * peak and fall, so that a negligible term ends its side.
 */
function summed(most: number, attempts: number, a: number, b: number): number {
  let below = 1;
  let term = 1;
  for (let caught = most; caught > 0 && term > below * NEGLIGIBLE; caught--) {
    term *= (caught * (b + attempts - caught)) / ((attempts - caught + 1) * (a + caught - 1));
    below += term;
  }
  let above = 0;
  term = 1;
  for (let caught = most; caught < attempts && term > above * NEGLIGIBLE; caught++) {
    term *= ((attempts - caught) * (a + caught)) / ((caught + 1) * (b + attempts - caught - 1));
    above += term;
  }
  // One of the two may be beyond all numbers, never both.
  return 1 / (1 + above / below);
}

/**
 * P(X ≤ most | rate) is the chance that Beta(most + 1, attempts − most) lies above the rate (Abramowitz and Stegun
 * 26.5.24), so the tail is the mean of P(rate ≤ u) over u from that distribution. For many attempts it is a narrow bell
 * on the log-odds scale, where the trapezoidal rule at half its width is exact to many digits (Trefethen and Weideman
 * 2014, SIAM Review 56:385–458). The bell's own sum takes the place of its constant.
 */
function integrated(most: number, attempts: number, a: number, b: number): number {
  const peak = Math.log((most + 1) / (attempts - most));
  const share = (most + 1) / (attempts + 1);
  const step = 0.5 / Math.sqrt((attempts + 1) * share * (1 - share));
  const logarithm = (odds: number): number =>
    -(most + 1) * Math.log1p(Math.exp(-odds)) - (attempts - most) * Math.log1p(Math.exp(odds));
  const highest = logarithm(peak);
  let [weights, mean] = [0, 0];
  for (const direction of [-1, 1]) {
    for (let place = direction < 0 ? 0 : 1; ; place++) {
      const odds = peak + direction * place * step;
      const height = logarithm(odds) - highest;
      if (height < NEGLIGIBLE_LOGARITHM) break;
      const weight = Math.exp(height);
      weights += weight;
      mean += weight * betaBelow(1 / (1 + Math.exp(-odds)), a, b);
    }
  }
  return mean / weights;
}
