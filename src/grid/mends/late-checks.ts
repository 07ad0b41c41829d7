/**
 * The grid checks what stands in cells against what may be typed there a moment after it changed, and in sheets that are not
 * in sight when the browser has nothing else to do. By then the workbook may have made room for another one, and the
 * check would complain that it is gone.
 */
import {
  bufferDebounceTime,
  type Injector,
  IUniverInstanceService,
  UniverInstanceType,
  type Workbook,
} from "@univerjs/core";
import { DataValidationCacheService, SheetsDataValidationValidatorService } from "@univerjs/sheets-data-validation";
import { hasMethods, type Mend } from "./mend";

/** How long edits are gathered before they are checked, in milliseconds: as the grid has it. */
const GATHER = 20;

/** Has only sheets checked that are open. */
export function checkWhatIsOpen(injector: Injector): void {
  const instances = injector.get(IUniverInstanceService);
  const validator = injector.get(SheetsDataValidationValidatorService);
  const check = validator.validatorRanges.bind(validator);
  validator.validatorRanges = (unitId, sheetId, ranges) => {
    const workbook = instances.getUnit<Workbook>(unitId, UniverInstanceType.UNIVER_SHEET);
    return workbook?.getSheetBySheetId(sheetId) ? check(unitId, sheetId, ranges) : Promise.resolve([]);
  };
}

/**
 * Once the grid is drawn: has edits checked without a record of them being kept. The grid's own way gathers every changed
 * range for the moment at which it is first drawn, and goes on gathering after that moment.
 */
export function forgetWhatWasChecked(injector: Injector): void {
  const instances = injector.get(IUniverInstanceService);
  const validator = injector.get(SheetsDataValidationValidatorService);
  // What it disposes of are its two subscriptions; it answers as before.
  validator.dispose();
  injector
    .get(DataValidationCacheService)
    .dirtyRanges$.pipe(bufferDebounceTime(GATHER))
    .subscribe((changes) => {
      const workbook = instances.getCurrentUnitOfType<Workbook>(UniverInstanceType.UNIVER_SHEET);
      for (const { unitId, subUnitId, ranges } of changes) {
        const check = (): void => void validator.validatorRanges(unitId, subUnitId, ranges);
        const inSight = workbook?.getUnitId() === unitId && workbook.getActiveSheet().getSheetId() === subUnitId;
        if (inSight) check();
        else requestIdleCallback(check);
      }
    });
}

/** For the list of mends. */
export const checksOfOpenSheets: Mend<"injector"> = {
  name: "late-checks",
  why: "A check that comes late would complain of a workbook that has made room for another.",
  until: "The grid asks whether the workbook is still there before it checks.",
  isNeeded: (injector) => hasMethods(injector.get(SheetsDataValidationValidatorService), "validatorRanges"),
  apply: ({ injector }) => checkWhatIsOpen(injector),
};

/** For the list of mends, once the grid is drawn. */
export const forgottenChecks: Mend<"injector"> = {
  name: "late-checks, once drawn",
  why: "The grid would gather every changed range for as long as the page is open.",
  until: "The grid lets go of the ranges that it has checked.",
  isNeeded: (injector) =>
    hasMethods(injector.get(SheetsDataValidationValidatorService), "dispose", "validatorRanges") &&
    hasMethods(injector.get(DataValidationCacheService).dirtyRanges$, "pipe"),
  apply: ({ injector }) => forgetWhatWasChecked(injector),
};
