/**
 * Since when has a trick been caught at another rate, and is it more than a bad day? One change at an unknown practice
 * day against none at all, with exact posterior probabilities (Smith 1975, A Bayesian approach to inference about a
 * change-point in a sequence of random variables, Biometrika 62:407–416, binomial case, Jeffreys' prior for each rate).
 */
import type { DayTally } from "./day-tallies";
import { Missing, Problem } from "./problem";
import { logGamma } from "./tails";

/** What one look at some days finds. */
interface ChangeLook {
  /** Probability that the rate changed within these days, 0 to 1. */
  readonly chance: number;
  /** For each day the probability that the new rate starts on it, given a change; 0 for the first day. */
  readonly starts: Float64Array;
  /** Place of the likeliest start among these days, from 0; the earliest of equally likely ones. */
  readonly likeliest: number;
}

export interface ChangeDay {
  readonly change: "none seen" | "slid" | "risen";
  /** Probability of a change in the look that is told: the last that saw one, or the first where none did. */
  readonly chance: number;
  /** How many practice days there are. */
  readonly days: number;
  /** All attempts. */
  readonly caught: number;
  readonly attempts: number;
  /** Undefined where no change is seen. */
  readonly told: ToldChange | undefined;
}

interface ToldChange {
  /** The likeliest first day of the new rate, a whole sheet serial. */
  readonly since: number;
  /** The 5 % and the 95 % point of that day, given a change. */
  readonly earliest: number;
  readonly latest: number;
  /** The stretch before it: from the change before, or from the first day. */
  readonly before: Stretch;
  /** From that day on. */
  readonly after: Stretch;
}

interface Stretch {
  readonly caught: number;
  readonly attempts: number;
  /** Share caught, 0 to 1. */
  readonly rate: number;
}

/** Before the data a change is as likely as none. */
const CHANGE_BEFORE = 0.5;
/** From here on a change is told. */
const SEEN_CHANCE = 0.9;
const EARLIEST_POINT = 0.05;
const LATEST_POINT = 0.95;
const FEWEST_DAYS = 3;
/** 55 years of practice every day. The looks go over all days again and again, so a column of nonsense must not hang. */
const MOST_DAYS = 20_000;
/** Chances that differ by less than this are equal: their last digits come from rounding. */
const ROUNDING = 1e-9;

/**
 * The day since when the rate is another one. Once a change is seen the days from its likeliest start on are looked at
 * again in the same way, until none is seen, so that what is told is the latest change.
 *
 * @param days in order of time, one entry a day, attempts at least 1
 * @throws Missing with fewer than 3 practice days, Problem with more than 20,000
 */
export function changeDay(days: readonly DayTally[]): ChangeDay {
  if (days.length < FEWEST_DAYS) {
    throw new Missing("Fewer than 3 practice days: a change can be told from the third on");
  }
  if (days.length > MOST_DAYS) {
    throw new Problem({ argument: "dates", found: "more than 20,000 practice days", accepted: "one trick's own days" });
  }
  const sums = new RunningSums(days);
  const all = sums.stretch(0, days.length);
  const record = { days: days.length, caught: all.caught, attempts: all.attempts };
  let told: ToldChange | undefined;
  let start = 0;
  let look = lookAt(sums, start, days.length);
  let { chance } = look;
  while (look.chance >= SEEN_CHANCE) {
    const since = start + look.likeliest;
    const dayAt = (place: number): number => (days[start + place] as DayTally).date;
    told = {
      since: dayAt(look.likeliest),
      earliest: dayAt(pointOf(look.starts, EARLIEST_POINT)),
      latest: dayAt(pointOf(look.starts, LATEST_POINT)),
      before: sums.stretch(start, since),
      after: sums.stretch(since, days.length),
    };
    chance = look.chance;
    start = since;
    look = lookAt(sums, start, days.length);
  }
  if (!told) return { change: "none seen", chance, ...record, told };
  return { change: told.after.rate < told.before.rate ? "slid" : "risen", chance, ...record, told };
}

/**
 * One look: the posterior over no change and a change at each day from the second on. A stretch of days with K caught of
 * N weighs B(K + ½, N − K + ½) / B(½, ½); a change at a day weighs the product of the two stretches that it parts.
 *
 * @param days in order of time, at least 1
 */
export function lookForChange(days: readonly DayTally[]): ChangeLook {
  return lookAt(new RunningSums(days), 0, days.length);
}

function lookAt(sums: RunningSums, from: number, to: number): ChangeLook {
  const starts = new Float64Array(to - from);
  if (to - from < 2) return { chance: 0, starts, likeliest: 0 };
  const whole = sums.logWeight(from, to);
  let largest = -Infinity;
  for (let day = from + 1; day < to; day++) {
    const weight = sums.logWeight(from, day) + sums.logWeight(day, to) - whole;
    starts[day - from] = weight;
    if (weight > largest) largest = weight;
  }
  // Taken relative to the likeliest start, so that nothing overflows however clear the change is.
  let total = 0;
  let likeliest = 0;
  for (let place = 1; place < starts.length; place++) {
    const weight = starts[place] as number;
    if (likeliest === 0 && weight >= largest - ROUNDING) likeliest = place;
    total += starts[place] = Math.exp(weight - largest);
  }
  for (let place = 1; place < starts.length; place++) starts[place] = (starts[place] as number) / total;
  const logOdds =
    Math.log(CHANGE_BEFORE / (1 - CHANGE_BEFORE)) + largest + Math.log(total) - Math.log(starts.length - 1);
  return { chance: 1 / (1 + Math.exp(-logOdds)), starts, likeliest };
}

/** The first place at which the probabilities add up to the share. */
function pointOf(starts: Float64Array, share: number): number {
  let sum = 0;
  for (let place = 0; place < starts.length; place++) {
    sum += starts[place] as number;
    if (sum >= share - ROUNDING) return place;
  }
  return starts.length - 1;
}

const LOG_PI = Math.log(Math.PI);

/** Sums up to each day: any stretch is a difference of two of them. */
class RunningSums {
  private readonly caught: Float64Array;
  private readonly attempts: Float64Array;

  constructor(days: readonly DayTally[]) {
    this.caught = new Float64Array(days.length + 1);
    this.attempts = new Float64Array(days.length + 1);
    days.forEach((day, index) => {
      this.caught[index + 1] = (this.caught[index] as number) + day.caught;
      this.attempts[index + 1] = (this.attempts[index] as number) + day.attempts;
    });
  }

  /** From a day, counted from 0, up to but without another. */
  stretch(from: number, to: number): Stretch {
    const caught = (this.caught[to] as number) - (this.caught[from] as number);
    const attempts = (this.attempts[to] as number) - (this.attempts[from] as number);
    return { caught, attempts, rate: caught / attempts };
  }

  /** ln B(K + ½, N − K + ½) − ln B(½, ½), and B(½, ½) is π. */
  logWeight(from: number, to: number): number {
    const caught = (this.caught[to] as number) - (this.caught[from] as number);
    const attempts = (this.attempts[to] as number) - (this.attempts[from] as number);
    return logGamma(caught + 0.5) + logGamma(attempts - caught + 0.5) - logGamma(attempts + 1) - LOG_PI;
  }
}
