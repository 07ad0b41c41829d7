/**
 * Has the cells of a sorted range, and cells that were cut and pasted, checked anew against what may be typed there. The grid
 * checks a cell when a value is written into it, and keeps the answer by the cell's place; a sort and a cut move values
 * without writing them, so that a red corner would stay where the wrong value no longer is, and one that is taken back
 * would do the same.
 */
import { ICommandService, type IDisposable, type Injector, type IRange, Rectangle } from "@univerjs/core";
import { DataValidationCacheService, SheetDataValidationModel } from "@univerjs/sheets-data-validation";
import {
  type IMoveRangeMutationParams,
  type IReorderRangeMutationParams,
  MoveRangeMutation,
  ReorderRangeMutation,
} from "@univerjs/sheets";
import { hasMethods, type Mend } from "./mend";

function checkAfterSorting(injector: Injector): IDisposable {
  const cache = injector.get(DataValidationCacheService);
  const model = injector.get(SheetDataValidationModel);
  const check = (unitId: string, sheetId: string, range: IRange): void => {
    const checked = model
      .getRules(unitId, sheetId)
      .flatMap(({ ranges }) => ranges)
      .map((ruled) => Rectangle.getIntersects(ruled, range))
      .filter((part): part is IRange => Boolean(part));
    if (checked.length > 0) cache.markRangeDirty(unitId, sheetId, checked, true);
  };
  return injector.get(ICommandService).onCommandExecuted(({ id, params }) => {
    if (id === ReorderRangeMutation.id) {
      const { unitId, subUnitId, range } = params as IReorderRangeMutationParams;
      check(unitId, subUnitId, range);
    } else if (id === MoveRangeMutation.id) {
      const { unitId, fromRange, from, toRange, to } = params as IMoveRangeMutationParams;
      check(unitId, from.subUnitId, fromRange);
      check(unitId, to.subUnitId, toRange);
    }
  });
}

/** For the list of mends. */
export const checkedAfterSorting: Mend<"injector"> = {
  name: "checks-after-sorting",
  why: "A red corner would stay where the wrong value no longer is.",
  until: "The grid checks moved cells anew.",
  isNeeded: (injector) => hasMethods(injector.get(ICommandService), "onCommandExecuted"),
  apply: ({ injector }) => void checkAfterSorting(injector),
};
