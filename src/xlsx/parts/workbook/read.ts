/** What the workbook's own part tells: its sheets in order, names, the day from which dates are counted. */
import { contentTypes } from "../../package/content-types";
import { refuse } from "../../package/file-refused";
import { relationshipsOf, type Relationship } from "../../package/relationships";
import type { WorkbookPackage } from "../../package/workbook-package";
import { child, children, isTrue, parseXml, prefixedAttribute, wholeNumber, type XmlElement } from "../../xml/tree";

export interface SheetEntry {
  readonly name: string;
  /** The sheet's number among all of the workbook's sheets, from 0: names count by it. */
  readonly index: number;
  readonly part: string;
  /** A sheet of cells; others are sheets of a chart or of old macros. */
  readonly isWorksheet: boolean;
  readonly isHidden: boolean;
}

export interface DefinedName {
  readonly name: string;
  readonly formula: string;
  /** The index of the only sheet that knows the name. */
  readonly sheetIndex?: number;
  readonly isHidden: boolean;
  readonly comment: string;
}

export interface WorkbookPart {
  readonly name: string;
  readonly root: XmlElement;
  readonly source: string;
  readonly relationships: readonly Relationship[];
  readonly sheets: readonly SheetEntry[];
  readonly names: readonly DefinedName[];
  /** Dates are counted from 1904, as older workbooks of one system do. */
  readonly from1904: boolean;
  /** The index of the sheet shown first. */
  readonly activeIndex: number;
  readonly hasMacros: boolean;
}

const WORKBOOK_TYPES = /sheet(\.macroEnabled)?\.main\+xml$|template(\.macroEnabled)?\.main\+xml$/;

/** @throws FileRefused where the package is no workbook of this format */
export function readWorkbookPart(source: WorkbookPackage): WorkbookPart {
  const typeOf = contentTypes(source);
  const main = relationshipsOf(source, "").find(({ kind, isExternal }) => kind === "officeDocument" && !isExternal);
  if (main === undefined || !source.has(main.target)) refuseOtherFormat(source);
  const type = typeOf(main.target) ?? "";
  if (/sheet\.binary\./i.test(type)) refuse("binaryWorkbook");
  if (!WORKBOOK_TYPES.test(type)) refuse("noWorkbook");

  const { root, source: text } = parseXml(source.text(main.target));
  if (root.name !== "workbook") refuse("noWorkbook");
  const relationships = relationshipsOf(source, main.target);
  const sheets = children(child(root, "sheets"), "sheet").map((sheet, index) =>
    sheetEntry(sheet, index, relationships),
  );
  for (const { part, isWorksheet } of sheets) if (isWorksheet && !source.has(part)) refuse("damaged");
  if (!sheets.some(({ isWorksheet }) => isWorksheet)) refuse("noSheet");
  return {
    name: main.target,
    root,
    source: text,
    relationships,
    sheets,
    names: children(child(root, "definedNames"), "definedName").map(definedName),
    from1904: isTrue(child(root, "workbookPr"), "date1904"),
    activeIndex: wholeNumber(child(child(root, "bookViews"), "workbookView"), "activeTab") ?? 0,
    hasMacros: /macroEnabled/.test(type),
  };
}

function refuseOtherFormat(source: WorkbookPackage): never {
  if (source.has("mimetype") && /opendocument\.spreadsheet/.test(source.text("mimetype"))) refuse("openDocument");
  refuse("noWorkbook");
}

function sheetEntry(sheet: XmlElement, index: number, relationships: readonly Relationship[]): SheetEntry {
  const id = prefixedAttribute(sheet, "id");
  const relationship = relationships.find((candidate) => candidate.id === id);
  const name = sheet.attributes["name"];
  if (relationship === undefined || name === undefined) refuse("damaged");
  const state = sheet.attributes["state"];
  return {
    name,
    index,
    part: relationship.target,
    isWorksheet: relationship.kind === "worksheet",
    isHidden: state === "hidden" || state === "veryHidden",
  };
}

function definedName(element: XmlElement): DefinedName {
  const sheetIndex = wholeNumber(element, "localSheetId");
  return {
    name: element.attributes["name"] ?? "",
    formula: element.text,
    ...(sheetIndex === undefined ? {} : { sheetIndex }),
    isHidden: isTrue(element, "hidden"),
    comment: element.attributes["comment"] ?? "",
  };
}
