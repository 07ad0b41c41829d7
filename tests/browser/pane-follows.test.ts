/**
 * The pane beside the try-out page's workbook shows what the sheets hold now: after typing, after another file is opened and
 * after a season is built. And the workbook that one had is the workbook that one gets.
 */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { BrowserContext, Page } from "playwright-core";
import { inProject } from "../../src/tools/paths";
import { texts } from "../../src/taskpane/words/texts";
import { type OpenPage, openTryOutPage, screenshots } from "./page";

jest.setTimeout(600_000);

const PRACTICE = "Practice 2026";
let opened: OpenPage;

beforeAll(async () => {
  opened = await openTryOutPage({ locale: "en-GB" });
  // A page that is left with unsaved changes asks first.
  opened.page.on("dialog", (dialog) => void dialog.accept());
});
afterAll(async () => {
  await opened.close();
});

const part = (id: string) => opened.page.locator(`#twirl-panel-${id}`);
const tab = (name: string) => opened.page.locator("#pane").getByRole("tab", { name });

function rowBelow(): Promise<number> {
  return opened.page.evaluate((sheet) => {
    let row = 5;
    while (window.tryOutPage?.read(sheet, `A${String(row)}`) !== undefined) row += 1;
    return row;
  }, PRACTICE);
}

async function fileIs(name: string, state: "changed" | "saved"): Promise<void> {
  await opened.page.locator(`body[data-file="${state}"] #file-name`, { hasText: name }).waitFor();
}

async function openFile(name: string, from: string): Promise<void> {
  await opened.pickFile(name, new Uint8Array(readFileSync(inProject(`sample-workbooks/${from}`))));
  const drop = opened.page.getByRole("button", { name: "Open without saving" });
  const told = opened.page.locator("#file-message", { hasText: `${name} is open.` });
  await drop.or(told).first().waitFor();
  if (await drop.isVisible()) await drop.click();
  await told.waitFor();
  await opened.ready();
}

test("a row typed into the log changes the picture, with no touch of the pane", async () => {
  await tab(texts.picturesTitle).click();
  await part("pictures").locator("figure h3").waitFor();
  const row = await rowBelow();
  const last = [..."BC"].map((letter) => `${letter}${String(row - 1)}`);
  const [athlete, trick] = await Promise.all(last.map(async (address) => String(await opened.read(PRACTICE, address))));
  await part("pictures")
    .locator("#twirl-pictures-athlete")
    .selectOption(athlete ?? "");
  await part("pictures")
    .locator("#twirl-pictures-trick")
    .selectOption(trick ?? "");
  const rows = part("pictures").locator("tbody tr");
  const before = await rows.count();
  await opened.typeRow(PRACTICE, row, ["13/4/2027", athlete ?? "", trick ?? "", "Joined", "ccccc ddddd"]);
  await opened.page.waitForFunction(
    (count) => document.querySelectorAll("#twirl-panel-pictures tbody tr").length === count,
    before + 1,
  );
  await opened.page.screenshot({ path: join(screenshots, "pane-follows-log.png") });
});

test("the next opening of the page has the workbook as it was left", async () => {
  await fileIs("season.xlsx", "changed");
  const row = (await rowBelow()) - 1;
  await opened.page.reload();
  await opened.ready();
  await fileIs("season.xlsx", "changed");
  await opened.shows(PRACTICE, `A${String(row)}`, "13 Apr 2027");
  expect(await opened.page.locator("#drafts").isVisible()).toBe(false);
});

test("another file is what the pane speaks of", async () => {
  await tab(texts.logSetTitle).click();
  await openFile("Club.xlsx", "empty-season.xlsx");
  await tab(texts.picturesTitle).click();
  await part("pictures").locator("figure").waitFor({ state: "detached" });
  await fileIs("Club.xlsx", "saved");
});

test("what is saved is what a new page opens with", async () => {
  const sheets = (await opened.page.evaluate(() => window.tryOutPage?.sheetNames())) ?? [];
  const practice = sheets.find((name) => name.startsWith("Practice")) ?? "";
  await opened.goTo(practice, "G5");
  await opened.page.keyboard.type("kept");
  await opened.page.keyboard.press("Enter");
  await opened.shows(practice, "G5", "kept");
  await fileIs("Club.xlsx", "changed");
  const download = opened.page.waitForEvent("download");
  await opened.page.keyboard.press("Control+s");
  await download;
  await fileIs("Club.xlsx", "saved");
  const next = await opened.page.context().newPage();
  next.setDefaultTimeout(60_000);
  // The first page is still open, and its workbook its own: this one begins with the sample.
  await next.goto(opened.url);
  await next.locator('body[data-state="ready"] #file-name', { hasText: "season.xlsx" }).waitFor();
  await next.close();
  await opened.page.reload();
  await opened.ready();
  await fileIs("Club.xlsx", "saved");
  await opened.shows(practice, "G5", "kept");
});

