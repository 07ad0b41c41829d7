/**
 * From "it keeps failing in the routine" to a decision, as a coach goes: the sheet Trick is read, a swap is typed on the
 * sheet Routine, the way back is seen, and the pane says the same.
 */
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import type { Locator } from "playwright-core";

import { texts } from "../../src/taskpane/words/texts";
import { type OpenPage, openTryOutPage, screenshots } from "./page";

jest.setTimeout(600_000);

const [TRICK_SHEET, ROUTINE] = ["Trick 2026", "Routine 2026"];
const TRICK = "Cartwheel blind catch";
/** The first free row of the swaps, and the routine's row of the trick. */
const SWAP_ROW = 10;
const ROUTINE_ROW = 16;

let opened: OpenPage;
let pane: Locator;

beforeAll(async () => {
  mkdirSync(screenshots, { recursive: true });
  opened = await openTryOutPage({ locale: "en-GB" });
  pane = opened.page.locator("#pane");
});

afterAll(async () => {
  await opened.close();
});

const shot = (name: string): Promise<Buffer> => opened.page.screenshot({ path: join(screenshots, `${name}.png`) });

test("the sheet says since when, which entrance is better, and what could stand in", async () => {
  await opened.goTo(TRICK_SHEET, "A1");
  await opened.shows(TRICK_SHEET, "B7", "At risk");
  await opened.shows(TRICK_SHEET, "B20", "slid");
  await opened.shows(TRICK_SHEET, "K65", "better");
  await opened.shows(TRICK_SHEET, "A65", "Half turn");
  expect(String(await opened.read(TRICK_SHEET, "B36"))).not.toBe("");
  expect(String(await opened.read(TRICK_SHEET, "A90"))).not.toMatch(/^(None.*)?$/);
  await shot("trick-sheet-top");
  await opened.goTo(TRICK_SHEET, "A40");
  await shot("trick-sheet-middle");
  await opened.goTo(TRICK_SHEET, "A90");
  await shot("trick-sheet-foot");
  await opened.goTo(TRICK_SHEET, "M6");
  await shot("trick-sheet-right");
});

test("on paper it is the same page: the picture in its place, figures below each other, no word cut and no gap", async () => {
  const { page } = opened;
  await opened.goTo(TRICK_SHEET, "A1");
  await opened.printSheet();
  await page.emulateMedia({ media: "print" });
  await page.screenshot({ path: join(screenshots, "trick-sheet-paper.png"), fullPage: true });
  const found = await page.evaluate(() => {
    const table = document.querySelector<HTMLElement>(".page-paper table");
    const words = [...(table?.querySelectorAll<HTMLElement>("td > div, th > div") ?? [])];
    const textOf = (row: Element): string => row.textContent;
    const rows = [...(table?.querySelectorAll("tbody tr") ?? [])].map(textOf);
    const aligned = (text: string): string | undefined =>
      getComputedStyle(words.find(({ textContent }) => textContent === text) ?? document.body).textAlign;
    return {
      pictures: table?.querySelectorAll("td > svg").length,
      cut: words.filter((one) => one.scrollWidth > one.clientWidth + 1).map(textOf),
      gaps: rows.filter((text, index) => text === "" && rows[index + 1] === "").length,
      font: getComputedStyle(words[0] ?? document.body).fontFamily,
      isLoaded: ["11pt Calibri", "bold 11pt Calibri"].every((font) => document.fonts.check(font)),
      attempts: aligned("630"),
      status: aligned("At risk"),
    };
  });
  expect(found).toMatchObject({ pictures: 1, cut: [], gaps: 0, attempts: "right", status: "left" });
  expect(found.font).toMatch(/^Calibri/);
  expect(found.isLoaded).toBe(true);
  await page.emulateMedia({ media: "screen" });
  await page.evaluate(() => window.dispatchEvent(new Event("afterprint")));
});

