/** Cell functions: the toss. Each is only its face in the sheet; the work is done in `src/core`. */
import { CLEARANCE_METRES, placementAdvice, tossVerdict } from "../core/advice";
import { countSeconds, secondsToCounts } from "../core/counts";
import { filmAirtime } from "../core/film";
import { lineSpread } from "../core/line-spread";
import { placement as placementOf } from "../core/placement";
import { Missing, Problem } from "../core/problem";
import { airtime as airtimeOf, fromMetres, planToss, RELEASE_METRES, tossHeight, tossSpeed } from "../core/toss";
import { read, readCell } from "./arguments";
import { AlignedColumns, readName } from "./cells";
import { respond, type Cells } from "./errors";
import { placesOf } from "./places";

/** No line is longer; a column that is full by mistake is refused at once. */
const MOST_IN_LINE = 5000;

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

/**
 * The most whole counts that a straight toss may last under a ceiling.
 * @customfunction CEILINGCOUNTS
 * @param ceiling Height of the ceiling or its lowest lights above the floor, a length above 0.
 * @param countsPerMinute The speed of the counts as the athlete says them, 1 to 1000; often faster than the music's beats.
 * @param [release] Height of the releasing hand above the floor; 1.5 m when left out.
 * @param [clearance] Room to leave under the ceiling; 0.5 m when left out.
 * @param [unit] "m" (when left out) or "ft", for every length here.
 * @returns A whole number of counts; 0 where there is no room above the hand.
 * @throws #VALUE! for a number outside its range.
 * @example =TWIRL.CEILINGCOUNTS(7,180) shows 6
 * @source Rise gT2/8 for equal hands: OpenStax University Physics 1, section 3.5. The defaults are common practice, no source.
 */
export function ceilingcounts(ceiling: any, countsPerMinute: any, release: any, clearance: any, unit: any): number {
  return respond(() => {
    const given = read({ ceiling, countsPerMinute, release, clearance, unit });
    if (given.ceiling === undefined) {
      throw new Problem({
        argument: "ceiling",
        found: "an empty cell",
        accepted: "the height of the ceiling, above 0",
      });
    }
    const hand = given.release ?? fromMetres(RELEASE_METRES, given.unit);
    const room = given.ceiling - hand - (given.clearance ?? fromMetres(CLEARANCE_METRES, given.unit));
    if (room <= 0) return 0;
    const seconds = airtimeOf(room, { dropBelow: 0, unit: given.unit, terminalSpeed: undefined });
    // A ceiling that was itself worked out from whole counts must not lose one to its last digit.
    return Math.floor(secondsToCounts(seconds, given.countsPerMinute) + 1e-9);
  });
}

/**
 * The airtime of a toss from the frames of a film, and how exact it is.
 * @customfunction FILMTIME
 * @param releaseFrame The number of the frame in which the baton leaves the hand.
 * @param catchFrame The number of the frame in which it is caught, after the release.
 * @param framesPerSecond The film's frames per second, 1 to 100,000, such as 30 or 240.
 * @returns One row: seconds, and plus or minus (standard uncertainty) seconds.
 * @throws #VALUE! where the catch is not after the release, or a number is outside its range.
 * @example =TWIRL.FILMTIME(112,178,30) shows 2.20 and 0.014
 * @source Guide to the Expression of Uncertainty in Measurement, JCGM 100:2008, 4.3.7 and 5.1.2: each frame read to half a frame, uniform.
 */
export function filmtime(releaseFrame: any, catchFrame: any, framesPerSecond: any): number[][] {
  return respond(() => {
    const given = read({ releaseFrame, catchFrame, framesPerSecond });
    if (given.catchFrame <= given.releaseFrame) {
      throw new Problem({
        argument: "catchFrame",
        found: `frame ${given.catchFrame}, with the release in frame ${given.releaseFrame}`,
        accepted: "a frame after the release",
      });
    }
    const { seconds, uncertainty } = filmAirtime(given.releaseFrame, given.catchFrame, given.framesPerSecond);
    return [[seconds, uncertainty]];
  });
}

/**
 * How often the baton turns in a toss.
 * @customfunction BATONTURNS
 * @param airtime Seconds from release to catch, 0 to 100,000.
 * @param turnsPerSecond How fast it turns, 0 to 1000 turns per second.
 * @returns A number of turns.
 * @throws #VALUE! for a number outside these ranges.
 * @example =TWIRL.BATONTURNS(2.2,4.7) shows 10.3
 * @source Turns per second times seconds: OpenStax University Physics 1, section 10.1.
 */
export function batonturns(airtime: any, turnsPerSecond: any): number {
  return respond(() => {
    const given = read({ airtime, turnsPerSecond });
    return given.airtime * given.turnsPerSecond;
  });
}

/**
 * How fast the baton turns, from the turns counted in a toss.
 * @customfunction TURNRATE
 * @param turns Turns counted, 0 to 10,000; halves allowed.
 * @param airtime Seconds from release to catch, above 0.
 * @returns Turns per second.
 * @throws #VALUE! for a number outside these ranges.
 * @example =TWIRL.TURNRATE(10.5,2.1) shows 5
 * @source Turns divided by seconds: OpenStax University Physics 1, section 10.1.
 */
export function turnrate(turns: any, airtime: any): number {
  return respond(() => {
    const given = read({ turns, airtime });
    if (given.airtime === 0) {
      throw new Problem({ argument: "airtime", found: "the number 0", accepted: "seconds above 0" });
    }
    return given.turns / given.airtime;
  });
}

