/** Tables that have grown, were renamed, were made or taken away in the grid, back in the file. */
import type { IRange } from "@univerjs/core";
import type { ITableJson } from "@univerjs/sheets-table";

import { TABLE_STYLE_NAME } from "../../../workbook/plan/looks";
import { CONTENT_TYPES, MAIN_NAMESPACE, RELATION_NAMESPACE } from "../../../xlsx/package/namespaces";
import { codeString, element, escapeText, xmlPart } from "../../../xlsx/xml/write";
import { type RenamedColumn, withRenamedColumns } from "../../../xlsx/formulas/column-renaming";
import { cellValue } from "../cells/values";
import { isFormula } from "../../../xlsx/formulas/check";
import { writeFormula } from "../../../xlsx/formulas/writing";
import type { GridSheetState } from "../grid-state";
import { addPart, addRelationship, freePartName, removeRelationship } from "../../../xlsx/package/package-editing";
import { rangeName } from "../../../xlsx/ranges";
import type { ReadSheet, ReadTable } from "../open";
import { nextTableId } from "../../../xlsx/parts/tables/read";
import { relationshipsOf, resolvePart } from "../../../xlsx/package/relationships";
import { insertInOrder } from "../../../xlsx/xml/insert-in-order";
import type { WorkbookPackage } from "../../../xlsx/package/workbook-package";
import { XmlEdits } from "../../../xlsx/xml/edits";
import {
  child,
  children,
  descendants,
  parseXml,
  prefixedAttribute,
  prefixOf,
  type XmlElement,
} from "../../../xlsx/xml/tree";

/** Writes the table parts of one sheet, and in the sheet itself which tables it has. */
export function writeTables(
  target: WorkbookPackage,
  edits: XmlEdits,
  file: ReadSheet,
  grid: GridSheetState,
  renamed: readonly RenamedColumn[],
): void {
  const now = new Map(grid.tables.map((table) => [table.id, table]));
  const removed: ReadTable[] = [];
  for (const table of file.tables) {
    if (table.grid === undefined) continue;
    const is = now.get(table.grid.id);
    now.delete(table.grid.id);
    if (is === undefined) removed.push(table);
    else writeTable(target, table, is, grid, renamed);
  }
  const added = [...now.values()].map((table) => addTable(target, file, table, grid));
  if (removed.length + added.length > 0) writeTableList(target, edits, file, removed, added);
}

/* ---- a table that stays ---- */

function writeTable(
  target: WorkbookPackage,
  { file, grid: was }: ReadTable,
  is: ITableJson,
  sheet: GridSheetState,
  renamed: readonly RenamedColumn[],
): void {
  if (was === undefined) return;
  const headings = headingsOf(is, sheet, was);
  const sameColumns =
    headings.length === file.columns.length &&
    headings.every(({ text }, index) => text === file.columns[index]?.heading);
  const range = { ...is.range, endRow: is.range.endRow + (file.hasTotals ? 1 : 0) };
  const sameRange = rangeName(range) === rangeName(file.range);
  if (sameColumns && sameRange && is.name === was.name && renamed.length === 0) return;

  const { root, source } = parseXml(target.text(file.part));
  const edits = new XmlEdits(source);
  if (is.name !== was.name) {
    edits.setAttribute(root, "name", codeString(is.name));
    edits.setAttribute(root, "displayName", codeString(is.name));
  }
  if (!sameRange) {
    edits.setAttribute(root, "ref", rangeName(range));
    const filter = child(root, "autoFilter");
    if (filter) edits.setAttribute(filter, "ref", rangeName(is.range));
    // How rows were sorted once tells of rows that are no longer all.
    for (const sorting of descendants(root, "sortState")) edits.removeElement(sorting);
  }
  if (!sameColumns) writeColumns(edits, root, source, headings, was, is, renamed);
  else {
    for (const column of descendants(root, "calculatedColumnFormula")) renameInFormula(edits, column, renamed, is.name);
  }
  if (!edits.isEmpty) target.set(file.part, edits.apply());
}

function renameInFormula(
  edits: XmlEdits,
  formula: XmlElement,
  renamed: readonly RenamedColumn[],
  ownTable: string,
): void {
  const text = withRenamedColumns(formula.text, renamed, ownTable);
  if (text !== formula.text) edits.replace(formula.contentStart, formula.contentEnd, escapeText(text));
}

interface Heading {
  readonly id: string;
  readonly text: string;
}

/**
 * What stands in the headings' cells: the file wants the same words there and in the table. Where a cell holds no text
 * of its own, the grid's name for the column counts.
 */
function headingsOf({ columns, range }: ITableJson, { sheet }: GridSheetState, was?: ITableJson): Heading[] {
  const used = new Set<string>();
  return columns.map(({ id, displayName }, index) => {
    const value = cellValue(sheet.cellData?.[range.startRow]?.[range.startColumn + index]);
    const former = was?.columns.find((column) => column.id === id)?.displayName ?? displayName;
    const shown = value.kind === "text" ? value.text : value.kind === "number" ? String(value.value) : former;
    let text = shown.trim() === "" ? `Column${index + 1}` : shown;
    for (let number = 2; used.has(text.toLowerCase()); number += 1) text = `${shown}${number}`;
    used.add(text.toLowerCase());
    return { id, text };
  });
}

