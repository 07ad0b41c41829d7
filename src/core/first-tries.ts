/** A contest is a first toss: how does a trick go on the first try of the day, and on the first day back? */
import { CAUGHT } from "./attempt-log";
import { catchInterval, NO_ATTEMPTS, type Interval } from "./catch-rate";
import { compareRates, type Tally } from "./compare";
import type { RateDifference } from "./mantel-haenszel";
import { Missing } from "./problem";
import type { RowOfMarks } from "./row-of-marks";
import { comparable } from "./text";
import { verdictOf } from "./ways";

const FIRST_TRY_ROWS = ["First of the day", "Later that day", "First day back", "Other days"] as const;
type FirstTryRowName = (typeof FIRST_TRY_ROWS)[number];

export interface FirstTryRow extends Tally {
  readonly name: FirstTryRowName;
  /** Wilson's 95 % interval; undefined without attempts. */
  readonly interval: Interval | undefined;
  /** From the row below, on the first row and the third, where both have attempts: Newcombe's 95 % interval. */
  readonly difference: RateDifference | undefined;
  /** As the difference. */
  readonly verdict: "better" | "worse" | "not clear yet" | undefined;
}

export interface FirstTries {
  /** In the order of `FIRST_TRY_ROWS`. */
  readonly rows: readonly FirstTryRow[];
  /**
   * Days that begin with a tally, of each trick where there are several: nothing says how the first attempt went, so
   * they are not in the first two rows.
   */
  readonly daysBegunWithTally: number;
}

/** One trick on one day. */
interface Day {
  readonly date: number;
  readonly trick: string;
  /** Whether the first attempt was caught; undefined where a tally hides it. */
  readonly firstCaught: boolean | undefined;
  caught: number;
  attempts: number;
}

interface Sum {
  caught: number;
  attempts: number;
}

const CONFIDENCE = 0.95;

export class FirstTriesLog {
  /** By the trick's name as it is compared; one nameless trick where the log has no tricks. */
  private readonly byTrick = new Map<string, Map<number, Day>>();
  private latest: Day | undefined;

  /**
   * Adds the row that was read last. Rows of one day come in their order in the log; the days in any order.
   *
   * @param date whole sheet serial
   * @param trick each trick's first attempt of a day is a first try
   */
  add(date: number, row: RowOfMarks, trick = ""): void {
    const { caught, attempts } = row;
    if (attempts === 0) return;
    let day = this.latest?.date === date && this.latest.trick === trick ? this.latest : undefined;
    if (!day) {
      const byDate = this.datesOf(trick);
      day = byDate.get(date);
      if (!day) {
        const firstCaught = row.log.tallyAt(row.from) ? undefined : row.log.outcomeAt(row.from) === CAUGHT;
        byDate.set(date, (day = { date, trick, firstCaught, caught: 0, attempts: 0 }));
      }
    }
    this.latest = day;
    day.caught += caught;
    day.attempts += attempts;
  }

  /**
   * @param breakDays days off in a row after which a practice day is the first day back, whole, at least 1. The first
   * day of the log is none, since nothing says what was before it.
   * @throws Missing without attempts
   */
  rows(breakDays: number): FirstTries {
    if (this.byTrick.size === 0) throw new Missing(NO_ATTEMPTS);
    const days = [...this.byTrick.values()]
      .flatMap((byDate) => [...byDate.values()])
      .sort((one, other) => one.date - other.date);
    const sums = FIRST_TRY_ROWS.map((): Sum => ({ caught: 0, attempts: 0 }));
    const [first, later, back, other] = sums as [Sum, Sum, Sum, Sum];
    let daysBegunWithTally = 0;
    // The day that is looked at, and the practice day before it, whatever was practised on them.
    let [today, before] = [Infinity, Infinity];
    for (const { date, firstCaught, caught, attempts } of days) {
      if (firstCaught === undefined) {
        daysBegunWithTally += 1;
      } else {
        addTo(first, firstCaught ? 1 : 0, 1);
        addTo(later, caught - (firstCaught ? 1 : 0), attempts - 1);
      }
      if (date !== today) [today, before] = [date, today];
      addTo(date - before - 1 >= breakDays ? back : other, caught, attempts);
    }
    return {
      rows: [
        rowOf("First of the day", first, later),
        rowOf("Later that day", later),
        rowOf("First day back", back, other),
        rowOf("Other days", other),
      ],
      daysBegunWithTally,
    };
  }

  private datesOf(trick: string): Map<number, Day> {
    const key = comparable(trick);
    let byDate = this.byTrick.get(key);
    if (!byDate) this.byTrick.set(key, (byDate = new Map<number, Day>()));
    return byDate;
  }
}

function rowOf(name: FirstTryRowName, tally: Sum, below?: Sum): FirstTryRow {
  const interval = tally.attempts > 0 ? catchInterval(tally.caught, tally.attempts, CONFIDENCE, "wilson") : undefined;
  if (!below || tally.attempts === 0 || below.attempts === 0) {
    return { name, ...tally, interval, difference: undefined, verdict: undefined };
  }
  const { difference, low, high } = compareRates(below, tally, CONFIDENCE);
  const verdict = verdictOf({ low, high }, Math.min(tally.attempts, below.attempts));
  return { name, ...tally, interval, difference: { difference, low, high }, verdict };
}

function addTo(sum: Sum, caught: number, attempts: number): void {
  sum.caught += caught;
  sum.attempts += attempts;
}
