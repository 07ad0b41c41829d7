/** At which stage of learning does a trick break? */
import { STAGES, type Stage } from "../trade/stages";
import { compareRates, type Tally } from "./compare";
import { comparable, compareNames } from "./text";
import { DayLog } from "./day-log";

const BY_NAME = new Map<string, Stage>(STAGES.map((stage) => [comparable(stage), stage]));
const CLEAR_CONFIDENCE = 0.95;

/** The stage that a text names, or undefined. */
export function stageCalled(text: string): Stage | undefined {
  return BY_NAME.get(comparable(text));
}

interface StageRow {
  /** "" where the log was not asked by athlete. */
  readonly athlete: string;
  readonly trick: string;
  /** One entry a stage, in the order of learning; undefined where nothing is logged at it. */
  readonly tallies: readonly (Tally | undefined)[];
  /** The first stage clearly below the one before it that was practised. */
  readonly breaksAt: Stage | undefined;
}

interface TrickStages {
  readonly athlete: string;
  readonly trick: string;
  readonly logs: Map<Stage, DayLog>;
}

export class StageLog {
  /** One spelling of a trick for all athletes: the first met. */
  private readonly spellings = new Map<string, string>();
  private readonly athletes = new Map<string, { athlete: string; tricks: Map<string, TrickStages> }>();

  /** @param athlete "" in all rows where the whole club is asked about */
  recordOf(trick: string, stage: Stage, athlete = ""): DayLog {
    const athleteKey = comparable(athlete);
    let own = this.athletes.get(athleteKey);
    if (!own) this.athletes.set(athleteKey, (own = { athlete: athlete.trim(), tricks: new Map() }));
    const key = comparable(trick);
    let entry = own.tricks.get(key);
    if (!entry) {
      const spelling = this.spellings.get(key) ?? trick.trim();
      this.spellings.set(key, spelling);
      own.tricks.set(key, (entry = { athlete: own.athlete, trick: spelling, logs: new Map() }));
    }
    let log = entry.logs.get(stage);
    if (!log) entry.logs.set(stage, (log = new DayLog()));
    return log;
  }

  /** Ordered by athlete, then trick, A to Z. */
  rows(): StageRow[] {
    return [...this.athletes.values()]
      .flatMap(({ tricks }) => [...tricks.values()])
      .filter(({ logs }) => [...logs.values()].some(({ asRead }) => asRead.attempts > 0))
      .sort((one, other) => compareNames(one.athlete, other.athlete) || compareNames(one.trick, other.trick))
      .map(({ athlete, trick, logs }) => {
        const tallies = STAGES.map((stage) => {
          const log = logs.get(stage)?.asRead;
          return log && log.attempts > 0 ? { caught: log.caught, attempts: log.attempts } : undefined;
        });
        return { athlete, trick, tallies, breaksAt: breakingStage(tallies) };
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
