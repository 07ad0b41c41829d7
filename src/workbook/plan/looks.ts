/**
 * How each look, number format and status is drawn. Every pair of text and fill is readable (contrast of at least 4.5 to 1,
 * WCAG 2.2, 1.4.3), and the fills of the statuses differ in lightness as well as in hue, so that people who see colours
 * differently tell them apart; a test works both out. The status word always stands in the cell too.
 */
import type { Status } from "../../trade/statuses";
import type { Look, NumberFormat, PrintPlan, SeriesLook, SheetPlan, StatusLook, TableColumn, WordLook } from "./schema";

/** `#RRGGBB` */
export type Colour = `#${string}`;

export interface Drawing {
  readonly textColour: Colour;
  /** `null` leaves the sheet's own white. */
  readonly fill: Colour | null;
  /** A thin line on all four sides, or below only. */
  readonly border: { readonly colour: Colour; readonly sides: "all" | "below" } | null;
  readonly bold: boolean;
  readonly italic: boolean;
  readonly sizePoints: number;
  /** What the cells hold: figures and words in columns or beside labels, words alone, or anything. See `alignmentOf`. */
  readonly holds: "columns" | "words" | "anything";
}

/** Where a cell's content stands: `natural` leaves it to the spreadsheet. */
interface Alignment {
  readonly horizontal: "natural" | "left" | "right";
  /** Room between the content and the cell's edge, in steps of three spaces. */
  readonly indent: number;
}

/** One step of indentation is as wide as three spaces. */
export const INDENT_PIXELS = 9;

/** Cells of a table, or all others. */
export type Place = "sheet" | "table";

export const FONT_NAME = "Calibri";
export const BODY_SIZE_POINTS = 11;

/** The host's plainest table style: thin lines and pale bands, under the looks below. */
export const TABLE_STYLE_NAME = "TableStyleLight1";

/** What is to be taken care of. */
const CAUTION = { textColour: "#5A2A00", fill: "#FDEBDD" } as const;

/** How a sheet lies on paper: as its plan says, else across the page, as wide as it, with its frozen rows on each. */
export function pageOf(sheet: SheetPlan): PrintPlan {
  return sheet.print ?? { orientation: "landscape", pagesWide: 1, repeatRows: sheet.frozen.rows };
}

const INK: Colour = "#1F2430";
const QUIET_INK: Colour = "#4C5464";
const LINE: Colour = "#C3C8D2";

const plain: Drawing = {
  textColour: INK,
  fill: null,
  border: null,
  bold: false,
  italic: false,
  sizePoints: BODY_SIZE_POINTS,
  holds: "anything",
};

export const looks: Readonly<Record<Look, Drawing>> = {
  plain,
  title: { ...plain, textColour: "#3B1F5B", bold: true, sizePoints: 18, holds: "words" },
  heading: { ...plain, textColour: "#FFFFFF", fill: "#4A2C6F", bold: true, holds: "columns" },
  label: { ...plain, bold: true, holds: "words" },
  input: { ...plain, fill: "#FFF9E5", border: { colour: LINE, sides: "all" }, holds: "columns" },
  entry: { ...plain, holds: "columns" },
  answer: { ...plain, fill: "#F1EEF6", border: { colour: LINE, sides: "below" }, holds: "columns" },
  note: { ...plain, textColour: QUIET_INK, italic: true, holds: "words" },
  figure: { ...plain, textColour: QUIET_INK, italic: true, holds: "columns" },
  caution: { ...plain, ...CAUTION, holds: "words" },
  // To be read at arm's length and written into with a pencil.
  box: { ...plain, sizePoints: 15, border: { colour: INK, sides: "all" }, holds: "words" },
};

/** How a table's cells are drawn: what is worked out looks unlike what is typed. */
export function columnLook(column: TableColumn): Look {
  return column.formula === undefined ? "entry" : "answer";
}

/** Formats of numbers, percentages and days. What follows a ± belongs to the number on its left, and stands beside it. */
const COLUMN_FORMATS: ReadonlySet<NumberFormat> = new Set<NumberFormat>([
  "number",
  "whole",
  "oneDecimal",
  "twoDecimals",
  "percent",
  "date",
  "metres",
  "seconds",
]);

