/**
 * A table of text: .csv, .tsv, .txt. Nothing in it is guessed: a number is one where it can be nothing else, a day only in
 * the order that every country reads alike, and all else stays the text that it is: `1/10`, `3/4/2026`, `=A1`, `+1 spin`.
 */
import Papa from "papaparse";

import { isDay } from "../../../core/log-layout/date-text";
import { serialOfDate } from "../../../core/log-layout/serial-days";
import { FileRefused, refuse } from "../../../xlsx/package/file-refused";
import { limits } from "../../../xlsx/package/limits";
import { decodedText } from "./decoded-text";
import type { OtherCell, PlacedCell } from "./sheet-of-cells";

const SEPARATORS = [",", ";", "\t", "|"];
const MOST_ROWS = 1_048_576;
const MOST_COLUMNS = 16_384;
/** The longest text that a cell of a workbook holds. */
const LONGEST_TEXT = 32_767;

const NOT_CLOSED = (row: number): string =>
  `In line ${String(row)} of this file a quotation mark is opened and never closed, so its cells cannot be told apart.`;
const NO_TABLE = "This file holds no table of text.";
const LONG_CELL = "A cell of this file holds more text than a spreadsheet can.";

/** @throws FileRefused where the bytes are no table of text of a size that this page opens */
export function readCsv(bytes: Uint8Array): readonly PlacedCell[] {
  if (bytes.length > limits.fileBytes) refuse("tooLarge");
  const text = decodedText(bytes);
  if (text.trim() === "") refuse("empty");
  // eslint-disable-next-line no-control-regex
  if (/[\u0000-\u0008\u000E-\u001F]/.test(text)) throw new FileRefused(NO_TABLE);
  const rows = tableOf(text);
  const decimal = decimalSign(rows);
  const cells: PlacedCell[] = [];
  if (rows.length > MOST_ROWS) refuse("tooManyRows");
  rows.forEach((row, at) => {
    if (row.length > MOST_COLUMNS) refuse("tooManyRows");
    row.forEach((value, index) => {
      if (value === "") return;
      if (value.length > LONGEST_TEXT) throw new FileRefused(LONG_CELL);
      if (cells.length >= limits.cells) refuse("tooManyCells");
      cells.push({ row: at + 1, column: index + 1, cell: cellOf(value, decimal) });
    });
  });
  return cells;
}

/** Some programs name the separator in a line of its own. */
const NAMED_SEPARATOR = /^sep=(.)\r?\n/i;

function tableOf(text: string): readonly (readonly string[])[] {
  const named = NAMED_SEPARATOR.exec(text);
  const { data, errors } = Papa.parse<string[]>(named === null ? text : text.slice(named[0].length), {
    delimiter: named?.[1] ?? "",
    delimitersToGuess: SEPARATORS,
    skipEmptyLines: false,
  });
  const open = errors.find(({ code }) => code === "MissingQuotes");
  if (open) throw new FileRefused(NOT_CLOSED((open.row ?? 0) + 1 + (named === null ? 0 : 1)));
  return data;
}

const WHOLE = /^-?(?:0|[1-9]\d{0,14})$/;
const WITH_POINT = /^-?(?:0|[1-9]\d{0,11})\.\d{1,12}$/;
const WITH_COMMA = /^-?(?:0|[1-9]\d{0,11}),\d{1,12}$/;

/** The sign of the decimals; null where both are met, and neither is sure. */
function decimalSign(rows: readonly (readonly string[])[]): "." | "," | null {
  const has = (form: RegExp): boolean => rows.some((row) => row.some((value) => form.test(value.trim())));
  const [point, comma] = [has(WITH_POINT), has(WITH_COMMA)];
  if (point && comma) return null;
  return comma ? "," : ".";
}

const INTERNATIONAL_DAY = /^(\d{4})-(\d{2})-(\d{2})$/;

function cellOf(value: string, decimal: "." | "," | null): OtherCell {
  const plain = value.trim();
  if (WHOLE.test(plain)) return { kind: "number", value: Number(plain) };
  if (decimal !== null && (decimal === "." ? WITH_POINT : WITH_COMMA).test(plain)) {
    return { kind: "number", value: Number(plain.replace(",", ".")), format: "number" };
  }
  const day = INTERNATIONAL_DAY.exec(plain);
  if (day) {
    const [year, month, date] = [Number(day[1]), Number(day[2]), Number(day[3])];
    if (isDay(year, month, date)) return { kind: "date", serial: serialOfDate(year, month, date) };
  }
  return { kind: "text", text: value };
}
