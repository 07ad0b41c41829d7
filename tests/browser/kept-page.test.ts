/**
 * The page that a club keeps on its own web space, at an address with a path, under the package's own headers: opened
 * once, it is kept, and opens and works without a connection; a newer version waits for the next opening, and one that
 * cannot be fetched whole changes nothing.
 */
import { createHash } from "node:crypto";
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import os from "node:os";
import path from "node:path";
import type { Browser, BrowserContext, Page } from "playwright-core";
import { texts } from "../../src/taskpane/words/texts";
import { writePackage } from "../../src/tools/package/package";
import { firstVisit } from "../../src/tools/package/page-folder";
import { launchBrowser } from "./browser";
import { boards, readLog } from "./log-and-board";
import { packagedRules } from "./packaged-headers";
import { drive, type DrivenPage, openTryOutPage, problemsOf, screenshots } from "./page";
import { ATHLETES, buildSeason, keysOfRow, STAGES, TRICKS, typeKeys } from "./typing";
import { WebSpace } from "./web-space";

jest.setTimeout(600_000);

const BASE = "/clubs/twirl/page/";
const temporary = mkdtempSync(path.join(os.tmpdir(), "twirl-ledger-"));
const packaged = path.join(temporary, "package");
const first = path.join(packaged, "page");
const newer = path.join(temporary, "newer");

const KEPT = "This page is kept on this device now and opens without a connection.";
const NEWER =
  "A newer version of this page is here: it is used from the next opening, once every window of the page is closed.";
const NOT_RENEWED =
  "A newer version of this page could not be fetched whole: this one stays in use, and the next opening tries again.";
const NOT_KEPT =
  "This page could not be kept on this device, and opens with a connection only; the next opening tries again.";

let browser: Browser;
const spaces: WebSpace[] = [];

beforeAll(async () => {
  writePackage({
    address: `https://tools.example.org${BASE.replace("page/", "")}`,
    forDevelopment: false,
    officeNetwork: false,
    out: packaged,
  });
  anotherVersion(newer);
  mkdirSync(screenshots, { recursive: true });
  browser = await launchBrowser();
});

afterAll(async () => {
  await Promise.all(spaces.map((space) => space.stop()));
  await browser.close();
  rmSync(temporary, { recursive: true });
});

/** The first version with another word in its bar and in its pane, and so with another list of files. */
function anotherVersion(out: string): void {
  cpSync(first, out, { recursive: true });
  let worker = readFileSync(path.join(out, "worker.js"), "utf8");
  const change = (file: string, from: string, to: string): void => {
    const before = readFileSync(path.join(out, file));
    const after = Buffer.from(before.toString("utf8").replace(from, to));
    expect(after.equals(before)).toBe(false);
    writeFileSync(path.join(out, file), after);
    for (const form of ["hex", "base64"] as const) {
      const [old, fresh] = [before, after].map((bytes) => createHash("sha256").update(bytes).digest(form));
      expect(worker).toContain(old);
      worker = worker.replace(old ?? "", fresh ?? "");
    }
  };
  change("index.html", "try-out page</span>", "the newer page</span>");
  change("functions-help.js", "Whether a bad spell is real", "Whether a bad spell is truly real");
  writeFileSync(path.join(out, "worker.js"), worker);
}

interface Club {
  readonly space: WebSpace;
  readonly context: BrowserContext;
}

/** A club with the first version, and a coach's device that knows nothing yet. */
async function club(): Promise<Club> {
  const space = new WebSpace(BASE, packagedRules(packaged), first);
  spaces.push(space);
  await space.start();
  const context = await browser.newContext({ viewport: { width: 1180, height: 820 } });
  return { space, context };
}

interface Opened extends DrivenPage {
  readonly problems: readonly string[];
}

async function open({ space, context }: Club): Promise<Opened> {
  const page = await context.newPage();
  const problems = problemsOf(page);
  const driven = drive(page);
  await page.goto(space.url);
  await driven.ready();
  return Object.assign(driven, { problems });
}

const says = ({ page }: DrivenPage, sentence: string): Promise<void> =>
  page.locator("#kept").getByText(sentence, { exact: true }).waitFor();

const heading = async ({ page }: DrivenPage): Promise<string> => (await page.locator("h1 span").textContent()) ?? "";

/** Opens the list of functions, whose file is fetched only now, and answers what it says of one. */
async function slump({ page }: DrivenPage): Promise<string> {
  const pane = page.locator("#pane");
  await pane.getByRole("tab", { name: texts.functionsTitle }).click();
  await pane.getByRole("button", { name: "SLUMP", exact: true }).waitFor();
  return (await pane.getByText("Whether a bad spell is").first().textContent()) ?? "";
}

