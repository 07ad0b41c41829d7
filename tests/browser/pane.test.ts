/**
 * The pane in a real browser at the width of the host's pane, under a strict Content-Security-Policy: accessibility rules,
 * contrast, reflow, size of targets, focus and keyboard, in light, dark and forced colours.
 */
import { mkdirSync } from "node:fs";
import path from "node:path";
import type { Page } from "playwright-core";
import {
  brokenRules,
  servePane,
  smallTargets,
  themes,
  type Media,
  type OpenedPane,
  type ServedPane,
} from "./served-pane";
import { screenshots } from "./page";
import { french } from "../../src/taskpane/words/french";
import { parts } from "../../src/taskpane/parts/list";
import { texts } from "../../src/taskpane/words/texts";

const width = 300;

let served: ServedPane;

beforeAll(async () => {
  mkdirSync(screenshots, { recursive: true });
  served = await servePane();
}, 300_000);

afterAll(async () => {
  await served.close();
});

/** Opens the pane on the New season part. */
async function openPane(media: Media, hostTheme?: string, query = "", welcome = false): Promise<OpenedPane> {
  const opened = await served.open({ media, query, width, welcome, ...(hostTheme === undefined ? {} : { hostTheme }) });
  await opened.page.getByRole("tab", { name: texts.newSeasonTitle }).click();
  await opened.page.getByLabel(texts.labelLabel).waitFor();
  return opened;
}

async function fillIn(page: Page, label: string): Promise<void> {
  await page.getByLabel(texts.labelLabel).fill(label);
  await page.getByLabel(texts.athletesLabel).fill("M.K.\nA.R.");
  await page.getByLabel(texts.tricksLabel).fill("Double turn, 4\nThumb toss");
}

