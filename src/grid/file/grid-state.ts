/** What the grid holds now, as plain data: the other half of what Save compares with the file. */
import "@univerjs/sheets/facade";
import type { ICellData, Injector, IRange, IStyleData, IWorkbookData, IWorksheetData, Nullable } from "@univerjs/core";
import type { FUniver } from "@univerjs/core/facade";
import type { ISheetDataValidationRule } from "@univerjs/core";
import { FormulaDataModel } from "@univerjs/engine-formula";
import type { IConditionFormattingRule } from "@univerjs/sheets-conditional-formatting";
import type { ITableJson } from "@univerjs/sheets-table";

import { resourceNames } from "../adapter/grid-writer";
import { type GridName, NAMES_RESOURCE } from "./names/read";

type Matrix<T> = Readonly<Record<number, Nullable<Readonly<Record<number, Nullable<T>>>>>>;

export interface GridSheetState {
  readonly id: string;
  readonly name: string;
  readonly sheet: Partial<IWorksheetData>;
  /** By the cell of each formula that spills: the block that it fills. */
  readonly spills: Matrix<IRange>;
  /** What is spilled into cells. */
  readonly spilled: Matrix<ICellData>;
  readonly tables: readonly ITableJson[];
  readonly rules: readonly IConditionFormattingRule[];
  readonly validations: readonly ISheetDataValidationRule[];
}

export interface GridState {
  /** In the order of their tabs. */
  readonly sheets: readonly GridSheetState[];
  readonly styles: Readonly<Record<string, Nullable<IStyleData>>>;
  readonly names: Readonly<Record<string, GridName>>;
  /** The id of the sheet in sight; left out where nobody looks at one. */
  readonly inSight?: string;
}

/** @throws Error where no workbook is open */
export function gridState(api: FUniver, injector: Injector): GridState {
  const workbook = api.getActiveWorkbook();
  if (workbook === null) throw new Error("There is no open workbook.");
  const state = stateOf(workbook.save(), workedOut(workbook.getId(), injector));
  return { ...state, inSight: workbook.getActiveSheet().getSheetId() };
}

/** The same as it lies in the grid, without rules and the like: to be read at once, not to be kept. */
export function formulasNow(api: FUniver, injector: Injector): GridState {
  const workbook = api.getActiveWorkbook();
  if (workbook === null) throw new Error("There is no open workbook.");
  return stateOf({ ...workbook.getWorkbook().getSnapshot(), resources: [] }, workedOut(workbook.getId(), injector));
}

function workedOut(unitId: string, injector: Injector): Worked {
  const model = injector.get(FormulaDataModel);
  return {
    spills: (sheetId) => (model.getArrayFormulaRange()[unitId]?.[sheetId] ?? {}) as Matrix<IRange>,
    spilled: (sheetId) => (model.getArrayFormulaCellData()[unitId]?.[sheetId] ?? {}) as Matrix<ICellData>,
  };
}

interface Worked {
  readonly spills: (sheetId: string) => Matrix<IRange>;
  readonly spilled: (sheetId: string) => Matrix<ICellData>;
}

const nothingWorked: Worked = { spills: () => ({}), spilled: () => ({}) };

/** The same from a workbook in the grid's own form, with what its formulas spill. */
export function stateOf(workbook: IWorkbookData, worked: Worked = nothingWorked): GridState {
  const resource = (name: string): Record<string, unknown> => {
    const data = workbook.resources?.find((candidate) => candidate.name === name)?.data;
    return data === undefined || data === "" ? {} : (JSON.parse(data) as Record<string, unknown>);
  };
  const tables = resource(resourceNames.tables) as Record<string, { tables?: ITableJson[] } | undefined>;
  const rules = resource(resourceNames.rules) as Record<string, IConditionFormattingRule[] | undefined>;
  const validations = resource(resourceNames.validations) as Record<string, ISheetDataValidationRule[] | undefined>;
  return {
    sheets: workbook.sheetOrder.flatMap((id): GridSheetState[] => {
      const sheet = workbook.sheets[id];
      if (sheet === undefined) return [];
      return [
        {
          id,
          name: sheet.name ?? "",
          sheet,
          spills: worked.spills(id),
          spilled: worked.spilled(id),
          tables: tables[id]?.tables ?? [],
          rules: rules[id] ?? [],
          validations: validations[id] ?? [],
        },
      ];
    }),
    styles: workbook.styles,
    names: resource(NAMES_RESOURCE) as Record<string, GridName>,
  };
}

/** Every cell of a sheet that is there, row by row. */
export function forEachCell<T>(
  matrix: Matrix<T> | undefined,
  visit: (row: number, column: number, cell: T) => void,
): void {
  for (const [row, line] of Object.entries(matrix ?? {})) {
    for (const [column, cell] of Object.entries(line ?? {}) as [string, Nullable<T>][]) {
      if (cell) visit(Number(row), Number(column), cell);
    }
  }
}
