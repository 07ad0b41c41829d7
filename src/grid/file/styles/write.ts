/** Looks that cells were given in the grid, added to the file's styles. What a look leaves as it was keeps its number. */
import {
  BaselineOffset,
  BooleanNumber,
  type IBorderStyleData,
  type IStyleBase,
  type IStyleData,
  type Nullable,
  WrapStrategy,
} from "@univerjs/core";

import { INDENT_PIXELS } from "../../../workbook/plan/looks";
import { element } from "../../../xlsx/xml/write";
import { StyleLists } from "../../../xlsx/parts/styles/style-lists";
import { BORDER_KINDS, HORIZONTAL, styleNumber, VERTICAL } from "./read";
import type { ReadWorkbook } from "../open";
import type { WorkbookPackage } from "../../../xlsx/package/workbook-package";
import { child, children, wholeNumber, type XmlElement } from "../../../xlsx/xml/tree";

export class StyleWriter {
  private readonly numbers = new Map<string, number>();
  private readonly lists: StyleLists;

  constructor(
    target: WorkbookPackage,
    private readonly workbook: ReadWorkbook,
  ) {
    this.lists = new StyleLists(target, workbook.part);
  }

  /**
   * The number of a cell style.
   * @param id what the grid calls the style, or the style itself
   * @param style the style itself
   * @param former the number of the style that the cell had
   */
  numberOf(id: unknown, style: Nullable<IStyleData>, former: number): number {
    const known = styleNumber(id);
    if (known !== undefined && sameStyle(style, this.workbook.styles.cellStyles[known])) return known;
    if (!style) return 0;
    const whole = former === 0 ? this.onUsual(style) : style;
    if (sameStyle(whole, this.workbook.styles.cellStyles[former] ?? {})) return former;
    const key = `${former} ${JSON.stringify(canonical(style))}`;
    const written = this.numbers.get(key);
    if (written !== undefined) return written;
    const number = this.addCellStyle(whole, former);
    this.numbers.set(key, number);
    return number;
  }

  /** Whether a cell style of the file shows numbers in a way of its own. */
  hasFormat(number: number): boolean {
    return Boolean(this.workbook.styles.cellStyles[number]?.n);
  }

  /** The number of a look that a rule gives to cells. */
  ruleNumberOf(style: IStyleBase): number {
    const known = this.workbook.styles.ruleStyles.findIndex((candidate) => sameStyle(candidate, style));
    if (known >= 0) return known;
    const font = fontXml(style, this.lists.prefix);
    const fill = style.bg?.rgb;
    const border = style.bd ? borderXml(style, this.lists.prefix) : "";
    const colour = fill ? argb(fill) : undefined;
    return this.lists.add(
      "dxfs",
      this.lists.element(
        "dxf",
        {},
        ...(font === this.lists.element("font") ? [] : [font]),
        ...(colour === undefined
          ? []
          : [
              this.lists.element(
                "fill",
                {},
                this.lists.element("patternFill", {}, this.lists.element("bgColor", { rgb: colour })),
              ),
            ]),
        ...(border === "" ? [] : [border]),
      ),
    );
  }

  /** Writes what was added into the package. */
  finish(): void {
    this.lists.finish();
  }

  /** A cell without a look of its own is drawn by the workbook's usual font, and so is what its new look leaves open. */
  private onUsual(style: IStyleData): IStyleData {
    const { ff, fs, cl } = this.workbook.styles.cellStyles[0] ?? {};
    return {
      ...(ff === undefined ? {} : { ff }),
      ...(fs === undefined ? {} : { fs }),
      ...(cl === undefined ? {} : { cl }),
      ...style,
    };
  }

  private addCellStyle(style: IStyleData, former: number): number {
    const { root, source } = this.lists.document;
    const formats = children(child(root, "cellXfs"), "xf");
    const base = formats[former] ?? formats[0];
    const old = this.workbook.styles.cellStyles[former] ?? {};
    const alignment = child(base, "alignment");
    const isAligned = same(alignmentOf(style), alignmentOf(old));
    const kept = alignment === undefined ? "" : source.slice(alignment.start, alignment.end);
    const attributes = {
      ...base?.attributes,
      xfId: base?.attributes["xfId"] ?? 0,
      ...this.changedLooks(style, old, base),
      ...(isAligned ? {} : { applyAlignment: 1 }),
    };
    const rest = (base?.children ?? []).filter(({ name }) => name !== "alignment");
    const content = [
      isAligned ? kept : alignmentXml(style, alignment, this.lists.prefix),
      ...rest.map(({ start, end }) => source.slice(start, end)),
    ];
    return this.lists.add("cellXfs", this.lists.element("xf", attributes, ...content.filter((xml) => xml !== "")));
  }

