/**
 * Writes a plan as an `.xlsx` file, the same bytes each time. The parts are written directly: the libraries that write
 * workbooks know neither dynamic arrays, nor calculated table columns, nor text that stays text when it is edited, and
 * mending six kinds of part after them would be more to keep right than the parts themselves.
 *
 * Nothing here needs Node: the try-out page saves with it too.
 */
import { zipSync, strToU8, type Zippable } from "fflate";

import { columnLetters } from "../core/sheet";
import { quoteSheetName } from "../workbook/plan/formula";
import type { CalculatedWorkbook } from "../workbook/plan/calculated";
import { checkPlan } from "../workbook/plan/check-plan";
import { pageOf } from "../workbook/plan/looks";
import type { SheetPlan, WorkbookPlan } from "../workbook/plan/schema";
import {
  CONTENT_TYPES,
  CONTENT_TYPES_NAMESPACE,
  DYNAMIC_ARRAY_NAMESPACE,
  MAIN_NAMESPACE,
  PACKAGE_RELATIONS_NAMESPACE,
  RELATION_NAMESPACE,
} from "./package/namespaces";
import { SharedStrings } from "./parts/strings/write";
import { Styles } from "./parts/styles/write";
import { chartPart, drawingPart } from "./parts/charts/write";
import { tablePart } from "./parts/tables/write";
import { worksheetPart } from "./parts/sheet/write";
import { element, escapeText, xmlPart } from "./xml/write";

/** The calculation engine that a present host writes; an older number makes it work everything out again on opening. */
const CALCULATION_ENGINE = 191029;

/** The first moment that a package can hold, by the reader's own clock: the packing library writes local time. */
const FIXED_TIME = new Date(1980, 0, 1);

interface Part {
  readonly path: string;
  readonly contentType: string;
  readonly xml: string;
}

/** A relation of one part to another; the path is relative to the first one's folder. */
interface Relation {
  readonly id: string;
  readonly kind:
    "officeDocument" | "worksheet" | "styles" | "sharedStrings" | "sheetMetadata" | "table" | "drawing" | "chart";
  readonly target: string;
}

/**
 * @param plan the workbook
 * @param calculated what its formulas answer; without it the formulas are written without answers
 * @returns the bytes of the `.xlsx` file
 * @throws Error naming everything that a spreadsheet program would refuse in the plan
 */
export function writeWorkbookFile(plan: WorkbookPlan, calculated?: CalculatedWorkbook): Uint8Array {
  const problems = checkPlan(plan);
  if (problems.length > 0) throw new Error(`The workbook cannot be written. ${problems.join(" ")}`);

  const strings = new SharedStrings();
  const styles = new Styles();
  const parts: Part[] = [];
  const relations = new Map<string, readonly Relation[]>();
  const workbookRelations: Relation[] = [];
  let tables = 0;
  let charts = 0;
  let drawings = 0;
  let hasDynamicArrays = false;

  plan.sheets.forEach((sheet, index) => {
    const file = `sheet${index + 1}.xml`;
    const tableRelations = sheet.tables.map((table): Relation => {
      tables += 1;
      const path = `tables/table${tables}.xml`;
      parts.push({ path: `xl/${path}`, contentType: CONTENT_TYPES.table, xml: tablePart(table, tables) });
      return { id: `rId${tables}`, kind: "table", target: `../${path}` };
    });
    const chartRelations = sheet.charts.map((chart, chartIndex): Relation => {
      charts += 1;
      const path = `charts/chart${charts}.xml`;
      const xml = chartPart(chart, sheet, calculated?.get(sheet.name));
      parts.push({ path: `xl/${path}`, contentType: CONTENT_TYPES.chart, xml });
      return { id: `rId${chartIndex + 1}`, kind: "chart", target: `../${path}` };
    });
    const drawingRelations: Relation[] = [];
    if (sheet.charts.length > 0) {
      drawings += 1;
      const drawing = `drawing${drawings}.xml`;
      const xml = drawingPart(
        sheet.charts,
        chartRelations.map(({ id }) => id),
      );
      parts.push({ path: `xl/drawings/${drawing}`, contentType: CONTENT_TYPES.drawing, xml });
      relations.set(`xl/drawings/_rels/${drawing}.rels`, chartRelations);
      drawingRelations.push({ id: "rIdDrawing", kind: "drawing", target: `../drawings/${drawing}` });
    }
    const worksheet = worksheetPart(sheet, {
      plan,
      strings,
      styles,
      calculated: calculated?.get(sheet.name),
      tableRelations: tableRelations.map(({ id }) => id),
      drawingRelation: drawingRelations[0]?.id,
    });
    hasDynamicArrays ||= worksheet.hasDynamicArrays;
    parts.push({ path: `xl/worksheets/${file}`, contentType: CONTENT_TYPES.worksheet, xml: worksheet.xml });
    const sheetRelations = [...tableRelations, ...drawingRelations];
    if (sheetRelations.length > 0) relations.set(`xl/worksheets/_rels/${file}.rels`, sheetRelations);
    workbookRelations.push({ id: sheetRelation(index), kind: "worksheet", target: `worksheets/${file}` });
  });

  parts.push(
    { path: "xl/workbook.xml", contentType: CONTENT_TYPES.workbook, xml: workbookPart(plan) },
    { path: "xl/styles.xml", contentType: CONTENT_TYPES.styles, xml: styles.part() },
    { path: "xl/sharedStrings.xml", contentType: CONTENT_TYPES.sharedStrings, xml: strings.part() },
  );
  workbookRelations.push(
    { id: "rIdStyles", kind: "styles", target: "styles.xml" },
    { id: "rIdStrings", kind: "sharedStrings", target: "sharedStrings.xml" },
  );
  if (hasDynamicArrays) {
    parts.push({ path: "xl/metadata.xml", contentType: CONTENT_TYPES.sheetMetadata, xml: metadataPart() });
    workbookRelations.push({ id: "rIdMetadata", kind: "sheetMetadata", target: "metadata.xml" });
  }
  relations.set("xl/_rels/workbook.xml.rels", workbookRelations);
  relations.set("_rels/.rels", [{ id: "rId1", kind: "officeDocument", target: "xl/workbook.xml" }]);
  return pack(parts, relations);
}

