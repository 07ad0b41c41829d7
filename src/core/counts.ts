/**
 * Spoken counts and seconds. The counts are those the athlete says, which is often faster than the music's beats: a
 * triple illusion in nine counts at 120 a minute would need a toss of more than 20 m.
 */

/** @param countsPerMinute above 0 */
export function countSeconds(counts: number, countsPerMinute: number): number {
  return (counts * 60) / countsPerMinute;
}

/** @param countsPerMinute above 0 */
export function secondsToCounts(seconds: number, countsPerMinute: number): number {
  return (seconds * countsPerMinute) / 60;
}
