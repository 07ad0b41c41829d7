/** Typing as a coach does: one key after the other, without looking whether the page has kept up. */
import type { Page } from "playwright-core";

/** Between two keys, in milliseconds: at least, and at the most. */
export type Pace = readonly [least: number, most: number];

/** Types text, or one named key such as Tab. */
export async function typeKeys(
  page: Page,
  keys: readonly string[],
  pace: Pace,
  random: () => number = Math.random,
): Promise<void> {
  for (const key of keys) {
    await page.keyboard.press(key === " " ? "Space" : key);
    const pause = pace[0] + (pace[1] - pace[0]) * random();
    if (pause > 0) await new Promise((resolve) => setTimeout(resolve, pause));
  }
}

/** The keys of a row: each value, then Tab; at the end Enter, which goes to the row's first column in the row below. */
export function keysOfRow(values: readonly string[]): string[] {
  return [...values.flatMap((value) => [...value, "Tab"]), "Enter"];
}

/** Presses "Insert … rows above" in the menu that is open: beside the field for how many, once the menu has grown into its place. */
export async function pressRowsAbove(page: Page): Promise<void> {
  const words = page.getByText("rows above").first();
  const box = await words.boundingBox();
  if (!box) throw new Error("The menu offers no rows above.");
  await words.click({ position: { x: box.width - 10, y: box.height / 2 } });
}

/** What cells of a row show, as text. */
export function shownRow(page: Page, sheet: string, columns: string, row: number): Promise<string[]> {
  return page.evaluate(
    ([name, letters, line]) =>
      [...letters].map((letter) => String(window.tryOutPage?.read(name, letter + String(line)) ?? "")),
    [sheet, columns, row] as const,
  );
}

/** Builds a season by the pane's form: three athletes and three tricks. */
export async function buildSeason(page: Page, label: string): Promise<void> {
  const pane = page.locator("#pane");
  await pane.getByRole("tab", { name: "New season" }).click();
  await pane.getByLabel("Season label").fill(label);
  await pane.getByLabel("Athletes, one a line").fill(ATHLETES.join("\n"));
  await pane.getByLabel("Tricks, one a line").fill(TRICKS.map((trick, index) => `${trick}, ${index + 2}`).join("\n"));
  await pane.getByRole("button", { name: "Build the season" }).click();
  await page.waitForFunction((name) => window.tryOutPage?.sheetNames().includes(name), `Practice ${label}`);
}

export const ATHLETES = ["Lea B.", "Mia K.", "Sol O."] as const;
export const TRICKS = ["Double spin", "Blind catch", "Thumb flip"] as const;
export const STAGES = ["Body only", "Joined"] as const;
