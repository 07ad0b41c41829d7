/** The pane alone on a page, over a workbook that only remembers names. A season called `2099` fails. */
import type { WorkbookHost } from "../../src/taskpane/host";
import { mountPane } from "../../src/taskpane/pane";

const sheets: string[] = ["Sheet1"];

const host: WorkbookHost = {
  namesInUse: () => Promise.resolve({ sheets: [...sheets], tables: [] }),
  addSheets: (plan, progress) => {
    plan.sheets.forEach((sheet, index) => progress?.(sheet.name, index + 1, plan.sheets.length));
    if (plan.active.includes("2099")) return Promise.reject(new Error("The workbook is read-only."));
    sheets.push(...plan.sheets.map(({ name }) => name));
    return Promise.resolve();
  },
  insertFormula: () => Promise.resolve("Sheet1!B2"),
};

const root = document.getElementById("pane");
if (root) mountPane(root, host);
