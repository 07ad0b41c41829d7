/**
 * Logs in which only one of the two is marked: a tick for caught and nothing for dropped. An empty cell may then mean
 * dropped, or that no attempt was made, and only the coach knows.
 */
import { AttemptLog, BAILED, CAUGHT, DROPPED } from "../attempt-log";
import { addMark, type Cell } from "../marks";
import { comparable } from "../text";
import { isError, valueAt, type CellBlock } from "./cell-block";
import { CAUGHT as KNOWN_CAUGHT, DROPPED as KNOWN_DROPPED } from "./mark-signs";
import { rewritten } from "./mark-writing";
import { recordColumns, type LogMapping } from "./mapping";

export interface BlankMeaning {
  /** What the one sign means. */
  readonly key: string | null;
  readonly blank: "caught" | "dropped" | null;
}

export interface LoneMarks {
  /** The one sign as it stands there; null where both kinds are marked and cells between them are empty. */
  readonly sign: string | null;
  readonly marked: number;
  /** Empty cells in rows that hold a mark, or, where there is one column, rows without one. */
  readonly empty: number;
  /** How many attempts each row then has. */
  readonly width: number;
  /** What it can mean; the coach has to say which. */
  readonly meanings: readonly BlankMeaning[];
}

/** A few cells may hold something else: they stay unreadable. */
const LEAST_ALIKE = 0.9;
/** Where both are marked a forgotten cell or two between others is nothing to ask about. */
const LEAST_GAPS = 3;
const LONGEST_SIGN = 12;

/**
 * @param isEntry whether a row says when, who and what
 * @returns null where nothing has to be asked
 */
export function findLoneMarks(
  block: CellBlock,
  mapping: LogMapping,
  isEntry: (row: number) => boolean,
): LoneMarks | null {
  if (mapping.record?.kind !== "marks") return null;
  const columns = recordColumns(mapping.record);
  const { signs, marked, empty, gaps } = countSigns(block, mapping, columns, isEntry);
  if (marked === 0 || empty === 0) return null;
  const common = { marked, empty, width: columns.length };
  const [most] = [...signs].sort(([, one], [, other]) => other.count - one.count);
  const areBoth = [...signs.keys()].some((sign) => most !== undefined && isOfOtherKind(sign, most[0]));
  if (most && !areBoth && most[1].count >= LEAST_ALIKE * marked && isOneMark(most[0], mapping.key)) {
    return { ...common, sign: most[1].sign, meanings: meaningsOf(most[0]) };
  }
  const read = outcomes(signs, mapping.key);
  if (read === null) return null;
  // Bails are few, and beside them only one of the two is marked.
  if (read.caught === 0 || read.dropped === 0) {
    const blank = read.caught === 0 ? "caught" : "dropped";
    return {
      ...common,
      sign: null,
      meanings: [
        { key: mapping.key, blank },
        { key: mapping.key, blank: null },
      ],
    };
  }
  if (gaps < LEAST_GAPS || gaps < read.dropped) return null;
  const both = (["dropped", "caught", null] as const).map((blank) => ({ key: mapping.key, blank }));
  return { ...common, sign: null, meanings: both };
}

interface SignsCounted {
  /** By the sign as compared: how it stands in the log, and how often. */
  readonly signs: Map<string, { readonly sign: string; count: number }>;
  readonly marked: number;
  readonly empty: number;
  /** Empty cells that stand before a mark of their row. */
  readonly gaps: number;
}

function countSigns(
  block: CellBlock,
  mapping: LogMapping,
  columns: readonly number[],
  isEntry: (row: number) => boolean,
): SignsCounted {
  const signs: SignsCounted["signs"] = new Map();
  let [marked, empty, gaps] = [0, 0, 0];
  for (let row = mapping.firstRow; row <= mapping.lastRow; row += 1) {
    if (!isEntry(row)) continue;
    const cells = columns.map((column) => valueAt(block, row, column));
    const filled = cells.filter((cell) => cell !== null).length;
    // A row without any mark is an athlete who was not there; in one column it is the drop itself.
    if (filled === 0 && columns.length > 1) continue;
    empty += columns.length - filled;
    let open = 0;
    for (const cell of cells) {
      if (cell === null) open += 1;
      else {
        gaps += open;
        open = 0;
        if (isError(cell)) continue;
        marked += 1;
        const key = signOf(typeof cell === "string" ? rewritten(cell, mapping.writing) : cell);
        const known = signs.get(key) ?? { sign: String(cell).trim(), count: 0 };
        known.count += 1;
        signs.set(key, known);
      }
    }
  }
  return { signs, marked, empty, gaps };
}

