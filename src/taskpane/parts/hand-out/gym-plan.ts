/** What each athlete has before them in one practice: the week's plan for everybody, as the Week sheet shares it out for one. */
import { paceOf, plannedRecord } from "../../../core/club-plan";
import { assess } from "../../../core/readiness";
import { comparable } from "../../../core/text";
import { practicePlan, type TrickRecord } from "../../../core/week";
import type { GymAthlete } from "../../../workbook/season/gym-sheet";
import { eachRow } from "../../season/each-row";
import type { LogRow } from "../../season/practice-records";
import type { SeasonData } from "../../season/season-data";

/**
 * @param routine the tricks that it holds
 * @param minutes of practice for each athlete
 */
export function gymAthletes(season: SeasonData, routine: readonly string[], minutes: number): readonly GymAthlete[] {
  const danced = new Set(routine.map(comparable));
  return season.athletes.map((athlete) => {
    const records = recordsOf(season, athlete, danced);
    const budget = Math.floor(minutes * paceInLog(season.log, athlete));
    const planned = practicePlan(records, budget, season.standard, season.setSize);
    return {
      athlete,
      lines: planned
        .map(({ trick, attempts }) => ({ trick, sets: Math.round(attempts / season.setSize) }))
        .filter(({ sets }) => sets > 0),
    };
  });
}

function recordsOf(
  { records, standard, setSize }: SeasonData,
  athlete: string,
  danced: ReadonlySet<string>,
): TrickRecord[] {
  return records.practised
    .filter((one) => comparable(one.athlete) === comparable(athlete))
    .flatMap(({ trick }): TrickRecord[] => {
      const record = records.recordOf(athlete, trick)?.inOrder();
      const planned =
        record && plannedRecord(trick, assess(record, standard, setSize), setSize, danced.has(comparable(trick)));
      return planned ? [planned] : [];
    })
    .sort((one, other) => one.trick.localeCompare(other.trick, "en"));
}

/** Attempts a minute of one athlete. */
function paceInLog(log: readonly LogRow[], athlete: string): number {
  const timed = log.filter(
    (row) => comparable(row.athlete) === comparable(athlete) && typeof row.minutes === "number" && row.minutes > 0,
  );
  let [attempts, minutes] = [0, 0];
  eachRow(timed, (row, logged) => {
    attempts += row.attempts;
    minutes += Number(logged.minutes);
  });
  return paceOf(attempts, minutes);
}
