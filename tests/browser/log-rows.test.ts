/**
 * Rows of the log put in, taken out, cut and pasted with mouse and keys, inside and outside its table, and taken
 * back: afterwards the board is what the built function answers over the log, its colours stand, what may not be
 * typed is still refused, and the pane counts the same days.
 */
import { texts } from "../../src/taskpane/words/texts";
import { statusesAsDrawn } from "./drawn-colours";
import { boards, FIRST_LOG_ROW, LOG_COLUMNS, type LogRow, readLog } from "./log-and-board";
import { type OpenPage, openTryOutPage } from "./page";
import { keysOfRow, pressRowsAbove, typeKeys } from "./typing";

jest.setTimeout(600_000);

const LOG = "Practice 2026";
const BOARD = "Board 2026";
/** Rows without a date that the log may have between others. */
const GAP = 30;
const EMPTY: LogRow = [...LOG_COLUMNS].map(() => "");

let opened: OpenPage;
let last = FIRST_LOG_ROW;
/** Of the last row, whose trick the pane has in view. */
let lastRow: LogRow = [];

const log = (): Promise<LogRow[]> => readLog(opened, LOG, GAP);

async function place(address: string): Promise<{ x: number; y: number; right: number; height: number }> {
  const found = await opened.page.evaluate((cell) => window.tryOutPage?.place(cell), address);
  if (!found) throw new Error("The page is not open.");
  const { left, top, right, bottom } = found;
  return { x: (left + right) / 2, y: (top + bottom) / 2, right, height: bottom - top };
}

/** A choice of the menu that the right mouse button opens on a cell. */
async function choose(sheet: string, address: string, words: string): Promise<void> {
  await opened.goTo(sheet, address);
  const { x, y } = await place(address);
  await opened.page.mouse.click(x, y, { button: "right" });
  await opened.page.getByRole("button", { name: words, exact: true }).click();
}

/** Waits until the log is other than before, and all is worked out. */
async function changed(before: readonly LogRow[]): Promise<LogRow[]> {
  let now: LogRow[] = [];
  const isOther = await comesTrue(async () => {
    await opened.ready();
    now = await log();
    return JSON.stringify(now) !== JSON.stringify(before);
  });
  if (!isOther) throw new Error("The log is as it was.");
  return now;
}

/** Looks once for each picture that the page draws, as often as makes sense to wait. */
async function comesTrue(holds: () => Promise<boolean>): Promise<boolean> {
  for (let round = 0; round < 300; round += 1) {
    if (await holds()) return true;
    await opened.page.evaluate(() => new Promise((resolve) => requestAnimationFrame(resolve)));
  }
  return false;
}

/** Waits until the clipboard has what was cut: the grid puts it there a while after the keys, and nothing is pasted before. */
async function holdsCopied(words: string): Promise<void> {
  const copied = () => opened.page.evaluate(() => navigator.clipboard.readText());
  if (!(await comesTrue(async () => (await copied()).includes(words)))) throw new Error("Nothing was cut.");
}

async function press(keys: string): Promise<LogRow[]> {
  const before = await log();
  await opened.page.keyboard.press(keys);
  return changed(before);
}

/** The board's numbers and colours, and the days that the pane counts. */
async function isRight(): Promise<void> {
  await opened.ready();
  const now = await log();
  const { expected, shown } = await boards(opened, BOARD, now);
  expect(shown).toEqual(expected);
  await statusesAsDrawn(opened, BOARD, "K", 5, 20);
  const attempts = Number(shown.find((row) => row[0] === lastRow[1] && row[1] === lastRow[2])?.[2]);
  await comesTrue(async () => (await attemptsInPane()) === attempts);
  expect(await attemptsInPane()).toBe(attempts);
}

/** All attempts in the pane's picture of one trick's record, from its table: "8 of 10". */
async function attemptsInPane(): Promise<number> {
  const lines = await opened.page.locator("#twirl-panel-pictures tbody td:nth-child(3)").allTextContents();
  return lines.reduce((sum, words) => sum + Number(/ of (\d+)/.exec(words)?.[1]), 0);
}

/** A stage that is in no list is not taken by this row of the log, and the cell stays as it was. */
async function refuses(row: number): Promise<void> {
  const at = `D${String(row)}`;
  const before = String((await opened.read(LOG, at)) ?? "");
  await opened.goTo(LOG, at);
  await typeKeys(opened.page, [..."Jined", "Enter"], [0, 10]);
  await opened.page.getByRole("alert").getByText("Choose one of: Body only").waitFor();
  await opened.page.keyboard.press("Escape");
  await opened.page.getByRole("alert").waitFor({ state: "hidden" });
  expect(String((await opened.read(LOG, at)) ?? "")).toBe(before);
}

