/**
 * Cell functions: the whole log, which is never perfect. Its rows may stand in any order; one that cannot be read is left
 * out and told, and every other one counts. Each function is only its face in the sheet; the work is done in `src/core`.
 */
import { nextStep } from "../core/advice";
import { BoardLog, type BoardRow } from "../core/board";
import { NO_ATTEMPTS } from "../core/catch-rate";
import { DayLog } from "../core/day-log";
import { historyByDay } from "../core/history";
import type { MarkKey } from "../core/marks";
import { Missing } from "../core/problem";
import { StageLog } from "../core/stages";
import { isApart, STAGES } from "../trade/stages";
import { comparable } from "../core/text";
import { read } from "./arguments";
import { isLeftOut } from "./cells";
import { respond, type Cells } from "./errors";
import { figures } from "./figures";
import { footRows, leftOutRows, MOST_CHECKED, MOST_TOLD, readLog, type LogRanges } from "./log-ranges";
import { grouped } from "../core/numbers-in-words";
import { placesOf, type Places } from "./places";

/**
 * One athlete's one trick day by day, ready for a chart.
 * @customfunction TRICKHISTORY
 * @requiresParameterAddresses
 * @param dates The log's dates, one column.
 * @param athletes The athletes, one column with as many rows.
 * @param tricks The tricks, one column with as many rows.
 * @param marks The marks, one or more columns with as many rows.
 * @param athlete The athlete whose record is shown.
 * @param trick The trick that is shown.
 * @param [standard] The catch rate asked for, a share from 0 to 1; 0.8 when left out.
 * @param [key] The club's own marks as caught/dropped or caught/dropped/bailed, such as "x/o".
 * @param [stages] The stages, one column with as many rows; Body only, Toss only and Wall do not count.
 * @param invocation Told by the host: where the ranges stand.
 * @returns A heading row and a row for each practice day in order of time: Date, Caught, Attempts, Rate, Low, High (Wilson's 95 % range), Standard. The log's rows may stand in any order; those that cannot be read are left out: LOGCHECK tells them.
 * @throws #VALUE! for ranges of different length, or a key or standard that cannot be read; #N/A when nothing is logged for them.
 * @example =TWIRL.TRICKHISTORY(Practice_2027[Date],Practice_2027[Athlete],Practice_2027[Trick],Practice_2027[Marks],"M.K.","Two spin") shows a row a day
 * @source The range is Wilson's: Newcombe 1998, Statistics in Medicine 17:857-872.
 */
export function trickhistory(
  dates: any[][],
  athletes: any[][],
  tricks: any[][],
  marks: any[][],
  athlete: any,
  trick: any,
  standard: any,
  key: any,
  stages: any[][],
  invocation: CustomFunctions.Invocation,
): any[][] {
  return respond(
    (): Cells => {
      const given = read({ athlete, trick, standard, key });
      const [athleteKey, trickKey] = [comparable(given.athlete), comparable(given.trick)];
      const record = new DayLog();
      const isOwn = (name: string, of: string): boolean =>
        comparable(name) === athleteKey && comparable(of) === trickKey;
      readLog({ dates, athletes, tricks, marks, stages }, given.key, {
        most: 0,
        recordOf: (_, name, of, stage) =>
          isOwn(name, of) && !(stage !== undefined && isApart(stage)) ? record : undefined,
      });
      const days = historyByDay(record);
      if (days.length === 0) throw new Missing("Nothing is logged for this athlete and trick yet");
      return [
        ["Date", "Caught", "Attempts", "Rate", "Low", "High", "Standard"],
        ...days.map((day) => [
          day.date,
          day.caught,
          day.attempts,
          day.caught / day.attempts,
          day.interval.low,
          day.interval.high,
          given.standard,
        ]),
      ];
    },
    placesOf(invocation, [
      ...["dates", "athletes", "tricks", "marks", "athlete", "trick", "standard", "key", "stages"],
    ]),
  );
}

