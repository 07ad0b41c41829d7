/** Rows among the others that add them up: a week's total with a date of its own. Counted, they would be counted twice. */
import { columnsFilled } from "./heading-rows";
import { lastRowOf, valueAt, type CellBlock } from "./cell-block";
import { namesSum, saysNoPractice } from "./heading-words";
import { columnOf, recordColumns, type LogMapping, type SumRows } from "./mapping";
import { comparable } from "../text";

export interface FoundSums {
  readonly rows: SumRows;
  /** Each text with how many rows say it; the first 20. */
  readonly texts: readonly { readonly text: string; readonly count: number }[];
}

const MOST_TEXTS = 20;
/** Longer texts are notes. */
const LONGEST = 40;

/** Null where no row with attempts says that it is a sum. */
export function findSums(block: CellBlock, mapping: LogMapping): FoundSums | null {
  const record = recordColumns(mapping.record);
  const [athlete, trick] = [columnOf(mapping.athlete), columnOf(mapping.trick)];
  const columns = new Set<number>();
  const texts = new Map<string, { readonly text: string; count: number }>();
  for (let row = mapping.firstRow; row <= lastRowOf(block); row += 1) {
    const isEmpty = record.every((column) => valueAt(block, row, column) === null);
    // Where an empty cell is an attempt, a free day would be a set of them.
    if (isEmpty && mapping.blank === null) continue;
    for (const column of columnsFilled(block, row)) {
      if (record.includes(column)) continue;
      const value = valueAt(block, row, column);
      if (typeof value !== "string" || value.length > LONGEST) continue;
      const isFree = isEmpty && saysNoPractice(value);
      if (
        !isFree &&
        (isEmpty || !namesSum(value, column === athlete ? "athlete" : column === trick ? "trick" : "other"))
      )
        continue;
      columns.add(column);
      const key = comparable(value);
      const known = texts.get(key) ?? { text: value.trim(), count: 0 };
      known.count += 1;
      texts.set(key, known);
      break;
    }
  }
  if (texts.size === 0) return null;
  const found = [...texts.values()].slice(0, MOST_TEXTS);
  return {
    rows: { columns: [...columns].sort((one, other) => one - other), texts: found.map(({ text }) => text) },
    texts: found,
  };
}
