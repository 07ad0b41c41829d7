/**
 * The attempts of one row of a log at a time. All rows go into one log of attempts, so that a log of a million rows does
 * not cost a million small ones; what a row holds is the difference to what was there before it.
 */
import { AttemptLog } from "./attempt-log";
import type { Tally } from "./compare";

export class RowOfMarks implements Tally {
  /** The row's first entry in the log; its last is the log's last. */
  from = 0;
  private caughtBefore = 0;
  private attemptsBefore = 0;

  /** @param log where the rows' marks are read to */
  constructor(readonly log = new AttemptLog()) {}

  /** Begins the next row. */
  begin(): void {
    this.from = this.log.entries;
    this.caughtBefore = this.log.caught;
    this.attemptsBefore = this.log.attempts;
  }

  /** How many the row holds that were caught. */
  get caught(): number {
    return this.log.caught - this.caughtBefore;
  }

  /** How many attempts the row holds, those in tallies included. */
  get attempts(): number {
    return this.log.attempts - this.attemptsBefore;
  }
}
