/** The cells of one sheet, read one row after the other. */
import { CellValueType, type ICellData, type IObjectMatrixPrimitiveType, type IRange } from "@univerjs/core";

import { LAST_COLUMN, LAST_ROW } from "../../../core/sheet";
import type { Budget } from "../../../xlsx/package/budget";
import { refuse } from "../../../xlsx/package/file-refused";
import { type FormulaReading, type GridFormula, readFormula } from "../../../xlsx/formulas/reading";
import { type ShiftedFormula, shiftedFormula } from "../../../xlsx/formulas/shifting";
import { limits } from "../../../xlsx/package/limits";
import { contains, type GridPlace, parsePlace, parseRange } from "../../../xlsx/ranges";
import { richDocument } from "./rich-text";
import { type CellText, readText } from "../../../xlsx/parts/strings/read";
import { styleId, type StylesPart } from "../styles/read";
import type { FileTable } from "../../../xlsx/parts/tables/read";
import { gridTableRange } from "../tables/grid-tables";
import { decodeString } from "../../../xlsx/xml/text";
import type { XmlElement } from "../../../xlsx/xml/tree";

/** Days between the two first days from which workbooks count. */
export const DAYS_FROM_1900_TO_1904 = 1462;

export interface CellReading {
  readonly strings: readonly CellText[];
  readonly styles: StylesPart;
  readonly formulas: FormulaReading;
  readonly tables: readonly FileTable[];
  readonly from1904: boolean;
  readonly budget: Budget;
}

interface SharedFormula {
  readonly formula: GridFormula;
  readonly shifted: ShiftedFormula;
  readonly at: GridPlace;
}

/** A formula that the file marks as one for a whole block. */
export interface ArrayFormula {
  readonly range: IRange;
  /** It fills as many cells as its answer has; else exactly those of the range. */
  readonly isDynamic: boolean;
}

/** One number for each cell of a sheet. */
export function cellKey(row: number, column: number): number {
  return row * LAST_COLUMN + column;
}

type Answer = Pick<ICellData, "v" | "t" | "p">;

export class SheetCells {
  readonly cells: IObjectMatrixPrimitiveType<ICellData> = {};
  /** The furthest row and column that hold something, from 0; -1 for a sheet that holds nothing. */
  lastRow = -1;
  lastColumn = -1;
  /** The furthest column with a look: room that is drawn for an answer still to come. */
  lastDrawnColumn = -1;
  /** The furthest row with a cell of its own, empty or not: room that is kept for an answer still to come. */
  lastNamedRow = -1;
  /** Cells whose formula the grid cannot work out: they show their last answer. */
  readonly keptFormulas: GridPlace[] = [];
  /** By the key of their own cell. */
  readonly arrays = new Map<number, ArrayFormula>();
  /** What those formulas say, each once. */
  readonly keptTexts = new Set<string>();

  private readonly shared = new Map<string, SharedFormula>();
  private readonly read = new Map<string, GridFormula>();
  private row = -1;
  private column = -1;
  private filled: IRange[] = [];

  constructor(private readonly reading: CellReading) {}

  /** The number of the row that is read next, from 0. */
  readRow(element: XmlElement): number {
    const number = element.attributes["r"];
    this.row = number === undefined ? this.row + 1 : Number(number) - 1;
    if (!Number.isInteger(this.row) || this.row < 0) refuse("damaged");
    if (this.row >= LAST_ROW) refuse("tooManyRows");
    this.column = -1;
    this.filled = this.filled.filter(({ endRow }) => endRow >= this.row);
    for (const cell of element.children) if (cell.name === "c") this.readCell(cell);
    return this.row;
  }

  private readCell(element: XmlElement): void {
    const at = this.placeOf(element);
    if (at.row > this.lastNamedRow) this.lastNamedRow = at.row;
    const number = Number(element.attributes["s"] ?? 0);
    const style = Number.isInteger(number) && number < this.reading.styles.cellStyles.length ? number : 0;
    const look = style === 0 ? {} : { s: styleId(style) };
    const content = this.content(element, at, style);
    if (content === undefined) {
      if (style === 0) return;
      this.put(at, look);
      if (at.column > this.lastDrawnColumn) this.lastDrawnColumn = at.column;
      return;
    }
    this.put(at, { ...content, ...look });
    if (at.row > this.lastRow) this.lastRow = at.row;
    if (at.column > this.lastColumn) this.lastColumn = at.column;
  }

  private placeOf(element: XmlElement): GridPlace {
    const name = element.attributes["r"];
    const at = name === undefined ? { row: this.row, column: this.column + 1 } : parsePlace(name);
    if (at.row !== this.row) refuse("damaged");
    if (at.column >= LAST_COLUMN) refuse("tooManyRows");
    this.column = at.column;
    return at;
  }

  private put({ row, column }: GridPlace, cell: ICellData): void {
    this.reading.budget.cell();
    (this.cells[row] ??= {})[column] = cell;
  }

