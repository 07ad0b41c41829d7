/**
 * Ascending and Descending in the menus of a table's headings. The grid draws these buttons and leaves the command behind
 * them to a further package, whose order is not that of a spreadsheet program: it reads text that is marked as text as a
 * number (`0110` as 110, `ccdc` as none at all), passes over hyphens, and leaves empty rows where they are as soon as the
 * column has other gaps. It also has every rule of the sheet follow each of its cells, which takes the grid a minute in a
 * log of two seasons and leaves rules in pieces. So the command is done here: rows of cells move, with their formulas and
 * looks; what holds for the whole column stays; and it is one step for Undo.
 */
import {
  CommandType,
  type ICellData,
  ICommandService,
  type IDisposable,
  type Injector,
  type IMutationInfo,
  type IRange,
  IUndoRedoService,
  IUniverInstanceService,
  Rectangle,
  sequenceExecute,
  UniverInstanceType,
  type Workbook,
  type Worksheet,
} from "@univerjs/core";
import { FormulaDataModel } from "@univerjs/engine-formula";
import { ReorderRangeMutation, SetRangeValuesMutation, SheetInterceptorService } from "@univerjs/sheets";
import { type ISortRangeCommandParams, SortRangeCommand } from "@univerjs/sheets-sort";

import { shiftedFormula } from "../../xlsx/formulas/shifting";
import { sortedOrder } from "./row-order";
import { hasMethods, type Mend } from "./mend";

/** Has the grid's command for sorting work. `refused` is told, in a sentence, why a sort cannot be done. */
export function sortRows(injector: Injector, refused: (reason: string) => void): IDisposable {
  return injector.get(ICommandService).registerCommand({
    id: SortRangeCommand.id,
    type: CommandType.COMMAND,
    handler: (_, params) => {
      const { unitId, subUnitId, range: asked, hasTitle, orderRules } = params as ISortRangeCommandParams;
      const workbook = injector.get(IUniverInstanceService).getUnit<Workbook>(unitId, UniverInstanceType.UNIVER_SHEET);
      const sheet = workbook?.getSheetBySheetId(subUnitId);
      if (!sheet) return false;
      const range = { ...asked, startRow: asked.startRow + (hasTitle ? 1 : 0) };
      const obstacle = obstacleIn(injector, unitId, sheet, range);
      if (obstacle !== null) {
        refused(obstacle);
        return false;
      }
      const order = sortedOrder(sheet, range, orderRules);
      return order === null || reorder(injector, { unitId, subUnitId, sheet, range, order });
    },
  });
}

function obstacleIn(injector: Injector, unitId: string, sheet: Worksheet, range: IRange): string | null {
  if (sheet.getMergeData().some((merged) => Rectangle.intersects(merged, range))) {
    return "These rows hold merged cells, which cannot be sorted. Unmerge them first.";
  }
  const spills = injector.get(FormulaDataModel).getArrayFormulaRange()[unitId]?.[sheet.getSheetId()] ?? {};
  const areas = Object.values(spills).flatMap((row) => Object.values((row ?? {}) as Record<string, IRange | null>));
  if (areas.some((area) => area !== null && Rectangle.intersects(area, range))) {
    return "A formula fills several cells of these rows with its answer, so they cannot be sorted.";
  }
  return null;
}

interface Reordering {
  readonly unitId: string;
  readonly subUnitId: string;
  readonly sheet: Worksheet;
  readonly range: IRange;
  /** From which row each row takes its cells. */
  readonly order: Readonly<Record<number, number>>;
}

function reorder(injector: Injector, { unitId, subUnitId, sheet, range, order }: Reordering): boolean {
  const back = Object.fromEntries(Object.entries(order).map(([to, from]) => [from, Number(to)]));
  const reorderMutation = (rows: Reordering["order"]): IMutationInfo => ({
    id: ReorderRangeMutation.id,
    params: { unitId, subUnitId, range, order: rows },
  });
  const { moved, former } = movedFormulas(injector, { unitId, subUnitId, sheet, range, order });
  // The engine learns of a formula only when it is written into its cell.
  const formulas = (cellValue: FormulaCells): readonly IMutationInfo[] =>
    Object.keys(cellValue).length === 0
      ? []
      : [{ id: SetRangeValuesMutation.id, params: { unitId, subUnitId, cellValue: structuredClone(cellValue) } }];
  const redos = [reorderMutation(order), ...formulas(moved)];
  const undos = [reorderMutation(back), ...formulas(former)];
  const commands = injector.get(ICommandService);
  if (!sequenceExecute([...redos], commands).result) return false;
  const heights = heightsOf(injector, { unitId, subUnitId, sheet, range });
  sequenceExecute(heights.redos, commands);
  injector.get(IUndoRedoService).pushUndoRedo({
    unitID: unitId,
    redoMutations: [...redos, ...heights.redos],
    undoMutations: [...undos, ...heights.undos],
  });
  return true;
}

type FormulaCells = Record<number, Record<number, Pick<ICellData, "f" | "si">>>;

/** Of all cells that hold a formula before or after: the formulas of then and of now. */
function movedFormulas(
  injector: Injector,
  { unitId, subUnitId, sheet, range, order }: Reordering,
): { readonly moved: FormulaCells; readonly former: FormulaCells } {
  const model = injector.get(FormulaDataModel);
  const formulaAt = (row: number, column: number): string | null => {
    const cell = sheet.getCellRaw(row, column);
    return cell?.f || cell?.si ? (model.getFormulaStringByCell(row, column, subUnitId, unitId) ?? null) : null;
  };
  const moved: FormulaCells = {};
  const former: FormulaCells = {};
  for (const [to, from] of Object.entries(order)) {
    const row = Number(to);
    for (let column = range.startColumn; column <= range.endColumn; column += 1) {
      const there = formulaAt(from, column);
      const here = formulaAt(row, column);
      if (there === null && here === null) continue;
      (former[row] ??= {})[column] = { f: here, si: null };
      (moved[row] ??= {})[column] = {
        f: there === null ? null : `=${shiftedFormula(there.replace(/^=/, "")).at(row - from, 0)}`,
        si: null,
      };
    }
  }
  return { moved, former };
}

/** Rows that follow the height of their text: worked out anew where any row is not of the usual height. */
function heightsOf(
  injector: Injector,
  { unitId, subUnitId, sheet, range }: Omit<Reordering, "order">,
): { readonly redos: IMutationInfo[]; readonly undos: IMutationInfo[] } {
  const usual = sheet.getConfig().defaultRowHeight;
  let differ = false;
  for (let row = range.startRow; !differ && row <= range.endRow; row += 1) differ = sheet.getRowHeight(row) !== usual;
  if (!differ) return { redos: [], undos: [] };
  const heights = injector
    .get(SheetInterceptorService)
    .generateMutationsOfAutoHeight({ unitId, subUnitId, ranges: [range], autoHeightRanges: [range] });
  return { redos: [...heights.redos], undos: [...heights.undos] };
}

/** For the list of mends. */
export const sortedRows: Mend<"injector" | "tell"> = {
  name: "sort-rows",
  why: "Ascending and Descending would do nothing, or read texts as numbers and take a minute.",
  until: "The grid's own order is that of a spreadsheet program.",
  isNeeded: (injector) => hasMethods(injector.get(ICommandService), "registerCommand"),
  apply: ({ injector, tell }) => void sortRows(injector, tell),
};