beforeAll(async () => {
  opened = await openTryOutPage({ width: 1600, height: 900 });
  const { page } = opened;
  await page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
  last = FIRST_LOG_ROW + (await log()).length;
  lastRow = (await log()).at(-1) ?? [];
  const [, athlete = "", trick = ""] = lastRow.map(String);
  await opened.typeRow(LOG, last, ["2026-03-31", athlete, trick, "Joined", "ccccc ddddd"]);
  await page.locator("#pane").getByRole("tab", { name: texts.picturesTitle }).click();
  await page.locator("#twirl-pictures-athlete").selectOption(athlete);
  await page.locator("#twirl-pictures-trick").selectOption(trick);
  await page.locator("#twirl-panel-pictures tbody tr").first().waitFor({ state: "attached" });
});

afterAll(async () => {
  await opened.close();
});

test("before anything is done the log, the board and the pane agree", async () => {
  await isRight();
  await refuses(20);
});

test("a row put in by a cell's menu, taken back, brought again and filled", async () => {
  const before = await log();
  await choose(LOG, "C10", "Insert row above");
  const after = await changed(before);
  expect(after).toHaveLength(before.length + 1);
  expect(after[10 - FIRST_LOG_ROW]).toEqual(EMPTY);
  expect(after.filter(([day]) => day !== "")).toEqual(before);
  await isRight();
  await refuses(10);
  await opened.goTo(LOG, "C12");
  expect(await press("Control+z")).toEqual(before);
  await isRight();
  expect(await press("Control+y")).toEqual(after);
  await opened.goTo(LOG, "A10");
  const [, athlete = "", trick = ""] = lastRow.map(String);
  await typeKeys(opened.page, keysOfRow(["2026-03-30", athlete, trick, "Joined", "ddddd ccccc"]), [0, 10]);
  await opened.shows(LOG, "E10", "ddddd ccccc");
  expect(await opened.read(LOG, "A10")).toBe("30 Mar 2026");
  await isRight();
});

test("rows put in just below the headings are rows of the log like any other", async () => {
  const before = await log();
  await opened.goTo(LOG, "A5");
  await opened.page.keyboard.press("Shift+ArrowDown");
  const { x, y } = await place("A6");
  await opened.page.mouse.click(x, y, { button: "right" });
  await opened.page.getByRole("button", { name: "Insert row above", exact: true }).click();
  const after = await changed(before);
  expect(after.slice(2)).toEqual(before);
  await isRight();
  await refuses(5);
  await refuses(6);
  await opened.goTo(LOG, "A5");
  const [, athlete = "", trick = ""] = lastRow.map(String);
  await typeKeys(opened.page, keysOfRow(["2025-10-05", athlete, trick, "Joined", "0110110111"]), [0, 10]);
  await opened.shows(LOG, "E5", "0110110111");
  // Shown as the days of the log are, not as the headings.
  expect(await opened.read(LOG, "A5")).toBe("5 Oct 2025");
  await isRight();
});

test("rows taken out by a cell's menu, and taken back", async () => {
  const before = await log();
  await choose(LOG, "E8", "Delete row");
  const after = await changed(before);
  expect(after).toEqual(before.filter((_, index) => index !== 8 - FIRST_LOG_ROW));
  await isRight();
  await refuses(8);
  await opened.goTo(LOG, "E8");
  expect(await press("Control+z")).toEqual(before);
  await isRight();
});

test("the last rows, with empty ones below them: the log loses its own rows alone", async () => {
  const before = await log();
  const end = FIRST_LOG_ROW + before.length - 1;
  await opened.goTo(LOG, `C${String(end - 1)}`);
  for (let row = 0; row < 4; row += 1) await opened.page.keyboard.press("Shift+ArrowDown");
  const { x, y } = await place(`C${String(end)}`);
  await opened.page.mouse.click(x, y, { button: "right" });
  await opened.page.getByRole("button", { name: "Delete row", exact: true }).click();
  expect(await changed(before)).toEqual(before.slice(0, -2));
  expect(await opened.page.locator("#rows-below").isHidden()).toBe(true);
  await isRight();
  await opened.goTo(LOG, "E8");
  expect(await press("Control+z")).toEqual(before);
  await isRight();
});

