/** The week: what to practise in the attempts there are, and how much practice there was. */

export interface TrickRecord {
  readonly trick: string;
  readonly caught: number;
  readonly attempts: number;
  /** How much the trick matters, at least 0. */
  readonly weight: number;
}

export type PlanReason = "keeps warm" | "short of the standard" | "no set left" | "not asked for";

export interface PlannedTrick {
  readonly trick: string;
  readonly attempts: number;
  readonly reason: PlanReason;
  /** The mean of the rate under Jeffreys' prior, (caught + ½)/(attempts + 1). */
  readonly mean: number;
}

/**
 * Shares a budget of attempts out in whole sets: one set to each trick that meets the standard, if the budget allows
 * that; the rest in proportion to weight × shortfall, by largest remainders (Hamilton's method). Where the budget does
 * not reach a set for each trick that meets the standard, the tricks that fall short come first.
 */
export function practicePlan(
  records: readonly TrickRecord[],
  budget: number,
  standard: number,
  setSize: number,
): PlannedTrick[] {
  const means = records.map(({ caught, attempts }) => (caught + 0.5) / (attempts + 1));
  const needs = records.map(({ weight }, index) => weight * Math.max(0, standard - (means[index] as number)));
  const meeting = means.map((mean) => mean >= standard);
  const sets = Math.floor(budget / setSize);
  const warm = meeting.filter(Boolean).length;
  const shares = new Array<number>(records.length).fill(0);
  const anyNeed = needs.some((need) => need > 0);
  let left = sets;
  if (sets >= warm) {
    meeting.forEach((meets, index) => {
      if (meets) shares[index] = 1;
    });
    left -= warm;
  } else if (!anyNeed) {
    // All meet the standard and there is not a set for each: the weakest of them come first.
    const weakestFirst = means.map((_, index) => index).filter((index) => meeting[index]);
    weakestFirst.sort((one, other) => (means[one] as number) - (means[other] as number) || one - other);
    weakestFirst.slice(0, sets).forEach((index) => (shares[index] = 1));
  }
  if (anyNeed)
    largestRemainders(needs, left).forEach((share, index) => (shares[index] = (shares[index] as number) + share));
  return records.map(({ trick, weight }, index) => ({
    trick,
    attempts: (shares[index] as number) * setSize,
    reason: reasonFor(shares[index] as number, meeting[index] as boolean, weight),
    mean: means[index] as number,
  }));
}

function reasonFor(sets: number, meets: boolean, weight: number): PlanReason {
  if (sets > 0) return meets ? "keeps warm" : "short of the standard";
  return weight === 0 && !meets ? "not asked for" : "no set left";
}

/** Whole shares of `total` in proportion to the needs; equal remainders go to the earlier one. */
export function largestRemainders(needs: readonly number[], total: number): number[] {
  const sum = needs.reduce((all, need) => all + need, 0);
  const exact = needs.map((need) => (need / sum) * total);
  // A share that is whole but for its last digit must not lose one.
  const shares = exact.map((share) => Math.floor(share + 1e-9));
  const left = total - shares.reduce((all, share) => all + share, 0);
  const order = exact.map((share, index) => ({ index, remainder: share - (shares[index] as number) }));
  order.sort((one, other) => other.remainder - one.remainder || one.index - other.index);
  for (const { index } of order.slice(0, Math.max(0, left))) shares[index] = (shares[index] as number) + 1;
  return shares;
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
