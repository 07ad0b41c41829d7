/**
 * The pane in a real browser at the width of the host's pane, under a strict Content-Security-Policy: accessibility rules,
 * contrast, reflow, size of targets, focus and keyboard, in light, dark and forced colours.
 */
import { mkdirSync, readFileSync } from "node:fs";
import path from "node:path";
import axe, { type AxeResults } from "axe-core";
import { build } from "esbuild";
import type { Browser, Page } from "playwright-core";
import { launchBrowser } from "./browser";
import { texts } from "../../src/taskpane/texts";

const root = path.resolve(__dirname, "../..");
const origin = "http://pane.test";
const width = 300;
/** Set this to a folder to keep pictures of what the tests saw. */
const pictures = process.env["TWIRL_PICTURES"];

const html = `<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Twirl Ledger</title>
<link rel="stylesheet" href="/pane.css"></head><body class="twirl-page"><main id="pane"></main>
<script src="/pane-page.js"></script></body></html>`;
const policy =
  "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'";

let browser: Browser;
let script: string;
const css = readFileSync(path.join(root, "src/taskpane/pane.css"), "utf8");

beforeAll(async () => {
  const built = await build({
    entryPoints: [path.join(__dirname, "pane-page.ts")],
    bundle: true,
    write: false,
    format: "iife",
    target: "es2022",
  });
  script = built.outputFiles[0]?.text ?? "";
  browser = await launchBrowser();
}, 300_000);

afterAll(async () => {
  await browser.close();
});

const themes = [
  { theme: "light", media: { colorScheme: "light", forcedColors: "none" } },
  { theme: "dark", media: { colorScheme: "dark", forcedColors: "none" } },
  { theme: "forced", media: { colorScheme: "dark", forcedColors: "active" } },
] as const;
type Media = (typeof themes)[number]["media"];

/** Opens the pane. What the page complains about, and what it asks of anybody else, is in `complaints`. */
async function openPane(media: Media, hostTheme?: string): Promise<{ page: Page; complaints: string[] }> {
  const context = await browser.newContext({ viewport: { width, height: 700 } });
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on("console", (message) => {
    if (message.type() === "error" || message.type() === "warning") complaints.push(message.text());
  });
  page.on("pageerror", (error) => complaints.push(error.message));
  await page.emulateMedia(media);
  await page.route("**/*", (route) => {
    const asked = route.request().url();
    const answers: Readonly<Record<string, readonly [string, string]>> = {
      [`${origin}/`]: ["text/html", hostTheme ? html.replace("<html", `<html data-theme="${hostTheme}"`) : html],
      [`${origin}/pane.css`]: ["text/css", css],
      [`${origin}/pane-page.js`]: ["text/javascript", script],
      [`${origin}/favicon.ico`]: ["image/x-icon", ""],
    };
    const answer = answers[asked];
    if (!answer) {
      complaints.push(`asked for ${asked}`);
      return route.abort();
    }
    return route.fulfill({
      contentType: answer[0],
      body: answer[1],
      headers: { "Content-Security-Policy": policy },
    });
  });
  await page.goto(`${origin}/`);
  await page.getByRole("tab", { name: texts.newSeasonTitle }).waitFor();
  return { page, complaints };
}

async function fillIn(page: Page, label: string): Promise<void> {
  await page.getByLabel(texts.labelLabel).fill(label);
  await page.getByLabel(texts.athletesLabel).fill("M.K.\nA.R.");
  await page.getByLabel(texts.tricksLabel).fill("Double turn, 4\nThumb toss");
}

/** What a coach may come upon, each with what leads there. */
const situations: readonly { readonly name: string; readonly reach: (page: Page) => Promise<void> }[] = [
  { name: "form", reach: () => Promise.resolve() },
  {
    name: "mistakes",
    reach: async (page) => {
      await page.getByLabel(texts.setSizeLabel).fill("many");
      await page.getByLabel(texts.tricksLabel).fill("Averyveryverylongwordwithoutanyspacethatwouldwidenthepane, left");
      await page.getByRole("button", { name: texts.buildSeason }).click();
      await page.locator('[aria-invalid="true"]').first().waitFor();
    },
  },
  {
    name: "built",
    reach: async (page) => {
      await fillIn(page, "2027");
      await page.getByRole("button", { name: texts.buildSeason }).click();
      await page.getByText(texts.seasonBuiltNext).waitFor();
    },
  },
  {
    name: "failed",
    reach: async (page) => {
      await fillIn(page, "2099");
      await page.getByRole("button", { name: texts.buildSeason }).click();
      await page.getByText(texts.nothingLeftBehind).waitFor();
    },
  },
  {
    name: "functions",
    reach: async (page) => {
      await page.getByRole("tab", { name: texts.functionsTitle }).click();
      await page.getByRole("button", { name: "READINESS", exact: true }).click();
      await page.getByRole("button", { name: texts.functionInsertOf("READINESS"), exact: true }).click();
      await page.getByText(/ is in Sheet1!B2\.$/).waitFor();
    },
  },
];

