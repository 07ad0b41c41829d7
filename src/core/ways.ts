/** One trick done in several ways (entrances, exits, hands, halls): which is best, and is that clear yet? */
import { catchInterval, type Interval } from "./catch-rate";
import { chancesToBeBest } from "./chance-best";
import { compareRates, type Tally } from "./compare";
import { DayRows } from "./day-rows";
import { StratifiedComparison, type RateDifference } from "./mantel-haenszel";
import { Missing, Problem } from "./problem";
import { comparable, compareNames } from "./text";

type WayVerdict = "usual" | "better" | "worse" | "not clear yet" | "never on the same day";

export interface WayRow extends Tally {
  /** As it was spelled first; `(not noted)` for the rows without one. */
  readonly way: string;
  /** Wilson's 95 % interval. */
  readonly interval: Interval;
  /** Probability that its rate is the highest of all ways; undefined for what was not noted. */
  readonly chanceBest: number | undefined;
  /** From the way tried most, with its 95 % interval; undefined for that way itself and for what was not noted. */
  readonly difference: RateDifference | undefined;
  /** Undefined for what was not noted. */
  readonly verdict: WayVerdict | undefined;
}

export const NOT_NOTED = "(not noted)";
const CONFIDENCE = 0.95;
/** More different ones are remarks or names, and nobody could compare them. */
export const MOST_DIFFERENT = 200;

/** All attempts of a way. */
interface Way {
  readonly way: string;
  /** In the order in which they were met, from 0. */
  readonly place: number;
  caught: number;
  attempts: number;
}

export class WayLog {
  private readonly ways = new Map<string, Way>();
  /** Spelling as typed to the way: a text recurs in thousands of rows. */
  private readonly spellings = new Map<string, Way>();
  private readonly notNoted: Way = { way: NOT_NOTED, place: -1, caught: 0, attempts: 0 };
  /** Of each row its way's place, and its caught and attempts. */
  private readonly byDay = new DayRows();

  /** @param argument whose cells the ways are, for the message about too many */
  constructor(private readonly argument = "ways") {}

  /**
   * Adds a row's attempts. A row without attempts is skipped.
   *
   * @param text the way; undefined or blank where it was not noted
   * @param date whole sheet serial; undefined in all rows where the question is asked without days
   * @throws Problem at the 201st different way
   */
  add(text: string | undefined, { caught, attempts }: Tally, date?: number): void {
    if (attempts === 0) return;
    const way = text === undefined ? this.notNoted : (this.spellings.get(text) ?? this.wayOf(text));
    way.caught += caught;
    way.attempts += attempts;
    if (date !== undefined && way !== this.notNoted) this.byDay.add(date, way.place, caught, attempts);
  }

  /**
   * Most tried first, equally tried ones A to Z; what was not noted comes last.
   *
   * @param dated whether the rows were added with their days
   * @throws Missing where no way is noted
   */
  rows(dated: boolean): WayRow[] {
    const ways = [...this.ways.values()].sort(
      (one, other) => other.attempts - one.attempts || compareNames(one.way, other.way),
    );
    const [usual] = ways;
    if (!usual) throw new Missing("No way is noted yet: note beside the marks how the trick was done");
    const chances = chancesToBeBest(ways);
    const sameDays = dated ? this.onSameDays(usual) : [];
    const rows = ways.map((way, index): WayRow => {
      const chanceBest = chances[index];
      if (way === usual) return { ...shown(way), chanceBest, difference: undefined, verdict: "usual" };
      const comparison = sameDays[way.place];
      const onSameDays = comparison?.difference(CONFIDENCE);
      const difference = onSameDays ?? newcombe(way, usual);
      const fewest = onSameDays && comparison ? comparison.fewest : Math.min(way.attempts, usual.attempts);
      const verdict = dated && !onSameDays ? "never on the same day" : verdictOf(difference, fewest);
      return { ...shown(way), chanceBest, difference, verdict };
    });
    if (this.notNoted.attempts > 0) {
      rows.push({ ...shown(this.notNoted), chanceBest: undefined, difference: undefined, verdict: undefined });
    }
    return rows;
  }

  /**
   * Each way against the usual one over the days on which both were tried, so that a good day is not taken for a good way.
   *
   * @returns by the ways' places
   */
  private onSameDays(usual: Way): StratifiedComparison[] {
    const comparisons = Array.from(this.ways, () => new StratifiedComparison());
    const caughtToday = new Float64Array(this.ways.size);
    const attemptsToday = new Float64Array(this.ways.size);
    let today: number | undefined;
    const places: number[] = [];
    const endDay = (): void => {
      const usually = { caught: caughtToday[usual.place] as number, attempts: attemptsToday[usual.place] as number };
      for (const place of places) {
        const way = { caught: caughtToday[place] as number, attempts: attemptsToday[place] as number };
        (comparisons[place] as StratifiedComparison).add(way, usually);
        caughtToday[place] = attemptsToday[place] = 0;
      }
      places.length = 0;
    };
    this.byDay.forEach((date, place, caught, attempts) => {
      if (date !== today) endDay();
      today = date;
      if (attemptsToday[place] === 0) places.push(place);
      caughtToday[place] = (caughtToday[place] as number) + caught;
      attemptsToday[place] = (attemptsToday[place] as number) + attempts;
    });
    endDay();
    return comparisons;
  }

  private wayOf(text: string): Way {
    const key = comparable(text);
    let way = key === "" || key === NOT_NOTED ? this.notNoted : this.ways.get(key);
    if (!way) {
      if (this.ways.size === MOST_DIFFERENT) throw tooManyDifferent(this.argument, "ways");
      this.ways.set(key, (way = { way: text.trim(), place: this.ways.size, caught: 0, attempts: 0 }));
    }
    this.spellings.set(text, way);
    return way;
  }
}

/** @param what in the plural: `ways` */
export function tooManyDifferent(argument: string, what: string): Problem {
  return new Problem({
    argument,
    found: `more than ${MOST_DIFFERENT} different ${what}`,
    accepted: `a few ${what} that come again, at most ${MOST_DIFFERENT} different ones: remarks belong in a column of their own`,
  });
}

function shown({ way, caught, attempts }: Way): Pick<WayRow, "way" | "caught" | "attempts" | "interval"> {
  return { way, caught, attempts, interval: catchInterval(caught, attempts, CONFIDENCE, "wilson") };
}

function newcombe(way: Way, usual: Way): RateDifference {
  const { difference, low, high } = compareRates(usual, way, CONFIDENCE);
  return { difference, low, high };
}

/**
 * Attempts that either side must have before a verdict is told: the interval of 2 of 2 against 0 of 2 leaves out 0, and
 * no coach would change a routine for it. Common practice, no source.
 */
const FEWEST_ATTEMPTS = 5;

/**
 * Better or worse where the interval leaves out 0 and neither side has too few attempts.
 *
 * @param fewest attempts of the side that has fewer of them
 */
export function verdictOf({ low, high }: Interval, fewest: number): "better" | "worse" | "not clear yet" {
  if (fewest < FEWEST_ATTEMPTS) return "not clear yet";
  return low > 0 ? "better" : high < 0 ? "worse" : "not clear yet";
}
