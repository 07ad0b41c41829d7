/** Days on which nobody practises: holidays, exams, a closed hall. */
export interface DaysAway {
  /** Whole sheet serials, both days included. */
  readonly first: number;
  readonly last: number;
}

export class DaysOff {
  /** None touches another; the latest first. */
  private readonly spans: readonly DaysAway[];

  /** @param spans in any order; they may overlap */
  constructor(spans: readonly DaysAway[]) {
    const apart: DaysAway[] = [];
    for (const span of [...spans].sort((one, other) => one.first - other.first)) {
      const before = apart.at(-1);
      if (before === undefined || span.first > before.last + 1) apart.push(span);
      else apart[apart.length - 1] = { first: before.first, last: Math.max(before.last, span.last) };
    }
    this.spans = apart.reverse();
  }

  /** How many lie after one day, up to and with another. */
  between(after: number, upTo: number): number {
    return this.spans.reduce(
      (sum, { first, last }) => sum + Math.max(0, Math.min(last, upTo) - Math.max(first, after + 1) + 1),
      0,
    );
  }

  /** The day after which so many others than these are left, up to and with a last one. */
  dayBefore(upTo: number, days: number): number {
    return this.spans.reduce((day, { first, last }) => {
      const isAmongThem = first <= upTo && last > day;
      return isAmongThem ? day - (Math.min(last, upTo) - first + 1) : day;
    }, upTo - days);
  }
}

export const NO_DAYS_OFF = new DaysOff([]);
