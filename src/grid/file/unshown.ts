/**
 * What a file holds that the page cannot show: named before anything is saved, and left in the file as it is. Each kind
 * also tells which sheets it stands on or reads, since there the page must not move cells: it could not move it along.
 */
import { placeName } from "../../xlsx/ranges";
import type { ReadSheet, ReadWorkbook } from "./open";
import { type Relationship, relationshipsOf } from "../../xlsx/package/relationships";
import type { WorkbookPackage } from "../../xlsx/package/workbook-package";
import { child, descendants, isTrue, parseXml, wholeNumber, type XmlElement } from "../../xlsx/xml/tree";

export interface Unshown {
  /** In the coach's words, such as `charts`. */
  readonly what: string;
  /** Names of the sheets on which it stands; none where it belongs to the whole workbook. */
  readonly sheets: readonly string[];
  /** A few of the cells, where that helps to find it. */
  readonly cells: readonly string[];
}

export interface UnshownThings {
  readonly things: readonly Unshown[];
  /** Why rows and columns of a sheet, or the sheet itself, may not be moved: by the sheet's name. */
  readonly fixed: ReadonlyMap<string, string>;
}

/** Kinds of parts that hold nothing which a coach would miss in the page. */
const SILENT_KINDS = new Set([
  "calcChain",
  "chartColorStyle",
  "chartStyle",
  "customXml",
  "customXmlProps",
  "externalLinkPath",
  "metadata",
  "person",
  "printerSettings",
  "sharedStrings",
  "sheetMetadata",
  "styles",
  "table",
  "theme",
  "worksheet",
]);

/** By the kind of the relationship that leads to the part. */
const PART_WORDS: Readonly<Record<string, string>> = {
  attachedToolbars: "toolbars of its own",
  chartsheet: "sheets that hold a chart alone",
  comments: "comments",
  connections: "connections to other data",
  control: "buttons and other controls",
  ctrlProp: "buttons and other controls",
  dialogsheet: "sheets of an older kind",
  externalLink: "links to other workbooks",
  externalLinkLongPath: "links to other workbooks",
  image: "pictures",
  oleObject: "embedded files",
  package: "embedded files",
  pivotCacheDefinition: "pivot tables",
  pivotTable: "pivot tables",
  queryTable: "connections to other data",
  rdArray: "pictures and linked data inside cells",
  rdRichValue: "pictures and linked data inside cells",
  rdRichValueStructure: "pictures and linked data inside cells",
  rdRichValueTypes: "pictures and linked data inside cells",
  rdRichValueWebImage: "pictures and linked data inside cells",
  rdSupportingPropertyBag: "pictures and linked data inside cells",
  rdSupportingPropertyBagStructure: "pictures and linked data inside cells",
  richStyles: "pictures and linked data inside cells",
  richValueRel: "pictures and linked data inside cells",
  slicer: "slicers",
  slicerCache: "slicers",
  threadedComment: "comments",
  timeline: "timelines",
  timelineCache: "timelines",
  vbaProject: "macros",
  volatileDependencies: "connections to other data",
  xlMacrosheet: "sheets of an older kind",
  xmlMaps: "connections to other data",
};

class Collector {
  private readonly found = new Map<string, { sheets: Set<string>; cells: string[] }>();
  readonly fixed = new Map<string, string>();

  add(what: string, sheet?: string, cells: readonly string[] = []): void {
    let entry = this.found.get(what);
    if (entry === undefined) this.found.set(what, (entry = { sheets: new Set(), cells: [] }));
    if (sheet !== undefined) entry.sheets.add(sheet);
    entry.cells.push(...cells);
  }

  /** It stands at cells of the sheet and would not move along with them. */
  addFixed(what: string, sheet: string, cells: readonly string[] = []): void {
    this.add(what, sheet, cells);
    this.fix(sheet, what);
  }

  fix(sheet: string, what: string): void {
    if (!this.fixed.has(sheet)) this.fixed.set(sheet, what);
  }

  get things(): Unshown[] {
    return [...this.found].map(([what, { sheets, cells }]) => ({ what, sheets: [...sheets], cells }));
  }
}

export function findUnshown(source: WorkbookPackage, workbook: ReadWorkbook): UnshownThings {
  const found = new Collector();
  /** References that parts unknown to the page hold, each with what holds it. */
  const references: { readonly what: string; readonly text: string }[] = [];

  for (const { kind } of workbook.part.relationships) addPart(found, kind, undefined);
  for (const sheet of workbook.sheets) {
    findInRelationships(source, sheet, found, references);
    findInSheet(sheet, found, references);
  }
  findInWorkbook(source, workbook, found, references);

  for (const { name } of workbook.part.sheets) {
    const holder = references.find(({ text }) => names(text, name));
    if (holder) found.fix(name, holder.what);
  }
  return { things: found.things, fixed: found.fixed };
}

function names(reference: string, sheet: string): boolean {
  const text = reference.toLowerCase();
  const name = sheet.toLowerCase();
  return text.includes(`${name}!`) || text.includes(`'${name.replaceAll("'", "''")}'!`) || text === name;
}

function addPart(found: Collector, kind: string, sheet: string | undefined): void {
  if (SILENT_KINDS.has(kind)) return;
  const words = PART_WORDS[kind] ?? `parts of the kind "${kind}"`;
  if (sheet === undefined) found.add(words);
  else found.addFixed(words, sheet);
}

type References = { readonly what: string; readonly text: string }[];

