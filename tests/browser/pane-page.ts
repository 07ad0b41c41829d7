/**
 * The pane alone on a page, over a workbook in memory. A season called `2099` fails. With `?season` in the address the
 * workbook holds one, with `?pictures` one whose worked-out columns are filled, and with `?occupied` the selected cell is
 * not empty; the rows that are saved can be read from `window.savedRows`, and `window.failing` makes saving
 * fail with these words.
 */
import type { CellValue } from "../../src/taskpane/host/host";
import { mountPane } from "../../src/taskpane/frame/pane";
import { memoryHost } from "../taskpane/memory-host";
import { withAnswers } from "../taskpane/season-with-answers";
import { smallSeason } from "../taskpane/small-season";
import { fakeOwnSheet, messyLog, nothingRepaired } from "../taskpane/parts/own-sheet/own-sheet-fakes";

declare global {
  interface Window {
    savedRows?: () => readonly (readonly CellValue[])[];
    insertedValues?: readonly (string | number)[];
    failing?: string;
  }
}

const asked = new URLSearchParams(location.search);
const season = asked.has("season") || asked.has("pictures");
const whole = memoryHost(season ? [smallSeason()] : []);
if (asked.has("pictures")) withAnswers(whole);
if (asked.has("occupied")) whole.cells.set("Sheet1 2,2", "Double turn");
const host = {
  ...whole,
  addSheets: ((plan, progress) => {
    if (!plan.active.includes("2099")) return whole.addSheets(plan, progress);
    return Promise.reject(new Error("The workbook is read-only."));
  }) satisfies typeof whole.addSheets,
  // The club's own log stands on a sheet beside those of the season.
  namesInUse: (async () => {
    const names = await whole.namesInUse();
    return { ...names, sheets: [messyLog.sheet, ...names.sheets] };
  }) satisfies typeof whole.namesInUse,
  appendRow: ((table, cells) =>
    window.failing === undefined
      ? whole.appendRow(table, cells)
      : Promise.reject(new Error(window.failing))) satisfies typeof whole.appendRow,
  ...fakeOwnSheet(messyLog, { ...nothingRepaired, repaired: 3, protectedSheets: [{ sheet: "Notes", cells: 2 }] }),
};
window.savedRows = () => whole.table("Practice_2027").rows;
window.insertedValues = whole.inserted;

const root = document.getElementById("pane");
if (root) mountPane(root, host);
