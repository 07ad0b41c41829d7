/** The board: every athlete's every trick, from one pass over the log. */
import { DayLog } from "./day-log";
import { assess, type Assessment } from "./readiness";
import { isApart, type Stage } from "../trade/stages";
import { comparable, compareNames } from "./text";

export interface BoardRow {
  readonly athlete: string;
  readonly trick: string;
  readonly assessment: Assessment;
  /** Sheet serial of the latest day with an attempt. */
  readonly lastPractised: number;
}

/** An athlete or a trick as the rows write it, in one spelling or several. */
interface Name {
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
  private readonly byAthlete = new Map<Name, Map<Name, Entry>>();

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
    let tricks = this.byAthlete.get(athleteName);
    if (!tricks) this.byAthlete.set(athleteName, (tricks = new Map<Name, Entry>()));
    let entry = tricks.get(trickName);
    if (!entry) tricks.set(trickName, (entry = { athlete: athleteName, trick: trickName, record: new DayLog() }));
    return entry.record;
  }

  /** Ordered by athlete, then trick, A to Z. */
  rows(standard: number, setSize: number): BoardRow[] {
    return [...this.byAthlete.values()]
      .flatMap((tricks) => [...tricks.values()])
      .filter(({ record }) => record.lastDay > 0)
      .map(({ athlete, trick, record }) => ({ athlete: athlete.spelling, trick: trick.spelling, record }))
      .sort((one, other) => compareNames(one.athlete, other.athlete) || compareNames(one.trick, other.trick))
      .map(({ athlete, trick, record }) => ({
        athlete,
        trick,
        assessment: assess(record.inOrder(), standard, setSize),
        lastPractised: record.lastDay,
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
      if (!name) this.byKey.set(key, (name = { spelling: text.trim(), firstDay: day }));
      this.byText.set(text, name);
    }
    if (day < name.firstDay) {
      name.firstDay = day;
      name.spelling = text.trim();
    }
    return name;
  }
}
