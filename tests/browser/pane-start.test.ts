/** The pane's own page, with stand-ins for the host's library: it mounts the pane, or says in a sentence why not. */
import { readFileSync } from "node:fs";
import path from "node:path";
import { build } from "esbuild";
import type { Browser } from "playwright-core";
import { launchBrowser } from "./browser";
import { texts } from "../../src/taskpane/words/texts";

const folder = path.resolve(__dirname, "../../src/taskpane");
const origin = "http://pane.test";

let browser: Browser;
let script: string;

beforeAll(async () => {
  const built = await build({
    entryPoints: [path.join(folder, "main.ts")],
    bundle: true,
    write: false,
    format: "iife",
    target: "es2020",
  });
  script = built.outputFiles[0]?.text ?? "";
  browser = await launchBrowser();
}, 300_000);

afterAll(async () => {
  await browser.close();
});

/** A host's library that becomes ready as `ready` says, in a program whose panes have the given colour. */
const library = (ready: string, colour?: string): string => `
  globalThis.Office = {
    HostType: { Excel: "Excel" },
    context: ${colour === undefined ? "{}" : `{ officeTheme: { bodyBackgroundColor: "${colour}" } }`},
    onReady: () => ${ready},
  };`;

const cases = [
  { what: "the host's library did not come", office: null, shown: "outside", theme: null },
  {
    what: "no program opened the page",
    office: library("Promise.resolve({ host: null, platform: null })"),
    shown: "outside",
    theme: null,
  },
  {
    what: "another program opened it",
    office: library('Promise.resolve({ host: "Word" })'),
    shown: "outside",
    theme: null,
  },
  { what: "nobody ever answers", office: library("new Promise(() => undefined)"), shown: "outside", theme: null },
  {
    what: "the spreadsheet program is light",
    office: library('Promise.resolve({ host: "Excel" })', "#FFFFFF"),
    shown: "pane",
    theme: "light",
  },
  {
    what: "the spreadsheet program is dark",
    office: library('Promise.resolve({ host: "Excel" })', "#262626"),
    shown: "pane",
    theme: "dark",
  },
  {
    what: "the program tells no colours",
    office: library('Promise.resolve({ host: "Excel" })'),
    shown: "pane",
    theme: null,
  },
  {
    what: "the program answers late",
    office: library('new Promise((resolve) => setTimeout(() => resolve({ host: "Excel" }), 5000))'),
    shown: "pane",
    theme: null,
  },
] as const;

test.each(cases)("$what: the $shown is shown", async ({ office, shown, theme }) => {
  const context = await browser.newContext({ viewport: { width: 300, height: 600 } });
  const page = await context.newPage();
  const files: Readonly<Record<string, string | null>> = {
    "/taskpane.html": readFileSync(path.join(folder, "taskpane.html"), "utf8"),
    "/pane.css": readFileSync(path.join(folder, "pane.css"), "utf8"),
    "/office/office.js": office,
    "/functions.js": "",
    "/taskpane.js": script,
  };
  const others: string[] = [];
  await page.route("**/*", (route) => {
    const asked = new URL(route.request().url());
    const body = files[asked.pathname];
    if (asked.origin !== origin) others.push(asked.href);
    if (body === undefined || body === null) return route.fulfill({ status: 404, body: "" });
    const type = { html: "text/html", css: "text/css", js: "text/javascript" }[asked.pathname.split(".").pop() ?? ""];
    return route.fulfill({
      contentType: type ?? "text/plain",
      body,
      headers: { "Content-Security-Policy": "default-src 'none'; script-src 'self'; style-src 'self'" },
    });
  });
  await page.goto(`${origin}/taskpane.html`);
  const expected = shown === "pane" ? page.getByRole("tablist") : page.getByText(texts.outside);
  await expected.waitFor({ timeout: 10_000 });
  expect(await page.locator("html").getAttribute("data-theme")).toBe(theme);
  expect(await page.locator("#pane > *").count()).toBeGreaterThan(0);
  if (shown === "pane") expect(await page.getByText(texts.outside).count()).toBe(0);
  expect(others).toEqual([]);
  await context.close();
});
