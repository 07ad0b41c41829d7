/** The workbook of the try-out page, as the pane asks for it. */
import "@univerjs/sheets/facade";
import "@univerjs/sheets-table/facade";
import {
  ICommandService,
  type Injector,
  type IWorksheetData,
  mergeWorksheetSnapshotWithDefault,
  RANGE_TYPE,
} from "@univerjs/core";
import type { FUniver } from "@univerjs/core/facade";
import { AddDataValidationMutation, RemoveDataValidationMutation } from "@univerjs/data-validation";
import { InsertSheetMutation, RemoveSheetMutation } from "@univerjs/sheets";
import { AddConditionalRuleMutation, DeleteConditionalRuleMutation } from "@univerjs/sheets-conditional-formatting";
import { AddSheetTableMutation, DeleteSheetTableMutation, TableManager } from "@univerjs/sheets-table";

import { OccupiedCell, type SelectedCells, type WorkbookHost } from "../../taskpane/host/host";
import { texts } from "../../taskpane/words/texts";
import { cellName } from "../../workbook/plan/address";
import { LAST_COLUMN, LAST_ROW } from "../../core/sheet";
import { checkPlan } from "../../workbook/plan/check-plan";
import { quoteSheetName } from "../../workbook/plan/formula";
import type { WorkbookPlan } from "../../workbook/plan/schema";
import type { PrintPlans } from "./print-plans";
import type { GridCell } from "../engine/messages";
import type { SheetCharts } from "./sheet-charts";
import { gridOwnSheet } from "./grid-own-sheet";
import { type GridSheet, type GridSheets, gridSheets } from "./grid-writer";
import { addColumns, appendRow, readBlock, readTables } from "./table-rows";

interface GridHostParts {
  readonly api: FUniver;
  readonly injector: Injector;
  /** Works every formula out anew; with sheets, theirs and what depends on them. */
  readonly calculate: (sheetIds?: readonly string[]) => void;
  readonly charts: SheetCharts;
  readonly prints: PrintPlans;
  /** Brings a cell into sight and selects it. */
  readonly show: (cell: GridCell) => void;
  /** Left out where nothing is printed. */
  readonly printSheets?: WorkbookHost["printSheets"];
  /** Left out where nobody is to be told of changes. */
  readonly whenChanged?: WorkbookHost["whenChanged"];
  /**
   * Writes a plan into the file behind the workbook, and answers its sheets as they are read from there. Left out where
   * there is no file.
   */
  readonly prepareSheets?: (plan: WorkbookPlan) => { readonly grid: GridSheets; keep(): void };
}

export function gridHost(parts: GridHostParts): WorkbookHost {
  return {
    namesInUse: () => Promise.resolve(namesInUse(parts.api)),
    addSheets: (plan) => addSheets(parts, plan),
    insertFormula: (formula) =>
      Promise.resolve().then(() => insertInto(parts.api, (cell) => void cell.setFormula(formula))),
    insertValue: (value) => Promise.resolve().then(() => insertInto(parts.api, (cell) => void cell.setValue(value))),
    selection: () => Promise.resolve().then(() => selection(parts.api)),
    putFormula: (formula, { sheet, cell: { row, column } }, replace) =>
      Promise.resolve().then(() => {
        const on = openWorkbook(parts.api).getSheetByName(sheet);
        if (!on) throw new Error(texts.sheetGone(sheet));
        return fill(on, on.getRange(row - 1, column - 1), (cell) => void cell.setFormula(formula), replace);
      }),
    sheetInView: () => Promise.resolve().then(() => openWorkbook(parts.api).getActiveSheet().getSheetName()),
    whenChanged: parts.whenChanged ?? (() => () => undefined),
    workbookName: () => openWorkbook(parts.api).getName(),
    readTables: (names) => Promise.resolve().then(() => readTables(openWorkbook(parts.api), names)),
    readBlock: (sheet, block) => Promise.resolve().then(() => readBlock(openWorkbook(parts.api), sheet, block)),
    appendRow: (table, cells) => appendRow(openWorkbook(parts.api), parts.injector, table, cells),
    addColumns: (table, headings) => addColumns(openWorkbook(parts.api), parts.injector, table, headings),
    ...gridOwnSheet(parts),
    ...(parts.printSheets === undefined ? {} : { printSheets: parts.printSheets }),
  };
}

