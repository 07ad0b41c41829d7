/**
 * The pane by ear and by keys, part by part on one page: what a screen reader is told (roles, names, states, live
 * regions), and that the Tab key goes through everything in the order of the page and leaves again.
 */
import type { Page } from "playwright-core";
import { parts as paneParts } from "../../src/taskpane/parts/list";
import { texts } from "../../src/taskpane/words/texts";
import { servePane, type OpenedPane, type ServedPane } from "./served-pane";

let served: ServedPane;
let opened: OpenedPane;

beforeAll(async () => {
  served = await servePane();
  opened = await served.open({ query: "?pictures" });
}, 300_000);

afterAll(async () => {
  await served.close();
});

/** Each part: what opens it fully, and lines that a screen reader's view of it holds, in their order. */
const parts: readonly {
  readonly name: string;
  readonly reach?: (page: Page) => Promise<void>;
  readonly heard: readonly string[];
}[] = [
  {
    name: texts.logSetTitle,
    heard: [
      `combobox "${texts.athleteLabel}"`,
      `combobox "${texts.trickLabel}"`,
      `combobox "${texts.stageLabel}"`,
      `group "${texts.dockLabel}"`,
      `button "${texts.markWords.c}"`,
      `button "${texts.markWords.d}"`,
      `button "${texts.markWords.b}"`,
      `button "${texts.undo}" [disabled]`,
      `button "${texts.saveSet}"`,
    ],
  },
  {
    name: texts.picturesTitle,
    reach: async (page) => {
      await page.getByText(texts.picturesTable).click();
    },
    heard: [
      `group "${texts.picturesWhich}"`,
      `radio "${texts.pictureNames.record}" [checked]`,
      `radio "${texts.pictureNames.toss}"`,
      `combobox "${texts.athleteLabel}"`,
      `combobox "${texts.trickLabel}"`,
      "status: ",
      `heading "${texts.pictureOf(texts.pictureNames.record, "A.R., Double turn")}" [level=3]`,
      `img "${texts.pictureOf(texts.pictureNames.record, "A.R., Double turn")}"`,
      "paragraph: 1 set, 5 Jan 2026.",
      "table",
      `columnheader "${texts.recordHeadings[5] ?? ""}"`,
      'rowheader "1"',
    ],
  },
  {
    name: texts.newSeasonTitle,
    heard: [
      `heading "${texts.newSeasonTitle}" [level=2]`,
      `form "${texts.newSeasonTitle}"`,
      `textbox "${texts.labelLabel}"`,
      `textbox "${texts.athletesLabel}"`,
      `group "${texts.standardsGroup}"`,
      `button "${texts.buildSeason}"`,
    ],
  },
  {
    name: texts.ownSheetTitle,
    heard: [
      `heading "${texts.ownSheetTitle}" [level=2]`,
      `button "${texts.ownSheetRead}"`,
      `heading "${texts.repairTitle}" [level=3]`,
      `button "${texts.repairButton}"`,
    ],
  },
  {
    name: texts.tempoTitle,
    heard: [
      `heading "${texts.countsTitle}"`,
      `button "${texts.tap}"`,
      `button "${texts.hold}"`,
      `textbox "${texts.releaseFrameLabel}"`,
    ],
  },
  {
    name: texts.handOutTitle,
    heard: [
      `heading "${texts.handOutTitle}" [level=2]`,
      `combobox "${texts.handOutAthlete}"`,
      `button "${texts.handOutMake}"`,
      `button "${texts.handOutMakeAll}"`,
    ],
  },
  {
    name: texts.functionsTitle,
    reach: async (page) => {
      await page.getByRole("button", { name: "STREAK", exact: true }).click();
      await page.getByRole("button", { name: texts.fillInOf("STREAK"), exact: true }).click();
    },
    heard: [
      "search",
      `searchbox "${texts.functionsSearch}"`,
      "status: ",
      'button "STREAK" [expanded]',
      `button "${texts.fillInOf("STREAK")}" [expanded]`,
      `form "${texts.fillInOf("STREAK")}"`,
      'textbox "marks"',
      `button "${texts.fillInTakeFor("marks")}"`,
      `textbox "${texts.fillInTarget}"`,
      `button "${texts.fillInInsert}"`,
    ],
  },
];

test("every part of the pane is listened to", () => {
  expect(parts.map(({ name }) => name)).toEqual(paneParts.map(({ title }) => title));
});

test.each(parts)("$name is heard as it is seen, and the Tab key goes through it in its order", async (part) => {
  const { page } = opened;
  await page.getByRole("tab", { name: part.name, exact: true }).click();
  const panel = page.getByRole("tabpanel", { name: part.name, exact: true });
  await panel.locator("button:visible, input:visible, select:visible").first().waitFor();
  await part.reach?.(page);

  const view = await panel.ariaSnapshot();
  let from = 0;
  for (const line of part.heard) {
    const at = view.indexOf(line, from);
    expect([line, at >= 0 ? "heard" : view]).toEqual([line, "heard"]);
    from = at;
  }
  // What comes of a press is spoken: a live region stands there before anything is said.
  expect(await panel.locator('[role="status"], [role="alert"]').count()).toBeGreaterThan(0);

  // The controls as they stand in the page; of radio buttons only the chosen one is a stop.
  const controls = await panel
    .locator(
      'button, input:not([type="radio"]), input[type="radio"]:checked, select, textarea, summary, [tabindex="0"]',
    )
    .evaluateAll((all) =>
      all
        .filter((one) => (one as HTMLElement).checkVisibility() && one.getAttribute("tabindex") !== "-1")
        .map((one, index) => {
          one.setAttribute("data-stop", String(index));
          return String(index);
        }),
    );
  await page.getByRole("tab", { name: part.name, exact: true }).focus();
  const stops: string[] = [];
  for (let presses = 0; presses < 2 * controls.length + 12; presses += 1) {
    await page.keyboard.press("Tab");
    const stop = await page.evaluate(() => {
      const on = document.activeElement?.closest("[data-stop]");
      return on?.getAttribute("data-stop") ?? null;
    });
    if (stop === null) break;
    // A field of a day has a stop for each of its parts.
    if (stops.at(-1) !== stop) stops.push(stop);
  }
  expect(stops).toEqual(controls);
  await panel.locator("[data-stop]").evaluateAll((all) => all.forEach((one) => one.removeAttribute("data-stop")));
});

test("the frame: one heading above all, the parts as a list of tabs, the language as a choice", async () => {
  const { page, complaints } = opened;
  const view = await page.locator("main").ariaSnapshot();
  expect(view).toContain(`heading "${texts.product}" [level=1]`);
  expect(view).toContain(`button "${texts.firstSteps}"`);
  expect(view).toContain(`combobox "${texts.languageLabel}"`);
  expect(view).toContain(`tablist "${texts.partsLabel}"`);
  expect(view.match(/- tab "/g)).toHaveLength(parts.length);
  expect(view.match(/\[selected\]/g)?.length).toBeGreaterThanOrEqual(1);
  expect(complaints).toEqual([]);
});
