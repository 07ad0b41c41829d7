/** @jest-environment jsdom */
import type { FunctionHelp } from "../../../src/taskpane/parts/functions/function-help";
import { functionsPartOf } from "../../../src/taskpane/parts/functions/functions-part";
import type { WorkbookHost } from "../../../src/taskpane/host/host";
import { usualForm } from "../../../src/taskpane/parts/new-season/new-season-form";
import { newSeasonPart } from "../../../src/taskpane/parts/new-season/new-season-part";
import { mountPane, mountParts } from "../../../src/taskpane/frame/pane";
import { browserDrafts, type Drafts } from "../../../src/taskpane/host/storage";
import { texts } from "../../../src/taskpane/words/texts";
import { sheetNames } from "../../../src/workbook/season/season";
import type { WorkbookPlan } from "../../../src/workbook/plan/schema";
import { memoryDrafts } from "../memory-drafts";
import { memoryHost, type MemoryHost } from "../memory-host";

const help: readonly FunctionHelp[] = [
  {
    id: "STREAK",
    heading: "Record",
    sentence: "Catches in a row.",
    syntax: "TWIRL.STREAK(marks, [which])",
    parameters: [
      { name: "marks", optional: false, matrix: true, description: "The attempts <b>in order</b>." },
      { name: "which", optional: true, matrix: false, description: "current or best." },
    ],
    answer: "A whole number.",
    example: { formula: '=TWIRL.STREAK("ccd")', shows: "0" },
    errors: "#VALUE! for an unknown mark.",
    source: "Counting.",
  },
  {
    id: "AIRTIME",
    heading: "The toss",
    sentence: "Seconds in the air.",
    syntax: "TWIRL.AIRTIME(rise)",
    parameters: [{ name: "rise", optional: false, matrix: false, description: "In metres." }],
    answer: "Seconds.",
    example: { formula: "=TWIRL.AIRTIME(3)", shows: "1.56" },
    errors: "#VALUE! for a negative rise.",
    source: "Free fall.",
  },
];

const hostWith = (changes: Partial<WorkbookHost> = {}): MemoryHost => memoryHost([], changes);

let root: HTMLElement;

beforeEach(() => {
  // The document of the tests lays nothing out and cannot scroll.
  Element.prototype.scrollIntoView = () => undefined;
  window.localStorage.clear();
  root = document.createElement("main");
  document.body.replaceChildren(root);
});

function mount(host: WorkbookHost, drafts: Drafts = memoryDrafts()): void {
  mountParts(root, host, [newSeasonPart, functionsPartOf(help)], drafts);
}

/** Twice: on a busy machine what is begun in a later turn would else come after the wait for it. */
const settled = (): Promise<void> => new Promise((resolve) => setTimeout(() => setTimeout(resolve, 5), 5));

const one = <Found extends HTMLElement>(selector: string, within: ParentNode = root): Found => {
  const found = within.querySelectorAll<Found>(selector);
  expect([selector, found.length]).toEqual([selector, 1]);
  return found[0] as Found;
};

const tab = (name: string): HTMLElement => {
  const found = [...root.querySelectorAll<HTMLElement>('[role="tab"]')].find((each) => each.textContent === name);
  if (!found) throw new Error(`No tab ${name}`);
  return found;
};

/** A control by the words of its label, as a person finds it. */
const control = (label: string): HTMLInputElement => {
  const found = [...root.querySelectorAll("label")].find((each) => each.textContent?.startsWith(label));
  const id = found?.getAttribute("for") ?? "";
  const labelled = document.getElementById(id);
  if (!labelled) throw new Error(`No control ${label}`);
  return labelled as HTMLInputElement;
};

const type = (label: string, text: string): void => {
  const field = control(label);
  field.value = text;
  field.dispatchEvent(new Event("input", { bubbles: true }));
};

const button = (name: string): HTMLButtonElement => {
  const found = [...root.querySelectorAll("button")].find((each) => each.textContent === name);
  if (!found) throw new Error(`No button ${name}`);
  return found;
};

const described = (element: HTMLElement): string =>
  (element.getAttribute("aria-describedby") ?? "")
    .split(" ")
    .map((id) => document.getElementById(id)?.textContent ?? `(nothing called ${id})`)
    .join(" | ");

const spoken = (): string =>
  [...root.querySelectorAll<HTMLElement>('[role="status"]')].map((region) => region.textContent).join("");

function fillIn(): void {
  type(texts.labelLabel, "2027");
  type(texts.athletesLabel, "M.K.\n\nA.R.");
  type(texts.tricksLabel, "Double turn, 4");
}

