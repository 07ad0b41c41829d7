/** Whether what is shown is up to date: from an edit on, until the answers that it brings about stand in their cells. */
import { ICommandService, type Injector } from "@univerjs/core";
import {
  FormulaExecutedStateType,
  IActiveDirtyManagerService,
  type ISetFormulaCalculationNotificationMutation,
  SetFormulaCalculationNotificationMutation,
  SetFormulaCalculationStartMutation,
  SetFormulaCalculationStopMutation,
} from "@univerjs/engine-formula";
import {
  ClearSelectionFormatCommand,
  type ISetRangeValuesMutationParams,
  SetBorderCommand,
  SetRangeValuesMutation,
  SetStyleCommand,
} from "@univerjs/sheets";
import { calculationsDue } from "../mends/one-calculation";
import type { MessageBook } from "./messages";

export type GridState = "calculating" | "ready";

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
  /** Edits, and calculations that began. */
  let change = 0;
  /** Whether edits are being gathered that no calculation has been told of. */
  let isGathering = false;
  /** Whether one is being stopped, to begin again with what was gathered until then. */
  let isStopping = false;
  const busy = (): void => {
    change += 1;
    onState("calculating");
  };
  injector.get(ICommandService).onCommandExecuted(({ id, params }, options) => {
    switch (id) {
      case SetFormulaCalculationStopMutation.id:
        isStopping = true;
        isGathering = false;
        return;
      case SetFormulaCalculationStartMutation.id:
        if (!isStopping) isGathering = false;
        isStopping = false;
        messages.beginRun();
        busy();
        return;
      case SetFormulaCalculationNotificationMutation.id: {
        const end = (params as ISetFormulaCalculationNotificationMutation).functionsExecutedState;
        // A calculation that is stopped makes room for another, which knows of the latest edit.
        if (end === undefined || end === FormulaExecutedStateType.STOP_EXECUTION) return;
        const ended = change;
        // A turn later: the end is told before the last answers stand in their cells.
        setTimeout(() => {
          if (change === ended && !isGathering && calculationsDue(injector) === 0) onState("ready");
        });
        return;
      }
      default:
        if (dirty.get(id) === undefined || !isGathered(id, params, options?.onlyLocal === true)) return;
        isGathering = true;
        busy();
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
