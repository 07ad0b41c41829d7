/** The values of some tables of an `.xlsx` file, and nothing else of it: no looks, no formulas, no other sheet. */
import { refuse } from "../../xlsx/package/file-refused";
import { contains, type GridPlace, parsePlace, parseRange } from "../../xlsx/ranges";
import { relationshipsOf } from "../../xlsx/package/relationships";
import { readSharedStrings, readText } from "../../xlsx/parts/strings/read";
import { readWorkbookPart } from "../../xlsx/parts/workbook/read";
import { WorkbookPackage } from "../../xlsx/package/workbook-package";
import { decodeString } from "../../xlsx/xml/text";
import { child, children, isTrue, parseXml, wholeNumber, type XmlElement } from "../../xlsx/xml/tree";

type CellValue = string | number | boolean;

export interface TableValues {
  readonly name: string;
  readonly sheet: string;
  /** The sheet's row in which the first row of `rows` stands, from 1. */
  readonly firstRow: number;
  readonly headings: readonly string[];
  /** Row by row; an empty cell is an empty text, an error its name such as `#N/A`. */
  readonly rows: readonly (readonly CellValue[])[];
}

interface TablesRead {
  readonly tables: readonly TableValues[];
  /** Days are counted from 1904. */
  readonly from1904: boolean;
}

/**
 * @param wanted by the table's name
 * @throws FileRefused where the bytes are no workbook, or one that is damaged
 */
export function readTableValues(file: Uint8Array, wanted: (name: string) => boolean): TablesRead {
  const source = WorkbookPackage.open(file);
  const part = readWorkbookPart(source);
  const stringsPart = part.relationships.find(
    ({ kind, isExternal }) => kind === "sharedStrings" && !isExternal,
  )?.target;
  let strings: readonly string[] | undefined;
  const stringAt = (index: number): string => {
    strings ??= readSharedStrings(source, stringsPart).map(({ text }) => text);
    return strings[index] ?? refuse("damaged");
  };
  const tables = part.sheets
    .filter(({ isWorksheet }) => isWorksheet)
    .flatMap((sheet) =>
      relationshipsOf(source, sheet.part)
        .filter(({ kind, isExternal, target }) => kind === "table" && !isExternal && source.has(target))
        .map(({ target }) => parseXml(source.text(target)).root)
        .filter((table) => wanted(nameOf(table)))
        .map((table) => readTable(source.text(sheet.part), sheet.name, table, stringAt)),
    );
  return { tables, from1904: part.from1904 };
}

function nameOf(table: XmlElement): string {
  return decodeString(table.attributes["displayName"] ?? table.attributes["name"] ?? "");
}

function readTable(
  sheetXml: string,
  sheet: string,
  table: XmlElement,
  stringAt: (index: number) => string,
): TableValues {
  const range = parseRange(table.attributes["ref"] ?? "") ?? refuse("damaged");
  const startRow = range.startRow + (wholeNumber(table, "headerRowCount") ?? 1);
  const endRow = range.endRow - (wholeNumber(table, "totalsRowCount") ?? 0);
  const body = { ...range, startRow, endRow };
  const width = range.endColumn - range.startColumn + 1;
  const rows: CellValue[][] = [];
  let place: GridPlace = { row: -1, column: -1 };
  parseXml(sheetXml, {
    parent: "sheetData",
    each: (row) => {
      place = { row: row.attributes["r"] === undefined ? place.row + 1 : Number(row.attributes["r"]) - 1, column: -1 };
      if (place.row < startRow || place.row > endRow) return;
      for (const cell of row.children) {
        if (cell.name !== "c") continue;
        const name = cell.attributes["r"];
        place = name === undefined ? { row: place.row, column: place.column + 1 } : parsePlace(name);
        if (!contains(body, place)) continue;
        const value = valueOf(cell, stringAt);
        if (value === "") continue;
        // Rows without a value at the table's end are never made.
        while (rows.length <= place.row - startRow) rows.push(Array<CellValue>(width).fill(""));
        (rows[place.row - startRow] as CellValue[])[place.column - range.startColumn] = value;
      }
    },
  });
  return {
    name: nameOf(table),
    sheet,
    firstRow: startRow + 1,
    headings: children(child(table, "tableColumns"), "tableColumn").map(({ attributes }) =>
      decodeString(attributes["name"] ?? ""),
    ),
    rows,
  };
}

/** By the cell's type (ECMA-376 part 1, 18.18.11); a number where none is given. */
function valueOf(cell: XmlElement, stringAt: (index: number) => string): CellValue {
  const value = child(cell, "v")?.text ?? "";
  switch (cell.attributes["t"]) {
    case "s":
      return stringAt(Number(value));
    case "inlineStr": {
      const inline = child(cell, "is");
      return inline === undefined ? "" : readText(inline).text;
    }
    case "str":
    case "e":
      return decodeString(value);
    case "b":
      return isTrue({ ...cell, attributes: { v: value } }, "v");
    case undefined:
    case "n": {
      if (value === "") return "";
      const number = Number(value);
      return Number.isFinite(number) ? number : refuse("damaged");
    }
    default:
      // Days as texts (`d`) are written by no program that a season passes through.
      return refuse("damaged");
  }
}
