/**
 * The engine keeps, for each column of a sheet, which cells hold what, so that a comparison with one value need not look at
 * them again. It keeps an empty text as an empty cell, which it takes for nought as well, and a text of digits as its
 * number: a rate of nought is then no rate, and a trick called 180 the number. Only the first comparison, which reads the
 * cells, is right; the next one says otherwise. And a logical is said not to differ from a text.
 */
import {
  BooleanValueObject,
  CELL_INVERTED_INDEX_CACHE,
  ERROR_TYPE_SET,
  ICalculateFormulaService,
} from "@univerjs/engine-formula";
import { hasMethods, type Mend } from "./mend";

/** What the engine keeps of a column: the rows of each value; an empty cell's is a symbol. */
type Rows = ReadonlyMap<unknown, ReadonlySet<number>>;
type Spans = readonly (readonly [first: number, last: number])[];

interface Kept {
  set(unit: string, sheet: string, column: number, value: unknown, row: number, anew?: boolean): void;
  getCellValuePositions(unit: string, sheet: string, column: number): Rows | undefined;
  getCellPositions(
    unit: string,
    sheet: string,
    column: number,
    value: unknown,
    within: Spans,
  ): { readonly errorType: unknown; readonly matchingRows: readonly number[] } | undefined;
}

/** A logical beside a text or a number, both of which it comes after. */
interface Logicals {
  _compareString(operator: string): boolean;
}

const logicals = BooleanValueObject.prototype as unknown as Logicals;

const kept = CELL_INVERTED_INDEX_CACHE as unknown as Kept;

/** No cell's text begins so: what does is a text, and none else is. */
const TEXT = "\u0001";
const errors: ReadonlySet<unknown> = ERROR_TYPE_SET;

/** It is one for all grids of a page. */
let areKept = false;

export function keepKinds(): void {
  if (areKept) return;
  areKept = true;
  const beside = logicals._compareString;
  logicals._compareString = function (this: Logicals, operator) {
    return operator === "<>" || beside.call(this, operator);
  };
  const set = kept.set.bind(kept);
  const rowsOf = kept.getCellValuePositions.bind(kept);
  const positions = kept.getCellPositions.bind(kept);
  kept.set = (unit, sheet, column, value, row, anew) => {
    set(unit, sheet, column, marked(value), row, anew);
  };
  kept.getCellValuePositions = (unit, sheet, column) => {
    const rows = rowsOf(unit, sheet, column);
    return rows && new Map([...rows].map(([value, at]) => [unmarked(value), at]));
  };
  kept.getCellPositions = (unit, sheet, column, value, within) => {
    const rows = rowsOf(unit, sheet, column);
    if (rows === undefined || errors.has(value)) return positions(unit, sheet, column, value, within);
    const matching = alike(value, rows).flatMap((one) => [...(rows.get(one) ?? [])]);
    return { errorType: null, matchingRows: matching.filter((row) => within.some(([a, b]) => row >= a && row <= b)) };
  };
}

/** What a value equals: an empty cell is nought, no text and FALSE, and these three are not each other. */
function alike(value: unknown, rows: Rows): readonly unknown[] {
  const emptyCells = [...rows.keys()].filter((key) => typeof key === "symbol");
  if (value === null || value === undefined) return [...emptyCells, 0, TEXT, false];
  const own = typeof value === "string" ? marked(value).toLowerCase() : value === 0 ? 0 : value;
  return value === 0 || value === "" || value === false ? [own, ...emptyCells] : [own];
}

function marked(value: string): string;
function marked(value: unknown): unknown;
function marked(value: unknown): unknown {
  return typeof value === "string" && !errors.has(value) ? `${TEXT}${value}` : value;
}

function unmarked(value: unknown): unknown {
  return typeof value === "string" && value.startsWith(TEXT) ? value.slice(TEXT.length) : value;
}

/** For the list of mends. */
export const keptKinds: Mend<"injector"> = {
  name: "kept-kinds",
  why: "A comparison with an empty text is true of nought, and one with a number of a text of its digits, without a word.",
  until: "The engine keeps texts, numbers and empty cells apart.",
  isNeeded: (injector) =>
    hasMethods(injector.get(ICalculateFormulaService), "execute") &&
    hasMethods(kept, "set", "getCellValuePositions", "getCellPositions") &&
    hasMethods(logicals, "_compareString"),
  apply: keepKinds,
};
