/**
 * The pane as it is built for a club, with the functions as built beside it, in a real browser: what the bundles leave to
 * each other is there. The workbook is the strict one of the tests.
 */
import { existsSync, readFileSync } from "node:fs";
import path from "node:path";
import type { Browser, Page } from "playwright-core";
import { texts } from "../../src/taskpane/words/texts";
import { launchBrowser } from "./browser";
import { bundled } from "./bundle";

jest.setTimeout(300_000);

const dist = path.resolve(__dirname, "../../dist");
const origin = "http://pane.test";
const types: Readonly<Record<string, string>> = { ".html": "text/html", ".css": "text/css", ".js": "text/javascript" };

let browser: Browser;
let office: string;

beforeAll(async () => {
  if (!existsSync(path.join(dist, "taskpane.js")))
    throw new Error("There is no built pane: run `npm run build` first.");
  office = await bundled("fake-office-page.ts");
  browser = await launchBrowser();
});

afterAll(async () => {
  await browser.close();
});

/** Opens the pane; files named in `lost` are not to be had. */
async function openBuilt(lost: readonly string[] = []): Promise<{ page: Page; asked: string[]; errors: string[] }> {
  const context = await browser.newContext({ viewport: { width: 320, height: 700 } });
  const page = await context.newPage();
  const asked: string[] = [];
  const errors: string[] = [];
  page.on("pageerror", (error) => errors.push(error.message));
  await page.route("**/*", (route) => {
    const name = new URL(route.request().url()).pathname.slice(1);
    asked.push(name);
    const body = name === "office/office.js" ? office : undefined;
    const file = path.join(dist, name);
    if (lost.includes(name) || (body === undefined && !existsSync(file)))
      return route.fulfill({ status: 404, body: "" });
    return route.fulfill({
      contentType: types[path.extname(name)] ?? "text/plain",
      body: body ?? readFileSync(file, "utf8"),
      headers: { "Content-Security-Policy": "default-src 'none'; script-src 'self'; style-src 'self'" },
    });
  });
  await page.goto(`${origin}/taskpane.html`);
  await page.getByRole("tablist").waitFor();
  return { page, asked, errors };
}

async function choose(page: Page): Promise<void> {
  await page.getByRole("combobox", { name: texts.athleteLabel, exact: true }).fill("M.K.");
  await page.getByRole("combobox", { name: texts.trickLabel, exact: true }).fill("Double turn");
  await page.keyboard.press("Tab");
}

test("a set is logged through the host's own calls, with its status", async () => {
  const { page, errors } = await openBuilt();
  await choose(page);
  await page.locator(".twirl-badge").getByText("Confirm").waitFor();
  for (const key of "cdbcb") await page.locator(".twirl-log").press(key);
  await page.locator(".twirl-badge").getByText("Building").waitFor();
  await page.getByRole("button", { name: texts.saveSet }).click();
  const words = texts.setSaved("M.K.", "Double turn", "cdbcb", "Practice 2027!A9:J9");
  await page.locator(".twirl-outcome", { hasText: words }).waitFor();
  const row = await page.evaluate(() => [..."BCDE"].map((column) => window.fakeCell?.("Practice 2027", `${column}9`)));
  expect(row).toEqual(["M.K.", "Double turn", "Joined", "cdbcb"]);
  expect(errors).toEqual([]);
  await page.context().close();
});

test("without the functions' file the attempts are counted and saved all the same, without a status", async () => {
  const { page } = await openBuilt(["functions.js"]);
  await choose(page);
  for (const key of "ccd") await page.locator(".twirl-log").press(key);
  expect(await page.locator(".twirl-marks").textContent()).toBe("ccd");
  await page.locator(".twirl-judged", { hasText: texts.statusUnavailable }).waitFor();
  await page.getByRole("button", { name: texts.saveSet }).click();
  await page.locator(".twirl-outcome", { hasText: "ccd" }).waitFor();
  expect(await page.evaluate(() => window.fakeCell?.("Practice 2027", "E9"))).toBe("ccd");
  await page.context().close();
});

test("the list of functions comes when it is first opened, and is asked for again where it did not come", async () => {
  const lost = ["functions-help.js"];
  const { page, asked } = await openBuilt(lost);
  expect(asked).not.toContain("functions-help.js");
  const tab = page.getByRole("tab", { name: texts.functionsTitle });
  await tab.click();
  await page.getByText(texts.partMissing).waitFor();
  lost.pop();
  await page.getByRole("tab", { name: texts.newSeasonTitle }).click();
  await tab.click();
  await page.getByRole("button", { name: "READINESS", exact: true }).waitFor();
  await page.context().close();
});