  private content(element: XmlElement, at: GridPlace, style: number): ICellData | undefined {
    let formulaElement: XmlElement | undefined;
    let value: string | undefined;
    let inline: XmlElement | undefined;
    for (const part of element.children) {
      if (part.name === "v") value = part.text;
      else if (part.name === "f") formulaElement = part;
      else if (part.name === "is") inline = part;
    }
    const answer = this.answer(element.attributes["t"], value, inline, style);
    const formula =
      formulaElement === undefined
        ? undefined
        : this.formula(formulaElement, at, element.attributes["cm"] !== undefined);
    if (formula !== undefined) {
      if (formula.isWorkable) {
        this.reading.budget.formula(formula.text.length);
        return { f: formula.text, ...answer };
      }
      this.keptFormulas.push(at);
      this.keptTexts.add(formula.text);
      return answer ?? { v: "", t: CellValueType.STRING };
    }
    // What a formula above or to the left spills into the cell comes from there.
    if (this.filled.some((range) => contains(range, at))) return undefined;
    return answer;
  }

  private formula(element: XmlElement, at: GridPlace, isDynamic: boolean): GridFormula | undefined {
    const kind = element.attributes["t"];
    if (kind === "dataTable" || element.text.length > limits.formulaLength) return { text: "", isWorkable: false };
    if (kind === "shared") {
      const id = element.attributes["si"] ?? "";
      const known = this.shared.get(id);
      if (element.text === "") {
        if (known === undefined) return undefined;
        const text = `=${known.shifted.at(at.row - known.at.row, at.column - known.at.column)}`;
        return { text, isWorkable: known.formula.isWorkable };
      }
      const formula = this.readOnce(element.text, at);
      this.shared.set(id, { formula, shifted: shiftedFormula(formula.text.slice(1)), at });
      return formula;
    }
    if (element.text === "") return undefined;
    const formula = this.readOnce(element.text, at);
    if (kind === "array" && formula.isWorkable) {
      const range = parseRange(element.attributes["ref"] ?? "");
      if (range !== undefined) this.arrays.set(cellKey(at.row, at.column), { range, isDynamic });
      const isBlock = range !== undefined && (range.endRow > range.startRow || range.endColumn > range.startColumn);
      if (isBlock) {
        this.filled.push(range);
        this.lastRow = Math.max(this.lastRow, range.endRow);
        this.lastColumn = Math.max(this.lastColumn, range.endColumn);
      }
    }
    return formula;
  }

  /** A calculated column has the same formula in each of thousands of rows. */
  private readOnce(text: string, at: GridPlace): GridFormula {
    const table = text.includes("[") ? this.tableAt(at) : undefined;
    const key = table === undefined ? text : `${table} ${text}`;
    const known = this.read.get(key);
    if (known !== undefined) return known;
    const formula = readFormula(text, this.reading.formulas, table);
    if (this.read.size > 10_000) this.read.clear();
    this.read.set(key, formula);
    return formula;
  }

  private tableAt(at: GridPlace): string | undefined {
    return this.reading.tables.find((table) => contains(gridTableRange(table), at))?.name;
  }

  private answer(
    type: string | undefined,
    value: string | undefined,
    inline: XmlElement | undefined,
    style: number,
  ): Answer | undefined {
    switch (type) {
      case "inlineStr":
        return inline === undefined ? undefined : this.text(readText(inline));
      case "s": {
        if (value === undefined) return undefined;
        const text = this.reading.strings[Number(value)];
        if (text === undefined) refuse("damaged");
        return this.text(text);
      }
      case "str":
        return value === undefined ? undefined : this.text({ text: decodeString(value) });
      case "b":
        return value === undefined ? undefined : { v: isYes(value) ? 1 : 0, t: CellValueType.BOOLEAN };
      case "e":
        return value === undefined ? undefined : { v: value, t: CellValueType.STRING };
      case "d":
        return value === undefined ? undefined : this.date(value);
      case undefined:
      default:
        return this.number(value, style);
    }
  }

  private text(text: CellText): Answer {
    this.reading.budget.text(text.text.length);
    const plain = { v: text.text, t: CellValueType.STRING };
    if (text.runs === undefined || !this.reading.budget.allowsRich()) return plain;
    return { ...plain, p: richDocument(text, this.reading.styles.palette) };
  }

  private number(value: string | undefined, style: number): Answer | undefined {
    if (value === undefined || value.trim() === "") return undefined;
    const number = Number(value);
    if (!Number.isFinite(number)) refuse("damaged");
    const isDay = this.reading.from1904 && this.reading.styles.datedStyles[style] === true;
    return { v: isDay ? number + DAYS_FROM_1900_TO_1904 : number, t: CellValueType.NUMBER };
  }

  /** A day written out, `2027-03-01T18:30:00`, as the strict edition of the format has them. */
  private date(value: string): Answer {
    const match = /^(\d{4})-(\d\d)-(\d\d)(?:T(\d\d):(\d\d)(?::(\d\d(?:\.\d+)?))?)?Z?$/.exec(value.trim());
    if (match === null) return this.text({ text: value });
    const [year = 0, month = 1, day = 1, hour = 0, minute = 0, second = 0] = match
      .slice(1)
      .map((part) => Number(part ?? 0));
    const days = Date.UTC(year, month - 1, day) / 86_400_000 + DAYS_TO_1970;
    const number = days + (hour * 3600 + minute * 60 + second) / 86_400;
    return { v: number, t: CellValueType.NUMBER };
  }
}

/** The serial number of the first day of 1970. */
const DAYS_TO_1970 = 25_569;

function isYes(value: string): boolean {
  return value.trim() === "1" || value.trim() === "true";
}
