/** One published value: where it stands, what goes in, what comes out, how near, and why that near. */
export interface Check<Given, Expected> {
  readonly source: string;
  readonly given: Given;
  readonly expected: Expected;
  /** The largest difference that passes. */
  readonly within: number;
  /** Why that difference: printed digits, rounding in the source. */
  readonly because: string;
}

export const FOUR_DIGITS = { within: 0.00005, because: "four printed digits" };
export const THREE_DIGITS = { within: 0.0005, because: "three printed digits" };
