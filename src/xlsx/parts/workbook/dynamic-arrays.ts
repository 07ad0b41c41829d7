/** The record by which a cell says that its formula spills: cells name it by number (`cm`), the workbook holds it once. */
import { metadataPart } from "../../write-plan";
import { CONTENT_TYPES, DYNAMIC_ARRAY_NAMESPACE } from "../../package/namespaces";
import { element } from "../../xml/write";
import { addPart, addRelationship, freePartName, isTaken } from "../../package/package-editing";
import { resolvePart } from "../../package/relationships";
import type { WorkbookPart } from "./read";
import type { WorkbookPackage } from "../../package/workbook-package";
import { XmlEdits } from "../../xml/edits";
import { child, children, descendants, isTrue, parseXml, prefixOf, wholeNumber, type XmlElement } from "../../xml/tree";

const NAME = "XLDAPR";
const EXTENSION = "{bdbb8cdc-fa1e-496e-a857-3c3f30c029c3}";

/** The number of the record, from 1; it is put into the workbook where it is not there yet. */
export function dynamicArrayRecord(target: WorkbookPackage, workbook: WorkbookPart): number {
  const known = workbook.relationships.find(({ kind }) => kind === "sheetMetadata")?.target;
  if (known === undefined || !target.has(known)) {
    const plain = resolvePart(workbook.name, "metadata.xml");
    const name = isTaken(target, plain) ? freePartName(target, plain.replace(/\.xml$/, "")) : plain;
    addPart(target, name, CONTENT_TYPES.sheetMetadata, metadataPart());
    addRelationship(target, workbook.name, "sheetMetadata", name);
    return 1;
  }
  return recordIn(target, known);
}

function recordIn(target: WorkbookPackage, part: string): number {
  const { root, source } = parseXml(target.text(part));
  const types = children(child(root, "metadataTypes"), "metadataType");
  const type = types.findIndex(({ attributes }) => attributes["name"] === NAME) + 1;
  const future = children(root, "futureMetadata").find(({ attributes }) => attributes["name"] === NAME);
  const kinds = children(future, "bk");
  const dynamic = kinds.findIndex((block) =>
    descendants(block, "dynamicArrayProperties").some((one) => isTrue(one, "fDynamic")),
  );
  const records = children(child(root, "cellMetadata"), "bk");
  const record = records.findIndex((block) =>
    children(block, "rc").some((one) => wholeNumber(one, "t") === type && wholeNumber(one, "v") === dynamic),
  );
  if (type > 0 && dynamic >= 0 && record >= 0) return record + 1;

  const own = parseXml(metadataPart());
  const piece = (...path: readonly string[]): string => {
    let found: XmlElement | undefined = own.root;
    for (const name of path) found = child(found, name);
    return found === undefined ? "" : own.source.slice(found.start, found.end);
  };
  const prefix = prefixOf(root);
  const edits = new XmlEdits(source);
  const list = child(root, "metadataTypes");
  if (type === 0) {
    if (list) addTo(edits, list, prefixed(piece("metadataTypes", "metadataType"), prefix));
    else edits.replace(root.contentStart, root.contentStart, prefixed(piece("metadataTypes"), prefix));
  }
  if (dynamic < 0) {
    const block = element(
      `${prefix}bk`,
      {},
      element(
        `${prefix}extLst`,
        {},
        element(
          `${prefix}ext`,
          { uri: EXTENSION },
          element("xda:dynamicArrayProperties", { "xmlns:xda": DYNAMIC_ARRAY_NAMESPACE, fDynamic: 1, fCollapsed: 0 }),
        ),
      ),
    );
    if (future) addTo(edits, future, block);
    else {
      const before = child(root, "cellMetadata") ?? child(root, "valueMetadata") ?? child(root, "extLst");
      const whole = element(`${prefix}futureMetadata`, { name: NAME, count: 1 }, block);
      if (before) edits.insertBefore(before, whole);
      else edits.append(root, whole);
    }
  }
  const typeNumber = type === 0 ? types.length + 1 : type;
  const rc = element(
    `${prefix}bk`,
    {},
    element(`${prefix}rc`, { t: typeNumber, v: dynamic < 0 ? kinds.length : dynamic }),
  );
  const cells = child(root, "cellMetadata");
  if (cells) addTo(edits, cells, rc);
  else {
    const before = child(root, "valueMetadata") ?? child(root, "extLst");
    const whole = element(`${prefix}cellMetadata`, { count: 1 }, rc);
    if (before) edits.insertBefore(before, whole);
    else edits.append(root, whole);
  }
  target.set(part, edits.apply());
  return records.length + 1;
}

function addTo(edits: XmlEdits, list: XmlElement, xml: string): void {
  edits.append(list, xml);
  edits.setAttribute(list, "count", list.children.length + 1);
}

/** Our own pieces are written without a prefix. */
export function prefixed(xml: string, prefix: string): string {
  return prefix === "" ? xml : xml.replace(/<(\/?)(?=[a-zA-Z]+[\s/>])/g, `<$1${prefix}`);
}
