/**
 * Cell functions: a trick that fails, and what may help it: since when, in which way, under which conditions, on which
 * try, at which stage. Each function is only its face in the sheet; the work is done in `src/core`.
 */
import { changeInWords, leftOutOfFirstTries, whatIsLeft } from "../core/advice";
import { changeDay } from "../core/change-day";
import { ConditionLog } from "../core/conditions";
import { DayTallies } from "../core/day-tallies";
import { FirstTriesLog } from "../core/first-tries";
import type { MarkKey } from "../core/marks";
import type { RateDifference } from "../core/mantel-haenszel";
import type { LogReading } from "../core/practice-log";
import { ProgressionLog } from "../core/progression";
import { rowByRow, type RowRead } from "../core/row-by-row";
import type { RowOfMarks } from "../core/row-of-marks";
import { tellApart } from "../core/tell-apart";
import { WayLog } from "../core/ways";
import { read } from "./arguments";
import { isLeftOut } from "./cells";
import { respond, type Cells } from "./errors";
import {
  answerFrom,
  blanks,
  footRows,
  leftOutSentence,
  MOST_TOLD,
  NOT_COUNTED,
  readLog,
  type LogRanges,
} from "./log-ranges";
import { placesOf } from "./places";

/** Reads a log whose rows are looked at one by one; `use` is told of each that counts, with its attempts. */
function eachRow(
  ranges: LogRanges,
  key: MarkKey | undefined,
  use: (row: RowOfMarks, read: RowRead) => void,
): LogReading {
  return readLog(ranges, key, { most: MOST_TOLD, ...rowByRow(use) });
}

/** A difference and its interval; empty where there is none. */
function differenceCells(found: RateDifference | undefined): (string | number)[] {
  return found ? [found.difference, found.low, found.high] : blanks(3);
}

/** Share caught; empty without attempts. */
function rateCell({ caught, attempts }: { readonly caught: number; readonly attempts: number }): string | number {
  return attempts > 0 ? caught / attempts : "";
}

/**
 * Since when one trick is caught less often, or more often, and whether that is more than a bad day.
 * @customfunction CHANGEDAY
 * @requiresParameterAddresses
 * @param dates The dates of one athlete's one trick, one column, rows in any order.
 * @param marks The marks, one or more columns with as many rows; tallies such as 8/10 too.
 * @param [key] The club's own marks as caught/dropped or caught/dropped/bailed, such as "x/o".
 * @param invocation Told by the host: where the ranges stand.
 * @returns Two columns, label and value: Change (none seen, slid or risen), Since (the likeliest first day of the new rate), Earliest and Latest (the 5 % and 95 % points of that day), Rate before, Rate since, Chance of a change (0 to 1; a change is told from 0.9), In words. After several changes the latest is told, and Rate before is that of the stretch before it. Without a change the days and the two rates are empty. Rows that cannot be read are left out; In words says so.
 * @throws #VALUE! for ranges of different length, a key that cannot be read, or more than 20,000 practice days; #N/A with fewer than 3 practice days.
 * @example =TWIRL.CHANGEDAY({46300;46302;46305;46307;46309;46312},{"9/10";"10/10";"9/10";"4/10";"5/10";"3/10"}) shows slid since 46307, from 0.93 to 0.40
 * @source Exact posterior for one change in a series of catches against none: Smith 1975, Biometrika 62:407-416, Jeffreys' prior for each rate. That a change is as likely as none beforehand, and is told from 0.9, is common practice, no source.
 */
export function changeday(dates: any[][], marks: any[][], key: any, invocation: CustomFunctions.Invocation): any[][] {
  const places = placesOf(invocation, ["dates", "marks"]);
  return respond((): Cells => {
    const given = read({ key });
    const days = new DayTallies();
    const reading = eachRow({ dates, marks }, given.key, (row, { day }) => days.add(day, row));
    const found = answerFrom(reading, places, () => changeDay(days.days()));
    const { change, chance, told } = found;
    return [
      ["Change", change],
      ["Since", told?.since ?? ""],
      ["Earliest", told?.earliest ?? ""],
      ["Latest", told?.latest ?? ""],
      ["Rate before", told?.before.rate ?? ""],
      ["Rate since", told?.after.rate ?? ""],
      ["Chance of a change", chance],
      ["In words", [changeInWords(found), ...leftOutSentence(reading, places)].join(" ")],
    ];
  }, places);
}

const WAY_HEADINGS = [
  "Way",
  "Attempts",
  "Caught",
  "Rate",
  "Low",
  "High",
  "Chance best",
  "Difference",
  "Diff low",
  "Diff high",
  "Verdict",
];

