/** @jest-environment jsdom */
import { STATUSES } from "../../../../src/trade/statuses";
import { mountPane } from "../../../../src/taskpane/frame/pane";
import { texts } from "../../../../src/taskpane/words/texts";
import { memoryHost, type MemoryHost } from "../../memory-host";
import { smallSeason } from "../../small-season";

let root: HTMLElement;

beforeEach(() => {
  Element.prototype.scrollIntoView = () => undefined;
  window.localStorage.clear();
});

const settled = (): Promise<void> => new Promise((resolve) => setTimeout(() => setTimeout(resolve, 15), 15));
const open = async (host: MemoryHost): Promise<void> => {
  root = document.createElement("main");
  document.body.replaceChildren(root);
  mountPane(root, host, { preferred: ["en"] });
  await settled();
};
const steps = (): HTMLElement => root.querySelector(".twirl-steps") as HTMLElement;
const current = (): string | undefined => steps().querySelector('[aria-current="step"] span')?.textContent ?? undefined;
const press = async (name: string, within: ParentNode = root): Promise<void> => {
  const found = [...within.querySelectorAll("button")].find(
    (each) => (each.getAttribute("aria-label") ?? each.textContent) === name,
  );
  if (!found) throw new Error(`No button ${name}`);
  found.click();
  await settled();
};
const type = (selector: string, text: string): void => {
  const field = root.querySelector(selector) as HTMLInputElement;
  field.value = text;
  field.dispatchEvent(new Event("input", { bubbles: true }));
  field.dispatchEvent(new Event("blur", { bubbles: true }));
};
const openPart = (): string | undefined =>
  root.querySelector('[role="tab"][aria-selected="true"]')?.textContent ?? undefined;

test("lead from an empty workbook to the first status, and are then over", async () => {
  const host = memoryHost();
  await open(host);
  expect(current()).toBe(texts.firstStepNames[0]);
  await press(texts.firstStepsBuildGo);
  expect(openPart()).toBe(texts.newSeasonTitle);
  type("#twirl-season-label", "2027");
  type("#twirl-season-athletes", "M.K.");
  type("#twirl-season-tricks", "Double turn");
  await press(texts.buildSeason);
  expect(current()).toBe(texts.firstStepNames[1]);
  await press(texts.firstStepsLogGo);
  expect(openPart()).toBe(texts.logSetTitle);
  // One athlete and one trick: both are chosen already.
  const chosen = ["athlete", "trick"].map(
    (name) => (root.querySelector(`#twirl-log-${name}`) as HTMLInputElement).value,
  );
  expect(chosen).toEqual(["M.K.", "Double turn"]);
  const marks = [...root.querySelectorAll<HTMLButtonElement>(".twirl-mark")];
  for (let attempt = 0; attempt < 4; attempt += 1) marks[0]?.click();
  await press(texts.saveSet);
  expect(current()).toBe(texts.firstStepNames[2]);
  expect(steps().querySelector(".twirl-badge")?.textContent).toBe("Too few");
  expect(steps().textContent).toContain(texts.statusMeanings["Too few"]);
  await press(texts.firstStepsPicture);
  expect(openPart()).toBe(texts.picturesTitle);
  await press(texts.firstStepsEnd, steps());
  expect(steps().hidden).toBe(true);
  await open(host);
  expect(steps().hidden).toBe(true);
});

test("with a season in the workbook they begin with a set, and still lead to a season of one's own", async () => {
  await open(memoryHost([smallSeason()]));
  expect(current()).toBe(texts.firstStepNames[1]);
  expect(steps().textContent).toContain(texts.firstStepsLogHere("2027"));
  await press(texts.firstStepsOwn);
  expect(current()).toBe(texts.firstStepNames[0]);
  expect(openPart()).toBe(texts.newSeasonTitle);
  type("#twirl-season-label", "2028-B");
  type("#twirl-season-athletes", "P.Q.");
  type("#twirl-season-tricks", "Flat");
  await press(texts.buildSeason);
  await press(texts.firstStepsLogGo);
  // The next set is of the season that was built, not of the one that was there.
  const chosen = ["season", "athlete", "trick"].map(
    (name) => (root.querySelector(`#twirl-log-${name}`) as HTMLInputElement).value,
  );
  expect(chosen).toEqual(["2028_B", "P.Q.", "Flat"]);
});

test("a set that is being counted keeps its season when another is built", async () => {
  await open(memoryHost([smallSeason()]));
  await press(texts.firstStepsLogGo);
  root.querySelector<HTMLButtonElement>(".twirl-mark-c")?.click();
  await press(texts.firstStepsOwn);
  type("#twirl-season-label", "2028");
  type("#twirl-season-athletes", "P.Q.");
  type("#twirl-season-tricks", "Flat");
  await press(texts.buildSeason);
  await press(texts.firstStepsLogGo);
  expect((root.querySelector("#twirl-log-season") as HTMLInputElement).value).toBe("2027");
});

test("are skipped for good, and come back when they are asked for", async () => {
  await open(memoryHost());
  await press(texts.firstStepsSkip);
  expect(steps().hidden).toBe(true);
  const button = [...root.querySelectorAll("button")].find(
    (each) => each.getAttribute("aria-label") === texts.firstSteps,
  );
  expect(document.activeElement).toBe(button);
  await open(memoryHost());
  expect(steps().hidden).toBe(true);
  await press(texts.firstSteps);
  expect(steps().hidden).toBe(false);
  expect(document.activeElement?.textContent).toBe(texts.firstSteps);
  await press(texts.firstSteps);
  expect(steps().hidden).toBe(true);
});

test("every status has its meaning", () => {
  expect(Object.keys(texts.statusMeanings)).toEqual([...STATUSES]);
});
