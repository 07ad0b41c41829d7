/** Cell functions: the week. Each is only its face in the sheet; the work is done in `src/core`. */
import { loadPrompt, planReason } from "../core/advice";
import { Missing, Problem } from "../core/problem";
import { practicePlan, trainingLoad, type TrickRecord } from "../core/week";
import { read, readCell, requireTally } from "./arguments";
import { AlignedColumns, isLeftOut, readDate, readName } from "./cells";
import { respond, type Cells } from "./errors";
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
