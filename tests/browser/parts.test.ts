/**
 * Every part of the pane beside the sample season on the try-out page, on one page that is opened once: the first steps,
 * pictures from the sheets, a function filled in from the selection, at both sizes and at twice the size of a laptop.
 */
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import type { Locator } from "playwright-core";
import { parts } from "../../src/taskpane/parts/list";
import { french } from "../../src/taskpane/words/french";
import { texts } from "../../src/taskpane/words/texts";
import { type OpenPage, openTryOutPage, screenshots } from "./page";

jest.setTimeout(300_000);

let opened: OpenPage;
let pane: Locator;

beforeAll(async () => {
  opened = await openTryOutPage();
  pane = opened.page.locator("#pane");
  mkdirSync(screenshots, { recursive: true });
});

afterAll(async () => {
  await opened.close();
});

const tab = (name: string): Locator => pane.getByRole("tab", { name, exact: true });
/** What shows that a part is there, by the part's id. */
const signs: Readonly<Record<string, () => Locator>> = {
  "log-set": () => pane.getByRole("button", { name: texts.saveSet }),
  pictures: () => pane.locator("figure"),
  "new-season": () => pane.getByLabel(texts.labelLabel),
  "own-sheet": () => pane.getByRole("button", { name: texts.ownSheetRead }),
  tempo: () => pane.getByRole("button", { name: texts.tap }),
  "hand-out": () => pane.getByLabel(texts.handOutAthlete),
  functions: () => pane.getByLabel(texts.functionsSearch),
};

test("somebody new counts a set in the sample season, reads its status and sees it as a picture", async () => {
  await pane.getByText(texts.firstStepsLogHere("2026")).waitFor();
  await pane.getByRole("button", { name: texts.firstStepsLogGo }).click();
  await pane.getByRole("combobox", { name: texts.athleteLabel, exact: true }).fill("A.R.");
  await pane.getByRole("combobox", { name: texts.trickLabel, exact: true }).fill("Leap");
  await opened.page.keyboard.press("Tab");
  for (let attempt = 0; attempt < 10; attempt += 1) await pane.locator(".twirl-mark-c").click();
  await pane.getByRole("button", { name: texts.saveSet }).click();
  const steps = pane.locator(".twirl-steps");
  await steps.locator(".twirl-badge").waitFor();
  await pane.screenshot({ path: join(screenshots, "first-status.png") });
  await steps.getByRole("button", { name: texts.firstStepsPicture }).click();
  await pane.getByRole("img", { name: texts.pictureOf(texts.pictureNames.record, "A.R., Leap") }).waitFor();
  await steps.getByRole("button", { name: texts.firstStepsEnd }).click();
  await steps.waitFor({ state: "hidden" });
  await opened.ready();
});

test("the pictures show what the sheets hold", async () => {
  await tab(texts.picturesTitle).click();
  for (const [kind, name] of Object.entries(texts.pictureNames)) {
    await pane.getByText(name, { exact: true }).click();
    const figure = pane.locator("figure", {
      has: opened.page.getByRole("heading", { name: new RegExp(`^${name}: `) }),
    });
    await figure.waitFor();
    await figure.locator("svg").first().scrollIntoViewIfNeeded();
    await opened.page.screenshot({ path: join(screenshots, `picture-${kind}-1366x768.png`) });
    await figure.screenshot({ path: join(screenshots, `figure-${kind}.png`) });
  }
  // The toss of the first trick of the season, as the Tricks sheet has it.
  await pane.getByText(texts.pictureNames.toss, { exact: true }).click();
  const trick = await pane.locator("#twirl-pictures-trick").inputValue();
  const rise = await opened.page.evaluate((wanted) => {
    for (let row = 6; row < 60; row += 1) {
      if (window.tryOutPage?.read("Tricks 2026", `A${String(row)}`) === wanted) {
        return Number(window.tryOutPage.read("Tricks 2026", `M${String(row)}`));
      }
    }
    return NaN;
  }, trick);
  expect(rise).toBeGreaterThan(1);
  await pane.getByText(`Rises ${rise.toFixed(1)} m above the hand`).waitFor();
});

