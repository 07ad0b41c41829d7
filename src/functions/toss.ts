/** Cell functions: the toss. Each is only its face in the sheet; the work is done in `src/core`. */
import { CLEARANCE_METRES, tossVerdict } from "../core/advice";
import { countSeconds, secondsToCounts } from "../core/counts";
import { airtime as airtimeOf, fromMetres, planToss, RELEASE_METRES, tossHeight, tossSpeed } from "../core/toss";
import { read } from "./arguments";
import { respond } from "./errors";

/**
 * How long a toss is in the air, from its rise above the releasing hand.
 * @customfunction AIRTIME
 * @param rise How far the baton rises above the releasing hand, a length from 0 to 10,000.
 * @param [dropBelow] How far the catch lies below the release; negative where it is caught higher; 0 when left out.
 * @param [unit] "m" (when left out) or "ft".
 * @param [terminalSpeed] The speed at which air drag balances the baton's weight, in that unit per second, 0.1 to 1000; no air when left out.
 * @returns Seconds.
 * @throws #VALUE! where the catch would lie above the highest point, or a length or unit cannot be read.
 * @example =TWIRL.AIRTIME(4) shows 1.81
 * @source OpenStax University Physics 1, section 3.5; with air drag the closed form of a vertical throw with quadratic drag. g = 9.80665 m/s2.
 */
export function airtime(rise: any, dropBelow: any, unit: any, terminalSpeed: any): number {
  return respond(() => {
    const given = read({ rise, dropBelow, unit, terminalSpeed });
    return airtimeOf(given.rise, given);
  });
}

/**
 * How far a toss rises above the releasing hand, from its airtime.
 * @customfunction TOSSHEIGHT
 * @param airtime Seconds from release to catch, 0 to 100,000.
 * @param [dropBelow] How far the catch lies below the release; negative where it is caught higher; 0 when left out.
 * @param [unit] "m" (when left out) or "ft".
 * @param [terminalSpeed] The speed at which air drag balances the baton's weight, in that unit per second, 0.1 to 1000; no air when left out.
 * @returns A length above the releasing hand in that unit.
 * @throws #VALUE! where the time is too short to reach the catch, or an argument cannot be read.
 * @example =TWIRL.TOSSHEIGHT(2) shows 4.90
 * @source OpenStax University Physics 1, section 3.5; with air drag found from the closed form of AIRTIME.
 */
export function tossheight(airtime: any, dropBelow: any, unit: any, terminalSpeed: any): number {
  return respond(() => {
    const given = read({ airtime, dropBelow, unit, terminalSpeed });
    return tossHeight(given.airtime, given);
  });
}

/**
 * How fast the baton leaves the hand upwards, from its airtime.
 * @customfunction TOSSSPEED
 * @param airtime Seconds from release to catch, 0 to 100,000.
 * @param [dropBelow] How far the catch lies below the release; negative where it is caught higher; 0 when left out.
 * @param [unit] "m" (when left out) or "ft".
 * @param [terminalSpeed] The speed at which air drag balances the baton's weight, in that unit per second, 0.1 to 1000; no air when left out.
 * @returns A speed upwards, in that unit per second.
 * @throws #VALUE! where the time is too short to reach the catch, or an argument cannot be read.
 * @example =TWIRL.TOSSSPEED(2) shows 9.81
 * @source OpenStax University Physics 1, section 3.5: v = gT/2 + (catch - release)/T.
 */
export function tossspeed(airtime: any, dropBelow: any, unit: any, terminalSpeed: any): number {
  return respond(() => {
    const given = read({ airtime, dropBelow, unit, terminalSpeed });
    return tossSpeed(given.airtime, given);
  });
}

/**
 * How many seconds some counts last.
 * @customfunction COUNTTIME
 * @param counts A number of counts, 0 to 10,000.
 * @param countsPerMinute The speed of the counts as the athlete says them, 1 to 1000; often faster than the music's beats.
 * @returns Seconds.
 * @throws #VALUE! for a number outside these ranges.
 * @example =TWIRL.COUNTTIME(6,180) shows 2
 * @source Counts times 60, divided by the counts per minute.
 */
