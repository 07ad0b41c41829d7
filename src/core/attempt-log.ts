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
/** How many numbers are kept of a tally. */
const TALLY_NUMBERS = 4;

export interface Tally {
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
   * Adds a run written in one text.
   *
   * @param codes by character code, 1 + outcome for a mark and 0 for what is skipped
   */
  addRun(text: string, codes: Uint8Array): void {
    this.reserve(text.length);
    const { outcomes, entries: start } = this;
    let end = start;
    let caught = 0;
    for (let index = 0; index < text.length; index++) {
      const code = codes[text.charCodeAt(index)] as number;
      if (code === 0) continue;
      outcomes[end++] = code - 1;
      if (code === 1 + CAUGHT) caught += 1;
    }
    this.entries = end;
    this.attempts += end - start;
    this.caught += caught;
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
      const tally = this.tallyAt(entry);
      this.attempts -= tally ? tally.attempts : 1;
      this.caught -= tally ? tally.caught : this.outcomes[entry] === CAUGHT ? 1 : 0;
      this.entries = entry;
    }
    if (this.firstTallyEntry >= entries) this.firstTallyEntry = -1;
  }

  /** Adds another log's entries, from one up to before another. */
  addFrom(other: AttemptLog, from: number, to: number): void {
    this.reserve(to - from);
    for (let entry = from; entry < to; entry++) {
      const tally = other.tallyAt(entry);
      if (tally) this.addTally(tally.caught, tally.attempts, tally.row, tally.column);
      else this.add(other.outcomes[entry] as Outcome);
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
    const number = (place: number): number => this.tallies[at + place] ?? 0;
    return { caught: number(0), attempts: number(1), row: number(2), column: number(3) };
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
    const tally = this.tallyAt(entry);
    const outcome = this.outcomes[entry];
    sum.caught += tally ? tally.caught : outcome === CAUGHT ? 1 : 0;
    sum.attempts += tally ? tally.attempts : 1;
    if (outcome === BAILED) sum.bails += 1;
  }

  private reserve(more: number): void {
    const needed = this.entries + more;
    if (needed <= this.outcomes.length) return;
    const larger = new Uint8Array(Math.max(needed, this.outcomes.length * 4));
    larger.set(this.outcomes);
    this.outcomes = larger;
  }
}