test("a season that is built comes into view, and the pane counts for it", async () => {
  const form = part("new-season");
  await tab(texts.newSeasonTitle).click();
  await form.getByLabel(texts.labelLabel).fill("2031");
  await form.getByLabel(texts.contestDateLabel).fill("5/6/2031");
  await form.getByLabel(texts.athletesLabel).fill("K.O.\nV.W.");
  expect(await form.getByLabel(texts.contestDateLabel).inputValue()).toBe("5 Jun 2031");
  await form.getByLabel(texts.tricksLabel).fill("Thumb toss, 4");
  await form.getByRole("button", { name: texts.buildSeason }).click();
  await form.getByText(texts.seasonBuilt("2031")).waitFor();
  await opened.ready();
  await opened.page.locator("#selected", { hasText: " 2031 " }).waitFor();
  await opened.page.screenshot({ path: join(screenshots, "season-built-in-view.png") });
  await tab(texts.logSetTitle).click();
  const season = part("log-set").getByLabel(texts.seasonLabel);
  await opened.page.waitForFunction(
    () => document.querySelector<HTMLSelectElement>("#twirl-log-season")?.value === "2031",
  );
  // Back on a sheet of the other season, the pane goes along.
  const sheets = (await opened.page.evaluate(() => window.tryOutPage?.sheetNames())) ?? [];
  const other = sheets.find((name) => name.startsWith("Practice") && !name.endsWith("2031")) ?? "";
  await opened.goTo(other, "A5");
  await opened.page.waitForFunction(
    () => document.querySelector<HTMLSelectElement>("#twirl-log-season")?.value !== "2031",
  );
  expect(await season.inputValue()).toBe(other.replace("Practice ", ""));
});

test("the sample season is one press away", async () => {
  await opened.page.getByRole("button", { name: "Sample season" }).click();
  await opened.page.getByRole("button", { name: "Open without saving" }).click();
  await opened.page.locator("#file-message", { hasText: "season.xlsx is open." }).waitFor();
  await fileIs("season.xlsx", "saved");
  await opened.page.reload();
  await opened.ready();
  await fileIs("season.xlsx", "saved");
  expect(
    opened.requests.filter((request) => !request.startsWith(opened.url) && !/^(data|blob):/.test(request)),
  ).toEqual([]);
  expect(opened.problems).toEqual([]);
});

/** A browser of its own: nothing is kept there yet. */
async function newContext(): Promise<BrowserContext> {
  const context = await opened.page.context().browser()?.newContext();
  if (!context) throw new Error("There is no browser.");
  context.setDefaultTimeout(60_000);
  return context;
}

async function newPage(context: BrowserContext): Promise<Page> {
  const page = await context.newPage();
  await page.goto(opened.url);
  await page.locator('body[data-state="ready"]').waitFor();
  return page;
}

test("a workbook that was saved is open again in the tab that is opened once its own is closed", async () => {
  const context = await newContext();
  const first = await newPage(context);
  const [practice, mark] = ["Practice 2026", "mine"];
  await first.evaluate(([sheet, words]) => window.tryOutPage?.write(sheet, "G5", words), [practice, mark] as const);
  await first.locator('body[data-file="changed"]').waitFor();
  const download = first.waitForEvent("download");
  await first.keyboard.press("Control+s");
  await download;
  await first.locator('body[data-file="saved"]').waitFor();
  await first.waitForFunction(keepsSaved);
  await first.close();
  const second = await newPage(context);
  await second.locator('body[data-file="saved"] #file-name', { hasText: "season.xlsx" }).waitFor();
  await second.waitForFunction(([sheet, words]) => window.tryOutPage?.read(sheet, "G5") === words, [
    practice,
    mark,
  ] as const);
  await context.close();
});

/** In the page: whether a workbook is kept that has no changes beyond its file. */
function keepsSaved(): Promise<boolean> {
  return new Promise((resolve) => {
    const request = indexedDB.open("twirl-ledger-unsaved", 1);
    request.onsuccess = () => {
      const reading = request.result.transaction("headings").objectStore("headings").getAll();
      reading.onsuccess = () => {
        request.result.close();
        resolve((reading.result as { readonly isChanged: boolean }[]).some(({ isChanged }) => !isChanged));
      };
    };
  });
}

test("where the browser's storage is full the coach is told, and goes on working", async () => {
  const context = await newContext();
  const page = await newPage(context);
  const browser = await context.newCDPSession(page);
  await browser.send("Storage.overrideQuotaForOrigin", { origin: new URL(opened.url).origin, quotaSize: 1 });
  await page.evaluate(() => window.tryOutPage?.write("Practice 2026", "G5", "kept"));
  const told = page.locator("#not-kept", { hasText: "This browser keeps no copy of the workbook: it is full" });
  await told.waitFor();
  const download = page.waitForEvent("download");
  await page.keyboard.press("Control+s");
  await download;
  await page.locator('body[data-file="saved"]').waitFor();
  expect(await page.evaluate(() => window.tryOutPage?.read("Practice 2026", "G5"))).toBe("kept");
  // It is said for as long as it is so, whatever else is said meanwhile.
  await page.locator("#file-message", { hasText: "Saved as season.xlsx" }).waitFor();
  expect(await told.isVisible()).toBe(true);
  await browser.send("Storage.overrideQuotaForOrigin", { origin: new URL(opened.url).origin });
  await page.evaluate(() => window.tryOutPage?.write("Practice 2026", "G6", "room again"));
  await told.waitFor({ state: "hidden" });
  await context.close();
});

test("a browser that keeps nothing is told of, once", async () => {
  const context = await newContext();
  const page = await context.newPage();
  // As a private window of some browsers has it.
  await page.addInitScript(() => {
    IDBFactory.prototype.open = () => {
      throw new DOMException("Not here", "SecurityError");
    };
  });
  await page.goto(opened.url);
  await page.locator('body[data-state="ready"]').waitFor();
  await page.evaluate(() => window.tryOutPage?.write("Practice 2026", "G5", "kept"));
  await page.locator("#not-kept", { hasText: "This browser keeps no copy of the workbook" }).waitFor();
  await context.close();
});
