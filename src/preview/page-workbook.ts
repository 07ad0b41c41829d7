/** The workbook of the try-out page, in an open-source grid with the built functions under it, and the bar above it. */
import { IFunctionService } from "@univerjs/engine-formula";

import type { WorkbookHost } from "../taskpane/host";
import { cellAddress } from "./addresses";
import { loadBuiltFunctions, readBytes } from "./built-functions";
import { cellNotes } from "./cell-notes";
import type { EmptyCells } from "./custom-functions";
import { PageFiles } from "./files/page/page-files";
import { WorkbookFile } from "./files/workbook-file";
import { focusGrid, type Grid, type GridState, goTo, openGrid, valueAt } from "./grid";
import type {} from "./page-window";
import { printSheet } from "./print-sheet";
import { byId, showState } from "./page-state";
import { previewHost } from "./preview-host";
import { rowsBelowNotice } from "./rows-below-notice";
import { cellOnPage } from "./sheet-charts";

/** Opens a workbook and answers it, as the pane asks for it. */
export async function openWorkbook(name: string): Promise<WorkbookHost> {
  const [functions, season] = await Promise.all([loadBuiltFunctions(), readBytes(name)]);
  const options = { ownFunctions: functions.metadata.functions.map(({ id }) => id) };
  const { file, snapshot } = WorkbookFile.open(name, season, options);
  let emptyCells: EmptyCells = new URLSearchParams(location.search).get("empty") === "null" ? "null" : "zero";
  let opened = false;
  let refresh = (): void => undefined;
  let tellFiles: (state: GridState) => void = () => undefined;
  const grid = await openGrid({
    container: "grid",
    snapshot,
    functions,
    emptyCells: () => emptyCells,
    refused: byId("refused"),
    onState: (state) => {
      // While it opens, the grid works out this and that on its own, before all is in place.
      if (!opened) return;
      // The state is told last: whoever waits for it finds everything else up to date.
      if (state === "ready") {
        refresh();
        below.refresh();
        grid.charts.refresh();
      }
      tellFiles(state);
      showState(state);
    },
    onSelection: () => refresh(),
    tell: (words) => files.tell(words),
  });
  refresh = cellNotes(grid.api, grid.messages).refresh;
  const below = rowsBelowNotice(grid.api, grid.injector);
  followSwitch(emptyCells, (chosen) => {
    emptyCells = chosen;
    grid.calculate();
  });
  const files = new PageFiles({ grid, file, options: { ...options, knownFunctions: knownFunctions(grid) } });
  tellFiles = (state) => files.stateIs(state);
  byId("print-sheet").addEventListener("click", () => printSheet(grid));
  collapsiblePane();
  moveByKey();
  offerReading(grid);
  opened = true;
  grid.calculate();
  return previewHost({
    ...grid,
    show: (cell) => goTo(grid.api, cell),
    prepareSheets: (plan) => files.prepareSheets(plan),
  });
}

/** What the grid's engine works out, our own functions among it. */
function knownFunctions({ injector }: Grid): ReadonlySet<string> {
  return new Set([...injector.get(IFunctionService).getExecutors().keys()].map((name) => String(name).toUpperCase()));
}

/** The switch for what an empty cell is; the choice also stands in the page's address. */
function followSwitch(current: EmptyCells, choose: (chosen: EmptyCells) => void): void {
  for (const input of document.querySelectorAll<HTMLInputElement>('input[name="empty"]')) {
    input.checked = input.value === current;
    input.addEventListener("change", () => {
      const chosen: EmptyCells = input.value === "null" ? "null" : "zero";
      const address = new URL(location.href);
      address.searchParams.set("empty", chosen);
      history.replaceState(null, "", address);
      choose(chosen);
    });
  }
}

function collapsiblePane(): void {
  const button = byId("toggle-pane");
  button.addEventListener("click", () => {
    const hide = document.body.dataset["pane"] !== "hidden";
    document.body.dataset["pane"] = hide ? "hidden" : "shown";
    button.setAttribute("aria-expanded", String(!hide));
    button.textContent = hide ? "Show the pane" : "Hide the pane";
    // The grid fits itself to the window when it is told that the window's size has changed.
    window.dispatchEvent(new Event("resize"));
  });
}

/** F6 goes from the sheet to the pane and back: inside the sheet Tab goes from cell to cell. */
function moveByKey(): void {
  const pane = byId("pane");
  // Back to where one was: to the field that wants the cells which have just been selected.
  let last: HTMLElement | null = null;
  pane.addEventListener("focusin", ({ target }) => {
    if (target instanceof HTMLElement) last = target;
  });
  window.addEventListener(
    "keydown",
    (event) => {
      if (event.key !== "F6" || document.body.dataset["pane"] === "hidden") return;
      event.preventDefault();
      event.stopPropagation();
      if (pane.contains(document.activeElement)) {
        focusGrid();
      } else {
        const there = last?.checkVisibility() === true ? last : null;
        (there ?? pane.querySelector<HTMLElement>('[role="tab"][aria-selected="true"]'))?.focus();
      }
    },
    { capture: true },
  );
}

function offerReading({ api, injector }: Grid): void {
  const cell = (sheetName: string, address: string): Parameters<typeof goTo>[1] => {
    const sheet = api.getActiveWorkbook()?.getSheetByName(sheetName);
    if (!sheet) throw new Error(`There is no sheet ${sheetName}.`);
    return { sheetId: sheet.getSheetId(), ...cellAddress(address) };
  };
  window.tryOutPage = {
    read: (sheetName, address) => valueAt(api, cell(sheetName, address)),
    write: (sheetName, address, value) => {
      const { row, column } = cellAddress(address);
      api.getActiveWorkbook()?.getSheetByName(sheetName)?.getRange(row, column).setValue(value);
    },
    goTo: (sheetName, address) => goTo(api, cell(sheetName, address)),
    place: (address) => {
      const { row, column } = cellAddress(address);
      return cellOnPage(api, injector, row, column);
    },
    sheetNames: () =>
      api
        .getActiveWorkbook()
        ?.getSheets()
        .map((sheet) => sheet.getSheetName()) ?? [],
  };
}
