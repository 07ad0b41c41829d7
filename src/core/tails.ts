/**
 * Tails of the beta, binomial and normal distributions and their inverses, all from `@stdlib`, which is tested against
 * other languages' libraries. Everything else in the project asks here, so that the library stands in one place.
 */
import betainc from "@stdlib/math-base-special-betainc";
import betaincinv from "@stdlib/math-base-special-betaincinv";
import erfc from "@stdlib/math-base-special-erfc";
import gammaln from "@stdlib/math-base-special-gammaln";
import normalQuantile from "@stdlib/stats-base-dists-normal-quantile";

/** P(X ≤ x) for X from Beta(a, b); x from 0 to 1; a, b > 0. */
export function betaBelow(x: number, a: number, b: number): number {
  return asShare(betainc(x, a, b, true, false));
}

/** P(X ≥ x) for X from Beta(a, b); kept apart from `betaBelow` so that a small upper tail keeps its digits. */
export function betaAbove(x: number, a: number, b: number): number {
  return asShare(betainc(x, a, b, true, true));
}

/** The x with P(X ≤ x) = share for X from Beta(a, b). */
export function betaQuantile(share: number, a: number, b: number): number {
  return asShare(betaincinv(share, a, b, false));
}

/** The x with P(X ≥ x) = share for X from Beta(a, b). */
export function betaQuantileAbove(share: number, a: number, b: number): number {
  return asShare(betaincinv(share, a, b, true));
}

/** P(X ≤ most) for X from Binomial(attempts, rate), by the beta distribution (Abramowitz and Stegun 26.5.24). */
export function binomialAtMost(most: number, attempts: number, rate: number): number {
  if (most >= attempts) return 1;
  if (most < 0) return 0;
  return betaAbove(rate, most + 1, attempts - most);
}

/** The standard normal deviate with half of 1 − confidence above it: 1.959964 for 0.95. */
export function twoSidedDeviate(confidence: number): number {
  // From the lower tail: 0.5 + confidence / 2 would lose the digits of a confidence very near 1.
  return -normalQuantile((1 - confidence) / 2, 0, 1);
}

/** P(|Z| ≥ deviate) for a standard normal Z: 0.05 for 1.959964. @param deviate at least 0 */
export function normalOutside(deviate: number): number {
  return erfc(deviate / Math.SQRT2);
}

/** ln Γ(x), x > 0. */
export function logGamma(x: number): number {
  return gammaln(x);
}

/** The library may overshoot the ends of 0..1 by a last digit. */
function asShare(value: number): number {
  return Math.min(1, Math.max(0, value));
}
