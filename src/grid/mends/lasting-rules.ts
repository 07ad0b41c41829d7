/**
 * What may be typed into a table's columns stays said of all their rows. The grid has such a rule follow the cells that are cut
 * and pasted elsewhere, so that the row which they have left would take anything; and a row put in just below the
 * headings would have no rule at all, since all of them begin with the row below it.
 */
import { type ICommandInfo, type IMutationInfo, type Injector, type IRange, Rectangle } from "@univerjs/core";
import type { FUniver } from "@univerjs/core/facade";
import {
  AddDataValidationMutation,
  type IUpdateDataValidationMutationParams,
  RemoveDataValidationMutation,
  UpdateDataValidationMutation,
  UpdateRuleType,
} from "@univerjs/data-validation";
import {
  type IInsertRowCommandParams,
  InsertRowCommand,
  MoveRangeCommand,
  SheetInterceptorService,
} from "@univerjs/sheets";
import { SheetDataValidationModel } from "@univerjs/sheets-data-validation";
import { hasMethods, type Mend } from "./mend";

function keepRulesOfTables(api: FUniver, injector: Injector): void {
  const interceptors = injector.get(SheetInterceptorService);
  const model = injector.get(SheetDataValidationModel);

  const tablesOn = (sheetId: string): readonly IRange[] =>
    (api.getActiveWorkbook()?.getSheetBySheetId(sheetId)?.getSubTableInfos() ?? []).map(({ range }) => range);

  const rangesOf = ({ params }: IMutationInfo): readonly IRange[] => {
    const { unitId, subUnitId, ruleId } = params as IUpdateDataValidationMutationParams;
    return model.getRuleById(unitId, subUnitId, ruleId)?.ranges ?? [];
  };

  /** Whether the rule of a change is one of a table's columns. */
  const isOfTable = (change: IMutationInfo): boolean => {
    const tables = tablesOn((change.params as IUpdateDataValidationMutationParams).subUnitId);
    return rangesOf(change).some((range) => tables.some((table) => Rectangle.intersects(table, range)));
  };

  const withoutMoves = (redos: readonly IMutationInfo[], undos: readonly IMutationInfo[]) => {
    const stays = new Set(redos.filter((redo) => isMove(redo) && isOfTable(redo)).map(ruleIdOf));
    const others = (changes: readonly IMutationInfo[]): IMutationInfo[] =>
      changes.filter((change) => !(isMove(change) && stays.has(ruleIdOf(change))));
    return { redos: others(redos), undos: others(undos) };
  };

  /** Rules that began with the row in whose place others are put go on beginning there, where that is below the headings. */
  const reachUp = (redos: readonly IMutationInfo[], { range, subUnitId }: IInsertRowCommandParams): IMutationInfo[] => {
    const { startRow, endRow } = range;
    const first = endRow + 1;
    const below = tablesOn(subUnitId).filter((table) => table.startRow === startRow - 1);
    return redos.map((redo): IMutationInfo => {
      if (below.length === 0 || !isRangeChange(redo)) return redo;
      const began = rangesOf(redo).filter((one) => one.startRow === startRow);
      const params = redo.params as IUpdateDataValidationMutationParams;
      const ranges = (params.payload.payload as IRange[]).map((one): IRange => {
        const isBelow = below.some((table) => one.startColumn <= table.endColumn && one.endColumn >= table.startColumn);
        const beganHere = began.some(({ startColumn }) => startColumn === one.startColumn);
        return one.startRow === first && isBelow && beganHere ? { ...one, startRow } : one;
      });
      return { ...redo, params: { ...params, payload: { type: UpdateRuleType.RANGE, payload: ranges } } };
    });
  };

  const gather = interceptors.onCommandExecute.bind(interceptors);
  interceptors.onCommandExecute = (info: ICommandInfo) => {
    const gathered = gather(info);
    const { redos, undos } = gathered;
    if (info.id === MoveRangeCommand.id) return { ...gathered, ...withoutMoves(redos, undos) };
    if (info.id === InsertRowCommand.id) {
      return { ...gathered, redos: reachUp(redos, info.params as IInsertRowCommandParams) };
    }
    return gathered;
  };
}

function isRangeChange({ id, params }: IMutationInfo): boolean {
  if (id !== UpdateDataValidationMutation.id) return false;
  return (params as IUpdateDataValidationMutationParams).payload.type === UpdateRuleType.RANGE;
}

function isMove(change: IMutationInfo): boolean {
  return (
    isRangeChange(change) || change.id === RemoveDataValidationMutation.id || change.id === AddDataValidationMutation.id
  );
}

function ruleIdOf({ params }: IMutationInfo): string {
  const { ruleId, rule } = params as { readonly ruleId?: string; readonly rule?: { readonly uid: string } };
  return ruleId ?? rule?.uid ?? "";
}

/** For the list of mends. */
export const lastingRules: Mend<"api" | "injector"> = {
  name: "lasting-rules",
  why: "A row of a table would take anything once its cells were cut and pasted elsewhere, or once it was put in below the headings.",
  until: "The grid's rules stay with a table's columns.",
  isNeeded: (injector) =>
    hasMethods(injector.get(SheetInterceptorService), "onCommandExecute") &&
    hasMethods(injector.get(SheetDataValidationModel), "getRuleById"),
  apply: ({ api, injector }) => keepRulesOfTables(api, injector),
};
