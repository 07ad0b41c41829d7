/** Exchanges of duos and teams: who throws to whom, and how much of it is caught. */
import { AttemptLog } from "./attempt-log";
import { Missing, Problem } from "./problem";
import type { RowOfMarks } from "./row-of-marks";
import { comparable, compareNames } from "./text";

/** More would not be read across. */
const MOST_CATCHERS = 100;
/** The longest name of a heading: a cell holds 32,767 characters, and nobody's name has so many. */
const LONGEST_NAME = 255;

interface PairRow {
  readonly thrower: string;
  /** One for each catcher, in their order; undefined where the two never exchanged. */
  readonly pairs: readonly (AttemptLog | undefined)[];
}

interface PairBoard {
  /** A to Z. */
  readonly catchers: readonly string[];
  /** Throwers, A to Z. */
  readonly rows: readonly PairRow[];
}

export class PairLog {
  /** By the name as compared: the spelling of the first row that has it. */
  private readonly spellings = new Map<string, string>();
  private readonly catchers = new Set<string>();
  private readonly byThrower = new Map<string, Map<string, AttemptLog>>();

  /** Adds the row that was read last. */
  add(thrower: string, catcher: string, row: RowOfMarks): void {
    const [throwerKey, catcherKey] = [this.keyOf(thrower), this.keyOf(catcher)];
    let pairs = this.byThrower.get(throwerKey);
    if (!pairs) this.byThrower.set(throwerKey, (pairs = new Map<string, AttemptLog>()));
    let pair = pairs.get(catcherKey);
    if (!pair) pairs.set(catcherKey, (pair = new AttemptLog()));
    this.catchers.add(catcherKey);
    pair.addFrom(row.log, row.from, row.log.entries);
  }

  /**
   * @throws Missing when nothing is logged
   * @throws Problem with more than 100 catchers, or a name of more than 255 characters
   */
  board(): PairBoard {
    if (this.byThrower.size === 0) throw new Missing("No exchanges are logged yet");
    if (this.catchers.size > MOST_CATCHERS) {
      throw new Problem({
        argument: "catchers",
        found: `${this.catchers.size} different catchers`,
        accepted: `at most ${MOST_CATCHERS}`,
      });
    }
    const catchers = this.sorted(this.catchers);
    const tooLong = catchers.find((key) => this.spellingOf(key).length > LONGEST_NAME);
    if (tooLong !== undefined) {
      throw new Problem({
        argument: "catchers",
        found: `a name of ${this.spellingOf(tooLong).length} characters`,
        accepted: `names of at most ${LONGEST_NAME} characters`,
      });
    }
    return {
      catchers: catchers.map((key) => this.spellingOf(key)),
      rows: this.sorted(this.byThrower.keys()).map((key) => ({
        thrower: this.spellingOf(key),
        pairs: catchers.map((catcher) => this.byThrower.get(key)?.get(catcher)),
      })),
    };
  }

  private keyOf(name: string): string {
    const key = comparable(name);
    if (!this.spellings.has(key)) this.spellings.set(key, name.trim());
    return key;
  }

  private spellingOf(key: string): string {
    return this.spellings.get(key) ?? key;
  }

  private sorted(keys: Iterable<string>): string[] {
    return [...keys].sort((one, other) => compareNames(this.spellingOf(one), this.spellingOf(other)));
  }
}