/**
 * One trick done in several ways (entrances, exits, hands, halls): which is best, and whether that is clear yet.
 * @customfunction WAYS
 * @requiresParameterAddresses
 * @param ways How each row's attempts were done, one column for one athlete's one trick; an empty cell is "(not noted)". At most 200 different ones.
 * @param marks The marks, one or more columns with as many rows; tallies such as 8/10 too.
 * @param [dates] The dates, one column with as many rows: ways are then compared on the days on which both were tried, so that a good day is not taken for a good way.
 * @param [key] The club's own marks as caught/dropped or caught/dropped/bailed, such as "x/o".
 * @param invocation Told by the host: where the ranges stand.
 * @returns A heading row and a row for each way, most tried first: Way, Attempts, Caught, Rate, Low, High (Wilson's 95 % range), Chance best (0 to 1), Difference from the way tried most, Diff low, Diff high (its 95 % range), Verdict: usual, better, worse, "not clear yet" or, with dates, "never on the same day". Better and worse ask for a range that leaves out 0 and at least 5 attempts on both sides, with dates on the days they share: 2 of 2 against 0 of 2 is not clear yet. What was not noted stands last and is never best. Below them a row "Not counted" for each row that cannot be read, the first 20, with the reason in the last column.
 * @throws #VALUE! for ranges of different length, a key that cannot be read, or more than 200 different ways; #N/A when no way is noted yet.
 * @example =TWIRL.WAYS({"Spin";"Walk"},{"48/80";"56/70"}) shows Walk 0.20 above the usual way, from 0.05 to 0.33
 * @source Difference: Newcombe 1998, Statistics in Medicine 17:873-890, method 10; with dates the Mantel-Haenszel risk difference, Sato 1989, Biometrics 45:1323-1324. Chance best: rates independent, Jeffreys' prior each. At least 5 attempts: common practice, no source.
 */
export function ways(
  ways: any[][],
  marks: any[][],
  dates: any[][],
  key: any,
  invocation: CustomFunctions.Invocation,
): any[][] {
  const places = placesOf(invocation, ["ways", "marks", "dates"]);
  return respond((): Cells => {
    const given = read({ key });
    const isDated = !isLeftOut(dates);
    const log = new WayLog("ways");
    const reading = eachRow(isDated ? { ways, marks, dates } : { ways, marks }, given.key, (row, { noted, day }) =>
      log.add(noted, row, isDated ? day : undefined),
    );
    return [
      WAY_HEADINGS,
      ...answerFrom(reading, places, () => log.rows(isDated)).map((way) => [
        way.way,
        way.attempts,
        way.caught,
        rateCell(way),
        way.interval.low,
        way.interval.high,
        way.chanceBest ?? "",
        ...differenceCells(way.difference),
        way.verdict ?? "",
      ]),
      ...footRows(reading, places, WAY_HEADINGS.length),
    ];
  }, places);
}

const CONDITION_HEADINGS = [
  "Condition",
  "Attempts",
  "Caught",
  "Rate",
  "Difference",
  "Diff low",
  "Diff high",
  "p",
  "Verdict",
];

/**
 * What the left hand, the open air, tiredness or the first set do to the catches, over the whole log and fairly.
 * @customfunction CONDITIONS
 * @requiresParameterAddresses
 * @param conditions The conditions of each row, one column: several in a cell are parted by ";", an empty cell is "without". At most 200 different ones.
 * @param athletes The athletes, one column with as many rows; initials are enough.
 * @param tricks The tricks, one column with as many rows.
 * @param marks The marks, one or more columns with as many rows; tallies such as 8/10 too.
 * @param [key] The club's own marks as caught/dropped or caught/dropped/bailed, such as "x/o".
 * @param invocation Told by the host: where the ranges stand.
 * @returns A heading row and a row for each condition, most tried first: Condition, Attempts, Caught, Rate, Difference from the same athletes' same tricks without it, Diff low, Diff high (its 95 % range), p, Verdict: better, worse, "not clear yet" or "never without it". Each athlete's each trick is only compared with itself, so that a hand tried on easy tricks does not look good for it. Better and worse ask for a range that leaves out 0 and at least 5 attempts with it and 5 without it on those tricks. Below them a row "Not counted" for each row that cannot be read, the first 20, with the reason in the last column.
 * @throws #VALUE! for ranges of different length, a key that cannot be read, or more than 200 different conditions; #N/A when no condition is noted yet.
 * @example =TWIRL.CONDITIONS({"left hand";"";"left hand";""},{"Lea B.";"Lea B.";"Lea B.";"Lea B."},{"Flat spin";"Flat spin";"Illusion";"Illusion"},{"80/100";"39/40";"2/10";"40/100"}) shows 110 attempts with the left hand, 82 caught, and a worse rate than without it
 * @source Mantel-Haenszel risk difference over athletes' tricks: Greenland and Robins 1985, Biometrics 41:55-68; Sato 1989, Biometrics 45:1323-1324. p: Cochran-Mantel-Haenszel test without continuity correction, Mantel and Haenszel 1959, JNCI 22:719-748. At least 5 attempts: common practice, no source.
 */
