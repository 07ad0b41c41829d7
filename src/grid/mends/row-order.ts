/** In which order a sort puts rows: as spreadsheet programs do. */
import { CellValueType, type ICellData, type IRange, type Nullable, type Worksheet } from "@univerjs/core";
import { type IOrderRule, SortType } from "@univerjs/sheets-sort";

/**
 * From which row each row is to take its cells, or null if every row is in its place. Rows that a filter hides stay
 * where they are; rows that are equal keep the order that they had; empty rows come last.
 */
export function sortedOrder(
  sheet: Worksheet,
  { startRow, endRow, startColumn, endColumn }: IRange,
  rules: readonly IOrderRule[],
): Record<number, number> | null {
  const places: number[] = [];
  for (let row = startRow; row <= endRow; row += 1) {
    if (!sheet.getRowFiltered(row) && sheet.getRowRawVisible(row)) places.push(row);
  }
  const rows = places.map((row) => {
    const keys = rules.map(({ colIndex }) => sortKey(sheet.getCellRaw(row, colIndex)));
    let empty = keys.every(({ rank }) => rank === Rank.Blank);
    for (let column = startColumn; empty && column <= endColumn; column += 1) {
      empty = sortKey(sheet.getCellRaw(row, column)).rank === Rank.Blank;
    }
    return { row, keys, empty };
  });
  rows.sort((one, other) => {
    if (one.empty !== other.empty) return one.empty ? 1 : -1;
    for (const [index, { type }] of rules.entries()) {
      const [a, b] = [one.keys[index], other.keys[index]];
      if (!a || !b) continue;
      const difference = compareKeys(a, b, type === SortType.DESC);
      if (difference !== 0) return difference;
    }
    return one.row - other.row;
  });
  if (rows.every(({ row }, index) => row === places[index])) return null;
  return Object.fromEntries(rows.map(({ row }, index) => [places[index], row]));
}

/** As spreadsheet programs order different kinds of values. */
enum Rank {
  Number,
  Text,
  Truth,
  Error,
  Blank,
}

type SortKey =
  | { readonly rank: Rank.Number | Rank.Truth; readonly value: number }
  | { readonly rank: Rank.Text; readonly value: string }
  | { readonly rank: Rank.Error | Rank.Blank };

const errorNames = /^#(N\/A|[A-Z/]+[!?])$/;

function sortKey(cell: Nullable<ICellData>): SortKey {
  const value = cell?.p?.body?.dataStream.replace(/\r\n$/, "") ?? cell?.v;
  if (value === null || value === undefined || value === "") return { rank: Rank.Blank };
  if (cell?.t === CellValueType.BOOLEAN || typeof value === "boolean") {
    return { rank: Rank.Truth, value: Number(value) };
  }
  if (isNumber(value, cell?.t)) return { rank: Rank.Number, value: Number(value) };
  if ((cell?.f || cell?.si) && errorNames.test(String(value))) return { rank: Rank.Error };
  return { rank: Rank.Text, value: String(value) };
}

function isNumber(value: string | number, type: Nullable<CellValueType>): boolean {
  if (typeof value === "number") return type !== CellValueType.STRING && type !== CellValueType.FORCE_STRING;
  // A number that came as text without being said to be one.
  return type === CellValueType.NUMBER && Number.isFinite(Number(value));
}

/** The order of a dictionary, without regard to capitals: `É` beside `E`. */
const dictionary = new Intl.Collator(undefined, { sensitivity: "accent" });

function compareKeys(a: SortKey, b: SortKey, descending: boolean): number {
  // Gaps come last either way.
  if (a.rank === Rank.Blank || b.rank === Rank.Blank)
    return Number(a.rank === Rank.Blank) - Number(b.rank === Rank.Blank);
  const rising = risingOrder(a, b);
  return descending ? -rising : rising;
}

function risingOrder(a: SortKey, b: SortKey): number {
  if (a.rank === Rank.Text && b.rank === Rank.Text) return dictionary.compare(a.value, b.value);
  if (a.rank !== b.rank) return a.rank - b.rank;
  return "value" in a && "value" in b ? Number(a.value) - Number(b.value) : 0;
}
