import { LocaleType, mergeLocales, Univer, UniverInstanceType, LogLevel } from "@univerjs/core";
import { FUniver } from "@univerjs/core/facade";
import { UniverSheetsCorePreset } from "@univerjs/preset-sheets-core";
import coreWords from "@univerjs/preset-sheets-core/locales/en-US";
import { UniverSheetsTablePreset } from "@univerjs/preset-sheets-table";
import tableWords from "@univerjs/preset-sheets-table/locales/en-US";
import { UniverSheetsConditionalFormattingPreset } from "@univerjs/preset-sheets-conditional-formatting";
import conditionalWords from "@univerjs/preset-sheets-conditional-formatting/locales/en-US";
import { UniverSheetsDataValidationPreset } from "@univerjs/preset-sheets-data-validation";
import validationWords from "@univerjs/preset-sheets-data-validation/locales/en-US";
import { bindCustomFunctions, createFunctionsGlobal } from "./custom-functions";
import { MessageBook } from "./messages";
import { recogniseEveryTable } from "./table-names";

async function main() {
  const univer = new Univer({ locale: LocaleType.EN_US, logLevel: LogLevel.WARN, locales: { [LocaleType.EN_US]: mergeLocales(coreWords, tableWords, conditionalWords, validationWords) } });
  for (const preset of [UniverSheetsCorePreset({ container: "grid" }), UniverSheetsTablePreset(), UniverSheetsConditionalFormattingPreset(), UniverSheetsDataValidationPreset()]) {
    for (const plugin of preset.plugins) {
      if (Array.isArray(plugin)) univer.registerPlugin(plugin[0] as never, plugin[1] as never);
      else univer.registerPlugin(plugin as never);
    }
  }
  const api = FUniver.newAPI(univer);
  const global = createFunctionsGlobal();
  (globalThis as any).CustomFunctions = global.customFunctions;
  await new Promise((resolve, reject) => { const s = document.createElement("script"); s.src = "functions.js"; s.onload = resolve; s.onerror = reject; document.head.append(s); });
  const metadata = await (await fetch("functions.json")).json();
  const snapshot = await (await fetch("season.json")).json();
  univer.createUnit(UniverInstanceType.UNIVER_SHEET, snapshot);
  const injector = univer.__getInjector();
  recogniseEveryTable(injector);
  bindCustomFunctions(injector, { namespace: "TWIRL", metadata, implementations: global.associated, messages: new MessageBook(), emptyCells: () => "null" });
  await new Promise<void>((resolve) => { const d = api.addEvent(api.Event.LifeCycleChanged, ({ stage }) => { console.log("stage", stage); if (stage === 3) { d.dispose(); resolve(); } }); if (api.getCurrentLifecycleStage() === 3) resolve(); });
  api.getFormula().calculationEnd(() => { document.body.dataset.state = "ready"; });
  api.getFormula().executeCalculation();
  (window as any).api = api;
}
void main();
