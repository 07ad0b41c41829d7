/** The colours of cells as they stand on the screen: read from the picture of the page, not from what the grid holds. */
import { PNG } from "pngjs";

import { statusLooks, statusWordLooks } from "../../src/workbook/plan/looks";
import type { Status } from "../../src/trade/statuses";
import type { OpenPage } from "./page";

interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** What a cell without a status may be filled with: the sheet's own white, a table's pale band, what is worked out. */
const plainFills: ReadonlySet<string> = new Set(["#FFFFFF", "#F7F6FA", "#F1EEF6"]);

/** The colour that most of a cell has, letters and lines being less: `#RRGGBB`. */
export function fillIn(picture: PNG, { left, top, right, bottom }: Box): string {
  const counts = new Map<string, number>();
  // Without the lines around it, and the frame of a selected cell.
  for (let y = Math.ceil(top) + 3; y < Math.floor(bottom) - 3; y += 1) {
    for (let x = Math.ceil(left) + 3; x < Math.floor(right) - 3; x += 1) {
      const at = (y * picture.width + x) * 4;
      const colour = `#${picture.data.toString("hex", at, at + 3).toUpperCase()}`;
      counts.set(colour, (counts.get(colour) ?? 0) + 1);
    }
  }
  const [most] = [...counts].sort(([, one], [, other]) => other - one);
  if (most === undefined) throw new Error("The cell is not in the picture.");
  return most[0];
}

/** Frames that the page may draw until a colour has followed its word: some seconds on a busy machine. */
const MOST_LOOKS = 60;

/**
 * Waits until each cell of a sheet's column is drawn in the colour of the status word that it shows, and without one
 * where it shows none. Answers the words, from the first row to the last.
 */
export async function statusesAsDrawn(
  opened: OpenPage,
  sheet: string,
  column: string,
  firstRow: number,
  lastRow: number,
): Promise<readonly string[]> {
  const { page } = opened;
  await opened.goTo(sheet, `${column}${String(firstRow)}`);
  await opened.ready();
  const addresses = Array.from(
    { length: lastRow - firstRow + 1 },
    (_, index) => `${column}${String(firstRow + index)}`,
  );
  for (let look = 1; ; look += 1) {
    const cells = await page.evaluate(
      ([name, list]) =>
        list.map((address) => ({
          address,
          word: String((window.tryOutPage?.read(name, address) as string | undefined) ?? ""),
          box: window.tryOutPage?.place(address),
        })),
      [sheet, addresses] as const,
    );
    const picture = PNG.sync.read(await page.screenshot());
    const wrong = cells.flatMap(({ address, word, box }) => {
      const fill = fillIn(picture, box ?? { left: 0, top: 0, right: 0, bottom: 0 });
      const expected = word in statusWordLooks ? statusLooks[statusWordLooks[word as Status]].fill : undefined;
      const right = expected === undefined ? plainFills.has(fill) : fill === expected;
      return right ? [] : [`${sheet} ${address} shows "${word}" in ${fill}, not in ${expected ?? "none"}`];
    });
    if (wrong.length === 0) return cells.map(({ word }) => word);
    if (look === MOST_LOOKS) throw new Error(wrong.join("; "));
    await page.evaluate(() => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn))));
  }
}