describe.each(themes)("in $theme", ({ theme, media }) => {
  test.each(situations)(
    "$name: no rule broken, nothing to scroll sideways for, every target large enough",
    async (situation) => {
      const { page, complaints } = await openPane(media);
      await situation.reach(page);
      if (pictures !== undefined) {
        mkdirSync(pictures, { recursive: true });
        await page.screenshot({ path: path.join(pictures, `${situation.name}-${theme}.png`), fullPage: true });
      }
      await page.evaluate(axe.source);
      const results = await page.evaluate(() =>
        (window as unknown as { axe: { run: (options: object) => Promise<AxeResults> } }).axe.run({
          runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
        }),
      );
      expect(results.violations.map(({ id, nodes }) => [id, nodes.map((node) => node.failureSummary)])).toEqual([]);
      // The rules did look at something, colours among it.
      expect(results.passes.map(({ id }) => id)).toEqual(expect.arrayContaining(["color-contrast", "target-size"]));

      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
      const small = await page
        .locator("button:visible, input:visible, select:visible, textarea:visible")
        .evaluateAll((all) =>
          all
            .map((each) => ({ what: each.textContent || each.id, box: each.getBoundingClientRect() }))
            .filter(({ box }) => box.height < 32 || box.width < 32),
        );
      expect(small).toEqual([]);
      expect(complaints).toEqual([]);
      await page.context().close();
    },
  );

  test("every stop of the Tab key shows the focus, and all are reached", async () => {
    const { page } = await openPane(media);
    await page.keyboard.press("Tab");
    const stops: { what: string; outline: number; style: string; sameAsGround: boolean }[] = [];
    for (;;) {
      const stop = await page.evaluate(() => {
        const on = document.activeElement;
        if (!(on instanceof HTMLElement) || on === document.body) return null;
        const style = getComputedStyle(on);
        const pane = document.querySelector(".twirl-pane");
        return {
          what: on.id || (on.textContent ?? ""),
          outline: Number.parseFloat(style.outlineWidth),
          style: style.outlineStyle,
          sameAsGround: pane === null || style.outlineColor === getComputedStyle(pane).backgroundColor,
        };
      });
      // A date field has a stop for each of its parts.
      if (stop === null || stops.length > 40) break;
      stops.push(stop);
      await page.keyboard.press("Tab");
    }
    expect(stops.filter(({ outline, style, sameAsGround }) => outline < 2 || style === "none" || sameAsGround)).toEqual(
      [],
    );
    const reached = new Set(stops.map(({ what }) => what));
    for (const what of [
      "twirl-tab-new-season",
      "twirl-season-label",
      "twirl-season-contestDate",
      "twirl-season-athletes",
      "twirl-season-tricks",
      "twirl-season-standard",
      "twirl-season-setSize",
      "twirl-season-countsPerMinute",
      "twirl-season-dropCost",
      "twirl-season-unit",
      "twirl-season-ceiling",
      texts.buildSeason,
      texts.clearForm,
    ]) {
      expect(reached).toContain(what);
    }
    await page.context().close();
  });
});

test("the host's theme goes before the system's", async () => {
  const ground = async (media: Media, hostTheme?: string): Promise<string> => {
    const { page } = await openPane(media, hostTheme);
    const colour = await page.locator(".twirl-pane").evaluate((pane) => getComputedStyle(pane).backgroundColor);
    await page.context().close();
    return colour;
  };
  const [light, dark] = [await ground(themes[0].media), await ground(themes[1].media)];
  expect(light).not.toBe(dark);
  expect(await ground(themes[0].media, "dark")).toBe(dark);
  expect(await ground(themes[1].media, "light")).toBe(light);
});

test("the corner that the host draws over stays empty", async () => {
  const { page } = await openPane(themes[0].media);
  const found = await page.evaluate(() => {
    const corner = { left: innerWidth - 34, bottom: 32 };
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    const inCorner: string[] = [];
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      if (!node.textContent?.trim()) continue;
      const range = document.createRange();
      range.selectNodeContents(node);
      for (const box of range.getClientRects()) {
        if (box.right > corner.left && box.top < corner.bottom) inCorner.push(node.textContent);
      }
    }
    for (const control of document.querySelectorAll("button, input, select, textarea")) {
      const box = control.getBoundingClientRect();
      if (box.width > 0 && box.right > corner.left && box.top < corner.bottom) inCorner.push(control.id);
    }
    return inCorner;
  });
  expect(found).toEqual([]);
  await page.context().close();
});

test("a season is built and a function inserted with the keyboard alone", async () => {
  const { page } = await openPane(themes[0].media);
  const press = (key: string): Promise<void> => page.keyboard.press(key);
  await press("Tab");
  await press("Tab");
  await page.keyboard.type("2027");
  await press("Tab");
  // Over the parts of the date and its calendar button to the athletes.
  while ((await page.evaluate(() => document.activeElement?.id)) === "twirl-season-contestDate") await press("Tab");
  await page.keyboard.type("M.K.");
  await press("Tab");
  await page.keyboard.type("Thumb toss");
  while ((await page.evaluate(() => document.activeElement?.textContent)) !== texts.buildSeason) await press("Tab");
  await press("Enter");
  await page.getByText(texts.seasonBuilt("2027")).waitFor();

  await page.getByRole("tab", { name: texts.newSeasonTitle }).focus();
  await press("ArrowRight");
  await press("Tab");
  await page.keyboard.type("readiness card");
  await press("Tab");
  await press("Enter");
  await press("Tab");
  await press("Enter");
  await page.getByText(/^=TWIRL\.READINESSCARD\(.* is in Sheet1!B2\.$/).waitFor();
  await page.context().close();
});

test("what was typed is there again after the page was closed", async () => {
  const { page } = await openPane(themes[0].media);
  await fillIn(page, "2028");
  await page.reload();
  expect(await page.getByLabel(texts.labelLabel).inputValue()).toBe("2028");
  expect(await page.getByLabel(texts.tricksLabel).inputValue()).toBe("Double turn, 4\nThumb toss");
  await page.context().close();
});

test("a half-typed date is told, not dropped", async () => {
  const { page } = await openPane(themes[0].media);
  await fillIn(page, "2027");
  await page.getByLabel(texts.contestDateLabel).pressSequentially("0");
  await page.keyboard.type("5");
  await page.getByRole("button", { name: texts.buildSeason }).click();
  await page.locator('#twirl-season-contestDate[aria-invalid="true"]').waitFor();
  await page.context().close();
});
