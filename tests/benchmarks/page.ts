/** How long a coach waits for the try-out page: to open it, to see one mark on the board, to have a season built. */
import { openTryOutPage, type OpenPage } from "../browser/page";
import { allowNamedFunctions, printTimes } from "./times";

const OPENINGS = 3;
const MARKS = 7;
const SEASONS = 3;

export async function pageBenchmark(print: (line: string) => void): Promise<void> {
  const openings: number[] = [];
  let opened: OpenPage | undefined;
  for (let opening = 0; opening < OPENINGS; opening += 1) {
    await opened?.close();
    opened = await openTryOutPage();
    openings.push(await opened.page.evaluate(() => performance.now()));
  }
  if (!opened) return;
  try {
    printTimes(print, "page opened, with its answers", openings, "2 to 4 s, as the design has it");
    printTimes(print, "one mark typed, seen on the board", await marks(opened), "1.5 s");
    printTimes(print, "a season built in the page, and worked out", await seasons(opened), "3 s");
  } finally {
    await opened.close();
  }
}

/** From the Enter after a mark to the moment the board shows it. */
async function marks(opened: OpenPage): Promise<number[]> {
  const { page } = opened;
  await allowNamedFunctions(page);
  const names = await page.evaluate(() => window.tryOutPage?.sheetNames() ?? []);
  const practice = names.find((name) => name.startsWith("Practice")) ?? "";
  const board = names.find((name) => name.startsWith("Board")) ?? "";
  // A set of the joined trick: what is practised apart is not on the board.
  const { logged, row } = await page.evaluate(
    ([log, name]) => {
      const read = (sheet: string, at: string): unknown => window.tryOutPage?.read(sheet, at);
      for (let logged = 5; logged < 5000; logged += 1) {
        if (read(log, `D${logged}`) !== "Joined") continue;
        for (let row = 5; row < 500; row += 1) {
          const same = (["A", "B"] as const).every(
            (column, index) => read(name, `${column}${row}`) === read(log, `${"BC"[index]}${logged}`),
          );
          if (same) return { logged, row };
        }
      }
      throw new Error("The board does not know the log's rows.");
    },
    [practice, board] as const,
  );
  const times: number[] = [];
  for (let mark = 0; mark < MARKS; mark += 1) {
    await opened.goTo(practice, `E${String(logged)}`);
    const before = await page.evaluate(([name, at]) => String(window.tryOutPage?.read(name, at)), [board, `C${row}`] as const); // prettier-ignore
    // A set that is one attempt longer each time.
    await page.keyboard.type("c".repeat(15 + mark));
    await page.evaluate(
      ([name, at, was]) => {
        const state = window as unknown as { benchStart: number; benchEnd: number };
        state.benchEnd = 0;
        window.addEventListener("keydown", () => (state.benchStart = performance.now()), { once: true, capture: true });
        const look = (): void => {
          if (String(window.tryOutPage?.read(name, at)) === was) requestAnimationFrame(look);
          else state.benchEnd = performance.now();
        };
        requestAnimationFrame(look);
      },
      [board, `C${row}`, before] as const,
    );
    await page.keyboard.press("Enter");
    await page.waitForFunction(() => (window as unknown as { benchEnd: number }).benchEnd > 0);
    times.push(
      await page.evaluate(() => {
        const { benchStart, benchEnd } = window as unknown as { benchStart: number; benchEnd: number };
        return benchEnd - benchStart;
      }),
    );
    await opened.ready();
  }
  return times;
}

async function seasons(opened: OpenPage): Promise<number[]> {
  const { page } = opened;
  const pane = page.locator("#pane");
  await pane.getByRole("tab", { name: "New season" }).click();
  const times: number[] = [];
  for (let season = 0; season < SEASONS; season += 1) {
    const label = `Bench ${String(season + 1)}`;
    await pane.getByLabel("Season label").fill(label);
    await pane.getByLabel("Athletes, one a line").fill("P.Q.\nR.S.\nT.U.");
    await pane.getByLabel("Tricks, one a line").fill("Double turn, 4\nBlind catch, 3\nIllusion, 4");
    const started = await page.evaluate(() => performance.now());
    await pane.getByRole("button", { name: "Build the season" }).click();
    await page.waitForFunction((name) => window.tryOutPage?.sheetNames().includes(name), `Contests ${label}`);
    await opened.ready();
    times.push((await page.evaluate(() => performance.now())) - started);
  }
  return times;
}
