/** What a season's log holds of each athlete's each trick, read as the board reads it. */
import { DayLog } from "../../core/day-log";
import { plainValue, readPracticeLog, type LogReading } from "../../core/practice-log";
import { isApart } from "../../trade/stages";
import { comparable } from "../../core/text";
import { LOG_HEADINGS } from "../../workbook/season/season";
import type { CellValue } from "../host/host";

export interface LogRow {
  readonly date: CellValue;
  readonly athlete: string;
  readonly trick: string;
  readonly stage: string;
  readonly marks: CellValue;
  readonly minutes: CellValue;
  /** Empty in a log that lacks the column. */
  readonly entrance: string;
  readonly exit: string;
  readonly condition: string;
  readonly note: string;
}

/** An athlete and a trick that have a record. */
export interface Practised {
  readonly athlete: string;
  readonly trick: string;
}

export interface PracticeRecords {
  /** Rows that do not count, with their reasons. */
  readonly reading: LogReading;
  /** Those who have logged a set of a whole trick, the latest first; each pair once. */
  readonly practised: readonly Practised[];
  /** What the board counts of this athlete's this trick; undefined where nothing is logged. */
  recordOf(athlete: string, trick: string): DayLog | undefined;
}

/** More would not be read in the pane. */
const MOST_TOLD = 20;

interface Entry extends Practised {
  readonly record: DayLog;
  /** The latest of its rows in the log. */
  latestRow: number;
}

export function practiceRecords(log: readonly LogRow[]): PracticeRecords {
  // A name recurs in thousands of rows.
  const spellings = new Map<string, string>();
  const spelled = (name: string): string => {
    const known = spellings.get(name) ?? comparable(name);
    spellings.set(name, known);
    return known;
  };
  const keyOf = (athlete: string, trick: string): string => `${spelled(athlete)}\n${spelled(trick)}`;
  const entries = new Map<string, Entry>();
  // What is practised apart is read all the same: its rows are to be told where they cannot be.
  const apart = new DayLog();
  const column = (of: (row: LogRow) => CellValue): CellValue[][] => log.map((row) => [of(row)]);
  let row = 0;
  const reading = readPracticeLog(
    {
      dates: column(({ date }) => date),
      athletes: column(({ athlete }) => athlete),
      tricks: column(({ trick }) => trick),
      stages: column(({ stage }) => stage),
      attempts: { marks: column(({ marks }) => marks) },
    },
    {
      length: log.length,
      plain: (raw) => plainValue(raw as CellValue),
      most: MOST_TOLD,
      names: LOG_HEADINGS,
      recordOf: (_, athlete, trick, stage) => {
        row += 1;
        if (stage !== undefined && isApart(stage)) return apart;
        const key = keyOf(athlete, trick);
        let entry = entries.get(key);
        if (!entry)
          entries.set(
            key,
            (entry = { athlete: athlete.trim(), trick: trick.trim(), record: new DayLog(), latestRow: 0 }),
          );
        entry.latestRow = row;
        return entry.record;
      },
    },
  );
  const practised = [...entries.values()]
    .filter(({ record }) => record.lastDay > 0)
    .sort((one, other) => other.record.lastDay - one.record.lastDay || other.latestRow - one.latestRow);
  return {
    reading,
    practised,
    recordOf: (athlete, trick) => {
      const record = entries.get(keyOf(athlete, trick))?.record;
      return record && record.lastDay > 0 ? record : undefined;
    },
  };
}
