/** Tempo and airtime in a real browser: by finger, mouse and keys, on the smallest pane and a large one, and into a cell. */
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import type { Locator, Page } from "playwright-core";
import { texts } from "../../src/taskpane/words/texts";
import { openTryOutPage, screenshots } from "./page";
import { brokenRules, servePane, smallTargets, themes, type OpenedPane, type ServedPane } from "./served-pane";

jest.setTimeout(300_000);

const sizes = [
  { width: 320, height: 480 },
  { width: 1366, height: 768 },
] as const;

let served: ServedPane;

beforeAll(async () => {
  mkdirSync(screenshots, { recursive: true });
  served = await servePane();
});

afterAll(async () => {
  await served.close();
});

async function openTempo(page: Page): Promise<void> {
  await page.getByRole("tab", { name: texts.tempoTitle }).click();
}

const section = (page: Page, title: string): Locator =>
  page.locator(".twirl-tempo", { has: page.getByRole("heading", { name: title, exact: true }) });
const result = (page: Page, title: string): Locator => section(page, title).locator(".twirl-result");
const inserted = (page: Page): Promise<readonly (string | number)[]> =>
  page.evaluate(() => [...(window.insertedValues ?? [])]);

/** The number before the ±, once it is there. */
async function measured(page: Page, title: string): Promise<number> {
  const line = result(page, title).filter({ hasText: "±" });
  await line.waitFor();
  return Number.parseFloat((await line.textContent()) ?? "");
}

describe.each(sizes)("in a pane of $width by $height", ({ width, height }) => {
  let opened: OpenedPane;
  let page: Page;

  beforeEach(async () => {
    opened = await served.open({ width, height, touch: true });
    page = opened.page;
    await openTempo(page);
  });

  afterEach(async () => {
    expect(opened.complaints).toEqual([]);
    await page.context().close();
  });

  test("counts by a finger's taps, and into the cell goes what is shown", async () => {
    const tap = page.getByRole("button", { name: texts.tap });
    for (let count = 0; count < 6; count += 1) await tap.tap();
    const counts = await measured(page, texts.countsTitle);
    expect(counts).toBeGreaterThan(0);
    // Six taps are five intervals, whatever the browser makes of a finger: some may be left aside, none is counted twice.
    const words = (await result(page, texts.countsTitle).textContent()) ?? "";
    const [intervals, outliers] = [/from (\d+)/, /; (\d+)/].map((found) => Number(found.exec(words)?.[1] ?? 0));
    expect((intervals ?? 0) + (outliers ?? 0)).toBe(5);
    await page.getByRole("button", { name: texts.insertCounts }).tap();
    await section(page, texts.countsTitle).getByText("Sheet1!B2").waitFor();
    expect(await inserted(page)).toEqual([counts]);
  });

  test("counts and an airtime by the keys alone", async () => {
    const { keyboard } = page;
    await keyboard.press("Tab");
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe(texts.tap);
    for (const key of ["Space", "Enter", "Space", "Enter", "Space"]) await keyboard.press(key);
    await measured(page, texts.countsTitle);
    while ((await page.evaluate(() => document.activeElement?.textContent)) !== texts.hold) await keyboard.press("Tab");
    await keyboard.down("Space");
    await page.getByText(texts.inTheAir).waitFor();
    await page.waitForTimeout(600);
    await keyboard.up("Space");
    // At least as long as it was held for certain.
    expect(await measured(page, texts.handTitle)).toBeGreaterThanOrEqual(0.6);
    while ((await page.evaluate(() => document.activeElement?.textContent)) !== texts.insertAirtime) {
      await keyboard.press("Tab");
    }
    await keyboard.press("Enter");
    await section(page, texts.handTitle).getByText("Sheet1!B2").waitFor();
    expect(await inserted(page)).toEqual([await measured(page, texts.handTitle)]);
  });

  test("an airtime by a mouse that is held, let go beside the button", async () => {
    const hold = page.getByRole("button", { name: texts.hold });
    await hold.scrollIntoViewIfNeeded();
    const box = await hold.boundingBox();
    if (!box) throw new Error("There is no button to hold.");
    await page.mouse.move(box.x + 20, box.y + 20);
    await page.mouse.down();
    await page.getByText(texts.inTheAir).waitFor();
    await page.waitForTimeout(400);
    await page.mouse.move(box.x + 20, box.y - 30);
    await page.mouse.up();
    expect(await measured(page, texts.handTitle)).toBeGreaterThanOrEqual(0.4);
    expect(await result(page, texts.handTitle).textContent()).toContain(texts.holdsTaken("", 1));
  });

  test("an airtime from film, with its rise, in feet as well", async () => {
    await page.getByLabel(texts.releaseFrameLabel).fill("112");
    await page.getByLabel(texts.catchFrameLabel).fill("178");
    await page.keyboard.press("Tab");
    await result(page, texts.filmTitle)
      .getByText(texts.airtimeIs("2.200 ± 0.014", "5.93 ± 0.07", "m"))
      .waitFor();
    await page.getByLabel(texts.heightsIn).selectOption("ft");
    // 5.9331 m and 0.0734 m over 0.3048 m a foot.
    await result(page, texts.filmTitle)
      .getByText(texts.airtimeIs("2.200 ± 0.014", "19.47 ± 0.24", "ft"))
      .waitFor();
    await section(page, texts.filmTitle).getByRole("button", { name: texts.insertRise }).click();
    await section(page, texts.filmTitle).getByText("Sheet1!B2").waitFor();
    expect(await inserted(page)).toEqual([19.47]);
    await page.screenshot({
      path: join(screenshots, `tempo-${String(width)}x${String(height)}.png`),
      fullPage: true,
    });
  });
});

