/** A season as the pane reads it from the workbook: who practises what, the standard, and the log so far. */
import { USUAL_SET_SIZE, USUAL_STANDARD } from "../../trade/usual";
import { comparable } from "../../core/text";
import { cellName } from "../../workbook/plan/address";
import { PRACTICE, settingLimits, tableNames, WAY_HEADINGS } from "../../workbook/season/season";
import {
  ATHLETE_HEADING,
  CONDITION_HEADING,
  settingAddress,
  type SheetSetting,
} from "../../workbook/season/season-sheet";
import { TRICK_HEADING } from "../../workbook/season/tricks-sheet";
import type { CellValue, TableContent, WorkbookHost } from "../host/host";
import { texts } from "../words/texts";
import { type LogRow, practiceRecords, type PracticeRecords } from "./practice-records";

/** What stands behind `Practice_` in the name of a season's log: the label with `_` for spaces and hyphens. */
export type SeasonKey = string;

export interface SeasonData {
  readonly key: SeasonKey;
  /** The log's table and the sheet that it stands on. */
  readonly table: string;
  readonly sheet: string;
  readonly athletes: readonly string[];
  readonly tricks: readonly string[];
  /** The season's list of conditions; empty in a season from before there was one. */
  readonly conditions: readonly string[];
  /** The columns for how a set was done that this log lacks. */
  readonly lackingColumns: readonly string[];
  readonly standard: number;
  readonly setSize: number;
  /** The settings were not found where they belong, and the usual ones stand in for them. */
  readonly usualSettings: boolean;
  readonly log: readonly LogRow[];
  readonly records: PracticeRecords;
  /** Where a cell of the log stands, such as `Practice 2027!E11`. */
  readonly cellOf: (row: number, heading: string) => string;
}

/** The usual rule, 8 of 10. */
const usual = { standard: USUAL_STANDARD, setSize: USUAL_SET_SIZE };

/** The seasons of a workbook, in its tables' order: each has a log, a list of tricks and a list of athletes. */
export function seasonsAmong(tables: readonly string[]): readonly SeasonKey[] {
  const present = new Set(tables.map(comparable));
  const start = tableNames("").practice;
  return tables
    .filter((name) => comparable(name).startsWith(comparable(start)))
    .map((name) => name.slice(start.length))
    .filter((key) => {
      const names = tableNames(key);
      return key !== "" && [names.tricks, names.athletes].every((name) => present.has(comparable(name)));
    });
}

/** The key of the season with this label. */
export function seasonKey(label: string): SeasonKey {
  return tableNames(label).practice.slice(tableNames("").practice.length);
}

/** Reads a season. Its settings stand on the sheet of the athletes' table, whatever that sheet is called by now. */
export async function readSeason(host: WorkbookHost, key: SeasonKey): Promise<SeasonData> {
  const names = tableNames(key);
  const [athletes, tricks, practice] = await host.readTables([names.athletes, names.tricks, names.practice]);
  if (!athletes || !tricks || !practice) throw new Error(texts.hostMissing);
  const settings = await readSettings(host, athletes);
  const conditions = await readConditions(host, names.conditions);
  const log = logRows(practice, names.practice);
  return {
    key,
    table: names.practice,
    sheet: practice.sheet,
    athletes: namesIn(athletes, names.athletes, ATHLETE_HEADING),
    tricks: namesIn(tricks, names.tricks, TRICK_HEADING),
    conditions,
    lackingColumns: WAY_HEADINGS.filter((heading) => !practice.headings.includes(heading)),
    ...settings,
    log,
    records: practiceRecords(log),
    cellOf: (row, heading) => {
      const at = { row: practice.at.row + row, column: practice.at.column + column(practice, names.practice, heading) };
      return `${practice.sheet}!${cellName(at)}`;
    },
  };
}

/** The season with another state of its log. */
export function withLog(data: SeasonData, log: readonly LogRow[]): SeasonData {
  return { ...data, log, records: practiceRecords(log) };
}

