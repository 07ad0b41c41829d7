/**
 * A club's own log in the real page: put there as a coach would, by pasting; mapped, boarded, carried on below; and
 * formulas that the workbook does not know.
 */
import { join } from "node:path";
import axe, { type AxeResults } from "axe-core";
import type { Page } from "playwright-core";
import { texts } from "../../src/taskpane/words/texts";
import { openTryOutPage, type OpenPage, screenshots } from "./page";

jest.setTimeout(300_000);

/** Titles, days with points, caught and tried, a sum at the foot, and three cells that nobody can read. */
const tallyLog: readonly (readonly string[])[] = [
  ["Larkfield Twirlers, winter group"],
  [],
  ["Tag", "Name", "Übung", "Versuche", "Treffer", "Bemerkung"],
  ["6.10.2025", "M.K.", "Doppeldrehung", "10", "7", ""],
  ["6.10.2025", "A.R.", "Doppeldrehung", "10", "9", ""],
  ["13.10.2025", "M.K.", "Doppeldrehung", "10", "8", "neuer Stab"],
  ["13.10.2025", "A.R.", "Doppeldrehung", "10", "zehn", ""],
  ["20.10.2025", "M.K.", "Doppeldrehung", "10", "9", ""],
  ["20.10.2025", "", "Rad", "10", "4", "wer?"],
  ["27.10.2025", "A.R.", "Rad", "5", "6", ""],
  ["27.10.2025", "M.K.", "Rad", "8", "2", ""],
];

/** One attempt a column, crosses and rounds. */
const crossLog: readonly (readonly string[])[] = [
  ["Date", "Twirler", "Toss", "1", "2", "3", "4", "5"],
  ["2025-11-17", "M.K.", "Two spin", "x", "x", "o", "x", "x"],
  ["2025-11-17", "J.T.", "Two spin", "o", "o", "x", "", ""],
  ["2025-11-24", "M.K.", "Two spin", "x", "x", "x", "x", "?"],
];

/** Adds a sheet by the page's own button and pastes rows into it from a cell on. */
async function pasteOnNewSheet(opened: OpenPage, rows: readonly (readonly string[])[], cell = "A1"): Promise<string> {
  const { page } = opened;
  await page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
  const before = (await page.evaluate(() => window.tryOutPage?.sheetNames())) ?? [];
  await page.locator('button[data-u-comp="sheet-bar-append-button"]').first().click();
  await page.waitForFunction((count) => (window.tryOutPage?.sheetNames().length ?? 0) > count, before.length);
  const after = (await page.evaluate(() => window.tryOutPage?.sheetNames())) ?? [];
  const name = after.find((one) => !before.includes(one)) ?? "";
  // The new sheet comes to the front by itself, at its first cell: whoever goes elsewhere before that is fetched back.
  await page.locator("#selected", { hasText: `${name} A1` }).waitFor();
  await opened.goTo(name, cell);
  await page.evaluate((text) => navigator.clipboard.writeText(text), rows.map((row) => row.join("\t")).join("\n"));
  await page.keyboard.press("Control+V");
  const [, letter = "A", row = "1"] = /^([A-Z]+)(\d+)$/.exec(cell) ?? [];
  await opened.shows(name, `${letter}${String(Number(row) + rows.length - 1)}`, rows.at(-1)?.[0] ?? "");
  await opened.ready();
  return name;
}

/** Everything that a block of a sheet shows. */
function cellsOf(page: Page, sheet: string, columns: string, lastRow: number): Promise<unknown[][]> {
  return page.evaluate(
    ([name, letters, rows]) =>
      Array.from({ length: rows }, (_, row) =>
        [...letters].map((letter) => window.tryOutPage?.read(name, `${letter}${String(row + 1)}`) ?? null),
      ),
    [sheet, columns, lastRow] as const,
  );
}

/** Athlete, trick, attempts and last set of each row of a board, as they are shown. */
async function boardRows(page: Page, board: string): Promise<unknown[][]> {
  const rows = await cellsOf(page, board, "ABCD", 40);
  return rows.slice(8).filter(([athlete]) => athlete !== null && athlete !== "");
}

const inPane = (page: Page) => page.locator("#pane #twirl-panel-own-sheet");

const openPart = (page: Page): Promise<void> =>
  page.locator("#pane").getByRole("tab", { name: texts.ownSheetTitle }).click();

async function readLog(page: Page): Promise<void> {
  await openPart(page);
  await inPane(page).getByRole("button", { name: texts.ownSheetRead }).click();
  await inPane(page).getByText(texts.ownSheetColumns).waitFor();
}

