/** At which stage of learning does a trick break? */
import { compareRates, type Tally } from "./compare";
import { comparable, compareNames } from "./text";
import { DayLog } from "./day-log";

/** In the order of learning: common practice, no source. */
export const STAGES = ["Body only", "Toss only", "Wall", "Joined", "In context", "Run-through", "Contest"] as const;
export type Stage = (typeof STAGES)[number];

const BY_NAME = new Map<string, Stage>(STAGES.map((stage) => [comparable(stage), stage]));
const CLEAR_CONFIDENCE = 0.95;

/** Practice apart from the joined trick: it is logged, and says nothing yet about the trick in the routine. */
export const STAGES_APART: readonly Stage[] = ["Body only", "Toss only", "Wall"];
const APART: ReadonlySet<Stage> = new Set(STAGES_APART);

/** Whether body and toss are practised apart at this stage: the board leaves it out. */
export function isApart(stage: Stage): boolean {
  return APART.has(stage);
}

/** The stage that a text names, or undefined. */
export function stageCalled(text: string): Stage | undefined {
  return BY_NAME.get(comparable(text));
}

export interface StageRow {
  readonly trick: string;
  /** One entry a stage, in the order of learning; undefined where nothing is logged at it. */
  readonly tallies: readonly (Tally | undefined)[];
  /** The first stage clearly below the one before it that was practised. */
  readonly breaksAt: Stage | undefined;
}

export class StageLog {
  private readonly tricks = new Map<string, { trick: string; logs: Map<Stage, DayLog> }>();

  recordOf(trick: string, stage: Stage): DayLog {
    const key = comparable(trick);
    let entry = this.tricks.get(key);
    if (!entry) this.tricks.set(key, (entry = { trick: trick.trim(), logs: new Map() }));
    let log = entry.logs.get(stage);
    if (!log) entry.logs.set(stage, (log = new DayLog()));
    return log;
  }

  /** Ordered by trick, A to Z. */
  rows(): StageRow[] {
    return [...this.tricks.values()]
      .filter(({ logs }) => [...logs.values()].some(({ asRead }) => asRead.attempts > 0))
      .sort((one, other) => compareNames(one.trick, other.trick))
      .map(({ trick, logs }) => {
        const tallies = STAGES.map((stage) => {
          const log = logs.get(stage)?.asRead;
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
