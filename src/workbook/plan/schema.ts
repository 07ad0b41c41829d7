/**
 * A workbook as plain data. Nothing here knows how a workbook is written: the writers (`office/`, `xlsx/`, the grid's
 * adapter) turn this description into a workbook, and hold nothing of a sheet's content themselves.
 *
 * Rows and columns count from 1, as a spreadsheet shows them.
 */
import type { Block, CellAddress } from "./address";
import type { Formula } from "./formula";

export type { Block, CellAddress } from "./address";

/** What a cell holds. `text` is always written as text, even where it starts with `=`. Dates are whole sheet serials. */
export type Content =
  | { readonly kind: "text"; readonly text: string }
  | { readonly kind: "number"; readonly value: number }
  | { readonly kind: "date"; readonly serial: number }
  | { readonly kind: "formula"; readonly formula: Formula; readonly spills: boolean }
  | { readonly kind: "empty" };

/** How a cell's number is shown. `text` keeps what is typed as typed: `8/10` stays a tally and `0110` keeps its zero. */
export type NumberFormat =
  | "general"
  /** A number as it was typed or worked out, with as many decimals as it has. */
  | "number"
  | "text"
  | "whole"
  | "oneDecimal"
  | "twoDecimals"
  | "percent"
  | "date"
  | "metres"
  | "seconds"
  | "plusMinusSeconds";

/** What a cell is for; `looks.ts` says how each is drawn. */
export type Look =
  "plain" | "title" | "heading" | "label" | "input" | "entry" | "answer" | "figure" | "note" | "caution" | "box";

/**
 * A block drawn alike, whether or not its cells hold anything: the room that a spill fills. A cell of the plan that
 * lies in the block is drawn as the cell says.
 */
export interface AreaPlan {
  readonly on: Block;
  readonly look: Look;
  readonly format: NumberFormat;
}

export interface CellPlan {
  readonly at: CellAddress;
  readonly content: Content;
  readonly look: Look;
  readonly format: NumberFormat;
  readonly wrap?: boolean;
}

/** A list to choose from: fixed words, or what stands in a table's column now. */
export type ListSource =
  | { readonly kind: "words"; readonly words: readonly string[] }
  | { readonly kind: "column"; readonly table: string; readonly column: string };

/**
 * What may be typed. `none` refuses nothing and only shows the input message; a list that is not strict warns with the
 * error message, and without one only suggests.
 */
export type Allowed =
  | { readonly kind: "none" }
  | { readonly kind: "list"; readonly source: ListSource; readonly strict: boolean }
  /** A day of the years in `days.ts`. */
  | { readonly kind: "date" }
  | { readonly kind: "number"; readonly least: number; readonly most: number; readonly whole: boolean };

export interface Validation {
  readonly allowed: Allowed;
  readonly inputTitle?: string;
  readonly inputMessage?: string;
  readonly errorMessage?: string;
}

export interface ValidationPlan {
  readonly on: Block;
  readonly validation: Validation;
}

export interface TableColumn {
  readonly heading: string;
  /**
   * Holds for the sheet's whole column below the heading, not for the present rows alone: what is typed in the first
   * free row is read before the table grows over it, and `8/10` would be a date by then.
   */
  readonly format: NumberFormat;
  /** Holds for the room below the present rows as well: see `validatedBlock` in `tables.ts`. */
  readonly validation?: Validation;
  /** A calculated column: the same formula in every row, written with `thisRow` references. */
  readonly formula?: Formula;
}

export interface TablePlan {
  /** Unique in the workbook, and not the name of any sheet. */
  readonly name: string;
  /** The cell of the first heading. */
  readonly at: CellAddress;
  readonly columns: readonly TableColumn[];
  /** Rows of content, one cell for every column; calculated columns hold `empty`. Never without a row: an empty table has one of empties. */
  readonly rows: readonly (readonly Content[])[];
}

/** A colour for a status. The status word is always there as well: colour is never the only sign. */
export type StatusLook = "none" | "low" | "building" | "confirm" | "ready" | "solid" | "risk";

/** How a cell looks for what it says: a status's look, or the one of a caution. */
export type WordLook = StatusLook | "caution";

/** A conditional format: the cells whose text is exactly `text` get `look`. */
export interface StatusRule {
  readonly on: Block;
  readonly text: string;
  readonly look: WordLook;
}

/** Columns next to each other, both ends included. */
export interface ColumnSpan {
  readonly first: number;
  readonly last: number;
}

/** What a line or a cloud of points in a chart is for; `looks.ts` says how each is drawn. */
export type SeriesLook =
  | "rate"
  | "limit"
  | "standard"
  | "landings"
  | "target"
  | "innerCircle"
  | "outerCircle"
  /** Not drawn: it only holds both axes to the same stretch, so that a circle is round. */
  | "frame";

/** Points joined in their order: one block gives how far across each lies, the other how far up. */
export interface ChartSeries {
  readonly name: string;
  readonly across: Block;
  readonly up: Block;
  readonly look: SeriesLook;
}

export interface ChartAxis {
  readonly title: string;
  readonly format: NumberFormat;
  /** Left out: as far as the points go. */
  readonly least?: number;
  readonly most?: number;
}

/** A chart over the cells of its own sheet. Both axes are scales of numbers or days; empty cells are no points. */
export interface ChartPlan {
  /** Unique on its sheet. */
  readonly name: string;
  readonly title: string;
  /** What it shows, for those who do not see it. */
  readonly description: string;
  /** The cells that it covers. */
  readonly on: Block;
  readonly across: ChartAxis;
  readonly up: ChartAxis;
  readonly series: readonly ChartSeries[];
}

/** How a sheet lies on paper. */
export interface PrintPlan {
  readonly orientation: "landscape" | "portrait";
  readonly pagesWide: number;
  /** So many rows from the top stand on each page. */
  readonly repeatRows: number;
  /** Only these columns are printed, each span from a new page on; all that are used when left out. */
  readonly columns?: readonly ColumnSpan[];
}

export interface SheetPlan {
  readonly name: string;
  /** Widths of the columns from A on, in characters. */
  readonly columnWidths: readonly number[];
  readonly areas: readonly AreaPlan[];
  readonly cells: readonly CellPlan[];
  readonly tables: readonly TablePlan[];
  readonly validations: readonly ValidationPlan[];
  readonly rules: readonly StatusRule[];
  readonly charts: readonly ChartPlan[];
  /** How many rows and columns stay in sight. */
  readonly frozen: { readonly rows: number; readonly columns: number };
  /** Left out: across the page and as wide as it, with the frozen rows on each. */
  readonly print?: PrintPlan;
}

export interface WorkbookPlan {
  readonly sheets: readonly SheetPlan[];
  /** The sheet shown first. */
  readonly active: string;
  /** What the formulas read of the workbook that the sheets are added to; nothing when left out. */
  readonly reads?: PresentSources;
}

/** Sheets and tables that are there already, and stay as they are. */
interface PresentSources {
  readonly sheets: readonly string[];
  readonly tables: readonly { readonly name: string; readonly columns: readonly string[] }[];
}
