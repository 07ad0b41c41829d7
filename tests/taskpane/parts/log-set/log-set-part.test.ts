/** @jest-environment jsdom */
import { logSetPart } from "../../../../src/taskpane/parts/log-set/log-set-part";
import { newSeasonPart } from "../../../../src/taskpane/parts/new-season/new-season-part";
import { mountParts } from "../../../../src/taskpane/frame/pane";
import type { Drafts } from "../../../../src/taskpane/host/storage";
import { texts } from "../../../../src/taskpane/words/texts";
import { memoryDrafts } from "../../memory-drafts";
import { memoryHost, type MemoryHost } from "../../memory-host";
import { firstDay, practised, smallSeason } from "../../small-season";

let root: HTMLElement;

beforeEach(() => {
  // The document of the tests lays nothing out and cannot scroll.
  Element.prototype.scrollIntoView = () => undefined;
  root = document.createElement("main");
  document.body.replaceChildren(root);
});

/** Twice: on a busy machine what is begun in a later turn would else come after the wait for it. */
const settled = (): Promise<void> => new Promise((resolve) => setTimeout(() => setTimeout(resolve, 5), 5));

async function mount(
  host: MemoryHost = memoryHost([smallSeason()]),
  drafts: Drafts = memoryDrafts(),
): Promise<MemoryHost> {
  mountParts(root, host, [logSetPart, newSeasonPart], drafts);
  await settled();
  return host;
}

const panel = (): HTMLElement => document.getElementById("twirl-panel-log-set") as HTMLElement;
const part = (): HTMLElement => panel().querySelector(".twirl-log") as HTMLElement;

const button = (name: string): HTMLButtonElement => {
  const found = [...panel().querySelectorAll("button")].find((each) => each.textContent?.startsWith(name));
  if (!found) throw new Error(`No button ${name}`);
  return found;
};

const control = <Control extends HTMLElement = HTMLInputElement>(label: string): Control => {
  const found = [...panel().querySelectorAll("label")].find((each) => each.textContent === label);
  return document.getElementById(found?.htmlFor ?? "") as Control;
};

function fill(label: string, text: string): void {
  const field = control(label);
  field.focus();
  field.value = text;
  field.dispatchEvent(new Event("input", { bubbles: true }));
  field.blur();
}

function choose(): void {
  fill(texts.athleteLabel, "M.K.");
  fill(texts.trickLabel, "Double turn");
}

function press(key: string, on: Element = part(), more: KeyboardEventInit = {}): KeyboardEvent {
  const event = new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true, ...more });
  on.dispatchEvent(event);
  return event;
}

const marks = (): string => panel().querySelector(".twirl-marks")?.textContent ?? "";
const judged = (): string => panel().querySelector(".twirl-judged")?.textContent ?? "";
const outcome = (): string => panel().querySelector(".twirl-outcome")?.textContent ?? "";
const caution = (): string => panel().querySelector('[role="alert"]')?.textContent ?? "";
const spoken = async (): Promise<string> => {
  await settled();
  return panel().querySelector('p[role="status"]')?.textContent ?? "";
};

describe("the first tab", () => {
  test("is this part, and a workbook without a season leads on to building one", async () => {
    await mount(memoryHost());
    const tabs = [...root.querySelectorAll('[role="tab"]')];
    expect(tabs[0]?.getAttribute("aria-selected")).toBe("true");
    expect(panel().textContent).toContain(texts.noSeason);
    expect(button(texts.markWords.c).closest("[hidden]")).not.toBeNull();
    press("c");
    expect(marks()).toBe("–");
    button(texts.goToNewSeason).click();
    expect(tabs[1]?.getAttribute("aria-selected")).toBe("true");
    expect(document.activeElement).toBe(tabs[1]);
  });

  test("counts as soon as a season has been built", async () => {
    const host = await mount(memoryHost());
    await host.addSheets(smallSeason());
    (root.querySelectorAll('[role="tab"]')[0] as HTMLElement).click();
    await settled();
    expect(button(texts.markWords.c).closest("[hidden]")).toBeNull();
    choose();
    press("c");
    expect(marks()).toBe("c");
  });
});

