/**
 * How each look, number format and status is drawn. Every pair of text and fill is readable (contrast of at least 4.5 to 1,
 * WCAG 2.2, 1.4.3), and the fills of the statuses differ in lightness as well as in hue, so that people who see colours
 * differently tell them apart; a test works both out. The status word always stands in the cell too.
 */
import type { Status } from "../../trade/statuses";
import type { Look, NumberFormat, PrintPlan, SeriesLook, SheetPlan, StatusLook, TableColumn } from "./schema";

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
  /** `natural` sets numbers right and words left. */
  readonly align: "natural" | "left";
}

export const FONT_NAME = "Calibri";
export const BODY_SIZE_POINTS = 11;

/** The host's plainest table style: thin lines and pale bands, under the looks below. */
export const TABLE_STYLE_NAME = "TableStyleLight1";

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
  align: "natural",
};

export const looks: Readonly<Record<Look, Drawing>> = {
  plain,
  title: { ...plain, textColour: "#3B1F5B", bold: true, sizePoints: 18 },
  heading: { ...plain, textColour: "#FFFFFF", fill: "#4A2C6F", bold: true },
  label: { ...plain, bold: true },
  input: { ...plain, fill: "#FFF9E5", border: { colour: LINE, sides: "all" }, align: "left" },
  // Left, as the headings are: a number set right would touch the word in the next column.
  entry: { ...plain, align: "left" },
  answer: { ...plain, fill: "#F1EEF6", border: { colour: LINE, sides: "below" }, align: "left" },
  note: { ...plain, textColour: QUIET_INK, italic: true },
  caution: { ...plain, textColour: "#5A2A00", fill: "#FDEBDD" },
};

/** How a table's cells are drawn: what is worked out looks unlike what is typed. */
export function columnLook(column: TableColumn): Look {
  return column.formula === undefined ? "entry" : "answer";
}

/** Number format codes. The month is a word: 3/4 is two different days in two countries. */
export const numberFormats: Readonly<Record<NumberFormat, string>> = {
  general: "General",
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
