/**
 * Is a bad week real? A Bernoulli CUSUM over the attempts in order (Reynolds and Stoumbos 1999, Journal of Quality
 * Technology 31:87–108), with whole-number scores so that the mean time to a false alarm is exact.
 */
import { CAUGHT, type AttemptLog } from "./attempt-log";

interface SlumpChart {
  /** What a miss adds is one less than this; a catch takes 1 off. */
  readonly missSteps: number;
  /** The score at which the slump is told. */
  readonly limit: number;
}

interface SlumpState {
  readonly signal: "steady" | "slump";
  /** The first attempt of the slump, from 1; undefined while steady. */
  readonly since: number | undefined;
  readonly score: number;
}

/**
 * m = round(1/γ), at least 2, with γ = ln((1−p0)/(1−p1)) / ln(p1(1−p0)/(p0(1−p1))): Reynolds and Stoumbos 1999,
 * equations 6 and 7.
 *
 * @param usual catch rate while all is well, inside 0 to 1
 * @param slumped catch rate to be noticed, inside 0 to 1 and below `usual`
 */
export function missSteps(usual: number, slumped: number): number {
  const [usualMiss, slumpedMiss] = [1 - usual, 1 - slumped];
  const reference = Math.log(usual / slumped) / Math.log((slumpedMiss * usual) / (usualMiss * slumped));
  return Math.max(2, Math.round(1 / reference));
}

/** The smallest limit whose mean run to a false alarm at the usual rate is at least `falseAlarm` attempts. */
export function slumpChart(usual: number, slumped: number, falseAlarm: number): SlumpChart {
  const steps = missSteps(usual, slumped);
  return { missSteps: steps, limit: firstLimit(usual, steps, (_, run) => run >= falseAlarm) };
}

/** Mean number of attempts from score 0 until a limit is reached, at a constant rate. */
export function meanRun(rate: number, steps: number, limit: number): number {
  let mean = 0;
  firstLimit(rate, steps, (at, run) => {
    mean = run;
    return at === limit;
  });
  return mean;
}

/**
 * Goes through the limits 1, 2, 3, … with the mean run of each from score 0, and answers the first that is enough.
 *
 * The score falls by one step at a time, so from a score it can only come below by passing it. For a score u below the
 * limit let lost(u) be the chance to reach the limit before the next lower score and time(u) the mean number of attempts
 * until one of the two. Both follow from those of the scores nearer the limit, and a larger limit only adds scores at
 * the low end. This solves the chart's linear equations without any subtraction of like numbers, so no digits are lost.
 */
function firstLimit(rate: number, steps: number, isEnough: (limit: number, run: number) => boolean): number {
  const miss = 1 - rate;
  // By distance from the limit; the distance 0 is the limit itself.
  const lost: number[] = [1];
  const time: number[] = [0];
  for (let limit = 1; ; limit++) {
    // A miss at the lowest score climbs by steps − 1, and then either reaches the limit or comes down to where it was.
    const above = climb(lost, time, limit - (steps - 1), limit - 1);
    // At score 0 a catch changes nothing, so the climb is tried until the limit is reached.
    if (isEnough(limit, (1 + miss * above.time) / (miss * above.lost))) return limit;
    const again = 1 - miss * (1 - above.lost);
    lost.push((miss * above.lost) / again);
    time.push((1 + miss * above.time) / again);
  }
}

/** From the distance `top` down to just beyond the distance `bottom`: the chance to be lost, and the mean time. */
function climb(
  lost: readonly number[],
  time: readonly number[],
  top: number,
  bottom: number,
): { lost: number; time: number } {
  if (top <= 0) return { lost: 1, time: 0 };
  let [gone, spent] = [0, 0];
  for (let distance = top; distance <= bottom; distance++) {
    spent += (1 - gone) * (time[distance] as number);
    gone += (1 - gone) * (lost[distance] as number);
  }
  return { lost: gone, time: spent };
}

/** The chart's state after the log's last attempt. The log holds no tallies: see `requireOrder`. */
export function slumpState(log: AttemptLog, { missSteps: steps, limit }: SlumpChart): SlumpState {
  let score = 0;
  let lastZero = 0;
  let since: number | undefined;
  for (let entry = 0; entry < log.entries; entry++) {
    const step = log.outcomeAt(entry) === CAUGHT ? -1 : steps - 1;
    score = Math.min(limit, Math.max(0, score + step));
    if (score === 0) {
      lastZero = entry + 1;
      since = undefined;
    } else if (score === limit) {
      since ??= lastZero + 1;
    }
  }
  return { signal: since === undefined ? "steady" : "slump", since, score };
}
