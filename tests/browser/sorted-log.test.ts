/** A coach sorts the log by the buttons in the headings' menus, with the mouse, in the real page. */
import { PNG } from "pngjs";

import { type OpenPage, openTryOutPage } from "./page";

jest.setTimeout(300_000);

const LOG = "Practice 2026";
const BOARD = "Board 2026";

/** The cells of a block as they are kept, row by row: a number is not the text that looks like it. */
function block(opened: OpenPage, sheet: string, columns: string, first: number, last: number): Promise<string[]> {
  return opened.page.evaluate(
    ([name, letters, from, to]) => {
      const rows: string[] = [];
      for (let row = from; row <= to; row += 1) {
        rows.push(
          JSON.stringify([...letters].map((letter) => window.tryOutPage?.read(name, letter + String(row)) ?? "")),
        );
      }
      return rows;
    },
    [sheet, columns, first, last] as const,
  );
}

describe("the log", () => {
  let opened: OpenPage;
  let last = 5;
  const log = (): Promise<string[]> => block(opened, LOG, "ABCDEFG", 5, last);
  const board = (): Promise<string[]> => block(opened, BOARD, "ABCDEFGHIJKLM", 5, 80);

  const days = async (): Promise<number[]> =>
    (await log()).map((row) => Date.parse(String((JSON.parse(row) as unknown[])[0])));

  /** Of a cell near the top of the log, which is in sight. */
  const place = async (address: string): Promise<{ x: number; y: number; width: number; height: number }> => {
    const found = await opened.page.evaluate((cell) => window.tryOutPage?.place(cell), address);
    if (!found) throw new Error("The page is not open.");
    const { left, top, right, bottom } = found;
    return { x: left, y: top, width: right - left, height: bottom - top };
  };

  /** Opens the menu of the heading in this cell and presses a button there. */
  async function sort(heading: string, button: "Ascending" | "Descending"): Promise<void> {
    const before = (await log()).join();
    await opened.goTo(LOG, "A5");
    const { x, y, width, height } = await place(heading);
    await opened.page.mouse.click(x + width - 9, y + height / 2);
    await opened.page.getByRole("button", { name: button }).click();
    await changed(before);
  }

  async function changed(before: string): Promise<void> {
    await opened.page.waitForFunction(
      ([name, to, was]) => {
        const rows: string[] = [];
        for (let row = 5; row <= to; row += 1) {
          rows.push(
            JSON.stringify([..."ABCDEFG"].map((letter) => window.tryOutPage?.read(name, letter + String(row)) ?? "")),
          );
        }
        return rows.join() !== was && document.body.dataset["state"] === "ready";
      },
      [LOG, last, before] as const,
    );
  }

  /** Waits until B5 and B9 are drawn with the red corner of a refused value, or without. */
  async function corners(expected: readonly [boolean, boolean]): Promise<void> {
    const reds = async (cell: string): Promise<boolean> => {
      const { x, y, width } = await place(cell);
      const size = 6;
      const clip = { x: x + width - size - 1, y: y + 1, width: size, height: size };
      const { data } = PNG.sync.read(await opened.page.screenshot({ clip }));
      for (let at = 0; at < data.length; at += 4) {
        if ((data[at] ?? 0) > 200 && (data[at + 1] ?? 255) < 120 && (data[at + 2] ?? 255) < 120) return true;
      }
      return false;
    };
    for (let round = 1; ; round += 1) {
      const found = [await reds("B5"), await reds("B9")];
      if (String(found) === String(expected) || round === 40) return expect(found).toEqual(expected);
      await opened.page.evaluate(() => new Promise((resolve) => requestAnimationFrame(resolve)));
    }
  }

  async function press(keys: string): Promise<void> {
    const before = (await log()).join();
    await opened.page.keyboard.press(keys);
    await changed(before);
  }

  beforeAll(async () => {
    opened = await openTryOutPage();
    while ((await opened.read(LOG, `A${String(last + 1)}`)) ?? "") last += 200;
    while (!((await opened.read(LOG, `A${String(last)}`)) ?? "")) last -= 1;
    // Marks that would lose their first figure as numbers.
    await opened.page.evaluate(([name]) => window.tryOutPage?.write(name, "E7", "0110110111"), [LOG] as const);
    await opened.ready();
    await opened.goTo(LOG, "A5");
  });

  afterAll(async () => {
    await opened.close();
  });

  test("is sorted by athlete, whole rows together, and the board stays as it was", async () => {
    const [before, boardBefore] = [await log(), await board()];
    await sort("B4", "Descending");
    const after = await log();
    expect([...after].sort()).toEqual([...before].sort());
    const names = after.map((row) => (JSON.parse(row) as string[])[1] ?? "");
    expect(names).toEqual([...names].sort().reverse());
    // Rows of an athlete keep their order, and so the attempts of a day.
    for (const name of new Set(names)) {
      const own = (rows: readonly string[]) => rows.filter((row) => (JSON.parse(row) as string[])[1] === name);
      expect(own(after)).toEqual(own(before));
    }
    expect(after.find((row) => row.includes("0110110111"))).toContain('"0110110111"');
    expect(await board()).toEqual(boardBefore);

    await press("Control+z");
    expect(await log()).toEqual(before);
    expect(await board()).toEqual(boardBefore);
    await press("Control+y");
    expect(await log()).toEqual(after);
    expect(await board()).toEqual(boardBefore);
    await press("Control+z");
  });

  test("is sorted by day again, and the board stays as it was", async () => {
    const boardBefore = await board();
    await sort("B4", "Ascending");
    const before = await log();
    await sort("A4", "Descending");
    const falling = await days();
    expect(new Set(falling).size).toBeGreaterThan(20);
    expect(falling).toEqual([...falling].sort((one, other) => other - one));
    // Days are read, not rows counted: the latest set is the latest day's, also where it stands at the top.
    expect(await board()).toEqual(boardBefore);
    await sort("A4", "Ascending");
    expect(await days()).toEqual([...falling].sort((one, other) => one - other));
    expect(await board()).toEqual(boardBefore);
    await press("Control+z");
    await press("Control+z");
    expect(await log()).toEqual(before);
  });

  test("keeps the red corner beside the value that may not be typed there", async () => {
    const athlete = String(await opened.read(LOG, "B9"));
    await opened.page.evaluate(([name]) => window.tryOutPage?.write(name, "B9", "Zed"), [LOG] as const);
    await opened.ready();
    await opened.goTo(LOG, "A5");
    await corners([false, true]);
    await sort("B4", "Descending");
    await opened.shows(LOG, "B5", "Zed");
    await opened.goTo(LOG, "A5");
    await corners([true, false]);
    await press("Control+z");
    await opened.goTo(LOG, "A5");
    await corners([false, true]);
    await opened.page.evaluate(([name, was]) => window.tryOutPage?.write(name, "B9", was), [LOG, athlete] as const);
    await corners([false, false]);
  });

  test("has nothing to complain about", () => {
    expect(opened.problems).toEqual([]);
  });
});
