/**
 * Which columns of a sheet belong to the log that the coach points at: those around the selected one up to the next
 * empty columns. A second list beside the log, such as the contests, is left out.
 */
import { lastColumnOf, lastRowOf, valueAt, type CellBlock } from "./cell-block";

/** Where something lies on a sheet. Both hosts count rows and columns from 0 here; what is answered counts alike. */
export interface SheetArea {
  readonly row: number;
  readonly column: number;
  readonly rows: number;
  readonly columns: number;
}

interface ColumnSpan {
  readonly first: number;
  readonly last: number;
}

/** Longer logs are told by their first rows: a column that is empty there is taken for a gap. */
export const ROWS_TOLD_BY = 60;
/** Further columns belong to no log. */
export const MOST_COLUMNS = 200;
/** A row of a log says when, who, what and how it went. */
const LEAST_COLUMNS = 3;

/**
 * The part of the used cells that a selection of several columns means, down to the last used row: what is added later
 * stands below, whatever is selected of it. Null where the selection is too narrow for a log: then the columns around
 * it are meant.
 */
export function selectedPart(selected: SheetArea, used: SheetArea): SheetArea | null {
  const row = Math.max(selected.row, used.row);
  const column = Math.max(selected.column, used.column);
  const columns = Math.min(selected.column + selected.columns, used.column + used.columns) - column;
  const rows = used.row + used.rows - row;
  if (columns < LEAST_COLUMNS || rows < 1) return null;
  return { row, column, rows, columns: Math.min(columns, MOST_COLUMNS) };
}

/**
 * @param top the sheet's first used rows, all used columns
 * @param selected the column of the selected cell; where it stands alone, as a title does, the widest group is taken
 */
export function columnsAround(top: CellBlock, selected: number): ColumnSpan | null {
  const groups = columnGroups(top);
  const around = groups.find(({ first, last }) => selected >= first && selected <= last);
  if (around && widthOf(around) >= LEAST_COLUMNS) return around;
  return [...groups].sort((one, other) => widthOf(other) - widthOf(one))[0] ?? null;
}

const widthOf = ({ first, last }: ColumnSpan): number => last - first + 1;

function columnGroups(top: CellBlock): readonly ColumnSpan[] {
  const groups: { first: number; last: number }[] = [];
  for (let column = top.column; column <= lastColumnOf(top); column += 1) {
    if (!isUsed(top, column)) continue;
    const group = groups.at(-1);
    if (group && (group.last === column - 1 || (group.last === column - 2 && holdsLike(top, group.last, column)))) {
      group.last = column;
    } else groups.push({ first: column, last: column });
  }
  return groups;
}

/**
 * Whether two columns hold the same few signs: among attempts side by side without a heading over each there may be a
 * column in which all were dropped, and which is empty.
 */
function holdsLike(top: CellBlock, one: number, other: number): boolean {
  const signsIn = (column: number): ReadonlySet<string> => {
    const signs = new Set<string>();
    for (let row = top.row; row <= lastRowOf(top); row += 1) {
      const value = valueAt(top, row, column);
      if (value !== null) signs.add(String(value).trim().toLowerCase());
    }
    return signs;
  };
  const [own, others] = [signsIn(one), signsIn(other)];
  return others.size <= MOST_SIGNS && [...others].every((sign) => sign.length <= LONGEST_SIGN && own.has(sign));
}

const MOST_SIGNS = 3;
const LONGEST_SIGN = 5;

function isUsed(top: CellBlock, column: number): boolean {
  for (let row = top.row; row <= lastRowOf(top); row += 1) {
    if (valueAt(top, row, column) !== null) return true;
  }
  return false;
}
