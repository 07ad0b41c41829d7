/**
 * A set logged in a real browser: by touch on the smallest pane, by keys on a laptop's; over a page that is closed in the
 * middle; and on the try-out page, where the row stands on the Practice sheet afterwards and the board follows.
 */
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { texts } from "../../src/taskpane/words/texts";
import { openTryOutPage, screenshots, type OpenPage } from "./page";
import { brokenRules, servePane, smallTargets, themes, type ServedPane } from "./served-pane";

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

const athlete = (page: Page) => page.getByRole("combobox", { name: texts.athleteLabel, exact: true });
const trick = (page: Page) => page.getByRole("combobox", { name: texts.trickLabel, exact: true });
const button = (page: Page, name: string) => page.getByRole("button", { name });
const marks = (page: Page) => page.locator(".twirl-marks");
const judged = (page: Page) => page.locator(".twirl-judged");
const spoken = (page: Page) => page.locator('.twirl-log > p[role="status"]');

async function says(page: Page, words: string): Promise<void> {
  await spoken(page).filter({ hasText: words }).waitFor({ state: "attached" });
}

describe.each(sizes)("in a pane of $width by $height", ({ width, height }) => {
  test("by touch: chosen, counted, taken back, saved", async () => {
    const { page, complaints } = await served.open({ query: "?season", width, height, touch: true });
    await athlete(page).tap();
    await page.getByRole("option", { name: "M.K." }).tap();
    await trick(page).tap();
    await page.getByRole("option", { name: "Double turn" }).tap();
    await judged(page).getByText("Confirm", { exact: true }).waitFor();
    for (const name of ["c", "d", "b", "c"] as const) await button(page, texts.markWords[name]).tap();
    expect(await marks(page).textContent()).toBe("cdbc");
    await says(page, texts.counted(texts.markWords.c, 4, 10, "Building"));
    await judged(page).getByText("Building", { exact: true }).waitFor();
    await judged(page).getByText(texts.statusWas("Confirm")).waitFor();
    await button(page, texts.undo).tap();
    expect(await marks(page).textContent()).toBe("cdb");
    await button(page, texts.markWords.b).tap();
    await page.getByRole("alert").getByText(texts.bailCaution).waitFor();
    await page.screenshot({ path: join(screenshots, `log-set-bails-${String(width)}x${String(height)}.png`) });
    await button(page, texts.saveSet).tap();
    await says(page, texts.setSaved("M.K.", "Double turn", "cdbb", "'Practice 2027'!A9"));
    await page.screenshot({ path: join(screenshots, `log-set-saved-${String(width)}x${String(height)}.png`) });
    const rows = await page.evaluate(() => window.savedRows?.() ?? []);
    expect(rows).toHaveLength(5);
    expect(rows.at(-1)?.slice(1, 5)).toEqual(["M.K.", "Double turn", "Joined", "cdbb"]);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  test("by keys alone, from the first Tab to the saved row", async () => {
    const { page, complaints } = await served.open({ query: "?season", width, height });
    const { keyboard } = page;
    // The first steps and the language come before the parts.
    for (let stop = 0; stop < 3; stop += 1) await keyboard.press("Tab");
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe(texts.logSetTitle);
    await keyboard.press("Tab");
    await keyboard.type("mk");
    await keyboard.press("Enter");
    await keyboard.press("Tab");
    await keyboard.press("ArrowDown");
    await keyboard.press("Enter");
    await keyboard.press("Tab");
    // The stage: a letter goes to the first that begins with it.
    await keyboard.type("In");
    // Over the switch for minutes and note, to the first of the three buttons.
    await keyboard.press("Tab");
    await keyboard.press("Tab");
    expect(await page.evaluate(() => document.activeElement?.textContent)).toContain(texts.markWords.c);
    for (const key of "ccdcb") await keyboard.press(key);
    await keyboard.press("Backspace");
    await keyboard.press("Enter");
    expect(await marks(page).textContent()).toBe("ccdcc");
    await says(page, texts.counted(texts.markWords.c, 5, 10, "Confirm"));
    while ((await page.evaluate(() => document.activeElement?.textContent)) !== texts.saveSet) {
      await keyboard.press("Tab");
    }
    await keyboard.press("Enter");
    await says(page, texts.setSaved("M.K.", "Double turn", "ccdcc", "'Practice 2027'!A9"));
    const rows = await page.evaluate(() => window.savedRows?.() ?? []);
    expect(rows.at(-1)?.slice(1, 5)).toEqual(["M.K.", "Double turn", "In context", "ccdcc"]);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  test("closed in the middle: the set is there again; a host that refuses leaves it there too", async () => {
    const { page } = await served.open({ query: "?season", width, height });
    await athlete(page).fill("A.R.");
    await trick(page).fill("Double turn");
    await page.locator(".twirl-log").press("c");
    for (const key of "cd") await page.locator(".twirl-log").press(key);
    await page.reload();
    await page.locator(".twirl-outcome", { hasText: texts.setRestored(3) }).waitFor();
    expect(await marks(page).textContent()).toBe("ccd");
    expect(await athlete(page).inputValue()).toBe("A.R.");
    await page.evaluate(() => {
      window.failing = "The sheet is protected.";
    });
    await button(page, texts.saveSet).click();
    await says(page, texts.notSaved("The sheet is protected."));
    await page.reload();
    await page.locator(".twirl-outcome", { hasText: texts.setRestored(3) }).waitFor();
    await button(page, texts.saveSet).click();
    await says(page, "ccd");
    const rows = await page.evaluate(() => window.savedRows?.() ?? []);
    expect(rows.filter((row) => row[4] === "ccd")).toHaveLength(1);
    await page.reload();
    await page.locator(".twirl-badge").waitFor();
    expect(await marks(page).textContent()).toBe("–");
    await page.context().close();
  });

  test.each(themes)("in $theme: no rule broken, nothing sideways, and room for a thumb", async ({ theme, media }) => {
    const { page, complaints } = await served.open({ query: "?season", width, height, media });
    await athlete(page).fill("M.K.");
    await trick(page).click();
    const list = await brokenRules(page);
    expect(list.broken).toEqual([]);
    expect(await smallTargets(page, 48, ".twirl-log")).toEqual([]);
    await page.screenshot({ path: join(screenshots, `log-set-list-${theme}-${String(width)}x${String(height)}.png`) });
    await page.getByRole("option", { name: "Double turn" }).click();
    await page.getByText(texts.minutesAndNote).click();
    for (const key of "ccbdb") await page.locator(".twirl-dock").press(key);
    const { broken, kept } = await brokenRules(page);
    expect(broken).toEqual([]);
    expect(kept).toEqual(expect.arrayContaining(["color-contrast", "target-size"]));
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
    expect(await smallTargets(page, 48, ".twirl-log")).toEqual([]);
    await page.screenshot({ path: join(screenshots, `log-set-${theme}-${String(width)}x${String(height)}.png`) });
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  test("the buttons stay in sight, low down, and never cover what has the focus", async () => {
    const { page } = await served.open({ query: "?season", width, height });
    await page.getByText(texts.minutesAndNote).click();
    const counting = await button(page, texts.markWords.c).boundingBox();
    expect(counting?.y).toBeGreaterThan(0);
    expect((counting?.y ?? 0) + (counting?.height ?? 0)).toBeLessThanOrEqual(height);
    // Within the lower half of a low pane, where a thumb is.
    if (height < 500) expect(counting?.y).toBeGreaterThan(height / 2);
    await page.getByRole("tab", { name: texts.logSetTitle }).focus();
    const covered: string[] = [];
    const stops: string[] = [];
    for (let stop = 0; stop < 20; stop += 1) {
      await page.keyboard.press("Tab");
      const found = await page.evaluate(() => {
        const on = document.activeElement;
        if (!(on instanceof HTMLElement) || on === document.body) return null;
        const box = on.getBoundingClientRect();
        const onTop = [box.top + 3, box.bottom - 3].map((y) => document.elementFromPoint(box.left + box.width / 2, y));
        const seen = onTop.every((top) => top !== null && (on.contains(top) || top.contains(on)));
        return { what: on.id || (on.textContent ?? ""), seen };
      });
      if (found === null) break;
      stops.push(found.what);
      if (!found.seen) covered.push(found.what);
    }
    expect(covered).toEqual([]);
    expect(stops).toEqual(
      expect.arrayContaining(["twirl-log-athlete", "twirl-log-stage", "twirl-log-note", texts.saveSet]),
    );
    await page.context().close();
  });
});

describe.each(sizes)("on the try-out page of $width by $height", ({ width, height }) => {
  let opened: OpenPage;
  let sheets: readonly string[];
  const sheetFor = (word: string): string => sheets.find((name) => name.startsWith(word)) ?? word;

  beforeAll(async () => {
    opened = await openTryOutPage({ width, height });
    sheets = await opened.page.evaluate(() => window.tryOutPage?.sheetNames() ?? []);
  });

  afterAll(async () => {
    await opened.close();
  });

  async function firstFree(sheet: string): Promise<number> {
    for (let row = 5; ; row += 1) if (((await opened.read(sheet, `A${String(row)}`)) ?? "") === "") return row;
  }

  async function boardRow(name: string, of: string): Promise<number> {
    for (let row = 5; row < 500; row += 1) {
      const found = [
        await opened.read(sheetFor("Board"), `A${String(row)}`),
        await opened.read(sheetFor("Board"), `B${String(row)}`),
      ];
      if (found[0] === name && found[1] === of) return row;
    }
    throw new Error(`The board has no row of ${name} and ${of}.`);
  }

  test("the row stands on the Practice sheet, the board says what the pane said, and one Undo takes it back", async () => {
    const { page } = opened;
    const practice = sheetFor("Practice");
    const [who, what] = [
      String(await opened.read(sheetFor("Season"), "E5")),
      String(await opened.read(sheetFor("Tricks"), "A6")),
    ];
    await page.getByRole("tab", { name: texts.logSetTitle }).click();
    await athlete(page).fill(who);
    await trick(page).fill(what);
    await page.keyboard.press("Tab");
    await page.locator(".twirl-badge").waitFor();
    // The standard and the set size are those of the sheet.
    expect(await page.getByText(texts.usualSettings(10)).count()).toBe(0);
    await button(page, texts.markWords.c).click();
    const pane = page.locator(".twirl-log");
    for (const key of "cdcccbccc") await pane.press(key);
    expect(await marks(page).textContent()).toBe("ccdcc cbccc");
    const row = await firstFree(practice);
    const onBoard = await boardRow(who, what);
    const attempts = Number(await opened.read(sheetFor("Board"), `C${String(onBoard)}`));
    const status = String(await page.locator(".twirl-badge").textContent());
    await page.screenshot({ path: join(screenshots, `log-set-try-out-page-${String(width)}x${String(height)}.png`) });
    await button(page, texts.saveSet).click();
    await says(page, texts.setSaved(who, what, "ccdcc cbccc", `'${practice}'!A${String(row)}:J${String(row)}`));
    await opened.shows(practice, `E${String(row)}`, "ccdcc cbccc");
    await opened.shows(practice, `B${String(row)}`, who);
    const now = new Date();
    await opened.shows(
      practice,
      `A${String(row)}`,
      `${String(now.getDate())} ${now.toLocaleString("en-US", { month: "short" })} ${String(now.getFullYear())}`,
    );
    const board = sheetFor("Board");
    await opened.shows(board, `C${String(onBoard)}`, String(attempts + 10));
    await opened.shows(board, `K${String(onBoard)}`, status);
    await opened.shows(board, `I${String(onBoard)}`, "3");
    await opened.ready();

    // Read back as the number of the day: the same set again is told from this one.
    for (const key of "ccdcccbccc") await pane.press(key);
    await button(page, texts.saveSet).click();
    await says(page, texts.setSaved(who, what, "ccdcc cbccc", `'${practice}'!A${String(row + 1)}:J${String(row + 1)}`));
    await opened.shows(board, `C${String(onBoard)}`, String(attempts + 20));
    await opened.ready();
    // On a phone the pane is the page, and the sheet one press away.
    const isPhone = width < 760;
    if (isPhone) await button(page, "Show the sheet").click();
    await opened.goTo(practice, `A${String(row)}`);
    await page.keyboard.press("Control+z");
    await opened.shows(board, `C${String(onBoard)}`, String(attempts + 10));
    await opened.ready();
    await page.screenshot({ path: join(screenshots, `log-set-practice-sheet-${String(width)}x${String(height)}.png`) });
    await page.keyboard.press("Control+z");
    await opened.shows(board, `C${String(onBoard)}`, String(attempts));
    expect(await firstFree(practice)).toBe(row);
    await opened.ready();
    if (isPhone) await button(page, "Back to the pane").click();
  });

  test("a set that is not saved outlives the page", async () => {
    const { page } = opened;
    const pane = page.locator(".twirl-log");
    for (const key of "ccd") await pane.press(key);
    await page.reload();
    await opened.ready();
    await page.locator(".twirl-outcome", { hasText: texts.setRestored(3) }).waitFor();
    expect(await marks(page).textContent()).toBe("ccd");
    await button(page, texts.saveSet).click();
    await opened.shows(sheetFor("Practice"), `E${String((await firstFree(sheetFor("Practice"))) - 1)}`, "ccd");
  });

  test("has nothing to complain about", () => {
    expect(opened.problems).toEqual([]);
  });
});
