/** Which cells of a sheet are no longer as the file has them, and what is to be written instead. */
import type { ICellData, IDocumentData, IRange, Nullable } from "@univerjs/core";

import { CELL_NAMESPACE } from "../../../workbook/plan/namespace";
import { answersAlike, type SheetAnswers } from "../answers";
import { answerOf, type CellValue, cellValue, sameValue } from "./values";
import { type RenamedColumn, withRenamedColumns } from "../../../xlsx/formulas/column-renaming";
import { worksWithBlocks } from "../../../xlsx/formulas/arrays";
import { isFormula } from "../../../xlsx/formulas/check";
import { type ShiftedFormula, shiftedFormula } from "../../../xlsx/formulas/shifting";
import { writeFormula } from "../../../xlsx/formulas/writing";
import { forEachCell, type GridSheetState, type GridState } from "../grid-state";
import type { ReadSheet } from "../open";
import { documentText } from "./rich-text";
import { cellKey } from "./read";
import { styleNumber } from "../styles/read";
import type { StyleWriter } from "../styles/write";

export type NewContent =
  | { readonly kind: "value"; readonly value: CellValue }
  | { readonly kind: "rich"; readonly document: IDocumentData }
  | {
      readonly kind: "formula";
      /** As the file holds it. */
      readonly text: string;
      /** The block that it fills, for a formula that works with blocks. */
      readonly block: IRange | undefined;
      readonly answer: CellValue;
    };

export interface CellChange {
  /** What the cell holds from now on; left out where that stays. */
  content?: NewContent;
  /** What its formula, or one that spills into it, answers now; left out where that stays. */
  answer?: CellValue;
  /** The block that the cell's formula fills now, where the file marks it as one for a block. */
  block?: IRange;
  /** The number of its style; left out where that stays. */
  style?: number;
}

export interface SheetCellChanges {
  /** By row and column, from 0. */
  readonly cells: ReadonlyMap<number, ReadonlyMap<number, CellChange>>;
  /** Whether anything was typed, cleared or pasted: a value or a formula. */
  readonly hasEdits: boolean;
  /** Whether a formula was typed, changed or cleared. */
  readonly hasFormulaEdits: boolean;
  /** Cells whose formula is none, which are written as text. */
  readonly notFormulas: readonly { readonly row: number; readonly column: number }[];
}

interface Sides {
  readonly file: ReadSheet;
  readonly grid: GridSheetState;
  readonly state: GridState;
  /** What the sheet's formulas answered when it was opened; undefined where nothing was worked out yet. */
  readonly opening: SheetAnswers | undefined;
  readonly styles: StyleWriter;
  /** Columns of tables whose headings have other words now. */
  readonly renamed: readonly RenamedColumn[];
}

export function cellChanges(sides: Sides): SheetCellChanges {
  return new Comparison(sides).run();
}

class Comparison {
  private readonly cells = new Map<number, Map<number, CellChange>>();
  private readonly notFormulas: { row: number; column: number }[] = [];
  private readonly masters: ReadonlyMap<string, { formula: ShiftedFormula; row: number; column: number }>;
  private hasEdits = false;
  private hasFormulaEdits = false;

  constructor(private readonly sides: Sides) {
    this.masters = sharedFormulas(sides.grid);
  }

  run(): SheetCellChanges {
    const before = this.sides.file.sheet.cellData ?? {};
    const now = this.sides.grid.sheet.cellData ?? {};
    for (const row of keysOfBoth(before, now)) {
      const lineBefore = before[row] ?? {};
      const lineNow = now[row] ?? {};
      for (const column of keysOfBoth(lineBefore, lineNow)) {
        const was = lineBefore[column];
        const is = lineNow[column];
        if (was !== is) this.compare(row, column, was, is);
      }
    }
    return {
      cells: this.cells,
      hasEdits: this.hasEdits,
      hasFormulaEdits: this.hasFormulaEdits,
      notFormulas: this.notFormulas,
    };
  }

  private change(row: number, column: number): CellChange {
    let line = this.cells.get(row);
    if (line === undefined) this.cells.set(row, (line = new Map()));
    let change = line.get(column);
    if (change === undefined) line.set(column, (change = {}));
    return change;
  }

  private compare(row: number, column: number, was: Nullable<ICellData>, is: Nullable<ICellData>): void {
    const formulaBefore = was?.f ?? undefined;
    const formulaNow = this.formula(is, row, column);
    const named = formulaNow === undefined ? undefined : withRenamedColumns(formulaNow, this.sides.renamed);
    if (named !== formulaBefore) {
      this.hasEdits = true;
      this.hasFormulaEdits = true;
      if (named === undefined) this.change(row, column).content = contentOf(is);
      else this.writeFormula(row, column, named, is);
    } else if (formulaNow !== undefined) {
      this.refreshAnswer(row, column, formulaNow, was, is);
    } else if (!sameContent(was, is)) {
      this.hasEdits = true;
      this.change(row, column).content = contentOf(is);
    }
    this.compareStyles(row, column, was, is, formulaNow !== undefined && named === formulaBefore);
  }

  private formula(cell: Nullable<ICellData>, row: number, column: number): string | undefined {
    if (cell?.f) return cell.f;
    const master = cell?.si ? this.masters.get(cell.si) : undefined;
    return master && `=${master.formula.at(row - master.row, column - master.column)}`;
  }

  private writeFormula(row: number, column: number, formula: string, cell: Nullable<ICellData>): void {
    if (!isFormula(formula)) {
      this.notFormulas.push({ row, column });
      this.change(row, column).content = { kind: "value", value: { kind: "text", text: formula } };
      return;
    }
    const spill = this.spill(row, column, cell);
    const own = { startRow: row, endRow: row, startColumn: column, endColumn: column };
    this.change(row, column).content = {
      kind: "formula",
      text: writeFormula(formula),
      block: spill ?? (worksWithBlocks(formula) ? own : undefined),
      answer: answerOf(cell),
    };
    if (spill !== undefined) this.writeSpilled(row, column, spill);
  }

