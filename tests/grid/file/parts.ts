/** Small workbooks put together part by part, for tests that need to know every letter of them. */
import { strToU8, zipSync } from "fflate";

import { type ReadingOptions, readWorkbook, type ReadWorkbook } from "../../../src/grid/file/open";
import { WorkbookPackage } from "../../../src/xlsx/package/workbook-package";

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const RELATIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const PACKAGE_RELATIONS = "http://schemas.openxmlformats.org/package/2006/relationships";
const TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml";

export interface SheetParts {
  readonly name?: string;
  readonly state?: string;
  /** What stands before `sheetData`. */
  readonly before?: string;
  /** The rows. */
  readonly rows?: string;
  /** What stands after `sheetData`. */
  readonly after?: string;
  /** `table` elements without their namespace. */
  readonly tables?: readonly string[];
  /** Further relationships of the sheet: kind and target. */
  readonly related?: readonly (readonly [kind: string, target: string])[];
}

export interface BookParts {
  readonly sheets: readonly SheetParts[];
  /** The children of `styleSheet`. */
  readonly styles?: string;
  /** The items of the shared strings. */
  readonly strings?: string;
  readonly theme?: string;
  /** What stands in `workbook` before and after its sheets. */
  readonly beforeSheets?: string;
  readonly afterSheets?: string;
  readonly workbookType?: string;
  /** Further parts by their names. */
  readonly parts?: Readonly<Record<string, string | Uint8Array>>;
  /** Further relationships of the workbook: kind and target. */
  readonly related?: readonly (readonly [kind: string, target: string])[];
}

const relationships = (list: readonly (readonly [kind: string, target: string])[]): string =>
  `<Relationships xmlns="${PACKAGE_RELATIONS}">${list
    .map(
      ([kind, target], index) => `<Relationship Id="rId${index + 1}" Type="${RELATIONS}/${kind}" Target="${target}"/>`,
    )
    .join("")}</Relationships>`;

/** The parts of a small workbook by their names. */
export function bookParts(book: BookParts): Record<string, string | Uint8Array> {
  const parts: Record<string, string | Uint8Array> = {};
  const related: (readonly [kind: string, target: string])[] = [];
  let tables = 0;
  const overrides: string[] = [];
  const override = (name: string, type: string): void => {
    overrides.push(`<Override PartName="/${name}" ContentType="${type}"/>`);
  };
  book.sheets.forEach((sheet, index) => {
    const name = `xl/worksheets/sheet${index + 1}.xml`;
    const ofSheet = [...(sheet.related ?? [])];
    const tableParts = (sheet.tables ?? []).map((table) => {
      tables += 1;
      parts[`xl/tables/table${tables}.xml`] = table.replace("<table ", `<table xmlns="${MAIN}" id="${tables}" `);
      override(`xl/tables/table${tables}.xml`, `${TYPE}.table+xml`);
      ofSheet.push(["table", `../tables/table${tables}.xml`]);
      return `<tablePart r:id="rId${ofSheet.length}"/>`;
    });
    const list =
      tableParts.length === 0 ? "" : `<tableParts count="${tableParts.length}">${tableParts.join("")}</tableParts>`;
    parts[name] =
      `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<worksheet xmlns="${MAIN}" xmlns:r="${RELATIONS}">` +
      `${sheet.before ?? ""}<sheetData>${sheet.rows ?? ""}</sheetData>${sheet.after ?? ""}${list}</worksheet>`;
    override(name, `${TYPE}.worksheet+xml`);
    if (ofSheet.length > 0) parts[`xl/worksheets/_rels/sheet${index + 1}.xml.rels`] = relationships(ofSheet);
    related.push(["worksheet", `worksheets/sheet${index + 1}.xml`]);
  });
  const sheetList = book.sheets
    .map(({ name, state }, index) => {
      const written = state === undefined ? "" : ` state="${state}"`;
      return `<sheet name="${name ?? `Sheet${index + 1}`}" sheetId="${index + 1}"${written} r:id="rId${index + 1}"/>`;
    })
    .join("");
  parts["xl/workbook.xml"] =
    `<workbook xmlns="${MAIN}" xmlns:r="${RELATIONS}">${book.beforeSheets ?? ""}<sheets>${sheetList}</sheets>` +
    `${book.afterSheets ?? ""}</workbook>`;
  override("xl/workbook.xml", book.workbookType ?? `${TYPE}.sheet.main+xml`);
  if (book.styles !== undefined) {
    parts["xl/styles.xml"] = `<styleSheet xmlns="${MAIN}">${book.styles}</styleSheet>`;
    override("xl/styles.xml", `${TYPE}.styles+xml`);
    related.push(["styles", "styles.xml"]);
  }
  if (book.strings !== undefined) {
    parts["xl/sharedStrings.xml"] = `<sst xmlns="${MAIN}">${book.strings}</sst>`;
    override("xl/sharedStrings.xml", `${TYPE}.sharedStrings+xml`);
    related.push(["sharedStrings", "sharedStrings.xml"]);
  }
  if (book.theme !== undefined) {
    parts["xl/theme/theme1.xml"] = book.theme;
    related.push(["theme", "theme/theme1.xml"]);
  }
  parts["xl/_rels/workbook.xml.rels"] = relationships([...related, ...(book.related ?? [])]);
  parts["_rels/.rels"] = relationships([["officeDocument", "xl/workbook.xml"]]);
  parts["[Content_Types].xml"] =
    '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">' +
    '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>' +
    `<Default Extension="xml" ContentType="application/xml"/>${overrides.join("")}</Types>`;
  return { ...parts, ...book.parts };
}

export function zipped(parts: Readonly<Record<string, string | Uint8Array>>): Uint8Array {
  return zipSync(
    Object.fromEntries(
      Object.entries(parts).map(([name, content]) => [name, typeof content === "string" ? strToU8(content) : content]),
    ),
  );
}

export function bookFile(book: BookParts): Uint8Array {
  return zipped(bookParts(book));
}

export const testOptions: ReadingOptions = {
  ownFunctions: ["TALLY", "SHOW", "SHOWONE", "ADDONE", "HOWMANY", "ANSWER"],
};

export function readBook(book: BookParts, options: ReadingOptions = testOptions): ReadWorkbook {
  return readWorkbook(WorkbookPackage.open(bookFile(book)), options);
}

/** A sheet with one row from A1 on. */
export function rowOf(...cells: readonly string[]): string {
  return `<row r="1">${cells.join("")}</row>`;
}
