/**
 * A workbook's seasons as rows for the federation's table, worked out by the same core as the cells: one row for each
 * athlete's trick as on the board, and one for each routine at a contest. Athletes are numbers within their workbook.
 */
import { BoardLog } from "../../core/board";
import { Problem } from "../../core/problem";
import type { Reason } from "../../core/readiness";
import { comparable } from "../../core/text";
import { readPracticeLog } from "../../core/practice-log";
import { dateOf, logCell, plainCell, readName, type Rows } from "../../functions/cells";
import { CONTEST, LOG_HEADINGS, PRACTICE } from "../../workbook/season/season";
import { readTableValues, type TableValues } from "./table-values";

/** Days between the two first days from which workbooks count. */
const DAYS_FROM_1900_TO_1904 = 1462;
/** Later than any day in a log: the board of everything. */
const NO_END = Infinity;

/** Rows left out that are told of one workbook; the others are only counted. */
const MOST_TOLD = 20;

export interface Measure {
  /** One standard for all workbooks, whatever a club's own setting is. */
  readonly standard: number;
  readonly setSize: number;
}

interface Row {
  readonly season: string;
  /** From 1, in the order in which the log meets them. */
  readonly athlete: number;
  readonly athleteName: string;
  /** Whole sheet serial of the 1900 system: the last day of practice, or the day of the contest. */
  readonly day: number;
}

export interface TrickRow extends Row {
  readonly record: "trick";
  readonly trick: string;
  readonly attempts: number;
  readonly bailsInLastSet: number;
  readonly lastSetCaught: number;
  readonly lastSetAttempts: number;
  /** As on the board: since the last slide, the latest attempts weighing most. */
  readonly recentRate: number;
  readonly low: number;
  readonly high: number;
  readonly chance: number;
  /** Since the last tally; null where the log ends with one. */
  readonly streak: number | null;
  readonly bestStreak: number | null;
  readonly status: string;
  /** Why the status is what it is, in the core's words for it. */
  readonly reason: Reason["kind"];
}

export interface ContestRow extends Row {
  readonly record: "contest";
  readonly tosses: number;
  readonly drops: number;
  readonly score: number | null;
  readonly penalties: number | null;
}

export type SeasonRow = TrickRow | ContestRow;

/** Why a workbook is left out, for the person who runs the analysis. */
export class WorkbookLeftOut extends Error {}

const SEASON_TABLE = /^(Practice|Contests)_(.+)$/;

/**
 * @param tellRow is handed a line for each row of practice that cannot be read and so is left out; the others count
 * @throws WorkbookLeftOut where it holds no season, or a contest that cannot be read, with sheet and row
 * @throws FileRefused where it is damaged or no workbook
 */
export function seasonRows(file: Uint8Array, measure: Measure, tellRow: (line: string) => void): readonly SeasonRow[] {
  const { tables, from1904 } = readTableValues(file, (name) => SEASON_TABLE.test(name));
  if (tables.length === 0) throw new WorkbookLeftOut("It holds no season: no table called Practice_… or Contests_….");
  const labels = [...new Set(tables.map(({ name }) => SEASON_TABLE.exec(name)?.[2] ?? ""))];
  const athletes = new Athletes();
  return labels.flatMap((season) => {
    const tableOf = (kind: string): TableValues | undefined => tables.find(({ name }) => name === `${kind}_${season}`);
    const [practice, contests] = [tableOf("Practice"), tableOf("Contests")];
    const dayOf = (serial: number): number => (from1904 ? serial + DAYS_FROM_1900_TO_1904 : serial);
    return [
      ...(practice ? within(practice, () => trickRows(practice, measure, season, athletes, dayOf, tellRow)) : []),
      ...(contests ? within(contests, () => contestRows(contests, season, athletes, dayOf)) : []),
    ];
  });
}

/**
 * The same text apart from where it was read: the engine keeps the whole part of the file as long as a piece of it is in
 * use, which for ten thousand workbooks is too much.
 */
function apart(text: string): string {
  return Buffer.from(text).toString();
}

class Athletes {
  private readonly numbers = new Map<string, number>();

  numberOf(name: string): number {
    const key = comparable(name);
    const known = this.numbers.get(key);
    if (known !== undefined) return known;
    this.numbers.set(key, this.numbers.size + 1);
    return this.numbers.size;
  }
}

/** What a cell function says of its argument, said of the sheet. */
function within<Answer>({ sheet, firstRow }: TableValues, work: () => Answer): Answer {
  try {
    return work();
  } catch (cause) {
    if (!(cause instanceof Problem)) throw cause;
    const { argument, row = 1, found, accepted } = cause.details;
    throw new WorkbookLeftOut(
      `${sheet}, row ${firstRow + row - 1}, ${argument}: found ${found}. Accepted: ${accepted}.`,
      { cause },
    );
  }
}

