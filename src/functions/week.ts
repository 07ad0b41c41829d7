/** Cell functions: the week. Each is only its face in the sheet; the work is done in `src/core`. */
import { loadPrompt, planReason } from "../core/advice";
import { ClubLog, type ClubPlanRow, type Practising } from "../core/club-plan";
import { grouped } from "../core/numbers-in-words";
import { BadCell, isEmptyCell } from "../core/practice-log";
import { DAY_MINUTES } from "../trade/limits";
import { Missing, Problem, quote } from "../core/problem";
import { comparable } from "../core/text";
import { practicePlan, trainingLoad, type TrickRecord } from "../core/week";
import { read, readCell, requireTally } from "./arguments";
import { AlignedColumns, isLeftOut, logCell, plainCell, readDate, readName, rowsOf } from "./cells";
import { respond, type Cells } from "./errors";
import { answerFrom, blanks, footRows, MOST_TOLD, NOT_COUNTED, readLog } from "./log-ranges";
import { placesOf } from "./places";

/** No athlete practises more; a column that is full by mistake is refused at once. */
const MOST_TRICKS = 5000;

/**
 * What to practise in the attempts there is time for, in whole sets.
 * @customfunction PRACTICEPLAN
 * @requiresParameterAddresses
 * @param tricks The tricks, one column.
 * @param caught How many were caught lately, one column of whole numbers with as many rows.
 * @param attempts How many were tried lately, one column with as many rows; a row of 0 attempts counts as empty, so log a first set to bring a new trick in.
 * @param budget The attempts there is time for, a whole number.
 * @param [standard] The catch rate asked for, a share from 0 to 1; 0.8 when left out.
 * @param [setSize] Attempts in a set, a whole number from 1 to 1000; 10 when left out.
 * @param [weights] How much each trick matters, one column of numbers from 0 with as many rows; all alike when left out.
 * @param invocation Told by the host: where the ranges stand.
 * @returns A row for each trick, what to do first at the top: trick, attempts to do, why. The sets are given out one by one, each to the trick whose need, divided by one more than the sets it has, is largest; at most three sets of one trick.
 * @throws #VALUE! for a name or number that cannot be read, a row filled in part only, or ranges of different length, with the row; #N/A when no tricks are entered.
 * @example =TWIRL.PRACTICEPLAN({"Flat";"Two spin"},{19;12},{20;20},50) shows 30 for Two spin and 20 for Flat
 * @source Need: weight times what the mean under Jeffreys' prior, (caught + 1/2)/(attempts + 1), is short of the standard plus 0.1, at least 0.02; greatest divisors (d'Hondt's method). Practice spread over days teaches more than the same practice at once: Lee and Genovese 1988, Research Quarterly for Exercise and Sport 59:277-287. Three sets: common practice, no source.
 */
export function practiceplan(
  tricks: any[][],
  caught: any[][],
  attempts: any[][],
  budget: any,
  standard: any,
  setSize: any,
  weights: any[][],
  invocation: CustomFunctions.Invocation,
): any[][] {
  return respond(
    (): Cells => {
      const given = read({ budget, standard, setSize });
      const weighted = !isLeftOut(weights);
      const columns = new AlignedColumns({
        tricks: { kind: "name", raw: tricks },
        caught: { kind: "number", raw: caught },
        attempts: { kind: "number", raw: attempts },
        weights: weighted ? { kind: "number", raw: weights } : undefined,
      });
      const records: TrickRecord[] = [];
      for (let row = 0; row < columns.length; row++) {
        if (!columns.isFilled(row)) continue;
        const trick = readName(columns.rows("tricks"), row, "tricks").trim();
        const tally = requireTally(
          {
            caught: readCell("caught", columns.rows("caught")[row]?.[0], row, 0),
            attempts: readCell("attempts", columns.rows("attempts")[row]?.[0], row, 0),
          },
          { argument: "caught", row: row + 1, column: 1 },
        );
        const weight = weighted ? readCell("weights", columns.rows("weights")[row]?.[0], row, 0) : 1;
        if (tally.attempts > 0) records.push({ trick, ...tally, weight });
        if (records.length > MOST_TRICKS) {
          const found = `more than ${MOST_TRICKS} tricks`;
          throw new Problem({ argument: "tricks", found, accepted: `at most ${MOST_TRICKS} tricks` });
        }
      }
      if (records.length === 0) throw new Missing("No tricks with attempts are entered yet");
      return practicePlan(records, given.budget, given.standard, given.setSize).map((planned) => [
        planned.trick,
        planned.attempts,
        planReason(planned, given.standard, given.setSize),
      ]);
    },
    placesOf(invocation, ["tricks", "caught", "attempts", "budget", "standard", "setSize", "weights"]),
  );
}

