/**
 * Where the Tab key stops. The grid takes keys through editors that no eye sees, at the end of the page, and through its
 * canvases: a browser's Tab would go from the pane's last button into one of them, and the next letter over a cell. Here
 * Tab goes from the pane to the page's bar instead, and the sheet is a stop that says so and waits for Enter.
 */
import { focusGrid } from "../grid/grid";
import { byId } from "./page-state";

const TABBABLE = "a[href], button, input, select, textarea, summary, [tabindex]";

/** What the grid listens through. Focus is given to it by a click, or by the stop. */
const LISTENERS = '[contenteditable="true"], #grid canvas';

export function orderTabStops(): void {
  const keepOut = (): void => {
    for (const listener of document.querySelectorAll<HTMLElement>(LISTENERS)) {
      // Each workbook brings its own; written only where it differs, since this is told of it.
      if (listener.closest("#pane") === null && listener.tabIndex !== -1) listener.tabIndex = -1;
    }
  };
  keepOut();
  new MutationObserver(keepOut).observe(document.body, {
    subtree: true,
    childList: true,
    attributeFilter: ["tabindex", "contenteditable"],
  });
  byId("to-sheet").addEventListener("click", focusGrid);
  closeTheRound(byId("pane"), byId("open-file"));
}

/** After the pane comes the page's bar, and before the bar the pane: what lies between them is the grid's, and unseen. */
function closeTheRound(pane: HTMLElement, first: HTMLElement): void {
  window.addEventListener(
    "keydown",
    (event) => {
      if (event.key !== "Tab" || event.ctrlKey || event.altKey || event.metaKey) return;
      const last = stopsOf(pane).at(-1);
      const goal = event.shiftKey ? last : first;
      const from = event.shiftKey ? first : last;
      if (goal === undefined || document.activeElement !== from) return;
      event.preventDefault();
      event.stopPropagation();
      goal.focus();
    },
    { capture: true },
  );
}

function stopsOf(part: HTMLElement): HTMLElement[] {
  return [...part.querySelectorAll<HTMLElement>(TABBABLE)].filter(
    (one) => one.tabIndex >= 0 && !one.matches(":disabled") && one.checkVisibility({ visibilityProperty: true }),
  );
}
