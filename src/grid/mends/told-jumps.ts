/**
 * Which entries a cell's menu has hangs on where the cell lies, in a table or beside one; the grid asks that when a cell is
 * chosen by the mouse or the arrows, and not when the page or the name box jumps to it. Pressed there, the menu of the
 * place before came: for a cell of the log the one that moves some cells and leaves the rest of their row where it is.
 */
import type { Injector } from "@univerjs/core";
import { type ISelectionWithStyle, SelectionMoveType, SheetsSelectionsService } from "@univerjs/sheets";
import { hasMethods, type Mend } from "./mend";

const RIGHT_BUTTON = 2;

const places = (selections: readonly ISelectionWithStyle[]): string =>
  JSON.stringify(selections.map(({ range }) => range));

function tellJumps(injector: Injector): void {
  const selections = injector.get(SheetsSelectionsService);
  let told = "";
  selections.selectionMoveEnd$.subscribe((chosen) => (told = places(chosen)));
  window.addEventListener(
    "pointerdown",
    ({ button }) => {
      if (button !== RIGHT_BUTTON) return;
      const chosen = selections.getCurrentSelections();
      // Told anew only where it was not: what is being typed into that very cell goes on.
      if (places(chosen) !== told) selections.setSelections([...chosen], SelectionMoveType.MOVE_END);
    },
    { capture: true },
  );
}

/** For the list of mends. */
export const toldJumps: Mend<"injector"> = {
  name: "told-jumps",
  why: "A cell that the page has jumped to would have the menu of the cell before.",
  until: "The grid asks for its menus' entries when a menu opens, or after every change of the chosen cells.",
  isNeeded: (injector) =>
    hasMethods(injector.get(SheetsSelectionsService), "getCurrentSelections", "setSelections") &&
    "selectionMoveEnd$" in injector.get(SheetsSelectionsService),
  apply: ({ injector }) => tellJumps(injector),
};
