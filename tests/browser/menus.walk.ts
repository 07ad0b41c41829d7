/**
 * `npm run menus`: every button and menu entry that the grid offers is pressed, with the mouse: each menu's entry has words,
 * each does something that one sees, none asks for what is not there, and what it has done can be taken back to the last
 * cell. Ten minutes long, and about the grid alone, so not among the tests: to be run after a new version of the grid.
 */
import type { Locator } from "playwright-core";
import { readLog } from "./log-and-board";
import { type OpenPage, openTryOutPage } from "./page";

jest.setTimeout(900_000);

const SHEET = "Practice 2026";
const BOARD = "Board 2026";

/** Where to press the right button of the mouse for each menu, as seen from a cell of the log. */
const menus: Readonly<Record<string, () => Promise<{ x: number; y: number }>>> = {
  "a cell of the log": () => middleInSight("C6"),
  "a cell beside the log": () => middleInSight("L9"),
  "a row's number": async () => ({ x: 20, y: (await middleInSight("A8")).y }),
  "a column's letter": async () => ({
    x: (await middleInSight("C6")).x,
    y: (await place("A1")).y - 10,
  }),
  "a sheet's name": async () => {
    const box = await opened.page.locator('[data-u-comp="slide-tab-item"]', { hasText: SHEET }).boundingBox();
    return { x: (box?.x ?? 0) + (box?.width ?? 0) / 2, y: (box?.y ?? 0) + (box?.height ?? 0) / 2 };
  },
};

/** Answered by the system, seen only when one goes on, or of no effect where nothing of the kind is there yet. */
const quiet = /^(Copy|Paste|Cut|Cancel|Clear|Unhide|Change color)\b|› (Cancel Freeze|Clear|Paste)/;

/** What no page without users and their rights can keep, and what would take marks for numbers. */
const notOffered = /protect|permission|text to number/i;

interface Entry {
  readonly words: string;
  readonly isOff: boolean;
  readonly x: number;
  readonly y: number;
  /** Which of the menus on the page has it. */
  readonly menu: number;
}

let opened: OpenPage;
/** The sheets' names, the log and the board, before anything was pressed. */
let before: string;

async function place(address: string): Promise<{ x: number; y: number; width: number; height: number }> {
  const found = await opened.page.evaluate((cell) => window.tryOutPage?.place(cell), address);
  if (!found) throw new Error("The page is not open.");
  const { left, top, right, bottom } = found;
  return { x: left, y: top, width: right - left, height: bottom - top };
}

async function middleInSight(address: string): Promise<{ x: number; y: number }> {
  await opened.goTo(SHEET, address);
  const { x, y, width, height } = await place(address);
  return { x: x + width / 2, y: y + height / 2 };
}

async function content(): Promise<string> {
  await opened.ready();
  const names = await opened.page.evaluate(() => window.tryOutPage?.sheetNames() ?? []);
  if (!names.includes(SHEET) || !names.includes(BOARD)) return names.join();
  const board = await opened.page.evaluate(
    ([name]) =>
      Array.from({ length: 70 }, (_, row) =>
        [..."ABCDEFGHIJKLM"].map((letter) => window.tryOutPage?.read(name, letter + String(4 + row)) ?? ""),
      ),
    [BOARD] as const,
  );
  const headings = await opened.page.evaluate(
    ([name]) => [..."ABCDEFGHIJ"].map((letter) => window.tryOutPage?.read(name, `${letter}4`) ?? ""),
    [SHEET] as const,
  );
  return JSON.stringify([names, headings, await readLog(opened, SHEET), board]);
}

/** All that can be seen of the grid: its drawing and its words, to tell whether something has changed. */
function look(): Promise<string> {
  return opened.page.evaluate(() => {
    const drawing = document.querySelector<HTMLCanvasElement>('[id^="univer-sheet-main-canvas"]');
    const bar = [...document.querySelectorAll("#grid [data-u-command]")].map((button) => button.outerHTML.length);
    const fields = [...document.querySelectorAll("input")].map(({ value }) => value);
    return [drawing?.toDataURL() ?? "", document.body.innerText, bar.join(" "), fields.join()].join("\n");
  });
}

function frame(): Promise<unknown> {
  return opened.page.evaluate(() => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn))));
}

/** Waits until the page looks other than it did; answers whether it does. */
async function looksOther(former: string): Promise<boolean> {
  for (let round = 0; round < 20; round += 1) {
    if ((await look()) !== former) return true;
    await frame();
  }
  return false;
}

/** Whether the mouse would reach it: the grid keeps a closed sidebar on the page, out of sight. */
function isInSight(button: Locator): Promise<boolean> {
  return button.evaluate((one) => {
    const { x, y, width, height } = one.getBoundingClientRect();
    const seen = document.elementFromPoint(x + width / 2, y + height / 2);
    return width > 0 && seen !== null && one.contains(seen);
  });
}

