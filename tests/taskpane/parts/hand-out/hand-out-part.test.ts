/** @jest-environment jsdom */
import { handOutPart } from "../../../../src/taskpane/parts/hand-out/hand-out-part";
import { mountParts } from "../../../../src/taskpane/frame/pane";
import { texts } from "../../../../src/taskpane/words/texts";
import { memoryDrafts } from "../../memory-drafts";
import { memoryHost, type MemoryHost } from "../../memory-host";
import { smallSeason } from "../../small-season";

const settled = (): Promise<void> => new Promise((resolve) => setTimeout(() => setTimeout(resolve, 10), 10));
let root: HTMLElement;

async function open(host: MemoryHost): Promise<void> {
  root = document.createElement("main");
  document.body.replaceChildren(root);
  mountParts(root, host, [handOutPart], memoryDrafts());
  await settled();
}

const select = (): HTMLSelectElement => root.querySelector("#twirl-hand-out-athlete") as HTMLSelectElement;
const chosen = (): string | undefined => select().selectedOptions[0]?.text;

async function lookAt(host: MemoryHost, sheet: string): Promise<void> {
  host.selected = { ...host.selected, sheet };
  await host.change();
}

test("the season whose sheet is in view is the one handed out, and the athlete stays the same", async () => {
  const host = memoryHost([smallSeason("2026"), smallSeason("2027")]);
  host.selected = { ...host.selected, sheet: "Board 2027" };
  await open(host);
  expect(chosen()).toBe(texts.handOutOf("M.K.", "2027"));
  select().value = String([...select().options].findIndex(({ text }) => text === texts.handOutOf("A.R.", "2027")));
  await lookAt(host, "Practice 2026");
  expect(chosen()).toBe(texts.handOutOf("A.R.", "2026"));
  await lookAt(host, "Sheet1");
  expect(chosen()).toBe(texts.handOutOf("A.R.", "2026"));
});

test("what the coach chose holds while the same season stays in view", async () => {
  const host = memoryHost([smallSeason("2026"), smallSeason("2027")]);
  host.selected = { ...host.selected, sheet: "Board 2027" };
  await open(host);
  select().value = String([...select().options].findIndex(({ text }) => text === texts.handOutOf("J.T.", "2026")));
  await lookAt(host, "Practice 2027");
  expect(chosen()).toBe(texts.handOutOf("J.T.", "2026"));
});

test("a season that is built while the part is open is there to hand out", async () => {
  const host = memoryHost();
  await open(host);
  expect(root.textContent).toContain(texts.handOutNothing);
  await host.addSheets(smallSeason("2027"));
  await host.change();
  expect([...select().options].map(({ text }) => text)).toEqual(["M.K.", "A.R.", "J.T."]);
});

describe("everybody's pages", () => {
  const press = async (words: string): Promise<void> => {
    const button = [...root.querySelectorAll("button")].find(({ textContent }) => textContent === words);
    if (!button || button.hidden) throw new Error(`There is no ${words}.`);
    button.click();
    await settled();
  };
  const names = ["M.K. 2026", "A.R. 2026", "J.T. 2026"];

  test("are made at one press, one sheet each, and those that are there already are left as they are", async () => {
    const host = memoryHost([smallSeason("2026")]);
    await open(host);
    await press(texts.handOutMake);
    expect(host.sheets).toContain(names[0]);
    await press(texts.handOutMakeAll);
    expect(host.plans.at(-1)?.sheets.map(({ name }) => name)).toEqual(names.slice(1));
    expect(root.textContent).toContain(texts.handOutMadeAll(2, 1));
    const plans = host.plans.length;
    await press(texts.handOutMakeAll);
    expect(host.plans).toHaveLength(plans);
    expect(root.textContent).toContain(texts.handOutMadeAll(0, 3));
  });

  test("are printed together where the host prints; elsewhere the pane says how", async () => {
    const printed: (readonly string[])[] = [];
    const printSheets = (sheets: readonly string[]): Promise<void> => {
      printed.push(sheets);
      return Promise.resolve();
    };
    await open(memoryHost([smallSeason("2026")], { printSheets }));
    await press(texts.handOutMakeAll);
    await press(texts.handOutPrintAll(3));
    expect(printed).toEqual([names]);
    const hint = (): HTMLElement | undefined =>
      [...root.querySelectorAll("p")].find(({ textContent }) => textContent === texts.handOutPrintAllHint);
    expect(hint()?.hidden).toBe(true);
    await open(memoryHost([smallSeason("2026")]));
    await press(texts.handOutMakeAll);
    expect(hint()?.hidden).toBe(false);
    await expect(press(texts.handOutPrintAll(3))).rejects.toThrow(/There is no/);
  });

  test("a print that fails is told", async () => {
    const printSheets = (): Promise<void> => Promise.reject(new Error("There is no paper."));
    await open(memoryHost([smallSeason("2026")], { printSheets }));
    await press(texts.handOutMake);
    await press(texts.handOutPrintAll(1));
    expect(root.textContent).toContain(texts.handOutNotPrinted("There is no paper."));
  });
});