test("a function's cells are taken from the sheet, and its formula answers where it was put", async () => {
  const { page } = opened;
  await opened.goTo("Board 2026", "AH30");
  await tab(texts.functionsTitle).click();
  await pane.getByRole("button", { name: "READINESS", exact: true }).click();
  await pane.getByRole("button", { name: texts.fillInOf("READINESS"), exact: true }).click();
  const field = (name: string): Locator => pane.locator(`#twirl-fill-READINESS-${name}`);
  await page.waitForFunction(() => document.querySelector<HTMLInputElement>("#twirl-fill-READINESS-target")?.value);
  expect(await field("target").inputValue()).toBe("'Board 2026'!AH30");
  // Selecting on the sheet takes the focus away; F6 leads back to the field, where Enter takes the cells.
  await field("marks").focus();
  await opened.goTo("Practice 2026", "E5");
  await page.keyboard.press("Shift+ArrowDown");
  await page.keyboard.press("Shift+ArrowDown");
  await page.keyboard.press("F6");
  expect(await page.evaluate(() => document.activeElement?.id)).toBe("twirl-fill-READINESS-marks");
  await page.keyboard.press("Enter");
  await page.waitForFunction(() => document.querySelector<HTMLInputElement>("#twirl-fill-READINESS-marks")?.value);
  expect(await field("marks").inputValue()).toBe("'Practice 2026'!E5:E7");
  await page.screenshot({ path: join(screenshots, "fill-in-1366x768.png") });
  await page.keyboard.press("Enter");
  await pane
    .getByText(texts.functionInserted("=TWIRL.READINESS('Practice 2026'!E5:E7)", "'Board 2026'!AH30"))
    .waitFor();
  await page.waitForFunction(() =>
    ["Building", "Confirm", "Ready", "Solid", "At risk", "Too few"].includes(
      String(window.tryOutPage?.read("Board 2026", "AH30")),
    ),
  );
  // The cell is taken now: once more, and it is asked about.
  await field("marks").fill("ccd");
  await pane.getByRole("button", { name: texts.fillInInsert, exact: true }).click();
  await pane.getByRole("button", { name: texts.targetKeep }).click();
  await opened.ready();
  expect(String(await opened.read("Board 2026", "AH30"))).not.toBe("Too few");
});

test("the pane speaks French at once, and English again", async () => {
  await pane.getByLabel(texts.languageLabel).selectOption("fr");
  await tab(french.picturesTitle).click();
  await pane.locator("figure").waitFor();
  expect(await opened.page.evaluate(() => document.documentElement.lang)).toBe("fr");
  // What is not the pane's stays English, and says so.
  expect(await opened.page.locator(".page-bar").getAttribute("lang")).toBe("en");
  await opened.page.screenshot({ path: join(screenshots, "french-1366x768.png") });
  await pane.getByLabel(french.languageLabel).selectOption("en");
  await tab(texts.picturesTitle).waitFor();
});

test.each([
  { width: 1366, height: 768, what: "a laptop" },
  { width: 320, height: 480, what: "a small phone" },
  { width: 683, height: 384, what: "a laptop at 200 %" },
])("every part fits on $what, $width by $height", async ({ width, height }) => {
  const { page } = opened;
  await page.setViewportSize({ width, height });
  expect(Object.keys(signs)).toEqual(parts.map(({ id }) => id));
  for (const { id, title } of parts) {
    await tab(title).click();
    const there = signs[id]?.().first();
    await there?.waitFor();
    await there?.scrollIntoViewIfNeeded();
    const size = `${String(width)}x${String(height)}`;
    await page.screenshot({ path: join(screenshots, `part-${id}-${size}.png`) });
    const sideways = await page.evaluate(() => ({
      page: document.documentElement.scrollWidth - window.innerWidth,
      pane: (document.querySelector("#pane")?.scrollWidth ?? 0) - (document.querySelector("#pane")?.clientWidth ?? 0),
    }));
    expect([id, sideways.page <= 0, sideways.pane <= 0]).toEqual([id, true, true]);
  }
});

test("nothing was asked of another host, and nothing went wrong", () => {
  expect(
    opened.requests.filter((request) => !request.startsWith(opened.url) && !/^(data|blob):/.test(request)),
  ).toEqual([]);
  expect(opened.problems).toEqual([]);
});
