/**
 * What is left up to the contest: for each athlete's each trick the practices and sets that fit at the pace of the latest
 * weeks, the chance on the day, and the last day on which another trick could still be brought in.
 */
import type { BoardRow } from "./board";
import { contestChance, type ContestForecast } from "./contest-chance";
import { type DaysOff, NO_DAYS_OFF } from "./days-off";
import { talliesByDay } from "./history";
import { Missing } from "./problem";
import type { Status } from "../trade/statuses";
import { FORECAST_CONFIDENCE, type PracticeDay } from "./ready-date";
import { comparable, compareNames } from "./text";

/** The pace is that of the latest four weeks, days off left out. */
const PACE_DAYS = 28;
const WEEK_DAYS = 7;
/** A trick that is caught nine times in ten needs up to five sets to be Ready (nine of ten such tricks; worked out). */
const SETS_TO_BRING_IN = 5;

export interface CountdownRow {
  readonly athlete: string;
  readonly trick: string;
  readonly status: Status;
  /** Practices and whole sets from the day of the count to the contest, at the pace of the latest four weeks. */
  readonly practicesLeft: number;
  readonly setsLeft: number;
  /** What the contest day looks like, or why that cannot be told. */
  readonly forecast: ContestForecast | string;
  /** Whole sheet serial; undefined where the trick was not practised in the latest four weeks. */
  readonly lastDayToSwap: number | undefined;
}

/**
 * @param asOf whole sheet serial of the day that is counted from; no row is later
 * @param contest whole sheet serial, not before `asOf`
 * @param daysOff without practice: neither the pace nor what is left counts them
 * @param practicesAWeek of each athlete from now on, more than 0, each with as many sets as lately; as often as lately
 * when undefined
 * @returns most pressing first
 */
export function countdown(
  rows: readonly BoardRow[],
  asOf: number,
  contest: number,
  standard: number,
  setSize: number,
  daysOff = NO_DAYS_OFF,
  practicesAWeek?: number,
): CountdownRow[] {
  const openLately = PACE_DAYS - daysOff.between(asOf - PACE_DAYS, asOf);
  const practised = practiceDaysLately(rows, asOf);
  return rows
    .map((row) => {
      const open = openDays(openLately, practised.get(comparable(row.athlete)) ?? 0, practicesAWeek);
      return countdownRow(row, asOf, contest, standard, setSize, daysOff, open);
    })
    .sort(
      (one, other) =>
        PRESSING.indexOf(one.status) - PRESSING.indexOf(other.status) ||
        chanceOf(one) - chanceOf(other) ||
        compareNames(one.athlete, other.athlete) ||
        compareNames(one.trick, other.trick),
    );
}

/** What cannot wait comes first. */
const PRESSING: readonly Status[] = ["At risk", "Building", "Too few", "No attempts", "Confirm", "Ready", "Solid"];

/** A chance that cannot be told is no comfort: it stands with the small ones. */
function chanceOf({ forecast }: CountdownRow): number {
  return typeof forecast === "string" ? 0 : forecast.chance;
}

function countdownRow(
  { athlete, trick, assessment, record }: BoardRow,
  asOf: number,
  contest: number,
  standard: number,
  setSize: number,
  daysOff: DaysOff,
  openLately: number,
): CountdownRow {
  const days = talliesByDay(record);
  const lately = days.filter(({ date }) => date > asOf - PACE_DAYS);
  const attempts = lately.reduce((sum, day) => sum + day.attempts, 0);
  const ahead = contest - asOf - daysOff.between(asOf, contest);
  // Rounded up from the last digit only: 28 days at 10 in 28 days are one set.
  const whole = (amount: number): number => Math.floor(amount + 1e-9);
  return {
    athlete,
    trick,
    status: assessment.status,
    practicesLeft: whole((lately.length * ahead) / openLately),
    setsLeft: whole((attempts * ahead) / openLately / setSize),
    forecast: forecastOf(days, contest, standard, setSize),
    lastDayToSwap:
      attempts === 0
        ? undefined
        : daysOff.dayBefore(contest, Math.ceil((SETS_TO_BRING_IN * setSize * openLately) / attempts - 1e-9)),
  };
}

/** On how many days of the latest weeks each athlete practised anything that counts. */
function practiceDaysLately(rows: readonly BoardRow[], asOf: number): ReadonlyMap<string, number> {
  const days = new Map<string, Set<number>>();
  for (const { athlete, record } of rows) {
    const key = comparable(athlete);
    let theirs = days.get(key);
    if (!theirs) days.set(key, (theirs = new Set()));
    for (const { day } of record.byDay()) if (day > asOf - PACE_DAYS) theirs.add(day);
  }
  return new Map([...days].map(([athlete, theirs]) => [athlete, theirs.size]));
}

/** Over how many days the latest weeks' practices would be spread from now on. */
function openDays(openLately: number, practised: number, practicesAWeek: number | undefined): number {
  // A day off on which there was practice after all is none.
  if (practicesAWeek === undefined || practised === 0) return Math.max(practised, openLately);
  return (practised * WEEK_DAYS) / practicesAWeek;
}

function forecastOf(
  days: readonly PracticeDay[],
  contest: number,
  standard: number,
  setSize: number,
): ContestForecast | string {
  try {
    return contestChance(days, contest, standard, setSize, FORECAST_CONFIDENCE);
  } catch (error) {
    if (error instanceof Missing) return error.message;
    throw error;
  }
}
