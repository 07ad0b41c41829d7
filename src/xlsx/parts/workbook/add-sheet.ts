/** An empty sheet put into the file, for one that was added in the grid. */
import { CONTENT_TYPES, MAIN_NAMESPACE, RELATION_NAMESPACE } from "../../package/namespaces";
import { element, xmlPart } from "../../xml/write";
import { addPart, addRelationship, freePartName } from "../../package/package-editing";
import { resolvePart } from "../../package/relationships";
import { readWorkbookPart } from "./read";
import type { WorkbookPackage } from "../../package/workbook-package";
import { XmlEdits } from "../../xml/edits";
import { child, children, prefixOf, wholeNumber } from "../../xml/tree";

/** @returns the new part's name */
export function addEmptySheet(target: WorkbookPackage, name: string): string {
  const workbook = readWorkbookPart(target);
  const part = freePartName(target, resolvePart(workbook.name, "worksheets/sheet"));
  const xml = xmlPart(
    element("worksheet", { xmlns: MAIN_NAMESPACE, "xmlns:r": RELATION_NAMESPACE }, element("sheetData")),
  );
  addPart(target, part, CONTENT_TYPES.worksheet, xml);
  listSheet(target, part, name);
  return part;
}

/** Puts a part that is there already at the end of the workbook's sheets. */
export function listSheet(target: WorkbookPackage, part: string, name: string): void {
  const { root, source, name: workbook } = readWorkbookPart(target);
  const list = child(root, "sheets");
  if (list === undefined) throw new Error("The workbook has no list of sheets.");
  const id = addRelationship(target, workbook, "worksheet", part);
  const sheetId = Math.max(0, ...children(list, "sheet").map((sheet) => wholeNumber(sheet, "sheetId") ?? 0)) + 1;
  const edits = new XmlEdits(source);
  edits.append(list, element(`${prefixOf(root)}sheet`, { name, sheetId, "xmlns:r": RELATION_NAMESPACE, "r:id": id }));
  target.set(workbook, edits.apply());
}
