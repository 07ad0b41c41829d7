/**
 * The try-out page's formula engine without a page: from a workbook's description and the built functions to the value
 * of every formula. The sample workbooks take their cached values from here.
 */
import "@univerjs/sheets/facade";
import "@univerjs/engine-formula/facade";
import {
  CellValueType,
  type ICellData,
  type IWorkbookData,
  LocaleType,
  LogLevel,
  type Nullable,
  type Plugin,
  type PluginCtor,
  Univer,
  UniverInstanceType,
} from "@univerjs/core";
import { FUniver } from "@univerjs/core/facade";
import { UniverDocsPlugin } from "@univerjs/docs";
import { FormulaDataModel, FormulaExecutedStateType, UniverFormulaEnginePlugin } from "@univerjs/engine-formula";
import { UniverSheetsPlugin } from "@univerjs/sheets";
import { CalculationMode, UniverSheetsFormulaPlugin } from "@univerjs/sheets-formula";
import { UniverSheetsTablePlugin } from "@univerjs/sheets-table";

import { cellName } from "../workbook/plan/address";
import { ERROR_NAMES } from "./file/cells/values";
import { engineMends } from "./mends/engine-mends";
import { applyMends } from "./mends/mend";
import type { CalculatedSheet, CalculatedValue, ErrorName, SpillSize } from "../workbook/plan/calculated";
import type { WorkbookPlan } from "../workbook/plan/schema";
import { bindCustomFunctions, type EmptyCells, type FunctionsMetadata } from "./engine/custom-functions";
import { loadFunctions } from "./engine/functions-realm";
import { toSnapshot } from "./adapter/grid-writer";
import { MessageBook } from "./engine/messages";

export interface BuiltFunctions {
  /** The text of `functions.js`. */
  readonly functionsScript: string;
  /** What `functions.json` holds. */
  readonly functionsMetadata: FunctionsMetadata;
  /** How empty cells reach the functions. */
  readonly emptyCells: EmptyCells;
}

/** One sheet's answers, with what the functions said about their errors. */
export interface HeadlessSheet extends CalculatedSheet {
  /** By address: the message of each cell that shows an error with one. */
  readonly messages: ReadonlyMap<string, string>;
}

export type HeadlessWorkbook = ReadonlyMap<string, HeadlessSheet>;

const plugins: readonly (readonly [plugin: PluginCtor<Plugin>, config?: object])[] = [
  [UniverDocsPlugin],
  [UniverFormulaEnginePlugin],
  [UniverSheetsPlugin],
  // What the engine begins on its own, before it knows the functions, would be stopped half way and leave a handle open.
  [UniverSheetsFormulaPlugin, { initialFormulaComputing: CalculationMode.NO_CALCULATION }],
  [UniverSheetsTablePlugin],
];

/**
 * Works out every formula of the plan. The answer is a `CalculatedWorkbook`: by sheet name, the value of each formula
 * cell and of each cell that a formula spills into, by its address, and the size of each spill.
 * Rejects if `functions.js` cannot be loaded.
 */
export async function calculate(plan: WorkbookPlan, built: BuiltFunctions): Promise<HeadlessWorkbook> {
  return calculateSnapshot(toSnapshot(plan), built);
}

let calculations = 0;

/** The same for a workbook in the grid's own form. */
export async function calculateSnapshot(given: IWorkbookData, built: BuiltFunctions): Promise<HeadlessWorkbook> {
  // The engine keeps formulas and ranges by the workbook's id for all of its instances together.
  calculations += 1;
  const snapshot = { ...given, id: `${given.id}-${String(calculations)}` };
  const implementations = loadFunctions(built.functionsScript);
  const univer = new Univer({
    locale: LocaleType.EN_US,
    // After a second of work the engine words its progress and fails where it has no words at all.
    locales: { [LocaleType.EN_US]: {} },
    logLevel: LogLevel.ERROR,
  });
  try {
    for (const [plugin, config] of plugins) univer.registerPlugin(plugin, config);
    const api = FUniver.newAPI(univer);
    univer.createUnit(UniverInstanceType.UNIVER_SHEET, snapshot);
    const injector = univer.__getInjector();
    const messages = new MessageBook();
    applyMends(engineMends, { injector });
    bindCustomFunctions(injector, {
      metadata: built.functionsMetadata,
      implementations,
      messages,
      emptyCells: () => built.emptyCells,
    });
    // The tables of a workbook are made known a turn later than its cells.
    await new Promise((resolve) => setTimeout(resolve, 0));
    await calculated(api);

    const workbook = api.getActiveWorkbook();
    if (workbook === null) throw new Error("The engine lost the workbook.");
    const model = injector.get(FormulaDataModel);
    const spillRanges = model.getArrayFormulaRange()[snapshot.id] ?? {};
    const spillCells = model.getArrayFormulaCellData()[snapshot.id] ?? {};
    const sheets = new Map<string, HeadlessSheet>();
    for (const worksheet of workbook.getSheets()) {
      const sheetId = worksheet.getSheetId();
      sheets.set(
        worksheet.getSheetName(),
        readSheet(
          sheetId,
          worksheet.getSheet().getSnapshot().cellData,
          spillRanges[sheetId] ?? {},
          spillCells[sheetId] ?? {},
          messages,
        ),
      );
    }
    return sheets;
  } finally {
    univer.dispose();
  }
}

