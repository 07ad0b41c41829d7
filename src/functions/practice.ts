/** Cell functions: the record of practice. Each is only its face in the sheet; the work is done in `src/core`. */
import { nextStep } from "../core/advice";
import { AttemptLog } from "../core/attempt-log";
import { catchInterval, catchRate, chanceAbove, NO_ATTEMPTS } from "../core/catch-rate";
import { compareRates } from "../core/compare";
import { DayLog } from "../core/day-log";
import { catchBars } from "../core/history";
import { requireOrder, type MarkKey } from "../core/marks";
import type { LogReading } from "../core/practice-log";
import { Missing, Problem } from "../core/problem";
import { proofAttempts } from "../core/proof-attempts";
import { assess, readiness as statusOf } from "../core/readiness";
import { FORECAST_CONFIDENCE, readyDate } from "../core/ready-date";
import { slumpChart, slumpState } from "../core/slump";
import { streakAttempts, streakChance, streaks } from "../core/streak";
import { read, readTally } from "./arguments";
import { AlignedColumns, isLeftOut, readMarks } from "./cells";
import { respond, type Cells } from "./errors";
import { figures } from "./figures";
import { leftOutSentence, readLog } from "./log-ranges";
import { placesOf } from "./places";
import { readPracticeDays, tallyOf } from "./practice-days";

/**
 * The share of attempts that were caught, of the latest ones or of all.
 * @customfunction CATCHRATE
 * @requiresParameterAddresses
 * @param marks Mark cells in order of time: c, d, b, runs such as ccdcc, or tallies such as 8/10.
 * @param [last] How many of the latest attempts to count, a whole number from 1; all when left out. With tallies it must fall on a tally's edge.
 * @param [key] The club's own marks as caught/dropped or caught/dropped/bailed, such as "x/o".
 * @param invocation Told by the host: where the ranges stand.
 * @returns A share from 0 to 1.
 * @throws #VALUE! for a mark that cannot be read, with its row and column; #N/A when nothing is logged yet.
 * @example =TWIRL.CATCHRATE("ccdcc ccccd") shows 0.8
 * @source Caught divided by attempts.
 */
export function catchrate(marks: any[][], last: any, key: any, invocation: CustomFunctions.Invocation): number {
  return respond(
    () => {
      const given = read({ last, key });
      return catchRate(readMarks(marks, given.key), given.last);
    },
    placesOf(invocation, ["marks"]),
  );
}

/**
 * The range in which the true catch rate lies, from what was caught so far.
 * @customfunction CATCHINTERVAL
 * @param caught How many were caught, a whole number from 0 to the attempts.
 * @param attempts How many were tried, a whole number up to 10,000,000.
 * @param [confidence] How sure the range shall be, a share from 0 to 1; 0.95 when left out.
 * @param [method] "wilson" (when left out), "exact" (Clopper-Pearson, never too narrow) or "jeffreys".
 * @returns One row: low and high, shares from 0 to 1.
 * @throws #VALUE! for counts that are not whole or more caught than tried; #N/A when nothing was tried yet.
 * @example =TWIRL.CATCHINTERVAL(8,10) shows 0.490 and 0.943
 * @source Wilson's score interval: Newcombe 1998, Statistics in Medicine 17:857-872; Clopper and Pearson 1934, Biometrika 26:404-413; Brown, Cai and DasGupta 2001, Statistical Science 16:101-133.
 */
export function catchinterval(caught: any, attempts: any, confidence: any, method: any): number[][] {
  return respond(() => {
    const tally = readTally({ caught, attempts });
    const given = read({ confidence, method });
    if (tally.attempts === 0) throw new Missing(NO_ATTEMPTS);
    const { low, high } = catchInterval(tally.caught, tally.attempts, given.confidence, given.method);
    return [[low, high]];
  });
}

/**
 * How likely it is that the true catch rate is at least the standard.
 * @customfunction CHANCEABOVE
 * @param caught How many were caught, a whole number from 0 to the attempts.
 * @param attempts How many were tried, a whole number up to 10,000,000.
 * @param [standard] The catch rate asked for, a share from 0 to 1; 0.8 when left out.
 * @returns A probability from 0 to 1.
 * @throws #VALUE! for counts that are not whole or more caught than tried; #N/A when nothing was tried yet.
 * @example =TWIRL.CHANCEABOVE(8,10) shows 0.467
 * @source Beta(caught + 1/2, missed + 1/2), Jeffreys' prior: Brown, Cai and DasGupta 2001, Statistical Science 16:101-133.
 */
