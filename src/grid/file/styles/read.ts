/** The file's styles as the grid draws them. The grid's name of a style is the file's number with an `x` before it. */
import {
  BaselineOffset,
  BooleanNumber,
  BorderStyleTypes,
  HorizontalAlign,
  type IBorderData,
  type IBorderStyleData,
  type IStyleBase,
  type IStyleData,
  VerticalAlign,
  WrapStrategy,
} from "@univerjs/core";

import { INDENT_PIXELS } from "../../../workbook/plan/looks";
import { type Palette, readColour, readPalette } from "../../../xlsx/parts/styles/colours";
import { readNumberFormats, showsDate } from "../../../xlsx/parts/styles/number-formats";
import type { WorkbookPackage } from "../../../xlsx/package/workbook-package";
import { child, children, decimalNumber, isTrue, parseXml, wholeNumber, type XmlElement } from "../../../xlsx/xml/tree";

export interface StylesPart {
  /** By number: how cells are drawn. */
  readonly cellStyles: readonly IStyleData[];
  /** By number: whether the cell's number is shown as a day or a time. */
  readonly datedStyles: readonly boolean[];
  /** By number: how conditional formats draw. */
  readonly ruleStyles: readonly IStyleBase[];
  readonly palette: Palette;
  /** Whether anything is filled with a pattern or a gradient, which the grid shows plain. */
  readonly hasFillPatterns: boolean;
}

export function styleId(number: number): string {
  return `x${number}`;
}

/** The file's number of a style that the grid names, or undefined for one that was made in the grid. */
export function styleNumber(id: unknown): number | undefined {
  return typeof id === "string" && /^x\d+$/.test(id) ? Number(id.slice(1)) : undefined;
}

export function readStyles(source: WorkbookPackage, part: string | undefined, theme: string | undefined): StylesPart {
  const root = part !== undefined && source.has(part) ? parseXml(source.text(part)).root : undefined;
  const themeRoot = theme !== undefined && source.has(theme) ? parseXml(source.text(theme)).root : undefined;
  const palette = readPalette(themeRoot, root);
  const formats = readNumberFormats(root);
  const fonts = children(child(root, "fonts"), "font").map((font) => readFont(font, palette));
  const fillElements = children(child(root, "fills"), "fill");
  const fills = fillElements.map((fill) => readFill(fill, palette));
  const borders = children(child(root, "borders"), "border").map((border) => readBorder(border, palette));
  const cellFormats = children(child(root, "cellXfs"), "xf");
  const codes = cellFormats.map((format) => formats.get(wholeNumber(format, "numFmtId") ?? 0) ?? "General");
  return {
    cellStyles: cellFormats.map((format, index) => {
      const fill = fills[wholeNumber(format, "fillId") ?? 0];
      const border = borders[wholeNumber(format, "borderId") ?? 0];
      const code = codes[index] ?? "General";
      return {
        ...fonts[wholeNumber(format, "fontId") ?? 0],
        ...(fill === undefined ? {} : { bg: { rgb: fill } }),
        ...(border === undefined ? {} : { bd: border }),
        ...(code === "General" ? {} : { n: { pattern: code } }),
        ...readAlignment(child(format, "alignment")),
      };
    }),
    datedStyles: codes.map(showsDate),
    ruleStyles: children(child(root, "dxfs"), "dxf").map((style) => readRuleStyle(style, palette)),
    palette,
    hasFillPatterns: cellFormats.some((format) => {
      const fill = fillElements[wholeNumber(format, "fillId") ?? 0];
      return fill !== undefined && isPattern(fill);
    }),
  };
}

function readRuleStyle(style: XmlElement, palette: Palette): IStyleBase {
  const pattern = child(child(style, "fill"), "patternFill");
  // Here, other than in a cell's style, a plain fill has the colour of the pattern's ground.
  const fill = readColour(child(pattern, "bgColor") ?? child(pattern, "fgColor"), palette);
  const borderElement = child(style, "border");
  const border = borderElement === undefined ? undefined : readBorder(borderElement, palette);
  const font = child(style, "font");
  return {
    ...(font === undefined ? {} : readFont(font, palette)),
    ...(fill === undefined ? {} : { bg: { rgb: fill } }),
    ...(border === undefined ? {} : { bd: border }),
  };
}

/** A font of the styles part or of a run of letters (`rFont` instead of `name`). */
export function readFont(font: XmlElement, palette: Palette): IStyleBase {
  const name = child(font, "name")?.attributes["val"] ?? child(font, "rFont")?.attributes["val"];
  const size = decimalNumber(child(font, "sz"), "val");
  const colour = readColour(child(font, "color"), palette);
  const offset = child(font, "vertAlign")?.attributes["val"];
  return {
    ...(name === undefined ? {} : { ff: name }),
    ...(size === undefined ? {} : { fs: size }),
    ...(colour === undefined ? {} : { cl: { rgb: colour } }),
    ...(isSet(font, "b") ? { bl: BooleanNumber.TRUE } : {}),
    ...(isSet(font, "i") ? { it: BooleanNumber.TRUE } : {}),
    ...(isUnderlined(font) ? { ul: { s: BooleanNumber.TRUE } } : {}),
    ...(isSet(font, "strike") ? { st: { s: BooleanNumber.TRUE } } : {}),
    ...(offset === "superscript" ? { va: BaselineOffset.SUPERSCRIPT } : {}),
    ...(offset === "subscript" ? { va: BaselineOffset.SUBSCRIPT } : {}),
  };
}

