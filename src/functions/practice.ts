/** Cell functions: the record of practice. Each is only its face in the sheet; the work is done in `src/core`. */
import type { AttemptLog } from "../core/attempt-log";
import { nextStep } from "../core/advice";
import { BoardLog, type BoardRow } from "../core/board";
import { catchInterval, catchRate, chanceAbove, NO_ATTEMPTS } from "../core/catch-rate";
import { requireOrder, type MarkKey } from "../core/marks";
import { Missing } from "../core/problem";
import { assess, readiness as statusOf, type Assessment } from "../core/readiness";
import { streakAttempts, streakChance, streaks } from "../core/streak";
import { read, readTally } from "./arguments";
import { addMarks, AlignedColumns, isLeftOut, readDate, readMarks, readName } from "./cells";
import { respond } from "./errors";

/**
 * The share of attempts that were caught, of the latest ones or of all.
 * @customfunction CATCHRATE
 * @param marks Mark cells in order of time: c, d, b, runs such as ccdcc, or tallies such as 8/10.
 * @param [last] How many of the latest attempts to count, a whole number from 1; all when left out. With tallies it must fall on a tally's edge.
 * @param [key] The club's own marks as caught/dropped or caught/dropped/bailed, such as "x/o".
 * @returns A share from 0 to 1.
 * @throws #VALUE! for a mark that cannot be read, with its row and column; #N/A when nothing is logged yet.
 * @example =TWIRL.CATCHRATE("ccdcc ccccd") shows 0.8
 * @source Caught divided by attempts.
 */
export function catchrate(marks: any[][], last: any, key: any): number {
  return respond(() => {
    const given = read({ last, key });
    return catchRate(readMarks(marks, given.key), given.last);
  });
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
 * @param marks Mark cells in order of time: c, d, b, runs such as ccdcc, or tallies such as 8/10.
 * @param [standard] The catch rate asked for, a share from 0 to 1; 0.8 when left out.
 * @param [setSize] Attempts in a set, a whole number from 1 to 1000; 10 when left out.
 * @param [key] The club's own marks as caught/dropped or caught/dropped/bailed, such as "x/o".
 * @returns A text, the status.
 * @throws #VALUE! for a mark that cannot be read, with its row and column.
 * @example =TWIRL.READINESS("ccccc ccccd ccccc ccccc") shows Solid
 * @source Our own rule: 8 of 10 in a row (common practice, no source) held to the evidence of the whole record; its error rates are in the project's benchmark. A coach's judgement comes first.
 */
export function readiness(marks: any[][], standard: any, setSize: any, key: any): string {
  return respond(() => {
    const given = read({ standard, setSize, key });
    return statusOf(readMarks(marks, given.key), given.standard, given.setSize);
  });
}

/**
 * The status with the figures behind it and the next step.
 * @customfunction READINESSCARD
 * @param marks Mark cells in order of time: c, d, b, runs such as ccdcc, or tallies such as 8/10.
 * @param [standard] The catch rate asked for, a share from 0 to 1; 0.8 when left out.
 * @param [setSize] Attempts in a set, a whole number from 1 to 1000; 10 when left out.
 * @param [key] The club's own marks as caught/dropped or caught/dropped/bailed, such as "x/o".
 * @returns Eleven rows of label and value: Status, Attempts, Last set, Recent rate (latest three sets), Low, High (its 95 % range), Chance (that the true rate is at the standard), Streak, Best streak, Bails in last set, Next step. What cannot be said yet is empty; with tallies the streaks are empty.
 * @throws #VALUE! for a mark that cannot be read, with its row and column.
 * @example =TWIRL.READINESSCARD("ccccd ccdcc") shows Confirm, 10 attempts, 8/10 and the rest
 * @source As READINESS; the range is Wilson's (Newcombe 1998).
 */
export function readinesscard(marks: any[][], standard: any, setSize: any, key: any): any[][] {
  return respond(() => {
    const given = read({ standard, setSize, key });
    const assessment = assess(readMarks(marks, given.key), given.standard, given.setSize);
    const shown = figures(assessment);
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
      ["Next step", nextStep(assessment, given.setSize)],
    ];
  });
}

/** An assessment's figures as cells; what cannot be said is an empty text, since null would show as 0. */
function figures({ attempts, lastSet, recent, recentInterval, evidence, streaks: runs }: Assessment) {
  const some = attempts > 0;
  return {
    lastSet: some ? `${lastSet.caught}/${lastSet.attempts}` : "",
    recentRate: some ? recent.caught / recent.attempts : "",
    low: recentInterval?.low ?? "",
    high: recentInterval?.high ?? "",
    chance: evidence ?? "",
    streak: some && runs ? runs.current : "",
    bestStreak: some && runs ? runs.best : "",
  };
}