export function chanceabove(caught: any, attempts: any, standard: any): number {
  return respond(() => {
    const tally = readTally({ caught, attempts });
    const given = read({ standard });
    if (tally.attempts === 0) throw new Missing(NO_ATTEMPTS);
    return chanceAbove(tally.caught, tally.attempts - tally.caught, given.standard);
  });
}

/**
 * One word for the trick: No attempts, Too few, Building, Confirm, Ready, Solid or At risk.
 * @customfunction READINESS
 * @requiresParameterAddresses
 * @param marks Mark cells in order of time: c, d, b, runs such as ccdcc, or tallies such as 8/10.
 * @param [standard] The catch rate asked for, a share from 0 to 1; 0.8 when left out.
 * @param [setSize] Attempts in a set, a whole number from 1 to 1000; 10 when left out.
 * @param [key] The club's own marks as caught/dropped or caught/dropped/bailed, such as "x/o".
 * @param invocation Told by the host: where the ranges stand.
 * @returns A text, the status.
 * @throws #VALUE! for a mark that cannot be read, with its row and column.
 * @example =TWIRL.READINESS("ccccc ccccd ccccc ccccc") shows Solid
 * @source Our own rule. Ready: two sets, the last at the standard (8 of 10: common practice, no source), and a chance of 82 % that the true rate is at the standard. At risk: a last set, or last two, poorer than the own record brings once in 150 sets, a chance under 25 %, or two bails. Its error rates are in the project's benchmark. A coach's judgement comes first.
 */
export function readiness(
  marks: any[][],
  standard: any,
  setSize: any,
  key: any,
  invocation: CustomFunctions.Invocation,
): string {
  return respond(
    () => {
      const given = read({ standard, setSize, key });
      return statusOf(readMarks(marks, given.key), given.standard, given.setSize);
    },
    placesOf(invocation, ["marks"]),
  );
}

/**
 * The status with the figures behind it and the next step.
 * @customfunction READINESSCARD
 * @requiresParameterAddresses
 * @param marks Mark cells in order of time: c, d, b, runs such as ccdcc, or tallies such as 8/10.
 * @param [standard] The catch rate asked for, a share from 0 to 1; 0.8 when left out.
 * @param [setSize] Attempts in a set, a whole number from 1 to 1000; 10 when left out.
 * @param [key] The club's own marks as caught/dropped or caught/dropped/bailed, such as "x/o".
 * @param [dates] The days, one column with as many rows: with them the rows stand in the order of their days, and one that cannot be read is left out and told in Next step.
 * @param invocation Told by the host: where the ranges stand.
 * @returns Eleven rows of label and value: Status, Attempts, Last set (the latest attempts that are a set, as counted), Recent rate (since the last slide; an attempt 30 attempts ago weighs half), Low, High (the middle 95 % of what the true rate may be, by the same weights), Chance (its part at or above the standard), Streak, Best streak (over the marks since the last tally), Bails in last set, Next step (with the reason). What cannot be said yet is empty.
 * @throws #VALUE! for a mark that cannot be read, with its row and column, unless days are given.
 * @example =TWIRL.READINESSCARD("ccccd ccdcc") shows Confirm, 10 attempts, 8/10 and the rest
 * @source As READINESS; rate, range and chance from Beta(caught weight + 1/2, missed weight + 1/2), Jeffreys' prior.
 */
export function readinesscard(
  marks: any[][],
  standard: any,
  setSize: any,
  key: any,
  dates: any[][],
  invocation: CustomFunctions.Invocation,
): any[][] {
  const places = placesOf(invocation, ["marks", "standard", "setSize", "key", "dates"]);
  return respond((): Cells => {
    const given = read({ standard, setSize, key });
    const byDay = isLeftOut(dates) ? undefined : marksByDay(dates, marks, given.key);
    const assessment = assess(byDay?.log ?? readMarks(marks, given.key), given.standard, given.setSize);
    const shown = figures(assessment);
    const leftOut = byDay ? leftOutSentence(byDay.reading, places) : [];
    return [
      ["Status", assessment.status],
      ["Attempts", assessment.attempts],
      ["Last set", shown.lastSet],
      ["Recent rate", shown.recentRate],
      ["Low", shown.low],
      ["High", shown.high],
      ["Chance", shown.chance],
      ["Streak", shown.streak],
      ["Best streak", shown.bestStreak],
      ["Bails in last set", assessment.attempts > 0 ? assessment.lastSet.bails : ""],
      ["Next step", [nextStep(assessment, given.setSize), ...leftOut].join(" ")],
    ];
  }, places);
}