function writeColumns(
  edits: XmlEdits,
  root: XmlElement,
  source: string,
  headings: readonly Heading[],
  was: ITableJson,
  is: ITableJson,
  renamed: readonly RenamedColumn[],
): void {
  const list = child(root, "tableColumns");
  if (list === undefined) return;
  const known = children(list, "tableColumn");
  const prefix = prefixOf(root);
  let nextId = Math.max(0, ...known.map(({ attributes }) => Number(attributes["id"] ?? 0)));
  const written = headings.map(({ id, text }, index) => {
    const formerly = known[was.columns.findIndex((column) => column.id === id)];
    if (formerly) {
      const column = new XmlEdits(source, formerly.start, formerly.end);
      column.setAttribute(formerly, "name", codeString(text));
      for (const formula of children(formerly, "calculatedColumnFormula")) {
        renameInFormula(column, formula, renamed, is.name);
      }
      return column.apply();
    }
    nextId += 1;
    return columnXml(nextId, text, is.columns[index]?.formula, prefix);
  });
  edits.replace(list.start, list.end, element(`${prefix}tableColumns`, { count: written.length }, ...written));
  const filter = child(root, "autoFilter");
  // A filter counts its columns by number: it would hold for another one.
  if (filter && written.length !== known.length) {
    for (const column of children(filter, "filterColumn")) edits.removeElement(column);
  }
}

function columnXml(id: number, heading: string, formula: string | undefined, prefix: string): string {
  const attributes = { id, name: codeString(heading) };
  if (!formula || !isFormula(formula)) return element(`${prefix}tableColumn`, attributes);
  return element(
    `${prefix}tableColumn`,
    attributes,
    element(`${prefix}calculatedColumnFormula`, {}, escapeText(writeFormula(formula))),
  );
}

/** Headings of tables that stay, where their words have changed: formulas name columns by them. */
export function renamedColumns(file: ReadSheet, grid: GridSheetState): RenamedColumn[] {
  return file.tables.flatMap(({ grid: was }) => {
    const is = grid.tables.find(({ id }) => id === was?.id);
    if (was === undefined || is === undefined) return [];
    return headingsOf(is, grid, was).flatMap(({ id, text }) => {
      const from = was.columns.find((column) => column.id === id)?.displayName;
      return from === undefined || from === text ? [] : [{ table: is.name, from, to: text }];
    });
  });
}

/* ---- tables that come and go ---- */

function addTable(target: WorkbookPackage, file: ReadSheet, table: ITableJson, grid: GridSheetState): string {
  const part = freePartName(target, resolvePart(file.entry.part, "../tables/table"));
  const id = nextTableId(target);
  const range: IRange = table.range;
  const xml = xmlPart(
    element(
      "table",
      {
        xmlns: MAIN_NAMESPACE,
        id,
        name: codeString(table.name),
        displayName: codeString(table.name),
        ref: rangeName(range),
        totalsRowShown: 0,
      },
      element("autoFilter", { ref: rangeName(range) }),
      element(
        "tableColumns",
        { count: table.columns.length },
        ...headingsOf(table, grid).map(({ text }, index) =>
          columnXml(index + 1, text, table.columns[index]?.formula, ""),
        ),
      ),
      element("tableStyleInfo", {
        name: TABLE_STYLE_NAME,
        showFirstColumn: 0,
        showLastColumn: 0,
        showRowStripes: 1,
        showColumnStripes: 0,
      }),
    ),
  );
  addPart(target, part, CONTENT_TYPES.table, xml);
  return addRelationship(target, file.entry.part, "table", part);
}

function writeTableList(
  target: WorkbookPackage,
  edits: XmlEdits,
  { root, entry }: ReadSheet,
  removed: readonly ReadTable[],
  added: readonly string[],
): void {
  const prefix = prefixOf(root);
  const list = child(root, "tableParts");
  const parts = children(list, "tablePart");
  const relationships = relationshipsOf(target, entry.part);
  const gone = new Set(
    removed.flatMap(({ file }) => relationships.filter(({ target: part }) => part === file.part).map(({ id }) => id)),
  );
  for (const id of gone) removeRelationship(target, entry.part, id);
  const kept = parts.map((part) => prefixedAttribute(part, "id") ?? "").filter((id) => !gone.has(id));
  const ids = [...kept, ...added];
  const xml =
    ids.length === 0
      ? ""
      : element(
          `${prefix}tableParts`,
          { count: ids.length, "xmlns:r": RELATION_NAMESPACE },
          ...ids.map((id) => element(`${prefix}tablePart`, { "r:id": id })),
        );
  if (list) edits.replaceElement(list, xml);
  else if (xml !== "") insertInOrder(edits, root, "tableParts", xml);
}