test("a swap that is typed changes the routine's figures, and the trick's stages count from its day", async () => {
  await opened.shows(ROUTINE, `D${String(ROUTINE_ROW)}`, TRICK);
  const before = String(await opened.read(ROUTINE, "L7"));
  await opened.goTo(ROUTINE, `Y${String(SWAP_ROW)}`);
  for (const [index, value] of ["M.K.", TRICK, "Cartwheel", "23 Mar 2026"].entries()) {
    const cell = `${["Y", "Z", "AA", "AB"][index] ?? ""}${String(SWAP_ROW)}`;
    await opened.page.keyboard.type(value);
    await opened.page.keyboard.press("Tab");
    await opened.page.waitForFunction(
      ([sheet, address]) => !["", undefined, null].includes(window.tryOutPage?.read(sheet, address) as string),
      [ROUTINE, cell] as const,
    );
  }
  await opened.shows(ROUTINE, `D${String(ROUTINE_ROW)}`, "Cartwheel");
  await opened.ready();
  expect(String(await opened.read(ROUTINE, "L7"))).not.toBe(before);
  await shot("routine-swap");
  await opened.goTo(ROUTINE, "A6");
  await shot("routine-after-swap");
  await opened.shows(TRICK_SHEET, "B44", "23 Mar 2026");
  // Nothing is logged since: no number of before is taken for the way back.
  await opened.shows(TRICK_SHEET, "A45", "Nothing logged yet, or nothing since it was taken out.");
  await opened.shows(TRICK_SHEET, "B37", "Nothing logged since then: begin with Body only.");
  expect(String(await opened.read(TRICK_SHEET, "B36"))).toBe(
    "5  Retrain: Nothing logged since then: begin with Body only.",
  );
  await opened.goTo(TRICK_SHEET, "A30");
  await shot("trick-sheet-out");
});

test("a set of the way back, with its entrance, goes into the log's own columns and shows on the sheet", async () => {
  await pane.getByRole("tab", { name: texts.logSetTitle, exact: true }).click();
  await pane.getByRole("combobox", { name: texts.athleteLabel, exact: true }).fill("M.K.");
  await pane.getByRole("combobox", { name: texts.trickLabel, exact: true }).fill(TRICK);
  await opened.page.keyboard.press("Tab");
  await pane.getByLabel(texts.stageLabel).selectOption("Body only");
  await pane.getByText(texts.minutesAndNote).click();
  await pane.getByRole("combobox", { name: texts.wayLabels.entrance, exact: true }).click();
  await pane.getByRole("option", { name: "Half turn" }).click();
  await shot("log-set-way");
  for (let attempt = 0; attempt < 5; attempt += 1) await pane.locator(".twirl-mark-c").click();
  await pane.getByRole("button", { name: texts.saveSet }).click();
  await opened.shows(TRICK_SHEET, "A46", "Body only");
  await opened.shows(TRICK_SHEET, "B46", "5");
  await opened.ready();
});

test("the pane answers the same questions, and says the next step", async () => {
  await pane.getByRole("tab", { name: texts.picturesTitle, exact: true }).click();
  await pane.getByText(texts.pictureNames.failing, { exact: true }).click();
  await pane.locator("#twirl-pictures-athlete").selectOption("M.K.");
  await pane.locator("#twirl-pictures-trick").selectOption(TRICK);
  const facts = pane.locator("figcaption");
  await facts.getByText(texts.failingNext.retrain).waitFor();
  await facts.getByText(/“Half turn” is better/).waitFor();
  await pane.locator("figure").screenshot({ path: join(screenshots, "figure-failing-trick.png") });
});

test("what needs attention first stands in the board's top line", async () => {
  await opened.goTo("Board 2026", "A1");
  expect(String(await opened.read("Board 2026", "F1"))).toMatch(/^First, /);
  await shot("board-first");
  expect(opened.problems).toEqual([]);
});
