/** Runs of catches: those that were, and those to expect. */
import { CAUGHT, type AttemptLog } from "./attempt-log";
import { Missing } from "./problem";

export interface Streaks {
  /** Catches in a row up to now; a negative number counts misses in a row; 0 without attempts. */
  readonly current: number;
  /** Longest run of catches. */
  readonly best: number;
  /** Longest run without a catch; a bail is not a catch. */
  readonly misses: number;
}

/** Over the attempts since the last tally, whose order is unknown; over all where there is none. */
export function streaks(log: AttemptLog): Streaks {
  let run = 0;
  let best = 0;
  let misses = 0;
  for (let entry = log.orderedFrom; entry < log.entries; entry++) {
    if (log.outcomeAt(entry) === CAUGHT) {
      run = run > 0 ? run + 1 : 1;
      if (run > best) best = run;
    } else {
      run = run < 0 ? run - 1 : -1;
      if (-run > misses) misses = -run;
    }
  }
  return { current: run, best, misses };
}

/**
 * Probability of at least one run of `length` catches within `attempts` independent attempts at `rate`.
 *
 * The first such run ends at attempt n when attempt n − length was missed, no run ended before it, and the rest were
 * caught: f(n) = (1 − r) r^L (1 − F(n − L − 1)), f(L) = r^L (Feller, An Introduction to Probability Theory I, XIII.7).
 * Summing f instead of multiplying the complement keeps the digits of a small chance.
 */
export function streakChance(rate: number, length: number, attempts: number): number {
  if (attempts < length || rate === 0) return 0;
  if (rate === 1) return 1;
  const allCaught = Math.pow(rate, length);
  const missThenAllCaught = (1 - rate) * allCaught;
  // Only the last `length` + 1 sums are needed; the ring keeps memory small for long logs.
  const ring = new Float64Array(length + 1);
  let chance = allCaught;
  ring[length % ring.length] = chance;
  for (let attempt = length + 1; attempt <= attempts; attempt++) {
    const before = ring[attempt % ring.length] as number;
    chance += missThenAllCaught * (1 - before);
    ring[attempt % ring.length] = chance;
  }
  return Math.min(1, chance);
}

/** Means beyond this are no advice to anyone. */
const LARGEST_MEAN = 1e15;

/**
 * Mean number of attempts until the first run of `length` catches: (1 − r^L) / ((1 − r) r^L), Feller I, XIII.7 (7.7).
 *
 * @throws Missing when the rate is 0 or the mean is beyond 1e15
 */
export function streakAttempts(rate: number, length: number): number {
  if (rate === 1) return length;
  if (rate === 0) throw new Missing("At a rate of 0 no run of catches is ever to be expected");
  // r^−L − 1 by expm1: near a rate of 1 the plain difference would lose its digits.
  const mean = Math.expm1(-length * Math.log(rate)) / (1 - rate);
  if (!(mean <= LARGEST_MEAN)) {
    throw new Missing(`A run of ${length} at this rate takes more than 1e15 attempts in the mean`);
  }
  return mean;
}
