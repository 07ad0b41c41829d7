/** How the column of a role was found. */

/** What told a finding: the heading, the values, both, or the coach. */
type Reason = "heading" | "values" | "both" | "corrected";

export interface Finding {
  /** 0 to 1. */
  readonly confidence: number;
  readonly why: Reason;
}

export type FoundRole = "date" | "athlete" | "trick" | "stage" | "record";
