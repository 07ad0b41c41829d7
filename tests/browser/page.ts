/** The try-out page in a real browser, served from what the build has made, with a record of all that goes wrong. */
import { existsSync } from "node:fs";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";

import type {} from "../../src/page/page-window";
import { serve } from "../../src/tools/serve/server";
import { launchBrowser } from "./browser";

const builtPage = join(__dirname, "../../build/preview");
export const screenshots = join(__dirname, "../../build/screenshots");

/** Long enough for a small machine that is busy with other things. */
const patienceMilliseconds = 60_000;

/** A page with the open-source grid, wherever it is served from. */
export interface DrivenPage {
  readonly page: Page;
  /** What a cell shows. */
  read(sheet: string, address: string): Promise<unknown>;
  /** Waits until a cell shows this. */
  shows(sheet: string, address: string, expected: string): Promise<void>;
  /** Shows and selects a cell. */
  goTo(sheet: string, address: string): Promise<void>;
  /** Hands a file to the page's own picker, as Open… does; what the page makes of it is for the caller to wait for. */
  pickFile(name: string, bytes: Uint8Array): Promise<void>;
  /** Types one value after the other into a row, with the keyboard alone, each followed by Tab. */
  typeRow(sheet: string, row: number, values: readonly string[]): Promise<void>;
  /** Presses Print. The browser's own dialog would stop the page: what it would be given is looked at instead. */
  printSheet(): Promise<void>;
  /** Waits until everything is worked out. */
  ready(): Promise<void>;
}

export interface OpenPage extends DrivenPage {
  readonly url: string;
  /** Addresses of everything that was asked for. */
  readonly requests: readonly string[];
  /** What the console called an error, exceptions and refusals of the Content-Security-Policy. */
  readonly problems: readonly string[];
  close(): Promise<void>;
}

export interface OpenOptions {
  readonly query?: string;
  readonly width?: number;
  readonly height?: number;
  /** The browser's language, such as `en-GB`; its own, `en-US`, where left out. */
  readonly locale?: string;
  /** A phone or a tablet: fingers, no mouse. */
  readonly touch?: boolean;
  /** The system's colours; light where left out. */
  readonly colours?: "light" | "dark";
}

export async function openTryOutPage({
  query = "",
  width = 1366,
  height = 768,
  locale,
  touch = false,
  colours = "light",
}: OpenOptions = {}): Promise<OpenPage> {
  if (!existsSync(join(builtPage, "page.html"))) {
    throw new Error("There is no built page to open: run `npm run build` first.");
  }
  const server = await serve({ folders: [builtPage], port: 0 });
  let browser: Browser | undefined;
  try {
    browser = await launchBrowser();
    // With a context of its own, in which a test may open further pages.
    const context = await browser.newContext({
      viewport: { width, height },
      hasTouch: touch,
      isMobile: touch,
      colorScheme: colours,
      ...(locale === undefined ? {} : { locale }),
    });
    const page = await context.newPage();
    page.setDefaultTimeout(patienceMilliseconds);
    const requests: string[] = [];
    page.on("request", (request) => requests.push(request.url()));
    const problems = problemsOf(page);
    await page.goto(server.url + query);
    const opened = new TryOutPage(page, browser, server, requests, problems);
    await opened.ready();
    return opened;
  } catch (cause) {
    await browser?.close();
    await server.close();
    throw cause;
  }
}

/** What goes wrong on a page from now on. */
export function problemsOf(page: Page): readonly string[] {
  const problems: string[] = [];
  page.on("requestfailed", (request) => problems.push(`Failed: ${request.url()}`));
  page.on("response", (response) => {
    if (response.status() >= 400) problems.push(`${String(response.status())}: ${response.url()}`);
  });
  page.on("console", (message) => {
    if (message.type() === "error") problems.push(message.text());
  });
  page.on("pageerror", (error) => problems.push(error.message));
  return problems;
}

export function drive(page: Page): DrivenPage {
  page.setDefaultTimeout(patienceMilliseconds);
  return new Driver(page);
}

class Driver implements DrivenPage {
  constructor(readonly page: Page) {}

  read(sheet: string, address: string): Promise<unknown> {
    return this.page.evaluate(([name, cell]) => window.tryOutPage?.read(name, cell), [sheet, address] as const);
  }

  async shows(sheet: string, address: string, expected: string): Promise<void> {
    const shown = this.page.waitForFunction(
      ([name, cell, words]) => String(window.tryOutPage?.read(name, cell) ?? "") === words,
      [sheet, address, expected] as const,
    );
    await shown.catch(async () => {
      const found = JSON.stringify(await this.read(sheet, address));
      throw new Error(`${sheet}!${address} was to show ${JSON.stringify(expected)}, but shows ${String(found)}.`);
    });
  }

  async goTo(sheet: string, address: string): Promise<void> {
    // The line about the selected cell follows the grid: when it tells the cell, keys go there. A new sheet and pasted
    // cells select a cell of their own a moment later, so what was asked for is asked for again.
    const name = sheet.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
    const told = this.page.locator("#selected", { hasText: new RegExp(`^${name} ${address}\\b`) });
    for (let round = 1; ; round += 1) {
      await this.page.evaluate(([at, cell]) => window.tryOutPage?.goTo(at, cell), [sheet, address] as const);
      try {
        await told.waitFor({ timeout: 5000 });
        return;
      } catch (cause) {
        if (round === 6) throw cause;
      }
    }
  }

  async pickFile(name: string, bytes: Uint8Array): Promise<void> {
    const file = { name, mimeType: "application/octet-stream", buffer: Buffer.from(bytes) };
    await this.page.locator("#file-picker").setInputFiles(file);
  }

  async typeRow(sheet: string, row: number, values: readonly string[]): Promise<void> {
    await this.goTo(sheet, `A${String(row)}`);
    for (const [index, value] of values.entries()) {
      const address = `${String.fromCharCode(65 + index)}${String(row)}`;
      await this.page.keyboard.type(value);
      await this.page.keyboard.press("Tab");
      // What is typed is checked before it stands: the next value has to wait for that.
      await this.page.waitForFunction(
        ([name, cell]) => !["", undefined, null].includes(window.tryOutPage?.read(name, cell) as string | undefined),
        [sheet, address] as const,
      );
    }
    await this.ready();
  }

  async printSheet(): Promise<void> {
    await this.page.evaluate(() => {
      window.print = () => undefined;
    });
    await this.page.getByRole("button", { name: "Print this sheet" }).click();
    await this.page.locator(".page-paper").waitFor({ state: "attached" });
  }

  async ready(): Promise<void> {
    const state = await this.page.waitForFunction(() => {
      const { state: now } = document.body.dataset;
      return now === "ready" || now === "failed" ? now : null;
    });
    if ((await state.jsonValue()) === "failed") {
      throw new Error((await this.page.locator("#state").textContent()) ?? "The page could not be opened.");
    }
  }
}

class TryOutPage extends Driver implements OpenPage {
  readonly url: string;

  constructor(
    page: Page,
    private readonly browser: Browser,
    private readonly server: { readonly url: string; close(): Promise<void> },
    readonly requests: readonly string[],
    readonly problems: readonly string[],
  ) {
    super(page);
    this.url = server.url;
  }

  async close(): Promise<void> {
    await this.browser.close();
    await this.server.close();
  }
}
