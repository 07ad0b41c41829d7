/** Cell functions: the way to the contest. Each is only its face in the sheet; the work is done in `src/core`. */
import { countdownStep } from "../core/advice";
import { BoardLog } from "../core/board";
import { contestChance } from "../core/contest-chance";
import { countdown as countedDown, type CountdownRow } from "../core/countdown";
import { DaysOff, type DaysAway, NO_DAYS_OFF } from "../core/days-off";
import { FORECAST_CONFIDENCE } from "../core/ready-date";
import { isEmptyCell } from "../core/practice-log";
import { Missing, Problem } from "../core/problem";
import { dayInWords } from "../core/day-text";
import { read } from "./arguments";
import { dateOf, isLeftOut, plainCell, rowsOf } from "./cells";
import { respond, type Cells } from "./errors";
import { answerFrom, blanks, footRows, MOST_TOLD, readLog } from "./log-ranges";
import { placesOf } from "./places";
import { readPracticeDays } from "./practice-days";

/**
 * How surely one trick will be at the standard on the contest day.
 * @customfunction CONTESTCHANCE
 * @requiresParameterAddresses
 * @param dates The practice days of one athlete's one trick, one column of dates, rows in any order.
 * @param caught How many were caught, one column with as many rows.
 * @param attempts How many were tried, one column with as many rows; a row of 0 attempts counts as empty.
 * @param contest The contest's day, a date; rows of later days are left out.
 * @param [standard] The catch rate asked for, a share from 0 to 1; 0.8 when left out.
 * @param [confidence] How sure the range shall be, a share from 0 to 1; 0.8 when left out.
 * @param [setSize] Attempts in a set, a whole number from 1 to 1000; 10 when left out.
 * @param invocation Told by the host: where the ranges stand.
 * @returns One row: the rate expected on the day, Low and High (its range), the chance that the true rate is at the standard then, and "trend" or "level". With a clear trend over the latest eight weeks the rate is that of its curve: a rise is not carried further than the last practice, since most end on a plateau, and a fall is. Else it is the level of the record as READINESS weighs it. The contest itself brings its own nerves: log its tosses too.
 * @throws #VALUE! for a date or count that cannot be read, with the row; #N/A when nothing is logged up to the contest, or when it is further ahead than the log reaches back, at most eight weeks.
 * @example =TWIRL.CONTESTCHANCE({46300;46307;46314},{7;8;9},{10;10;10},46321) shows a rate of 0.82 expected, from the level
 * @source Logistic regression, variances widened by Pearson's statistic: McCullagh and Nelder, Generalized Linear Models, 1989, sections 4.4 and 4.5. What comes true of such forecasts is measured by simulation over several shapes of learning curve, and stands in the developers' notes.
 */
export function contestchance(
  dates: any[][],
  caught: any[][],
  attempts: any[][],
  contest: any,
  standard: any,
  confidence: any,
  setSize: any,
  invocation: CustomFunctions.Invocation,
): any[][] {
  return respond(
    (): Cells => {
      const given = read({
        contest,
        standard,
        confidence: isLeftOut(confidence) ? FORECAST_CONFIDENCE : confidence,
        setSize,
      });
      const days = readPracticeDays({ dates, caught, attempts });
      const forecast = contestChance(days, given.contest, given.standard, given.setSize, given.confidence);
      return [[forecast.rate, forecast.low, forecast.high, forecast.chance, forecast.from]];
    },
    placesOf(invocation, ["dates", "caught", "attempts"]),
  );
}

const COUNTDOWN_HEADINGS = [
  "Athlete",
  "Trick",
  "Status",
  "Practices left",
  "Sets left",
  "Chance on the day",
  "Rate on the day",
  "Low",
  "High",
  "Last day to swap",
  "What to do",
];

