/** The pane alone on a page, over a workbook in memory. A season called `2099` fails. */
import { mountPane } from "../../src/taskpane/pane";
import { memoryHost } from "../taskpane/memory-host";

const whole = memoryHost();
const host = {
  ...whole,
  addSheets: ((plan, progress) => {
    if (!plan.active.includes("2099")) return whole.addSheets(plan, progress);
    return Promise.reject(new Error("The workbook is read-only."));
  }) satisfies typeof whole.addSheets,
};

const root = document.getElementById("pane");
if (root) mountPane(root, host);