/**
 * Catches in a row: up to now, the best run, or the longest run without a catch.
 * @customfunction STREAK
 * @param marks Mark cells in order of time: c, d, b or runs such as ccdcc; no tallies.
 * @param [which] "current" (when left out), "best" or "misses".
 * @param [key] The club's own marks as caught/dropped or caught/dropped/bailed, such as "x/o".
 * @returns A whole number; "current" is negative where the latest attempts were missed, as many as missed in a row.
 * @throws #VALUE! for a mark that cannot be read or a tally, with its row and column; #N/A when nothing is logged yet.
 * @example =TWIRL.STREAK("ccdcc c") shows 3
 * @source A count.
 */
export function streak(marks: any[][], which: any, key: any): number {
  return respond(() => {
    const given = read({ which, key });
    return streaks(orderedMarks(marks, given.key))[given.which];
  });
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
 * The whole log at a glance: a row for each athlete and trick with its status and next step.
 * @customfunction BOARD
 * @param dates The log's dates, one column.
 * @param athletes The athletes, one column with as many rows; initials are enough.
 * @param tricks The tricks, one column with as many rows.
 * @param marks The marks, one or more columns with as many rows: runs such as ccdcc, single marks, or tallies such as 8/10.
 * @param [standard] The catch rate asked for, a share from 0 to 1; 0.8 when left out.
 * @param [setSize] Attempts in a set, a whole number from 1 to 1000; 10 when left out.
 * @param [stages] The stages, one column with as many rows; Body only, Toss only and Wall do not count.
 * @param [asOf] A date: later rows are left out.
 * @param [key] The club's own marks as caught/dropped or caught/dropped/bailed, such as "x/o".
 * @returns A heading row and a row for each athlete and trick, A to Z: Athlete, Trick, Attempts, Last set, Recent rate, Low, High, Chance, Streak, Best streak, Status, Last practised (a date), Next step.
 * @throws #VALUE! for a mark, name or date that cannot be read, a row filled in part only, or ranges of different length, with the row; #N/A when nothing is logged yet.
 * @example =TWIRL.BOARD(Practice_2027[Date],Practice_2027[Athlete],Practice_2027[Trick],Practice_2027[Marks]) shows the board
 * @source As READINESSCARD, row by row.
 */
export function board(
  dates: any[][],
  athletes: any[][],
  tricks: any[][],
  marks: any[][],
  standard: any,
  setSize: any,
  stages: any[][],
  asOf: any,
  key: any,
): any[][] {
  return respond(() => {
    const given = read({ standard, setSize, asOf, key });
    const columns = new AlignedColumns(
      {
        dates: { kind: "date", raw: dates },
        athletes: { kind: "name", raw: athletes },
        tricks: { kind: "name", raw: tricks },
        marks: { kind: "marks", raw: marks },
        stages: isLeftOut(stages) ? undefined : { kind: "name", raw: stages },
      },
      given.key,
    );
    const log = readBoard(columns, given.asOf, given.key);
    const rows = log.rows(given.standard, given.setSize);
    if (rows.length === 0) throw new Missing(NO_ATTEMPTS);
    return [BOARD_HEADINGS, ...rows.map((row) => boardCells(row, given.setSize))];
  });
}

function readBoard(
  columns: AlignedColumns<"dates" | "athletes" | "tricks" | "marks" | "stages">,
  asOf: number,
  key: MarkKey | undefined,
): BoardLog {
  const [dates, athletes, tricks] = [columns.rows("dates"), columns.rows("athletes"), columns.rows("tricks")];
  const [marks, stages] = [columns.rows("marks"), columns.rows("stages")];
  const log = new BoardLog();
  for (let row = 0; row < columns.length; row++) {
    if (!columns.isFilled(row)) continue;
    const attempts = log.logFor(
      readDate(dates, row, "dates"),
      readName(athletes, row, "athletes"),
      readName(tricks, row, "tricks"),
      stages.length > 0 ? readName(stages, row, "stages") : undefined,
      asOf,
    );
    addMarks(marks, row, key, attempts);
  }
  return log;
}

const BOARD_HEADINGS = [
  "Athlete",
  "Trick",
  "Attempts",
  "Last set",
  "Recent rate",
  "Low",
  "High",
  "Chance",
  "Streak",
  "Best streak",
  "Status",
  "Last practised",
  "Next step",
];

function boardCells({ athlete, trick, assessment, lastPractised }: BoardRow, setSize: number): (string | number)[] {
  const shown = figures(assessment);
  return [
    athlete,
    trick,
    assessment.attempts,
    shown.lastSet,
    shown.recentRate,
    shown.low,
    shown.high,
    shown.chance,
    shown.streak,
    shown.bestStreak,
    assessment.status,
    lastPractised,
    nextStep(assessment, setSize),
  ];
}