const CLUB_HEADINGS = ["Athlete", "Minutes", "Attempts a minute", "Attempts"];
/** Instead of minutes, for somebody who does not practise. */
const AWAY = "away";

interface Present {
  readonly athlete: string;
  /** Minutes of practice, away, or what is wrong where it is neither. */
  readonly minutes: number | typeof AWAY | BadCell;
}

/**
 * What everybody practises in the minutes there are: a row an athlete, what to do first at the left.
 * @customfunction CLUBPLAN
 * @requiresParameterAddresses
 * @param dates The log's dates, one column.
 * @param athletes The athletes, one column with as many rows; initials are enough.
 * @param tricks The tricks, one column with as many rows.
 * @param marks The marks, one or more columns with as many rows: runs such as ccdcc, single marks, or tallies such as 8/10.
 * @param minutes The minutes that each row took, one column with as many rows; empty where nobody noted it. The rows that have them tell the pace.
 * @param practiceMinutes The minutes of the coming practice, for tricks, 0 to 1440.
 * @param [practising] Who practises: athletes, one column; or two columns, the second with that athlete's own minutes, or away; what is neither is told in that athlete's row. Everybody in the log, A to Z, when left out.
 * @param [standard] The catch rate asked for, a share from 0 to 1; 0.8 when left out.
 * @param [setSize] Attempts in a set, a whole number from 1 to 1000; 10 when left out.
 * @param [stages] The stages, one column with as many rows; Body only, Toss only and Wall count for the pace alone.
 * @param [routine] The routine's tricks, one column; or two columns, athlete and trick, where each has their own. Any other trick counts a quarter. All alike when left out.
 * @param [key] The club's own marks as caught/dropped or caught/dropped/bailed, such as "x/o".
 * @param invocation Told by the host: where the ranges stand.
 * @returns A heading row and a row for each athlete: Athlete, Minutes, Attempts a minute (the athlete's own over the rows with minutes; 1 until there are any), Attempts (whole), then the tricks in the order in which to do them, each with its attempts, such as "Leap: 20". Below them a row "Not counted" for each row that cannot be read, and for each of minutes that cannot, the first 20.
 * @throws #VALUE! for ranges of different length, or a key, standard, set size, name or number of practiceMinutes that cannot be read; #N/A when nothing is logged yet.
 * @example =TWIRL.CLUBPLAN({46300;46300},{"A.R.";"M.K."},{"Leap";"Flat"},{"ccdcccdccd";"cccccccccc"},{10;5},30) shows 30 attempts at the leap for A.R., 60 attempts for M.K.
 * @source As PRACTICEPLAN, for each athlete with the recent rate of READINESSCARD in three sets. A quarter, and 1 attempt a minute: common practice, no source.
 */