test.each(themes)("in $theme: no rule broken, nothing sideways, and room for a thumb", async ({ media }) => {
  const { page, complaints } = await served.open({ media, width: 320, height: 480 });
  await openTempo(page);
  await page.getByLabel(texts.releaseFrameLabel).fill("178");
  await page.getByLabel(texts.catchFrameLabel).fill("112");
  await page.keyboard.press("Tab");
  await page.locator('#twirl-film-catch[aria-invalid="true"]').waitFor();
  const { broken, kept } = await brokenRules(page);
  expect(broken).toEqual([]);
  expect(kept).toEqual(expect.arrayContaining(["color-contrast", "target-size"]));
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320);
  expect(await smallTargets(page, 48, "#twirl-panel-tempo")).toEqual([]);
  expect(complaints).toEqual([]);
  await page.context().close();
});

test("on the try-out page a result goes into an empty cell, and a full one is left alone", async () => {
  const opened = await openTryOutPage();
  const { page } = opened;
  const tossLab = (await page.evaluate(() => window.tryOutPage?.sheetNames() ?? [])).find((name) =>
    name.startsWith("Toss lab"),
  );
  if (tossLab === undefined) throw new Error("There is no toss lab.");
  await openTempo(page);
  await page.getByLabel(texts.releaseFrameLabel).fill("112");
  await page.getByLabel(texts.catchFrameLabel).fill("178");
  await page.keyboard.press("Tab");
  const film = section(page, texts.filmTitle);
  await opened.goTo(tossLab, "Z90");
  await film.getByRole("button", { name: texts.insertAirtime }).click();
  await film.getByText(`'${tossLab}'!Z90`).waitFor();
  await opened.shows(tossLab, "Z90", "2.2");
  await film.getByRole("button", { name: texts.insertRise }).click();
  await film.getByText(texts.cellNotEmpty(`'${tossLab}'!Z90`)).waitFor();
  await opened.shows(tossLab, "Z90", "2.2");
  expect(opened.problems).toEqual([]);
  await opened.close();
});