export function conditions(
  conditions: any[][],
  athletes: any[][],
  tricks: any[][],
  marks: any[][],
  key: any,
  invocation: CustomFunctions.Invocation,
): any[][] {
  const places = placesOf(invocation, ["conditions", "athletes", "tricks", "marks"]);
  return respond((): Cells => {
    const given = read({ key });
    const log = new ConditionLog();
    const ranges = { conditions, athletes, tricks, marks };
    const reading = eachRow(ranges, given.key, (row, { noted, athlete, trick }) => log.add(noted, athlete, trick, row));
    return [
      CONDITION_HEADINGS,
      ...answerFrom(reading, places, () => log.rows()).map((condition) => [
        condition.condition,
        condition.attempts,
        condition.caught,
        rateCell(condition),
        ...differenceCells(condition.difference),
        condition.p ?? "",
        condition.verdict,
      ]),
      ...footRows(reading, places, CONDITION_HEADINGS.length),
    ];
  }, places);
}

const FIRST_TRY_HEADINGS = [
  "When",
  "Attempts",
  "Caught",
  "Rate",
  "Low",
  "High",
  "Difference",
  "Diff low",
  "Diff high",
  "Verdict",
];

/**
 * How a trick goes on the first try of the day, and on the first day back: a contest is a first toss.
 * @customfunction FIRSTTRIES
 * @requiresParameterAddresses
 * @param dates The dates of one athlete's one trick, or of several tricks, one column; the days in any order, the rows of one day in the order of the practice.
 * @param marks The marks, one or more columns with as many rows.
 * @param [breakDays] Days off in a row after which a practice day is the first day back, a whole number from 1 to 10,000; 7 when left out.
 * @param [key] The club's own marks as caught/dropped or caught/dropped/bailed, such as "x/o".
 * @param [tricks] The tricks, one column with as many rows, where they are several: the first attempt of a day at each is a first try. All rows are one trick when left out.
 * @param invocation Told by the host: where the ranges stand.
 * @returns A heading row and four rows: First of the day, Later that day, First day back, Other days, with Attempts, Caught, Rate, Low, High (Wilson's 95 % range), and on the first and third the Difference from the row below, Diff low, Diff high (its 95 % range) and a Verdict: better, worse or "not clear yet". Better and worse ask for a range that leaves out 0 and at least 5 attempts on both sides. The first day of the log is no day back. Where days begin with a tally, which hides the first try, they are left out of the first two rows, and a last row "Not counted" says so. Rows that cannot be read are left out: LOGCHECK tells them.
 * @throws #VALUE! for ranges of different length, or a key or number of days that cannot be read; #N/A when nothing is logged yet.
 * @example =TWIRL.FIRSTTRIES({46300;46302;46304;46306;46308;46310},{"dcccc";"dccdc";"ccccc";"ddccc";"dcccc";"dcccd"}) shows 1 caught of 6 on the first try, 21 of 24 later, worse
 * @source Difference: Newcombe 1998, Statistics in Medicine 17:873-890, method 10. Seven days off and at least 5 attempts: common practice, no source.
 */
export function firsttries(
  dates: any[][],
  marks: any[][],
  breakDays: any,
  key: any,
  tricks: any[][],
  invocation: CustomFunctions.Invocation,
): any[][] {
  const places = placesOf(invocation, ["dates", "marks", "breakDays", "key", "tricks"]);
  return respond((): Cells => {
    const given = read({ breakDays, key });
    const log = new FirstTriesLog();
    const ranges = isLeftOut(tricks) ? { dates, marks } : { dates, tricks, marks };
    const reading = eachRow(ranges, given.key, (row, { day, trick }) => log.add(day, row, trick));
    const found = answerFrom(reading, places, () => log.rows(given.breakDays));
    const note = leftOutOfFirstTries(found);
    return [
      FIRST_TRY_HEADINGS,
      ...found.rows.map((row) => [
        row.name,
        row.attempts,
        row.caught,
        rateCell(row),
        row.interval?.low ?? "",
        row.interval?.high ?? "",
        ...differenceCells(row.difference),
        row.verdict ?? "",
      ]),
      ...(note === "" ? [] : [[NOT_COUNTED, ...blanks(FIRST_TRY_HEADINGS.length - 2), note]]),
    ];
  }, places);
}

