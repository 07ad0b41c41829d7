/** The federation's table as one Parquet file, by the library. */
import type { ColumnSource } from "hyparquet-writer";
import type { ContestRow, Measure, SeasonRow, TrickRow } from "./season-rows";

export interface ReadWorkbook {
  /** From 1, in the order of the files' names. */
  readonly number: number;
  readonly file: string;
  readonly rows: readonly SeasonRow[];
}

interface TableOptions extends Measure {
  /** Names of athletes and of files go into the table. */
  readonly withNames: boolean;
}

/** From the 1900 system's serials to days since 1 January 1970, as the format counts them. */
const SERIAL_OF_1970 = 25569;

interface Line {
  readonly workbook: ReadWorkbook;
  readonly row: SeasonRow;
}

type Cell = string | number | null;

interface Column {
  readonly name: string;
  readonly type: "INT32" | "DOUBLE" | "STRING" | "DATE";
  readonly of: (line: Line) => Cell;
}

const ofTrick =
  (read: (row: TrickRow) => Cell) =>
  ({ row }: Line): Cell =>
    row.record === "trick" ? read(row) : null;
const ofContest =
  (read: (row: ContestRow) => Cell) =>
  ({ row }: Line): Cell =>
    row.record === "contest" ? read(row) : null;

const COLUMNS: readonly Column[] = [
  { name: "workbook", type: "INT32", of: ({ workbook }) => workbook.number },
  { name: "season", type: "STRING", of: ({ row }) => row.season },
  { name: "record", type: "STRING", of: ({ row }) => row.record },
  { name: "athlete", type: "INT32", of: ({ row }) => row.athlete },
  { name: "day", type: "DATE", of: ({ row }) => row.day - SERIAL_OF_1970 },
  { name: "trick", type: "STRING", of: ofTrick(({ trick }) => trick) },
  { name: "attempts", type: "INT32", of: ofTrick(({ attempts }) => attempts) },
  { name: "last_set_caught", type: "INT32", of: ofTrick(({ lastSetCaught }) => lastSetCaught) },
  { name: "last_set_attempts", type: "INT32", of: ofTrick(({ lastSetAttempts }) => lastSetAttempts) },
  { name: "recent_rate", type: "DOUBLE", of: ofTrick(({ recentRate }) => recentRate) },
  { name: "low", type: "DOUBLE", of: ofTrick(({ low }) => low) },
  { name: "high", type: "DOUBLE", of: ofTrick(({ high }) => high) },
  { name: "chance", type: "DOUBLE", of: ofTrick(({ chance }) => chance) },
  { name: "streak", type: "INT32", of: ofTrick(({ streak }) => streak) },
  { name: "best_streak", type: "INT32", of: ofTrick(({ bestStreak }) => bestStreak) },
  { name: "bails_in_last_set", type: "INT32", of: ofTrick(({ bailsInLastSet }) => bailsInLastSet) },
  { name: "status", type: "STRING", of: ofTrick(({ status }) => status) },
  { name: "reason", type: "STRING", of: ofTrick(({ reason }) => reason) },
  { name: "tosses", type: "INT32", of: ofContest(({ tosses }) => tosses) },
  { name: "drops", type: "INT32", of: ofContest(({ drops }) => drops) },
  { name: "score", type: "DOUBLE", of: ofContest(({ score }) => score) },
  { name: "penalties", type: "DOUBLE", of: ofContest(({ penalties }) => penalties) },
];

const NAMES: readonly Column[] = [
  { name: "file", type: "STRING", of: ({ workbook }) => workbook.file },
  { name: "athlete_name", type: "STRING", of: ({ row }) => row.athleteName },
];

/** The whole file. The same workbooks give the same bytes. */
export async function parquetTable(workbooks: readonly ReadWorkbook[], options: TableOptions): Promise<Uint8Array> {
  // Published as an ES module only.
  const { ByteWriter, parquetWrite } = await import("hyparquet-writer");
  const lines = workbooks.flatMap((workbook) => workbook.rows.map((row) => ({ workbook, row })));
  const columns = options.withNames ? [...COLUMNS, ...NAMES] : COLUMNS;
  const columnData: ColumnSource[] = columns.map(({ name, of }) => ({ name, data: lines.map(of) }));
  const writer = new ByteWriter();
  await parquetWrite({
    writer,
    columnData,
    schema: [
      { name: "season", num_children: columns.length },
      ...columns.map(({ name, type }) => ({ name, repetition_type: "OPTIONAL" as const, ...PHYSICAL[type] })),
    ],
    kvMetadata: [
      { key: "standard", value: String(options.standard) },
      { key: "set size", value: String(options.setSize) },
    ],
    createdBy: "Twirl Ledger",
  });
  return new Uint8Array(writer.getBuffer());
}

const PHYSICAL = {
  INT32: { type: "INT32" },
  DOUBLE: { type: "DOUBLE" },
  STRING: { type: "BYTE_ARRAY", converted_type: "UTF8" },
  DATE: { type: "INT32", converted_type: "DATE" },
} as const;
