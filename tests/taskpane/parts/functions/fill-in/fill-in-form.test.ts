/** @jest-environment jsdom */
import type { FunctionHelp } from "../../../../../src/taskpane/parts/functions/function-help";
import { functionsPartOf } from "../../../../../src/taskpane/parts/functions/functions-part";
import { mountParts } from "../../../../../src/taskpane/frame/pane";
import { texts } from "../../../../../src/taskpane/words/texts";
import { memoryDrafts } from "../../../memory-drafts";
import { memoryHost, type MemoryHost } from "../../../memory-host";

const streak: FunctionHelp = {
  id: "STREAK",
  heading: "Record",
  sentence: "Catches in a row.",
  syntax: "TWIRL.STREAK(marks, [which])",
  parameters: [
    { name: "marks", optional: false, matrix: true, description: "The attempts in order." },
    { name: "which", optional: true, matrix: false, description: "current or best." },
  ],
  answer: "A whole number.",
  example: { formula: '=TWIRL.STREAK("ccd")', shows: "0" },
  errors: "",
  source: "",
};

let root: HTMLElement;
let host: MemoryHost;

beforeEach(async () => {
  root = document.createElement("main");
  document.body.replaceChildren(root);
  host = memoryHost();
  mountParts(root, host, [functionsPartOf([streak])], memoryDrafts());
  named("STREAK").click();
  named(texts.fillInOf("STREAK")).click();
  await settled();
});

const settled = (): Promise<void> => new Promise((resolve) => setTimeout(() => setTimeout(resolve, 5), 5));

function named(name: string): HTMLButtonElement {
  const found = [...root.querySelectorAll("button")].find(
    (each) => (each.getAttribute("aria-label") ?? each.textContent) === name,
  );
  if (!found) throw new Error(`No button ${name}`);
  return found;
}
const input = (key: string): HTMLInputElement => root.querySelector(`#twirl-fill-STREAK-${key}`) as HTMLInputElement;
const said = (): string => root.querySelector(".twirl-fill [role=status]")?.textContent ?? "";
const select = (sheet: string, row: number, column: number, rows = 1, columns = 1): void => {
  host.selected = { sheet, block: { row, column, rows, columns } };
};
const type = (key: string, text: string): void => {
  input(key).value = text;
  input(key).dispatchEvent(new Event("input", { bubbles: true }));
};

test("the first field has the focus, and the cell that was selected is the target", () => {
  expect(document.activeElement).toBe(input("marks"));
  expect(input("target").value).toBe("'Sheet1'!B2");
});

test("cells are taken by button or by Enter in an empty field, and the formula goes where it was to go", async () => {
  select("Practice 2027", 5, 5, 36);
  named(texts.fillInTakeFor("marks")).click();
  await settled();
  expect(input("marks").value).toBe("'Practice 2027'!E5:E40");
  expect(said()).toBe(texts.fillInTaken("marks", "'Practice 2027'!E5:E40"));
  select("Sheet1", 9, 1);
  input("which").dispatchEvent(new KeyboardEvent("keydown", { key: "Enter", cancelable: true, bubbles: true }));
  await settled();
  expect(input("which").value).toBe("'Sheet1'!A9");
  named(texts.fillInInsert).click();
  await settled();
  expect(host.inserted).toEqual(["=TWIRL.STREAK('Practice 2027'!E5:E40,A9)"]);
  expect(said()).toContain("'Sheet1'!B2");
});

test("Enter in a filled field is left to the form", () => {
  type("marks", "ccd");
  const press = new KeyboardEvent("keydown", { key: "Enter", cancelable: true, bubbles: true });
  input("marks").dispatchEvent(press);
  expect(press.defaultPrevented).toBe(false);
});

test("what is wrong is said at its field, which gets the focus; nothing is written", async () => {
  type("which", "A1:B2");
  named(texts.fillInInsert).click();
  await settled();
  expect(host.inserted).toEqual([]);
  expect(document.activeElement).toBe(input("marks"));
  expect(input("marks").getAttribute("aria-invalid")).toBe("true");
  expect(said()).toBe(texts.problemsFound(2));
  type("marks", "ccd");
  expect(input("marks").getAttribute("aria-invalid")).toBeNull();
});

test("a cell that holds something is asked about, and stays as it is unless one says so", async () => {
  host.cells.set("Sheet1 2,2", "mine");
  type("marks", "ccd");
  named(texts.fillInInsert).click();
  await settled();
  expect(host.inserted).toEqual([]);
  expect(said()).toBe(texts.targetOccupied("'Sheet1'!B2"));
  // The careful answer has the focus.
  expect(document.activeElement).toBe(named(texts.targetKeep));
  named(texts.targetKeep).click();
  await settled();
  expect(host.cells.get("Sheet1 2,2")).toBe("mine");
  named(texts.fillInInsert).click();
  await settled();
  named(texts.targetReplace).click();
  await settled();
  expect(host.cells.get("Sheet1 2,2")).toBe('=TWIRL.STREAK("ccd")');
});

test("a selection that cannot be taken says why and changes nothing", async () => {
  host.selection = () => Promise.reject(new Error(texts.selectionNotOne));
  type("marks", "ccd");
  named(texts.fillInTakeFor("marks")).click();
  await settled();
  expect(said()).toBe(texts.selectionNotRead(texts.selectionNotOne));
  expect(input("marks").value).toBe("ccd");
});

test("closing the form brings the list of arguments back, and keeps what was filled in", () => {
  type("marks", "ccd");
  named(texts.fillInOf("STREAK")).click();
  expect(root.querySelector("dl")?.hidden).toBe(false);
  named(texts.fillInOf("STREAK")).click();
  expect(root.querySelector("dl")?.hidden).toBe(true);
  expect(input("marks").value).toBe("ccd");
});