/** The log alone, as it stands now. */
export async function readLog(host: WorkbookHost, table: string): Promise<readonly LogRow[]> {
  const [practice] = await host.readTables([table]);
  if (!practice) throw new Error(texts.hostMissing);
  return logRows(practice, table);
}

/** A season from before the list has none, and its coach types the words. */
async function readConditions(host: WorkbookHost, name: string): Promise<readonly string[]> {
  try {
    const [table] = await host.readTables([name]);
    return table?.headings.includes(CONDITION_HEADING) === true ? namesIn(table, name, CONDITION_HEADING) : [];
  } catch {
    return [];
  }
}

async function readSettings(
  host: WorkbookHost,
  athletes: TableContent,
): Promise<Pick<SeasonData, "standard" | "setSize" | "usualSettings">> {
  const setting = await readSettingValues(host, athletes);
  const [standard, setSize] = [setting("standard"), setting("setSize")];
  const found =
    isWithin(standard, settingLimits.standard) && isWithin(setSize, settingLimits.setSize) && Number.isInteger(setSize);
  return found ? { standard, setSize, usualSettings: false } : { ...usual, usualSettings: true };
}

/** What the season's settings hold, as they stand on the sheet: nothing of it is checked. */
export async function readSettingValues(
  host: WorkbookHost,
  { sheet, at }: TableContent,
): Promise<(setting: SheetSetting) => CellValue> {
  const [first, last] = [settingAddress("label"), settingAddress("dropCost")];
  // Rows that the coach put in above both have moved the settings as far as the table.
  const moved = at.row - (first.row - 1);
  const rows = last.row - first.row + 1;
  const block = await host.readBlock(sheet, { row: first.row + moved, column: first.column, rows, columns: 1 });
  return (setting) => block[settingAddress(setting).row - first.row]?.[0] ?? "";
}

export function isWithin(
  value: unknown,
  { least, most }: { readonly least: number; readonly most: number },
): value is number {
  return typeof value === "number" && value >= least && value <= most;
}

function column(table: TableContent, name: string, heading: string): number {
  const index = table.headings.indexOf(heading);
  if (index < 0) throw new Error(texts.tableLacksColumn(name, heading));
  return index;
}

function namesIn(table: TableContent, name: string, heading: string): readonly string[] {
  const at = column(table, name, heading);
  const found = new Map<string, string>();
  for (const row of table.rows) {
    const text = String(row[at] ?? "").trim();
    if (text !== "" && !found.has(comparable(text))) found.set(comparable(text), text);
  }
  return [...found.values()];
}

function logRows(table: TableContent, name: string): readonly LogRow[] {
  const at = (heading: string): number => column(table, name, heading);
  const [date, athlete, trick] = [at(PRACTICE.date), at(PRACTICE.athlete), at(PRACTICE.trick)];
  const [stage, marks] = [at(PRACTICE.stage), at(PRACTICE.marks)];
  const found = (heading: string): number => table.headings.indexOf(heading);
  const [entrance, exit, condition] = [found(PRACTICE.entrance), found(PRACTICE.exit), found(PRACTICE.condition)];
  const [minutes, note] = [found(PRACTICE.minutes), found(PRACTICE.note)];
  const text = (row: readonly CellValue[], index: number): string => String(row[index] ?? "").trim();
  return table.rows.map((row) => ({
    date: row[date] ?? "",
    athlete: text(row, athlete),
    trick: text(row, trick),
    stage: text(row, stage),
    marks: row[marks] ?? "",
    minutes: row[minutes] ?? "",
    entrance: text(row, entrance),
    exit: text(row, exit),
    condition: text(row, condition),
    note: text(row, note),
  }));
}

/** The spelling in the list of what was typed, or undefined where the list does not hold it. */
export function listed(names: readonly string[], typed: string): string | undefined {
  const key = comparable(typed);
  return names.find((name) => comparable(name) === key);
}