/**
 * How many tries of each of two ways it takes to tell their catch rates apart.
 * @customfunction TELLAPART
 * @param rateA The catch rate of one way, a share from 0 to 1.
 * @param rateB The catch rate that the other way would have, a share from 0 to 1.
 * @param [power] How surely the difference is to be seen if it is there, a share from 0 to 1; 0.8 when left out.
 * @param [confidence] How rarely luck alone may look like a difference, a share from 0 to 1; 0.95 when left out.
 * @returns Attempts of each way, a whole number, at least 1.
 * @throws #VALUE! for a rate, power or confidence outside 0 to 1; #N/A for equal rates, a power or confidence of 1, or more than 1e15 attempts.
 * @example =TWIRL.TELLAPART(0.5,0.75,0.9) shows 77
 * @source Fleiss 1981, Statistical Methods for Rates and Proportions, 2nd edition, chapter 3, two-sided without continuity correction; R's power.prop.test gives 76.7 there.
 */
export function tellapart(rateA: any, rateB: any, power: any, confidence: any): number {
  return respond(() => {
    const given = read({ rateA, rateB, power, confidence });
    return tellApart(given.rateA, given.rateB, given.power, given.confidence);
  });
}

const PROGRESSION_HEADINGS = ["Stage", "Attempts", "Rate", "Best run", "Done", "What is left"];

/**
 * One trick on its way from the body alone to the contest: which stages are done, and what is left.
 * @customfunction PROGRESSION
 * @requiresParameterAddresses
 * @param dates The dates of one athlete's one trick, one column, rows in any order.
 * @param stages The stages, one column with as many rows: Body only, Toss only, Wall, Joined, In context, Run-through or Contest.
 * @param marks The marks, one or more columns with as many rows; of a tally such as 9/10 only the run of catches counts that it must hold.
 * @param [standard] The catch rate asked for, a share from 0 to 1; 0.8 when left out.
 * @param [setSize] Attempts in a set, a whole number from 1 to 1000; 10 when left out.
 * @param [since] A date: only rows from that day on count, for the way back of a trick that was taken out.
 * @param [key] The club's own marks as caught/dropped or caught/dropped/bailed, such as "x/o".
 * @param invocation Told by the host: where the ranges stand.
 * @returns A heading row and seven rows, the stages in the order of learning: Stage, Attempts, Rate, Best run (catches running), Done (the day on which the stage was first done, or empty), What is left (empty where it is done; a joined trick and a run-through may fall back). Rate and Best run are empty without attempts. Rows that cannot be read are left out: LOGCHECK tells them.
 * @throws #VALUE! for ranges of different length, or a key, standard, set size or date that cannot be read; #N/A when nothing is logged yet, or nothing since that day.
 * @example =TWIRL.PROGRESSION({46300;46301;46302},{"Wall";"Wall";"Joined"},{"ccdcc";"cccdc";"ccdcd"}) shows Wall done on 46301 after 10 attempts
 * @source When a stage is done is common practice, no source: five caught running (Body only, Toss only, Wall, In context), Ready by READINESS (Joined), four of the latest five (Run-through).
 */
export function progression(
  dates: any[][],
  stages: any[][],
  marks: any[][],
  standard: any,
  setSize: any,
  since: any,
  key: any,
  invocation: CustomFunctions.Invocation,
): any[][] {
  const places = placesOf(invocation, ["dates", "stages", "marks"]);
  return respond((): Cells => {
    const given = read({ standard, setSize, since, key });
    const log = new ProgressionLog();
    // A stage is always asked for here, so an empty range of stages is no range left out.
    const ranges = { dates, stages: isLeftOut(stages) ? [[""]] : stages, marks };
    const reading = eachRow(ranges, given.key, (row, { day, stage }) => {
      if (stage !== undefined) log.add(day, stage, row);
    });
    const rows = answerFrom(reading, places, () => log.rows(given.standard, given.setSize, given.since));
    return [
      PROGRESSION_HEADINGS,
      ...rows.map((row) => [
        row.stage,
        row.attempts,
        rateCell(row),
        row.attempts > 0 ? row.bestRun : "",
        row.done ?? "",
        whatIsLeft(row, given.standard, given.setSize),
      ]),
    ];
  }, places);
}
