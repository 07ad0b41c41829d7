/** The open-source spreadsheet of the try-out page, with the built functions under it. */
import "@univerjs/sheets/facade";
import "@univerjs/sheets-ui/facade";
import "@univerjs/engine-formula/facade";
import "@univerjs/sheets-formula/facade";
import "@univerjs/sheets-table/facade";
import {
  ICommandService,
  type Injector,
  type IUnitRange,
  type IWorkbookData,
  LifecycleStages,
  LocaleType,
  LogLevel,
  type Plugin,
  type PluginCtor,
  Univer,
  UniverInstanceType,
} from "@univerjs/core";
import { FUniver } from "@univerjs/core/facade";
import { SetTriggerFormulaCalculationStartMutation } from "@univerjs/engine-formula";
import { UniverSheetsConditionalFormattingPreset } from "@univerjs/preset-sheets-conditional-formatting";
import { UniverSheetsCorePreset } from "@univerjs/preset-sheets-core";
import { UniverSheetsDataValidationPreset } from "@univerjs/preset-sheets-data-validation";
import { UniverSheetsTablePreset, UniverSheetsTableUIPlugin } from "@univerjs/preset-sheets-table";
import { SheetsSelectionsService, UniverSheetsPlugin } from "@univerjs/sheets";
import type { FWorksheet } from "@univerjs/sheets/facade";
import { CalculationMode } from "@univerjs/sheets-formula";
import { type IUniverSheetsTableConfig, UniverSheetsTablePlugin } from "@univerjs/sheets-table";
import { IMenuManagerService, ThemeSwitcherService, UniverUIPlugin } from "@univerjs/ui";

import { looks } from "../workbook/plan/looks";
import type { ChartPlan } from "../workbook/plan/schema";
import type { LoadedFunctions } from "./engine/built-functions";
import { bindCustomFunctions, type EmptyCells } from "./engine/custom-functions";
import { gridWords } from "./mends/grid-words";
import { PrintPlans } from "./adapter/print-plans";
import { mendsBeforeDrawing, mendsOnceDrawn } from "./mends/page-mends";
import { applyMends } from "./mends/mend";
import { keepRefused } from "./mends/refused-values";
import { hiddenMenus } from "./mends/hidden-menus";
import { layCharts, type SheetCharts } from "./adapter/sheet-charts";
import { type GridState, reportStates } from "./calculation-state";
import { type GridCell, MessageBook } from "./engine/messages";
import { SteadyMenuService } from "./mends/steady-menus";
import { ThemeSheetService } from "./mends/theme-sheet";
import { readTypedDays } from "./mends/typed-days";

interface GridOptions {
  /** The id of the element that holds the grid. */
  readonly container: string;
  readonly snapshot: IWorkbookData;
  readonly functions: LoadedFunctions;
  /** Asked at every call of a function. */
  readonly emptyCells: () => EmptyCells;
  /** Where the page tells why a cell does not take what was typed into it. */
  readonly refused: HTMLElement;
  readonly onState: (state: GridState) => void;
  readonly onSelection: () => void;
  /** Says something to the coach that no cell can say. */
  readonly tell: (words: string) => void;
}

export interface Grid {
  readonly api: FUniver;
  readonly injector: Injector;
  readonly messages: MessageBook;
  readonly charts: SheetCharts;
  readonly prints: PrintPlans;
  /** The mends that did not find what they reach for, since the grid has changed: none with the version that is installed. */
  readonly notMended: readonly string[];
  /** Works every formula out anew; with sheets, theirs and what depends on them. */
  calculate(sheetIds?: readonly string[]): void;
  /** Puts another workbook in the place of the open one and works it out. */
  replace(snapshot: IWorkbookData): Promise<void>;
}

