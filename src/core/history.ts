/** A trick's record in time: by day for a chart, by set for a row of bars in one cell. */
import type { AttemptLog } from "./attempt-log";
import { catchInterval, type Interval } from "./catch-rate";

export interface HistoryDay {
  readonly date: number;
  readonly caught: number;
  readonly attempts: number;
  readonly interval: Interval;
}

const HISTORY_CONFIDENCE = 0.95;

/** One entry a day with an attempt, in order of time, with Wilson's 95 % interval. */
export function historyByDay(logs: ReadonlyMap<number, AttemptLog>): HistoryDay[] {
  return [...logs]
    .filter(([, log]) => log.attempts > 0)
    .sort(([one], [other]) => one - other)
    .map(([date, { caught, attempts }]) => ({
      date,
      caught,
      attempts,
      interval: catchInterval(caught, attempts, HISTORY_CONFIDENCE, "wilson"),
    }));
}

const BARS = "▁▂▃▄▅▆▇█";
/** More would not be read in one cell. */
const MOST_BARS = 20;

/**
 * One block character a set counted from the first attempt, oldest first, at most the latest 20: eight equal steps of
 * the share caught. A last set that is not full yet has its bar too. A tally belongs to one set as a whole.
 */
export function catchBars(log: AttemptLog, setSize: number): string {
  const bars: string[] = [];
  let attempts = 0;
  for (let entry = 0; entry < log.entries; entry++) {
    attempts += log.tallyAt(entry)?.attempts ?? 1;
    if (attempts < setSize && entry < log.entries - 1) continue;
    const set = log.latest(attempts, entry + 1);
    bars.push(barOf(set.caught / set.attempts));
    attempts = 0;
  }
  return bars.slice(-MOST_BARS).join("");
}

function barOf(share: number): string {
  return BARS.charAt(Math.min(BARS.length - 1, Math.floor(share * BARS.length)));
}
