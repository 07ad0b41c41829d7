/**
 * What a Gym sheet has come to, back into the log: the marks that were typed over its boxes, set by set. All or nothing is
 * read: while one cell cannot be, nothing is logged and every such cell is told. What the log holds already is not logged
 * again, so that the button may be pressed twice, and after a set that was counted in the pane.
 */
import { acceptedDay, type LeftOutRow, plainValue, readPracticeLog } from "../../../core/practice-log";
import { rowByRow } from "../../../core/row-by-row";
import { comparable } from "../../../core/text";
import { MOST_MINUTES } from "../../../trade/limits";
import { USUAL_STAGE } from "../../../trade/usual";
import { cellName } from "../../../workbook/plan/address";
import { date, number, text } from "../../../workbook/plan/cell-plans";
import type { Content } from "../../../workbook/plan/schema";
import { BOX, GYM, GYM_SETS } from "../../../workbook/season/gym-sheet";
import { LOG_HEADINGS, PRACTICE } from "../../../workbook/season/season";
import type { CellValue, WorkbookHost } from "../../host/host";
import type { LogRow } from "../../season/practice-records";

/** A set as it stands on the sheet. */
interface GymSet {
  readonly day: number;
  readonly athlete: string;
  readonly trick: string;
  readonly marks: string;
  /** With the first set of a line. */
  readonly minutes: number | null;
  readonly note: string;
}

interface GymReading {
  readonly sets: readonly GymSet[];
  /** Cells that cannot be read, such as `Gym 2027!C7`, each with its reason. */
  readonly faults: readonly string[];
}

/** More lines than any practice has. */
const MOST_LINES = 500;

interface PlacedSet extends GymSet {
  readonly row: number;
  readonly column: number;
}

export async function readGymSheet(host: WorkbookHost, sheet: string): Promise<GymReading> {
  const rows = await host.readBlock(sheet, {
    row: GYM.dayRow,
    column: 1,
    rows: GYM.headingRow - GYM.dayRow + 1 + MOST_LINES,
    columns: GYM.minutesColumn + 1,
  });
  const faults: string[] = [];
  const fault = (row: number, column: number, words: string): void => {
    faults.push(`${sheet}!${cellName({ row, column })}: ${words}`);
  };
  const day = rows[0]?.[GYM.dayColumn - 1] ?? "";
  const isDay = typeof day === "number" && day >= 1;
  if (!isDay)
    fault(GYM.dayRow, GYM.dayColumn, `found ${day === "" ? "no day" : String(day)}. Accepted: ${acceptedDay(day)}.`);
  const sets = rows
    .slice(GYM.headingRow - GYM.dayRow + 1)
    .flatMap((cells, index) => setsOf(cells, GYM.headingRow + 1 + index, isDay ? Math.floor(day) : 1, fault));
  for (const { row, words } of unreadable(sets)) {
    const set = sets[row - 1];
    if (set) fault(set.row, set.column, words);
  }
  return { sets, faults };
}

/** The sets of one line: a cell of boxes alone is none. */
function setsOf(
  cells: readonly CellValue[],
  row: number,
  day: number,
  fault: (row: number, column: number, words: string) => void,
): readonly PlacedSet[] {
  const words = (column: number): string => String(cells[column - 1] ?? "").trim();
  const minutes = cells[GYM.minutesColumn - 1] ?? "";
  const isMinutes = typeof minutes === "number" && minutes >= 0 && minutes <= MOST_MINUTES;
  if (minutes !== "" && !isMinutes) fault(row, GYM.minutesColumn, `found ${String(minutes)}. Accepted: minutes from 0 to ${String(MOST_MINUTES)}, or nothing.`); // prettier-ignore
  return Array.from({ length: GYM_SETS }, (_, set) => GYM.setColumn + set)
    .map((column) => ({ column, marks: words(column).replaceAll(BOX, "").trim() }))
    .filter(({ marks }) => marks !== "")
    .map(({ column, marks }, index) => ({
      ...{ row, column, day, marks },
      athlete: words(GYM.athleteColumn),
      trick: words(GYM.trickColumn),
      minutes: index === 0 && isMinutes ? minutes : null,
      note: index === 0 ? words(GYM.minutesColumn + 1) : "",
    }));
}

function unreadable(sets: readonly GymSet[]): readonly LeftOutRow[] {
  const column = (of: (set: GymSet) => CellValue): CellValue[][] => sets.map((set) => [of(set)]);
  return readPracticeLog(
    {
      dates: column(({ day }) => day),
      athletes: column(({ athlete }) => athlete),
      tricks: column(({ trick }) => trick),
      attempts: { marks: column(({ marks }) => marks) },
    },
    {
      length: sets.length,
      plain: (raw) => plainValue(raw as CellValue),
      most: sets.length,
      names: LOG_HEADINGS,
      ...rowByRow(() => undefined),
    },
  ).told;
}

/** Those of the sets that the log does not hold yet, in their order. */
export function notLogged(sets: readonly GymSet[], log: readonly LogRow[]): readonly GymSet[] {
  const left = new Map<string, number>();
  for (const row of log) {
    const key = keyOf(row.date, row.athlete, row.trick, String(row.marks));
    left.set(key, (left.get(key) ?? 0) + 1);
  }
  return sets.filter(({ day, athlete, trick, marks }) => {
    const key = keyOf(day, athlete, trick, marks);
    const logged = left.get(key) ?? 0;
    if (logged > 0) left.set(key, logged - 1);
    return logged === 0;
  });
}

/** Marks are the same however they are spaced. */
function keyOf(day: CellValue, athlete: string, trick: string, marks: string): string {
  return [String(day), comparable(athlete), comparable(trick), comparable(marks).replace(/[\s,]/g, "")].join("\n");
}

/** The cells of a row of the log, by their headings. */
export function rowOf({ day, athlete, trick, marks, minutes, note }: GymSet): ReadonlyMap<string, Content> {
  return new Map<string, Content>([
    [PRACTICE.date, date(day)],
    [PRACTICE.athlete, text(athlete)],
    [PRACTICE.trick, text(trick)],
    [PRACTICE.stage, text(USUAL_STAGE)],
    [PRACTICE.marks, text(marks)],
    ...(minutes === null ? [] : [[PRACTICE.minutes, number(minutes)] as const]),
    ...(note === "" ? [] : [[PRACTICE.note, text(note)] as const]),
  ]);
}