  /** Font, fill, border and number format where they are not those of the former look, each put into its list. */
  private changedLooks(style: IStyleData, old: IStyleData, base: XmlElement | undefined): Record<string, number> {
    const { lists } = this;
    const attributes: Record<string, number> = {};
    if (!same(fontOf(style), fontOf(old))) {
      const font = children(child(lists.document.root, "fonts"), "font")[wholeNumber(base, "fontId") ?? 0];
      const formerFont = font === undefined ? undefined : { font, source: lists.document.source, style: old };
      attributes["fontId"] = lists.add("fonts", fontXml(style, lists.prefix, formerFont));
      attributes["applyFont"] = 1;
    }
    if (!same(style.bg?.rgb, old.bg?.rgb)) {
      attributes["fillId"] = style.bg?.rgb ? lists.add("fills", this.fillXml(style.bg.rgb)) : 0;
      attributes["applyFill"] = 1;
    }
    if (!same(canonical(style.bd), canonical(old.bd))) {
      attributes["borderId"] = lists.add("borders", borderXml(style, lists.prefix));
      attributes["applyBorder"] = 1;
    }
    const [format, formerFormat] = [style, old].map(({ n }) => n?.pattern ?? "General");
    if (format !== formerFormat) {
      attributes["numFmtId"] = lists.formatNumber(format ?? "General");
      attributes["applyNumberFormat"] = 1;
    }
    return attributes;
  }

  private fillXml(rgb: string): string {
    return this.lists.element(
      "fill",
      {},
      this.lists.element(
        "patternFill",
        { patternType: "solid" },
        this.lists.element("fgColor", { rgb: argb(rgb) }),
        this.lists.element("bgColor", { indexed: 64 }),
      ),
    );
  }
}

/* ---- comparing ---- */

/** Whether two styles draw alike: what is left out, null or off is the same. */
function sameStyle(one: Nullable<IStyleData>, other: Nullable<IStyleData>): boolean {
  return same(canonical(one ?? {}), canonical(other ?? {}));
}

function same(one: unknown, other: unknown): boolean {
  return JSON.stringify(one) === JSON.stringify(other);
}

/** Without what says nothing, with keys in order and colours in capitals. */
function canonical(value: unknown): unknown {
  if (value === null || value === undefined || value === 0) return undefined;
  if (typeof value === "string") return value.startsWith("#") || value.startsWith("rgb") ? hexColour(value) : value;
  if (typeof value !== "object") return value;
  const entries = Object.entries(value)
    .map(([key, inner]): [string, unknown] => [key, canonical(inner)])
    .filter(([, inner]) => inner !== undefined)
    .sort(([one], [two]) => (one < two ? -1 : 1));
  return entries.length === 0 ? undefined : Object.fromEntries(entries);
}

function fontOf({ ff, fs, bl, it, ul, st, cl, va }: IStyleBase): unknown {
  return canonical({ ff, fs, bl, it, ul, st, cl, va });
}

function alignmentOf({ ht, vt, tb, tr, pd }: IStyleData): unknown {
  return canonical({ ht, vt, tb: tb === WrapStrategy.WRAP ? tb : undefined, tr, pd });
}

/* ---- writing ---- */

