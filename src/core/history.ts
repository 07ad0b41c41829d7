/** A trick's record in time: by day for a chart, by set for a row of bars in one cell. */
import type { AttemptLog } from "./attempt-log";
import { catchInterval, type Interval } from "./catch-rate";
import type { DayLog } from "./day-log";
import type { DayTally } from "./day-tallies";
import { judgedAfter, type Judgement } from "./readiness";

interface HistoryDay extends DayTally {
  readonly interval: Interval;
}

const HISTORY_CONFIDENCE = 0.95;

/** One entry a day with an attempt, in order of time. */
export function talliesByDay(record: DayLog): DayTally[] {
  const log = record.inOrder();
  return record.byDay().map(({ day, from, to }) => {
    const { caught, attempts } = log.sumOf(from, to);
    return { date: day, caught, attempts };
  });
}

/** As `talliesByDay`, with Wilson's 95 % interval. */
export function historyByDay(record: DayLog): HistoryDay[] {
  return talliesByDay(record).map((day) => ({
    ...day,
    interval: catchInterval(day.caught, day.attempts, HISTORY_CONFIDENCE, "wilson"),
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
  const bars = setEnds(log, setSize).map(({ attempts, end }) => {
    const set = log.latest(attempts, end);
    return barOf(set.caught / set.attempts);
  });
  return bars.slice(-MOST_BARS).join("");
}

/** Where each set counted from the first attempt ends: after which entry, and how many attempts it has. */
function setEnds(log: AttemptLog, setSize: number): { readonly end: number; readonly attempts: number }[] {
  const ends: { end: number; attempts: number }[] = [];
  let attempts = 0;
  for (let entry = 0; entry < log.entries; entry++) {
    attempts += log.tallyAt(entry)?.attempts ?? 1;
    if (attempts < setSize && entry < log.entries - 1) continue;
    ends.push({ end: entry + 1, attempts });
    attempts = 0;
  }
  return ends;
}

export interface HistorySet {
  /** Day of its last attempt. */
  readonly date: number;
  readonly caught: number;
  readonly attempts: number;
  readonly bails: number;
  /** Share caught, 0 to 1. */
  readonly rate: number;
  /** Wilson's 95 % interval of this set alone. */
  readonly interval: Interval;
  /** What the whole record up to this set's end is judged as, and why. */
  readonly judged: Judgement;
}

/**
 * A trick's record set by set, oldest first, cut as `catchBars` cuts it: every `setSize` attempts counted from the first;
 * a last set that is not full comes too, and a tally belongs to one set as a whole.
 *
 * @param standard share to be caught, 0 to 1
 * @param setSize attempts in a set, whole, at least 1
 */
export function historyBySet(record: DayLog, standard: number, setSize: number): HistorySet[] {
  const log = record.inOrder();
  const days = record.byDay();
  const ends = setEnds(log, setSize);
  const judgements = judgedAfter(
    log,
    standard,
    setSize,
    ends.map(({ end }) => end),
  );
  let day = 0;
  return ends.map(({ end, attempts }, index) => {
    while ((days[day]?.to ?? end) < end) day += 1;
    const set = log.latest(attempts, end);
    return {
      date: days[day]?.day ?? 0,
      ...set,
      rate: set.caught / set.attempts,
      interval: catchInterval(set.caught, set.attempts, HISTORY_CONFIDENCE, "wilson"),
      judged: judgements[index] as Judgement,
    };
  });
}

function barOf(share: number): string {
  return BARS.charAt(Math.min(BARS.length - 1, Math.floor(share * BARS.length)));
}