function openWorkbook(api: FUniver): NonNullable<ReturnType<FUniver["getActiveWorkbook"]>> {
  const workbook = api.getActiveWorkbook();
  if (workbook === null) throw new Error("There is no open workbook.");
  return workbook;
}

function namesInUse(api: FUniver): { sheets: string[]; tables: string[] } {
  const workbook = openWorkbook(api);
  return {
    sheets: workbook.getSheets().map((sheet) => sheet.getSheetName()),
    tables: workbook.getTableList().map((table) => table.name),
  };
}

/** What was done, each with the way to take it back. */
interface Step {
  readonly add: { readonly id: string; readonly params: object };
  readonly takeBack: { readonly id: string; readonly params: object };
}

async function addSheets(
  { api, injector, calculate, charts, prints, prepareSheets }: GridHostParts,
  plan: WorkbookPlan,
): Promise<void> {
  refuseFaultyPlan(api, plan);
  const workbook = openWorkbook(api);
  const unitId = workbook.getId();
  const prepared = prepareSheets?.(plan);
  const grid = prepared?.grid ?? gridSheets(plan, `${crypto.randomUUID()}-`);
  const commands = injector.get(ICommandService);
  const done: Step[] = [];
  try {
    for (const step of stepsFor(grid, unitId, workbook.getSheets().length)) {
      // Mutations, not commands: half of a season must not be left by one press of Undo.
      if (!(await commands.executeCommand(step.add.id, step.add.params))) throw new Error("The grid refused a part.");
      done.push(step);
    }
    const tables = injector.get(TableManager);
    for (const table of grid.sheets.flatMap((sheet) => sheet.tables)) {
      tables.getTableById(unitId, table.id)?.setColumns(table.columns);
    }
    for (const added of grid.sheets) {
      charts.put(added.sheet.id, added.charts);
      prints.put(added.sheet.id, added.print);
    }
    prepared?.keep();
    const active = workbook.getSheetBySheetId(grid.activeId);
    if (active) workbook.setActiveSheet(active);
  } catch (cause) {
    for (const added of grid.sheets) charts.put(added.sheet.id, []);
    for (const { takeBack } of done.reverse()) await commands.executeCommand(takeBack.id, takeBack.params);
    const reason = cause instanceof Error ? ` ${cause.message}` : "";
    throw new Error(`The sheets could not be added, and what was added is taken out again.${reason}`, { cause });
  } finally {
    calculate(grid.sheets.map(({ sheet }) => sheet.id));
  }
}

function refuseFaultyPlan(api: FUniver, plan: WorkbookPlan): void {
  const problems = checkPlan(plan);
  if (problems.length > 0) throw new Error(problems.join(" "));
  const used = namesInUse(api);
  const taken = new Set([...used.sheets, ...used.tables].map((name) => name.toLowerCase()));
  const wanted = plan.sheets.flatMap((sheet) => [sheet.name, ...sheet.tables.map((table) => table.name)]);
  const twice = wanted.filter((name) => taken.has(name.toLowerCase()));
  if (twice.length > 0) throw new Error(`The workbook already has ${twice.join(", ")}. Nothing was added.`);
}

/** All sheets first: a formula of one may read the tables of any other. */
function stepsFor({ sheets, styles }: GridSheets, unitId: string, firstIndex: number): Step[] {
  return [
    ...sheets.map(({ sheet }, index): Step => ({
      add: {
        id: InsertSheetMutation.id,
        params: { unitId, index: firstIndex + index, sheet: completed(sheet), styles },
      },
      takeBack: { id: RemoveSheetMutation.id, params: { unitId, subUnitId: sheet.id, subUnitName: sheet.name } },
    })),
    ...sheets.flatMap((sheet) => tableSteps(sheet, unitId)),
    ...sheets.flatMap((sheet) => ruleSteps(sheet, unitId)),
    ...sheets.flatMap((sheet) => validationSteps(sheet, unitId)),
  ];
}

