/**
 * An OpenDocument spreadsheet's cells: what each shows and holds. Formulas come as their last answers, and looks, notes and
 * pictures not at all. The package is a zip like a workbook's, read under the same limits.
 */
import { serialOfDate } from "../../../core/log-layout/serial-days";
import { refuse } from "../../../xlsx/package/file-refused";
import { limits } from "../../../xlsx/package/limits";
import type { WorkbookPackage } from "../../../xlsx/package/workbook-package";
import { parseXml, type XmlElement } from "../../../xlsx/xml/tree";
import type { OtherCell, PlacedCell } from "./sheet-of-cells";

interface OtherSheet {
  readonly name: string;
  readonly cells: readonly PlacedCell[];
  readonly formulas: number;
}

const MIME = "application/vnd.oasis.opendocument.spreadsheet";
const MOST_ROWS = 1_048_576;
const MOST_COLUMNS = 16_384;

export function isOpenDocument(source: WorkbookPackage): boolean {
  return source.has("mimetype") && source.text("mimetype").startsWith(MIME);
}

/** @throws FileRefused where the package is damaged, encrypted or too large */
export function readOds(source: WorkbookPackage): readonly OtherSheet[] {
  if (source.has("META-INF/manifest.xml") && source.text("META-INF/manifest.xml").includes("encryption-data")) {
    refuse("encrypted");
  }
  const content = source.text("content.xml");
  const sheets: OtherSheet[] = [];
  const budget = { cells: limits.cells, characters: limits.cellCharacters };
  parseXml(content, {
    parent: "body",
    each: ({ children }) => {
      for (const table of children) if (table.name === "table") sheets.push(readTable(table, content, budget));
    },
  });
  if (sheets.length === 0) refuse("noSheet");
  return sheets;
}

interface CellBudget {
  cells: number;
  characters: number;
}

/** An attribute by its name without the prefix. */
function attribute({ attributes }: XmlElement, name: string): string | undefined {
  const found = Object.keys(attributes).find((key) => key === name || key.endsWith(`:${name}`));
  return found === undefined ? undefined : attributes[found];
}

function repeats(element: XmlElement, name: string): number {
  const count = Number(attribute(element, name) ?? 1);
  return Number.isInteger(count) && count >= 1 ? count : 1;
}

/** Rows may lie in groups and under headings of printed pages. */
function* rowsOf(element: XmlElement): Generator<XmlElement> {
  for (const child of element.children) {
    if (child.name === "table-row") yield child;
    else if (/^table-(?:row-group|header-rows|rows)$/.test(child.name)) yield* rowsOf(child);
  }
}

function readTable(table: XmlElement, content: string, budget: CellBudget): OtherSheet {
  const cells: PlacedCell[] = [];
  let [row, formulas] = [1, 0];
  for (const element of rowsOf(table)) {
    const times = repeats(element, "number-rows-repeated");
    const own: { readonly column: number; readonly cell: OtherCell }[] = [];
    let column = 1;
    for (const cell of element.children) {
      if (cell.name !== "table-cell" && cell.name !== "covered-table-cell") continue;
      const wide = repeats(cell, "number-columns-repeated");
      const read = cell.name === "table-cell" ? readCell(cell, content) : null;
      if (read !== null) {
        if (attribute(cell, "formula") !== undefined) formulas += 1;
        if (column + wide - 1 > MOST_COLUMNS) refuse("tooManyRows");
        spend(budget, wide * times, read);
        for (let at = 0; at < wide; at += 1) own.push({ column: column + at, cell: read });
      }
      column += wide;
    }
    if (own.length > 0) {
      if (row + times - 1 > MOST_ROWS) refuse("tooManyRows");
      for (let at = 0; at < times; at += 1) cells.push(...own.map((one) => ({ row: row + at, ...one })));
    }
    row += times;
  }
  return { name: attribute(table, "name") ?? "", cells, formulas };
}

/** One cell may be written for millions. */
function spend(budget: CellBudget, times: number, cell: OtherCell): void {
  budget.cells -= times;
  if (budget.cells < 0) refuse("tooManyCells");
  if (cell.kind === "text") budget.characters -= times * cell.text.length;
  if (budget.characters < 0) refuse("tooMuchText");
}

function readCell(cell: XmlElement, content: string): OtherCell | null {
  const type = attribute(cell, "value-type");
  const shown = shownText(cell, content);
  if (type === "float" || type === "currency" || type === "percentage") {
    const value = Number(attribute(cell, "value"));
    if (!Number.isFinite(value)) return shown === "" ? null : { kind: "text", text: shown };
    return { kind: "number", value, ...(type === "percentage" ? { format: "percent" as const } : {}) };
  }
  if (type === "date") {
    const serial = serialOf(attribute(cell, "date-value") ?? "");
    if (serial !== null) return { kind: "date", serial };
  }
  if (type === "boolean") return { kind: "text", text: attribute(cell, "boolean-value") === "true" ? "TRUE" : "FALSE" };
  const text = type === "string" ? (attribute(cell, "string-value") ?? shown) : shown;
  return text === "" ? null : { kind: "text", text };
}

const DATE_VALUE = /^(\d{4})-(\d{2})-(\d{2})(?:T.*)?$/;
const FIRST_YEAR = 1901;
const LAST_YEAR = 9999;

function serialOf(value: string): number | null {
  const found = DATE_VALUE.exec(value);
  if (!found) return null;
  const [year, month, date] = [Number(found[1]), Number(found[2]), Number(found[3])];
  // Before March 1900 the two kinds of program count days in two ways.
  return year >= FIRST_YEAR && year <= LAST_YEAR ? serialOfDate(year, month, date) : null;
}

/** What stands in the cell's paragraphs, in its order; a note on the cell is none of it. */
function shownText(cell: XmlElement, content: string): string {
  return cell.children
    .filter(({ name }) => name === "p")
    .map(({ contentStart, contentEnd }) => plainText(content.slice(contentStart, contentEnd)))
    .join("\n");
}

const MOST_SPACES = 1000;

function plainText(inner: string): string {
  return inner
    .replace(/\s+/g, " ")
    .replace(/<(?:\w+:)?annotation[\s>].*?<\/(?:\w+:)?annotation>/g, "")
    .replace(/<(?:\w+:)?s(?:\s[^>]*)?\/>/g, (element) => {
      const count = Number(/:?c="(\d{1,4})"/.exec(element)?.[1] ?? 1);
      return " ".repeat(Math.min(count, MOST_SPACES));
    })
    .replace(/<(?:\w+:)?tab\s*\/>/g, "\t")
    .replace(/<(?:\w+:)?line-break\s*\/>/g, "\n")
    .replace(/<[^>]*>/g, "")
    .replace(
      /&(?:#(\d{1,7})|#x([\da-f]{1,6})|(amp|lt|gt|quot|apos));/gi,
      (_, decimal?: string, hex?: string, name?: string) =>
        name === undefined
          ? codePoint(Number.parseInt(decimal ?? hex ?? "", decimal === undefined ? 16 : 10))
          : (NAMED[name.toLowerCase()] ?? ""),
    );
}

const NAMED: Readonly<Record<string, string>> = { amp: "&", lt: "<", gt: ">", quot: '"', apos: "'" };
const LAST_CODE_POINT = 0x10ffff;

function codePoint(code: number): string {
  return code <= LAST_CODE_POINT ? String.fromCodePoint(code) : "";
}
