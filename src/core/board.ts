/** The board: every athlete's every trick, from one pass over the log. */
import { DayLog } from "./day-log";
import { assess, type Assessment } from "./readiness";
import { isApart, type Stage } from "../trade/stages";
import { comparable, compareSortable, sortableName, type SortableName } from "./text";

export interface BoardRow {
  readonly athlete: string;
  readonly trick: string;
  readonly assessment: Assessment;
  /** Sheet serial of the latest day with an attempt. */
  readonly lastPractised: number;
  readonly record: DayLog;
}

/** An athlete or a trick as the rows write it, in one spelling or several. */
interface Name {
  /** How many other names came before it. */
  readonly number: number;
  /** The spelling of the earliest day: the same however the rows are sorted. */
  spelling: string;
  firstDay: number;
}

interface Entry {
  readonly athlete: Name;
  readonly trick: Name;
  readonly record: DayLog;
}

export class BoardLog {
  private readonly athletes = new Names();
  private readonly tricks = new Names();
  /** By the athlete's number and the trick's; what no row has is not there. */
  private readonly byAthlete: Entry[][] = [];

  /**
   * The record to which a row's attempts go; undefined for a row that is later than the board's day or practised apart.
   *
   * @param day whole sheet serial
   * @param stage `undefined` where the log has no stages
   */
  recordOf(day: number, athlete: string, trick: string, stage: Stage | undefined, asOf: number): DayLog | undefined {
    if (day > asOf || (stage !== undefined && isApart(stage))) return undefined;
    const athleteName = this.athletes.named(athlete, day);
    const trickName = this.tricks.named(trick, day);
    const tricks = (this.byAthlete[athleteName.number] ??= []);
    const entry = (tricks[trickName.number] ??= { athlete: athleteName, trick: trickName, record: new DayLog() });
    return entry.record;
  }

  /** Ordered by athlete, then trick, A to Z. */
  rows(standard: number, setSize: number): BoardRow[] {
    const found = new Map<Name, SortableName>();
    const sortable = (name: Name): SortableName => {
      let made = found.get(name);
      if (!made) found.set(name, (made = sortableName(name.spelling)));
      return made;
    };
    // Over what is there: a spread would fill the gaps.
    return this.byAthlete
      .flatMap((tricks) => Object.values(tricks))
      .filter(({ record }) => record.lastDay > 0)
      .map(({ athlete, trick, record }) => ({ athlete: sortable(athlete), trick: sortable(trick), record }))
      .sort((one, other) => compareSortable(one.athlete, other.athlete) || compareSortable(one.trick, other.trick))
      .map(({ athlete, trick, record }) => ({
        athlete: athlete.name,
        trick: trick.name,
        assessment: assess(record.inOrder(), standard, setSize),
        lastPractised: record.lastDay,
        record,
      }));
  }
}

class Names {
  private readonly byKey = new Map<string, Name>();
  /** By the text as typed: a name recurs in thousands of rows. */
  private readonly byText = new Map<string, Name>();

  named(text: string, day: number): Name {
    let name = this.byText.get(text);
    if (!name) {
      const key = comparable(text);
      name = this.byKey.get(key);
      if (!name) this.byKey.set(key, (name = { number: this.byKey.size, spelling: text.trim(), firstDay: day }));
      this.byText.set(text, name);
    }
    if (day < name.firstDay) {
      name.firstDay = day;
      name.spelling = text.trim();
    }
    return name;
  }
}
