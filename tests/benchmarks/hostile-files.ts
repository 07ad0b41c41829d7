/** What the reader of the try-out page spends on hostile files: time, and memory at its highest. */
import { WorkbookFile } from "../../src/grid/file/workbook-file";
import { hostileFiles } from "../grid/file/hostile-files";
import { milliseconds } from "./built-functions";

export function hostileFilesBenchmark(print: (line: string) => void): void {
  const spent = hostileFiles().map(({ what, make }) => {
    const bytes = make();
    const before = process.memoryUsage().rss;
    let answer = "opened";
    const time = milliseconds(() => {
      try {
        WorkbookFile.open("hostile.xlsx", bytes, { ownFunctions: [] });
      } catch (cause) {
        answer = cause instanceof Error ? cause.message : String(cause);
      }
    });
    return { what, size: bytes.length, time, memory: Math.max(0, process.memoryUsage().rss - before) / 1e6, answer };
  });
  const refused = spent.filter(({ answer }) => answer !== "opened").length;
  print(`${spent.length} hostile files: ${refused} refused in a sentence, ${spent.length - refused} opened.`);
  print("The ten that take longest:");
  print("| file | bytes | ms | more memory MB | answer |");
  print("| --- | --- | --- | --- | --- |");
  for (const { what, size, time, memory, answer } of [...spent]
    .sort((one, other) => other.time - one.time)
    .slice(0, 10)) {
    print(`| ${what} | ${size} | ${time.toFixed(0)} | ${memory.toFixed(0)} | ${answer} |`);
  }
  print(`Highest memory of the whole process: ${(process.resourceUsage().maxRSS / 1000).toFixed(0)} MB.`);
}