/**
 * Catches in a row: up to now, the best run, or the longest run without a catch.
 * @customfunction STREAK
 * @requiresParameterAddresses
 * @param marks Mark cells in order of time: c, d, b or runs such as ccdcc; no tallies.
 * @param [which] "current" (when left out), "best" or "misses".
 * @param [key] The club's own marks as caught/dropped or caught/dropped/bailed, such as "x/o".
 * @param invocation Told by the host: where the ranges stand.
 * @returns A whole number; "current" is negative where the latest attempts were missed, as many as missed in a row.
 * @throws #VALUE! for a mark that cannot be read or a tally, with its row and column; #N/A when nothing is logged yet.
 * @example =TWIRL.STREAK("ccdcc c") shows 3
 * @source A count.
 */
export function streak(marks: any[][], which: any, key: any, invocation: CustomFunctions.Invocation): number {
  return respond(
    () => {
      const given = read({ which, key });
      return streaks(orderedMarks(marks, given.key))[given.which];
    },
    placesOf(invocation, ["marks"]),
  );
}

function orderedMarks(marks: unknown, key: MarkKey | undefined): AttemptLog {
  const log = readMarks(marks, key);
  if (log.attempts === 0) throw new Missing(NO_ATTEMPTS);
  requireOrder(log, "marks");
  return log;
}

/**
 * The chance of at least one run of catches of that length by luck alone.
 * @customfunction STREAKCHANCE
 * @param rate The catch rate, a share from 0 to 1.
 * @param length How many catches in a row, a whole number from 1 to 100,000.
 * @param attempts Within how many attempts, a whole number up to 10,000,000.
 * @returns A probability from 0 to 1, exact for attempts that do not depend on each other.
 * @throws #VALUE! for a rate outside 0..1 or counts that are not whole.
 * @example =TWIRL.STREAKCHANCE(0.6,5,30) shows 0.64
 * @source Feller, An Introduction to Probability Theory and Its Applications, volume 1, XIII.7.
 */
export function streakchance(rate: any, length: any, attempts: any): number {
  return respond(() => {
    const given = read({ rate, length, attempts });
    return streakChance(given.rate, given.length, given.attempts);
  });
}

/**
 * How many attempts it takes in the mean until the first run of catches of that length.
 * @customfunction STREAKATTEMPTS
 * @param rate The catch rate, a share from 0 to 1.
 * @param length How many catches in a row, a whole number from 1 to 100,000.
 * @returns A number of attempts.
 * @throws #VALUE! for a rate outside 0..1; #N/A when the rate is 0 or the mean is beyond 1e15.
 * @example =TWIRL.STREAKATTEMPTS(0.8,5) shows 10.3
 * @source Feller, An Introduction to Probability Theory and Its Applications, volume 1, XIII.7.
 */
export function streakattempts(rate: any, length: any): number {
  return respond(() => {
    const given = read({ rate, length });
    return streakAttempts(given.rate, given.length);
  });
}

/**
 * The status from a log of two number columns: how many were caught and how many were tried, a row for each set.
 * @customfunction TALLYREADINESS
 * @requiresParameterAddresses
 * @param caught How many were caught, one column of whole numbers in order of time.
 * @param attempts How many were tried, one column with as many rows; a row of 0 attempts counts as empty.
 * @param [standard] The catch rate asked for, a share from 0 to 1; 0.8 when left out.
 * @param [setSize] Attempts in a set, a whole number from 1 to 1000; 10 when left out.
 * @param invocation Told by the host: where the ranges stand.
 * @returns A text, the status, as READINESS gives it. Each row's attempts share the row's weight evenly, and the last set is the latest rows that add up to at least a set.
 * @throws #VALUE! for counts that are not whole, more caught than tried or ranges of different length, with the row.
 * @example =TWIRL.TALLYREADINESS(18,20) shows Ready
 * @source As READINESS.
 */
export function tallyreadiness(
  caught: any[][],
  attempts: any[][],
  standard: any,
  setSize: any,
  invocation: CustomFunctions.Invocation,
): string {
  return respond(
    () => {
      const given = read({ standard, setSize });
      const columns = new AlignedColumns({
        caught: { kind: "number", raw: caught },
        attempts: { kind: "number", raw: attempts },
      });
      const log = new AttemptLog();
      for (let row = 0; row < columns.length; row++) if (columns.isFilled(row)) addTally(columns, row, log);
      return statusOf(log, given.standard, given.setSize);
    },
    placesOf(invocation, ["caught", "attempts"]),
  );
}

