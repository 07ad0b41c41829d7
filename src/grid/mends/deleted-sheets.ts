/**
 * What reads a sheet that is deleted, or that is brought back, is worked out anew. The grid leaves it with its last answers:
 * a board would go on showing a log that is no longer there.
 */
import { ICommandService, type Injector } from "@univerjs/core";
import {
  type IInsertSheetMutationParams,
  InsertSheetMutation,
  type IRemoveSheetMutationParams,
  RemoveSheetMutation,
} from "@univerjs/sheets";
import { hasMethods, type Mend } from "./mend";

export function followDeletedSheets(injector: Injector, calculate: () => void): void {
  const deleted = new Set<string>();
  let isAsked = false;
  // A turn later, when the sheet's tables have gone, or come, too.
  const ask = (): void => {
    if (isAsked) return;
    isAsked = true;
    setTimeout(() => {
      isAsked = false;
      calculate();
    });
  };
  injector.get(ICommandService).onCommandExecuted(({ id, params }) => {
    if (id === RemoveSheetMutation.id) {
      deleted.add((params as IRemoveSheetMutationParams).subUnitId);
      ask();
    } else if (id === InsertSheetMutation.id && deleted.delete((params as IInsertSheetMutationParams).sheet.id)) {
      ask();
    }
  });
}

/** For the list of mends. */
export const deletedSheets: Mend<"injector" | "calculate"> = {
  name: "deleted-sheets",
  why: "After the log's sheet is deleted the board would go on showing what was in it.",
  until: "The grid works out what read a sheet once that is deleted or brought back.",
  isNeeded: (injector) => hasMethods(injector.get(ICommandService), "onCommandExecuted"),
  apply: ({ injector, calculate }) => followDeletedSheets(injector, calculate),
};