const chosen = (page: Page, label: string): Promise<string> =>
  inPane(page)
    .getByLabel(label, { exact: true })
    .evaluate((select) => (select as HTMLSelectElement).selectedOptions[0]?.textContent ?? "");

const listedCells = (page: Page): Promise<string[]> => inPane(page).locator(".twirl-cells li button").allTextContents();

describe("a log of numbers", () => {
  let opened: OpenPage;
  let log: string;
  let before: unknown[][];
  let board: string;

  beforeAll(async () => {
    opened = await openTryOutPage();
    log = await pasteOnNewSheet(opened, tallyLog);
    board = `Board (${log})`;
    before = await cellsOf(opened.page, log, "ABCDEFG", 14);
  });

  afterAll(async () => {
    await opened.close();
  });

  test("its columns are found, and what cannot be read is listed and led to", async () => {
    const { page } = opened;
    await opened.goTo(log, "B5");
    await readLog(page);
    expect(await chosen(page, texts.ownSheetHeadingRow)).toMatch(/^Row 3: Tag, Name/);
    expect(await chosen(page, texts.ownSheetDate)).toMatch(/^A Tag: 06\.10\.2025/);
    expect(await chosen(page, texts.athleteLabel)).toBe("B Name: M.K., A.R.");
    expect(await chosen(page, texts.trickLabel)).toBe("C Übung: Doppeldrehung, Rad");
    expect(await chosen(page, texts.ownSheetAttempts)).toBe(texts.ownSheetCaughtAttempts);
    expect(await chosen(page, texts.ownSheetCaught)).toMatch(/^E Treffer/);
    expect(await chosen(page, texts.ownSheetTried)).toMatch(/^D Versuche/);
    // With points between them the day comes first, also on an English page: the 6th of October is a day as it was pasted.
    expect(await listedCells(page)).toEqual(["E7", "B9", "E10"]);
    await page.screenshot({ path: join(screenshots, "own-sheet-found.png") });

    await inPane(page)
      .getByRole("button", { name: texts.ownSheetCellGoTo("E10") })
      .click();
    await page.locator("#selected", { hasText: new RegExp(`^${log} E10\\b`) }).waitFor();
  });

  test("the board stands on a sheet of its own, filled from the rows that can be read", async () => {
    const { page } = opened;
    await inPane(page).getByRole("button", { name: texts.ownSheetPut }).click();
    await inPane(page).getByText(texts.ownSheetDone(board)).waitFor();
    await opened.shows(board, "A8", "Athlete");
    await opened.ready();
    expect(await boardRows(page, board)).toEqual([
      ["A.R.", "Doppeldrehung", "10", "9/10"],
      ["M.K.", "Doppeldrehung", "30", "9/10"],
      ["M.K.", "Rad", "8", "2/8"],
    ]);
    // Eight rows, five of them readable; the first of the others is row 7.
    await opened.shows(board, "F4", "5");
    await opened.shows(board, "F5", "3");
    await opened.shows(board, "F6", "7");
    await page.screenshot({ path: join(screenshots, "own-sheet-board.png") });
    expect(await cellsOf(page, log, "ABCDEFG", 14)).toEqual(before);
  });

  test("a row that is typed below counts, once it is whole", async () => {
    const { page } = opened;
    await opened.typeRow(log, 12, ["2025-11-03", "A.R.", "Doppeldrehung", "10"]);
    await opened.shows(board, "F5", "4");
    await opened.goTo(log, "E12");
    await page.keyboard.type("10");
    await page.keyboard.press("Enter");
    await opened.shows(board, "C9", "20");
    await opened.shows(board, "D9", "10/10");
    await opened.shows(board, "F4", "6");
    await opened.shows(board, "F5", "3");
    await opened.ready();
    const after = await cellsOf(page, log, "ABCDEFG", 11);
    expect(after).toEqual(before.slice(0, 11));
  });

  test("the days of one trick follow the athlete and trick that are chosen", async () => {
    const { page } = opened;
    await opened.shows(board, "O8", "Date");
    await opened.goTo(board, "P4");
    await page.keyboard.type("A.R.");
    await page.keyboard.press("Enter");
    await opened.goTo(board, "P5");
    await page.keyboard.type("Doppeldrehung");
    await page.keyboard.press("Enter");
    await opened.shows(board, "P9", "9");
    await opened.shows(board, "Q9", "10");
    await opened.shows(board, "P10", "10");
    await opened.ready();
  });

  test("a second board over the same log has a name of its own", async () => {
    const { page } = opened;
    await opened.goTo(log, "A3");
    await readLog(page);
    await inPane(page).getByRole("button", { name: texts.ownSheetPut }).click();
    await inPane(page)
      .getByText(texts.ownSheetDone(`${board} 2`))
      .waitFor();
    await opened.shows(`${board} 2`, "C9", "20");
    await opened.ready();
    expect(opened.problems).toEqual([]);
  });

  test("the page keeps the rules of accessibility with all of it in sight", async () => {
    const { page } = opened;
    await page.evaluate(axe.source);
    const results = await page.evaluate(() =>
      (window as unknown as { axe: { run: (context: object, options: object) => Promise<AxeResults> } }).axe.run(
        // The grid is another project's, and so are its faults.
        { exclude: [["#grid"]] },
        { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] },
      ),
    );
    expect(results.violations.map(({ id, nodes }) => ({ id, at: nodes.map(({ html }) => html) }))).toEqual([]);
  });
});