export function clubplan(
  dates: any[][],
  athletes: any[][],
  tricks: any[][],
  marks: any[][],
  minutes: any[][],
  practiceMinutes: any,
  practising: any[][],
  standard: any,
  setSize: any,
  stages: any[][],
  routine: any[][],
  key: any,
  invocation: CustomFunctions.Invocation,
): any[][] {
  const places = placesOf(invocation, [
    ...["dates", "athletes", "tricks", "marks", "minutes", "practiceMinutes", "practising", "standard", "setSize"],
    ...["stages", "routine", "key"],
  ]);
  return respond((): Cells => {
    const given = read({ practiceMinutes, standard, setSize, key });
    const who = isLeftOut(practising) ? undefined : readPractising(practising, given.practiceMinutes);
    const log = new ClubLog();
    const wrongMinutes: string[][] = [];
    const took = new AlignedColumns({
      dates: { kind: "date", raw: dates },
      minutes: { kind: "number", raw: minutes },
    }).rows("minutes");
    const reading = readLog({ dates, athletes, tricks, marks, stages }, given.key, {
      most: MOST_TOLD,
      recordOf: (day, athlete, trick, stage) => log.recordOf(day, athlete, trick, stage),
      rowRead: (_day, athlete, _trick, _stage, _noted, row) => {
        const spent = minutesIn(took[row]?.[0]);
        if (typeof spent === "number") log.spend(athlete, spent);
        else if (wrongMinutes.length < MOST_TOLD) {
          const place = places.cellOf("minutes", row + 1, 1) ?? `row ${row + 1}`;
          wrongMinutes.push([place, `minutes: found ${spent.found}. Accepted: ${spent.accepted}.`]);
        }
      },
    });
    const present = who?.filter((one): one is Practising => typeof one.minutes === "number");
    const isInRoutine = isLeftOut(routine) ? undefined : readRoutine(routine);
    const planned = answerFrom(reading, places, () =>
      log.rows(present, given.practiceMinutes, given.standard, given.setSize, isInRoutine),
    );
    const rows = inOrderOf(who, planned.map(clubCells));
    const columns = Math.max(CLUB_HEADINGS.length + 1, ...rows.map(({ length }) => length));
    const headings = Array.from({ length: columns - CLUB_HEADINGS.length }, (_, index) =>
      index === 0 ? "First" : "Then",
    );
    return [
      [...CLUB_HEADINGS, ...headings],
      ...rows.map((row) => [...row, ...blanks(columns - row.length)]),
      ...footRows(reading, places, columns),
      ...wrongMinutes.map(([place = "", words = ""]) => [NOT_COUNTED, place, ...blanks(columns - 3), words]),
    ];
  }, places);
}

/** With a row for each who is away, and for each whose minutes cannot be read, where they stand. */
function inOrderOf(
  who: readonly Present[] | undefined,
  planned: readonly (string | number)[][],
): (string | number)[][] {
  const rows = [...planned];
  if (!who) return rows;
  return who.map(({ athlete, minutes }) => {
    if (typeof minutes === "number") return rows.shift() ?? [];
    if (minutes === AWAY) return [athlete, AWAY, "", ""];
    return [athlete, "", "", "", `Minutes: found ${minutes.found}. Accepted: ${minutes.accepted}.`];
  });
}

function clubCells({ athlete, minutes, pace, attempts, planned }: ClubPlanRow): (string | number)[] {
  const own = [athlete, minutes, pace, attempts];
  if (planned === undefined) return [...own, "Nothing logged yet: a first set of each trick"];
  if (planned.length === 0) return [...own, "Less than a set"];
  return [...own, ...planned.map((one) => `${one.trick}: ${grouped(one.attempts)}`)];
}

/** A cell of the log's minutes: 0 for a row without, and what is wrong where it is no number of minutes. */
function minutesIn(raw: unknown): number | BadCell {
  if (typeof raw === "number" && raw >= 0 && raw <= DAY_MINUTES) return raw;
  const cell = logCell(raw);
  if (cell instanceof BadCell) return cell;
  if (isEmptyCell(cell)) return 0;
  if (typeof cell === "number" && cell >= 0 && cell <= DAY_MINUTES) return cell;
  return new BadCell(quote(cell), `minutes from 0 to ${grouped(DAY_MINUTES)}`);
}

