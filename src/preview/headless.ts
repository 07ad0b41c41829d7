/**
 * The try-out page's formula engine without a page: from a workbook's description and the built functions to the value
 * of every formula. The sample workbooks take their cached values from here.
 */
import "@univerjs/sheets/facade";
import "@univerjs/engine-formula/facade";
import "@univerjs/sheets-formula/facade";
import type { IWorkbookData } from "@univerjs/core";
import { CellValueType, ILogService, LocaleType, LogLevel, Univer, UniverInstanceType } from "@univerjs/core";
import { FUniver } from "@univerjs/core/facade";
import { UniverDocsPlugin } from "@univerjs/docs";
import { ISuperTableService, ERROR_TYPE_SET, FormulaDataModel, UniverFormulaEnginePlugin } from "@univerjs/engine-formula";
import { UniverSheetsPlugin } from "@univerjs/sheets";
import { UniverSheetsFormulaPlugin } from "@univerjs/sheets-formula";
import { SheetTableService, UniverSheetsTablePlugin } from "@univerjs/sheets-table";

import { bindCustomFunctions, type EmptyCells, type FunctionsMetadata } from "./custom-functions";
import { loadFunctions } from "./functions-realm";
import { MessageBook } from "./messages";
import { recogniseEveryTable } from "./table-names";

void ILogService; void LogLevel;
export async function calculateSnapshot(snapshot: IWorkbookData, built: { functionsScript: string; functionsMetadata: FunctionsMetadata; emptyCells: EmptyCells }) {
  const univer = new Univer({ locale: LocaleType.EN_US });
  for (const plugin of [UniverDocsPlugin, UniverFormulaEnginePlugin, UniverSheetsPlugin, UniverSheetsFormulaPlugin, UniverSheetsTablePlugin]) univer.registerPlugin(plugin as never);
  const api = FUniver.newAPI(univer);
  univer.createUnit(UniverInstanceType.UNIVER_SHEET, snapshot);
  const injector = univer.__getInjector();
  recogniseEveryTable(injector);
  const messages = new MessageBook();
  bindCustomFunctions(injector, { namespace: "TWIRL", metadata: built.functionsMetadata, implementations: loadFunctions(built.functionsScript), messages, emptyCells: () => built.emptyCells });
  const formula = api.getFormula();
  const done = new Promise<void>((resolve) => formula.calculationEnd(() => resolve()));

  formula.executeCalculation();
  await done;
  const model = injector.get(FormulaDataModel);
  const wb = api.getActiveWorkbook()!;
  const out: any = {};
  for (const sheet of wb.getSheets()) {
    out[sheet.getSheetName()] = { cells: JSON.parse(JSON.stringify(sheet.getSheet().getSnapshot().cellData)) };
  }
  out.range = model.getArrayFormulaRange();
  out.array = JSON.parse(JSON.stringify(model.getArrayFormulaCellData()));
  out.messages = messages.current(() => "x"), (out as any).m = messages;
  void CellValueType; void ERROR_TYPE_SET;
  return out;
}