/** Opens the workbook in the page; resolves when the grid stands. Nothing is worked out before `calculate` is called. */
export async function openGrid(options: GridOptions): Promise<Grid> {
  const univer = new Univer({
    locale: LocaleType.EN_US,
    logLevel: LogLevel.WARN,
    locales: { [LocaleType.EN_US]: gridWords() },
  });
  for (const [plugin, config] of plugins(options.container)) univer.registerPlugin(plugin, config);
  const api = FUniver.newAPI(univer);
  const injector = univer.__getInjector();
  univer.createUnit(UniverInstanceType.UNIVER_SHEET, options.snapshot);

  const messages = new MessageBook();
  const calculate = (sheetIds?: readonly string[]): void => {
    if (sheetIds === undefined) api.getFormula().executeCalculation();
    else calculateSheets(api, injector, sheetIds);
  };
  const mended = { api, injector, tell: options.tell, calculate };
  const notMended = [...applyMends(mendsBeforeDrawing, mended)];
  bindCustomFunctions(injector, { ...options.functions, messages, emptyCells: options.emptyCells });
  reportStates(injector, messages, options.onState);
  // The event of the same meaning is silent for the first three seconds of a page.
  injector.get(SheetsSelectionsService).selectionChanged$.subscribe(options.onSelection);
  // Another sheet has its own selected cell, and showing it changes no selection.
  api.addEvent(api.Event.ActiveSheetChanged, options.onSelection);

  await rendered(api);
  const { refusal } = readTypedDays(injector, { tell: options.tell });
  keepRefused(injector, { goTo: (cell) => goTo(api, cell), notice: options.refused, refusal });
  showSheet(api, options.snapshot);
  notMended.push(...applyMends(mendsOnceDrawn, mended));
  const charts = layCharts(api, injector, options.snapshot);
  const prints = new PrintPlans(options.snapshot);
  const replace = async (snapshot: IWorkbookData): Promise<void> => {
    const former = api.getActiveWorkbook();
    for (const sheet of former?.getSheets() ?? []) charts.put(sheet.getSheetId(), []);
    messages.clear();
    if (former) api.disposeUnit(former.getId());
    // The engine keeps formulas and ranges by the workbook's id, also of one that is gone.
    univer.createUnit(UniverInstanceType.UNIVER_SHEET, { ...snapshot, id: crypto.randomUUID() });
    // The tables of a workbook are made known a turn later than its cells.
    await new Promise((resolve) => setTimeout(resolve));
    showSheet(api, snapshot);
    const plans = (snapshot.custom?.["charts"] ?? {}) as Readonly<Record<string, readonly ChartPlan[]>>;
    for (const [sheetId, list] of Object.entries(plans)) charts.put(sheetId, list);
    prints.replace(snapshot);
    calculate();
  };
  return { api, injector, messages, charts, prints, notMended, calculate, replace };
}

type RegisteredPlugin = readonly [plugin: PluginCtor<Plugin>, config: object];

/** How tables are drawn where their cells say nothing. */
const tableTheme: NonNullable<IUniverSheetsTableConfig["userThemes"]>[number] = {
  name: "twirl-ledger",
  style: {
    headerRowStyle: { bg: { rgb: looks.heading.fill }, cl: { rgb: looks.heading.textColour } },
    secondRowStyle: { bg: { rgb: "#F7F6FA" } },
  },
};

/** What the presets leave no room to say. */
const furtherConfig: ReadonlyMap<unknown, object> = new Map<unknown, object>([
  // From 6,000 cells on, as a season's log soon has, a sheet that is deleted could not be brought back, nor what was done
  // before it; and the rest of a copy would come piece by piece, over what has been typed into it meanwhile.
  [UniverSheetsPlugin, { largeSheetOperation: { largeSheetCellCountThreshold: Infinity } }],
  [
    UniverUIPlugin,
    {
      override: [
        [ThemeSwitcherService, { useClass: ThemeSheetService }],
        [IMenuManagerService, { useClass: SteadyMenuService }],
      ],
    },
  ],
  [UniverSheetsTablePlugin, { userThemes: [tableTheme], defaultThemeIndex: 0 }],
  // The tab that the grid hangs on a table would cover the row above it.
  [UniverSheetsTableUIPlugin, { hideAnchor: true }],
]);

