/** The board: every athlete's every trick, from one pass over the log. */
import { AttemptLog } from "./attempt-log";
import { assess, type Assessment } from "./readiness";
import { comparable, compareNames } from "./text";

export interface BoardRow {
  readonly athlete: string;
  readonly trick: string;
  readonly assessment: Assessment;
  /** Sheet serial of the latest day with an attempt. */
  readonly lastPractised: number;
}

interface Entry {
  readonly athlete: string;
  readonly trick: string;
  readonly log: AttemptLog;
  lastPractised: number;
}

/** Practice apart from the joined trick: it is logged, and says nothing yet about the trick in the routine. */
export const STAGES_APART: readonly string[] = ["Body only", "Toss only", "Wall"];
const APART = new Set(STAGES_APART.map(comparable));

export class BoardLog {
  private readonly byAthlete = new Map<string, Map<string, Entry>>();
  /** Spelling as typed to how it is compared: a name recurs in thousands of rows. */
  private readonly spellings = new Map<string, string>();
  private readonly counted: Entry[] = [];
  private readonly aside: Entry = { athlete: "", trick: "", log: new AttemptLog(), lastPractised: 0 };

  /**
   * The log to which a row's attempts go: that of its athlete and trick, or one that is never shown for a row that is
   * later than the board's day or practised apart.
   *
   * @param date whole sheet serial
   * @param stage `undefined` where the log has no stages
   */
  logFor(date: number, athlete: string, trick: string, stage: string | undefined, asOf: number): AttemptLog {
    if (date > asOf || (stage !== undefined && APART.has(this.spelled(stage)))) return this.aside.log;
    const entry = this.entry(athlete, trick);
    if (date > entry.lastPractised) entry.lastPractised = date;
    return entry.log;
  }

  /** Ordered by athlete, then trick, A to Z. */
  rows(standard: number, setSize: number): BoardRow[] {
    return this.counted
      .sort((one, other) => compareNames(one.athlete, other.athlete) || compareNames(one.trick, other.trick))
      .map(({ athlete, trick, log, lastPractised }) => ({
        athlete,
        trick,
        assessment: assess(log, standard, setSize),
        lastPractised,
      }));
  }

  private entry(athlete: string, trick: string): Entry {
    const athleteKey = this.spelled(athlete);
    let tricks = this.byAthlete.get(athleteKey);
    if (!tricks) this.byAthlete.set(athleteKey, (tricks = new Map()));
    const trickKey = this.spelled(trick);
    let entry = tricks.get(trickKey);
    if (!entry) {
      const spelledFirst = tricks.values().next().value?.athlete ?? athlete.trim();
      entry = {
        athlete: spelledFirst,
        trick: this.firstSpelling(trickKey, trick),
        log: new AttemptLog(),
        lastPractised: 0,
      };
      tricks.set(trickKey, entry);
      this.counted.push(entry);
    }
    return entry;
  }

  private readonly trickSpellings = new Map<string, string>();

  /** One trick is spelled one way for every athlete: as it was met first. */
  private firstSpelling(key: string, text: string): string {
    const first = this.trickSpellings.get(key);
    if (first !== undefined) return first;
    const spelling = text.trim();
    this.trickSpellings.set(key, spelling);
    return spelling;
  }

  private spelled(text: string): string {
    let key = this.spellings.get(text);
    if (key === undefined) this.spellings.set(text, (key = comparable(text)));
    return key;
  }
}
