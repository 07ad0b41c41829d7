/**
 * The routine: a toss after a toss, each with its catch rate. They are taken as independent, which the help says; nerves
 * and a drop that unsettles the next toss are not in these numbers.
 */

/** Probability of no drop. */
export function cleanChance(rates: readonly number[]): number {
  return rates.reduce((chance, rate) => chance * rate, 1);
}

export function expectedDrops(rates: readonly number[]): number {
  return rates.reduce((sum, rate) => sum + (1 - rate), 0);
}

/**
 * Chances of 0, 1, 2, … drops, as many as asked for: the Poisson binomial distribution, toss by toss (every term is a
 * sum of positive ones, so no digits are lost; Hong 2013, Computational Statistics and Data Analysis 59:41–51).
 */
export function dropChances(rates: readonly number[], most: number): Float64Array {
  const chances = new Float64Array(Math.min(most, rates.length) + 1);
  chances[0] = 1;
  rates.forEach((rate, toss) => {
    for (let drops = Math.min(toss + 1, chances.length - 1); drops > 0; drops--) {
      chances[drops] = (chances[drops] as number) * rate + (chances[drops - 1] as number) * (1 - rate);
    }
    chances[0] = (chances[0] as number) * rate;
  });
  return chances;
}

/** Probability of at most that many drops. */
export function dropChance(rates: readonly number[], drops: number): number {
  if (drops >= rates.length) return 1;
  return Math.min(
    1,
    dropChances(rates, drops).reduce((sum, chance) => sum + chance, 0),
  );
}

/** What is left beyond the last number of drops that is shown. */
const REST = 1e-6;

/** Chances of 0, 1, 2, … drops up to where the rest is below 0.000001. */
export function dropSpread(rates: readonly number[]): number[] {
  const chances = [...dropChances(rates, rates.length)];
  let rest = 0;
  let last = chances.length - 1;
  while (last > 0 && rest + (chances[last] as number) < REST) rest += chances[last--] as number;
  return chances.slice(0, last + 1);
}

export interface Toss {
  readonly rate: number;
  /** Points when caught. */
  readonly value: number;
}

interface RoutineScore {
  readonly expected: number;
  readonly standardDeviation: number;
  /** The total that nine in ten runs reach or pass, and the one that one in ten does. */
  readonly worstInTen: number;
  readonly bestInTen: number;
  readonly exact: boolean;
}

const MOST_TOTALS = 100_000;
/** Totals nearer than this are one: points have at most a few decimals. */
const SAME_TOTAL = 1e-9;
const NORMAL_90 = 1.2815515655446004;

/**
 * Points of the routine: a caught toss brings its value, a dropped one costs `dropCost`. The 10 % and 90 % points come
 * from the whole distribution while it has at most 100,000 totals, else from the normal distribution.
 */
export function routineScore(tosses: readonly Toss[], dropCost: number): RoutineScore {
  const expected = tosses.reduce((sum, toss) => sum + expectedPoints(toss, dropCost), 0);
  const variance = tosses.reduce(
    (sum, { rate, value }) => sum + rate * (1 - rate) * (value + dropCost) * (value + dropCost),
    0,
  );
  const standardDeviation = Math.sqrt(variance);
  const totals = totalsOf(tosses, dropCost);
  return {
    expected,
    standardDeviation,
    worstInTen: totals ? pointBelow(totals, 0.1) : expected - NORMAL_90 * standardDeviation,
    bestInTen: totals ? pointBelow(totals, 0.9) : expected + NORMAL_90 * standardDeviation,
    exact: totals !== undefined,
  };
}

function expectedPoints({ rate, value }: Toss, dropCost: number): number {
  return rate * value - (1 - rate) * dropCost;
}

interface Totals {
  readonly points: number[];
  readonly chances: number[];
}

/** All totals in order with their chances, toss by toss; undefined beyond 100,000 of them. */
function totalsOf(tosses: readonly Toss[], dropCost: number): Totals | undefined {
  let totals: Totals = { points: [0], chances: [1] };
  for (const toss of tosses) {
    totals = withToss(totals, toss, dropCost);
    if (totals.points.length > MOST_TOTALS) return undefined;
  }
  return totals;
}

/** Both outcomes keep the order of the totals, so the two lists are merged in one pass. */
function withToss({ points, chances }: Totals, { rate, value }: Toss, dropCost: number): Totals {
  const next: Totals = { points: [], chances: [] };
  const add = (point: number, chance: number): void => {
    if (chance === 0) return;
    const last = next.points.length - 1;
    if (last >= 0 && point - (next.points[last] as number) < SAME_TOTAL) {
      next.chances[last] = (next.chances[last] as number) + chance;
    } else {
      next.points.push(point);
      next.chances.push(chance);
    }
  };
  let [caught, dropped] = [0, 0];
  while (caught < points.length || dropped < points.length) {
    const whenCaught = caught < points.length ? (points[caught] as number) + value : Infinity;
    const whenDropped = dropped < points.length ? (points[dropped] as number) - dropCost : Infinity;
    if (whenCaught <= whenDropped) add(whenCaught, (chances[caught++] as number) * rate);
    else add(whenDropped, (chances[dropped++] as number) * (1 - rate));
  }
  return next;
}

/** The smallest total that at least that share of runs does not pass. */
function pointBelow({ points, chances }: Totals, share: number): number {
  let sum = 0;
  for (const [index, chance] of chances.entries()) {
    sum += chance;
    if (sum >= share - 1e-12) return points[index] as number;
  }
  return points[points.length - 1] as number;
}

export interface Link {
  readonly rate: number;
  readonly expectedDrops: number;
  /** The clean chance with this toss caught for certain. */
  readonly cleanIfSure: number;
  /** What that gains: in clean chance, or in expected points. */
  readonly gain: number;
}

/**
 * What each toss would gain if it were caught for certain, in the routine's order.
 *
 * @param points the tosses' values and the cost of a drop; without them the gain is in clean chance
 */
export function links(
  rates: readonly number[],
  points?: { readonly values: readonly number[]; readonly dropCost: number },
): Link[] {
  // Products of the rates before and after each toss: no division, so a rate of 0 does no harm.
  const after = new Array<number>(rates.length + 1).fill(1);
  for (let toss = rates.length - 1; toss >= 0; toss--)
    after[toss] = (after[toss + 1] as number) * (rates[toss] as number);
  let before = 1;
  return rates.map((rate, toss) => {
    const cleanIfSure = before * (after[toss + 1] as number);
    before *= rate;
    const gain = points ? (1 - rate) * ((points.values[toss] as number) + points.dropCost) : cleanIfSure * (1 - rate);
    return { rate, expectedDrops: 1 - rate, cleanIfSure, gain };
  });
}

export interface Swap {
  readonly pointsNow: number;
  readonly pointsOther: number;
  readonly difference: number;
  /** The present trick's rate at which both bring the same; undefined where no rate does. */
  readonly breakEvenRate: number | undefined;
}

/** The present trick against another one, in expected points. */
export function compareTricks(now: Toss, other: Toss, dropCost: number): Swap {
  const pointsNow = expectedPoints(now, dropCost);
  const pointsOther = expectedPoints(other, dropCost);
  const breakEven = (pointsOther + dropCost) / (now.value + dropCost);
  return {
    pointsNow,
    pointsOther,
    difference: pointsOther - pointsNow,
    breakEvenRate: breakEven >= 0 && breakEven <= 1 ? breakEven : undefined,
  };
}
