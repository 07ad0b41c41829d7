/**
 * A real page whose process is killed while a set is being tapped, twenty times: what was shown as counted is there when
 * the pane is opened again. The unit test of the same name kills at every step, two hundred times over, saving too.
 */
import type { Page } from "playwright-core";
import { texts } from "../../src/taskpane/words/texts";
import { seededRandom } from "../benchmarks/random";
import { servePane } from "./served-pane";

jest.setTimeout(300_000);

const ROUNDS = 20;
const marksOn = (page: Page): Promise<string> =>
  page.locator(".twirl-marks").evaluate((element) => (element.textContent ?? "").replaceAll(" ", ""));

test("twenty kills in the middle of a set lose no attempt", async () => {
  const served = await servePane();
  const random = seededRandom(20);
  const first = await served.open({ query: "?season" });
  const context = first.page.context();
  let page = first.page;
  await page.getByRole("combobox", { name: texts.athleteLabel, exact: true }).fill("A.R.");
  await page.getByRole("combobox", { name: texts.trickLabel, exact: true }).fill("Double turn");
  await page.keyboard.press("Tab");
  let counted = "";
  let taps = 0;
  for (let round = 0; round < ROUNDS; round += 1) {
    const dead = new Promise<void>((resolve) => page.once("crash", () => resolve()));
    const keys = Array.from({ length: 1 + Math.floor(random() * 8) }, () => "cdb"[Math.floor(random() * 3)] ?? "c");
    for (const key of keys) await page.locator(".twirl-log").press(key);
    taps += keys.length;
    counted += keys.join("");
    expect(await marksOn(page)).toBe(counted);
    // One tap more is under way when the process dies: it may count or not.
    const last = "cdb"[Math.floor(random() * 3)] ?? "c";
    const tapping = page
      .locator(".twirl-log")
      .press(last)
      .catch(() => undefined);
    const session = await context.newCDPSession(page);
    session.send("Page.crash").catch(() => undefined);
    await dead;
    await tapping;
    await page.close();
    page = (await served.open({ query: "?season", context })).page;
    await page.locator(".twirl-marks", { hasText: /[cdb]/ }).waitFor();
    const now = await marksOn(page);
    expect([counted, counted + last]).toContain(now);
    taps += now.length - counted.length;
    counted = now;
  }
  expect(counted.length).toBe(taps);
  expect(taps).toBeGreaterThan(ROUNDS * 2);
  await served.close();
});