/** Closes whatever is open, takes back whatever was done, and looks whether all is as it was. */
async function putBack(words: string): Promise<void> {
  const { page } = opened;
  for (let round = 0; round < 3; round += 1) {
    await page.keyboard.press("Escape");
    for (const close of [
      page.getByRole("button", { name: "Cancel", exact: true }),
      page.getByRole("button", { name: "Close", exact: true }),
      page.getByLabel("Close sidebar"),
    ]) {
      for (const button of await close.all()) if (await isInSight(button)) await button.click();
    }
  }
  const undo = page.locator('#grid [data-u-command="univer.command.undo"]').first();
  for (let step = 0; step < 12 && (await undo.isEnabled()); step += 1) {
    await undo.click();
    await frame();
    await opened.ready();
  }
  await opened.goTo(SHEET, "L9");
  const now = await content();
  if (now !== before) throw new Error(`After "${words}" not all can be taken back.`);
}

/** The entries that are in sight, of menus alone, from the top to the foot. */
function entriesNow(): Promise<readonly Entry[]> {
  return opened.page.evaluate(() =>
    [...document.querySelectorAll<HTMLButtonElement>("body > div button, body > section button")]
      .filter((button) => button.closest("#pane, .page-bar, .page-sheet, #grid") === null)
      .map((button) => ({ button, box: button.getBoundingClientRect() }))
      .filter(({ box }) => box.width > 0 && box.height > 0)
      .filter(({ button, box }) => {
        const seen = document.elementFromPoint(box.x + 20, box.y + box.height / 2);
        return seen !== null && button.contains(seen);
      })
      .map(({ button, box }) => ({
        words: (button.innerText || (button.getAttribute("aria-label") ?? "")).trim().replace(/\s+/g, " "),
        isOff: button.disabled,
        x: box.x + 20,
        y: box.y + box.height / 2,
        menu: [...document.body.children].findIndex((one) => one.contains(button)),
      })),
  );
}

/** The same once they stand still: a menu grows into its place. */
async function entries(): Promise<readonly Entry[]> {
  let former: string | undefined;
  for (let round = 0; round < 90; round += 1) {
    const found = await entriesNow();
    const now = JSON.stringify(found);
    if (now === former) return found;
    former = now;
    await frame();
  }
  throw new Error("The menu does not stand still.");
}

function entryOf(shown: readonly Entry[], words: string): Entry {
  const entry = shown.find((one) => one.words === words);
  if (!entry) throw new Error(`The menu has no "${words}" any more.`);
  return entry;
}

async function openAt(at: { x: number; y: number }): Promise<readonly Entry[]> {
  for (let press = 0; press < 3; press += 1) {
    await opened.page.mouse.click(at.x, at.y, { button: "right" });
    for (let round = 0; round < 90; round += 1) {
      const shown = await entries();
      if (shown.length > 0) return shown;
    }
  }
  throw new Error("No menu opens.");
}

/** The entries of the menu that opens beside this one, where one does. */
async function beside(entry: Entry): Promise<readonly Entry[]> {
  await opened.page.mouse.move(entry.x, entry.y);
  for (let round = 0; round < 12; round += 1) {
    const further = (await entries()).filter(({ menu }) => menu !== entry.menu);
    if (further.length > 0) return further;
  }
  return [];
}

async function closeMenu(): Promise<void> {
  for (let press = 0; press < 3; press += 1) {
    await opened.page.keyboard.press("Escape");
    for (let round = 0; round < 60; round += 1) {
      if ((await entriesNow()).length === 0) return;
      await frame();
    }
  }
  const left = (await entriesNow()).map(({ words }) => words);
  throw new Error(`The menu does not close: ${left.join()}`);
}

/**
 * What went wrong on the page. Copying makes a table of the cells in the grid's own way, with a style of its own on each,
 * which the page's policy refuses: the cells that are pasted take theirs from the grid.
 */
function problems(): readonly string[] {
  return opened.problems.filter((words) => !words.startsWith("Applying inline style"));
}

beforeAll(async () => {
  opened = await openTryOutPage({ width: 1800, height: 950 });
  await opened.page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
  await opened.goTo(SHEET, "L9");
  before = await content();
});

afterAll(async () => {
  await opened.close();
});