  /** The block of more than one cell that a formula fills now. */
  private spill(row: number, column: number, cell: Nullable<ICellData>): IRange | undefined {
    const range = this.sides.grid.spills[row]?.[column];
    // One that found no room keeps its block, but shows an error in its own cell alone.
    if (!range || cell?.v === "#SPILL!") return undefined;
    const isBlock = range.endRow > range.startRow || range.endColumn > range.startColumn;
    return isBlock ? { ...range } : undefined;
  }

  private writeSpilled(row: number, column: number, block: IRange): void {
    for (let r = block.startRow; r <= block.endRow; r += 1) {
      for (let c = block.startColumn; c <= block.endColumn; c += 1) {
        if (r !== row || c !== column) this.change(r, c).answer = this.spilledAt(r, c);
      }
    }
  }

  private spilledAt(row: number, column: number): CellValue {
    return answerOf(this.sides.grid.spilled[row]?.[column]);
  }

  /** A formula that stays: its answer is written where it has changed, or where the file has none of any use. */
  private refreshAnswer(
    row: number,
    column: number,
    formula: string,
    was: Nullable<ICellData>,
    is: Nullable<ICellData>,
  ): void {
    const answer = answerOf(is);
    const inFile = answerOf(was);
    const array = this.sides.file.arrays.get(cellKey(row, column));
    const spill = this.spill(row, column, is);
    const { opening } = this.sides;
    const alike =
      opening === undefined
        ? sameValue(answer, inFile)
        : answersAlike(opening, cellKey(row, column), spill, (r, c) => this.spilledAt(r, c), answer);
    // Before anything was worked out there is nothing new to tell.
    if (opening === undefined && alike) return;
    const isOwn = formula.toUpperCase().includes(CELL_NAMESPACE);
    const isUseless = inFile.kind === "error" || inFile.kind === "empty";
    if (alike && !isOwn && !(isUseless && answer.kind !== "error")) return;
    // The grid's engine knows fewer functions than the program that wrote the file.
    if (answer.kind === "error" && answer.name === "#NAME?" && !isUseless) return;
    const change = this.change(row, column);
    change.answer = answer;
    if (array === undefined) return;
    const own = { startRow: row, endRow: row, startColumn: column, endColumn: column };
    const block = array.isDynamic || answer.kind === "error" ? (spill ?? own) : fixedBlock(array.range, spill);
    change.block = array.isDynamic ? block : array.range;
    if (block.endRow > row || block.endColumn > column) this.writeSpilled(row, column, block);
  }

  /** @param keepsFormula the grid gives such a cell a format for days by itself, where it has none */
  private compareStyles(
    row: number,
    column: number,
    was: Nullable<ICellData>,
    is: Nullable<ICellData>,
    keepsFormula: boolean,
  ): void {
    const before = was?.s ?? undefined;
    const now = is?.s ?? undefined;
    if (before === now) return;
    const former = styleNumber(before) ?? 0;
    if (now === undefined || now === null) {
      this.change(row, column).style = 0;
      return;
    }
    const given = typeof now === "string" ? this.sides.state.styles[now] : now;
    const getsFormat = keepsFormula && !this.sides.styles.hasFormat(former);
    const style = getsFormat && given ? { ...given, n: null } : given;
    const number = this.sides.styles.numberOf(now, style, former);
    if (number !== former) this.change(row, column).style = number;
  }
}

/** Of a block that the file fixes, as much as the answer fills. */
function fixedBlock(fixed: IRange, spill: IRange | undefined): IRange {
  const filled = spill ?? { ...fixed, endRow: fixed.startRow, endColumn: fixed.startColumn };
  return {
    ...fixed,
    endRow: Math.min(fixed.endRow, filled.endRow),
    endColumn: Math.min(fixed.endColumn, filled.endColumn),
  };
}

function* keysOfBoth(one: object, other: object): Generator<number> {
  for (const key in one) yield Number(key);
  for (const key in other) if (!(key in one)) yield Number(key);
}

/** The formulas that the grid holds once for several cells, by their ids. */
function sharedFormulas({
  sheet,
}: GridSheetState): Map<string, { formula: ShiftedFormula; row: number; column: number }> {
  const masters = new Map<string, { formula: ShiftedFormula; row: number; column: number }>();
  forEachCell<ICellData>(sheet.cellData, (row, column, { si, f }) => {
    if (si && f) masters.set(si, { formula: shiftedFormula(f.replace(/^=/, "")), row, column });
  });
  return masters;
}

function sameContent(was: Nullable<ICellData>, is: Nullable<ICellData>): boolean {
  if (!was?.p && !is?.p) return sameValue(cellValue(was), cellValue(is));
  if (!was?.p || !is?.p) return plainText(was) === plainText(is) && !is?.p;
  const runs = (cell: ICellData): string => JSON.stringify(cell.p?.body?.textRuns ?? []);
  return plainText(was) === plainText(is) && runs(was) === runs(is);
}

function plainText(cell: Nullable<ICellData>): string | undefined {
  if (cell?.p) return documentText(cell.p);
  const value = cellValue(cell);
  return value.kind === "text" ? value.text : undefined;
}

function contentOf(cell: Nullable<ICellData>): NewContent {
  const runs = cell?.p?.body?.textRuns ?? [];
  if (cell?.p && runs.length > 0) return { kind: "rich", document: cell.p };
  if (cell?.p) return { kind: "value", value: { kind: "text", text: documentText(cell.p) } };
  return { kind: "value", value: cellValue(cell) };
}