/** Adds one row of two number columns to a log; 0 attempts are none. */
function addTally(columns: AlignedColumns<"caught" | "attempts">, row: number, log: AttemptLog): void {
  const tally = tallyOf(columns, row);
  if (tally.attempts > 0) log.addTally(tally.caught, tally.attempts, row + 1, 1);
}

/**
 * How many attempts it takes to show that a rate is at the standard.
 * @customfunction PROOFATTEMPTS
 * @param rate The true catch rate, a share from 0 to 1, above the standard.
 * @param [standard] The catch rate asked for, a share from 0 to 1; 0.8 when left out.
 * @param [confidence] How sure one wants to be, a share from 0 to 1; 0.95 when left out.
 * @returns The fewest attempts from which on CHANCEABOVE stays at that confidence, a whole number.
 * @throws #VALUE! for shares outside 0..1; #N/A when the rate is not above the standard or more than 100,000 are needed.
 * @example =TWIRL.PROOFATTEMPTS(0.9,0.8) shows 47
 * @source The definition of CHANCEABOVE, looked through attempt by attempt.
 */
export function proofattempts(rate: any, standard: any, confidence: any): number {
  return respond(() => {
    const given = read({ rate, standard, confidence });
    return proofAttempts(given.rate, given.standard, given.confidence);
  });
}

/**
 * Whether a bad spell is real: a chart that sums up misses and tells a slump early, with few false alarms.
 * @customfunction SLUMP
 * @requiresParameterAddresses
 * @param marks Mark cells in order of time: c, d, b or runs such as ccdcc; no tallies.
 * @param [usual] The catch rate while all is well, 0.001 to 0.999; 0.9 when left out.
 * @param [slumped] The catch rate to be noticed, below the usual one; 0.7 when left out.
 * @param [falseAlarm] One false alarm in about this many attempts at the usual rate, 1 to 1,000,000; 500 when left out.
 * @param [key] The club's own marks as caught/dropped or caught/dropped/bailed, such as "x/o".
 * @param invocation Told by the host: where the ranges stand.
 * @returns Four rows of label and value: Signal (steady or slump), Since attempt (counted from 1; empty while steady), Score, Limit.
 * @throws #VALUE! for a mark that cannot be read, a tally, or a slumped rate that is not below the usual one; #N/A when nothing is logged yet.
 * @example =TWIRL.SLUMP("ccccc ccccd dcddc") shows slump since attempt 10
 * @source Bernoulli CUSUM: Reynolds and Stoumbos 1999, Journal of Quality Technology 31:87-108; the limit by the chart's own linear equations.
 */
export function slump(
  marks: any[][],
  usual: any,
  slumped: any,
  falseAlarm: any,
  key: any,
  invocation: CustomFunctions.Invocation,
): any[][] {
  return respond(
    () => {
      const given = read({ usual, slumped, falseAlarm, key });
      if (given.slumped >= given.usual) {
        throw new Problem({
          argument: "slumped",
          found: `${given.slumped}, with a usual rate of ${given.usual}`,
          accepted: "a rate below the usual one",
        });
      }
      const log = orderedMarks(marks, given.key);
      const chart = slumpChart(given.usual, given.slumped, given.falseAlarm);
      const state = slumpState(log, chart);
      return [
        ["Signal", state.signal],
        ["Since attempt", state.since ?? ""],
        ["Score", state.score],
        ["Limit", chart.limit],
      ];
    },
    placesOf(invocation, ["marks"]),
  );
}

/**
 * Whether B is truly caught more often than A: two ways, two hands, or practice and contest.
 * @customfunction COMPARE
 * @param caughtA How many were caught the first way, a whole number.
 * @param attemptsA How many were tried the first way, a whole number up to 10,000,000.
 * @param caughtB How many were caught the second way, a whole number.
 * @param attemptsB How many were tried the second way, a whole number up to 10,000,000.
 * @param [confidence] How sure the range shall be, a share from 0 to 1; 0.95 when left out.
 * @returns One row: difference of the rates (B less A), its low and high, Fisher's exact two-sided p, and "B better", "A better" or "no clear difference".
 * @throws #VALUE! for counts that are not whole or more caught than tried; #N/A when nothing was tried one of the ways.
 * @example =TWIRL.COMPARE(12,20,19,20) shows 0.35 and B better
 * @source Newcombe 1998, Statistics in Medicine 17:873-890, method 10; Fisher 1935, Journal of the Royal Statistical Society 98:39-54.
 */
