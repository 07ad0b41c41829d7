/** @jest-environment jsdom */
import { combobox, type Combobox } from "../../../src/taskpane/ui/combobox";
import { texts } from "../../../src/taskpane/words/texts";

let box: Combobox;
let chosen: string[];

beforeEach(() => {
  // The document of the tests lays nothing out and cannot scroll.
  Element.prototype.scrollIntoView = () => undefined;
  chosen = [];
  box = combobox({ id: "athlete", label: "Athlete", chosen: (value) => chosen.push(value) });
  box.setOptions(["M.K.", "A.R.", "J.T.", "Anna M."]);
  document.body.replaceChildren(box.block, document.createElement("button"));
});

const list = (): HTMLElement => document.getElementById("athlete-list") as HTMLElement;
const shown = (): string[] => (list().hidden ? [] : [...list().children].map((option) => option.textContent ?? ""));

function press(key: string, more: KeyboardEventInit = {}): KeyboardEvent {
  const event = new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true, ...more });
  box.input.dispatchEvent(event);
  return event;
}

function type(text: string): void {
  box.input.focus();
  box.input.value = text;
  box.input.dispatchEvent(new Event("input", { bubbles: true }));
}

const active = (): string | null =>
  document.getElementById(box.input.getAttribute("aria-activedescendant") ?? "")?.textContent ?? null;

test("is a combobox with its own list, by the names that assistive technology looks for", () => {
  expect(box.input.getAttribute("role")).toBe("combobox");
  expect(box.input.getAttribute("aria-controls")).toBe(list().id);
  expect(list().getAttribute("role")).toBe("listbox");
  expect(box.input.getAttribute("aria-expanded")).toBe("false");
  expect(document.querySelector("label")?.getAttribute("for")).toBe(box.input.id);
});

test("shows the whole list when it is pressed, whatever stands in it", () => {
  box.setValue("A.R.");
  box.input.click();
  expect(shown()).toEqual(["M.K.", "A.R.", "J.T.", "Anna M."]);
  expect(box.input.getAttribute("aria-expanded")).toBe("true");
  expect(active()).toBe("A.R.");
});

test.each([
  { typed: "a", found: ["A.R.", "Anna M."] },
  { typed: "mk", found: ["M.K."] },
  { typed: "ann m", found: ["Anna M."] },
  { typed: "m ann", found: ["Anna M."] },
  { typed: "x", found: [] },
  { typed: "(", found: [] },
  { typed: "", found: ["M.K.", "A.R.", "J.T.", "Anna M."] },
])("typing “$typed” leaves $found, and tells how many", ({ typed, found }) => {
  type(typed);
  expect(shown()).toEqual(found);
  expect(document.querySelector('[role="status"]')?.textContent).toBe(texts.optionsFound(found.length));
  expect(box.input.getAttribute("aria-expanded")).toBe(found.length > 0 ? "true" : "false");
});

test("a name that is typed out in full needs no list", () => {
  type("J.T");
  expect(shown()).toEqual(["J.T."]);
  type("J.T.");
  expect(shown()).toEqual([]);
});

test("the arrows go through the list and round, Enter picks, and the list closes", () => {
  type("a");
  press("ArrowDown");
  expect(active()).toBe("A.R.");
  press("ArrowDown");
  press("ArrowDown");
  expect(active()).toBe("A.R.");
  press("ArrowUp");
  expect(active()).toBe("Anna M.");
  expect(list().querySelectorAll('[aria-selected="true"]')).toHaveLength(1);
  expect(press("Enter").defaultPrevented).toBe(true);
  expect([box.input.value, chosen, shown()]).toEqual(["Anna M.", ["Anna M."], []]);
  expect(box.input.hasAttribute("aria-activedescendant")).toBe(false);
});

test("the arrow up opens at the end, and with Alt the arrow down opens without choosing", () => {
  box.input.focus();
  press("ArrowUp");
  expect(active()).toBe("Anna M.");
  press("Escape");
  press("ArrowDown", { altKey: true });
  expect([shown().length, active()]).toEqual([4, null]);
});

test("Enter takes the only one that is left", () => {
  type("j");
  press("Enter");
  expect(chosen).toEqual(["J.T."]);
});

test("Escape brings back what stood there, and is left to others when there is nothing to bring back", () => {
  box.setValue("M.K.");
  type("zz");
  expect(press("Escape").defaultPrevented).toBe(true);
  expect([box.input.value, chosen]).toEqual(["M.K.", []]);
  expect(press("Escape").defaultPrevented).toBe(false);
});

test("a press in the list picks, and the field keeps the focus", () => {
  box.input.focus();
  box.input.click();
  const option = list().children[2] as HTMLElement;
  const down = new MouseEvent("mousedown", { bubbles: true, cancelable: true });
  option.dispatchEvent(down);
  expect(down.defaultPrevented).toBe(true);
  option.click();
  expect([box.input.value, chosen, document.activeElement]).toEqual(["J.T.", ["J.T."], box.input]);
});

test("what was typed is told when the field is left, once, and in whatever spelling", () => {
  type("  Nobody ");
  document.querySelector("button")?.focus();
  expect([box.input.value, chosen, shown()]).toEqual(["Nobody", ["Nobody"], []]);
  box.input.focus();
  document.querySelector("button")?.focus();
  expect(chosen).toEqual(["Nobody"]);
});

test("a value from elsewhere does not disturb who is typing", () => {
  type("an");
  box.setValue("J.T.");
  expect(box.input.value).toBe("an");
  press("Escape");
  expect(box.input.value).toBe("J.T.");
});

test("a problem stands at the field and is tied to it", () => {
  box.setProblem("Choose an athlete.");
  expect(box.input.getAttribute("aria-invalid")).toBe("true");
  const tied = document.getElementById(box.input.getAttribute("aria-describedby") ?? "");
  expect(tied?.textContent).toBe("Choose an athlete.");
  box.setProblem(null);
  expect(box.input.hasAttribute("aria-invalid")).toBe(false);
  expect(box.input.hasAttribute("aria-describedby")).toBe(false);
});