function findInRelationships(
  source: WorkbookPackage,
  { entry, charts }: ReadSheet,
  found: Collector,
  references: References,
): void {
  if (charts.others > 0) found.addFixed("charts", entry.name);
  // Those that the page draws itself stay over their cells all the same.
  else if (charts.charts.length > 0) found.fix(entry.name, "charts");
  for (const relationship of relationshipsOf(source, entry.part)) {
    switch (relationship.kind) {
      case "drawing":
        findInDrawing(source, relationship, entry.name, found, references);
        break;
      case "vmlDrawing":
        // It only draws what comments and controls say, and they have parts of their own.
        break;
      case "hyperlink":
        break;
      case "pivotTable":
        found.addFixed("pivot tables", entry.name);
        break;
      default:
        addPart(found, relationship.kind, entry.name);
    }
  }
}

function findInDrawing(
  source: WorkbookPackage,
  { target, isExternal }: Relationship,
  sheet: string,
  found: Collector,
  references: References,
): void {
  if (isExternal || !source.has(target)) return;
  const { root } = parseXml(source.text(target));
  if (descendants(root, "pic").length > 0) found.addFixed("pictures", sheet);
  if (["sp", "cxnSp", "contentPart"].some((name) => descendants(root, name).length > 0))
    found.addFixed("shapes", sheet);
  const inner = relationshipsOf(source, target);
  for (const { kind, target: part } of inner) {
    if (kind !== "chart" && kind !== "chartEx") {
      if (kind.startsWith("diagram")) found.addFixed("diagrams", sheet);
      continue;
    }
    if (!source.has(part)) continue;
    for (const { text } of descendants(parseXml(source.text(part)).root, "f"))
      references.push({ what: "charts", text });
  }
}

function findInSheet({ root, entry, ...sheet }: ReadSheet, found: Collector, references: References): void {
  const { name } = entry;
  const links = child(root, "hyperlinks");
  if (links) {
    found.addFixed("links in cells", name);
    for (const { attributes } of links.children) {
      if (attributes["location"] !== undefined)
        references.push({ what: "links in cells", text: attributes["location"] });
    }
  }
  // A protection that was taken off leaves its element behind; ranges of their own would have to be moved along.
  if (isTrue(child(root, "sheetProtection"), "sheet") || child(root, "protectedRanges")) {
    found.addFixed("the protection of cells", name);
  }
  if (child(root, "scenarios")) found.addFixed("scenarios", name);
  if (child(root, "customSheetViews")) found.add("views of its own", name);
  const format = child(root, "sheetFormatPr");
  if ((wholeNumber(format, "outlineLevelRow") ?? 0) + (wholeNumber(format, "outlineLevelCol") ?? 0) > 0) {
    found.addFixed("groups of rows or columns", name);
  }
  if (child(root, "autoFilter")) found.addFixed("filters", name);
  if (sheet.tables.some(({ file }) => file.isFiltered)) found.add("filters", name);
  if (sheet.tables.some(({ grid }) => grid === undefined)) found.addFixed("tables without headings", name);
  if (sheet.rules.some(({ rule }) => rule === undefined)) found.addFixed("some rules that colour cells", name);
  if (sheet.validations.some(({ rule }) => rule === undefined)) found.addFixed("some checks of what is typed", name);
  findInExtensions(child(root, "extLst"), name, found, references);
  if (sheet.keptFormulas.length > 0) {
    found.addFixed(
      KEPT_FORMULAS,
      name,
      sheet.keptFormulas.slice(0, 3).map((at) => `${name} ${placeName(at)}`),
    );
    for (const text of sheet.keptTexts) references.push({ what: KEPT_FORMULAS, text });
  }
}

/** Formulas that use what the page does not have: another workbook, or a function that its engine does not know. */
const KEPT_FORMULAS = "formulas that this page cannot work out (they show their last answers)";

/** What came after the first edition of the format stands at the end of a sheet. */
function findInExtensions(list: XmlElement | undefined, sheet: string, found: Collector, references: References): void {
  if (list === undefined) return;
  const has = (name: string): boolean => descendants(list, name).length > 0;
  if (has("sparklineGroup")) found.addFixed("sparklines", sheet);
  // A data bar has its finer looks here, and its rule in the usual place.
  const rules = descendants(list, "cfRule").filter(({ attributes }) => attributes["type"] !== "dataBar");
  if (rules.length > 0) found.addFixed("some rules that colour cells", sheet);
  if (has("dataValidation")) found.addFixed("some checks of what is typed", sheet);
  if (has("slicer")) found.addFixed("slicers", sheet);
  for (const { text } of descendants(list, "f")) references.push({ what: "what stands behind the cells", text });
}

function findInWorkbook(
  source: WorkbookPackage,
  workbook: ReadWorkbook,
  found: Collector,
  references: References,
): void {
  const { part } = workbook;
  const locked = child(part.root, "workbookProtection");
  if (["lockStructure", "lockWindows", "lockRevision"].some((what) => isTrue(locked, what)))
    found.add("the protection of the workbook");
  if (workbook.styles.hasFillPatterns) found.add("patterned and shaded fills (they show plain)");
  if (source.names().some((name) => /^_xmlsignatures\/.*\.xml$/i.test(name))) {
    found.add("a digital signature (it no longer holds once the workbook is changed)");
  }
  if (relationshipsOf(source, "").some(({ kind }) => kind === "ui" || /extensibility$/.test(kind))) {
    found.add("buttons of its own in the ribbon");
  }
  for (const { name, formula } of part.names) {
    if (!workbook.names.unknown.has(name.toLowerCase())) continue;
    found.add("some names");
    references.push({ what: "some names", text: formula });
  }
  for (const { kind, target } of part.relationships) {
    if (kind !== "pivotCacheDefinition" || !source.has(target)) continue;
    for (const { attributes } of descendants(parseXml(source.text(target)).root, "worksheetSource")) {
      if (attributes["sheet"] !== undefined) references.push({ what: "pivot tables", text: attributes["sheet"] });
    }
  }
}