describe("the keys", () => {
  test("C, D and B count, U and Backspace take back, in either case", async () => {
    await mount();
    choose();
    for (const key of ["c", "C", "d", "b", "D"]) expect(press(key).defaultPrevented).toBe(true);
    expect(marks()).toBe("ccdbd");
    press("u");
    press("Backspace");
    expect(marks()).toBe("ccd");
    expect(await spoken()).toBe(texts.undone(texts.markWords.b, 3, 10));
  });

  test.each([
    { what: "in a text field", on: () => control(texts.athleteLabel), more: {} },
    { what: "in the note", on: () => control(texts.noteLabel), more: {} },
    { what: "in a list to choose from", on: () => control<HTMLSelectElement>(texts.stageLabel), more: {} },
    { what: "with Ctrl", on: part, more: { ctrlKey: true } },
    { what: "with Alt", on: part, more: { altKey: true } },
    { what: "with the command key", on: part, more: { metaKey: true } },
    { what: "outside the part", on: () => root, more: {} },
  ])("are left alone $what", async ({ on, more }) => {
    await mount();
    for (const key of ["c", "d", "b", "u", "Backspace"]) {
      expect(press(key, on(), more).defaultPrevented).toBe(false);
    }
    expect(marks()).toBe("–");
  });

  test("a key that is held down is one attempt, and one press of a button", async () => {
    await mount();
    press("c");
    press("c", part(), { repeat: true });
    press("c", part(), { repeat: true });
    expect(marks()).toBe("c");
    expect(press("Enter", button(texts.markWords.d), { repeat: true }).defaultPrevented).toBe(true);
    expect(press("Enter", button(texts.markWords.d)).defaultPrevented).toBe(false);
  });
});

describe("the set", () => {
  test("stands in fives, with its count and in words for those who cannot see it", async () => {
    await mount();
    choose();
    for (const key of "ccdccccb") press(key);
    expect(marks()).toBe("ccdcc ccb");
    expect(panel().querySelector(".twirl-count")?.textContent).toBe(texts.setCount(8, 10));
    expect(panel().querySelector(".twirl-set .twirl-unseen")?.textContent).toBe(texts.setInWords(6, 1, 1));
  });

  test("moves the status and the streak, and says what the status was", async () => {
    await mount();
    choose();
    expect(judged()).toContain("Confirm");
    expect(judged()).toContain(texts.streakNow(2));
    button(texts.markWords.d).click();
    expect(judged()).toContain("Building");
    expect(judged()).toContain(texts.statusWas("Confirm"));
    expect(judged()).toContain(texts.streakNow(-1));
    expect(await spoken()).toBe(texts.counted(texts.markWords.d, 1, 10, "Building"));
    button(texts.undo).click();
    expect(judged()).not.toContain(texts.statusWas("Confirm"));
  });

  test("with two bails shows the caution, loudly, and without one of them no longer", async () => {
    await mount();
    choose();
    for (const key of "cb") press(key);
    expect(caution()).toBe("");
    press("b");
    expect(caution()).toBe(texts.bailCaution);
    press("u");
    expect(caution()).toBe("");
  });

  test("at a stage practised apart says that the status stays", async () => {
    await mount();
    choose();
    const stage = control<HTMLSelectElement>(texts.stageLabel);
    stage.value = "Wall";
    stage.dispatchEvent(new Event("change"));
    press("c");
    expect(judged()).toContain(texts.apartStreak(texts.streakNow(1)));
  });

  test("says what is missing for a status, and what is wrong in the log", async () => {
    await mount(memoryHost([smallSeason("2027", [practised("M.K.", "Double turn", "Joined", "maybe")])]));
    expect(judged()).toBe(texts.statusNeedsChoice);
    const leftOut = panel().querySelector<HTMLDetailsElement>(".twirl-left-out:not([hidden])");
    expect(leftOut?.querySelector("summary")?.textContent).toBe(texts.rowsNotCounted(1, 1));
    expect(leftOut?.querySelector("li")?.textContent).toMatch(/^Practice 2027!E5 – Marks: found the text "maybe"\. /);
    choose();
    expect(judged()).toContain("No attempts");
  });
});

