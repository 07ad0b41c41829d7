/** `npm run bench`: measures and prints; `npm run bench -- readiness` runs one. Tests never time. */
import { readCommand } from "../../src/tools/command-line";
import { build } from "../../src/tools/build";
import { analyseBenchmark } from "./analyse";
import { boardBenchmark } from "./board";
import { contestBenchmark } from "./contest-forecasts";
import { extremesBenchmark } from "./extremes";
import { hostileFilesBenchmark } from "./hostile-files";
import { largeLogBenchmark } from "./large-log";
import { pageBenchmark } from "./page";
import { readinessBenchmark } from "./readiness";
import { tapsBenchmark } from "./taps";
import { trickBenchmark } from "./trick";

const benchmarks: Readonly<Record<string, (print: (line: string) => void) => void | Promise<void>>> = {
  readiness: readinessBenchmark,
  board: boardBenchmark,
  trick: trickBenchmark,
  contest: contestBenchmark,
  extremes: extremesBenchmark,
  hostile: hostileFilesBenchmark,
  page: pageBenchmark,
  "large-log": largeLogBenchmark,
  analyse: analyseBenchmark,
  taps: tapsBenchmark,
};

async function main(): Promise<void> {
  const names = Object.keys(benchmarks);
  const usage = `npm run bench -- [${names.join(" | ")}] …`;
  const { positionals: asked } = readCommand(process.argv.slice(2), { usage, options: {}, takesWords: true });
  const stranger = asked.find((name) => !names.includes(name));
  if (stranger !== undefined) throw new Error(`There is no measurement ${stranger}.\n${usage}`);
  await build();
  for (const [name, run] of Object.entries(benchmarks)) {
    if (asked.length > 0 && !asked.includes(name)) continue;
    console.log(`\n## ${name}\n`);
    await run((line) => console.log(line));
  }
}

main().catch((error: unknown) => {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
});
