/** A season as its pictures need it: what the tables hold, as plain values. Nothing is worked out here. */
import { comparable } from "../../../core/text";
import type { LengthUnit } from "../../../core/toss";
import { settingLimits, tableNames } from "../../../workbook/season/season";
import { CONTEST } from "../../../workbook/season/contests-sheet";
import { LIMIT_FROM_TABLE, ROUTINE, SWAPS } from "../../../workbook/season/routine-sheet";
import { LANDING } from "../../../workbook/season/toss-lab-sheet";
import { TRICKS } from "../../../workbook/season/tricks-sheet";
import type { CellValue, TableContent, WorkbookHost } from "../../host/host";
import { isWithin, readSeason, readSettingValues, type SeasonData, type SeasonKey } from "../../season/season-data";

interface ContestDay {
  readonly date: number;
  readonly contest: string;
  readonly athlete: string;
}

interface LandingMark {
  readonly date: number | undefined;
  readonly athlete: string;
  readonly trick: string;
  readonly sideways: number;
  readonly forward: number;
}

interface RoutineLine {
  readonly trick: string;
  /** Undefined where the sheet has none. */
  readonly counts: number | undefined;
}

interface TrickToss {
  readonly trick: string;
  readonly counts: number;
  /** In the season's unit; 0 where nothing is typed. */
  readonly travel: number;
}

/** A trick that an athlete leaves out of the routine for another. */
interface SwapLine {
  readonly athlete: string;
  readonly out: string;
  readonly day: number;
  readonly isBack: boolean;
}

export interface PictureData {
  readonly season: SeasonData;
  /** Those with a day; none in a season from before there were swaps. */
  readonly swaps: readonly SwapLine[];
  readonly contests: readonly ContestDay[];
  readonly landings: readonly LandingMark[];
  readonly routine: readonly RoutineLine[];
  /** The longest time allowed, in seconds; undefined where none is set. */
  readonly limitSeconds: number | undefined;
  /** The tricks that have counts. */
  readonly tosses: readonly TrickToss[];
  /** Undefined where the sheet holds no such number. */
  readonly countsPerMinute: number | undefined;
  readonly ceiling: number | undefined;
  readonly releaseHeight: number;
  readonly clearance: number;
  readonly unit: LengthUnit;
}

/** As the Season sheet starts with: hands at about the breast, common practice, no source. */
const usualHeights = { m: { release: 1.5, clearance: 0.5 }, ft: { release: 5, clearance: 1.5 } } as const;
const mostSeconds = 3600;

/** Reads a season. A table that somebody has deleted counts as empty, apart from the three that make a season. */
export async function readPictures(host: WorkbookHost, key: SeasonKey): Promise<PictureData> {
  const season = await readSeason(host, key);
  const names = tableNames(key);
  const present = new Set((await host.namesInUse()).tables.map(comparable));
  const table = async (name: string): Promise<TableContent | undefined> =>
    present.has(comparable(name)) ? (await host.readTables([name]))[0] : undefined;
  const [athletes, tricks] = await host.readTables([names.athletes, names.tricks]);
  const [contests, landings, routine, swaps] = [
    await table(names.contests),
    await table(names.landings),
    await table(names.routine),
    await table(names.swaps),
  ];
  const setting = athletes ? await readSettingValues(host, athletes) : () => "";
  const unit: LengthUnit = setting("unit") === "ft" ? "ft" : "m";
  const numberIn = (value: CellValue, least: number, most: number): number | undefined =>
    isWithin(value, { least, most }) ? value : undefined;
  const limits = settingLimits.countsPerMinute;
  return {
    season,
    swaps: rowsOf(swaps).flatMap((row) => {
      const day = dayOf(row(SWAPS.day));
      const [athlete, out] = [words(row(SWAPS.athlete)), words(row(SWAPS.out))];
      return day === undefined ? [] : [{ athlete, out, day, isBack: words(row(SWAPS.back)) !== "" }];
    }),
    contests: rowsOf(contests).flatMap((row) => {
      const date = dayOf(row(CONTEST.date));
      return date === undefined
        ? []
        : [{ date, contest: words(row(CONTEST.contest)), athlete: words(row(CONTEST.athlete)) }];
    }),
    landings: rowsOf(landings).flatMap((row) => {
      const [sideways, forward] = [row(LANDING.sideways), row(LANDING.forward)];
      if (typeof sideways !== "number" || typeof forward !== "number") return [];
      const [athlete, trick] = [words(row(LANDING.athlete)), words(row(LANDING.trick))];
      return [{ date: dayOf(row(LANDING.date)), athlete, trick, sideways, forward }];
    }),
    routine: rowsOf(routine).flatMap((row) => {
      // A trick that is out has given its place to another; a routine from before knows no swaps.
      const trick = words(row(ROUTINE.now)) || words(row(ROUTINE.trick));
      return trick === "" ? [] : [{ trick, counts: numberIn(row(ROUTINE.counts), 0, 1000) }];
    }),
    limitSeconds: routine ? numberIn(await readLimit(host, routine), 1, mostSeconds) : undefined,
    tosses: rowsOf(tricks).flatMap((row) => {
      const [trick, counts] = [words(row(TRICKS.trick)), numberIn(row(TRICKS.counts), 0.1, 100)];
      return trick === "" || counts === undefined
        ? []
        : [{ trick, counts, travel: numberIn(row(TRICKS.travel), 0, 100) ?? 0 }];
    }),
    countsPerMinute: numberIn(setting("countsPerMinute"), limits.least, limits.most),
    ceiling: numberIn(setting("ceiling"), settingLimits.ceiling[unit].least, settingLimits.ceiling[unit].most),
    releaseHeight: numberIn(setting("releaseHeight"), 0, 10) ?? usualHeights[unit].release,
    clearance: numberIn(setting("clearance"), 0, 20) ?? usualHeights[unit].clearance,
    unit,
  };
}

async function readLimit(host: WorkbookHost, { sheet, at }: TableContent): Promise<CellValue> {
  const cell = { row: at.row + LIMIT_FROM_TABLE.rows, column: at.column + LIMIT_FROM_TABLE.columns };
  if (cell.row < 1) return "";
  const block = await host.readBlock(sheet, { ...cell, rows: 1, columns: 1 });
  return block[0]?.[0] ?? "";
}

/** Each row as a look-up by heading; a column that is gone is empty. */
function rowsOf(table: TableContent | undefined): readonly ((heading: string) => CellValue)[] {
  if (!table) return [];
  const columns = new Map(table.headings.map((heading, index) => [heading, index]));
  return table.rows.map((row) => (heading) => row[columns.get(heading) ?? -1] ?? "");
}

function words(value: CellValue): string {
  return String(value).trim();
}

/** A day that a sheet counts; a text that looks like one is none. */
function dayOf(value: CellValue): number | undefined {
  return typeof value === "number" && value >= 1 && value < 200_000 ? Math.floor(value) : undefined;
}
