/**
 * What a condition (left hand, outdoors, tired, first set) does to the catches over the whole log. Each athlete's each
 * trick is compared with itself, with the condition and without it: else a hand that is only tried on easy tricks would
 * look good.
 */
import type { Tally } from "./compare";
import { StratifiedComparison, type RateDifference } from "./mantel-haenszel";
import { Missing } from "./problem";
import { comparable, compareNames } from "./text";
import { MOST_DIFFERENT, tooManyDifferent, verdictOf } from "./ways";

type ConditionVerdict = "better" | "worse" | "not clear yet" | "never without it";

export interface ConditionRow extends Tally {
  /** As it was spelled first. */
  readonly condition: string;
  /**
   * From the same athletes' same tricks without it: Mantel–Haenszel risk difference with its 95 % interval. Undefined
   * where no athlete has done a trick both with it and without.
   */
  readonly difference: RateDifference | undefined;
  /** Cochran–Mantel–Haenszel test, no continuity correction; undefined as the difference is. */
  readonly p: number | undefined;
  readonly verdict: ConditionVerdict;
}

const CONFIDENCE = 0.95;
const SEPARATOR = ";";

interface Sum {
  caught: number;
  attempts: number;
}

interface Condition {
  readonly condition: string;
  /** By the place of the athlete's trick among all. */
  readonly byTrick: Map<number, Sum>;
}

export class ConditionLog {
  private readonly conditions = new Map<string, Condition>();
  /** Cell as typed to its conditions: a text recurs in thousands of rows. */
  private readonly cells = new Map<string, readonly Condition[]>();
  /** All attempts of each athlete's each trick. */
  private readonly all: Sum[] = [];
  /** By athlete and trick as compared, and as typed: names recur in thousands of rows. */
  private readonly places = new Map<string, Map<string, number>>();
  private readonly typed = new Map<string, Map<string, number>>();

  /**
   * Adds a row's attempts. A row without attempts is skipped.
   *
   * @param cell the conditions, parted by `;`; undefined or blank where there was none
   * @throws Problem at the 201st different condition
   */
  add(cell: string | undefined, athlete: string, trick: string, { caught, attempts }: Tally): void {
    if (attempts === 0) return;
    const place = this.placeOf(athlete, trick);
    addTo(this.all[place] as Sum, caught, attempts);
    if (cell === undefined) return;
    for (const { byTrick } of this.cells.get(cell) ?? this.read(cell)) {
      const sum = byTrick.get(place);
      if (sum) addTo(sum, caught, attempts);
      else byTrick.set(place, { caught, attempts });
    }
  }

  /**
   * Most tried first, equally tried ones A to Z.
   *
   * @throws Missing where no condition is noted
   */
  rows(): ConditionRow[] {
    if (this.conditions.size === 0) {
      throw new Missing("No condition is noted yet: note beside the marks what was different, such as left hand");
    }
    return [...this.conditions.values()]
      .map((condition) => this.rowOf(condition))
      .sort((one, other) => other.attempts - one.attempts || compareNames(one.condition, other.condition));
  }

  private rowOf({ condition, byTrick }: Condition): ConditionRow {
    const total: Sum = { caught: 0, attempts: 0 };
    const comparison = new StratifiedComparison();
    for (const [place, withIt] of byTrick) {
      const all = this.all[place] as Sum;
      addTo(total, withIt.caught, withIt.attempts);
      comparison.add(withIt, { caught: all.caught - withIt.caught, attempts: all.attempts - withIt.attempts });
    }
    const difference = comparison.difference(CONFIDENCE);
    return {
      condition,
      ...total,
      difference,
      p: difference && comparison.p(),
      verdict: difference ? verdictOf(difference, comparison.fewest) : "never without it",
    };
  }

  /** The conditions of a cell, each once. */
  private read(cell: string): readonly Condition[] {
    const found = new Set<Condition>();
    for (const part of cell.split(SEPARATOR)) {
      const key = comparable(part);
      if (key === "") continue;
      let condition = this.conditions.get(key);
      if (!condition) {
        if (this.conditions.size === MOST_DIFFERENT) throw tooManyDifferent("conditions", "conditions");
        this.conditions.set(key, (condition = { condition: part.trim(), byTrick: new Map() }));
      }
      found.add(condition);
    }
    const conditions = [...found];
    this.cells.set(cell, conditions);
    return conditions;
  }

  private placeOf(athlete: string, trick: string): number {
    let place = this.typed.get(athlete)?.get(trick);
    if (place !== undefined) return place;
    const tricks = innerMap(this.places, comparable(athlete));
    const key = comparable(trick);
    place = tricks.get(key) ?? this.all.push({ caught: 0, attempts: 0 }) - 1;
    tricks.set(key, place);
    innerMap(this.typed, athlete).set(trick, place);
    return place;
  }
}

function innerMap(maps: Map<string, Map<string, number>>, key: string): Map<string, number> {
  let map = maps.get(key);
  if (!map) maps.set(key, (map = new Map()));
  return map;
}

function addTo(sum: Sum, caught: number, attempts: number): void {
  sum.caught += caught;
  sum.attempts += attempts;
}
