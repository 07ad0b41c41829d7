/**
 * The grid checks what stands in cells against what may be typed there when the browser has nothing else to do. By then
 * the workbook may have made room for another one, and the check would complain that it is gone.
 */
import { type Injector, IUniverInstanceService, UniverInstanceType, type Workbook } from "@univerjs/core";
import { SheetsDataValidationValidatorService } from "@univerjs/sheets-data-validation";

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
