/** The set that is being counted: what it holds, and how it becomes a row of the log. Knows nothing of the document. */
import { BAILED, CAUGHT, DROPPED, type Outcome } from "../../../core/attempt-log";
import { comparable } from "../../../core/text";
import { PRACTICE } from "../../../workbook/season/season";
import type { Content } from "../../../workbook/plan/schema";
import type { LogRow } from "../../season/practice-records";

/** As it is written in the log: caught, dropped, bailed. */
export type Mark = "c" | "d" | "b";

export const outcomes: Readonly<Record<Mark, Outcome>> = { c: CAUGHT, d: DROPPED, b: BAILED };

/** What the set is of. */
export interface Choice {
  readonly season: string;
  readonly athlete: string;
  readonly trick: string;
  readonly stage: string;
}

export interface SetInHand extends Choice {
  /** Tells this set from every other that is kept on this computer. */
  readonly id: string;
  /** The workbook that it belongs to. */
  readonly workbook: string;
  readonly marks: readonly Mark[];
  /** As typed. */
  readonly minutes: string;
  readonly entrance: string;
  readonly exit: string;
  readonly condition: string;
  readonly note: string;
  /** The day as typed; empty for the day of its first mark. */
  readonly dayTyped: string;
  /** Sheet serial of the day of its first mark; null before it. */
  readonly day: number | null;
  /**
   * Since the order to save was given, and until it is known what came of it: how many rows like this one the log held
   * before. Null otherwise.
   */
  readonly rowsBefore: number | null;
  /** When it was last changed, in milliseconds since 1970: of several kept sets the latest is the one in hand. */
  readonly changed: number;
}

/** A row in the making, as it will stand in the log. */
export interface SetRow extends Choice {
  readonly day: number;
  readonly marks: string;
  readonly minutes: number | null;
  readonly entrance: string;
  readonly exit: string;
  readonly condition: string;
  readonly note: string;
}

/** What may be written about a set besides its marks. */
export type SetWords = Pick<SetInHand, "minutes" | "entrance" | "exit" | "condition" | "note" | "dayTyped">;

const noWords: SetWords = { minutes: "", entrance: "", exit: "", condition: "", note: "", dayTyped: "" };

const wordNames = Object.keys(noWords) as (keyof SetWords)[];

export function newSet(id: string, workbook: string, choice: Choice): SetInHand {
  const { season, athlete, trick, stage } = choice;
  return {
    ...{ id, workbook, season, athlete, trick, stage },
    ...{ marks: [], ...noWords, day: null, rowsBefore: null, changed: 0 },
  };
}

/** Whether anything would be lost with it. */
export function holdsSomething(set: SetInHand): boolean {
  return set.marks.length > 0 || wordNames.some((name) => set[name].trim() !== "");
}

/** In groups of five, as coaches read them: `ccdcc ccccd`. */
export function marksInFives(marks: readonly Mark[]): string {
  return marks.join("").replace(/.{5}(?=.)/g, "$& ");
}

export function countOf(marks: readonly Mark[], mark: Mark): number {
  return marks.filter((one) => one === mark).length;
}

/** The row's cells by heading. What may be left out only where there is some: a log may lack those columns. */
export function cellsOf(row: SetRow): ReadonlyMap<string, Content> {
  const cells = new Map<string, Content>([
    [PRACTICE.date, { kind: "date", serial: row.day }],
    [PRACTICE.athlete, { kind: "text", text: row.athlete }],
    [PRACTICE.trick, { kind: "text", text: row.trick }],
    [PRACTICE.stage, { kind: "text", text: row.stage }],
    [PRACTICE.marks, { kind: "text", text: row.marks }],
  ]);
  if (row.minutes !== null) cells.set(PRACTICE.minutes, { kind: "number", value: row.minutes });
  for (const name of ["entrance", "exit", "condition", "note"] as const) {
    if (row[name] !== "") cells.set(PRACTICE[name], { kind: "text", text: row[name] });
  }
  return cells;
}

/** How many rows of the log are just like this one. */
export function rowsLike(log: readonly LogRow[], row: SetRow): number {
  const same = (one: string, other: string): boolean => comparable(one) === comparable(other);
  return log.filter(
    (logged) =>
      typeof logged.date === "number" &&
      Math.floor(logged.date) === row.day &&
      same(logged.athlete, row.athlete) &&
      same(logged.trick, row.trick) &&
      same(logged.stage, row.stage) &&
      logged.marks === row.marks &&
      logged.minutes === (row.minutes ?? "") &&
      logged.entrance === row.entrance &&
      logged.exit === row.exit &&
      logged.condition === row.condition &&
      logged.note === row.note,
  ).length;
}

/** The row as the log will be read back with it. */
export function loggedRow(row: SetRow): LogRow {
  const { day, athlete, trick, stage, marks, minutes, entrance, exit, condition, note } = row;
  return { date: day, athlete, trick, stage, marks, minutes: minutes ?? "", entrance, exit, condition, note };
}

/** A set as it was kept, or null where it is none. One that was kept before a field was thought of lacks it. */
export function setFromDraft(draft: unknown): SetInHand | null {
  if (typeof draft !== "object" || draft === null) return null;
  const found = { ...noWords, ...draft } as Partial<Record<keyof SetInHand, unknown>>;
  const { marks, day, rowsBefore, changed } = found;
  const words = [
    found.id,
    found.workbook,
    found.season,
    found.athlete,
    found.trick,
    found.stage,
    ...wordNames.map((name) => found[name]),
  ];
  const numbers = [day, rowsBefore].every((value) => value === null || Number.isInteger(value));
  if (!words.every((word) => typeof word === "string") || !numbers || typeof changed !== "number") return null;
  if (!Array.isArray(marks) || !marks.every((mark) => mark === "c" || mark === "d" || mark === "b")) return null;
  return found as unknown as SetInHand;
}

/** What the last set was of, or null. */
export function choiceFromDraft(draft: unknown): Choice | null {
  if (typeof draft !== "object" || draft === null) return null;
  const { season, athlete, trick, stage } = draft as Partial<Record<keyof Choice, unknown>>;
  if (![season, athlete, trick, stage].every((word) => typeof word === "string")) return null;
  return { season, athlete, trick, stage } as Choice;
}
