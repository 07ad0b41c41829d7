/**
 * The file with what was changed in the grid. It is read once more, compared with what the grid holds, and changed only
 * where the two differ: all else in it stays as it came, whether this page knows it or not.
 */
import type { Answers } from "./answers";
import { cellChanges, type SheetCellChanges } from "./cells/changes";
import type { CellWriting } from "./cells/write";
import type { GridSheetState, GridState } from "./grid-state";
import { rowChanges, writeLayout } from "./sheets/write-layout";
import { dynamicArrayRecord } from "../../xlsx/parts/workbook/dynamic-arrays";
import { addEmptySheet } from "../../xlsx/parts/workbook/add-sheet";
import { removeUnreachable } from "../../xlsx/package/package-editing";
import { parseRange, rangeName } from "../../xlsx/ranges";
import { type ReadingOptions, type ReadSheet, readWorkbook, sheetIdOf } from "./open";
import { writeRows } from "./cells/write-rows";
import { writeRules } from "./rules/write";
import { StyleWriter } from "./styles/write";
import { renamedColumns, writeTables } from "./tables/write";
import { writeValidations } from "./validations/write";
import { readWorkbookPart } from "../../xlsx/parts/workbook/read";
import { writeWorkbookPart } from "./sheets/write-workbook";
import type { WorkbookPackage } from "../../xlsx/package/workbook-package";
import { XmlEdits } from "../../xlsx/xml/edits";
import { child, children, isTrue, prefixOf } from "../../xlsx/xml/tree";

export interface SavedWorkbook {
  readonly package: WorkbookPackage;
  /** What of the grid could not be written, each in one sentence. */
  readonly losses: readonly string[];
}

/**
 * @param source the workbook's package as it was opened; it stays as it is
 * @param opening what the formulas answered when the workbook was opened, where they were worked out
 */
export function saveWorkbook(
  source: WorkbookPackage,
  options: ReadingOptions,
  state: GridState,
  opening?: Answers,
): SavedWorkbook {
  const target = source.copy();
  const sheetIds = withNewSheets(target, options, state);
  const workbook = readWorkbook(target, { ...options, sheetIds });
  const styles = new StyleWriter(target, workbook);
  const losses: string[] = [];
  let record: number | undefined;
  const dynamicRecord = (): number => (record ??= dynamicArrayRecord(target, workbook.part));

  const pairs = workbook.sheets.flatMap((file): (readonly [ReadSheet, GridSheetState])[] => {
    const grid = state.sheets.find(({ id }) => id === file.id);
    return grid === undefined ? [] : [[file, grid]];
  });
  const renamed = pairs.flatMap(([file, grid]) => renamedColumns(file, grid));
  let hasEdits = pairs.length !== workbook.sheets.length;
  let hasFormulaEdits = false;
  const parts: SheetEdits[] = [];
  for (const [file, grid] of pairs) {
    const changes = cellChanges({ file, grid, state, opening: opening?.get(file.id), styles, renamed });
    hasEdits ||= changes.hasEdits;
    hasFormulaEdits ||= changes.hasFormulaEdits;
    losses.push(...lossesOf(changes, grid));
    const edits = new XmlEdits(file.source);
    const writing: CellWriting = {
      prefix: prefixOf(file.root),
      from1904: workbook.part.from1904,
      isDated: (style) => workbook.styles.datedStyles[style] === true,
      dynamicRecord,
    };
    writeRows(edits, file, { cells: changes.cells, rows: rowChanges(file, grid) }, writing);
    if (!edits.isEmpty) growDimension(edits, file, changes);
    writeLayout(edits, file, grid);
    writeRules(edits, file, grid, styles);
    if (!writeValidations(edits, file, grid)) {
      losses.push(`${grid.name}: a check of what is typed is of a kind that no .xlsx file holds, and is left out.`);
    }
    writeTables(target, edits, file, grid, renamed);
    parts.push({ file, edits });
  }
  const isChanged = hasEdits || hasFormulaEdits || target.isChanged || parts.some(({ edits }) => !edits.isEmpty);
  // Which sheet is looked at is no change of its own: a file that nothing else has changed stays as it is.
  const inSight = isChanged ? state.inSight : undefined;
  if (inSight !== undefined) select(parts, inSight);
  for (const { file, edits } of parts) if (!edits.isEmpty) target.set(file.entry.part, edits.apply());
  styles.finish();
  const wantsCalculation = hasEdits && workbook.sheets.some(({ keptFormulas }) => keptFormulas.length > 0);
  writeWorkbookPart(target, workbook, state, { hasFormulaEdits, wantsCalculation, inSight });
  if (target.isChanged) removeUnreachable(target, source);
  return { package: target, losses };
}

interface SheetEdits {
  readonly file: ReadSheet;
  readonly edits: XmlEdits;
}

/** One sheet alone: two that say they are selected would be changed together. */
function select(parts: readonly SheetEdits[], inSight: string): void {
  for (const { file, edits } of parts) {
    for (const view of children(child(file.root, "sheetViews"), "sheetView")) {
      const isSelected = isTrue(view, "tabSelected");
      if (isSelected !== (file.id === inSight)) edits.setAttribute(view, "tabSelected", isSelected ? undefined : 1);
    }
  }
}

/** Puts in a part for each sheet that only the grid has; answers the grid's ids of all sheets that have no usual one. */
function withNewSheets(target: WorkbookPackage, options: ReadingOptions, state: GridState): Map<string, string> {
  const sheetIds = new Map(options.sheetIds);
  const known = new Set(readWorkbookPart(target).sheets.map((entry) => sheetIds.get(entry.part) ?? sheetIdOf(entry)));
  for (const { id, name } of state.sheets) {
    if (!known.has(id)) sheetIds.set(addEmptySheet(target, name), id);
  }
  return sheetIds;
}

function lossesOf({ notFormulas }: SheetCellChanges, { name }: GridSheetState): string[] {
  const [first] = notFormulas;
  if (first === undefined) return [];
  const place = rangeName({
    startRow: first.row,
    endRow: first.row,
    startColumn: first.column,
    endColumn: first.column,
  });
  const more = notFormulas.length === 1 ? "" : ` and ${notFormulas.length - 1} more`;
  return [`${name} ${place}${more}: what stands after the = is no formula, so it is saved as text.`];
}

/** The used block that the sheet's part tells at its beginning, where it tells one. */
function growDimension(edits: XmlEdits, { root }: ReadSheet, { cells }: SheetCellChanges): void {
  const dimension = child(root, "dimension");
  const former = parseRange(dimension?.attributes["ref"] ?? "");
  if (dimension === undefined || former === undefined) return;
  const range = { ...former };
  for (const [row, line] of cells) {
    for (const column of line.keys()) {
      range.startRow = Math.min(range.startRow, row);
      range.endRow = Math.max(range.endRow, row);
      range.startColumn = Math.min(range.startColumn, column);
      range.endColumn = Math.max(range.endColumn, column);
    }
  }
  if (rangeName(range) !== rangeName(former)) edits.setAttribute(dimension, "ref", rangeName(range));
}
