/**
 * How soon the pane answers on the try-out page: from the page's start to a tab that can be pressed, and from each tap to
 * the next picture on the screen. The page has the sample season in it, as a coach's workbook has.
 */
import type { Locator, Page } from "playwright-core";
import { texts } from "../../src/taskpane/words/texts";
import { openTryOutPage, type OpenPage } from "../browser/page";
import { median } from "./built-functions";
import { allowNamedFunctions } from "./times";

const OPENINGS = 3;
const TAPS = 9;

export async function tapsBenchmark(print: (line: string) => void): Promise<void> {
  const [interactive, calculated]: [number[], number[]] = [[], []];
  let opened: OpenPage | undefined;
  for (let opening = 0; opening < OPENINGS; opening += 1) {
    await opened?.close();
    opened = await openTryOutPage();
    calculated.push(await opened.page.evaluate(() => performance.now()));
    interactive.push(await opened.page.evaluate(() => performance.getEntriesByName("pane-there")[0]?.startTime ?? NaN));
  }
  if (!opened) return;
  try {
    const { page } = opened;
    await allowNamedFunctions(page);
    tell(print, "pane there and answering, from the page's start", interactive, 500);
    tell(print, "the whole page worked out", calculated, 4000);
    const pane = page.locator("#pane");
    await pane.getByRole("button", { name: texts.firstStepsSkip }).click();
    const tab = (name: string): Locator => pane.getByRole("tab", { name });
    await pane.getByRole("combobox", { name: texts.athleteLabel, exact: true }).fill("A.R.");
    await pane.getByRole("combobox", { name: texts.trickLabel, exact: true }).fill("Leap");
    await page.keyboard.press("Tab");
    await page.keyboard.press("Tab");
    await page.locator(".twirl-badge").waitFor();
    for (const mark of ["c", "d", "b"] as const) {
      tell(print, `tap on ${texts.markWords[mark]}`, await taps(page, [pane.locator(`.twirl-mark-${mark}`)]), 50);
    }
    tell(print, "tap on Undo", await taps(page, [pane.getByRole("button", { name: texts.undo })]), 50);
    await tab(texts.picturesTitle).click();
    await pane.locator("figure").waitFor();
    const kinds = Object.values(texts.pictureNames).map((name) => pane.getByText(name, { exact: true }));
    tell(print, "tap on another picture", await taps(page, kinds), 50);
    const parts = [texts.logSetTitle, texts.picturesTitle, texts.tempoTitle, texts.handOutTitle, texts.functionsTitle];
    // Each is fetched once; from then on it is there.
    for (const name of parts) await tab(name).click();
    await pane.getByRole("button", { name: "READINESS", exact: true }).waitFor();
    tell(print, "tap on another part", await taps(page, parts.map(tab)), 50);
    await tab(texts.functionsTitle).click();
    const entry = pane.getByRole("button", { name: "BOARD", exact: true });
    tell(print, "tap on a function's name", await taps(page, [entry]), 50);
    await tab(texts.tempoTitle).click();
    tell(print, "tap on the counts", await taps(page, [pane.locator(".twirl-press").first()]), 50);
  } finally {
    await opened.close();
  }
}

function tell(print: (words: string) => void, what: string, times: readonly number[], aim: number): void {
  const worst = Math.max(...times);
  print(
    `${what}: median ${median([...times]).toFixed(0)} ms, slowest ${worst.toFixed(0)} ms of ${String(times.length)}; aim ${String(aim)} ms`,
  );
}

interface Watch {
  started: number;
  ended: number;
}

/** From the moment at which a press came to the moment after the next picture was drawn. */
async function taps(page: Page, targets: readonly Locator[]): Promise<number[]> {
  const times: number[] = [];
  for (let tap = 0; tap < TAPS; tap += 1) {
    const target = targets[tap % targets.length] as Locator;
    await target.scrollIntoViewIfNeeded();
    await page.evaluate(() => {
      const watch: Watch = { started: 0, ended: 0 };
      (window as unknown as { tapWatch: Watch }).tapWatch = watch;
      const begin = (event: Event): void => {
        watch.started = event.timeStamp;
        const drawn = new MessageChannel();
        drawn.port1.onmessage = () => (watch.ended = performance.now());
        // After the frame in which the answer is drawn.
        requestAnimationFrame(() => drawn.port2.postMessage(null));
      };
      // The last event of a press: what answers to it has run before the next frame.
      window.addEventListener("click", begin, { once: true, capture: true });
    });
    await target.click();
    await page.waitForFunction(() => (window as unknown as { tapWatch: Watch }).tapWatch.ended > 0);
    times.push(
      await page.evaluate(() => {
        const { started, ended } = (window as unknown as { tapWatch: Watch }).tapWatch;
        return ended - started;
      }),
    );
  }
  return times;
}
