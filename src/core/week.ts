/** The week: what to practise in the attempts there are, and how much practice there was. */

export interface TrickRecord {
  readonly trick: string;
  readonly caught: number;
  readonly attempts: number;
  /** How much the trick matters, at least 0. */
  readonly weight: number;
}

type PlanReason = "keeps warm" | "short of the standard" | "no set left" | "not asked for";

export interface PlannedTrick {
  readonly trick: string;
  readonly attempts: number;
  readonly reason: PlanReason;
  /** The mean of the rate under Jeffreys' prior, (caught + ½)/(attempts + 1). */
  readonly mean: number;
}

/**
 * More sets of one trick in one practice teach less than the same sets on another day: distribution of practice, Lee and
 * Genovese 1988, Research Quarterly for Exercise and Sport 59:277-287 (a review; cited from memory). Three is common
 * practice, no source.
 */
const MOST_SETS_OF_ONE = 3;
/** The plan asks for counts: so many sets at the board's recent rate. */
export const PLANNED_SETS = 3;
/** A trick that the routine does not hold gets a set for every four of one that it holds, at the same need. */
export const WEIGHT_OUTSIDE = 0.25;
/** Practised to a little above the standard, so that it holds on a poor day: common practice, no source. */
const ABOVE_STANDARD = 0.1;
/** What a trick that needs nothing still asks for, so that it is kept warm when there is time. */
const LEAST_NEED = 0.02;

/**
 * Shares a budget of attempts out in whole sets, one by one: each to the trick with the largest need for the sets it has
 * so far, need ÷ (sets + 1), where need = weight × what the mean is short of a little above the standard. That is the
 * method of the greatest divisors (d'Hondt's; Balinski and Young, Fair Representation, 1982) with a limit for each trick.
 *
 * @returns ordered by what to do first: the largest need first
 */
export function practicePlan(
  records: readonly TrickRecord[],
  budget: number,
  standard: number,
  setSize: number,
): PlannedTrick[] {
  const planned = records.map(({ trick, caught, attempts, weight }) => {
    const mean = (caught + 0.5) / (attempts + 1);
    return { trick, weight, mean, need: weight * Math.max(standard + ABOVE_STANDARD - mean, LEAST_NEED), sets: 0 };
  });
  planned.sort((one, other) => other.need - one.need);
  const most = planned.filter(({ need }) => need > 0).length * MOST_SETS_OF_ONE;
  for (let left = Math.min(Math.floor(budget / setSize), most); left > 0; left--) {
    let next: (typeof planned)[number] | undefined;
    for (const one of planned) {
      if (one.need === 0 || one.sets === MOST_SETS_OF_ONE) continue;
      if (!next || one.need / (one.sets + 1) > next.need / (next.sets + 1)) next = one;
    }
    if (next) next.sets += 1;
  }
  return planned.map(({ trick, weight, mean, sets }) => ({
    trick,
    attempts: sets * setSize,
    reason: reasonFor(sets, mean >= standard, weight),
    mean,
  }));
}

function reasonFor(sets: number, meets: boolean, weight: number): PlanReason {
  if (sets > 0) return meets ? "keeps warm" : "short of the standard";
  return weight === 0 ? "not asked for" : "no set left";
}

export interface TrainingLoad {
  readonly hours: number;
  readonly restDays: number;
  /** Hours a week over the four weeks before; undefined where the log does not reach back that far. */
  readonly usualHours: number | undefined;
  /** Hours above that mean as a share of it; undefined without one. */
  readonly change: number | undefined;
}

const WEEK = 7;
const WEEKS_BEFORE = 4;

/**
 * The seven days up to and with `asOf`, against the four weeks before them.
 *
 * @param minutes by whole sheet serial; days later than `asOf` are left out
 */
export function trainingLoad(minutes: ReadonlyMap<number, number>, asOf: number): TrainingLoad {
  const weekStart = asOf - WEEK + 1;
  const usualStart = weekStart - WEEKS_BEFORE * WEEK;
  let [inWeek, before, first] = [0, 0, Infinity];
  for (const [date, spent] of minutes) {
    if (date > asOf) continue;
    if (date >= weekStart) inWeek += spent;
    else if (date >= usualStart) before += spent;
    first = Math.min(first, date);
  }
  let restDays = 0;
  for (let date = weekStart; date <= asOf; date++) if (!((minutes.get(date) ?? 0) > 0)) restDays++;
  // A log that begins later than in the first of those weeks would make any week look like a jump.
  const usualHours = first < usualStart + WEEK ? before / 60 / WEEKS_BEFORE : undefined;
  const hours = inWeek / 60;
  return {
    hours,
    restDays,
    usualHours,
    change: usualHours === undefined || usualHours === 0 ? undefined : hours / usualHours - 1,
  };
}
