/** The grid's model without its drawing, for tests of what the page does to a workbook. */
import "@univerjs/sheets/facade";
import "@univerjs/engine-formula/facade";
import "@univerjs/sheets-table/facade";
import {
  type Injector,
  IUniverInstanceService,
  type IWorkbookData,
  LocaleType,
  LogLevel,
  type Plugin,
  type PluginCtor,
  Univer,
  UniverInstanceType,
} from "@univerjs/core";
import { FUniver } from "@univerjs/core/facade";
import { UniverDataValidationPlugin } from "@univerjs/data-validation";
import { UniverDocsPlugin } from "@univerjs/docs";
import { UniverFormulaEnginePlugin } from "@univerjs/engine-formula";
import { UniverSheetsPlugin } from "@univerjs/sheets";
import { UniverSheetsConditionalFormattingPlugin } from "@univerjs/sheets-conditional-formatting";
import { UniverSheetsFormulaPlugin } from "@univerjs/sheets-formula";
import { UniverSheetsTablePlugin } from "@univerjs/sheets-table";

import { bindCustomFunctions } from "../../src/grid/engine/custom-functions";
import { loadFunctions } from "../../src/grid/engine/functions-realm";
import type { BuiltFunctions } from "../../src/grid/headless";
import { toSnapshot } from "../../src/grid/adapter/grid-writer";
import { MessageBook } from "../../src/grid/engine/messages";
import { PrintPlans } from "../../src/grid/adapter/print-plans";
import type { SheetCharts } from "../../src/grid/adapter/sheet-charts";
import { editingMends } from "../../src/grid/mends/engine-mends";
import { applyMends } from "../../src/grid/mends/mend";
import type { ChartPlan, WorkbookPlan } from "../../src/workbook/plan/schema";
import { fixtureMetadata, fixtureScript } from "./fixture";

const plugins: readonly PluginCtor<Plugin>[] = [
  UniverDocsPlugin,
  UniverFormulaEnginePlugin,
  UniverSheetsPlugin,
  UniverSheetsFormulaPlugin,
  UniverSheetsTablePlugin,
  UniverSheetsConditionalFormattingPlugin,
  UniverDataValidationPlugin,
];

export interface Engine {
  readonly api: FUniver;
  readonly injector: Injector;
  calculate(): void;
  /** Resolves at the end of the calculation that the edits before it have brought about. */
  settled(): Promise<void>;
  close(): void;
}

/** The grid's model with these parts, without words of any language. */
export function univerWith(parts: readonly PluginCtor<Plugin>[]): Univer {
  const univer = new Univer({
    locale: LocaleType.EN_US,
    locales: { [LocaleType.EN_US]: {} },
    logLevel: LogLevel.ERROR,
  });
  for (const part of parts) univer.registerPlugin(part);
  return univer;
}

let opened = 0;

/** The grid's model of one sheet, as the engine is by itself: without mends, and not worked out yet. */
export function openCells(cellData: NonNullable<IWorkbookData["sheets"][string]["cellData"]>) {
  const univer = univerWith([UniverFormulaEnginePlugin, UniverSheetsPlugin, UniverSheetsFormulaPlugin]);
  opened += 1;
  const unitId = `cells-${String(opened)}`;
  univer.createUnit(UniverInstanceType.UNIVER_SHEET, {
    id: unitId,
    sheets: { cells: { id: "cells", name: "Cells", rowCount: 20, columnCount: 9, cellData } },
    sheetOrder: ["cells"],
  });
  const [api, injector] = [FUniver.newAPI(univer), univer.__getInjector()];
  injector.get(IUniverInstanceService).focusUnit(unitId);
  const cell = (at: string) => api.getActiveWorkbook()?.getActiveSheet().getRange(at);
  return {
    ...{ univer, api, injector, unitId },
    read: (at: string): unknown => cell(at)?.getValue(),
    write: (at: string, value: string | number): void => void cell(at)?.setValue(value),
  };
}

export function openEngine(plan: WorkbookPlan): Promise<Engine> {
  return openEngineOn(toSnapshot(plan));
}

const fixture: BuiltFunctions = {
  functionsMetadata: fixtureMetadata,
  functionsScript: fixtureScript,
  emptyCells: "null",
};

/** The same for a workbook in the grid's own form, and with other functions than the fixture's. */
export async function openEngineOn(snapshot: IWorkbookData, functions: BuiltFunctions = fixture): Promise<Engine> {
  const univer = univerWith(plugins);
  const api = FUniver.newAPI(univer);
  opened += 1;
  univer.createUnit(UniverInstanceType.UNIVER_SHEET, { ...snapshot, id: `engine-${String(opened)}` });
  const injector = univer.__getInjector();
  const notMended = applyMends(editingMends, { injector });
  if (notMended.length > 0) throw new Error(`The grid has changed: ${notMended.join(", ")} find nothing to mend.`);
  bindCustomFunctions(injector, {
    metadata: functions.functionsMetadata,
    implementations: loadFunctions(functions.functionsScript),
    messages: new MessageBook(),
    emptyCells: () => functions.emptyCells,
  });
  const formulas = api.getFormula();
  const calculate = (): void => formulas.executeCalculation();
  const engine: Engine = {
    api,
    injector,
    calculate,
    settled: () => formulas.onCalculationEnd(),
    close: () => univer.dispose(),
  };
  // The tables are made known a turn later than the cells.
  await new Promise((resolve) => setTimeout(resolve, 0));
  const first = engine.settled();
  calculate();
  await first;
  return engine;
}

/** What the page keeps beside the grid, for a grid that nobody sees; `put` is told of every chart. */
export function besideGrid(put: (sheetId: string, charts: readonly ChartPlan[]) => void = () => undefined): {
  readonly charts: SheetCharts;
  readonly prints: PrintPlans;
} {
  return { charts: { put, of: () => [], refresh: () => undefined }, prints: new PrintPlans({} as IWorkbookData) };
}