/** What a coach may come upon, each with what leads there. */
const situations: readonly {
  readonly name: string;
  readonly query?: string;
  readonly welcome?: boolean;
  readonly reach: (page: Page) => Promise<void>;
}[] = [
  ...parts.map(({ id }) => ({
    name: `part ${id}`,
    query: "?season",
    reach: async (page: Page) => {
      await page.locator(`#twirl-tab-${id}`).click();
      await page.locator(`#twirl-panel-${id} :is(button, input, select):visible`).first().waitFor();
    },
  })),
  {
    name: "first steps",
    welcome: true,
    reach: async (page) => {
      await page.getByRole("button", { name: texts.firstStepsBuildGo }).waitFor();
    },
  },
  {
    name: "first status",
    query: "?season",
    welcome: true,
    reach: async (page) => {
      await page.getByRole("button", { name: texts.firstStepsLogGo }).click();
      await page.getByRole("combobox", { name: texts.athleteLabel }).fill("M.K.");
      await page.getByRole("combobox", { name: texts.trickLabel }).fill("Double turn");
      for (let attempt = 0; attempt < 3; attempt += 1) await page.locator(".twirl-mark-c").click();
      await page.getByRole("button", { name: texts.saveSet }).click();
      await page.getByRole("button", { name: texts.firstStepsPicture }).waitFor();
      await page.evaluate(() => window.scrollTo(0, document.body.scrollHeight));
    },
  },
  ...(["record", "failing", "landings", "routine", "toss"] as const).map((kind) => ({
    name: `picture of ${kind}`,
    query: "?pictures",
    reach: async (page: Page) => {
      await page.getByRole("tab", { name: texts.picturesTitle }).click();
      await page.getByText(texts.pictureNames[kind], { exact: true }).click();
      await page.getByRole("img", { name: new RegExp(`^${texts.pictureNames[kind]}: `) }).waitFor();
      await page.getByText(texts.picturesTable).click();
    },
  })),
  {
    name: "no picture yet",
    reach: async (page) => {
      await page.getByRole("tab", { name: texts.picturesTitle }).click();
      await page.getByText(texts.picturesNoSeason).waitFor();
    },
  },
  {
    name: "hand-out",
    query: "?season",
    reach: async (page) => {
      await page.getByRole("tab", { name: texts.handOutTitle }).click();
      await page.getByLabel(texts.handOutAthlete).selectOption({ label: "A.R." });
      await page.getByRole("button", { name: texts.handOutMake }).click();
      await page.getByText(/is made and shown/).waitFor();
    },
  },
  {
    name: "function filled in over an occupied cell",
    query: "?occupied",
    reach: async (page) => {
      await page.getByRole("tab", { name: texts.functionsTitle }).click();
      await page.getByRole("button", { name: "STREAK", exact: true }).click();
      await page.getByRole("button", { name: texts.fillInOf("STREAK"), exact: true }).click();
      await page.getByLabel("marks", { exact: true }).fill("ccd");
      await page.getByRole("button", { name: texts.fillInInsert, exact: true }).click();
      await page.getByRole("button", { name: texts.targetKeep }).waitFor();
    },
  },
  {
    name: "in French",
    query: "?season",
    reach: async (page) => {
      await page.getByLabel(texts.languageLabel).selectOption("fr");
      await page.getByRole("tab", { name: french.logSetTitle }).click();
      await page.getByRole("button", { name: french.markWords.b }).click();
      await page.getByRole("button", { name: french.markWords.b }).click();
      await page.getByText(french.bailCaution).waitFor();
      await page.evaluate(() => window.scrollTo(0, document.body.scrollHeight));
    },
  },
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
    name: "no season to log a set in",
    reach: async (page) => {
      await page.getByRole("tab", { name: texts.logSetTitle }).click();
      await page.getByText(texts.noSeasonNext).waitFor();
    },
  },
  {
    name: "a set with mistakes",
    query: "?season",
    reach: async (page) => {
      await page.getByRole("tab", { name: texts.logSetTitle }).click();
      await page.getByText(texts.minutesAndNote).click();
      await page.getByLabel(texts.minutesLabel).fill("long");
      await page.getByRole("button", { name: texts.markWords.c }).click();
      await page.getByRole("button", { name: texts.putAside }).click();
      await page.getByRole("button", { name: texts.markWords.b }).click();
      await page.getByRole("button", { name: texts.markWords.b }).click();
      await page.getByLabel(texts.minutesLabel).fill("long");
      await page.getByRole("button", { name: texts.saveSet }).click();
      await page.locator('#twirl-log-minutes[aria-invalid="true"]').waitFor();
      // At the end nothing lies under the buttons that stay in sight.
      await page.evaluate(() => window.scrollTo(0, document.body.scrollHeight));
    },
  },
  {
    name: "tempo",
    reach: async (page) => {
      await page.getByRole("tab", { name: texts.tempoTitle }).click();
      await page.getByLabel(texts.releaseFrameLabel).fill("178");
      await page.getByLabel(texts.catchFrameLabel).fill("112");
      await page.getByRole("button", { name: texts.tap }).click();
      await page.locator('#twirl-film-catch[aria-invalid="true"]').waitFor();
    },
  },
  {
    name: "own sheet",
    reach: async (page) => {
      await page.getByRole("tab", { name: texts.ownSheetTitle }).click();
      await page.getByRole("button", { name: texts.ownSheetRead }).click();
      await page.getByText(texts.ownSheetKey).waitFor();
      await page.getByRole("button", { name: texts.repairButton }).click();
      await page.getByText(texts.repairDone(3)).waitFor();
    },
  },
  {
    name: "own board",
    reach: async (page) => {
      await page.getByRole("tab", { name: texts.ownSheetTitle }).click();
      await page.getByRole("button", { name: texts.ownSheetRead }).click();
      await page.getByLabel(texts.ownSheetKeyTwo("x", "o")).check();
      await page.locator("#twirl-own-athlete").selectOption({ label: texts.ownSheetOneForAll });
      await page.getByRole("button", { name: texts.ownSheetPut }).click();
      await page.getByLabel(texts.ownSheetAthleteForAll).fill("M.K.");
      await page.getByRole("button", { name: texts.ownSheetPut }).click();
      await page.getByText(texts.ownSheetDone("Board (Our log)")).waitFor();
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

test.each(situations)(
  "$name: no rule broken in any theme, nothing to scroll sideways for, every target large enough, and room for letters twice as large",
  async ({ name, query, welcome, reach }) => {
    const { page, complaints } = await openPane(themes[0].media, undefined, query, welcome);
    await reach(page);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
    expect(await smallTargets(page, 32)).toEqual([]);
    for (const { theme, media } of themes) {
      await page.emulateMedia(media);
      await page.screenshot({
        path: path.join(screenshots, `pane-${name}-${theme}.png`.replaceAll(" ", "-")),
        fullPage: true,
      });
      const { broken, kept } = await brokenRules(page);
      expect([theme, broken]).toEqual([theme, []]);
      // The rules did look at something, colours among it.
      expect(kept).toEqual(expect.arrayContaining(["color-contrast", "target-size"]));
    }
    await page.evaluate(() => (document.documentElement.style.fontSize = "200%"));
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
    expect(complaints).toEqual([]);
    await page.context().close();
  },
);

describe.each(themes)("in $theme", ({ media }) => {
  test("every stop of the Tab key shows the focus, and all are reached", async () => {
    const { page } = await openPane(media);
    // By keys, so that the focus shows from the first stop on.
    await page.keyboard.press("ArrowLeft");
    await page.keyboard.press("ArrowRight");
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
  await page.getByRole("tab", { name: texts.newSeasonTitle }).focus();
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
  await press("End");
  await page.getByLabel(texts.functionsSearch).waitFor();
  await press("Tab");
  await page.keyboard.type("readiness card");
  await press("Tab");
  await press("Enter");
  // Fill in and insert: the first field takes what is typed, and Enter in a filled field inserts.
  await press("Tab");
  await press("Enter");
  await page.keyboard.type("ccdcc");
  await press("Enter");
  await page.getByText(texts.functionInserted('=TWIRL.READINESSCARD("ccdcc")', "'Sheet1'!B2")).waitFor();
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
