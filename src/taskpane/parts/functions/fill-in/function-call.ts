/** From what stands in the fields of a function to its formula. Knows nothing of the document. */
import { blockName } from "../../../../workbook/plan/address";
import { columnLetters, columnNumber, LAST_COLUMN, LAST_ROW } from "../../../../core/sheet";
import { quoteSheetName } from "../../../../workbook/plan/formula";
import type { Block } from "../../../../workbook/plan/schema";
import { dateOfSerial } from "../../../../core/log-layout/serial-days";
import type { FunctionHelp } from "../function-help";
import type { SelectedCells } from "../../../host/host";
import { numberFromText } from "../../../words/number-text";
import { texts } from "../../../words/texts";
import { wholeDayTyped } from "../../../words/typed-day";

/** Cells as they are written in a field: always with their sheet, so that one sees where they stand. */
export function cellsInWords({ sheet, block }: SelectedCells): string {
  return `${quoteSheetName(sheet)}!${addressOf(block)}`;
}

/** `B5:D9`; whole columns and rows as `B:D` and `5:9`, which grow with the sheet. */
function addressOf(block: Block): string {
  const { row, column, rows, columns } = block;
  if (row === 1 && rows >= LAST_ROW) return `${columnLetters(column)}:${columnLetters(column + columns - 1)}`;
  if (column === 1 && columns >= LAST_COLUMN) return `${String(row)}:${String(row + rows - 1)}`;
  return blockName(block);
}

const REFERENCE =
  /^(?:(?:'((?:[^']|'')+)'|([\p{L}\p{N}_.]+))!)?(\$?[A-Z]{1,3}\$?\d+(?::\$?[A-Z]{1,3}\$?\d+)?|\$?[A-Z]{1,3}:\$?[A-Z]{1,3}|\$?\d+:\$?\d+)$/iu;
const STRUCTURED = /^[\p{L}_\\][\p{L}\p{N}_.\\]*\[.+\]$/u;

interface Reference {
  /** Undefined where none is written: the sheet of the formula. */
  readonly sheet: string | undefined;
  /** Without the signs that hold it fast. */
  readonly block: Block;
  /** As typed, in capitals. */
  readonly address: string;
}

/** The cells that a text names, or null where it names none. */
export function referenceIn(text: string): Reference | null {
  const [, quoted, plain, typed] = REFERENCE.exec(text.trim()) ?? [];
  if (typed === undefined) return null;
  const address = typed.toUpperCase();
  const [first = "", last = first] = address.replaceAll("$", "").split(":");
  const [from, to] = [cornerOf(first, 1), cornerOf(last, 0)];
  if (from === null || to === null) return null;
  const [top, bottom] = [Math.min(from.row, to.row), Math.max(from.row, to.row)];
  const [left, right] = [Math.min(from.column, to.column), Math.max(from.column, to.column)];
  const sheet = quoted?.replaceAll("''", "'") ?? plain;
  return { sheet, address, block: { row: top, column: left, rows: bottom - top + 1, columns: right - left + 1 } };
}

/** One end of a block; a column alone reaches over all rows, a row alone over all columns. */
function cornerOf(text: string, end: 1 | 0): { readonly row: number; readonly column: number } | null {
  const [, letters = "", digits = ""] = /^([A-Z]*)(\d*)$/.exec(text) ?? [];
  const row = digits === "" ? (end === 1 ? 1 : LAST_ROW) : Number(digits);
  const column = letters === "" ? (end === 1 ? 1 : LAST_COLUMN) : columnNumber(letters);
  return row >= 1 && row <= LAST_ROW && column <= LAST_COLUMN ? { row, column } : null;
}

interface Filled {
  /** What stands in the field of each argument, in their order. */
  readonly typed: readonly string[];
  readonly target: string;
  /** The sheet in sight, where the target names none. */
  readonly activeSheet: string;
}

export type Call =
  | {
      readonly formula: string;
      readonly sheet: string;
      readonly cell: { readonly row: number; readonly column: number };
    }
  | {
      /** By argument; empty where nothing is wrong with it. */
      readonly problems: readonly string[];
      readonly targetProblem: string;
    };

/** The formula and its cell, or what is wrong with the fields. */
export function callFrom(help: FunctionHelp, { typed, target, activeSheet }: Filled): Call {
  const into = referenceIn(target);
  const single = into !== null && into.block.rows === 1 && into.block.columns === 1;
  const sheet = into?.sheet ?? activeSheet;
  const problems = help.parameters.map(({ optional, matrix }, index) => {
    const text = typed[index]?.trim() ?? "";
    if (text === "") return optional ? "" : texts.argumentMissing;
    if (text.startsWith('"') && quotedIn(text) === null) return texts.argumentQuotes;
    const cells = referenceIn(text);
    if (cells === null) return "";
    if (!matrix && (cells.block.rows > 1 || cells.block.columns > 1)) return texts.argumentOneCell(cells.address);
    const meets = single && same(cells.sheet ?? activeSheet, sheet) && holds(cells.block, into.block);
    return meets ? texts.argumentHoldsTarget(into.address) : "";
  });
  const targetProblem = single ? "" : texts.targetNotOne;
  if (!single || problems.some((problem) => problem !== "")) return { problems, targetProblem };
  const written = help.parameters.map((_, index) => argumentText(typed[index] ?? "", sheet, activeSheet));
  while (written.at(-1) === "") written.pop();
  return {
    formula: `=TWIRL.${help.id}(${written.join(",")})`,
    sheet,
    cell: { row: into.block.row, column: into.block.column },
  };
}

/** As it stands in the formula: cells with their sheet where it is another one, numbers with a point, days by DATE, words in quotes. */
function argumentText(typed: string, sheet: string, activeSheet: string): string {
  const text = typed.trim();
  if (text === "") return "";
  const cells = referenceIn(text);
  if (cells !== null) {
    const on = cells.sheet ?? activeSheet;
    return same(on, sheet) ? cells.address : `${quoteSheetName(on)}!${cells.address}`;
  }
  if (STRUCTURED.test(text) || quotedIn(text) !== null) return text;
  if (/^(true|false)$/i.test(text)) return text.toUpperCase();
  const percent = /^(.+?)\s*%$/.exec(text)?.[1];
  const number = numberFromText(percent ?? text);
  if (!Number.isNaN(number)) return percent === undefined ? String(number) : `${String(number)}%`;
  const day = wholeDayTyped(text);
  if (day !== null) return dateCall(day);
  return `"${text.replaceAll('"', '""')}"`;
}

/** A text is no day to the cell functions: whose computer reads it would decide which day it is. */
function dateCall(serial: number): string {
  const day = dateOfSerial(serial);
  return `DATE(${String(day.getUTCFullYear())},${String(day.getUTCMonth() + 1)},${String(day.getUTCDate())})`;
}

/** What stands between the quotes of a text that is written in quotes already, or null. */
function quotedIn(text: string): string | null {
  return /^"((?:[^"]|"")*)"$/.exec(text)?.[1] ?? null;
}

function same(one: string, other: string): boolean {
  return one.normalize("NFC").toLowerCase() === other.normalize("NFC").toLowerCase();
}

function holds(block: Block, cell: Block): boolean {
  return (
    cell.row >= block.row &&
    cell.row < block.row + block.rows &&
    cell.column >= block.column &&
    cell.column < block.column + block.columns
  );
}
