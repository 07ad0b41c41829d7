/**
 * The rows of a log as three numbers each, by their days. A log may have a million rows and come in any order: only its
 * days are sorted, and they are few.
 */
interface Day {
  readonly date: number;
  readonly first: number;
  last: number;
}

const NUMBERS = 3;
const NONE = -1;

export class DayRows {
  /** How many rows there are. */
  count = 0;
  private readonly days = new Map<number, Day>();
  private latest: Day | undefined;
  private numbers = new Float64Array(NUMBERS * 256);
  /** For each row the next one of its day. */
  private next = new Int32Array(256);

  /** @param date whole sheet serial */
  add(date: number, one: number, two: number, three: number): void {
    const row = this.count++;
    if (row === this.next.length) this.grow();
    const at = NUMBERS * row;
    this.numbers[at] = one;
    this.numbers[at + 1] = two;
    this.numbers[at + 2] = three;
    this.next[row] = NONE;
    let day = this.latest;
    if (day?.date !== date) day = this.days.get(date);
    if (day) {
      this.next[day.last] = row;
      day.last = row;
    } else {
      this.days.set(date, (day = { date, first: row, last: row }));
    }
    this.latest = day;
  }

  /** Each row in order of the days, those of one day in the order in which they were added. */
  forEach(use: (date: number, one: number, two: number, three: number) => void, since = -Infinity): void {
    const { numbers, next } = this;
    const days = [...this.days.values()].filter(({ date }) => date >= since);
    for (const { date, first } of days.sort((one, other) => one.date - other.date)) {
      for (let row = first; row !== NONE; row = next[row] as number) {
        const at = NUMBERS * row;
        use(date, numbers[at] as number, numbers[at + 1] as number, numbers[at + 2] as number);
      }
    }
  }

  private grow(): void {
    const numbers = new Float64Array(this.numbers.length * 4);
    numbers.set(this.numbers);
    this.numbers = numbers;
    const next = new Int32Array(this.next.length * 4);
    next.set(this.next);
    this.next = next;
  }
}
