/** The workbook of the try-out page, in an open-source grid with the built functions under it, and the bar above it. */
import { IFunctionService } from "@univerjs/engine-formula";

import { CalmChanges } from "../taskpane/host/calm-changes";
import type { WorkbookHost } from "../taskpane/host/host";
import { cellAddress } from "./addresses";
import { loadBuiltFunctions, readBytes } from "../grid/engine/built-functions";
import { cellNotes } from "./cell-notes";
import type { EmptyCells } from "../grid/engine/custom-functions";
import { onChange } from "./files/changes";
import type { KeptWorkbook } from "./files/drafts";
import { fileTexts } from "./files/file-texts";
import { lastWorkbook } from "./files/kept-workbook";
import { openKept, PageFiles } from "./files/page-files";
import type { Place } from "./files/place";
import { WorkbookFile } from "../grid/file/workbook-file";
import type { GridState } from "../grid/calculation-state";
import { type Grid, goTo, openGrid, valueAt } from "../grid/grid";
import { spillNotice } from "./overwritten-spills";
import type {} from "./page-window";
import { printSheets } from "./print-sheet";
import { byId, showState } from "./page-state";
import { gridHost } from "../grid/adapter/grid-host";
import { rowsBelowNotice } from "./rows-below-notice";
import { sheetAndPane } from "./sheet-and-pane";
import { cellOnPage } from "../grid/adapter/sheet-charts";
import { orderTabStops } from "./tab-stops";
import { FONT_NAME } from "../workbook/plan/looks";

/** Opens the workbook that was open here last, or else the sample, and answers it, as the pane asks for it. */
export async function openWorkbook(sample: string): Promise<WorkbookHost> {
  const [functions, kept] = await Promise.all([loadBuiltFunctions(), lastWorkbook()]);
  const options = { ownFunctions: functions.metadata.functions.map(({ id }) => id) };
  const fonts = sheetFonts();
  const { file, snapshot, own, trouble } = await openLast(kept, sample, options);
  await fonts;
  let emptyCells: EmptyCells = new URLSearchParams(location.search).get("empty") === "null" ? "null" : "zero";
  const changes = new CalmChanges({ calm: () => files.calm() });
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
        overwritten.refresh();
        grid.charts.refresh();
      }
      tellFiles(state);
      showState(state);
      // Also after another workbook has taken the place of the one before.
      if (state === "ready") changes.changed();
    },
    onSelection: () => refresh(),
    tell: (words) => files.tell(words),
  });
  refresh = cellNotes(grid.api, grid.messages).refresh;
  const below = rowsBelowNotice(grid.api, grid.injector);
  const overwritten = spillNotice(grid.api, grid.injector);
  followSwitch(emptyCells, (chosen) => {
    emptyCells = chosen;
    grid.calculate();
  });
  const files = new PageFiles({
    grid,
    file,
    options: { ...options, knownFunctions: knownFunctions(grid) },
    ...(own === undefined ? {} : { own }),
    sample: { name: sample, bytes: () => readBytes(sample) },
  });
  if (trouble !== undefined) files.tell(trouble);
  tellFiles = (state) => files.stateIs(state);
  // Never half an answer on paper.
  const print = (sheets?: readonly string[]): Promise<void> => files.calm().then(() => printSheets(grid, sheets));
  byId("print-sheet").addEventListener("click", () => void print());
  const { showSheet } = sheetAndPane();
  orderTabStops();
  offerReading(grid);
  onChange(grid.api, () => changes.changed());
  grid.api.addEvent(grid.api.Event.ActiveSheetChanged, () => changes.changed());
  opened = true;
  grid.calculate();
  return gridHost({
    ...grid,
    show: (cell) => {
      showSheet();
      goTo(grid.api, cell);
    },
    prepareSheets: (plan) => files.prepareSheets(plan),
    printSheets: print,
    whenChanged: (listener) => changes.add(listener),
  });
}

/**
 * The grid draws on a canvas, which asks for a font with its first word and does not draw that word anew when the font has
 * come. Without the font the sheets stand in another one.
 */
async function sheetFonts(): Promise<void> {
  const looks = ["", "bold ", "italic ", "italic bold "].map((look) => `${look}11pt ${FONT_NAME}`);
  await Promise.allSettled(looks.map((look) => document.fonts.load(look)));
}

interface FirstWorkbook extends ReturnType<typeof WorkbookFile.open> {
  readonly own?: { readonly id: string; readonly isChanged: boolean; readonly place?: Place };
  readonly trouble?: string;
}

async function openLast(
  kept: KeptWorkbook | undefined,
  sample: string,
  options: Parameters<typeof WorkbookFile.open>[2],
): Promise<FirstWorkbook> {
  let trouble: string | undefined;
  if (kept !== undefined) {
    const { id, name, isChanged = true, place } = kept.draft;
    try {
      return { ...openKept(kept, options), own: { id, isChanged, ...(place === undefined ? {} : { place }) } };
    } catch (cause) {
      trouble = fileTexts.notResumed(name, cause instanceof Error ? cause.message : String(cause));
    }
  }
  const opened = WorkbookFile.open(sample, await readBytes(sample), options);
  return trouble === undefined ? opened : { ...opened, trouble };
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

function offerReading({ api, injector, notMended }: Grid): void {
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
    notMended,
  };
}
