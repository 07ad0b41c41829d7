/**
 * Has the cells of a sorted range checked anew against what may be typed there. The grid checks a cell when a value is
 * written into it, and keeps the answer by the cell's place; a sort moves values without writing them, so that a red
 * corner would stay where the wrong value no longer is, and one that is taken back would do the same.
 */
import { ICommandService, type IDisposable, type Injector, type IRange, Rectangle } from "@univerjs/core";
import { DataValidationCacheService, SheetDataValidationModel } from "@univerjs/sheets-data-validation";
import { type IReorderRangeMutationParams, ReorderRangeMutation } from "@univerjs/sheets";

export function checkAfterSorting(injector: Injector): IDisposable {
  const cache = injector.get(DataValidationCacheService);
  const model = injector.get(SheetDataValidationModel);
  return injector.get(ICommandService).onCommandExecuted(({ id, params }) => {
    if (id !== ReorderRangeMutation.id) return;
    const { unitId, subUnitId, range } = params as IReorderRangeMutationParams;
    const checked = model
      .getRules(unitId, subUnitId)
      .flatMap(({ ranges }) => ranges)
      .map((ruled) => Rectangle.getIntersects(ruled, range))
      .filter((part): part is IRange => Boolean(part));
    if (checked.length > 0) cache.markRangeDirty(unitId, subUnitId, checked, true);
  });
}