/** Numbers, percentages and days stand right, where their digits line up, and words left; a heading as its column does. */
export function alignmentOf(look: Look, format: NumberFormat, place: Place): Alignment {
  const { holds } = looks[look];
  if (holds === "anything") return { horizontal: "natural", indent: 0 };
  // Words too are said to stand left: a title over a column of days would take the column's side on the try-out page.
  if (holds === "words" || !COLUMN_FORMATS.has(format)) return { horizontal: "left", indent: 0 };
  // A number must not touch the word in the next column, nor a heading be covered by its table's button.
  return { horizontal: "right", indent: place === "table" ? 2 : 1 };
}

/** The format of a heading over cells of a format: it stands as they do, and is no day or percentage itself. */
export function headingFormat(format: NumberFormat): NumberFormat {
  return COLUMN_FORMATS.has(format) ? "number" : "general";
}

/** Number format codes. The month is a word: 3/4 is two different days in two countries. */
export const numberFormats: Readonly<Record<NumberFormat, string>> = {
  general: "General",
  number: "General",
  text: "@",
  whole: "0",
  oneDecimal: "0.0",
  twoDecimals: "0.00",
  percent: "0%",
  date: "d mmm yyyy",
  metres: '0.00" m"',
  seconds: '0.00" s"',
  plusMinusSeconds: '"± "0.000" s"',
};

export interface StatusDrawing {
  readonly textColour: Colour;
  readonly fill: Colour;
  readonly bold: boolean;
}

/** From little to much the blues darken; doubt is yellow, danger vermilion, and nothing to say is grey or white. */
export const statusLooks: Readonly<Record<StatusLook, StatusDrawing>> = {
  none: { textColour: "#595F6B", fill: "#FFFFFF", bold: false },
  low: { textColour: "#2B2F38", fill: "#BFC3CB", bold: false },
  building: { textColour: "#0B3A57", fill: "#D3ECFA", bold: false },
  confirm: { textColour: "#453300", fill: "#FBD04A", bold: false },
  ready: { textColour: "#FFFFFF", fill: "#2A78B8", bold: true },
  solid: { textColour: "#FFFFFF", fill: "#0A2F52", bold: true },
  risk: { textColour: "#FFFFFF", fill: "#B93A0C", bold: true },
};

/** What a rule may give a cell for its word. */
export const wordLooks: Readonly<Record<WordLook, StatusDrawing>> = {
  ...statusLooks,
  caution: { ...CAUTION, bold: true },
};

export const statusWordLooks: Readonly<Record<Status, StatusLook>> = {
  "No attempts": "none",
  "Too few": "low",
  Building: "building",
  Confirm: "confirm",
  Ready: "ready",
  Solid: "solid",
  "At risk": "risk",
};

export interface LineDrawing {
  readonly colour: Colour;
  readonly widthPoints: number;
  readonly dash: "solid" | "dash" | "longDash" | "dot";
}

export interface MarkerDrawing {
  readonly shape: "circle" | "cross";
  readonly sizePoints: number;
  readonly colour: Colour;
}

export interface SeriesDrawing {
  readonly line: LineDrawing | null;
  readonly marker: MarkerDrawing | null;
  /** Whether the chart's key names it. */
  readonly named: boolean;
}

/** Lines differ in their dashes and points in their shapes as well as in colour: a chart is read in black and white too. */
export const seriesLooks: Readonly<Record<SeriesLook, SeriesDrawing>> = {
  rate: {
    line: { colour: "#4A2C6F", widthPoints: 2, dash: "solid" },
    marker: { shape: "circle", sizePoints: 6, colour: "#4A2C6F" },
    named: true,
  },
  limit: { line: { colour: "#6B7280", widthPoints: 1, dash: "dash" }, marker: null, named: true },
  standard: { line: { colour: "#B93A0C", widthPoints: 1.5, dash: "longDash" }, marker: null, named: true },
  landings: { line: null, marker: { shape: "circle", sizePoints: 6, colour: "#2A78B8" }, named: true },
  target: { line: null, marker: { shape: "cross", sizePoints: 12, colour: "#B93A0C" }, named: true },
  innerCircle: { line: { colour: "#4A2C6F", widthPoints: 1.5, dash: "solid" }, marker: null, named: true },
  outerCircle: { line: { colour: "#4A2C6F", widthPoints: 1.5, dash: "dash" }, marker: null, named: true },
  frame: { line: null, marker: null, named: false },
};
