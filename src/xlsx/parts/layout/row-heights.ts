/**
 * How high a row must be for what it shows. The host would work it out itself when the file opens; other readers do
 * not, and would print wrapped lines over each other.
 */
import { BODY_SIZE_POINTS, looks } from "../../../workbook/plan/looks";
import type { CellPlan, SheetPlan } from "../../../workbook/plan/schema";

export const DEFAULT_ROW_HEIGHT_POINTS = 15;

/** A line is higher than its letters by the space between lines. */
const LINE_HEIGHT = DEFAULT_ROW_HEIGHT_POINTS / BODY_SIZE_POINTS;

/** Heights in points of the rows that need more than the usual one, by row. */
export function rowHeights(sheet: SheetPlan): ReadonlyMap<number, number> {
  const heights = new Map<number, number>();
  for (const cell of sheet.cells) {
    const { sizePoints } = looks[cell.look];
    const points = Math.ceil(linesOf(cell, sheet.columnWidths[cell.at.column - 1]) * sizePoints * LINE_HEIGHT);
    if (points > (heights.get(cell.at.row) ?? DEFAULT_ROW_HEIGHT_POINTS)) heights.set(cell.at.row, points);
  }
  return heights;
}

/** A column's width is counted in digits; letters and spaces are narrower, in running text by about a tenth and more. */
const CHARACTERS_IN_A_DIGIT = 1.1;

/** Lines that a wrapped text takes, its words kept whole. */
function linesOf({ content, wrap = false }: CellPlan, widthCharacters: number | undefined): number {
  if (content.kind !== "text" || !wrap || widthCharacters === undefined) return 1;
  const most = widthCharacters * CHARACTERS_IN_A_DIGIT;
  let lines = 0;
  for (const paragraph of content.text.split("\n")) {
    lines += 1;
    let used = 0;
    for (const word of paragraph.split(" ")) {
      const withSpace = used === 0 ? word.length : used + 1 + word.length;
      if (withSpace > most && used > 0) {
        lines += 1;
        used = word.length;
      } else used = withSpace;
    }
  }
  return lines;
}