/** @throws Problem for a name or minutes that cannot be read */
function readPractising(raw: unknown, usual: number): Present[] {
  const rows = rowsOf(raw);
  return rows.flatMap((cells, row): readonly Present[] => {
    if (isEmptyCell(plainCell(cells[0], "practising", row + 1, 1))) return [];
    const athlete = readName(rows, row, "practising").trim();
    const own = plainCell(cells[1], "practising", row + 1, 2);
    if (isEmptyCell(own)) return [{ athlete, minutes: usual }];
    if (typeof own === "string" && comparable(own) === AWAY) return [{ athlete, minutes: AWAY }];
    if (typeof own === "number" && own >= 0 && own <= DAY_MINUTES) return [{ athlete, minutes: own }];
    return [{ athlete, minutes: new BadCell(quote(own), `minutes from 0 to ${grouped(DAY_MINUTES)}, or ${AWAY}`) }];
  });
}

function readRoutine(raw: unknown): (athlete: string, trick: string) => boolean {
  const lines = rowsOf(raw).map((cells, row) =>
    cells.slice(0, 2).flatMap((one, column) => {
      const cell = plainCell(one, "routine", row + 1, column + 1);
      return isEmptyCell(cell) ? [] : [comparable(String(cell))];
    }),
  );
  const own = new Set(lines.flatMap(([first, second]) => (first !== undefined && second !== undefined ? [pairKey(first, second)] : []))); // prettier-ignore
  const everybodys = new Set(lines.flatMap((line) => (line.length === 1 && line[0] !== undefined ? [line[0]] : [])));
  return (athlete, trick) =>
    everybodys.has(comparable(trick)) || own.has(pairKey(comparable(athlete), comparable(trick)));
}

/** A line break is in no name that a cell shows. */
function pairKey(athlete: string, trick: string): string {
  return `${athlete}\n${trick}`;
}

/**
 * The week's practice against the weeks before, with prompts and never a risk score.
 * @customfunction TRAININGLOAD
 * @requiresParameterAddresses
 * @param dates The practice days, one column of dates; a day may come several times.
 * @param minutes The minutes practised, one column with as many rows, 0 to 1440 each.
 * @param age The athlete's age in years, 1 to 120.
 * @param [asOf] The last day of the week that is looked at; the latest date when left out.
 * @param invocation Told by the host: where the ranges stand.
 * @returns Five rows of label and value: Hours in 7 days, Rest days in 7, Mean of the 4 weeks before (hours a week; empty while the log does not reach back so far), Change (a share of that mean), Prompt.
 * @throws #VALUE! for a date or number that cannot be read, a row filled in part only, or ranges of different length, with the row; #N/A when nothing is logged yet.
 * @example =TWIRL.TRAININGLOAD(Practice_2027[Date],Practice_2027[Minutes],13) shows the week's hours
 * @source Weekly hours no more than the age and two rest days: National Athletic Trainers' Association, position statement of 2019. A jump above the weeks before as a question to ask: common practice, no source.
 */
export function trainingload(
  dates: any[][],
  minutes: any[][],
  age: any,
  asOf: any,
  invocation: CustomFunctions.Invocation,
): any[][] {
  return respond(
    (): Cells => {
      const given = read({ age, asOf });
      const columns = new AlignedColumns({
        dates: { kind: "date", raw: dates },
        minutes: { kind: "number", raw: minutes },
      });
      const byDay = new Map<number, number>();
      for (let row = 0; row < columns.length; row++) {
        if (!columns.isFilled(row)) continue;
        const date = readDate(columns.rows("dates"), row, "dates");
        const spent = readCell("minutes", columns.rows("minutes")[row]?.[0], row, 0);
        byDay.set(date, (byDay.get(date) ?? 0) + spent);
      }
      if (byDay.size === 0) throw new Missing("No practice is logged yet");
      let latest = 0;
      for (const date of byDay.keys()) latest = Math.max(latest, date);
      const load = trainingLoad(byDay, Number.isFinite(given.asOf) ? given.asOf : latest);
      return [
        ["Hours in 7 days", load.hours],
        ["Rest days in 7", load.restDays],
        ["Mean of the 4 weeks before", load.usualHours ?? ""],
        ["Change", load.change ?? ""],
        ["Prompt", loadPrompt(load, given.age)],
      ];
    },
    placesOf(invocation, ["dates", "minutes"]),
  );
}