/**
 * Where tosses land around the target, and whether they drift.
 * @customfunction PLACEMENT
 * @requiresParameterAddresses
 * @param sideways Landing marks to the right of the target, left negative, one column.
 * @param forward Landing marks in front of the target, behind it negative, one column with as many rows.
 * @param [unit] "m" (when left out) or "ft".
 * @param invocation Told by the host: where the ranges stand.
 * @returns Nine rows of label and value: Tosses, Mean sideways, Mean forward, Spread sideways, Spread forward (sample standard deviations), Within 50 %, Within 90 % (radii about the target that hold that share of the tosses), Bias clear (yes or no; empty below 4 tosses), Advice.
 * @throws #VALUE! for a number that cannot be read, a row filled in part only, or ranges of different length, with the row; #N/A when no landing is marked yet. Rows at the end that are 0 in both columns count as empty.
 * @example =TWIRL.PLACEMENT(A2:A11,B2:B11) shows the means, the spread and the advice
 * @source Hotelling's T2 at 5 %: Johnson and Wichern, Applied Multivariate Statistical Analysis, section 5.2; quantiles of the empirical distribution.
 */
export function placement(
  sideways: any[][],
  forward: any[][],
  unit: any,
  invocation: CustomFunctions.Invocation,
): any[][] {
  return respond(
    (): Cells => {
      read({ unit });
      const landings = readLandings(sideways, forward);
      if (landings.across.length === 0) throw new Missing("No landing is marked yet");
      const placed = placementOf(landings.across, landings.along);
      return [
        ["Tosses", placed.tosses],
        ["Mean sideways", placed.meanSideways],
        ["Mean forward", placed.meanForward],
        ["Spread sideways", placed.spreadSideways ?? ""],
        ["Spread forward", placed.spreadForward ?? ""],
        ["Within 50 %", placed.within50],
        ["Within 90 %", placed.within90],
        ["Bias clear", placed.biasClear === undefined ? "" : placed.biasClear ? "yes" : "no"],
        ["Advice", placementAdvice(placed)],
      ];
    },
    placesOf(invocation, ["sideways", "forward"]),
  );
}

/**
 * A landing on the target is 0 and 0, and so is an empty row from some hosts: such rows count while a later row holds
 * another landing, and are empty at the end.
 */
function readLandings(sideways: unknown, forward: unknown): { across: number[]; along: number[] } {
  const columns = new AlignedColumns({
    sideways: { kind: "number", raw: sideways },
    forward: { kind: "number", raw: forward },
  });
  const landings = { across: [] as number[], along: [] as number[] };
  let filledUpTo = 0;
  for (let row = 0; row < columns.length; row++) {
    const filled = columns.isFilled(row);
    if (!filled && !columns.isOpen(row)) continue;
    landings.across.push(readCell("sideways", columns.rows("sideways")[row]?.[0], row, 0));
    landings.along.push(readCell("forward", columns.rows("forward")[row]?.[0], row, 0));
    if (filled) filledUpTo = landings.across.length;
  }
  return { across: landings.across.slice(0, filledUpTo), along: landings.along.slice(0, filledUpTo) };
}

/**
 * Tosses thrown together: who is early and who is late.
 * @customfunction LINESPREAD
 * @requiresParameterAddresses
 * @param names The athletes, one column; initials are enough.
 * @param airtimes Their airtimes in seconds, one column with as many rows.
 * @param countsPerMinute The speed of the counts as the athletes say them, 1 to 1000; often faster than the music's beats.
 * @param invocation Told by the host: where the ranges stand.
 * @returns A row for each athlete: name, airtime, counts early (negative) or late (positive) against the median, and "early" or "late" where that is more than half a count.
 * @throws #VALUE! for a name or time that cannot be read, a row filled in part only, or ranges of different length, with the row; #N/A when nothing is entered yet.
 * @example =TWIRL.LINESPREAD(A2:A7,B2:B7,180) shows who is off
 * @source Differences from the median. Half a count as what is seen from the stands: common practice, no source.
 */
export function linespread(
  names: any[][],
  airtimes: any[][],
  countsPerMinute: any,
  invocation: CustomFunctions.Invocation,
): any[][] {
  return respond(
    (): Cells => {
      const given = read({ countsPerMinute });
      const columns = new AlignedColumns({
        names: { kind: "name", raw: names },
        airtimes: { kind: "name", raw: airtimes },
      });
      const tosses: { name: string; airtimeSeconds: number }[] = [];
      for (let row = 0; row < columns.length; row++) {
        if (!columns.isFilled(row)) continue;
        const name = readName(columns.rows("names"), row, "names");
        tosses.push({ name, airtimeSeconds: readCell("airtimes", columns.rows("airtimes")[row]?.[0], row, 0) });
        if (tosses.length > MOST_IN_LINE) {
          const found = `more than ${MOST_IN_LINE} names`;
          throw new Problem({ argument: "names", found, accepted: `at most ${MOST_IN_LINE} names` });
        }
      }
      if (tosses.length === 0) throw new Missing("No airtimes are entered yet");
      return lineSpread(tosses, given.countsPerMinute).map((toss) => [
        toss.name,
        toss.airtimeSeconds,
        toss.countsOff,
        toss.off ?? "",
      ]);
    },
    placesOf(invocation, ["names", "airtimes"]),
  );
}