test("a row cut and pasted below the log, which takes it in; the row that it has left still refuses", async () => {
  const before = await log();
  const end = FIRST_LOG_ROW + before.length;
  await opened.goTo(LOG, "A12");
  for (let column = 0; column < LOG_COLUMNS.length - 1; column += 1)
    await opened.page.keyboard.press("Shift+ArrowRight");
  await opened.page.keyboard.press("Control+x");
  await holdsCopied(String(before[12 - FIRST_LOG_ROW]?.[4]));
  await opened.goTo(LOG, `A${String(end)}`);
  await opened.page.keyboard.press("Control+v");
  const after = await changed(before);
  expect(after.at(-1)).toEqual(before[12 - FIRST_LOG_ROW]);
  expect(after[12 - FIRST_LOG_ROW]).toEqual(EMPTY);
  await isRight();
  expect(await opened.page.locator("#rows-below").isHidden()).toBe(true);
  await refuses(12);
  await refuses(end);
  await opened.goTo(LOG, "A14");
  for (let step = 0; step < 4 && JSON.stringify(await log()) !== JSON.stringify(before); step += 1) {
    await opened.page.keyboard.press("Control+z");
    await opened.page.evaluate(() => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn))));
    await opened.ready();
  }
  expect(await log()).toEqual(before);
  await isRight();
  await refuses(12);
});

test("rows hidden by a filter count as before", async () => {
  const before = await log();
  const joined = FIRST_LOG_ROW + before.findIndex(([, , , stage]) => stage === "Joined");
  const others = FIRST_LOG_ROW + before.findIndex(([, , , stage]) => stage !== "Joined" && stage !== "");
  await opened.goTo(LOG, "A5");
  const heading = await place("D4");
  await opened.page.mouse.click(heading.right - 9, heading.y);
  await opened.page
    .locator("span:visible", { hasText: /^Joined$/ })
    .first()
    .click();
  await opened.page.getByRole("button", { name: "Confirm" }).click();
  const height = async (row: number): Promise<number> => (await place(`D${String(row)}`)).height;
  await opened.page.waitForFunction(
    (address) => {
      const found = window.tryOutPage?.place(address);
      return found !== undefined && found.bottom - found.top < 2;
    },
    `D${String(joined)}`,
  );
  expect(await height(others)).toBeGreaterThan(10);
  expect(await log()).toEqual(before);
  await isRight();
  await refuses(others);
  await opened.goTo(LOG, "A5");
  const again = await place("D4");
  await opened.page.mouse.click(again.right - 9, again.y);
  await opened.page.getByRole("button", { name: "Clear Filter" }).click();
  await opened.page.waitForFunction(
    (address) => {
      const found = window.tryOutPage?.place(address);
      return found !== undefined && found.bottom - found.top > 10;
    },
    `D${String(joined)}`,
  );
  await isRight();
});

test("rows put in and taken out above the log, which moves as one", async () => {
  const before = await log();
  await opened.goTo(LOG, "A2");
  const { x, y } = await place("A2");
  await opened.page.mouse.click(x, y, { button: "right" });
  await opened.page.getByRole("button", { name: "Insert", exact: true }).hover();
  await opened.page.getByText("rows above").first().waitFor();
  await pressRowsAbove(opened.page);
  await opened.shows(LOG, "A5", "Date");
  await opened.ready();
  const moved = await log();
  expect(moved.slice(1)).toEqual(before);
  const { expected, shown } = await boards(opened, BOARD, before);
  expect(shown).toEqual(expected);
  await refuses(6);
  await opened.goTo(LOG, "A3");
  await opened.page.keyboard.press("Control+z");
  await opened.shows(LOG, "A4", "Date");
  await opened.ready();
  expect(await log()).toEqual(before);
  await isRight();
});

test("a cell that was jumped to has its own menu, not that of the cell before", async () => {
  const entry = (words: string) => opened.page.getByRole("button", { name: words, exact: true });
  for (const [address, own, other] of [
    ["L9", "Paste Special", "Insert row above"],
    ["C9", "Insert row above", "Paste Special"],
    ["L10", "Paste Special", "Insert row above"],
  ] as const) {
    await opened.goTo(LOG, address);
    const { x, y } = await place(address);
    await opened.page.mouse.click(x, y, { button: "right" });
    await entry(own).waitFor();
    expect(await entry(other).count()).toBe(0);
    await opened.page.keyboard.press("Escape");
    await entry(own).waitFor({ state: "hidden" });
  }
});

/** A choice of the menu that the right mouse button opens on a sheet's name. A cell's menu may stay on the page unseen. */
async function chooseForSheet(sheet: string, words: string): Promise<void> {
  await opened.page.locator('[data-u-comp="slide-tab-item"]', { hasText: sheet }).first().click({ button: "right" });
  await opened.page.getByRole("button", { name: "Rename", exact: true }).waitFor();
  await opened.page.getByRole("button", { name: words, exact: true }).filter({ visible: true }).last().click();
}

const sheetNames = () => opened.page.evaluate(() => window.tryOutPage?.sheetNames() ?? []);

