/**
 * Answers go into cells that hold a formula, and into no other. Where something stands in a formula's way the engine writes
 * back what it found there when it began, and empties what it found empty: what has been typed there since, or put back,
 * would be gone, and so would what is typed over a formula while it is worked out.
 */
import {
  type ICellData,
  ICommandService,
  type Injector,
  IUniverInstanceService,
  type Nullable,
  UniverInstanceType,
  type Workbook,
} from "@univerjs/core";
import { type ISetRangeValuesMutationParams, SetRangeValuesMutation } from "@univerjs/sheets";
import { hasMethods, type Mend } from "./mend";

export function answerFormulasOnly(injector: Injector): void {
  const instances = injector.get(IUniverInstanceService);
  injector.get(ICommandService).beforeCommandExecuted(({ id, params }, options) => {
    if (id !== SetRangeValuesMutation.id || options?.["applyFormulaCalculationResult"] !== true) return;
    const { unitId, subUnitId, cellValue } = params as ISetRangeValuesMutationParams;
    const workbook = instances.getUnit<Workbook>(unitId, UniverInstanceType.UNIVER_SHEET);
    const sheet = workbook?.getSheetBySheetId(subUnitId);
    if (!sheet) return;
    for (const [row, answers] of Object.entries(cellValue ?? {})) {
      for (const [column, answer] of Object.entries((answers ?? {}) as Record<string, Nullable<ICellData>>)) {
        const cell = sheet.getCellRaw(Number(row), Number(column));
        const isFormula = Boolean(cell?.f ?? cell?.si);
        if (!isFormula && (holds(cell) || holds(answer))) Reflect.deleteProperty(answers as object, column);
      }
    }
  });
}

function holds(cell: Nullable<ICellData>): boolean {
  return Boolean(cell?.p) || (cell?.v !== undefined && cell.v !== null && cell.v !== "");
}

/** For the list of mends. */
export const answeredCells: Mend<"injector"> = {
  name: "answered-cells",
  why: "What is typed into a cell in a formula's way while it is worked out would be lost.",
  until: "The engine writes its answers into cells with formulas alone.",
  isNeeded: (injector) =>
    hasMethods(injector.get(ICommandService), "beforeCommandExecuted") &&
    hasMethods(injector.get(IUniverInstanceService), "getUnit"),
  apply: ({ injector }) => answerFormulasOnly(injector),
};