function isSet(font: XmlElement, name: string): boolean {
  const element = child(font, name);
  return element !== undefined && isTrue(element, "val", true);
}

function isUnderlined(font: XmlElement): boolean {
  const element = child(font, "u");
  return element !== undefined && element.attributes["val"] !== "none";
}

function isPattern(fill: XmlElement): boolean {
  const kind = child(fill, "patternFill")?.attributes["patternType"];
  return child(fill, "gradientFill") !== undefined || (kind !== undefined && kind !== "none" && kind !== "solid");
}

function readFill(fill: XmlElement, palette: Palette): string | undefined {
  const gradient = child(fill, "gradientFill");
  if (gradient) return readColour(child(child(gradient, "stop"), "color"), palette);
  const pattern = child(fill, "patternFill");
  const kind = pattern?.attributes["patternType"];
  if (kind === undefined || kind === "none") return undefined;
  // A pattern of dots or lines is shown as its ground, where it has one.
  const colour = kind === "solid" ? child(pattern, "fgColor") : child(pattern, "bgColor");
  return readColour(colour, palette);
}

export const BORDER_KINDS: Readonly<Record<string, BorderStyleTypes>> = {
  thin: BorderStyleTypes.THIN,
  hair: BorderStyleTypes.HAIR,
  dotted: BorderStyleTypes.DOTTED,
  dashed: BorderStyleTypes.DASHED,
  dashDot: BorderStyleTypes.DASH_DOT,
  dashDotDot: BorderStyleTypes.DASH_DOT_DOT,
  double: BorderStyleTypes.DOUBLE,
  medium: BorderStyleTypes.MEDIUM,
  mediumDashed: BorderStyleTypes.MEDIUM_DASHED,
  mediumDashDot: BorderStyleTypes.MEDIUM_DASH_DOT,
  mediumDashDotDot: BorderStyleTypes.MEDIUM_DASH_DOT_DOT,
  slantDashDot: BorderStyleTypes.SLANT_DASH_DOT,
  thick: BorderStyleTypes.THICK,
};

function readBorder(border: XmlElement, palette: Palette): IBorderData | undefined {
  const side = (...names: readonly string[]): IBorderStyleData | undefined => {
    const element = names.map((name) => child(border, name)).find((found) => found !== undefined);
    const kind = BORDER_KINDS[element?.attributes["style"] ?? ""];
    if (kind === undefined) return undefined;
    return { s: kind, cl: { rgb: readColour(child(element, "color"), palette) ?? "#000000" } };
  };
  const diagonal = side("diagonal");
  const drawn: IBorderData = {};
  const put = (key: keyof IBorderData, line: IBorderStyleData | undefined): void => {
    if (line !== undefined) drawn[key] = line;
  };
  put("l", side("left", "start"));
  put("r", side("right", "end"));
  put("t", side("top"));
  put("b", side("bottom"));
  if (isTrue(border, "diagonalDown")) put("tl_br", diagonal);
  if (isTrue(border, "diagonalUp")) put("bl_tr", diagonal);
  return Object.keys(drawn).length === 0 ? undefined : drawn;
}

export const HORIZONTAL: Readonly<Record<string, HorizontalAlign>> = {
  left: HorizontalAlign.LEFT,
  center: HorizontalAlign.CENTER,
  right: HorizontalAlign.RIGHT,
  justify: HorizontalAlign.JUSTIFIED,
  distributed: HorizontalAlign.DISTRIBUTED,
  centerContinuous: HorizontalAlign.CENTER,
};

export const VERTICAL: Readonly<Record<string, VerticalAlign>> = {
  top: VerticalAlign.TOP,
  center: VerticalAlign.MIDDLE,
  bottom: VerticalAlign.BOTTOM,
  justify: VerticalAlign.TOP,
  distributed: VerticalAlign.MIDDLE,
};

/** The letters stand above each other. */
const STACKED = 255;

function readAlignment(alignment: XmlElement | undefined): IStyleData {
  const style: IStyleData = {};
  const horizontal = HORIZONTAL[alignment?.attributes["horizontal"] ?? ""];
  if (horizontal !== undefined) style.ht = horizontal;
  const vertical = VERTICAL[alignment?.attributes["vertical"] ?? ""];
  if (vertical !== undefined) style.vt = vertical;
  if (isTrue(alignment, "wrapText")) style.tb = WrapStrategy.WRAP;
  const rotation = wholeNumber(alignment, "textRotation") ?? 0;
  if (rotation === STACKED) style.tr = { a: 0, v: BooleanNumber.TRUE };
  // Beyond 90 the file counts downwards, as the grid does for every angle.
  else if (rotation !== 0) style.tr = { a: rotation > 90 ? rotation - 90 : -rotation };
  const indent = wholeNumber(alignment, "indent") ?? 0;
  if (indent > 0) {
    const side = alignment?.attributes["horizontal"] === "right" ? "r" : "l";
    style.pd = { [side]: indent * INDENT_PIXELS };
  }
  return style;
}
