/**
 * Pieces of the guide's HTML. Every number in the text goes through `number` or `share`, which keep its full value beside
 * what is shown; a test reads the page and works each of them out again.
 */
import { MONTHS } from "../../core/day-text";
import { dateOfSerial } from "../../core/log-layout/serial-days";
import { escapeHtml } from "../html";
import type { Answer, Sheet, Value } from "./sheet";

/** How a number is shown. */
type Format = "general" | "whole" | "tenths" | "hundredths" | "percent" | "day";

function shown(value: Value, format: Format): string {
  if (typeof value === "string") return value;
  switch (format) {
    case "percent":
      return `${(100 * value).toFixed(0)} %`;
    case "whole":
      return value.toFixed(0);
    case "tenths":
      return value.toFixed(1);
    case "hundredths":
      return value.toFixed(2);
    case "day": {
      const day = dateOfSerial(value);
      return `${day.getUTCDate()} ${MONTHS[day.getUTCMonth()]?.slice(0, 3) ?? ""}`;
    }
    case "general":
      return String(value);
  }
}

function data(value: Value, format: Format): string {
  const text = escapeHtml(shown(value, format));
  return typeof value === "string" ? text : `<data value="${value}">${text.replace(" ", "\u00a0")}</data>`;
}

/** A number in the text. */
export function number(value: Value, format: Format = "general"): string {
  return data(value, format);
}

/** A share in the text, as a percentage. */
export function share(value: Value): string {
  return data(value, "percent");
}

export function paragraph(html: string): string {
  return `<p>${html}</p>`;
}

export function caution(html: string): string {
  return `<p class="caution"><b>Caution.</b> ${html}</p>`;
}

/** A block of the sheet, with the letters of its columns and the numbers of its rows; it is put into the sheet as well. */
export function block(sheet: Sheet, { caption, left, headings, rows, formats = [] }: Block): string {
  const columns = headings.map((_, index) => String.fromCharCode(left.charCodeAt(0) + index));
  const cell = (value: Value, column: number, row: number): string => {
    const address = `${columns[column] ?? ""}${row}`;
    sheet.put(address, value);
    return `<td data-cell="${address}">${data(value, formats[column] ?? "general")}</td>`;
  };
  return `<div class="wide"><table><caption>${escapeHtml(caption)}</caption>
<thead><tr><td></td>${columns.map((column) => `<th scope="col">${column}</th>`).join("")}</tr>
<tr><th scope="row">1</th>${headings.map((heading) => `<th scope="col">${escapeHtml(heading)}</th>`).join("")}</tr></thead>
<tbody>
${rows.map((values, index) => `<tr><th scope="row">${index + 2}</th>${values.map((value, column) => cell(value, column, index + 2)).join("")}</tr>`).join("\n")}
</tbody></table></div>`;
}

interface Block {
  readonly caption: string;
  /** The letter of the first column; the headings stand in row 1. */
  readonly left: string;
  readonly headings: readonly string[];
  readonly rows: readonly (readonly Value[])[];
  /** By column. */
  readonly formats?: readonly Format[];
}

/** A formula and what it shows. */
interface Asked {
  readonly html: string;
  readonly answer: Answer;
  /** The value beside a label, in an answer of two columns. */
  beside(label: string): Value;
  /** A value of an answer with rows and columns, from 0. */
  at(row: number, column: number): Value;
}

/** @param formats by column of the answer, or by label where it has two columns */
export function ask(sheet: Sheet, formula: string, formats: Readonly<Record<string, Format>> = {}): Asked {
  const answer = sheet.answer(formula);
  const rows = Array.isArray(answer) ? answer : [[answer]];
  const formatOf = (row: readonly Value[], column: number): Format =>
    formats[String(row[0])] ?? formats[String(column)] ?? "general";
  const cells = rows
    .map((row) => `<tr>${row.map((value, column) => `<td>${data(value, formatOf(row, column))}</td>`).join("")}</tr>`)
    .join("");
  const at = (row: number, column: number): Value => {
    const value = rows[row]?.[column];
    if (value === undefined) throw new Error(`${formula} has no row ${row} and column ${column}.`);
    return value;
  };
  return {
    html: `<div class="cell wide"><code>${escapeHtml(formula)}</code><table class="answer"><tbody>${cells}</tbody></table></div>`,
    answer,
    at,
    beside: (label) =>
      at(
        rows.findIndex(([first]) => first === label),
        1,
      ),
  };
}