/**
 * What is left up to the contest for every trick: practices, sets, the chance on the day, the last day to swap.
 * @customfunction COUNTDOWN
 * @requiresParameterAddresses
 * @param dates The log's dates, one column.
 * @param athletes The athletes, one column with as many rows; initials are enough.
 * @param tricks The tricks, one column with as many rows.
 * @param marks The marks, one or more columns with as many rows: runs such as ccdcc, single marks, or tallies such as 8/10.
 * @param contest The contest's day, a date.
 * @param [standard] The catch rate asked for, a share from 0 to 1; 0.8 when left out.
 * @param [setSize] Attempts in a set, a whole number from 1 to 1000; 10 when left out.
 * @param [stages] The stages, one column with as many rows; Body only, Toss only and Wall do not count, and are not looked at further.
 * @param [asOf] The day that is counted from, a date; later rows are left out. The latest day of the log up to the contest when left out.
 * @param [key] The club's own marks as caught/dropped or caught/dropped/bailed, such as "x/o".
 * @param [daysOff] Days without practice, such as holidays: two columns of dates, the first day and the last, a row for each time; one day alone needs no last. Neither the pace nor what is left counts them.
 * @param [practicesAWeek] Practices of each athlete a week from now on, 0.1 to 21, each with as many sets as lately; as often as in the latest four weeks when left out.
 * @param invocation Told by the host: where the ranges stand.
 * @returns A heading row and a row for each athlete and trick, most pressing first: Athlete, Trick, Status, Practices left and Sets left (at the pace of the latest four weeks, or as often as said), Chance on the day, Rate on the day, Low, High (as CONTESTCHANCE has them; empty where What to do says why), Last day to swap (a date: from then on five sets at that pace no longer fit; empty without a practice in four weeks), What to do. Below them a row "Not counted" for each row that cannot be read, the first 20.
 * @throws #VALUE! for ranges of different length, a day to count from after the contest, or a key, date, standard, set size or day off that cannot be read; #N/A when nothing is logged up to that day, or no contest day is entered.
 * @example =TWIRL.COUNTDOWN(Practice_2027[Date],Practice_2027[Athlete],Practice_2027[Trick],Practice_2027[Marks],46450) shows what is most pressing first
 * @source As BOARD and CONTESTCHANCE, row by row. Five sets to make a trick ready: what nine of ten tricks of a true 90 % need by READINESS, worked out. Four weeks: common practice, no source.
 */
export function countdown(
  dates: any[][],
  athletes: any[][],
  tricks: any[][],
  marks: any[][],
  contest: any,
  standard: any,
  setSize: any,
  stages: any[][],
  asOf: any,
  key: any,
  daysOff: any[][],
  practicesAWeek: any,
  invocation: CustomFunctions.Invocation,
): any[][] {
  const places = placesOf(invocation, [
    ...["dates", "athletes", "tricks", "marks", "contest", "standard", "setSize", "stages"],
    ...["asOf", "key", "daysOff", "practicesAWeek"],
  ]);
  return respond((): Cells => {
    const given = read({ contest, standard, setSize, asOf, key, practicesAWeek });
    if (Number.isFinite(given.asOf) && given.asOf > given.contest) {
      const found = `${dayInWords(given.asOf)}, after the contest on ${dayInWords(given.contest)}`;
      throw new Problem({ argument: "asOf", found, accepted: "a day up to the contest" });
    }
    const off = readDaysOff(daysOff);
    const last = Math.min(given.asOf, given.contest);
    const log = new BoardLog();
    const reading = readLog({ dates, athletes, tricks, marks, stages }, given.key, {
      most: MOST_TOLD,
      recordOf: (day, athlete, trick, stage) => log.recordOf(day, athlete, trick, stage, last),
    });
    const rows = answerFrom(reading, places, () => {
      const board = log.rows(given.standard, given.setSize);
      if (board.length === 0) throw new Missing("Nothing is logged up to that day");
      const latest = Math.max(...board.map(({ lastPractised }) => lastPractised));
      const from = Number.isFinite(given.asOf) ? given.asOf : latest;
      const { contest: day, standard: asked, setSize: size, practicesAWeek: weekly } = given;
      return countedDown(board, from, day, asked, size, off, weekly).map((row) => countdownCells(row, from));
    });
    return [COUNTDOWN_HEADINGS, ...rows, ...footRows(reading, places, COUNTDOWN_HEADINGS.length)];
  }, places);
}

function countdownCells(row: CountdownRow, from: number): (string | number)[] {
  const { forecast } = row;
  return [
    row.athlete,
    row.trick,
    row.status,
    row.practicesLeft,
    row.setsLeft,
    ...(typeof forecast === "string" ? blanks(4) : [forecast.chance, forecast.rate, forecast.low, forecast.high]),
    row.lastDayToSwap ?? "",
    countdownStep(row, from),
  ];
}

/** @throws Problem for a day that cannot be read, a last one alone, or one before its first */
function readDaysOff(raw: unknown): DaysOff {
  if (isLeftOut(raw)) return NO_DAYS_OFF;
  return new DaysOff(
    rowsOf(raw).flatMap((cells, row): readonly DaysAway[] => {
      const [first, last] = [0, 1].map((column) => dayIn(cells[column], row + 1, column + 1));
      const wrong = (found: string, accepted: string): Problem =>
        new Problem({ argument: "daysOff", row: row + 1, column: first === undefined ? 1 : 2, found, accepted });
      if (first === undefined && last === undefined) return [];
      if (first === undefined) throw wrong("an empty cell beside a last day", "the first day without practice");
      if (last !== undefined && last < first) {
        throw wrong(dayInWords(last), `a day not before the first, ${dayInWords(first)}`);
      }
      return [{ first, last: last ?? first }];
    }),
  );
}

/** An empty cell arrives as 0 from some hosts, and no day has that number. */
function dayIn(raw: unknown, row: number, column: number): number | undefined {
  const cell = plainCell(raw, "daysOff", row, column);
  return isEmptyCell(cell) ? undefined : dateOf(cell, "daysOff", row, column);
}
