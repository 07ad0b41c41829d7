/** How many attempts it takes to show that a rate is at the standard. */
import { chanceAbove } from "./catch-rate";
import { Missing } from "./problem";

/** Beyond this many nobody will practise one trick for the proof. */
const MOST_ATTEMPTS = 100_000;

/**
 * The fewest attempts at which `chanceAbove(round(rate·n), n, standard)` reaches the confidence and stays there for
 * every larger n. Rounding makes the chance go up and down with n; it never leaves the band between the chances for
 * half a catch less and half a catch more, so only the stretch where that band crosses the confidence is looked through.
 *
 * @throws Missing when the rate is not above the standard, the confidence is 1, or more than 100,000 attempts are needed
 */
export function proofAttempts(rate: number, standard: number, confidence: number): number {
  if (rate <= standard) {
    throw new Missing(
      "A rate that is not above the standard can never be shown to be: raise the rate or lower the standard",
    );
  }
  if (confidence === 1) throw new Missing("No number of attempts makes it entirely sure: ask for a confidence below 1");
  const reached = (caught: number, attempts: number): boolean => {
    const held = Math.min(Math.max(caught, 0), attempts);
    return chanceAbove(held, attempts - held, standard) >= confidence;
  };
  const settled = (attempts: number): boolean => reached(rate * attempts - 0.5, attempts);
  const sure = firstTrue(settled, 2 * MOST_ATTEMPTS);
  if (sure === undefined) throw tooMany();
  let attempts = sure;
  while (attempts > 1 && reached(Math.round(rate * (attempts - 1)), attempts - 1)) attempts -= 1;
  if (attempts > MOST_ATTEMPTS) throw tooMany();
  return attempts;
}

function tooMany(): Missing {
  return new Missing(
    "More than 100,000 attempts are needed: the rate is too near the standard, or the confidence too high",
  );
}

/** The first n from 1 to `most` where a condition that stays true once it is true holds. */
function firstTrue(condition: (n: number) => boolean, most: number): number | undefined {
  if (!condition(most)) return undefined;
  let [low, high] = [0, most];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (condition(middle)) high = middle;
    else low = middle;
  }
  return high;
}