/**
 * Works everything out, and resolves once that is done. A calculation that is stopped makes room for another, which has
 * all that was asked for; and one that the engine began on its own, before it knew of this, is not the one waited for.
 */
function calculated(api: FUniver): Promise<void> {
  const formulas = api.getFormula();
  return new Promise((resolve) => {
    let begun = false;
    const start = formulas.calculationStart((everything) => {
      begun ||= everything;
    });
    const end = formulas.calculationEnd((state) => {
      if (!begun || state === FormulaExecutedStateType.STOP_EXECUTION) return;
      start.dispose();
      end.dispose();
      resolve();
    });
    formulas.executeCalculation();
  });
}

type Matrix<T> = Readonly<Record<number, Nullable<Readonly<Record<number, Nullable<T>>>>>>;
type SpillRange = {
  readonly startRow: number;
  readonly endRow: number;
  readonly startColumn: number;
  readonly endColumn: number;
};

function readSheet(
  sheetId: string,
  cells: Matrix<ICellData>,
  spillRanges: Matrix<SpillRange>,
  spillCells: Matrix<ICellData>,
  messages: MessageBook,
): HeadlessSheet {
  const values = new Map<string, CalculatedValue>();
  const spills = new Map<string, SpillSize>();
  const said = new Map<string, string>();
  const note = (row: number, column: number, cell: ICellData): void => {
    const value = valueOf(cell);
    const address = cellName({ row: row + 1, column: column + 1 });
    values.set(address, value);
    if (value.kind !== "error") return;
    const message = messages.at({ sheetId, row, column });
    if (message?.code === value.name) said.set(address, message.message);
  };
  forEachCell(cells, (row, column, cell) => {
    if (typeof cell.f === "string") note(row, column, cell);
  });
  forEachCell(spillRanges, (row, column, range) => {
    // A spill that found no room keeps its range, but shows an error in its own cell alone.
    if (cells[row]?.[column]?.v === "#SPILL!") return;
    spills.set(cellName({ row: row + 1, column: column + 1 }), {
      rows: range.endRow - range.startRow + 1,
      columns: range.endColumn - range.startColumn + 1,
    });
    for (let r = range.startRow; r <= range.endRow; r += 1) {
      for (let c = range.startColumn; c <= range.endColumn; c += 1) {
        const cell = spillCells[r]?.[c];
        if (cell) note(r, c, cell);
      }
    }
  });
  return { values, spills, messages: said };
}

function forEachCell<T>(matrix: Matrix<T>, visit: (row: number, column: number, cell: T) => void): void {
  for (const [row, cells] of Object.entries(matrix)) {
    for (const [column, cell] of Object.entries(cells ?? {})) {
      if (cell) visit(Number(row), Number(column), cell);
    }
  }
}

function valueOf(cell: ICellData): CalculatedValue {
  const value = cell.v;
  // An empty answer is shown as 0, as a spreadsheet does.
  if (value === null || value === undefined) return { kind: "number", value: 0 };
  if (cell.t === CellValueType.BOOLEAN || typeof value === "boolean") return { kind: "boolean", value: Boolean(value) };
  if (typeof value === "number") return { kind: "number", value };
  if (ERROR_NAMES.has(value)) return { kind: "error", name: value as ErrorName };
  return { kind: "text", text: value };
}
