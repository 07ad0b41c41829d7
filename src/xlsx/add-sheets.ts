/**
 * A plan's sheets put into a workbook's package, as the pane asks for: the plan is written as a file of its own, and its
 * parts move over. Numbers that mean something in the one file are changed to those that mean it in the other.
 */
import { codeString, element, escapeText } from "./xml/write";
import { contentTypes } from "./package/content-types";
import { dynamicArrayRecord } from "./parts/workbook/dynamic-arrays";
import { listSheet } from "./parts/workbook/add-sheet";
import { addPart, freePartName, isTaken, relationshipTypes } from "./package/package-editing";
import { relationshipsName, relationshipsOf, relativeTarget } from "./package/relationships";
import { type CellText, readSharedStrings } from "./parts/strings/read";
import { mergeStyles, type MergedStyles } from "./parts/styles/merge";
import { nextTableId } from "./parts/tables/read";
import { readWorkbookPart } from "./parts/workbook/read";
import type { WorkbookPackage } from "./package/workbook-package";
import { insertInWorkbook } from "./parts/workbook/insert";
import { XmlEdits } from "./xml/edits";
import { child, children, descendants, parseXml, prefixOf, type XmlElement } from "./xml/tree";

/**
 * Puts every sheet of one package at the end of the other's.
 * @param target is changed
 * @param from a package without prefixes, as our own writer makes it
 */
export function addSheetsFrom(target: WorkbookPackage, from: WorkbookPackage): void {
  const theirs = readWorkbookPart(from);
  const part = (kind: string): string | undefined => theirs.relationships.find((one) => one.kind === kind)?.target;
  const strings = readSharedStrings(from, part("sharedStrings"));
  const styles = mergeStyles(target, from, part("styles"));
  const moved = new Map<string, string>();
  const first = readWorkbookPart(target).sheets.length;
  let record: number | undefined;

  for (const sheet of theirs.sheets) {
    const name = movePart(target, from, sheet.part, moved);
    const xml = renumbered(from.text(sheet.part), strings, styles, () => {
      record ??= dynamicArrayRecord(target, readWorkbookPart(target));
      return record;
    });
    target.set(name, xml);
    listSheet(target, name, sheet.name);
  }
  addNames(target, theirs.root, first);
}

/* ---- the sheet's cells ---- */

function renumbered(source: string, strings: readonly CellText[], styles: MergedStyles, record: () => number): string {
  const edits = new XmlEdits(source);
  const style = (one: XmlElement, attribute: string): void => {
    const number = one.attributes[attribute];
    if (number === undefined) return;
    edits.setAttribute(one, attribute, styles.cellStyle(Number(number)));
  };
  const { root } = parseXml(source, {
    parent: "sheetData",
    each: (row) => {
      style(row, "s");
      for (const cell of row.children) {
        style(cell, "s");
        if (cell.attributes["cm"] !== undefined) edits.setAttribute(cell, "cm", record());
        if (cell.attributes["t"] !== "s") continue;
        const value = child(cell, "v");
        const text = strings[Number(value?.text ?? -1)];
        if (value === undefined || text === undefined) continue;
        edits.setAttribute(cell, "t", "inlineStr");
        edits.replaceElement(value, element("is", {}, element("t", { "xml:space": "preserve" }, coded(text))));
      }
    },
  });
  for (const column of children(child(root, "cols"), "col")) style(column, "style");
  // Two sheets that say they are selected would be changed together.
  for (const view of descendants(root, "sheetView")) edits.setAttribute(view, "tabSelected", undefined);
  for (const rule of descendants(root, "cfRule")) {
    const number = rule.attributes["dxfId"];
    if (number !== undefined) edits.setAttribute(rule, "dxfId", styles.ruleStyle(Number(number)));
  }
  return edits.apply();
}

function coded({ text }: CellText): string {
  return escapeText(codeString(text));
}

/* ---- the parts that hang on a sheet ---- */

/** Copies a part with all to which it leads; answers its new name. */
function movePart(target: WorkbookPackage, from: WorkbookPackage, part: string, moved: Map<string, string>): string {
  const known = moved.get(part);
  if (known !== undefined) return known;
  const name = isTaken(target, part) ? freeName(target, part) : part;
  moved.set(part, name);
  const type = contentTypes(from)(part) ?? "application/xml";
  const isTable = /\.table\+xml$/.test(type);
  addPart(target, name, type, isTable ? withTableId(from.text(part), nextTableId(target)) : from.bytes(part));
  const list = relationshipsName(part);
  if (from.has(list)) {
    const source = from.text(list);
    const edits = new XmlEdits(source);
    const related = relationshipsOf(from, part);
    for (const relationship of children(parseXml(source).root, "Relationship")) {
      const found = related.find(({ id }) => id === relationship.attributes["Id"]);
      if (found === undefined || found.isExternal) continue;
      edits.setAttribute(relationship, "Type", `${relationshipTypes(target)}/${found.kind}`);
      edits.setAttribute(relationship, "Target", relativeTarget(name, movePart(target, from, found.target, moved)));
    }
    target.set(relationshipsName(name), edits.apply());
  }
  return name;
}

function freeName(target: WorkbookPackage, part: string): string {
  const match = /^(.*?)\d*(\.[^./]+)$/.exec(part);
  return freePartName(target, match?.[1] ?? part, match?.[2] ?? "");
}

function withTableId(source: string, id: number): string {
  const edits = new XmlEdits(source);
  edits.setAttribute(parseXml(source).root, "id", id);
  return edits.apply();
}

/* ---- names ---- */

/** Such as what is printed of a sheet: each holds in one of the sheets, by its number. */
function addNames(target: WorkbookPackage, theirs: XmlElement, first: number): void {
  const names = children(child(theirs, "definedNames"), "definedName");
  if (names.length === 0) return;
  const { root, source, name } = readWorkbookPart(target);
  const prefix = prefixOf(root);
  const written = names.map(({ attributes, text }) => {
    const local = attributes["localSheetId"];
    const number = local === undefined ? undefined : Number(local) + first;
    return element(`${prefix}definedName`, { ...attributes, localSheetId: number }, escapeText(text));
  });
  const edits = new XmlEdits(source);
  const list = child(root, "definedNames");
  if (list) edits.append(list, written.join(""));
  else insertInWorkbook(edits, root, "definedNames", element(`${prefix}definedNames`, {}, ...written));
  target.set(name, edits.apply());
}
