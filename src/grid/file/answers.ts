/**
 * What the workbook's formulas answered when it was opened. Save writes an answer anew only where it has changed since:
 * the program that wrote the file may work out one and the same formula a little differently, and its answers stay.
 */
import type { ICellData, IRange } from "@univerjs/core";

import { answerOf, type CellValue, sameValue } from "./cells/values";
import { forEachCell, type GridSheetState, type GridState } from "./grid-state";
import { cellKey } from "./cells/read";

/** One sheet's answers, by the cells' keys. */
export interface SheetAnswers {
  readonly values: ReadonlyMap<number, CellValue>;
  /** By the formula's own cell: how many rows and columns it filled. */
  readonly sizes: ReadonlyMap<number, string>;
}

export type Answers = ReadonlyMap<string, SheetAnswers>;

export function answersOf(state: GridState): Answers {
  return new Map(state.sheets.map((sheet) => [sheet.id, sheetAnswers(sheet)]));
}

/** As if nothing had been worked out when it was opened: every answer of now is another one. */
export function unknownAnswers({ sheets }: GridState): Answers {
  return new Map(sheets.map(({ id }) => [id, { values: new Map(), sizes: new Map() }]));
}

function sheetAnswers({ sheet, spills, spilled }: GridSheetState): SheetAnswers {
  const values = new Map<number, CellValue>();
  const sizes = new Map<number, string>();
  forEachCell<ICellData>(sheet.cellData, (row, column, cell) => {
    if (cell.f || cell.si) values.set(cellKey(row, column), answerOf(cell));
  });
  forEachCell(spills, (row, column, range) => {
    const own = cellKey(row, column);
    // One that found no room keeps its block, but shows an error in its own cell alone.
    if (sheet.cellData?.[row]?.[column]?.v === "#SPILL!") return;
    sizes.set(own, sizeOf(range));
    for (let r = range.startRow; r <= range.endRow; r += 1) {
      for (let c = range.startColumn; c <= range.endColumn; c += 1) {
        const key = cellKey(r, c);
        if (key !== own) values.set(key, answerOf(spilled[r]?.[c]));
      }
    }
  });
  return { values, sizes };
}

function sizeOf(range: IRange): string {
  return `${range.endRow - range.startRow + 1}x${range.endColumn - range.startColumn + 1}`;
}

/** Whether a formula answers now what it answered then, in its own cell and in all that it fills. */
export function answersAlike(
  then: SheetAnswers,
  own: number,
  block: IRange | undefined,
  now: (row: number, column: number) => CellValue,
  ownValue: CellValue,
): boolean {
  const before = then.values.get(own);
  if (before === undefined || !sameValue(before, ownValue)) return false;
  if ((then.sizes.get(own) ?? "1x1") !== (block === undefined ? "1x1" : sizeOf(block))) return false;
  if (block === undefined) return true;
  for (let row = block.startRow; row <= block.endRow; row += 1) {
    for (let column = block.startColumn; column <= block.endColumn; column += 1) {
      const key = cellKey(row, column);
      if (key === own) continue;
      const value = then.values.get(key);
      if (value === undefined || !sameValue(value, now(row, column))) return false;
    }
  }
  return true;
}
