/**
 * A practice without a computer: the Gym sheet is made in the pane, printed, and filled in afterwards by keys alone; its marks go
 * into the log and the board counts them.
 */
import { join } from "node:path";

import { texts } from "../../src/taskpane/words/texts";
import { boards, readLog } from "./log-and-board";
import { type OpenPage, openTryOutPage, screenshots } from "./page";

jest.setTimeout(600_000);

const [GYM, LOG, BOARD] = ["Gym 2026", "Practice 2026", "Board 2026"] as const;
const FIRST = 6;
let opened: OpenPage;

beforeAll(async () => {
  opened = await openTryOutPage({ width: 1366, height: 768 });
  await opened.ready();
});

afterAll(async () => {
  await opened.close();
});

const said = (): Promise<string | null> =>
  opened.page.locator("[aria-labelledby=twirl-gym-title] [role=status]").textContent();

async function take(words: RegExp): Promise<void> {
  await opened.page.getByRole("button", { name: texts.gymTake }).click();
  const status = opened.page.locator("[aria-labelledby=twirl-gym-title] [role=status]");
  await status.filter({ hasText: words }).waitFor();
}

test("everybody's planned sets stand on it, and it prints whole, on two pages, with a line around each cell", async () => {
  const { page } = opened;
  await page.locator("#pane").getByRole("tab", { name: texts.handOutTitle }).click();
  await page.getByRole("button", { name: texts.gymMake }).click();
  await page.getByText(texts.gymMade(GYM)).waitFor();
  await opened.ready();
  const athletes = await page.evaluate(
    ([sheet, first]) =>
      Array.from({ length: 60 }, (_, row) => String(window.tryOutPage?.read(sheet, `A${String(first + row)}`) ?? "")),
    [GYM, FIRST] as const,
  );
  expect(new Set(athletes.filter((name) => name !== "")).size).toBe(6);

  await opened.printSheet();
  await page.emulateMedia({ media: "print" });
  await page.screenshot({ path: join(screenshots, "gym-sheet-paper.png"), fullPage: true });
  const paper = await page.evaluate(() => {
    const table = document.querySelector<HTMLElement>(".page-paper table");
    const lines = [...(table?.querySelectorAll<HTMLElement>("tbody tr") ?? [])];
    const boxes = lines.flatMap((line) => [...line.querySelectorAll<HTMLElement>("td")]);
    return {
      wrapped: boxes.filter((cell) => /^[□ ]+$/.test(cell.textContent) && cell.offsetHeight > 40).length,
      unruled: boxes.filter((cell) => getComputedStyle(cell).borderBottomStyle !== "solid").length,
      height: table?.getBoundingClientRect().height ?? 0,
    };
  });
  // A page of A4 on its side is some 710 pixels high inside its margins.
  expect(paper).toMatchObject({ wrapped: 0, unruled: 0 });
  expect(paper.height).toBeLessThan(2 * 700);
  await page.emulateMedia({ media: "screen" });
  await page.evaluate(() => window.dispatchEvent(new Event("afterprint")));
});

test("marks typed over the boxes by keys alone go into the log once, and the board counts them", async () => {
  const { page } = opened;
  const before = (await readLog(opened, LOG)).length;
  await opened.goTo(GYM, `C${String(FIRST)}`);
  const sets = ["ccdcc ccccd", "ccccc cdccc"] as const;
  for (const key of [...sets[0], "Tab", ...sets[1], "Enter"]) {
    await page.keyboard.press(key === " " ? "Space" : key, { delay: 20 });
    await page.waitForTimeout(60);
  }
  // Enter goes to the line below, under the first cell that was typed.
  await page.keyboard.type("8/10", { delay: 80 });
  await page.keyboard.press("Enter");
  await opened.shows(GYM, `C${String(FIRST + 1)}`, "8/10");
  await opened.shows(GYM, `D${String(FIRST)}`, sets[1]);
  await take(/ in the log/);
  expect(await said()).toBe(texts.gymTaken(3, 0));
  await opened.ready();
  const log = await readLog(opened, LOG);
  expect(log.slice(before).map((row) => row[4])).toEqual([...sets, "8/10"]);
  const { expected, shown } = await boards(opened, BOARD, log);
  expect(shown).toEqual(expected);
  await take(/there already/);
  expect(await said()).toBe(texts.gymTaken(0, 3));
  expect((await readLog(opened, LOG)).length).toBe(before + 3);
});

test("a mark that nobody can read is told with its cell, and nothing is logged until it is put right", async () => {
  const { page } = opened;
  const before = (await readLog(opened, LOG)).length;
  await opened.goTo(GYM, `D${String(FIRST + 1)}`);
  await page.keyboard.type("ccxcc", { delay: 80 });
  await page.keyboard.press("Enter");
  await take(/cannot be read/);
  await page.getByText(new RegExp(`^${GYM}!D${String(FIRST + 1)}: `)).waitFor();
  await page.screenshot({ path: join(screenshots, "gym-sheet-wrong-mark.png") });
  expect((await readLog(opened, LOG)).length).toBe(before);
  await opened.goTo(GYM, `D${String(FIRST + 1)}`);
  await page.keyboard.type("ccdcc", { delay: 80 });
  await page.keyboard.press("Enter");
  await take(/1 set is in the log/);
  expect((await readLog(opened, LOG)).at(-1)?.[4]).toBe("ccdcc");
  expect(opened.problems).toEqual([]);
});
