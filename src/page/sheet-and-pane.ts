/**
 * The sheet and the pane beside it: a button hides the pane, and F6 goes from the one to the other. On a phone there is room
 * for one of them, the pane at first; the same button brings the other.
 */
import { focusGrid } from "../grid/grid";
import { byId } from "./page-state";

/** As in the page's styles: from here on both have room. */
const ROOM_FOR_ONE = "(max-width: 760px)";

const words = {
  beside: { shown: "Hide the pane", hidden: "Show the pane" },
  inPlace: { shown: "Show the sheet", hidden: "Back to the pane" },
} as const;

interface SheetAndPane {
  /** Brings the sheet into sight, where the pane stands in its place. */
  showSheet(): void;
}

export function sheetAndPane(): SheetAndPane {
  const button = byId("toggle-pane");
  const pane = byId("pane");
  const roomForOne = window.matchMedia(ROOM_FOR_ONE);
  const isHidden = (): boolean => document.body.dataset["pane"] === "hidden";
  const tell = (): void => {
    button.setAttribute("aria-expanded", String(!isHidden()));
    button.textContent = words[roomForOne.matches ? "inPlace" : "beside"][isHidden() ? "hidden" : "shown"];
  };
  const hide = (hidden: boolean): void => {
    document.body.dataset["pane"] = hidden ? "hidden" : "shown";
    tell();
    // The grid fits itself to the window when it is told that the window's size has changed.
    window.dispatchEvent(new Event("resize"));
  };
  button.addEventListener("click", () => hide(!isHidden()));
  roomForOne.addEventListener("change", tell);
  tell();

  // Back to where one was: to the field that wants the cells which have just been selected.
  let last: HTMLElement | null = null;
  pane.addEventListener("focusin", ({ target }) => {
    if (target instanceof HTMLElement) last = target;
  });
  const toPane = (): void => {
    const there = last?.checkVisibility() === true ? last : null;
    (there ?? pane.querySelector<HTMLElement>('[role="tab"][aria-selected="true"]'))?.focus();
  };
  // Inside the sheet Tab goes from cell to cell.
  window.addEventListener(
    "keydown",
    (event) => {
      if (event.key !== "F6" || (isHidden() && !roomForOne.matches)) return;
      event.preventDefault();
      event.stopPropagation();
      const isInPane = pane.contains(document.activeElement);
      if (roomForOne.matches) hide(!isHidden());
      if (roomForOne.matches ? isHidden() : isInPane) focusGrid();
      else toPane();
    },
    { capture: true },
  );
  return {
    showSheet: () => {
      if (roomForOne.matches && !isHidden()) hide(true);
    },
  };
}