export function counttime(counts: any, countsPerMinute: any): number {
  return respond(() => {
    const given = read({ counts, countsPerMinute });
    return countSeconds(given.counts, given.countsPerMinute);
  });
}

/**
 * How many counts fit into some seconds.
 * @customfunction TIMECOUNTS
 * @param seconds Seconds, 0 to 1,000,000.
 * @param countsPerMinute The speed of the counts as the athlete says them, 1 to 1000; often faster than the music's beats.
 * @returns A number of counts, not rounded.
 * @throws #VALUE! for a number outside these ranges.
 * @example =TWIRL.TIMECOUNTS(2,180) shows 6
 * @source Seconds times the counts per minute, divided by 60.
 */
export function timecounts(seconds: any, countsPerMinute: any): number {
  return respond(() => {
    const given = read({ seconds, countsPerMinute });
    return secondsToCounts(given.seconds, given.countsPerMinute);
  });
}

/**
 * The toss that a body move needs: how long, how high, how fast, how far it drifts, and whether the hall is high enough.
 * @customfunction TOSSPLAN
 * @param bodyCounts Counts that the body move takes, 0 to 10,000.
 * @param countsPerMinute The speed of the counts as the athlete says them, 1 to 1000; often faster than the music's beats.
 * @param [extraCounts] Counts on top of the body move; 2 when left out: one to spot, one to catch.
 * @param [travel] How far the athlete travels under the toss; 0 when left out.
 * @param [release] Height of the releasing hand above the floor; 1.5 m when left out.
 * @param [catch_] Height of the catching hand above the floor; that of the release when left out.
 * @param [ceiling] Height of the ceiling or its lowest lights; no answer about the ceiling when left out or 0.
 * @param [unit] "m" (when left out) or "ft", for every length here.
 * @returns Nine rows of label and value: Counts, Airtime (s), Rise (above the releasing hand), Peak above floor, Release speed (upwards), Drift speed (travel divided by airtime), Lean from vertical (degrees), Ceiling room (empty without a ceiling), Verdict.
 * @throws #VALUE! for a number outside its range, or a time too short to reach the catch.
 * @example =TWIRL.TOSSPLAN(4,180,2,0,1.5,1.5,7) shows 6 counts, 2 s, a peak of 6.40 m and 0.60 m of room
 * @source OpenStax University Physics 1, sections 3.5 and 4.3; no air drag, which changes the height of a timed toss by about 0.1 % only. Heights of the hand and 0.5 m of clearance: common practice, no source.
 */
export function tossplan(
  bodyCounts: any,
  countsPerMinute: any,
  extraCounts: any,
  travel: any,
  release: any,
  catch_: any,
  ceiling: any,
  unit: any,
): any[][] {
  return respond(() => {
    const given = read({ bodyCounts, countsPerMinute, extraCounts, travel, release, catch: catch_, ceiling, unit });
    const counts = given.bodyCounts + given.extraCounts;
    const releaseHeight = given.release ?? fromMetres(RELEASE_METRES, given.unit);
    const plan = planToss({
      counts,
      airtimeSeconds: countSeconds(counts, given.countsPerMinute),
      travel: given.travel,
      releaseHeight,
      catchHeight: given.catch ?? releaseHeight,
      ceiling: given.ceiling,
      unit: given.unit,
    });
    return [
      ["Counts", plan.counts],
      ["Airtime", plan.airtimeSeconds],
      ["Rise", plan.rise],
      ["Peak above floor", plan.peakAboveFloor],
      ["Release speed", plan.releaseSpeed],
      ["Drift speed", plan.driftSpeed],
      ["Lean from vertical", plan.leanDegrees],
      ["Ceiling room", plan.ceilingRoom ?? ""],
      ["Verdict", tossVerdict(plan.ceilingRoom, fromMetres(CLEARANCE_METRES, given.unit), plan.leanDegrees)],
    ];
  });
}