describe("the grid's menus", () => {
  test.each(Object.keys(menus))("of %s", async (name) => {
    const where = menus[name];
    if (!where) throw new Error(name);
    const pressed: string[] = [];
    const withoutEffect: string[] = [];
    const wrong: string[] = [];
    const press = async (words: string, path: readonly string[]): Promise<void> => {
      const toldBefore = problems().length;
      let shown = await openAt(await where());
      const former = await look();
      for (const step of path.slice(0, -1)) shown = await beside(entryOf(shown, step));
      const { x, y } = entryOf(shown, path.at(-1) ?? "");
      await opened.page.mouse.move(x, y);
      await opened.page.mouse.click(x, y);
      pressed.push(words);
      if (!(await looksOther(former)) && !quiet.test(words)) withoutEffect.push(words);
      wrong.push(
        ...problems()
          .slice(toldBefore)
          .map((said) => `${words}: ${said}`),
      );
      await putBack(words);
    };
    const first = await openAt(await where());
    expect(first.map(({ words }) => words)).not.toContain("");
    const paths: string[][] = [];
    for (const entry of first) {
      if (entry.isOff) continue;
      await closeMenu();
      const further = await beside(entryOf(await openAt(await where()), entry.words));
      expect(further.map(({ words }) => words)).not.toContain("");
      if (further.length === 0) paths.push([entry.words]);
      else paths.push(...further.filter(({ isOff }) => !isOff).map(({ words }) => [entry.words, words]));
    }
    await putBack("nothing");
    for (const path of paths) await press(path.join(" › "), path);
    expect(pressed.length).toBeGreaterThan(4);
    expect(pressed.filter((words) => notOffered.test(words))).toEqual([]);
    expect({ pressed, withoutEffect, wrong }).toEqual({ pressed, withoutEffect: [], wrong: [] });
  });

  test("of a table's heading", async () => {
    await opened.goTo(SHEET, "D6");
    const { x, y, width, height } = await place("D4");
    const openHeading = async (): Promise<void> => {
      await opened.page.mouse.click(x + width - 9, y + height / 2);
      await opened.page.getByRole("button", { name: "Ascending" }).waitFor();
    };
    await openHeading();
    const names = await opened.page.getByRole("button", { name: "Ascending" }).evaluate((first) => {
      let panel: Element = first;
      while (panel.parentElement && !panel.textContent?.includes("Cancel")) panel = panel.parentElement;
      return [...panel.querySelectorAll("button")]
        .filter(({ disabled }) => !disabled)
        .map(({ innerText }) => innerText);
    });
    expect(names).not.toContain("");
    await putBack("nothing");
    expect(names).toEqual(expect.arrayContaining(["Ascending", "Descending", "Confirm", "Cancel"]));
    for (const words of names) {
      await openHeading();
      await opened.page.getByRole("button", { name: words, exact: true }).first().click();
      await opened.ready();
      await frame();
      expect({ words, problems: problems() }).toEqual({ words, problems: [] });
      await putBack(words);
    }
  });
});

test("the buttons of the bar above the sheet", async () => {
  const { page } = opened;
  const commands = await page.evaluate(() => [
    ...new Set(
      [...document.querySelectorAll("#grid [data-u-command]")].map((one) => one.getAttribute("data-u-command") ?? ""),
    ),
  ]);
  expect(commands.length).toBeGreaterThan(30);
  expect(commands.filter((command) => /protection|text-to-number/.test(command))).toEqual([]);
  const withoutEffect: string[] = [];
  for (const command of commands) {
    await page.evaluate(([name]) => window.tryOutPage?.write(name, "L9", 12.5), [SHEET] as const);
    await opened.goTo(SHEET, "L9");
    const at = () =>
      page.evaluate((id) => {
        for (const one of document.querySelectorAll<HTMLButtonElement>(`[data-u-command="${id}"]`)) {
          const { x, y, height } = one.getBoundingClientRect();
          const seen = document.elementFromPoint(x + 10, y + height / 2);
          if (seen && one.contains(seen)) {
            return { x: x + 10, y: y + height / 2, isOff: one.disabled };
          }
        }
        return null;
      }, command);
    // What finds no room in the bar comes in sight with it.
    if ((await at()) === null) await page.getByLabel("More").click();
    let found = await at();
    for (let round = 0; found === null && round < 60; round += 1) {
      await frame();
      found = await at();
    }
    if (found === null) throw new Error(`The bar shows ${command} nowhere.`);
    // What opens slides to its place: a press on the way would meet something else.
    for (let former = ""; JSON.stringify(found) !== former;) {
      former = JSON.stringify(found);
      for (let still = 0; still < 5; still += 1) await frame();
      found = (await at()) ?? found;
    }
    if (!found.isOff) {
      const former = await look();
      await page.mouse.click(found.x, found.y);
      if (!(await looksOther(former))) withoutEffect.push(command);
      const [option] = await page.locator("[role=menuitem]:visible").all();
      if (option && (await option.isVisible())) await option.click();
      await opened.ready();
      expect({ command, problems: problems() }).toEqual({ command, problems: [] });
    }
    await putBack(command);
  }
  expect(withoutEffect).toEqual([]);
});
