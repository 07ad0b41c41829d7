/**
 * What is being typed into a cell stays, whatever else happens in the workbook meanwhile. The grid has one editor for all
 * cells and fills it with what its cell holds as soon as a cell at this row and column is written, on whichever sheet and by
 * whomever: an answer worked out on the board at C7, or the look that a growing table gives to the new row, would wipe the
 * first letters that have been typed into C7 of the log.
 */
import type { Injector } from "@univerjs/core";
import { EditingRenderController, IEditorBridgeService } from "@univerjs/sheets-ui";
import { hasMethods, type Mend } from "./mend";

/** The workbook whose cell is edited, by its id, or nothing: what is typed is put into a cell only where this is known. */
const EDITED = "_editingUnit";

/** Has the editor left alone as long as somebody types in it. */
function keepTyping(injector: Injector): void {
  const bridge = injector.get(IEditorBridgeService);
  const isTyping = (): boolean => bridge.isVisible().visible;

  const refresh = bridge.refreshEditCellState.bind(bridge);
  // Once the editor is closed the cell is read anew before anybody can open it again.
  bridge.refreshEditCellState = () => {
    if (!isTyping()) refresh();
  };

  // The grid forgets which workbook is edited a moment after it has closed the editor. Where it is open again by then, what
  // is typed next would never be put into its cell.
  const editing = injector.get(EditingRenderController) as unknown as Record<typeof EDITED, unknown>;
  let edited = editing[EDITED];
  Object.defineProperty(editing, EDITED, {
    get: () => edited,
    set: (unitId: unknown) => {
      if (unitId !== "" || !isTyping()) edited = unitId;
    },
  });
}

/** For the list of mends. */
export const keptTyping: Mend<"injector"> = {
  name: "kept-typing",
  why: "What is being typed would be wiped by a write elsewhere.",
  until: "The grid leaves its editor alone while somebody types in it.",
  isNeeded: (injector) =>
    hasMethods(injector.get(IEditorBridgeService), "refreshEditCellState", "isVisible") &&
    EDITED in injector.get(EditingRenderController),
  apply: ({ injector }) => keepTyping(injector),
};