describe.each(["?empty=zero", "?empty=null"])("a log of crosses, with the keyboard alone, %s", (query) => {
  test("is read, corrected, and gets its board", async () => {
    const opened = await openTryOutPage({ query });
    try {
      const { page } = opened;
      const press = (key: string): Promise<void> => page.keyboard.press(key);
      const log = await pasteOnNewSheet(opened, crossLog, "B2");
      await opened.goTo(log, "C3");

      await press("F6");
      while ((await focused(page)) !== texts.ownSheetTitle) await press("ArrowRight");
      await inPane(page).getByRole("button", { name: texts.ownSheetRead }).waitFor();
      await press("Tab");
      expect(await focused(page)).toBe(texts.ownSheetRead);
      await press("Enter");
      await inPane(page).getByText(texts.ownSheetColumns).waitFor();
      await page.waitForFunction(() => document.activeElement?.tagName === "P");

      // To the marks' meaning; the arrow keys choose.
      await tabTo(page, (at) => at === "x/o" || at === "o/x");
      expect(await page.evaluate(() => document.querySelectorAll('[name="twirl-own-key"]:checked').length)).toBe(0);
      await press("Space");
      expect(await inPane(page).getByLabel(texts.ownSheetKeyTwo("x", "o")).isChecked()).toBe(true);

      // To the one cell that cannot be read, and there.
      await tabTo(page, (at) => at === "I5");
      await press("Enter");
      await page.locator("#selected", { hasText: new RegExp(`^${log} I5\\b`) }).waitFor();
      await press("F6");
      await tabTo(page, (at) => at === texts.ownSheetPut);
      await press("Enter");
      const board = `Board (${log})`;
      await opened.shows(board, "A8", "Athlete");
      await opened.ready();
      expect(await boardRows(page, board)).toEqual([
        ["J.T.", "Two spin", "3", "1/3"],
        ["M.K.", "Two spin", "9", "8/9"],
      ]);
      expect(opened.problems).toEqual([]);
    } finally {
      await opened.close();
    }
  });
});

test("formulas that the workbook does not know are written again", async () => {
  const opened = await openTryOutPage();
  try {
    const { page } = opened;
    const sheet = await pasteOnNewSheet(opened, [["ccdcc"]]);
    await opened.goTo(sheet, "B1");
    await page.keyboard.type("=_xldudf_TWIRL_STREAK(A1)");
    await page.keyboard.press("Enter");
    await opened.shows(sheet, "B1", "#NAME?");
    await opened.ready();
    await openPart(page);
    await inPane(page).getByRole("button", { name: texts.repairButton }).click();
    await inPane(page).getByText(texts.repairDone(1)).waitFor();
    await opened.shows(sheet, "B1", "2");
    await inPane(page).getByRole("button", { name: texts.repairButton }).click();
    await inPane(page).getByText(texts.repairNone).waitFor();
    expect(opened.problems).toEqual([]);
  } finally {
    await opened.close();
  }
});

/** The words of what has the focus; for a tick box or a radio button its value. */
function focused(page: Page): Promise<string> {
  return page.evaluate(() => {
    const at = document.activeElement;
    return at instanceof HTMLInputElement ? at.value : (at?.textContent ?? "");
  });
}

async function tabTo(page: Page, there: (at: string) => boolean): Promise<void> {
  for (let stops = 0; stops < 60; stops += 1) {
    if (there(await focused(page))) return;
    await page.keyboard.press("Tab");
  }
  throw new Error(`The Tab key does not lead there; it ended at ${await focused(page)}.`);
}
