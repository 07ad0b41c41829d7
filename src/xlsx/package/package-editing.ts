/** Parts put into a package and taken out of it, with what the package says about them elsewhere. */
import { CONTENT_TYPES_NAMESPACE, PACKAGE_RELATIONS_NAMESPACE } from "./namespaces";
import { element, xmlPart } from "../xml/write";
import { CONTENT_TYPES_PART, contentTypes } from "./content-types";
import { relationshipsName, relationshipsOf, relativeTarget } from "./relationships";
import type { WorkbookPackage } from "./workbook-package";
import { XmlEdits } from "../xml/edits";
import { children, parseXml, prefixOf } from "../xml/tree";

/** The beginning of the types of relationships: the two editions of the format have one each. */
export function relationshipTypes(source: WorkbookPackage): string {
  const main = relationshipsOf(source, "").find(({ kind }) => kind === "officeDocument");
  return main?.type.slice(0, main.type.lastIndexOf("/")) ?? "";
}

/** A name for a new part that no part has, such as `xl/worksheets/sheet4.xml`. */
export function freePartName(source: WorkbookPackage, start: string, end = ".xml"): string {
  for (let number = 1; ; number += 1) {
    const name = `${start}${number}${end}`;
    if (!isTaken(source, name)) return name;
  }
}

/**
 * Whether a part's name cannot be given to a new part: there is one, or another part points to it although it is gone, as
 * some programs leave it. Put there, the new part would show on the sheet that points to it.
 */
export function isTaken(source: WorkbookPackage, name: string): boolean {
  if (source.has(name) || source.has(relationshipsName(name))) return true;
  const wanted = name.toLowerCase();
  return source.names().some((list) => {
    const owner = /^(.*\/)?_rels\/(.+)\.rels$/i.exec(list);
    if (owner === null) return false;
    const part = `${owner[1] ?? ""}${owner[2] ?? ""}`;
    return relationshipsOf(source, part).some(
      ({ target, isExternal }) => !isExternal && target.toLowerCase() === wanted,
    );
  });
}

/** Puts a part in; the package knows then what kind it is. */
export function addPart(
  target: WorkbookPackage,
  name: string,
  contentType: string,
  content: string | Uint8Array,
): void {
  target.set(name, content);
  setContentType(target, name, contentType);
}

function setContentType(target: WorkbookPackage, part: string, contentType: string): void {
  if (contentTypes(target)(part) === contentType) return;
  const source = target.has(CONTENT_TYPES_PART)
    ? target.text(CONTENT_TYPES_PART)
    : xmlPart(element("Types", { xmlns: CONTENT_TYPES_NAMESPACE }));
  const { root } = parseXml(source);
  const edits = new XmlEdits(source);
  for (const override of overridesOf(root, part)) edits.removeElement(override);
  edits.append(root, element(`${prefixOf(root)}Override`, { PartName: `/${part}`, ContentType: contentType }));
  target.set(CONTENT_TYPES_PART, edits.apply());
}

function overridesOf(root: Parameters<typeof children>[0], part: string): ReturnType<typeof children> {
  return children(root, "Override").filter(
    ({ attributes }) => (attributes["PartName"] ?? "").toLowerCase() === `/${part}`.toLowerCase(),
  );
}

/** Leads from one part to another; answers the relationship's id. */
export function addRelationship(target: WorkbookPackage, part: string, kind: string, to: string): string {
  const name = relationshipsName(part);
  const source = target.has(name)
    ? target.text(name)
    : xmlPart(element("Relationships", { xmlns: PACKAGE_RELATIONS_NAMESPACE }));
  const { root } = parseXml(source);
  const used = new Set(children(root, "Relationship").map(({ attributes }) => attributes["Id"]));
  let number = used.size + 1;
  while (used.has(`rId${number}`)) number += 1;
  const id = `rId${number}`;
  const edits = new XmlEdits(source);
  edits.append(
    root,
    element(`${prefixOf(root)}Relationship`, {
      Id: id,
      Type: kind.includes("/") ? kind : `${relationshipTypes(target)}/${kind}`,
      Target: relativeTarget(part, to),
    }),
  );
  target.set(name, edits.apply());
  return id;
}

export function removeRelationship(target: WorkbookPackage, part: string, id: string): void {
  const name = relationshipsName(part);
  if (!target.has(name)) return;
  const source = target.text(name);
  const edits = new XmlEdits(source);
  for (const relationship of children(parseXml(source).root, "Relationship")) {
    if (relationship.attributes["Id"] === id) edits.removeElement(relationship);
  }
  target.set(name, edits.apply());
}

/** Takes out every part to which nothing leads any more, out of those to which something led in `before`. */
export function removeUnreachable(target: WorkbookPackage, before: WorkbookPackage): void {
  const kept = reachable(target);
  for (const part of reachable(before)) {
    if (kept.has(part) || !target.has(part)) continue;
    target.remove(part);
    target.remove(relationshipsName(part));
    removeContentType(target, part);
  }
}

function removeContentType(target: WorkbookPackage, part: string): void {
  const source = target.text(CONTENT_TYPES_PART);
  const edits = new XmlEdits(source);
  for (const override of overridesOf(parseXml(source).root, part)) edits.removeElement(override);
  if (!edits.isEmpty) target.set(CONTENT_TYPES_PART, edits.apply());
}

/** In small letters: every part to which a way leads from the package itself. */
function reachable(source: WorkbookPackage): Set<string> {
  const found = new Set<string>();
  const waiting = [""];
  for (let part = waiting.pop(); part !== undefined; part = waiting.pop()) {
    for (const { target, isExternal } of relationshipsOf(source, part)) {
      const key = target.toLowerCase();
      if (isExternal || found.has(key) || !source.has(target)) continue;
      found.add(key);
      waiting.push(target);
    }
  }
  return found;
}