describe("the parts", () => {
  test("the first is open, and the tabs name what they open", () => {
    mount(hostWith());
    const tabs = [...root.querySelectorAll<HTMLElement>('[role="tablist"] [role="tab"]')];
    expect(tabs.map((each) => each.textContent)).toEqual([texts.newSeasonTitle, texts.functionsTitle]);
    expect(tabs.map((each) => each.getAttribute("aria-selected"))).toEqual(["true", "false"]);
    expect(tabs.map((each) => each.tabIndex)).toEqual([0, -1]);
    for (const each of tabs) {
      const panel = document.getElementById(each.getAttribute("aria-controls") ?? "");
      expect(panel?.getAttribute("role")).toBe("tabpanel");
      expect(panel?.getAttribute("aria-labelledby")).toBe(each.id);
      expect(panel?.hidden).toBe(each.getAttribute("aria-selected") === "false");
    }
  });

  test.each([
    { keys: ["ArrowRight"], open: texts.functionsTitle },
    { keys: ["ArrowRight", "ArrowRight"], open: texts.newSeasonTitle },
    { keys: ["ArrowLeft"], open: texts.functionsTitle },
    { keys: ["End"], open: texts.functionsTitle },
    { keys: ["End", "Home"], open: texts.newSeasonTitle },
    { keys: ["x"], open: texts.newSeasonTitle },
  ])("the keys $keys open $open and move the focus to its tab", ({ keys, open }) => {
    mount(hostWith());
    tab(texts.newSeasonTitle).focus();
    for (const key of keys) {
      document.activeElement?.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true }));
    }
    expect(tab(open).getAttribute("aria-selected")).toBe("true");
    expect(document.activeElement).toBe(tab(open));
  });

  test("the part that was open is open again next time", () => {
    const drafts = memoryDrafts();
    mount(hostWith(), drafts);
    tab(texts.functionsTitle).click();
    mount(hostWith(), drafts);
    expect(tab(texts.functionsTitle).getAttribute("aria-selected")).toBe("true");
  });

  test("every id is there once, and everything named by an id is there", () => {
    mount(hostWith());
    root.querySelectorAll<HTMLButtonElement>("[aria-expanded]").forEach((each) => each.click());
    const ids = [...root.querySelectorAll("[id]")].map(({ id }) => id);
    expect(ids).toEqual([...new Set(ids)]);
    for (const attribute of ["for", "aria-controls", "aria-labelledby", "aria-describedby"]) {
      for (const each of root.querySelectorAll(`[${attribute}]`)) {
        for (const id of (each.getAttribute(attribute) ?? "").split(" ")) expect(ids).toContain(id);
      }
    }
  });

  test("mounting again replaces what was there", () => {
    mount(hostWith());
    mount(hostWith());
    expect(root.querySelectorAll("h1")).toHaveLength(1);
  });
});

