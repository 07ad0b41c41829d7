/**
 * "Insert row above" and "Delete row" in the menu that the right mouse button opens on a cell of a table. The grid hides its
 * own there, since among them are those that move some cells and leave the rest of their row where it is; what it means
 * to offer in their place it never shows.
 */
import { CommandType, ICommandService, type Injector } from "@univerjs/core";
import type { FUniver } from "@univerjs/core/facade";
import { InsertRowBeforeCommand, SheetsSelectionsService } from "@univerjs/sheets";
import { RemoveRowConfirmCommand } from "@univerjs/sheets-ui";
import { ContextMenuGroup, ContextMenuPosition, IMenuManagerService, MenuItemType } from "@univerjs/ui";
import { map } from "rxjs";
import { hasMethods, type Mend } from "./mend";

const INSERT = "twirl-ledger.command.insert-row-above";
const REMOVE = "twirl-ledger.command.delete-row";

function offerRows(api: FUniver, injector: Injector): void {
  const commands = injector.get(ICommandService);
  const selections = injector.get(SheetsSelectionsService);
  const chosen = () => selections.getCurrentLastSelection()?.range;
  commands.registerCommand({
    id: INSERT,
    type: CommandType.COMMAND,
    // As many as are chosen, as a spreadsheet program has it.
    handler: () => {
      const range = chosen();
      const value = range ? range.endRow - range.startRow + 1 : 1;
      return commands.executeCommand(InsertRowBeforeCommand.id, { value });
    },
  });
  commands.registerCommand({
    id: REMOVE,
    type: CommandType.COMMAND,
    handler: () => commands.executeCommand(RemoveRowConfirmCommand.id, { range: chosen() }),
  });

  const isInTable = (): boolean => {
    const range = chosen();
    const tables = api.getActiveWorkbook()?.getActiveSheet().getSubTableInfos() ?? [];
    return tables.some(
      ({ range: table }) =>
        range !== undefined &&
        range.startRow > table.startRow &&
        range.startRow <= table.endRow &&
        range.startColumn >= table.startColumn &&
        range.startColumn <= table.endColumn,
    );
  };
  const item = (id: string, title: string, icon: string) => ({
    id,
    title,
    icon,
    type: MenuItemType.BUTTON as const,
    hidden$: selections.selectionMoveEnd$.pipe(map(() => !isInTable())),
  });
  injector.get(IMenuManagerService).mergeMenu({
    [ContextMenuPosition.MAIN_AREA]: {
      [ContextMenuGroup.LAYOUT]: {
        [INSERT]: {
          order: 0,
          menuItemFactory: () => item(INSERT, "twirl-ledger.insert-row-above", "InsertRowAboveDoubleIcon"),
        },
        [REMOVE]: { order: 1, menuItemFactory: () => item(REMOVE, "twirl-ledger.delete-row", "DeleteRowDoubleIcon") },
      },
    },
  });
}

/** For the list of mends. */
export const rowMenus: Mend<"api" | "injector"> = {
  name: "row-menus",
  why: "A cell's menu would offer no row to be put into a table or taken out of it.",
  until: "The grid shows what it means to offer on the cells of a table.",
  isNeeded: (injector) =>
    hasMethods(injector.get(IMenuManagerService), "mergeMenu") &&
    hasMethods(injector.get(ICommandService), "registerCommand"),
  apply: ({ api, injector }) => offerRows(api, injector),
};