function columnOf({ sheet, headings, rows }: TableValues, heading: string): Rows {
  const place = headings.findIndex((found) => comparable(found) === comparable(heading));
  if (place < 0) throw new WorkbookLeftOut(`${sheet} has no column ${heading}.`);
  return rows.map((row) => [row[place] ?? ""]);
}

function trickRows(
  table: TableValues,
  { standard, setSize }: Measure,
  season: string,
  athletes: Athletes,
  dayOf: (serial: number) => number,
  tellRow: (line: string) => void,
): TrickRow[] {
  const log = new BoardLog();
  const reading = readPracticeLog(
    {
      dates: columnOf(table, PRACTICE.date),
      athletes: columnOf(table, PRACTICE.athlete),
      tricks: columnOf(table, PRACTICE.trick),
      stages: columnOf(table, PRACTICE.stage),
      attempts: { marks: columnOf(table, PRACTICE.marks) },
    },
    {
      length: table.rows.length,
      plain: logCell,
      most: MOST_TOLD,
      names: LOG_HEADINGS,
      recordOf: (day, athlete, trick, stage) => {
        athletes.numberOf(athlete);
        return log.recordOf(day, athlete, trick, stage, NO_END);
      },
    },
  );
  const { sheet, firstRow } = table;
  for (const { row, words } of reading.told) tellRow(`${sheet}, row ${firstRow + row - 1}: ${words}`);
  const others = reading.leftOut - reading.told.length;
  if (others > 0) tellRow(`${sheet}: and ${others} more rows`);
  return log.rows(standard, setSize).flatMap(({ athlete, trick, lastPractised, assessment }): TrickRow[] => {
    const { attempts, recentRate, recentInterval, chance, streaks, lastSet, status, reason } = assessment;
    if (recentRate === undefined || recentInterval === undefined || chance === undefined) return [];
    return [
      {
        record: "trick",
        season: apart(season),
        athlete: athletes.numberOf(athlete),
        athleteName: apart(athlete),
        day: dayOf(lastPractised),
        trick: apart(trick),
        attempts,
        bailsInLastSet: lastSet.bails,
        lastSetCaught: lastSet.caught,
        lastSetAttempts: lastSet.attempts,
        recentRate,
        low: recentInterval.low,
        high: recentInterval.high,
        chance,
        streak: streaks?.current ?? null,
        bestStreak: streaks?.best ?? null,
        status,
        reason: reason.kind,
      },
    ];
  });
}

function contestRows(
  table: TableValues,
  season: string,
  athletes: Athletes,
  dayOf: (serial: number) => number,
): ContestRow[] {
  const column = (heading: string): Rows => columnOf(table, heading);
  const [dates, names] = [column(CONTEST.date), column(CONTEST.athlete)];
  const [tosses, drops] = [column(CONTEST.tosses), column(CONTEST.drops)];
  const [scores, penalties] = [column(CONTEST.score), column(CONTEST.penalties)];
  return table.rows.flatMap((_, row): ContestRow[] => {
    if ([dates, names, tosses, drops].every((cells) => cells[row]?.[0] === "")) return [];
    const athleteName = readName(names, row, "Athlete").trim();
    const thrown = readCount(tosses, row, CONTEST.tosses);
    const dropped = readCount(drops, row, CONTEST.drops);
    if (dropped > thrown) {
      const found = `${dropped} drops of ${thrown} tosses`;
      throw new Problem({ argument: CONTEST.drops, row: row + 1, found, accepted: "no more drops than tosses" });
    }
    return [
      {
        record: "contest",
        season: apart(season),
        athlete: athletes.numberOf(athleteName),
        athleteName: apart(athleteName),
        day: dayOf(dateOf(plainCell(dates[row]?.[0], CONTEST.date, row + 1, 1), CONTEST.date, row + 1, 1)),
        tosses: thrown,
        drops: dropped,
        score: readPoints(scores, row, CONTEST.score),
        penalties: readPoints(penalties, row, CONTEST.penalties),
      },
    ];
  });
}

function readCount(rows: Rows, row: number, argument: string): number {
  const cell = plainCell(rows[row]?.[0], argument, row + 1, 1);
  if (typeof cell === "number" && Number.isInteger(cell) && cell >= 0 && cell <= 1_000_000) return cell;
  const found = typeof cell === "number" ? `the number ${cell}` : cell === null ? "an empty cell" : `"${String(cell)}"`;
  throw new Problem({ argument, row: row + 1, found, accepted: "a whole number from 0" });
}

function readPoints(rows: Rows, row: number, argument: string): number | null {
  const cell = plainCell(rows[row]?.[0], argument, row + 1, 1);
  if (cell === null || typeof cell === "number") return cell;
  throw new Problem({ argument, row: row + 1, found: `"${String(cell)}"`, accepted: "points, or nothing" });
}