/** `#RRGGBB` or `rgb(r,g,b)` as `#RRGGBB`. */
function hexColour(colour: string): string {
  const parts = /^rgba?\(\s*(\d+)\s*,\s*(\d+)\s*,\s*(\d+)/.exec(colour);
  if (parts !== null) {
    const digits = parts.slice(1, 4).map((part) => Math.min(255, Number(part)).toString(16).padStart(2, "0"));
    return `#${digits.join("").toUpperCase()}`;
  }
  const short = /^#([0-9a-f])([0-9a-f])([0-9a-f])$/i.exec(colour);
  const long =
    short === null
      ? colour
      : `#${short
          .slice(1)
          .map((digit) => digit + digit)
          .join("")}`;
  return long.toUpperCase();
}

function argb(colour: string): string {
  const digits = /^#([0-9A-F]{6})/.exec(hexColour(colour))?.[1];
  return `FF${digits ?? "000000"}`;
}

/** The font that a cell had before, as the file has it and as the grid knows it. */
interface FormerFont {
  readonly font: XmlElement;
  readonly source: string;
  readonly style: IStyleBase;
}

/** What the grid says of a font, in the order in which programs write it; the rest of the former font stays. */
export function fontXml(style: IStyleBase, prefix: string, former?: FormerFont, tagName = "font"): string {
  const tag = (name: string, attributes: Readonly<Record<string, string | number>> = {}): string =>
    element(`${prefix}${name}`, attributes);
  const keep = (name: string): string[] => {
    const found = child(former?.font, name);
    return found === undefined || former === undefined ? [] : [former.source.slice(found.start, found.end)];
  };
  const sameName = former !== undefined && former.style.ff === style.ff;
  const sameColour = former !== undefined && same(canonical(style.cl), canonical(former.style.cl));
  const nameTag = tagName === "font" ? "name" : "rFont";
  const isOn = (value: Nullable<number>): boolean => value === BooleanNumber.TRUE;
  const parts = [
    ...(isOn(style.bl) ? [tag("b")] : []),
    ...(isOn(style.it) ? [tag("i")] : []),
    ...(isOn(style.st?.s) ? [tag("strike")] : []),
    ...["outline", "shadow"].flatMap(keep),
    ...(isOn(style.ul?.s) ? (keep("u").length > 0 ? keep("u") : [tag("u")]) : []),
    ...(style.va === BaselineOffset.SUPERSCRIPT ? [tag("vertAlign", { val: "superscript" })] : []),
    ...(style.va === BaselineOffset.SUBSCRIPT ? [tag("vertAlign", { val: "subscript" })] : []),
    ...(style.fs === undefined ? [] : [tag("sz", { val: style.fs })]),
    ...(sameColour ? keep("color") : style.cl?.rgb ? [tag("color", { rgb: argb(style.cl.rgb) })] : []),
    ...(style.ff ? [tag(nameTag, { val: style.ff })] : []),
    ...(sameName ? ["family", "charset", "scheme"].flatMap(keep) : []),
  ];
  return element(`${prefix}${tagName}`, {}, ...parts);
}

const BORDER_WORDS = new Map(Object.entries(BORDER_KINDS).map(([word, kind]) => [kind, word]));

function borderXml({ bd }: IStyleBase, prefix: string): string {
  const side = (name: string, line: Nullable<IBorderStyleData>): string => {
    const word = line ? BORDER_WORDS.get(line.s) : undefined;
    if (!line || word === undefined) return element(`${prefix}${name}`);
    return element(
      `${prefix}${name}`,
      { style: word },
      element(`${prefix}color`, { rgb: argb(line.cl.rgb ?? "#000000") }),
    );
  };
  const down = bd?.tl_br;
  const up = bd?.bl_tr;
  return element(
    `${prefix}border`,
    { diagonalUp: up ? 1 : undefined, diagonalDown: down ? 1 : undefined },
    side("left", bd?.l),
    side("right", bd?.r),
    side("top", bd?.t),
    side("bottom", bd?.b),
    side("diagonal", down ?? up),
  );
}

function wordOf<Value>(words: Readonly<Record<string, Value>>, wanted: Nullable<Value>): string | undefined {
  return Object.entries(words).find(([, value]) => value === wanted)?.[0];
}

function alignmentXml(style: IStyleData, former: XmlElement | undefined, prefix: string): string {
  const angle = style.tr?.a ?? 0;
  const indent = Math.round(((style.ht === HORIZONTAL["right"] ? style.pd?.r : style.pd?.l) ?? 0) / INDENT_PIXELS);
  return element(`${prefix}alignment`, {
    ...former?.attributes,
    horizontal: wordOf(HORIZONTAL, style.ht),
    vertical: wordOf(VERTICAL, style.vt),
    wrapText: style.tb === WrapStrategy.WRAP ? 1 : undefined,
    textRotation: style.tr?.v === BooleanNumber.TRUE ? 255 : angle === 0 ? undefined : angle > 0 ? angle + 90 : -angle,
    indent: indent > 0 ? indent : undefined,
  });
}
