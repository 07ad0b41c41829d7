/** A log's rows one by one, read as the board reads them. */
import { plainValue, readPracticeLog } from "../../core/practice-log";
import { rowByRow } from "../../core/row-by-row";
import type { RowOfMarks } from "../../core/row-of-marks";
import type { Stage } from "../../trade/stages";
import { LOG_HEADINGS } from "../../workbook/season/season";
import type { CellValue } from "../host/host";
import type { LogRow } from "./practice-records";

type Use = (row: RowOfMarks, logged: LogRow, day: number, stage: Stage | undefined) => void;

/** Only those that can be read; the others are passed over. */
export function eachRow(rows: readonly LogRow[], use: Use): void {
  const cells = (of: (one: LogRow) => CellValue): CellValue[][] => rows.map((one) => [of(one)]);
  readPracticeLog(
    {
      dates: cells(({ date }) => date),
      athletes: cells(({ athlete }) => athlete),
      tricks: cells(({ trick }) => trick),
      stages: cells(({ stage }) => stage),
      // The row's own number comes back with it: rows that cannot be read are passed over.
      noted: { column: "ways", rows: rows.map((_, index) => [`#${String(index)}`]) },
      attempts: { marks: cells(({ marks }) => marks) },
    },
    {
      length: rows.length,
      plain: (raw) => plainValue(raw as CellValue),
      most: 0,
      names: LOG_HEADINGS,
      ...rowByRow((row, { day, stage, noted }) => {
        const logged = rows[Number(noted.slice(1))];
        if (logged) use(row, logged, day, stage);
      }),
    },
  );
}
