/**
 * Formulas that the file holds once for a whole block of cells: the first cell has it, the others only its number, and
 * each reads the cells that lie from it as the first one's lie from the first.
 */
import { columnLetters, LAST_COLUMN, LAST_ROW } from "../../core/sheet";
import { formulaTokens, type Token } from "./tokens";
import { columnIndex } from "../ranges";

/** One reference: a fixed part stays, the other moves along. */
interface Reference {
  readonly column?: { readonly number: number; readonly isFixed: boolean };
  readonly row?: { readonly number: number; readonly isFixed: boolean };
}

type Piece = string | Reference;

export interface ShiftedFormula {
  /** The formula for a cell so many rows below and columns right of the first one. */
  at(rows: number, columns: number): string;
}

const CELL = /^(\$?)([A-Za-z]{1,3})(\$?)([1-9]\d{0,6})$/;
const COLUMN = /^(\$?)([A-Za-z]{1,3})$/;
const ROW = /^(\$?)([1-9]\d{0,6})$/;

/** Reads the formula once, without its `=`; each cell's own is then put together quickly. */
export function shiftedFormula(formula: string): ShiftedFormula {
  const pieces = merged(referencePieces(formulaTokens(formula)));
  return {
    at: (rows, columns) =>
      pieces.map((piece) => (typeof piece === "string" ? piece : moved(piece, rows, columns))).join(""),
  };
}

function referencePieces(tokens: readonly Token[]): Piece[] {
  return tokens.map((token, index): Piece => {
    if (token.kind !== "word" && token.kind !== "number") return token.text;
    if (tokens[index + 1]?.kind === "columns") return token.text;
    const cell = token.kind === "word" ? CELL.exec(token.text) : null;
    if (cell !== null) {
      const [, columnSign, letters = "", rowSign, row = ""] = cell;
      const number = columnIndex(letters);
      if (number < 0 || Number(row) > LAST_ROW) return token.text;
      return {
        column: { number, isFixed: columnSign === "$" },
        row: { number: Number(row) - 1, isFixed: rowSign === "$" },
      };
    }
    const isEnd = isColon(tokens[index - 1]) || isColon(tokens[index + 1]);
    if (!isEnd) return token.text;
    // `$5` is read as a word for its sign, `5` as a number.
    const row = ROW.exec(token.text);
    if (row !== null) return { row: { number: Number(row[2]) - 1, isFixed: row[1] === "$" } };
    const column = COLUMN.exec(token.text);
    const number = column?.[2] === undefined ? -1 : columnIndex(column[2]);
    return column === null || number < 0 ? token.text : { column: { number, isFixed: column[1] === "$" } };
  });
}

function isColon(token: Token | undefined): boolean {
  return token?.kind === "sign" && token.text === ":";
}

function merged(pieces: readonly Piece[]): Piece[] {
  const result: Piece[] = [];
  for (const piece of pieces) {
    const last = result.at(-1);
    if (typeof piece === "string" && typeof last === "string") result[result.length - 1] = last + piece;
    else result.push(piece);
  }
  return result;
}

/** Letters by number, worked out once: a column of thousands of formulas asks for the same few. */
const letters: string[] = [];

function lettersOf(number: number): string {
  return (letters[number] ??= columnLetters(number + 1));
}

function moved({ column, row }: Reference, rows: number, columns: number): string {
  let text = "";
  if (column !== undefined) {
    const number = column.isFixed ? column.number : column.number + columns;
    if (number < 0 || number >= LAST_COLUMN) return "#REF!";
    text += `${column.isFixed ? "$" : ""}${lettersOf(number)}`;
  }
  if (row !== undefined) {
    const number = row.isFixed ? row.number : row.number + rows;
    if (number < 0 || number >= LAST_ROW) return "#REF!";
    text += `${row.isFixed ? "$" : ""}${number + 1}`;
  }
  return text;
}
