/** Tosses thrown together: who is early and who is late. */
import { median } from "simple-statistics";
import { secondsToCounts } from "./counts";

/** More than half a count off is seen from the stands: common practice, no source. */
const CLEARLY_OFF_COUNTS = 0.5;

interface LineToss {
  readonly name: string;
  readonly airtimeSeconds: number;
  /** Early (negative) or late (positive) against the median, in counts. */
  readonly countsOff: number;
  readonly off: "early" | "late" | undefined;
}

export function lineSpread(
  tosses: readonly { readonly name: string; readonly airtimeSeconds: number }[],
  countsPerMinute: number,
): LineToss[] {
  const middle = median(tosses.map(({ airtimeSeconds }) => airtimeSeconds));
  return tosses.map(({ name, airtimeSeconds }) => {
    const countsOff = secondsToCounts(airtimeSeconds - middle, countsPerMinute);
    const off = countsOff < -CLEARLY_OFF_COUNTS ? "early" : countsOff > CLEARLY_OFF_COUNTS ? "late" : undefined;
    return { name, airtimeSeconds, countsOff, off };
  });
}
