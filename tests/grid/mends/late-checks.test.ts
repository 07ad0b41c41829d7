import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import "@univerjs/sheets/facade";
import { DataValidationStatus, DataValidationType, type IRange, UniverInstanceType } from "@univerjs/core";
import { FUniver } from "@univerjs/core/facade";
import { DataValidationModel, UniverDataValidationPlugin } from "@univerjs/data-validation";
import { UniverDocsPlugin } from "@univerjs/docs";
import { UniverFormulaEnginePlugin } from "@univerjs/engine-formula";
import { UniverSheetsPlugin } from "@univerjs/sheets";
import {
  DataValidationCacheService,
  SheetsDataValidationValidatorService,
  UniverSheetsDataValidationPlugin,
} from "@univerjs/sheets-data-validation";

import { checkWhatIsOpen, forgetWhatWasChecked } from "../../../src/grid/mends/late-checks";
import { univerWith } from "../engine";

const BOOK = "book";
const SHEET = "log";

/** A workbook of one sheet with a list of stages in A1:A9. */
function open() {
  const univer = univerWith([
    UniverDocsPlugin,
    UniverFormulaEnginePlugin,
    UniverSheetsPlugin,
    UniverDataValidationPlugin,
    UniverSheetsDataValidationPlugin,
  ]);
  const api = FUniver.newAPI(univer);
  univer.createUnit(UniverInstanceType.UNIVER_SHEET, {
    id: BOOK,
    sheets: { [SHEET]: { id: SHEET, name: "Log", rowCount: 20, columnCount: 3, cellData: {} } },
    sheetOrder: [SHEET],
  });
  const injector = univer.__getInjector();
  injector.get(DataValidationModel).addRule(
    BOOK,
    SHEET,
    {
      uid: "stages",
      type: DataValidationType.LIST,
      formula1: "Body,Baton,Together",
      ranges: [{ startRow: 0, endRow: 8, startColumn: 0, endColumn: 0 }],
    },
    "command",
  );
  checkWhatIsOpen(injector);
  return { univer, api, injector, cache: injector.get(DataValidationCacheService) };
}

const gathered = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 100));

test("what is typed is still checked against what may stand there", async () => {
  const { univer, api, injector, cache } = open();
  forgetWhatWasChecked(injector);
  const sheet = api.getActiveWorkbook()?.getActiveSheet();
  sheet?.getRange("A2").setValue("Hoop");
  sheet?.getRange("A3").setValue("Baton");
  await gathered();
  expect(cache.getValue(BOOK, SHEET, 1, 0)).toBe(DataValidationStatus.INVALID);
  expect(cache.getValue(BOOK, SHEET, 2, 0)).not.toBe(DataValidationStatus.INVALID);
  univer.dispose();
});

test("no record of an edit is kept once it is checked", async () => {
  setFlagsFromString("--expose-gc");
  const collectGarbage = runInNewContext("gc") as () => void;
  const { univer, injector, cache } = open();
  const edit = (): WeakRef<IRange[]> => {
    const ranges: IRange[] = [{ startRow: 4, endRow: 4, startColumn: 0, endColumn: 0 }];
    cache.markRangeDirty(BOOK, SHEET, ranges);
    return new WeakRef(ranges);
  };
  // The grid's own way keeps it: were that no longer so, there would be nothing to mend.
  const kept = edit();
  await gathered();
  collectGarbage();
  expect(kept.deref()).toBeDefined();

  forgetWhatWasChecked(injector);
  const forgotten = edit();
  await gathered();
  collectGarbage();
  expect(forgotten.deref()).toBeUndefined();
  // A sheet or workbook that is gone is not asked about.
  await expect(injector.get(SheetsDataValidationValidatorService).validatorRanges("gone", SHEET, [])).resolves.toEqual(
    [],
  );
  univer.dispose();
});
