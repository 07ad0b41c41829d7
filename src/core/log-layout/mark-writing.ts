/**
 * Marks that only need a sign changed to be read: `8 of 10`, `8:10`, `8,10`, `C-D-C`. Which one the log has is told from its cells;
 * the board's formulas change the same text.
 */
import { valueAt, type CellBlock } from "./cell-block";
import { recordColumns, type LogMapping, type MarkWriting } from "./mapping";

const TALLY_IN_WORDS = /^\d{1,4}(\s*[:,]\s*|\s+(?:of|out of|sur|von|aus|de|su|van|uit)\s+)\d{1,4}$/;
const PARTED = /^[cdb✓✗✔✘xo01](?:([-–.;|])[cdb✓✗✔✘xo01])+$/u;
/** Cells of another kind may stand between. */
const LEAST_SHARE = 0.5;

/** Null where the marks are written as the functions take them, or in no such way. */
export function findMarkWriting(
  block: CellBlock,
  { record, firstRow, lastRow }: Pick<LogMapping, "record" | "firstRow" | "lastRow">,
): MarkWriting | null {
  if (record?.kind !== "marks") return null;
  const texts: string[] = [];
  for (let row = firstRow; row <= lastRow; row += 1) {
    for (const column of recordColumns(record)) {
      const value = valueAt(block, row, column);
      if (typeof value === "string") texts.push(value.trim().toLowerCase());
    }
  }
  const found = new Map<string, { readonly writing: MarkWriting; count: number }>();
  for (const text of texts) {
    const writing = writingOf(text);
    if (writing === null) continue;
    const known = found.get(writing.text) ?? { writing, count: 0 };
    known.count += 1;
    found.set(writing.text, known);
  }
  const [most] = [...found.values()].sort((one, other) => other.count - one.count);
  if (!most || most.count < LEAST_SHARE * texts.length) return null;
  // A sign that also stands between others in another way is a mark itself, as a dash is for a drop.
  const { text: sign, by } = most.writing;
  if (by === "" && texts.some((text) => text.includes(sign) && writingOf(text)?.text !== sign)) return null;
  if (sign.trim() === "," && !areTallies(texts, sign)) return null;
  return most.writing;
}

/** Ones and noughts between commas are marks: numbers beyond them, none of the first larger than the second, are not. */
function areTallies(texts: readonly string[], sign: string): boolean {
  const pairs = texts.filter((text) => writingOf(text)?.text === sign).map((text) => text.split(sign).map(Number));
  return texts.some((text) => /[2-9]/.test(text)) && pairs.every(([caught = 0, attempts = 0]) => caught <= attempts);
}

function writingOf(text: string): MarkWriting | null {
  const tally = TALLY_IN_WORDS.exec(text)?.[1];
  if (tally !== undefined) return { text: tally, by: "/" };
  const parted = PARTED.exec(text)?.[1];
  return parted === undefined ? null : { text: parted, by: "" };
}

/** A text of marks as the functions take it. */
export function rewritten(text: string, writing: MarkWriting | null): string {
  return writing === null ? text : text.toLowerCase().split(writing.text).join(writing.by);
}
