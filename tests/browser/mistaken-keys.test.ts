/**
 * Keys that go where they should not, in the real browser: a letter or Delete on cells that the board's formula fills, and
 * Tab past the last button of the pane.
 */
import { mkdirSync } from "node:fs";
import { join } from "node:path";

import { type OpenPage, openTryOutPage, screenshots } from "./page";

jest.setTimeout(600_000);

let opened: OpenPage;
let board: string;
let before: readonly string[];

/** What the board's first rows show, its headings included. */
function shown(): Promise<readonly string[]> {
  return opened.page.evaluate((name) => {
    const cells: string[] = [];
    for (let row = 4; row <= 12; row += 1) {
      for (const column of "ABCDEFGHIJKLM") {
        cells.push(String((window.tryOutPage?.read(name, column + String(row)) as string | undefined) ?? ""));
      }
    }
    return cells;
  }, board);
}

const notice = () => opened.page.locator("#spill-notice");

async function noticeIsGone(): Promise<void> {
  await notice().waitFor({ state: "hidden" });
  await opened.ready();
  expect(await shown()).toEqual(before);
}

beforeAll(async () => {
  mkdirSync(screenshots, { recursive: true });
  opened = await openTryOutPage();
  const names = await opened.page.evaluate(() => window.tryOutPage?.sheetNames() ?? []);
  board = names.find((name) => name.startsWith("Board")) ?? "";
  before = await shown();
  expect(before[0]).toBe("Athlete");
});

afterAll(async () => {
  await opened.close();
});

test("a letter on a cell of the board: the page says what is in the way, and its button puts the board back", async () => {
  const { page } = opened;
  await opened.goTo(board, "C7");
  await page.keyboard.type("x");
  await page.keyboard.press("Enter");
  await opened.shows(board, "A4", "#SPILL!");
  await notice().getByText("C7 is filled by the formula in A4").waitFor();
  await page.screenshot({ path: join(screenshots, "mistaken-key.png") });
  await notice().getByRole("button", { name: "Put it back as it was" }).click();
  await opened.shows(board, "A4", "Athlete");
  await noticeIsGone();
  // The next key does not go to the sheet again.
  await page.keyboard.type("y");
  await opened.ready();
  expect(await shown()).toEqual(before);
});

test("Undo does the same", async () => {
  const { page } = opened;
  await opened.goTo(board, "C7");
  await page.keyboard.type("x");
  await page.keyboard.press("Enter");
  await opened.shows(board, "A4", "#SPILL!");
  await notice().waitFor();
  await page.keyboard.press("Control+z");
  await opened.shows(board, "A4", "Athlete");
  await noticeIsGone();
});

test.each([
  [
    "typed over",
    async () => {
      await opened.page.keyboard.type("oops");
      await opened.page.keyboard.press("Enter");
      await opened.shows(board, "A4", "oops");
    },
  ],
  [
    "deleted",
    async () => {
      await opened.page.keyboard.press("Delete");
      await opened.shows(board, "A4", "");
    },
  ],
])("the board's formula %s: its button puts it back", async (_, mistake) => {
  await opened.goTo(board, "A4");
  await mistake();
  await notice().getByText(`${board}: the formula in A4`).waitFor();
  await notice().getByRole("button", { name: "Put it back as it was" }).click();
  await opened.shows(board, "A4", "Athlete");
  await noticeIsGone();
});

test("a cell of the board and then its formula typed over: one button puts both back", async () => {
  for (const [address, shownThere] of [
    ["C7", "#SPILL!"],
    ["A4", "oops"],
  ] as const) {
    await opened.goTo(board, address);
    await opened.page.keyboard.type("oops");
    await opened.page.keyboard.press("Enter");
    await opened.shows(board, "A4", shownThere);
    await notice().getByRole("button", { name: "Put it back as it was" }).waitFor();
  }
  await notice().getByText(`${board}: the formula in A4`).waitFor();
  await notice().getByRole("button", { name: "Put it back as it was" }).click();
  await opened.shows(board, "A4", "Athlete");
  await noticeIsGone();
});

test("what was meant is left: the notice goes, and does not come again", async () => {
  const { page } = opened;
  await opened.goTo(board, "C7");
  await page.keyboard.type("x");
  await page.keyboard.press("Enter");
  await notice().getByRole("button", { name: "Leave it so" }).click();
  await notice().waitFor({ state: "hidden" });
  await opened.goTo(board, "A60");
  await page.keyboard.type("y");
  await page.keyboard.press("Enter");
  await opened.shows(board, "A60", "y");
  await opened.ready();
  expect(await notice().isHidden()).toBe(true);
  expect(await opened.read(board, "A4")).toBe("#SPILL!");
  await opened.goTo(board, "A60");
  await page.keyboard.press("Delete");
  await opened.goTo(board, "C7");
  await page.keyboard.press("Delete");
  await opened.shows(board, "A4", "Athlete");
  await noticeIsGone();
});

test("Delete on a cell of the board deletes nothing, and says so", async () => {
  await opened.goTo(board, "C7");
  await opened.page.keyboard.press("Delete");
  await notice().getByText("C7 keeps what it shows: the formula in A4 fills it").waitFor();
  expect(await shown()).toEqual(before);
  await notice().getByRole("button", { name: "Close" }).click();
  await noticeIsGone();
});

test("Tab goes from the pane's last button to the page's bar, and into the sheet by Enter only", async () => {
  const { page } = opened;
  const focused = (): Promise<string> =>
    page.evaluate(() => {
      const at = document.activeElement;
      return at?.closest("#pane") ? "pane" : (at?.id ?? "");
    });
  await opened.goTo(board, "C7");
  await page.locator("#open-file").focus();
  await page.keyboard.press("Shift+Tab");
  expect(await focused()).toBe("pane");
  await page.keyboard.press("Tab");
  expect(await focused()).toBe("open-file");
  await page.keyboard.type("x");
  // Through the bar, and no further than the stop before the sheet.
  const stops: string[] = [];
  while (stops.length < 20 && stops.at(-1) !== "to-sheet") {
    await page.keyboard.press("Tab");
    stops.push(await focused());
  }
  expect(stops).toEqual(expect.arrayContaining(["save-file", "print-sheet", "toggle-pane", "to-sheet"]));
  await page.screenshot({ path: join(screenshots, "sheet-stop.png") });
  await page.keyboard.type("x");
  await opened.ready();
  expect(await shown()).toEqual(before);
  expect(await notice().isHidden()).toBe(true);
  await opened.goTo(board, "O2");
  await page.locator("#to-sheet").focus();
  await page.keyboard.press("Enter");
  await page.keyboard.press("ArrowUp");
  await page.locator("#selected", { hasText: `${board} O1` }).waitFor();
  expect(opened.problems).toEqual([]);
});
