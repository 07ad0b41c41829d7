/**
 * One athlete's one trick on its way from the body alone to the contest: what is done, and what is left. When each stage
 * is done is common practice, no source.
 */
import { AttemptLog, CAUGHT } from "./attempt-log";
import { NO_ATTEMPTS } from "./catch-rate";
import { DayRows } from "./day-rows";
import { Missing } from "./problem";
import { judgedAfter, type Judgement } from "./readiness";
import { isReady } from "../trade/statuses";
import type { RowOfMarks } from "./row-of-marks";
import { STAGES, type Stage } from "../trade/stages";

/** What a stage asks for. A contest is what the trick is learned for, and asks for nothing. */
type StageGoal = "five running" | "ready" | "four of five" | "none";

export const STAGE_GOALS: Readonly<Record<Stage, StageGoal>> = {
  "Body only": "five running",
  "Toss only": "five running",
  Wall: "five running",
  Joined: "ready",
  "In context": "five running",
  "Run-through": "four of five",
  Contest: "none",
};

/** Catches in a row that are asked for at a stage apart and in context. */
export const RUNNING_CATCHES = 5;
/** In the run-through: four of the latest five. */
export const LATEST_TRIES = 5;
export const LATEST_CAUGHT = 4;

export interface ProgressionRow {
  readonly stage: Stage;
  readonly goal: StageGoal;
  readonly caught: number;
  readonly attempts: number;
  /** The longest run of catches that the record shows for certain: see `certainRun`. */
  readonly bestRun: number;
  /** Day on which the goal was first reached, a whole sheet serial; undefined where it was not. */
  readonly done: number | undefined;
  /** Catches in a row up to now, as far as the record shows for certain. */
  readonly run: number;
  /** Of the latest five tries, a tally among them taken whole. */
  readonly latestCaught: number;
  readonly latestTries: number;
  /** The word for the stage's whole record, and why; undefined where its goal is not to be Ready. */
  readonly judgement: Judgement | undefined;
  /** Whether the goal is reached now: a run-through or a joined trick may have fallen back since its day. */
  readonly holds: boolean;
}

export class ProgressionLog {
  /** Of each row its stage's place, and its first entry and the one after its last. */
  private readonly rowsRead = new DayRows();
  private log: AttemptLog | undefined;

  /**
   * Adds the row that was read last; always from the same `RowOfMarks`. Rows of one day come in their order in the log;
   * the days in any order.
   *
   * @param date whole sheet serial
   */
  add(date: number, stage: Stage, row: RowOfMarks): void {
    if (row.attempts === 0) return;
    this.log = row.log;
    this.rowsRead.add(date, STAGE_PLACES[stage], row.from, row.log.entries);
  }

  /**
   * A row a stage, in the order of learning, those not practised too.
   *
   * @param standard share to be caught, 0 to 1
   * @param setSize attempts in a set, whole, at least 1
   * @param since only rows from this day on count: the way back of a trick that was taken out
   * @throws Missing where there are no attempts
   */
  rows(standard: number, setSize: number, since = -Infinity): ProgressionRow[] {
    const records = STAGES.map((stage) => new StageRecord(stage));
    const { rowsRead, log } = this;
    rowsRead.forEach((date, place, from, to) => {
      (records[place] as StageRecord).add(log as AttemptLog, from, to, date);
    }, since);
    if (records.every((record) => record.log.attempts === 0)) {
      throw new Missing(rowsRead.count > 0 ? "No attempts since that day: log the first set" : NO_ATTEMPTS);
    }
    return records.map((record) => record.row(standard, setSize));
  }
}

const STAGE_PLACES = Object.fromEntries(STAGES.map((stage, place) => [stage, place])) as Record<Stage, number>;

/** One stage's attempts in order of time, and what they show on the way. */
class StageRecord {
  readonly log = new AttemptLog();
  private run = 0;
  private bestRun = 0;
  private done: number | undefined;
  /** For each practice day: the day, and how many entries there are after it. */
  private readonly days: { readonly date: number; entries: number }[] = [];

  constructor(private readonly stage: Stage) {}

  add(from: AttemptLog, start: number, end: number, date: number): void {
    for (let entry = start; entry < end; entry++) {
      const tally = from.tallyAt(entry);
      if (tally) {
        this.log.addTally(tally.caught, tally.attempts, tally.row, tally.column);
        const inside = certainRun(tally.caught, tally.attempts);
        this.run = tally.caught === tally.attempts ? this.run + tally.caught : 0;
        this.bestRun = Math.max(this.bestRun, this.run, inside);
      } else {
        const outcome = from.outcomeAt(entry);
        this.log.add(outcome);
        this.run = outcome === CAUGHT ? this.run + 1 : 0;
        if (this.run > this.bestRun) this.bestRun = this.run;
      }
      if (this.done === undefined && this.isReachedOnTheWay()) this.done = date;
    }
    const day = this.days.at(-1);
    if (day?.date === date) day.entries = this.log.entries;
    else this.days.push({ date, entries: this.log.entries });
  }

  row(standard: number, setSize: number): ProgressionRow {
    const { stage, log, run, bestRun } = this;
    const goal = STAGE_GOALS[stage];
    const latest = log.latest(LATEST_TRIES);
    const judged = goal === "ready" ? this.judgedByDay(standard, setSize) : [];
    const done = goal === "ready" ? this.days[judged.findIndex(({ status }) => isReady(status))]?.date : this.done;
    const judgement = judged.at(-1);
    return {
      stage,
      goal,
      caught: log.caught,
      attempts: log.attempts,
      bestRun,
      done,
      run,
      latestCaught: latest.caught,
      latestTries: latest.attempts,
      judgement,
      holds:
        goal === "ready"
          ? judgement !== undefined && isReady(judgement.status)
          : goal === "four of five"
            ? isFourOfFive(log)
            : done !== undefined,
    };
  }

  private isReachedOnTheWay(): boolean {
    switch (STAGE_GOALS[this.stage]) {
      case "five running":
        return this.bestRun >= RUNNING_CATCHES;
      case "four of five":
        return isFourOfFive(this.log);
      case "ready":
      case "none":
        return false;
    }
  }

  /** How the stage's record was judged at the end of each practice day, as the coach saw it then. */
  private judgedByDay(standard: number, setSize: number): Judgement[] {
    return judgedAfter(
      this.log,
      standard,
      setSize,
      this.days.map(({ entries }) => entries),
    );
  }
}

/**
 * The longest run of catches that a tally holds for certain, whatever its order: its misses part its catches into one
 * more stretch than there are misses, and the longest stretch is at least their mean. 9 of 10 hold five running; 8 of 10
 * may hold no more than three.
 */
export function certainRun(caught: number, attempts: number): number {
  return Math.ceil(caught / (attempts - caught + 1));
}

function isFourOfFive(log: AttemptLog): boolean {
  const { caught, attempts } = log.latest(LATEST_TRIES);
  return attempts >= LATEST_TRIES && caught * LATEST_TRIES >= LATEST_CAUGHT * attempts;
}