describe("New season", () => {
  test.each([false, true])(
    "builds what the form says and tells which sheets are new; with a team: %s",
    async (team) => {
      const host = hostWith();
      mount(host);
      fillIn();
      if (team) root.querySelector<HTMLInputElement>("#twirl-season-exchanges")?.click();
      button(texts.buildSeason).click();
      await settled();
      const { exchanges, team: teamSheet, ...others } = sheetNames("2027");
      const names = [...Object.values(others), ...(team ? [exchanges, teamSheet] : [])];
      expect(host.plans.map(({ sheets }) => sheets.map(({ name }) => name))).toEqual([names]);
      expect([...root.querySelectorAll('[role="status"] li')].map((item) => item.textContent)).toEqual(names);
      expect(spoken()).toContain(texts.seasonBuilt("2027"));
    },
  );

  test("says what it is doing, sheet by sheet, and takes no second order meanwhile", async () => {
    let finish = (): void => undefined;
    const orders: WorkbookPlan[] = [];
    mount(
      hostWith({
        addSheets: (plan, progress) => {
          orders.push(plan);
          progress?.("Season 2027", 1, 4);
          return new Promise((resolve) => (finish = resolve));
        },
      }),
    );
    fillIn();
    button(texts.buildSeason).click();
    await settled();
    expect(spoken()).toContain(texts.buildingSheet("Season 2027", 1, 4));
    expect(button(texts.buildSeason).getAttribute("aria-disabled")).toBe("true");
    button(texts.buildSeason).click();
    button(texts.clearForm).click();
    await settled();
    expect(orders).toHaveLength(1);
    expect(control(texts.labelLabel).value).toBe("2027");
    finish();
    await settled();
    expect(button(texts.buildSeason).hasAttribute("aria-disabled")).toBe(false);
    expect(spoken()).toContain(texts.seasonBuilt("2027"));
  });

  test("a form with mistakes builds nothing; each is told at its field, and the first field has the focus", async () => {
    const host = hostWith();
    mount(host);
    type(texts.tricksLabel, "Double turn, left");
    type(texts.setSizeLabel, "many");
    button(texts.buildSeason).click();
    await settled();
    expect(host.plans).toEqual([]);
    const wrong = [...root.querySelectorAll<HTMLElement>('[aria-invalid="true"]')];
    expect(wrong).toEqual([
      control(texts.labelLabel),
      control(texts.athletesLabel),
      control(texts.tricksLabel),
      control(texts.setSizeLabel),
    ]);
    for (const field of wrong) expect(described(field).split(" | ")[0]).toMatch(/\S+ .*\.$/);
    expect(document.activeElement).toBe(wrong[0]);
    expect(spoken()).toContain(texts.problemsFound(4));
  });

  test("a field that is changed is no longer marked; the others are", async () => {
    mount(hostWith());
    button(texts.buildSeason).click();
    await settled();
    type(texts.labelLabel, "2027");
    expect(control(texts.labelLabel).hasAttribute("aria-invalid")).toBe(false);
    expect(described(control(texts.labelLabel))).toBe(texts.labelHint);
    expect(control(texts.athletesLabel).getAttribute("aria-invalid")).toBe("true");
  });

  test("a label that is in use is refused at its field, before anything is written", async () => {
    const host = hostWith();
    host.sheets.push(sheetNames("2027").practice.toUpperCase());
    mount(host);
    fillIn();
    button(texts.buildSeason).click();
    await settled();
    expect(host.plans).toEqual([]);
    expect(described(control(texts.labelLabel))).toContain(sheetNames("2027").practice);
    expect(document.activeElement).toBe(control(texts.labelLabel));
  });

  test("a failure says what happened, and that nothing was left behind when that was seen", async () => {
    mount(hostWith({ addSheets: () => Promise.reject(new Error("The workbook is read-only")) }));
    fillIn();
    button(texts.buildSeason).click();
    await settled();
    expect(spoken()).toContain(texts.seasonFailed);
    expect(spoken()).toContain("The workbook is read-only.");
    expect(spoken()).toContain(texts.nothingLeftBehind);
    expect(control(texts.labelLabel).value).toBe("2027");
  });

  test("a failure that left a sheet behind names it", async () => {
    const host = hostWith({
      addSheets: () => {
        host.sheets.push("Season 2027");
        return Promise.reject(new Error(""));
      },
    });
    mount(host);
    fillIn();
    button(texts.buildSeason).click();
    await settled();
    expect(spoken()).toContain(texts.unknownCause);
    expect(spoken()).toContain(texts.leftBehind);
    expect([...root.querySelectorAll('[role="status"] li')].map((item) => item.textContent)).toEqual(["Season 2027"]);
    expect(spoken()).not.toContain(texts.nothingLeftBehind);
  });

  test("a failure after which the workbook cannot be read promises nothing", async () => {
    let asked = 0;
    mount(
      hostWith({
        namesInUse: () => {
          asked += 1;
          return asked === 1 ? Promise.resolve({ sheets: [], tables: [] }) : Promise.reject(new Error("Gone"));
        },
        addSheets: () => Promise.reject(new Error("Gone")),
      }),
    );
    fillIn();
    button(texts.buildSeason).click();
    await settled();
    expect(spoken()).toContain(texts.leftBehindUnknown);
    expect(spoken()).not.toContain(texts.nothingLeftBehind);
  });

  test("what was typed survives switching parts and closing the pane, and is forgotten once the season is built", async () => {
    const drafts = memoryDrafts();
    mount(hostWith(), drafts);
    fillIn();
    type(texts.ceilingLabel, "7.5");
    tab(texts.functionsTitle).click();
    tab(texts.newSeasonTitle).click();
    expect(control(texts.ceilingLabel).value).toBe("7.5");

    mount(hostWith(), drafts);
    expect(control(texts.ceilingLabel).value).toBe("7.5");
    expect(control(texts.athletesLabel).value).toBe("M.K.\n\nA.R.");

    button(texts.buildSeason).click();
    await settled();
    mount(hostWith(), drafts);
    expect(control(texts.labelLabel).value).toBe("");
    expect(control(texts.ceilingLabel).value).toBe("");
  });

  test("Clear brings back the usual values and forgets the draft", () => {
    const drafts = memoryDrafts();
    mount(hostWith(), drafts);
    fillIn();
    type(texts.setSizeLabel, "12");
    button(texts.clearForm).click();
    expect(control(texts.setSizeLabel).value).toBe(usualForm.setSize);
    expect(control(texts.labelLabel).value).toBe("");
    expect(drafts.kept.has("new-season")).toBe(false);
  });

  test("a draft that is none is left aside", () => {
    const drafts = memoryDrafts();
    drafts.keep("new-season", { label: ["2027"] });
    mount(hostWith(), drafts);
    expect(control(texts.setSizeLabel).value).toBe(usualForm.setSize);
  });
});

