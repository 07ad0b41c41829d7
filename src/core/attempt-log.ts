/**
 * Attempts in order. Each entry is one attempt, or a tally whose order is unknown (8 caught of 10). Kept in typed
 * arrays, since a club's log holds hundreds of thousands of attempts and the board reads all of them at each change.
 */
export const DROPPED = 0;
export const CAUGHT = 1;
/** Started and abandoned: the toss not made or not chased. Not caught, and counted apart as well. */
export const BAILED = 2;
export type Outcome = typeof DROPPED | typeof CAUGHT | typeof BAILED;

/** Marks an entry that is a tally in the array of outcomes. */
const TALLY = 3;
/** Stands between the marks of a run. */
export const SKIPPED = 255;
/** How many numbers are kept of a tally. */
const TALLY_NUMBERS = 4;

interface Tally {
  readonly caught: number;
  readonly attempts: number;
  /** Where it stands in the range it came from, counted from 1. */
  readonly row: number;
  readonly column: number;
}

/** The sum over some attempts. */
export interface Tallied {
  caught: number;
  attempts: number;
  bails: number;
}

export class AttemptLog {
  /** How many attempts, those in tallies included. */
  attempts = 0;
  caught = 0;
  /** How many entries: single attempts and tallies. */
  entries = 0;
  private outcomes = new Uint8Array(128);
  /** Caught, attempts, row and column of each entry that is a tally; as long as it must be once there is one. */
  private tallies = new Int32Array(0);
  private firstTallyEntry = -1;
  private lastTallyEntry = -1;

  add(outcome: Outcome): void {
    this.reserve(1);
    this.outcomes[this.entries++] = outcome;
    this.attempts += 1;
    if (outcome === CAUGHT) this.caught += 1;
  }

  /**
   * Adds a run written in one text and answers true; or adds nothing, where the text is none or holds no mark.
   *
   * @param codes by character code, 1 + outcome for a mark, `SKIPPED` for what stands between marks and 0 for what is none
   */
  addRun(text: string, codes: Uint8Array): boolean {
    const { length } = text;
    this.reserve(length);
    const { outcomes, entries: start } = this;
    let end = start;
    let caught = 0;
    // One pass: what is written beyond the last entry before the text turns out to be no run was never there.
    for (let index = 0; index < length; index++) {
      const code = codes[text.charCodeAt(index)];
      if (code === SKIPPED) continue;
      if (code === undefined || code === 0) return false;
      outcomes[end++] = code - 1;
      if (code === 1 + CAUGHT) caught += 1;
    }
    this.entries = end;
    this.attempts += end - start;
    this.caught += caught;
    return end > start;
  }

  addTally(caught: number, attempts: number, row: number, column: number): void {
    this.reserve(1);
    const at = this.entries * TALLY_NUMBERS;
    if (at >= this.tallies.length) {
      // A million objects would keep the memory's tidying busy for seconds.
      const larger = new Int32Array(this.outcomes.length * TALLY_NUMBERS);
      larger.set(this.tallies);
      this.tallies = larger;
    }
    this.tallies[at] = caught;
    this.tallies[at + 1] = attempts;
    this.tallies[at + 2] = row;
    this.tallies[at + 3] = column;
    if (this.firstTallyEntry < 0) this.firstTallyEntry = this.entries;
    this.lastTallyEntry = this.entries;
    this.outcomes[this.entries++] = TALLY;
    this.attempts += attempts;
    this.caught += caught;
  }

  /** Takes back what was added after so many entries: a row that cannot be read whole adds nothing. */
  cutTo(entries: number): void {
    while (this.entries > entries) {
      const entry = this.entries - 1;
      this.attempts -= this.attemptsAt(entry);
      this.caught -= this.caughtAt(entry);
      this.entries = entry;
    }
    if (this.firstTallyEntry >= entries) this.firstTallyEntry = -1;
  }

  /** Adds another log's entries, from one up to before another. */
  addFrom(other: AttemptLog, from: number, to: number): void {
    this.reserve(to - from);
    // A board over a log in any order copies every attempt of the club once: straight from array to array.
    const { outcomes } = this;
    const { outcomes: given, tallies } = other;
    for (let entry = from; entry < to; entry++) {
      const outcome = given[entry] as number;
      if (outcome === TALLY) {
        const at = entry * TALLY_NUMBERS;
        this.addTally(
          tallies[at] as number,
          tallies[at + 1] as number,
          tallies[at + 2] as number,
          tallies[at + 3] as number,
        );
      } else {
        outcomes[this.entries++] = outcome;
        this.attempts += 1;
        if (outcome === CAUGHT) this.caught += 1;
      }
    }
  }

  get hasTallies(): boolean {
    return this.firstTallyEntry >= 0;
  }

  /** The entry after the last tally: from there on the order of the attempts is known. */
  get orderedFrom(): number {
    return this.lastTallyEntry + 1;
  }

  firstTally(): Tally | undefined {
    return this.hasTallies ? this.tallyAt(this.firstTallyEntry) : undefined;
  }

  /** The tally at an entry, or undefined where the entry is a single attempt. */
  tallyAt(entry: number): Tally | undefined {
    if (this.outcomes[entry] !== TALLY) return undefined;
    const at = entry * TALLY_NUMBERS;
    const { tallies } = this;
    return {
      caught: tallies[at] as number,
      attempts: tallies[at + 1] as number,
      row: tallies[at + 2] as number,
      column: tallies[at + 3] as number,
    };
  }

  /** How many attempts an entry is: one, or those of its tally. */
  attemptsAt(entry: number): number {
    return this.outcomes[entry] === TALLY ? (this.tallies[entry * TALLY_NUMBERS + 1] as number) : 1;
  }

  /** How many of an entry's attempts were caught. */
  caughtAt(entry: number): number {
    const outcome = this.outcomes[entry];
    return outcome === TALLY ? (this.tallies[entry * TALLY_NUMBERS] as number) : outcome === CAUGHT ? 1 : 0;
  }

  /** The outcomes of a log without tallies, to be read up to its last entry; whoever adds to the log may make them stale. */
  singleOutcomes(): Readonly<Uint8Array> {
    return this.outcomes;
  }

  /** The outcome of a single attempt. */
  outcomeAt(entry: number): Outcome {
    return this.outcomes[entry] as Outcome;
  }

  /**
   * Sums the latest entries before `end` until they add up to at least `size` attempts, or to all there are from
   * `start` on. A tally is taken whole, since nothing says which of its attempts were the latest.
   */
  latest(size: number, end = this.entries, start = 0): Tallied {
    const sum: Tallied = { caught: 0, attempts: 0, bails: 0 };
    for (let entry = end - 1; entry >= start && sum.attempts < size; entry--) this.addTo(sum, entry);
    return sum;
  }

  /** Sums the entries from one up to before another. */
  sumOf(from: number, to: number): Tallied {
    const sum: Tallied = { caught: 0, attempts: 0, bails: 0 };
    for (let entry = from; entry < to; entry++) this.addTo(sum, entry);
    return sum;
  }

  private addTo(sum: Tallied, entry: number): void {
    sum.caught += this.caughtAt(entry);
    sum.attempts += this.attemptsAt(entry);
    if (this.outcomes[entry] === BAILED) sum.bails += 1;
  }

  private reserve(more: number): void {
    const needed = this.entries + more;
    if (needed <= this.outcomes.length) return;
    const larger = new Uint8Array(Math.max(needed, this.outcomes.length * 4));
    larger.set(this.outcomes);
    this.outcomes = larger;
  }
}
