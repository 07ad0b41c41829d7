/** The routine in time. */
import { countSeconds } from "./counts";

export interface TimelineEntry {
  readonly trick: string;
  readonly counts: number;
  readonly startSeconds: number;
  readonly endSeconds: number;
}

/** The tricks one after another at one speed of counts. */
export function timeline(
  tricks: readonly { readonly trick: string; readonly counts: number }[],
  countsPerMinute: number,
): TimelineEntry[] {
  // Counts are added and turned into seconds once for each end, so that many small errors do not add up.
  let counted = 0;
  return tricks.map(({ trick, counts }) => {
    const startSeconds = countSeconds(counted, countsPerMinute);
    counted += counts;
    return { trick, counts, startSeconds, endSeconds: countSeconds(counted, countsPerMinute) };
  });
}

/** Seconds as m:ss.0, rounded to a tenth first so that 59.96 s is 1:00.0. */
export function clock(seconds: number): string {
  const tenths = Math.round(seconds * 10);
  const minutes = Math.floor(tenths / 600);
  const rest = ((tenths % 600) / 10).toFixed(1);
  return `${minutes}:${rest.padStart(4, "0")}`;
}
