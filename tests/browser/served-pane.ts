/** The pane alone on a page in a real browser, under a strict Content-Security-Policy, with a record of all that goes wrong. */
import { readFileSync } from "node:fs";
import path from "node:path";
import axe, { type AxeResults } from "axe-core";
import type { Browser, BrowserContext, Page } from "playwright-core";
import { launchBrowser } from "./browser";
import { bundled } from "./bundle";

const root = path.resolve(__dirname, "../..");
const origin = "http://pane.test";
const policy =
  "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'";

const html = `<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Twirl Ledger</title>
<meta name="viewport" content="width=device-width, initial-scale=1">
<link rel="stylesheet" href="/pane.css"></head><body class="twirl-page"><main id="pane"></main>
<script src="/pane-page.js"></script></body></html>`;

export const themes = [
  { theme: "light", media: { colorScheme: "light", forcedColors: "none" } },
  { theme: "dark", media: { colorScheme: "dark", forcedColors: "none" } },
  { theme: "forced", media: { colorScheme: "dark", forcedColors: "active" } },
] as const;
export type Media = (typeof themes)[number]["media"];

export interface OpenPaneOptions {
  readonly media?: Media;
  readonly hostTheme?: string;
  /** What stands in the address, such as `?season`. */
  readonly query?: string;
  readonly width?: number;
  readonly height?: number;
  readonly touch?: boolean;
  /** Whether the first steps are shown, as to somebody new; otherwise they have been seen through. */
  readonly welcome?: boolean;
  /** Of a page that was opened before: what is kept on this computer is there again. */
  readonly context?: BrowserContext;
}

export interface OpenedPane {
  readonly page: Page;
  /** What the page complains about, and what it asks of anybody else. */
  readonly complaints: string[];
}

export interface ServedPane {
  open(options?: OpenPaneOptions): Promise<OpenedPane>;
  close(): Promise<void>;
}

export async function servePane(): Promise<ServedPane> {
  const css = readFileSync(path.join(root, "src/taskpane/pane.css"), "utf8");
  const script = await bundled("pane-page.ts");
  const browser: Browser = await launchBrowser();

  return {
    open: async (options = {}) => {
      const {
        media = themes[0].media,
        hostTheme,
        query = "",
        width = 300,
        height = 700,
        touch = false,
        welcome = false,
      } = options;
      const context = options.context ?? (await browser.newContext({ viewport: { width, height }, hasTouch: touch }));
      const page = await context.newPage();
      const complaints: string[] = [];
      page.on("console", (message) => {
        if (message.type() === "error" || message.type() === "warning") complaints.push(message.text());
      });
      page.on("pageerror", (error) => complaints.push(error.message));
      await page.emulateMedia(media);
      // Only where nothing is kept yet: a page that is loaded again remembers what it was told.
      if (!welcome) await page.addInitScript(() => (localStorage["twirl-ledger.first-steps"] ??= '"over"'));
      await page.route("**/*", (route) => {
        const asked = new URL(route.request().url());
        const answers: Readonly<Record<string, readonly [string, string]>> = {
          "/": ["text/html", hostTheme ? html.replace("<html", `<html data-theme="${hostTheme}"`) : html],
          "/pane.css": ["text/css", css],
          "/pane-page.js": ["text/javascript", script],
          "/favicon.ico": ["image/x-icon", ""],
        };
        const answer = asked.origin === origin ? answers[asked.pathname] : undefined;
        if (!answer) {
          complaints.push(`asked for ${asked.href}`);
          return route.abort();
        }
        return route.fulfill({
          contentType: answer[0],
          body: answer[1],
          headers: { "Content-Security-Policy": policy },
        });
      });
      await page.goto(`${origin}/${query}`);
      await page.getByRole("tablist").waitFor();
      return { page, complaints };
    },
    close: () => browser.close(),
  };
}

/** The accessibility rules that the page breaks, each with where and why. */
export async function brokenRules(page: Page): Promise<{ broken: unknown[]; kept: string[] }> {
  await page.evaluate(axe.source);
  const results = await page.evaluate(() =>
    (window as unknown as { axe: { run: (options: object) => Promise<AxeResults> } }).axe.run({
      runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
    }),
  );
  return {
    broken: results.violations.map(({ id, nodes }) => [id, nodes.map((node) => node.failureSummary)]),
    kept: results.passes.map(({ id }) => id),
  };
}

/** Everything that can be pressed or typed into and is smaller than this in either direction. */
export function smallTargets(page: Page, leastPixels: number, within = "body"): Promise<unknown[]> {
  return page.locator(`${within} :is(button, input, select, textarea, summary, [role="option"]):visible`).evaluateAll(
    (all, least) =>
      all
        .map((each) => {
          // A tick box is pressed by its words too.
          const ticked = each.matches('[type="checkbox"], [type="radio"]');
          const target = (ticked ? each.closest("label") : null) ?? each;
          return { what: each.textContent || each.id, box: target.getBoundingClientRect().toJSON() as DOMRect };
        })
        .filter(({ box }) => box.height < least || box.width < least),
    leastPixels,
  );
}
