/** A log whose rows are looked at one by one, each with its own attempts, where a board would put them into records. */
import { DayLog } from "./day-log";
import type { ReadingRules } from "./practice-log";
import { RowOfMarks } from "./row-of-marks";
import type { Stage } from "../trade/stages";

/** What a row of the log holds beside its attempts; "", 0 and undefined for a column that was not given. */
export interface RowRead {
  readonly day: number;
  readonly athlete: string;
  readonly trick: string;
  readonly stage: Stage | undefined;
  readonly noted: string;
}

/** Rules of a reading that tells `use` of each row that counts. The row's marks are good until the next one is told. */
export function rowByRow(use: (row: RowOfMarks, read: RowRead) => void): Pick<ReadingRules, "recordOf" | "rowRead"> {
  const all = new DayLog();
  const row = new RowOfMarks(all.asRead);
  return {
    recordOf: () => {
      row.begin();
      return all;
    },
    rowRead: (day, athlete, trick, stage, noted) => use(row, { day, athlete, trick, stage, noted }),
  };
}