/** Presses Undo, or Redo, until the sheet is there, or gone. */
async function until(command: "undo" | "redo", sheet: string, isThere: boolean): Promise<void> {
  const button = opened.page.locator(`#grid [data-u-command="univer.command.${command}"]`).first();
  for (let press = 0; press < 3 && (await sheetNames()).includes(sheet) !== isThere; press += 1) {
    await button.click();
    await opened.ready();
  }
  expect((await sheetNames()).includes(sheet)).toBe(isThere);
}

test("a copy of the log's sheet changes nothing on the board, nor does taking it back and bringing it again", async () => {
  const { page } = opened;
  const copy = `${LOG} (Copy)`;
  const first = `E${String(FIRST_LOG_ROW)}`;
  const end = `E${String(FIRST_LOG_ROW + (await log()).length - 1)}`;
  const marks = await opened.read(LOG, end);
  await chooseForSheet(LOG, "Copy");
  await page.waitForFunction((name) => window.tryOutPage?.sheetNames().includes(name), copy);
  // The whole of a long log is there at once: what came later would come over what is typed meanwhile.
  expect(await opened.read(copy, end)).toBe(marks);
  expect(await opened.read(copy, first)).not.toBe("ddddd ddddd");
  await isRight();
  await page.evaluate(([name, at]) => window.tryOutPage?.write(name, at, "ddddd ddddd"), [copy, first] as const);
  await opened.shows(copy, first, "ddddd ddddd");
  await isRight();
  await opened.goTo(copy, "L9");
  await until("undo", copy, false);
  await isRight();
  await until("redo", copy, true);
  expect(await opened.read(copy, end)).toBe(marks);
  await isRight();
  await until("undo", copy, false);
  await isRight();
});

test("the log's sheet, deleted by mistake, is brought back whole", async () => {
  const { page } = opened;
  const before = await log();
  expect(before.length * LOG_COLUMNS.length).toBeGreaterThan(6000);
  await chooseForSheet(LOG, "Delete");
  await page.getByText("Confirm to delete this worksheet?").waitFor();
  await page.getByRole("button", { name: "OK", exact: true }).filter({ visible: true }).click();
  await page.waitForFunction((name) => !window.tryOutPage?.sheetNames().includes(name), LOG);
  // The board does not go on showing what is no longer there.
  await opened.shows(BOARD, "A5", "Not counted");
  await until("undo", LOG, true);
  expect(await log()).toEqual(before);
  await isRight();
  await refuses(FIRST_LOG_ROW + 1);
  const at = FIRST_LOG_ROW + before.length - 1;
  await opened.typeRow(LOG, at, ["2026-03-31", "", "", "", "ddddd ddddd"]);
  await isRight();
});

test("the row of the headings stays, and the page says why", async () => {
  const before = await log();
  await opened.goTo(LOG, "A4");
  const { y } = await place("A4");
  await opened.page.mouse.click(20, y, { button: "right" });
  await opened.page.getByText("Delete Selected Row").first().click();
  await opened.page.locator("#file-message", { hasText: "row 4 holds the headings of a table" }).waitFor();
  expect(await opened.read(LOG, "A4")).toBe("Date");
  expect(await log()).toEqual(before);
  await isRight();
});

test("the only row of a new season's log is emptied, and counts again when it is filled", async () => {
  const { page } = opened;
  await page.locator("#pane").getByRole("tab", { name: texts.newSeasonTitle }).click();
  const form = page.locator("#twirl-panel-new-season");
  await form.getByLabel(texts.labelLabel).fill("2031");
  await form.getByLabel(texts.athletesLabel).fill("K.O.");
  await form.getByLabel(texts.tricksLabel).fill("Thumb toss, 4");
  await form.getByRole("button", { name: texts.buildSeason }).click();
  await page.waitForFunction(() => window.tryOutPage?.sheetNames().includes("Contests 2031"));
  await opened.ready();
  const row = ["2031-01-10", "K.O.", "Thumb toss", "Joined", "cccc"];
  await opened.typeRow("Practice 2031", 5, row);
  await opened.shows("Board 2031", "K5", "Too few");
  await choose("Practice 2031", "C5", "Delete row");
  await opened.shows("Practice 2031", "A5", "");
  await opened.ready();
  expect(await opened.read("Practice 2031", "A4")).toBe("Date");
  expect(String(await opened.read("Board 2031", "K5"))).not.toBe("Too few");
  await opened.typeRow("Practice 2031", 5, row);
  await opened.shows("Board 2031", "K5", "Too few");
});

test("the page has nothing to complain about", () => {
  // Cutting and copying make a table of the cells in the grid's own way, with a style of its own on each, which the page's
  // policy refuses; what is pasted takes its looks from the grid.
  expect(opened.problems.filter((words) => !words.startsWith("Applying inline style violates"))).toEqual([]);
});