describe("saving", () => {
  test("says where the row is, and both live region and eye get it", async () => {
    const host = await mount();
    choose();
    for (const key of "ccd") press(key);
    fill(texts.minutesLabel, "4");
    fill(texts.noteLabel, "calm");
    button(texts.saveSet).click();
    button(texts.saving).click();
    const words = texts.setSaved("M.K.", "Double turn", "ccd", "'Practice 2027'!A9");
    expect(await spoken()).toBe(words);
    expect(outcome()).toBe(words);
    expect(host.table("Practice_2027").rows).toHaveLength(5);
    expect(host.table("Practice_2027").rows.at(-1)?.slice(4)).toEqual(["ccd", 4, "", "", "", "calm"]);
    expect([marks(), control(texts.minutesLabel).value, control(texts.noteLabel).value]).toEqual(["–", "", ""]);
    expect(control(texts.athleteLabel).value).toBe("M.K.");
  });

  test("with mistakes marks the fields and goes to the first", async () => {
    await mount();
    fill(texts.athleteLabel, "Somebody");
    press("c");
    fill(texts.minutesLabel, "long");
    button(texts.saveSet).click();
    const athlete = control(texts.athleteLabel);
    expect(athlete.getAttribute("aria-invalid")).toBe("true");
    expect(document.getElementById(athlete.getAttribute("aria-describedby") ?? "")?.textContent).toBe(
      texts.notAnAthlete("Somebody"),
    );
    expect(document.activeElement).toBe(athlete);
    expect(panel().querySelectorAll('[aria-invalid="true"]')).toHaveLength(3);
    expect(await spoken()).toBe(texts.problemsFound(3));
    fill(texts.athleteLabel, "M.K.");
    expect(athlete.hasAttribute("aria-invalid")).toBe(false);
  });

  test("with no mark says what to do", async () => {
    await mount();
    choose();
    button(texts.saveSet).click();
    expect(outcome()).toBe(texts.noMarksYet);
  });

  test("that fails says so, keeps the set, and offers it again", async () => {
    await mount(memoryHost([smallSeason()], { appendRow: () => Promise.reject(new Error("The sheet is protected.")) }));
    choose();
    press("c");
    button(texts.saveSet).click();
    expect(await spoken()).toBe(texts.notSaved("The sheet is protected."));
    expect([marks(), button(texts.saveSet).hasAttribute("aria-disabled")]).toEqual(["c", false]);
  });
});

describe("kept sets", () => {
  test("one that was not saved is there when the pane is opened again, at its own stage", async () => {
    const drafts = memoryDrafts();
    const host = await mount(undefined, drafts);
    choose();
    for (const key of "ccb") press(key);
    await mount(host, drafts);
    expect(marks()).toBe("ccb");
    expect(outcome()).toBe(texts.setRestored(3));
    expect(control(texts.trickLabel).value).toBe("Double turn");
  });

  test("one that is put aside is listed, comes back, and is thrown away by two presses only", async () => {
    await mount();
    choose();
    for (const key of "cc") press(key);
    button(texts.putAside).click();
    expect(marks()).toBe("–");
    const name = texts.asideSet("M.K.", "Double turn", "cc");
    expect(panel().querySelector(".twirl-aside")?.textContent).toContain(name);
    button(texts.takeUp).click();
    expect(marks()).toBe("cc");
    await settled();
    button(texts.putAside).click();
    button(texts.throwAway).click();
    expect(panel().querySelector(".twirl-aside")?.textContent).toContain(name);
    button(texts.throwAwaySure).click();
    expect(panel().querySelector(".twirl-aside")?.textContent).toBe("");
  });

  test("one from another workbook says which", async () => {
    const drafts = memoryDrafts();
    const host = await mount(undefined, drafts);
    choose();
    press("c");
    host.name = "https://club.example/files/Other.xlsx";
    await mount(host, drafts);
    expect(panel().querySelector(".twirl-aside")?.textContent).toContain(texts.fromWorkbook("Larkfield.xlsx"));
  });
});