/** A browser lets the newer version in a moment after the last window was closed: seen from a page that is not kept. */
async function takenOver({ space, context }: Club): Promise<void> {
  const page = await context.newPage();
  await page.goto(new URL("/", space.url).href);
  await page.waitForFunction(
    async (scope) => (await navigator.serviceWorker.getRegistration(scope))?.waiting === null,
    space.url,
  );
  await page.close();
}

/** How many files the browser keeps for the page; waits until it is as many as wanted. */
async function filesKept(page: Page, wanted?: number): Promise<number> {
  const found = await page.waitForFunction(async (most) => {
    const names = await caches.keys();
    const kept = await Promise.all(names.map(async (name) => (await caches.open(name)).keys()));
    return most === null || kept.flat().length === most ? kept.flat().length : null;
  }, wanted ?? null);
  return (await found.jsonValue()) ?? 0;
}

/** A visit up to where the page is kept; the page is closed again. */
async function visit(at: Club): Promise<void> {
  const opened = await open(at);
  await says(opened, KEPT);
  expect(opened.problems).toEqual([]);
  await opened.page.close();
}

describe("a page that is kept", () => {
  let at: Club;
  beforeAll(async () => {
    at = await club();
  });

  test("is fetched whole by the first visit, and no file but its own markup twice", async () => {
    const opened = await open(at);
    await says(opened, KEPT);
    await opened.page.screenshot({ path: path.join(screenshots, "page-kept.png") });
    expect(opened.problems).toEqual([]);
    const { files, gzipped } = firstVisit(first);
    const whole = at.space.sent.filter(({ status }) => status === 200);
    expect(at.space.sent.filter(({ status }) => status >= 400)).toEqual([]);
    const names = whole.map(({ file }) => file);
    // The page's own markup has two addresses: that of the folder, and its name.
    expect(names.filter((name, index) => names.indexOf(name) !== index)).toEqual(["index.html"]);
    expect(names).toHaveLength(files + 1);
    // What npm run package and README tell.
    const markup = whole.find(({ file }) => file === "index.html")?.bytes ?? 0;
    expect(whole.reduce((sum, { bytes }) => sum + bytes, 0) - markup).toBe(gzipped);
    await opened.page.close();
  });

  test("can be installed: the browser has nothing against it", async () => {
    const opened = await open(at);
    const session = await at.context.newCDPSession(opened.page);
    const { errors } = await session.send("Page.getAppManifest");
    expect(errors).toEqual([]);
    const { installabilityErrors } = await session.send("Page.getInstallabilityErrors");
    // The tests' contexts are private windows, in which no page can be installed.
    expect(installabilityErrors.filter(({ errorId }) => errorId !== "in-incognito")).toEqual([]);
    // What the browser answers is its own affair, in a private window above all: that it is asked is the page's.
    await opened.page.addInitScript(() => {
      navigator.storage.persist = () => {
        document.body.dataset["asked"] = "to hold what is kept";
        return Promise.resolve(true);
      };
    });
    await opened.page.reload();
    await opened.page.locator("body[data-asked]").waitFor();
    await opened.page.close();
  });

  test("without a connection it opens, a season is built, sets are typed, the board follows, a workbook is saved and opened", async () => {
    await at.space.stop();
    const asked = at.space.sent.length;
    const opened = await open(at);
    const { page } = opened;
    await buildSeason(page, "2028");
    await opened.goTo("Practice 2028", "A5");
    const keys = [
      ["3/1/2028", ATHLETES[0], TRICKS[0], STAGES[1], "ccccccccdd"],
      ["3/2/2028", ATHLETES[1], TRICKS[1], STAGES[1], "ccccccdddd"],
    ].flatMap(keysOfRow);
    await typeKeys(page, keys, [20, 60]);
    await opened.shows("Practice 2028", "E6", "ccccccdddd");
    await opened.ready();
    const log = await readLog(opened, "Practice 2028");
    expect(log.map((row) => row.slice(1, 5))).toEqual([
      [ATHLETES[0], TRICKS[0], STAGES[1], "ccccccccdd"],
      [ATHLETES[1], TRICKS[1], STAGES[1], "ccccccdddd"],
    ]);
    const { expected, shown } = await boards(opened, "Board 2028", log);
    expect(shown).toEqual(expected);
    await opened.goTo("Board 2028", "A5");
    await page.screenshot({ path: path.join(screenshots, "page-without-connection.png") });

    const [download] = await Promise.all([page.waitForEvent("download"), page.keyboard.press("Control+s")]);
    const saved = new Uint8Array(readFileSync(await download.path()));
    await page.locator("#file-message", { hasText: "Saved as" }).waitFor();
    await opened.pickFile("again.xlsx", saved);
    await page.locator("#file-message", { hasText: "again.xlsx is open." }).waitFor();
    await opened.ready();
    await opened.shows("Practice 2028", "E6", "ccccccdddd");

    // Every part of the pane, and the other language: their files come from the device.
    const tabs = page.locator("#pane").getByRole("tab");
    for (let part = 0; part < (await tabs.count()); part += 1) {
      await tabs.nth(part).click();
      await page.locator(`#pane [role="tab"][aria-selected="true"]`).nth(0).waitFor();
    }
    expect(await slump(opened)).toContain("is real");
    await page.locator("#twirl-language").selectOption("fr");
    await page.locator("html[lang='fr']").waitFor();
    expect(opened.problems).toEqual([]);

    // An address that ends with a choice is the same page; the help and the guide are there too.
    await page.goto(`${at.space.url}?empty=null`);
    await opened.ready();
    for (const file of ["help.html", "guide.html"]) {
      await page.goto(at.space.url + file);
      await page.getByRole("heading", { level: 1 }).waitFor();
    }
    expect(at.space.sent).toHaveLength(asked);
    await page.close();
    await at.space.start();
  });
});

