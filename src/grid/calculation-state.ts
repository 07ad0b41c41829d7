/** Whether what is shown is up to date: from an edit on, until the answers that it brings about stand in their cells. */
import { ICommandService, type Injector } from "@univerjs/core";
import {
  IActiveDirtyManagerService,
  type ISetFormulaCalculationNotificationMutation,
  SetFormulaCalculationNotificationMutation,
  SetFormulaCalculationStartMutation,
} from "@univerjs/engine-formula";
import {
  ClearSelectionFormatCommand,
  type ISetRangeValuesMutationParams,
  SetBorderCommand,
  SetRangeValuesMutation,
  SetStyleCommand,
} from "@univerjs/sheets";
import { isCalculating, whenCalculated } from "./mends/one-calculation";
import type { MessageBook } from "./engine/messages";

export type GridState = "calculating" | "ready";

/** Longer than the engine gathers edits before it begins. */
const GATHERING_MILLISECONDS = 250;

/**
 * Ready is said when every edit is in an answer: the engine gathers edits for a moment before it begins, and one that comes
 * while it works is in the next calculation, not in the one that ends first.
 */
export function reportStates(
  injector: Injector,
  messages: Pick<MessageBook, "beginRun">,
  onState: (state: GridState) => void,
): void {
  const dirty = injector.get(IActiveDirtyManagerService);
  let state: GridState | undefined;
  const report = (now: GridState): void => {
    if (state === now) return;
    state = now;
    onState(now);
  };
  const settle = (): void => {
    if (!isCalculating(injector)) report("ready");
  };
  whenCalculated(injector, settle);
  injector.get(ICommandService).onCommandExecuted(({ id, params }, options) => {
    if (id === SetFormulaCalculationStartMutation.id) {
      messages.beginRun();
      report("calculating");
    } else if (id === SetFormulaCalculationNotificationMutation.id) {
      const { functionsExecutedState } = params as ISetFormulaCalculationNotificationMutation;
      // A turn later: the end is told before the last answers stand in their cells.
      if (functionsExecutedState !== undefined) setTimeout(settle);
    } else if (dirty.get(id) !== undefined && isGathered(id, params, options?.onlyLocal === true)) {
      report("calculating");
      // Should no calculation come of it.
      setTimeout(settle, GATHERING_MILLISECONDS);
    }
  });
}

/** Whether the engine takes a change for one that answers may follow: what it writes itself is none, nor are mere looks. */
function isGathered(id: string, params: unknown, isOwn: boolean): boolean {
  if (id !== SetRangeValuesMutation.id) return true;
  const { trigger } = params as ISetRangeValuesMutationParams;
  const looks: readonly (string | undefined)[] = [
    SetStyleCommand.id,
    SetBorderCommand.id,
    ClearSelectionFormatCommand.id,
  ];
  return !isOwn && (trigger === undefined || !looks.includes(trigger));
}