const signOf = (cell: string | number | boolean): string => comparable(String(cell).replace(/[\uFE0E\uFE0F]/g, ""));

/** One sign or word, and no run or tally of its own. */
function isOneMark(sign: string, key: string | null): boolean {
  if (key !== null) return false;
  if (sign.length > LONGEST_SIGN || /[\s,/]/.test(sign)) return false;
  if (/^\d+$/.test(sign)) return sign === "1" || sign === "0";
  return attemptsOf(sign) <= 1;
}

/** Whether one sign means caught and the other dropped wherever they are met. */
function isOfOtherKind(sign: string, other: string): boolean {
  const kind = (of: string): "caught" | "dropped" | null =>
    KNOWN_CAUGHT.has(of) || usualOutcome(of) === CAUGHT
      ? "caught"
      : KNOWN_DROPPED.has(of) || usualOutcome(of) === DROPPED
        ? "dropped"
        : null;
  const [one, two] = [kind(sign), kind(other)];
  return one !== null && two !== null && one !== two;
}

function attemptsOf(text: string): number {
  const log = new AttemptLog();
  return addMark(text, 2, 1, log) ? log.attempts : 0;
}

function meaningsOf(sign: string): readonly BlankMeaning[] {
  const caught: readonly BlankMeaning[] = [
    { key: caughtKey(sign), blank: "dropped" },
    { key: caughtKey(sign), blank: null },
  ];
  const dropped: readonly BlankMeaning[] = [
    { key: droppedKey(sign), blank: "caught" },
    { key: droppedKey(sign), blank: null },
  ];
  const usual = usualOutcome(sign);
  if (usual === CAUGHT || KNOWN_CAUGHT.has(sign)) return caught;
  if (usual === DROPPED || KNOWN_DROPPED.has(sign)) return dropped;
  return usual === BAILED ? [] : [...caught, ...dropped];
}

/** What the functions read in the sign without a key; null where they do not. */
function usualOutcome(sign: string): number | null {
  const log = new AttemptLog();
  const cell: Cell = sign === "true" ? true : sign === "false" ? false : sign;
  if (/^\d+$/.test(sign) || !addMark(cell, 2, 1, log) || log.entries !== 1) return null;
  return log.caught === 1 ? CAUGHT : log.outcomeAt(0) === BAILED ? BAILED : DROPPED;
}

/** A key has two signs: the other one is a letter that the log does not use. */
function caughtKey(sign: string): string | null {
  if (usualOutcome(sign) === CAUGHT) return null;
  return `${sign}/${sign === "1" ? "0" : "d"}`;
}

function droppedKey(sign: string): string | null {
  if (usualOutcome(sign) === DROPPED) return null;
  return `${sign === "0" ? "1" : "c"}/${sign}`;
}

/** What the log's marks say, all together; null where most cannot be read, or hold several attempts a cell. */
function outcomes(
  signs: ReadonlyMap<string, { readonly sign: string; readonly count: number }>,
  key: string | null,
): { readonly caught: number; readonly dropped: number } | null {
  if (key !== null) return keyed(signs, key);
  let [caught, dropped, other] = [0, 0, 0];
  for (const [sign, { count }] of signs) {
    const usual = attemptsOf(sign) === 1 ? usualOutcome(sign) : null;
    if (usual === CAUGHT || (usual === null && KNOWN_CAUGHT.has(sign))) caught += count;
    else if (usual === DROPPED || (usual === null && KNOWN_DROPPED.has(sign))) dropped += count;
    else if (usual !== BAILED) other += count;
  }
  return other > caught + dropped ? null : { caught, dropped };
}

function keyed(
  signs: ReadonlyMap<string, { readonly sign: string; readonly count: number }>,
  key: string,
): { readonly caught: number; readonly dropped: number } {
  const [caught = "", dropped = ""] = key.split("/").map((sign) => comparable(sign));
  return { caught: signs.get(caught)?.count ?? 0, dropped: signs.get(dropped)?.count ?? 0 };
}
