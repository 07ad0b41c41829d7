/** What the benchmarks of the page print, and what they all need of it. */
import type { Page } from "playwright-core";
import { median } from "./built-functions";

/** One line: the median of some times in milliseconds, told in seconds, all of them, and what is aimed at. */
export function printTimes(print: (line: string) => void, what: string, times: readonly number[], aim: string): void {
  const all = times.map((time) => (time / 1000).toFixed(2)).join(", ");
  print(`${what}: median ${(median([...times]) / 1000).toFixed(2)} s (${all}); aim ${aim}`);
}

/** The compiler that runs these files names functions through a helper that the page does not have. */
export async function allowNamedFunctions(page: Page): Promise<void> {
  await page.evaluate("globalThis.__name = (given) => given");
}
