/** How many attempts it takes to tell two rates apart. */
import { Missing } from "./problem";
import { twoSidedDeviate } from "./tails";

/** Beyond this a number of attempts is no advice to anyone. */
const MOST_ATTEMPTS = 1e15;
/** A number that is whole but for its last digit must not be rounded up by one. */
const ROUNDING = 1e-9;

/**
 * Attempts of each of two ways, rounded up, until a two-sided comparison at this confidence sees the difference with
 * this power: Fleiss, Statistical Methods for Rates and Proportions, 2nd edition 1981, chapter 3, without continuity
 * correction.
 *
 * @param rateA and `rateB`: shares from 0 to 1
 * @param power probability that the difference is seen where it is that large, a share from 0 to 1
 * @param confidence share from 0 to 1
 * @throws Missing where no number of attempts is enough, or more than 1e15 are needed
 */
export function tellApart(rateA: number, rateB: number, power: number, confidence: number): number {
  if (rateA === rateB) throw new Missing("Two equal rates can never be told apart");
  if (power === 1) throw new Missing("No number of attempts makes it entirely sure: ask for a power below 1");
  if (confidence === 1) throw new Missing("No number of attempts makes it entirely sure: ask for a confidence below 1");
  const attempts = attemptsToTell(rateA, rateB, power, confidence);
  if (!(attempts <= MOST_ATTEMPTS)) {
    throw new Missing("More than 1e15 attempts are needed: the two rates are too near each other");
  }
  return Math.max(1, Math.ceil(attempts * (1 - ROUNDING)));
}

/** The same before it is rounded up. */
export function attemptsToTell(rateA: number, rateB: number, power: number, confidence: number): number {
  const mean = (rateA + rateB) / 2;
  const without = twoSidedDeviate(confidence) * Math.sqrt(2 * mean * (1 - mean));
  // The deviate with the power below it: the two-sided one leaves half of what is outside above it.
  const spread = Math.sqrt(rateA * (1 - rateA) + rateB * (1 - rateB));
  const withIt = spread === 0 ? 0 : twoSidedDeviate(2 * power - 1) * spread;
  // A power so low that chance alone has it asks for no attempts at all.
  const both = Math.max(0, without + withIt);
  return (both / (rateA - rateB)) ** 2;
}
