/** A workbook file taken apart, with an XML parser that forgives nothing. */
import { DOMParser, onErrorStopParsing, type Document, type Element } from "@xmldom/xmldom";
import { strFromU8, unzipSync } from "fflate";

export class Package {
  private readonly files: Readonly<Record<string, Uint8Array>>;
  /** A part is asked for again and again, and a season's log takes a second to be read. */
  private readonly documents = new Map<string, Document>();

  constructor(bytes: Uint8Array) {
    this.files = unzipSync(bytes);
  }

  get paths(): readonly string[] {
    return Object.keys(this.files);
  }

  text(path: string): string {
    const file = this.files[path];
    if (!file) throw new Error(`the package has no ${path}`);
    return strFromU8(file);
  }

  xml(path: string): Document {
    let document = this.documents.get(path);
    if (document === undefined) {
      document = new DOMParser({ onError: onErrorStopParsing }).parseFromString(this.text(path), "text/xml");
      this.documents.set(path, document);
    }
    return document;
  }

  /** Every element of that name in a part, in the order of the part. */
  elements(path: string, name: string): readonly Element[] {
    return elementsIn(this.xml(path), name);
  }

  /** The targets of a part's relations, by their ids, as paths in the package. */
  relations(path: string): ReadonlyMap<string, { readonly type: string; readonly path: string }> {
    const slash = path.lastIndexOf("/");
    const folder = path.slice(0, slash + 1);
    const relations = new Map<string, { type: string; path: string }>();
    for (const relation of this.elements(`${folder}_rels/${path.slice(slash + 1)}.rels`, "Relationship")) {
      const id = attribute(relation, "Id");
      if (relations.has(id)) throw new Error(`${path} has two relations ${id}`);
      const target = new URL(attribute(relation, "Target"), `file:///${folder}`).pathname.slice(1);
      relations.set(id, { type: attribute(relation, "Type"), path: target });
    }
    return relations;
  }

  /** The part of a sheet, through the workbook's relations. */
  sheetPath(name: string): string {
    const sheet = this.elements("xl/workbook.xml", "sheet").find((one) => attribute(one, "name") === name);
    if (!sheet) throw new Error(`the workbook has no sheet ${name}`);
    const relation = this.relations("xl/workbook.xml").get(attribute(sheet, "r:id"));
    if (!relation) throw new Error(`the sheet ${name} has no part`);
    return relation.path;
  }

  /** The cells of a sheet by address. */
  cells(sheet: string): ReadonlyMap<string, Element> {
    const cells = new Map<string, Element>();
    for (const cell of this.elements(this.sheetPath(sheet), "c")) {
      const address = attribute(cell, "r");
      if (cells.has(address)) throw new Error(`${sheet} has two cells ${address}`);
      cells.set(address, cell);
    }
    return cells;
  }

  /** A cell's text where it is stored among the shared strings. */
  sharedText(cell: Element): string | undefined {
    if (cell.getAttribute("t") !== "s") return undefined;
    const item = this.elements("xl/sharedStrings.xml", "si")[Number(childText(cell, "v"))];
    return item?.textContent ?? undefined;
  }
}

export function elementsIn(node: Document | Element, name: string): readonly Element[] {
  return [...node.getElementsByTagName(name)];
}

export function attribute(element: Element, name: string): string {
  const value = element.getAttribute(name);
  if (value === null) throw new Error(`${element.tagName} has no ${name}`);
  return value;
}

export function childText(element: Element, name: string): string | undefined {
  return elementsIn(element, name)[0]?.textContent ?? undefined;
}