/**
 * The whole log at a glance: a row for each athlete and trick with its status and next step.
 * @customfunction BOARD
 * @requiresParameterAddresses
 * @param dates The log's dates, one column.
 * @param athletes The athletes, one column with as many rows; initials are enough.
 * @param tricks The tricks, one column with as many rows.
 * @param marks The marks, one or more columns with as many rows: runs such as ccdcc, single marks, or tallies such as 8/10.
 * @param [standard] The catch rate asked for, a share from 0 to 1; 0.8 when left out.
 * @param [setSize] Attempts in a set, a whole number from 1 to 1000; 10 when left out.
 * @param [stages] The stages, one column with as many rows; Body only, Toss only and Wall do not count, and are not looked at further.
 * @param [asOf] A date: later rows are left out.
 * @param [key] The club's own marks as caught/dropped or caught/dropped/bailed, such as "x/o".
 * @param invocation Told by the host: where the ranges stand.
 * @returns A heading row and a row for each athlete and trick, A to Z: Athlete, Trick, Attempts, Last set, Recent rate (since the last slide, the latest attempts weighing most), Low, High, Chance (by the same weights), Streak, Best streak (since the last tally), Status, Last practised (a date), Next step (with the reason). The rows may stand in any order: days count, and the order of the log within a day. Below them a row "Not counted" for each row that cannot be read, the first 20: where it stands, and at Next step what is wrong and what is accepted.
 * @throws #VALUE! for ranges of different length, or a key, standard or set size that cannot be read; #N/A when nothing is logged yet.
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
  invocation: CustomFunctions.Invocation,
): any[][] {
  const places = placesOf(invocation, ["dates", "athletes", "tricks", "marks", "standard", "setSize", "stages"]);
  return respond(() => {
    const given = read({ standard, setSize, asOf, key });
    return boardOf({ dates, athletes, tricks, marks, stages }, given, given.key, places);
  }, places);
}

interface BoardQuestion {
  readonly standard: number;
  readonly setSize: number;
  readonly asOf: number;
}

/** One pass over the log's rows. */
function boardOf(
  ranges: LogRanges,
  { standard, setSize, asOf }: BoardQuestion,
  key: MarkKey | undefined,
  places: Places,
): Cells {
  const log = new BoardLog();
  const reading = readLog(ranges, key, {
    most: MOST_TOLD,
    recordOf: (day, athlete, trick, stage) => log.recordOf(day, athlete, trick, stage, asOf),
  });
  const rows = [
    ...log.rows(standard, setSize).map((row) => boardCells(row, setSize)),
    ...footRows(reading, places, BOARD_HEADINGS.length),
  ];
  if (rows.length === 0) throw new Missing(NO_ATTEMPTS);
  return [BOARD_HEADINGS, ...rows];
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

/**
 * The board from a log of two number columns: how many were caught and how many were tried.
 * @customfunction TALLYBOARD
 * @requiresParameterAddresses
 * @param dates The log's dates, one column.
 * @param athletes The athletes, one column with as many rows; initials are enough.
 * @param tricks The tricks, one column with as many rows.
 * @param caught How many were caught, one column with as many rows.
 * @param attempts How many were tried, one column with as many rows; a row of 0 attempts counts as empty.
 * @param [standard] The catch rate asked for, a share from 0 to 1; 0.8 when left out.
 * @param [setSize] Attempts in a set, a whole number from 1 to 1000; 10 when left out.
 * @param [stages] The stages, one column with as many rows; Body only, Toss only and Wall do not count.
 * @param [asOf] A date: later rows are left out.
 * @param invocation Told by the host: where the ranges stand.
 * @returns As BOARD: a heading row and a row for each athlete and trick; Streak and Best streak are empty, since the order is unknown. Rows that cannot be read stand below as there.
 * @throws #VALUE! for ranges of different length, or a standard or set size that cannot be read; #N/A when nothing is logged yet.
 * @example =TWIRL.TALLYBOARD(A2:A400,B2:B400,C2:C400,D2:D400,E2:E400) shows the board
 * @source As TALLYREADINESS, row by row.
 */
export function tallyboard(
  dates: any[][],
  athletes: any[][],
  tricks: any[][],
  caught: any[][],
  attempts: any[][],
  standard: any,
  setSize: any,
  stages: any[][],
  asOf: any,
  invocation: CustomFunctions.Invocation,
): any[][] {
  const places = placesOf(invocation, [
    ...["dates", "athletes", "tricks", "caught", "attempts", "standard", "setSize", "stages"],
  ]);
  return respond(() => {
    const given = read({ standard, setSize, asOf });
    return boardOf({ dates, athletes, tricks, caught, attempts, stages }, given, undefined, places);
  }, places);
}

/**
 * At which stage of learning each trick breaks: its catch rate stage by stage.
 * @customfunction STAGEBOARD
 * @requiresParameterAddresses
 * @param tricks The tricks, one column.
 * @param stages The stages, one column with as many rows: Body only, Toss only, Wall, Joined, In context, Run-through or Contest.
 * @param marks The marks, one or more columns with as many rows.
 * @param [key] The club's own marks as caught/dropped or caught/dropped/bailed, such as "x/o".
 * @param [athletes] The athletes, one column with as many rows, for a row for each athlete and trick; the whole club together when left out.
 * @param invocation Told by the host: where the ranges stand.
 * @returns A heading row and a row for each trick, A to Z: the trick; for each stage in the order of learning its catch rate and its attempts, empty where nothing is logged; and the first stage that falls clearly below the practised one before it, or nothing. With athletes a row for each athlete and trick, the athlete in the first column: a trick that breaks for one may hold for the others, and the club together would not show it. Rows that cannot be read stand below, as on the board, with the reason in the last column.
 * @throws #VALUE! for ranges of different length or a key that cannot be read; #N/A when nothing is logged yet.
 * @example =TWIRL.STAGEBOARD(Practice_2027[Trick],Practice_2027[Stage],Practice_2027[Marks]) shows the stages
 * @source "Clearly below" as COMPARE says at 0.95. The order of learning is common practice, no source.
 */
export function stageboard(
  tricks: any[][],
  stages: any[][],
  marks: any[][],
  key: any,
  athletes: any[][],
  invocation: CustomFunctions.Invocation,
): any[][] {
  const places = placesOf(invocation, ["tricks", "stages", "marks", "key", "athletes"]);
  return respond((): Cells => {
    const given = read({ key });
    const log = new StageLog();
    // A stage is always asked for here, so an empty range of stages is no range left out.
    const ranges = { tricks, stages: isLeftOut(stages) ? [[""]] : stages, marks };
    const byAthlete = !isLeftOut(athletes);
    const reading = readLog(byAthlete ? { ...ranges, athletes } : ranges, given.key, {
      most: MOST_TOLD,
      recordOf: (_, athlete, trick, stage) => (stage === undefined ? undefined : log.recordOf(trick, stage, athlete)),
    });
    const headings = [
      ...(byAthlete ? ["Athlete"] : []),
      "Trick",
      ...STAGES.flatMap((stage) => [stage, `${stage} attempts`]),
      "Breaks at",
    ];
    const rows = [
      ...log
        .rows()
        .map(({ athlete, trick, tallies, breaksAt }) => [
          ...(byAthlete ? [athlete] : []),
          trick,
          ...tallies.flatMap((tally): (string | number)[] =>
            tally ? [tally.caught / tally.attempts, tally.attempts] : ["", ""],
          ),
          breaksAt ?? "",
        ]),
      ...footRows(reading, places, headings.length),
    ];
    if (rows.length === 0) throw new Missing(NO_ATTEMPTS);
    return [headings, ...rows];
  }, places);
}

/**
 * Whether every row of the log counts, and which do not.
 * @customfunction LOGCHECK
 * @requiresParameterAddresses
 * @param dates The log's dates, one column.
 * @param athletes The athletes, one column with as many rows; initials are enough.
 * @param tricks The tricks, one column with as many rows.
 * @param marks The marks, one or more columns with as many rows: runs such as ccdcc, single marks, or tallies such as 8/10.
 * @param [stages] The stages, one column with as many rows, where the log has them.
 * @param [key] The club's own marks as caught/dropped or caught/dropped/bailed, such as "x/o".
 * @param invocation Told by the host: where the ranges stand.
 * @returns One cell such as "All 2,110 rows count". Else a first row, such as "2 of 2,110 rows do not count", and below it a row for each that does not, at most 1,000: where it stands, the sheet's cell where the host tells it, and what is wrong with it and what is accepted; a row that only waits for its marks is told calmly.
 * @throws #VALUE! for ranges of different length or a key that cannot be read; #N/A when nothing is logged yet.
 * @example =TWIRL.LOGCHECK(Practice_2027[Date],Practice_2027[Athlete],Practice_2027[Trick],Practice_2027[Marks]) shows All rows count, or which do not
 * @source Every row is read as BOARD and STAGEBOARD read it.
 */
export function logcheck(
  dates: any[][],
  athletes: any[][],
  tricks: any[][],
  marks: any[][],
  stages: any[][],
  key: any,
  invocation: CustomFunctions.Invocation,
): any[][] {
  const places = placesOf(invocation, ["dates", "athletes", "tricks", "marks", "stages"]);
  return respond((): Cells => {
    const given = read({ key });
    const aside = new DayLog();
    const reading = readLog({ dates, athletes, tricks, marks, stages }, given.key, {
      most: MOST_CHECKED,
      recordOf: () => aside,
    });
    const { filled, leftOut } = reading;
    if (filled === 0) throw new Missing(NO_ATTEMPTS);
    if (leftOut === 0) return [[filled === 1 ? "The one row counts" : `All ${grouped(filled)} rows count`]];
    const summary = `${grouped(leftOut)} of ${grouped(filled)} rows ${leftOut === 1 ? "does" : "do"} not count`;
    return [[summary, ""], ...leftOutRows(reading, places, (place, words) => [place, words])];
  }, places);
}