function plugins(container: string): RegisteredPlugin[] {
  const presets = [
    UniverSheetsCorePreset({
      container,
      ribbonType: "simple",
      menu: hiddenMenus,
      footer: { sheetBar: true, statisticBar: true, menus: false, zoomSlider: true },
      // Marks such as 0110 are text on purpose: nothing about them is to be flagged.
      sheets: { disableForceStringAlert: true, disableForceStringMark: true },
      disableTextFormatAlert: true,
      disableTextFormatMark: true,
      // What the engine works out before it knows the functions would have to be worked out again.
      formula: { initialFormulaComputing: CalculationMode.NO_CALCULATION },
    }),
    UniverSheetsTablePreset(),
    UniverSheetsConditionalFormattingPreset(),
    // A search box in the list would take the keys away from the cell: what is typed there would be lost.
    UniverSheetsDataValidationPreset({ showEditOnDropdown: false, showSearchOnDropdown: false }),
  ];
  return presets
    .flatMap((preset): readonly unknown[] => preset.plugins)
    .map((entry): RegisteredPlugin => {
      const [plugin, config] = (Array.isArray(entry) ? entry : [entry, {}]) as [PluginCtor<Plugin>, object];
      return [plugin, { ...config, ...furtherConfig.get(plugin) }];
    });
}

/** The engine's own command with its dirty parts named: without that it works out the whole workbook. */
function calculateSheets(api: FUniver, injector: Injector, sheetIds: readonly string[]): void {
  const workbook = api.getActiveWorkbook();
  if (!workbook) return;
  const unitId = workbook.getId();
  const dirtyRanges = sheetIds.flatMap((sheetId): IUnitRange[] => {
    const sheet = workbook.getSheetBySheetId(sheetId);
    if (!sheet) return [];
    const [rows, columns] = [sheet.getMaxRows(), sheet.getMaxColumns()];
    return [{ unitId, sheetId, range: { startRow: 0, endRow: rows - 1, startColumn: 0, endColumn: columns - 1 } }];
  });
  void injector
    .get(ICommandService)
    .executeCommand(
      SetTriggerFormulaCalculationStartMutation.id,
      { commands: [], forceCalculation: false, dirtyRanges },
      { onlyLocal: true },
    );
}

/**
 * Resolves when the grid has drawn its first frame. Before that the engine's parts are not all there. (The stage after
 * it, "steady", is nothing but three seconds later.)
 */
function rendered(api: FUniver): Promise<void> {
  return new Promise((resolve) => {
    // A turn later, when all who wait for the same stage have had theirs.
    const done = (): void => void setTimeout(resolve);
    if (api.getCurrentLifecycleStage() >= LifecycleStages.Rendered) return done();
    const listener = api.addEvent(api.Event.LifeCycleChanged, ({ stage }) => {
      if (stage < LifecycleStages.Rendered) return;
      listener.dispose();
      done();
    });
  });
}

function showSheet(api: FUniver, snapshot: IWorkbookData): void {
  const sheetId: unknown = snapshot.custom?.["activeSheet"];
  if (typeof sheetId !== "string") return;
  const workbook = api.getActiveWorkbook();
  const sheet = workbook?.getSheetBySheetId(sheetId);
  if (sheet) workbook?.setActiveSheet(sheet);
}

/** What a cell holds now: typed, worked out, or spilled into it. */
export function valueAt(api: FUniver, cell: GridCell): unknown {
  return api.getActiveWorkbook()?.getSheetBySheetId(cell.sheetId)?.getSheet().getCell(cell.row, cell.column)?.v;
}

/** Has the keys go to the grid: it listens through an editor that no eye sees. */
export function focusGrid(): void {
  document.querySelector<HTMLElement>('#grid [contenteditable="true"]')?.focus();
}

/** Brings a cell into sight and selects it; what is typed next goes there. */
export function goTo(api: FUniver, cell: GridCell): void {
  const workbook = api.getActiveWorkbook();
  const sheet = workbook?.getSheetBySheetId(cell.sheetId);
  if (!workbook || !sheet) return;
  workbook.setActiveSheet(sheet);
  sheet.scrollToCell(Math.max(0, cell.row - 5), cell.column - columnsBefore(sheet, cell.column));
  sheet.setActiveSelection(sheet.getRange(cell.row, cell.column));
  focusGrid();
}

/** How many columns go in sight before a cell's own: three, and fewer where a phone's screen would end before the cell. */
function columnsBefore(sheet: FWorksheet, column: number): number {
  const half = (document.querySelector("#grid")?.clientWidth ?? 0) / 2;
  let [before, width] = [0, 0];
  while (before < Math.min(3, column)) {
    width += sheet.getColumnWidth(column - before - 1);
    if (width > half) break;
    before += 1;
  }
  return before;
}
