/** At which stage of learning does a trick break? */
import { compareRates, type Tally } from "./compare";
import { Problem, quote } from "./problem";
import { comparable, compareNames } from "./text";
import { AttemptLog } from "./attempt-log";

/** In the order of learning: common practice, no source. */
export const STAGES = ["Body only", "Toss only", "Wall", "Joined", "In context", "Run-through", "Contest"] as const;
export type Stage = (typeof STAGES)[number];

const BY_NAME = new Map<string, Stage>(STAGES.map((stage) => [comparable(stage), stage]));
const CLEAR_CONFIDENCE = 0.95;

/** @param row counts from 1 inside the range, for the message */
export function readStage(text: string, argument: string, row: number): Stage {
  const stage = BY_NAME.get(comparable(text));
  if (stage) return stage;
  throw new Problem({ argument, row, column: 1, found: quote(text), accepted: STAGES.join(", ") });
}

export interface StageRow {
  readonly trick: string;
  /** One entry a stage, in the order of learning; undefined where nothing is logged at it. */
  readonly tallies: readonly (Tally | undefined)[];
  /** The first stage clearly below the one before it that was practised. */
  readonly breaksAt: Stage | undefined;
}

export class StageLog {
  private readonly tricks = new Map<string, { trick: string; logs: Map<Stage, AttemptLog> }>();

  logFor(trick: string, stage: Stage): AttemptLog {
    const key = comparable(trick);
    let entry = this.tricks.get(key);
    if (!entry) this.tricks.set(key, (entry = { trick: trick.trim(), logs: new Map() }));
    let log = entry.logs.get(stage);
    if (!log) entry.logs.set(stage, (log = new AttemptLog()));
    return log;
  }

  /** Ordered by trick, A to Z. */
  rows(): StageRow[] {
    return [...this.tricks.values()]
      .sort((one, other) => compareNames(one.trick, other.trick))
      .map(({ trick, logs }) => {
        const tallies = STAGES.map((stage) => {
          const log = logs.get(stage);
          return log && log.attempts > 0 ? { caught: log.caught, attempts: log.attempts } : undefined;
        });
        return { trick, tallies, breaksAt: breakingStage(tallies) };
      });
  }
}

function breakingStage(tallies: readonly (Tally | undefined)[]): Stage | undefined {
  let before: Tally | undefined;
  for (const [index, tally] of tallies.entries()) {
    if (!tally) continue;
    if (before && compareRates(before, tally, CLEAR_CONFIDENCE).verdict === "A better") return STAGES[index];
    before = tally;
  }
  return undefined;
}