export function compare(caughtA: any, attemptsA: any, caughtB: any, attemptsB: any, confidence: any): any[][] {
  return respond(() => {
    const a = readTally({ caught: caughtA, attempts: attemptsA }, "A");
    const b = readTally({ caught: caughtB, attempts: attemptsB }, "B");
    const given = read({ confidence });
    if (a.attempts === 0 || b.attempts === 0) throw new Missing("Nothing was tried one of the two ways yet");
    const { difference, low, high, p, verdict } = compareRates(a, b, given.confidence);
    return [[difference, low, high, p, verdict]];
  });
}

/**
 * The day on which the trick will be at the standard if the trend goes on, and how unsure that is.
 * @customfunction READYDATE
 * @requiresParameterAddresses
 * @param dates The practice days, one column of dates.
 * @param caught How many were caught, one column with as many rows.
 * @param attempts How many were tried, one column with as many rows; a row of 0 attempts counts as empty.
 * @param [standard] The catch rate asked for, a share from 0 to 1; 0.8 when left out.
 * @param [confidence] How sure the range of days shall be, a share from 0 to 1; 0.8 when left out.
 * @param invocation Told by the host: where the ranges stand.
 * @returns One row of dates: the day, the earliest and the latest. Learning curves do not go on well in single athletes: read the range, not the day.
 * @throws #VALUE! for a date or count that cannot be read, with the row; #N/A with the reason where there is no clear upward trend, too little is logged, or the standard is reached already.
 * @example =TWIRL.READYDATE(A2:A9,B2:B9,C2:C9) shows three dates
 * @source Logistic regression by maximum likelihood; Fieller's interval: Finney, Probit Analysis, 1971, section 4.6.
 */
export function readydate(
  dates: any[][],
  caught: any[][],
  attempts: any[][],
  standard: any,
  confidence: any,
  invocation: CustomFunctions.Invocation,
): any[][] {
  return respond(
    () => {
      const given = read({ standard, confidence: isLeftOut(confidence) ? FORECAST_CONFIDENCE : confidence });
      const days = readPracticeDays({ dates, caught, attempts });
      const forecast = readyDate(days, given.standard, given.confidence);
      return [[forecast.date, forecast.earliest, forecast.latest]];
    },
    placesOf(invocation, ["dates", "caught", "attempts"]),
  );
}

/**
 * The record as a row of little bars in one cell, one for each set.
 * @customfunction CATCHBARS
 * @requiresParameterAddresses
 * @param marks Mark cells in order of time: c, d, b, runs such as ccdcc, or tallies such as 8/10.
 * @param [setSize] Attempts in a set, a whole number from 1 to 1000; 10 when left out.
 * @param [key] The club's own marks as caught/dropped or caught/dropped/bailed, such as "x/o".
 * @param [dates] The days, one column with as many rows: with them the sets stand in the order of their days, and rows that cannot be read are left out.
 * @param invocation Told by the host: where the ranges stand.
 * @returns A text of block characters, low to full in eight steps of the share caught, oldest set first, at most the latest 20; the last bar may be of a set that is not full yet.
 * @throws #VALUE! for a mark that cannot be read, with its row and column, unless days are given; #N/A when nothing is logged yet.
 * @example =TWIRL.CATCHBARS("ccccc ccccc ddddd ddddd ccccc ddddd") shows █▁▅
 * @source A count.
 */
export function catchbars(
  marks: any[][],
  setSize: any,
  key: any,
  dates: any[][],
  invocation: CustomFunctions.Invocation,
): string {
  return respond(
    () => {
      const given = read({ setSize, key });
      const log = isLeftOut(dates) ? readMarks(marks, given.key) : marksByDay(dates, marks, given.key).log;
      if (log.attempts === 0) throw new Missing(NO_ATTEMPTS);
      return catchBars(log, given.setSize);
    },
    placesOf(invocation, ["marks", "setSize", "key", "dates"]),
  );
}

/** The attempts of rows with a day, in the order of the days; a row that cannot be read is left out, and the first is told. */
function marksByDay(
  dates: unknown,
  marks: unknown,
  key: MarkKey | undefined,
): { readonly log: AttemptLog; readonly reading: LogReading } {
  const record = new DayLog();
  const reading = readLog({ dates, marks }, key, { most: 1, recordOf: () => record });
  return { log: record.inOrder(), reading };
}