function sheetRelation(index: number): string {
  return `rId${index + 1}`;
}

function workbookPart(plan: WorkbookPlan): string {
  const names = plan.sheets.flatMap(printNamesXml);
  return xmlPart(
    element(
      "workbook",
      { xmlns: MAIN_NAMESPACE, "xmlns:r": RELATION_NAMESPACE },
      element("workbookPr"),
      element(
        "bookViews",
        {},
        element("workbookView", {
          windowWidth: 28800,
          windowHeight: 15000,
          activeTab: plan.sheets.findIndex(({ name }) => name === plan.active),
        }),
      ),
      element(
        "sheets",
        {},
        ...plan.sheets.map(({ name }, index) =>
          element("sheet", { name, sheetId: index + 1, "r:id": sheetRelation(index) }),
        ),
      ),
      ...(names.length === 0 ? [] : [element("definedNames", {}, ...names)]),
      element("calcPr", { calcId: CALCULATION_ENGINE }),
    ),
  );
}

/** The columns that are printed, and the rows that stand on each printed page. */
function printNamesXml(sheet: SheetPlan, index: number): readonly string[] {
  const { columns, repeatRows } = pageOf(sheet);
  const name = (word: string, references: readonly string[]): string =>
    element(
      "definedName",
      { name: `_xlnm.${word}`, localSheetId: index },
      escapeText(references.map((reference) => `${quoteSheetName(sheet.name)}!${reference}`).join(",")),
    );
  const spans = columns?.map(({ first, last }) => `$${columnLetters(first)}:$${columnLetters(last)}`) ?? [];
  return [
    ...(spans.length > 0 ? [name("Print_Area", spans)] : []),
    ...(repeatRows > 0 ? [name("Print_Titles", [`$1:$${repeatRows}`])] : []),
  ];
}

/**
 * What makes a formula a dynamic array: one metadata type, one record of it, one cell record that the cells name by
 * `cm="1"` (the schema of `dynamicArrayProperties` is in [MS-XLSX]).
 */
export function metadataPart(): string {
  return xmlPart(
    element(
      "metadata",
      { xmlns: MAIN_NAMESPACE, "xmlns:xda": DYNAMIC_ARRAY_NAMESPACE },
      element(
        "metadataTypes",
        { count: 1 },
        element("metadataType", {
          name: "XLDAPR",
          minSupportedVersion: 120000,
          copy: 1,
          pasteAll: 1,
          pasteValues: 1,
          merge: 1,
          splitFirst: 1,
          rowColShift: 1,
          clearFormats: 1,
          clearComments: 1,
          assign: 1,
          coerce: 1,
          cellMeta: 1,
        }),
      ),
      element(
        "futureMetadata",
        { name: "XLDAPR", count: 1 },
        element(
          "bk",
          {},
          element(
            "extLst",
            {},
            element(
              "ext",
              { uri: "{bdbb8cdc-fa1e-496e-a857-3c3f30c029c3}" },
              element("xda:dynamicArrayProperties", { fDynamic: 1, fCollapsed: 0 }),
            ),
          ),
        ),
      ),
      element("cellMetadata", { count: 1 }, element("bk", {}, element("rc", { t: 1, v: 0 }))),
    ),
  );
}

/* ---- the package ---- */

function pack(parts: readonly Part[], relations: ReadonlyMap<string, readonly Relation[]>): Uint8Array {
  // Readers that look at the first entry only want the content types there.
  const files: Zippable = { "[Content_Types].xml": strToU8(contentTypesPart(parts)) };
  for (const [path, list] of [...relations].sort(([one], [other]) => (one < other ? -1 : 1))) {
    files[path] = strToU8(relationsPart(list));
  }
  for (const { path, xml } of [...parts].sort((one, other) => (one.path < other.path ? -1 : 1))) {
    files[path] = strToU8(xml);
  }
  return zipSync(files, { level: 9, mtime: FIXED_TIME });
}

function contentTypesPart(parts: readonly Part[]): string {
  return xmlPart(
    element(
      "Types",
      { xmlns: CONTENT_TYPES_NAMESPACE },
      element("Default", { Extension: "rels", ContentType: CONTENT_TYPES.relations }),
      element("Default", { Extension: "xml", ContentType: "application/xml" }),
      ...parts.map(({ path, contentType }) => element("Override", { PartName: `/${path}`, ContentType: contentType })),
    ),
  );
}

function relationsPart(relations: readonly Relation[]): string {
  return xmlPart(
    element(
      "Relationships",
      { xmlns: PACKAGE_RELATIONS_NAMESPACE },
      ...relations.map(({ id, kind, target }) =>
        element("Relationship", { Id: id, Type: `${RELATION_NAMESPACE}/${kind}`, Target: target }),
      ),
    ),
  );
}