function completed(sheet: Partial<IWorksheetData>): IWorksheetData {
  return mergeWorksheetSnapshotWithDefault(sheet);
}

function tableSteps({ sheet, tables }: GridSheet, unitId: string): Step[] {
  return tables.map(({ id: tableId, name, range, options, columns }) => ({
    add: {
      id: AddSheetTableMutation.id,
      params: {
        unitId,
        subUnitId: sheet.id,
        tableId,
        name,
        range,
        options,
        header: columns.map(({ displayName }) => displayName),
      },
    },
    takeBack: { id: DeleteSheetTableMutation.id, params: { unitId, subUnitId: sheet.id, tableId } },
  }));
}

function ruleSteps({ sheet, rules }: GridSheet, unitId: string): Step[] {
  // A rule added later comes before the earlier ones; the plan's first one is to win.
  return [...rules].reverse().map((rule) => ({
    add: { id: AddConditionalRuleMutation.id, params: { unitId, subUnitId: sheet.id, rule } },
    takeBack: { id: DeleteConditionalRuleMutation.id, params: { unitId, subUnitId: sheet.id, cfId: rule.cfId } },
  }));
}

function validationSteps({ sheet, validations }: GridSheet, unitId: string): Step[] {
  return validations.map((rule) => ({
    add: { id: AddDataValidationMutation.id, params: { unitId, subUnitId: sheet.id, rule } },
    takeBack: { id: RemoveDataValidationMutation.id, params: { unitId, subUnitId: sheet.id, ruleId: rule.uid } },
  }));
}

type Sheet = ReturnType<ReturnType<typeof openWorkbook>["getActiveSheet"]>;
type Cell = NonNullable<ReturnType<ReturnType<ReturnType<typeof openWorkbook>["getActiveSheet"]>["getActiveCell"]>>;

/** Has the selected cell filled, where it is empty, and answers its address. */
function insertInto(api: FUniver, write: (cell: Cell) => void): string {
  const sheet = openWorkbook(api).getActiveSheet();
  const cell = sheet.getActiveCell();
  if (cell === null) throw new Error(texts.selectionNotOne);
  return fill(sheet, cell, write, false);
}

/** Has a cell filled, where it is empty or may be replaced, and answers its address. */
function fill(sheet: Sheet, cell: Cell, write: (cell: Cell) => void, replace: boolean): string {
  const row = cell.getRow();
  const column = cell.getColumn();
  const address = `${quoteSheetName(sheet.getSheetName())}!${cellName({ row: row + 1, column: column + 1 })}`;
  // As it is shown: a cell that another formula spills into holds nothing of its own.
  const shown = sheet.getSheet().getCell(row, column);
  const filled = shown?.v !== undefined && shown.v !== null && shown.v !== "";
  if (!replace && (filled || cell.getFormula() !== "")) throw new OccupiedCell(address, texts.cellNotEmpty(address));
  write(cell);
  return address;
}

/** The selected cells. The grid's sheets are shorter than a sheet can be: a whole column is told by what was selected. */
function selection(api: FUniver): SelectedCells {
  const sheet = openWorkbook(api).getActiveSheet();
  const ranges = sheet.getSelection()?.getActiveRangeList() ?? [];
  const [range] = ranges;
  if (!range || ranges.length > 1) throw new Error(texts.selectionNotOne);
  const { startRow, startColumn, endRow, endColumn, rangeType } = range.getRange();
  const { rows, columns } = { rows: sheet.getMaxRows(), columns: sheet.getMaxColumns() };
  const wholeColumns = rangeType === RANGE_TYPE.COLUMN || (startRow === 0 && endRow >= rows - 1);
  const wholeRows = rangeType === RANGE_TYPE.ROW || (startColumn === 0 && endColumn >= columns - 1);
  return {
    sheet: sheet.getSheetName(),
    block: {
      row: wholeColumns ? 1 : startRow + 1,
      column: wholeRows ? 1 : startColumn + 1,
      rows: wholeColumns ? LAST_ROW : endRow - startRow + 1,
      columns: wholeRows ? LAST_COLUMN : endColumn - startColumn + 1,
    },
  };
}
