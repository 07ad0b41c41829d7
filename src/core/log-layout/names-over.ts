/**
 * Logs in blocks: an athlete's name stands alone in a row, and the rows below it, often with the headings once more, are
 * hers up to the next name.
 */
import { isError, lastRowOf, valueAt, type CellBlock } from "./cell-block";
import { namesTotals } from "./heading-words";
import { columnsFilled } from "./heading-rows";
import type { LogMapping } from "./mapping";
import { columnOf, recordColumns } from "./mapping";
import { comparable } from "../text";
import { isDayInForm, saysDay } from "./date-text";

export interface NamesOver {
  readonly column: number;
  /** Each once, as they stand there. */
  readonly names: readonly string[];
  /** The row of the first one. */
  readonly firstRow: number;
}

const LONGEST_NAME = 40;

/** Whether a row holds a name alone: a text in that column, and nothing among the attempts and the days. */
export function isNameOver(
  block: CellBlock,
  mapping: Pick<LogMapping, "date" | "dateText" | "athlete" | "trick" | "stage" | "record">,
  row: number,
  column: number,
): boolean {
  const value = valueAt(block, row, column);
  if (typeof value !== "string") return false;
  if (mapping.dateText !== null && isDayInForm(value, mapping.dateText)) return false;
  return emptyBesideName(mapping, column).every((one) => valueAt(block, row, one) === null);
}

/** The columns of a log that are empty in a row of a name alone. */
function emptyBesideName(
  { date, athlete, trick, stage, record }: Pick<LogMapping, "date" | "athlete" | "trick" | "stage" | "record">,
  over: number,
): readonly number[] {
  const columns = [date, columnOf(athlete), columnOf(trick), stage, ...recordColumns(record)];
  return columns.filter((column): column is number => column !== null && column !== over);
}

/**
 * The names over the blocks of a log; null where there are fewer than two. They may begin above the first headings.
 * @param headingRows so that headings written once more are told from names
 */
export function findNamesOver(
  block: CellBlock,
  mapping: Pick<LogMapping, "date" | "record" | "firstRow" | "lastRow">,
  headingRows: readonly number[],
): NamesOver | null {
  const byColumn = new Map<number, { readonly row: number; readonly name: string }[]>();
  for (let row = block.row; row <= Math.min(mapping.lastRow, lastRowOf(block)); row += 1) {
    const filled = columnsFilled(block, row);
    const [column] = filled;
    if (column === undefined || filled.length !== 1 || headingRows.includes(row)) continue;
    const value = valueAt(block, row, column);
    if (isError(value) || typeof value !== "string" || value.length > LONGEST_NAME) continue;
    if (saysDay(value) || namesTotals(value)) continue;
    byColumn.set(column, [...(byColumn.get(column) ?? []), { row, name: value.trim() }]);
  }
  const [most] = [...byColumn].sort(([, one], [, other]) => other.length - one.length);
  if (!most) return null;
  const [column, found] = most;
  // The title of the whole sheet stands above, with another row of its own before the headings.
  const lastTitle = found.filter(({ row }) => row < mapping.firstRow).at(-1);
  const names = found.filter((one) => one.row >= mapping.firstRow || one === lastTitle);
  const distinct = new Set(names.map(({ name }) => comparable(name)));
  const [first] = names;
  if (distinct.size < 2 || first === undefined) return null;
  return { column, names: [...new Set(names.map(({ name }) => name))], firstRow: first.row };
}
