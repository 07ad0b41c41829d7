/** The lists of a workbook's styles, to which items are added: fonts, fills, borders and what is put together of them. */
import { CONTENT_TYPES, MAIN_NAMESPACE } from "../../package/namespaces";
import { type Attributes, element, xmlPart } from "../../xml/write";
import { builtInFormat, readNumberFormats } from "./number-formats";
import { addPart, addRelationship } from "../../package/package-editing";
import { resolvePart } from "../../package/relationships";
import type { WorkbookPackage } from "../../package/workbook-package";
import type { WorkbookPart } from "../workbook/read";
import { XmlEdits } from "../../xml/edits";
import { child, parseXml, prefixOf, type XmlDocument } from "../../xml/tree";

const FIRST_OWN_FORMAT = 164;

/** The styles of a workbook that brings none. */
const LEAST_STYLES = xmlPart(
  element(
    "styleSheet",
    { xmlns: MAIN_NAMESPACE },
    element(
      "fonts",
      { count: 1 },
      element("font", {}, element("sz", { val: 11 }), element("name", { val: "Calibri" })),
    ),
    element(
      "fills",
      { count: 2 },
      element("fill", {}, element("patternFill", { patternType: "none" })),
      element("fill", {}, element("patternFill", { patternType: "gray125" })),
    ),
    element("borders", { count: 1 }, element("border")),
    element("cellStyleXfs", { count: 1 }, element("xf", { numFmtId: 0, fontId: 0, fillId: 0, borderId: 0 })),
    element("cellXfs", { count: 1 }, element("xf", { numFmtId: 0, fontId: 0, fillId: 0, borderId: 0, xfId: 0 })),
  ),
);

/** Lists of the styles part in the order that the format wants. */
const LISTS = [
  "numFmts",
  "fonts",
  "fills",
  "borders",
  "cellStyleXfs",
  "cellXfs",
  "cellStyles",
  "dxfs",
  "tableStyles",
  "colors",
  "extLst",
];

export class StyleLists {
  private opened: XmlDocument | undefined;
  private readonly added = new Map<string, string[]>();
  private readonly formats = new Map<string, number>();

  constructor(
    private readonly target: WorkbookPackage,
    private readonly workbook: Pick<WorkbookPart, "name" | "relationships">,
  ) {}

  /** The part as it is; one is put in where the workbook has none. */
  get document(): XmlDocument {
    if (this.opened === undefined) {
      const name = this.partName;
      if (!this.target.has(name)) {
        addPart(this.target, name, CONTENT_TYPES.styles, LEAST_STYLES);
        addRelationship(this.target, this.workbook.name, "styles", name);
      }
      this.opened = parseXml(this.target.text(name));
    }
    return this.opened;
  }

  private get partName(): string {
    const known = this.workbook.relationships.find(({ kind, isExternal }) => kind === "styles" && !isExternal);
    return known?.target ?? resolvePart(this.workbook.name, "styles.xml");
  }

  get prefix(): string {
    return prefixOf(this.document.root);
  }

  /** An element of this part. */
  element(name: string, attributes: Attributes = {}, ...inner: readonly string[]): string {
    return element(`${this.prefix}${name}`, attributes, ...inner);
  }

  /** The number of an item that is added at the end of a list, unless it is there. */
  add(list: string, xml: string): number {
    const { root, source } = this.document;
    const items = this.added.get(list) ?? [];
    const before = child(root, list)?.children ?? [];
    const known = before.findIndex(({ start, end }) => source.slice(start, end) === xml);
    if (known >= 0) return known;
    const again = items.indexOf(xml);
    if (again >= 0) return before.length + again;
    items.push(xml);
    this.added.set(list, items);
    return before.length + items.length - 1;
  }

  /** The number of a number format. */
  formatNumber(code: string): number {
    const builtIn = builtInFormat(code);
    if (builtIn !== undefined) return builtIn;
    const written = this.formats.get(code);
    if (written !== undefined) return written;
    const known = readNumberFormats(this.document.root);
    for (const [number, found] of known) if (found === code && number >= FIRST_OWN_FORMAT) return number;
    const number = Math.max(FIRST_OWN_FORMAT - 1, ...known.keys(), ...this.formats.values()) + 1;
    this.formats.set(code, number);
    this.add("numFmts", this.element("numFmt", { numFmtId: number, formatCode: code }));
    return number;
  }

  /** Writes what was added into the package. */
  finish(): void {
    if (this.added.size === 0) return;
    const { root, source } = this.document;
    const edits = new XmlEdits(source);
    for (const [name, items] of this.added) {
      const list = child(root, name);
      if (list) {
        edits.append(list, items.join(""));
        edits.setAttribute(list, "count", list.children.length + items.length);
      } else {
        const later = LISTS.slice(LISTS.indexOf(name) + 1).map((other) => child(root, other));
        const whole = this.element(name, { count: items.length }, ...items);
        const next = later.find((found) => found !== undefined);
        if (next) edits.insertBefore(next, whole);
        else edits.append(root, whole);
      }
    }
    this.target.set(this.partName, edits.apply());
  }
}