test("a newer version is told, the open page stays what it is, and the next opening has the newer one whole", async () => {
  const at = await club();
  await visit(at);
  at.space.folder = newer;
  const before = await open(at);
  await says(before, NEWER);
  await before.page.screenshot({ path: path.join(screenshots, "page-newer.png") });
  // Files that are fetched only now are still those of the version that is open; loading it anew changes nothing.
  expect([await heading(before), await slump(before)]).toEqual([
    "try-out page",
    expect.stringContaining("spell is real"),
  ]);
  await before.page.reload();
  await before.ready();
  expect(await heading(before)).toBe("try-out page");
  await says(before, NEWER);
  const { files } = firstVisit(first);
  // Both versions' two files, and once what they share. The worker itself is kept by the browser.
  expect(await filesKept(before.page)).toBe(files - 1 + 2);
  await before.page.close();
  await takenOver(at);

  await at.space.stop();
  const after = await open(at);
  expect([await heading(after), await slump(after)]).toEqual([
    "the newer page",
    expect.stringContaining("spell is truly real"),
  ]);
  expect(await after.page.locator("#kept").isHidden()).toBe(true);
  await filesKept(after.page, files - 1);
  expect(after.problems).toEqual([]);
  await after.page.close();
  await at.space.start();
});

test.each([
  ["a file that is missing", (space: WebSpace) => space.missing.add("functions-help.js")],
  [
    // The worker's list came before the files: what it names is not what is there.
    "a file of the version before",
    (space: WebSpace) => {
      const mixed = path.join(temporary, "mixed");
      cpSync(newer, mixed, { recursive: true });
      cpSync(path.join(first, "functions-help.js"), path.join(mixed, "functions-help.js"));
      space.folder = mixed;
    },
  ],
])("a newer version with %s changes nothing, and is taken once it is whole", async (_what, breakIt) => {
  const at = await club();
  await visit(at);
  at.space.folder = newer;
  breakIt(at.space);
  const present = await open(at);
  await says(present, NOT_RENEWED);
  await present.page.screenshot({ path: path.join(screenshots, "page-not-renewed.png") });
  await present.page.close();

  await at.space.stop();
  const later = await open(at);
  expect([await heading(later), await slump(later)]).toEqual([
    "try-out page",
    expect.stringContaining("spell is real"),
  ]);
  expect(later.problems).toEqual([]);
  await later.page.close();

  await at.space.start();
  at.space.folder = newer;
  at.space.missing.clear();
  const mended = await open(at);
  await says(mended, NEWER);
  await mended.page.close();
  await takenOver(at);
  const next = await open(at);
  expect(await heading(next)).toBe("the newer page");
  await next.page.close();
});

test("a first visit that cannot be kept says so, and the page works", async () => {
  const at = await club();
  at.space.missing.add("guide.html");
  const opened = await open(at);
  await says(opened, NOT_KEPT);
  expect(await heading(opened)).toBe("try-out page");
  await opened.page.screenshot({ path: path.join(screenshots, "page-not-kept.png") });
  await opened.page.close();
  at.space.missing.clear();
  await visit(at);
});

test("the page of npm start is never kept", async () => {
  const opened = await openTryOutPage();
  expect(await opened.page.evaluate(async () => (await navigator.serviceWorker.getRegistrations()).length)).toBe(0);
  expect(await opened.page.locator("#kept").isHidden()).toBe(true);
  expect(opened.requests.filter((url) => /worker|keep\.js|manifest/.test(url))).toEqual([]);
  await opened.close();
});