describe("Functions", () => {
  const open = (id: string): HTMLElement => {
    const name = button(id);
    name.click();
    return document.getElementById(name.getAttribute("aria-controls") ?? "") as HTMLElement;
  };

  test("stand under their headings, each with its sentence, and say how many there are", () => {
    mount(hostWith());
    const panel = one("#twirl-panel-functions");
    expect([...panel.querySelectorAll("h3")].map((heading) => heading.textContent)).toEqual(["Record", "The toss"]);
    expect(panel.textContent).toContain("Catches in a row.");
    expect(spoken()).toContain(texts.functionsFound(2));
  });

  test("open and close, with everything about them", () => {
    mount(hostWith());
    const body = open("STREAK");
    expect(body.hidden).toBe(false);
    expect(button("STREAK").getAttribute("aria-expanded")).toBe("true");
    for (const text of [
      "=TWIRL.STREAK(marks, [which])",
      "A whole number.",
      "#VALUE! for an unknown mark.",
      "Counting.",
    ]) {
      expect(body.textContent).toContain(text);
    }
    expect([...body.querySelectorAll("dt")].map((term) => term.textContent)).toEqual([
      `marks (${texts.argumentCells})`,
      `which (${texts.optional})`,
    ]);
    button("STREAK").click();
    expect(body.hidden).toBe(true);
    expect(button("STREAK").getAttribute("aria-expanded")).toBe("false");
  });

  test("text with the signs of markup stays text", () => {
    mount(hostWith());
    const body = open("STREAK");
    expect(body.textContent).toContain("The attempts <b>in order</b>.");
    expect(body.querySelector("b")).toBeNull();
  });

  test("the search leaves what fits, says how many, and says so when nothing does", () => {
    mount(hostWith());
    type(texts.functionsSearch, "air");
    const panel = one("#twirl-panel-functions");
    expect([...panel.querySelectorAll("h4")].map((heading) => heading.textContent)).toEqual(["AIRTIME"]);
    expect(spoken()).toContain(texts.functionsFound(1));
    type(texts.functionsSearch, "nothing like it");
    expect(spoken()).toContain(texts.functionsFound(0));
    expect(panel.textContent).toContain(texts.functionsNone);
  });

  test("Insert puts the example into the selected cell and says where", async () => {
    const host = hostWith();
    mount(host);
    const body = open("AIRTIME");
    one<HTMLButtonElement>(`[aria-label="${texts.functionInsertOf("AIRTIME")}"]`, body).click();
    await settled();
    expect(host.inserted).toEqual(["=TWIRL.AIRTIME(3)"]);
    expect(one('[role="status"]', body).textContent).toBe(texts.functionInserted("=TWIRL.AIRTIME(3)", "Sheet1!B2"));
  });

  test("Insert that is refused says why", async () => {
    mount(hostWith({ insertFormula: () => Promise.reject(new Error(texts.cellNotEmpty("B2"))) }));
    const body = open("AIRTIME");
    one<HTMLButtonElement>(`[aria-label="${texts.functionInsertOf("AIRTIME")}"]`, body).click();
    await settled();
    expect(one('[role="status"]', body).textContent).toBe(texts.functionNotInserted(texts.cellNotEmpty("B2")));
  });
});

describe("drafts", () => {
  test("are kept in the browser under names of our own", async () => {
    mountPane(root, hostWith());
    tab(texts.newSeasonTitle).click();
    await settled();
    type(texts.labelLabel, "2027");
    expect(Object.keys(window.localStorage).filter((key) => !key.startsWith("twirl-ledger."))).toEqual([]);
    mountPane(root, hostWith());
    await settled();
    expect(control(texts.labelLabel).value).toBe("2027");
  });

  test("where storage is forbidden, full or holds nonsense, the pane works and only forgets", () => {
    const forbidden = browserDrafts(() => {
      throw new Error("SecurityError");
    });
    forbidden.keep("x", 1);
    forbidden.forget("x");
    expect(forbidden.read("x")).toBeNull();
    window.localStorage.setItem("twirl-ledger.new-season", "{nonsense");
    expect(browserDrafts().read("new-season")).toBeNull();
    mount(hostWith(), forbidden);
    type(texts.labelLabel, "2027");
    expect(control(texts.labelLabel).value).toBe("2027");
  });
});
