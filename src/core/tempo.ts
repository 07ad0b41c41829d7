/** Tempo and airtime by hand: taps to counts per minute, a held button to an airtime, each with how exact it is. */
import { mean, median, medianAbsoluteDeviation, sampleStandardDeviation } from "simple-statistics";
import type { Measured } from "./film";
import { gravity, tossHeight, type LengthUnit } from "./toss";

/** A longer pause is a new start: no count is spoken slower than 30 a minute, and one tap may have been missed. */
const LONGEST_INTERVAL_SECONDS = 4;
/** Two eights: long enough to steady the hand, short enough to follow a change of tempo. */
const LATEST_INTERVALS = 16;
/** Fewer intervals say nothing about how evenly they were tapped: common practice, no source. */
const FEWEST_INTERVALS = 3;

/** Of a normal spread: standard deviation over median absolute deviation, 1 / 0.67449. */
const DEVIATION_PER_MAD = 1.4826;
/** Leys, Ley, Klein, Bernard and Licata 2013, Journal of Experimental Social Psychology 49:764–766. */
const OUTLIER_DEVIATIONS = 2.5;
/** A very even hand has hardly any spread; within this share of the median no tap was missed: common practice, no source. */
const SURELY_ONE_COUNT = 0.2;

interface TapTempo {
  readonly countsPerMinute: number;
  /** Standard uncertainty, in counts per minute. */
  readonly uncertainty: number;
  /** Intervals between taps that were used. */
  readonly intervals: number;
  /** Intervals left aside: a tap that was missed or doubled. */
  readonly outliers: number;
}

/**
 * Counts per minute from the times of taps, one a count: by the median of the latest intervals, without those far from
 * it. Undefined while there are too few.
 *
 * The median of n intervals with standard deviation s has the standard uncertainty √(π/2)·s/√n where their spread is
 * normal: the large-sample rule of any statistics text, from 1 / (2f√n) with the normal density f at its middle.
 *
 * @param tapSeconds in order
 */
export function tapTempo(tapSeconds: readonly number[]): TapTempo | undefined {
  const all = latestIntervals(tapSeconds);
  if (all.length < FEWEST_INTERVALS) return undefined;
  const middle = median(all);
  const most = Math.max(
    OUTLIER_DEVIATIONS * DEVIATION_PER_MAD * medianAbsoluteDeviation(all),
    SURELY_ONE_COUNT * middle,
  );
  const used = all.filter((interval) => Math.abs(interval - middle) <= most);
  if (used.length < FEWEST_INTERVALS) return undefined;
  const interval = median(used);
  const countsPerMinute = 60 / interval;
  const ofInterval = Math.sqrt(Math.PI / 2 / used.length) * sampleStandardDeviation(used);
  return {
    countsPerMinute,
    // Of a quotient with an exact number above: the same share (JCGM 100:2008, 5.1.6).
    uncertainty: (countsPerMinute * ofInterval) / interval,
    intervals: used.length,
    outliers: all.length - used.length,
  };
}

/** The intervals since the latest pause. */
function latestIntervals(tapSeconds: readonly number[]): number[] {
  const intervals: number[] = [];
  for (let tap = tapSeconds.length - 1; tap > 0 && intervals.length < LATEST_INTERVALS; tap--) {
    const interval = (tapSeconds[tap] as number) - (tapSeconds[tap - 1] as number);
    if (interval > LONGEST_INTERVAL_SECONDS) break;
    intervals.push(interval);
  }
  return intervals;
}

/**
 * Spread of a time that is started and stopped by hand at moments one sees coming: 0.10 s. The hand's delay of 0.11 s is
 * the same at both ends and falls out ("Manual timing in physics experiments: Error and uncertainty", American Journal
 * of Physics 87:110, 2019, from 4304 reaction times of timekeepers).
 */
export const HAND_TIMING_SECONDS = 0.1;
/** Shorter is a slip of the finger, longer no toss. */
export const SHORTEST_HOLD_SECONDS = 0.2;
export const LONGEST_HOLD_SECONDS = 10;

export function isHold(seconds: number): boolean {
  return seconds >= SHORTEST_HOLD_SECONDS && seconds <= LONGEST_HOLD_SECONDS;
}

/**
 * The mean airtime of one or more tosses timed by hand. Its standard uncertainty is that of a mean, from the spread of
 * the hand or, where that is larger, the spread that was seen.
 *
 * @param holdsSeconds at least one
 */
export function handAirtime(holdsSeconds: readonly number[]): Measured {
  const seen = holdsSeconds.length < 2 ? 0 : sampleStandardDeviation([...holdsSeconds]);
  return {
    seconds: mean([...holdsSeconds]),
    uncertainty: Math.max(HAND_TIMING_SECONDS, seen) / Math.sqrt(holdsSeconds.length),
  };
}

interface MeasuredRise {
  /** Above the releasing hand, in the unit. */
  readonly rise: number;
  /** Standard uncertainty, in the unit. */
  readonly uncertainty: number;
}

/** How high a toss of this airtime rises, release and catch at one height: gT²/8, so gT/4 for each second of doubt. */
export function riseOf({ seconds, uncertainty }: Measured, unit: LengthUnit): MeasuredRise {
  return {
    rise: tossHeight(seconds, { dropBelow: 0, unit, terminalSpeed: undefined }),
    uncertainty: (gravity(unit) * seconds * uncertainty) / 4,
  };
}
