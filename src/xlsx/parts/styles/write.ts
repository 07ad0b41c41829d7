/** The looks and number formats in use, each combination stored once and referred to by its number. */
import {
  alignmentOf,
  FONT_NAME,
  looks,
  numberFormats,
  wordLooks,
  type Colour,
  type Drawing,
  type Place,
  type StatusDrawing,
} from "../../../workbook/plan/looks";
import type { Look, NumberFormat, WordLook } from "../../../workbook/plan/schema";
import { MAIN_NAMESPACE } from "../../package/namespaces";
import { element, xmlPart } from "../../xml/write";

export interface CellStyle {
  readonly look: Look;
  readonly format: NumberFormat;
  /** Left out: no table's cell. */
  readonly place?: Place;
  readonly wrap: boolean;
  /** Whether the cell's text stays text when somebody edits it, though it reads as a formula, a number or a date. */
  readonly keptAsText: boolean;
}

/** Format codes that the file format numbers itself (ECMA-376 part 1, 18.8.30). */
const BUILT_IN_FORMATS: ReadonlyMap<string, number> = new Map([
  ["General", 0],
  ["0", 1],
  ["0.00", 2],
  ["0%", 9],
  ["@", 49],
]);
const FIRST_OWN_FORMAT = 164;

/** XML elements, each once, in the order in which they were first asked for. */
class Numbered {
  private readonly numbers = new Map<string, number>();

  constructor(...first: readonly string[]) {
    first.forEach((xml) => this.numberOf(xml));
  }

  numberOf(xml: string): number {
    const known = this.numbers.get(xml);
    if (known !== undefined) return known;
    const next = this.numbers.size;
    this.numbers.set(xml, next);
    return next;
  }

  get size(): number {
    return this.numbers.size;
  }

  list(name: string): string {
    return element(name, { count: this.numbers.size }, ...this.numbers.keys());
  }
}

const DEFAULT_STYLE: CellStyle = { look: "plain", format: "general", wrap: false, keptAsText: false };

export class Styles {
  private readonly ownFormats = new Map<string, number>();
  private readonly fonts = new Numbered();
  // The format wants these two fills first, whatever else is in use.
  private readonly fills = new Numbered(
    element("fill", {}, element("patternFill", { patternType: "none" })),
    element("fill", {}, element("patternFill", { patternType: "gray125" })),
  );
  private readonly borders = new Numbered(borderXml(null));
  private readonly cellFormats = new Numbered();
  private readonly statusFormats = new Numbered();

  constructor() {
    // Cells without a style of their own are drawn by number 0.
    this.numberOf(DEFAULT_STYLE);
  }

  /** The number of a cell style. */
  numberOf(style: CellStyle): number {
    const drawing = looks[style.look];
    const { horizontal, indent } = alignmentOf(style.look, style.format, style.place ?? "sheet");
    const numFmtId = this.formatNumber(numberFormats[style.format]);
    const fontId = this.fonts.numberOf(fontXml(drawing));
    const fillId = drawing.fill === null ? 0 : this.fills.numberOf(fillXml(drawing.fill));
    const borderId = this.borders.numberOf(borderXml(drawing.border));
    return this.cellFormats.numberOf(
      element(
        "xf",
        {
          numFmtId,
          fontId,
          fillId,
          borderId,
          xfId: 0,
          quotePrefix: style.keptAsText ? 1 : undefined,
          applyNumberFormat: numFmtId === 0 ? undefined : 1,
          applyFont: fontId === 0 ? undefined : 1,
          applyFill: fillId === 0 ? undefined : 1,
          applyBorder: borderId === 0 ? undefined : 1,
          applyAlignment: 1,
        },
        element("alignment", {
          horizontal: horizontal === "natural" ? undefined : horizontal,
          vertical: "top",
          wrapText: style.wrap ? 1 : undefined,
          indent: indent > 0 ? indent : undefined,
        }),
      ),
    );
  }

  /** The number of a status look among the conditional formats. */
  statusNumberOf(look: WordLook): number {
    return this.statusFormats.numberOf(statusXml(wordLooks[look]));
  }

  part(): string {
    const formats = [...this.ownFormats].map(([formatCode, numFmtId]) => element("numFmt", { numFmtId, formatCode }));
    return xmlPart(
      element(
        "styleSheet",
        { xmlns: MAIN_NAMESPACE },
        ...(formats.length === 0 ? [] : [element("numFmts", { count: formats.length }, ...formats)]),
        this.fonts.list("fonts"),
        this.fills.list("fills"),
        this.borders.list("borders"),
        element("cellStyleXfs", { count: 1 }, element("xf", { numFmtId: 0, fontId: 0, fillId: 0, borderId: 0 })),
        this.cellFormats.list("cellXfs"),
        element("cellStyles", { count: 1 }, element("cellStyle", { name: "Normal", xfId: 0, builtinId: 0 })),
        this.statusFormats.list("dxfs"),
      ),
    );
  }

  private formatNumber(code: string): number {
    const builtIn = BUILT_IN_FORMATS.get(code);
    if (builtIn !== undefined) return builtIn;
    const known = this.ownFormats.get(code);
    if (known !== undefined) return known;
    const next = FIRST_OWN_FORMAT + this.ownFormats.size;
    this.ownFormats.set(code, next);
    return next;
  }
}

/** Fully opaque, as the format writes colours. */
function argb(colour: Colour): string {
  return `FF${colour.slice(1).toUpperCase()}`;
}

function fontXml(drawing: Drawing): string {
  return element(
    "font",
    {},
    ...(drawing.bold ? [element("b")] : []),
    ...(drawing.italic ? [element("i")] : []),
    element("sz", { val: drawing.sizePoints }),
    element("color", { rgb: argb(drawing.textColour) }),
    element("name", { val: FONT_NAME }),
    element("family", { val: 2 }),
  );
}

function fillXml(fill: Colour): string {
  return element(
    "fill",
    {},
    element(
      "patternFill",
      { patternType: "solid" },
      element("fgColor", { rgb: argb(fill) }),
      element("bgColor", { indexed: 64 }),
    ),
  );
}

function borderXml(border: Drawing["border"]): string {
  const side = (name: string): string => {
    const drawn = border !== null && (border.sides === "all" || name === "bottom");
    return drawn ? element(name, { style: "thin" }, element("color", { rgb: argb(border.colour) })) : element(name);
  };
  return element("border", {}, side("left"), side("right"), side("top"), side("bottom"), element("diagonal"));
}

function statusXml({ textColour, fill, bold }: StatusDrawing): string {
  return element(
    "dxf",
    {},
    element("font", {}, ...(bold ? [element("b")] : []), element("color", { rgb: argb(textColour) })),
    element(
      "fill",
      {},
      element(
        "patternFill",
        { patternType: "solid" },
        element("fgColor", { rgb: argb(fill) }),
        element("bgColor", { rgb: argb(fill) }),
      ),
    ),
  );
}