test("the season is asked for only where there are several", async () => {
  await mount();
  expect(control(texts.seasonLabel).closest("[hidden]")).not.toBeNull();
  await mount(memoryHost([smallSeason("2026"), smallSeason("2027 B")]));
  const season = control<HTMLSelectElement>(texts.seasonLabel);
  expect(season.closest("[hidden]")).toBeNull();
  expect([...season.options].map(({ textContent }) => textContent)).toEqual(["2026", "2027 B"]);
  expect(season.value).toBe("2027_B");
});

test("a workbook that cannot be read says why and can be asked again", async () => {
  const host = memoryHost([smallSeason()]);
  const names = host.namesInUse;
  host.namesInUse = () => Promise.reject(new Error("It is busy."));
  await mount(host);
  expect(panel().textContent).toContain(texts.workbookNotRead("It is busy."));
  host.namesInUse = names;
  button(texts.tryAgain).click();
  await settled();
  expect(panel().querySelector(".twirl-message-wrong:not([hidden])")).toBeNull();
  choose();
  expect(judged()).toContain("Confirm");
});

test("what changed on the sheet is seen when the coach comes back to the pane", async () => {
  const host = await mount();
  choose();
  host.table("Practice_2027").rows.push([firstDay + 3, "M.K.", "Double turn", "Joined", "ddddd", "", ""]);
  const outside = document.createElement("button");
  document.body.append(outside);
  outside.focus();
  button(texts.saveSet).focus();
  await settled();
  expect(judged()).toContain(texts.streakNow(-5));
});

test("every id is there once, and everything named by an id is there", async () => {
  await mount();
  const ids = [...root.querySelectorAll("[id]")].map(({ id }) => id);
  expect(ids).toEqual([...new Set(ids)]);
  for (const attribute of ["for", "aria-controls", "aria-labelledby", "aria-describedby"]) {
    for (const each of root.querySelectorAll(`[${attribute}]`)) {
      for (const id of (each.getAttribute(attribute) ?? "").split(" ")) expect(ids).toContain(id);
    }
  }
});

describe("the sheet changes while the pane is open", () => {
  test("the status follows the log, and what is half typed stays", async () => {
    const host = await mount();
    fill(texts.athleteLabel, "M.K.");
    fill(texts.trickLabel, "Double turn");
    const before = panel().querySelector(".twirl-judged")?.textContent;
    const athlete = control(texts.athleteLabel);
    athlete.focus();
    athlete.value = "M.";
    athlete.dispatchEvent(new Event("input", { bubbles: true }));
    const rows = host.table("Practice_2027").rows;
    for (let set = 0; set < 5; set += 1) rows.push([46_400, "M.K.", "Double turn", "Joined", "ccccc ccccc", "", ""]);
    await host.change();
    // The field still has the focus, the letters and its open list.
    expect(document.activeElement).toBe(control(texts.athleteLabel));
    expect(control(texts.athleteLabel).value).toBe("M.");
    expect(control(texts.athleteLabel).getAttribute("aria-expanded")).toBe("true");
    expect(panel().querySelector(".twirl-judged")?.textContent).not.toBe(before);
  });

  test("a part that is not open looks when it is opened, and the pane in another language hears once", async () => {
    const host = await mount();
    mountParts(root, host, [logSetPart, newSeasonPart], memoryDrafts());
    await settled();
    expect(host.listeners.size).toBe(1);
  });
});
