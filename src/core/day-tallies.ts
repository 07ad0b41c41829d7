/** Caught and attempts by practice day, from rows in any order. */
import type { Tally } from "./compare";

export interface DayTally extends Tally {
  /** Whole sheet serial. */
  readonly date: number;
}

interface Day {
  readonly date: number;
  caught: number;
  attempts: number;
}

export class DayTallies {
  private readonly byDate = new Map<number, Day>();
  private latest: Day | undefined;

  /**
   * Adds some attempts to a day. A row without attempts is no practice.
   *
   * @param date whole sheet serial
   */
  add(date: number, { caught, attempts }: Tally): void {
    if (attempts === 0) return;
    let day = this.latest;
    // Most rows are of the same day as the row before them.
    if (day?.date !== date) {
      day = this.byDate.get(date);
      if (!day) this.byDate.set(date, (day = { date, caught: 0, attempts: 0 }));
      this.latest = day;
    }
    day.caught += caught;
    day.attempts += attempts;
  }

  /** One entry a practice day, in order of time. */
  days(): DayTally[] {
    return [...this.byDate.values()].sort((one, other) => one.date - other.date);
  }
}
