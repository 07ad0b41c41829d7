/**
 * `npm run mutation`: changes `src/core` in thousands of small ways and sees whether a test notices. Each topic is run
 * against its own tests only, which takes half an hour where all tests for every change would take three.
 * `npm run mutation -- slump week` runs some topics. Fails below the score asked for.
 */
import { readCommand } from "./command-line";
import { spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { inProject } from "./paths";

/** Each topic's files in `src/core`, and the test files in `tests/core` that hold them. */
const TOPICS: Readonly<Record<string, { readonly files: readonly string[]; readonly tests: readonly string[] }>> = {
  marks: { files: ["marks", "problem"], tests: ["marks", "problem"] },
  readiness: { files: ["readiness", "beta-binomial"], tests: ["readiness", "beta-binomial"] },
  streak: { files: ["streak"], tests: ["streak"] },
  rates: { files: ["catch-rate", "attempt-log"], tests: ["catch-rate", "readiness", "streak"] },
  tails: { files: ["tails"], tests: ["tails"] },
  compare: { files: ["compare"], tests: ["compare"] },
  slump: { files: ["slump"], tests: ["slump"] },
  "ready-date": { files: ["ready-date"], tests: ["ready-date"] },
  records: { files: ["history", "stages", "proof-attempts"], tests: ["records"] },
  board: { files: ["board", "text"], tests: ["board"] },
  "change-day": { files: ["change-day", "day-tallies"], tests: ["change-day"] },
  ways: {
    files: ["ways", "chance-best", "conditions", "mantel-haenszel"],
    tests: ["ways", "chance-best", "conditions", "mantel-haenszel"],
  },
  "first-tries": { files: ["first-tries", "row-of-marks"], tests: ["first-tries"] },
  "tell-apart": { files: ["tell-apart"], tests: ["tell-apart"] },
  progression: { files: ["progression", "day-rows"], tests: ["progression", "ways"] },
  toss: { files: ["toss", "counts"], tests: ["toss"] },
  tempo: { files: ["tempo"], tests: ["tempo"] },
  "set-in-hand": { files: ["set-in-hand"], tests: ["set-in-hand"] },
  placement: { files: ["placement", "film", "line-spread"], tests: ["placement"] },
  routine: { files: ["routine", "timeline"], tests: ["routine"] },
  week: { files: ["week"], tests: ["week"] },
  advice: {
    files: ["advice", "day-text"],
    tests: ["readiness", "toss", "placement", "routine", "week", "change-day", "first-tries", "progression"],
  },
};

const LOWEST_SCORE = 85;

interface Report {
  readonly files: Readonly<Record<string, { readonly mutants: readonly { readonly status: string }[] }>>;
}

function run(topic: string): { noticed: number; all: number } {
  const chosen = TOPICS[topic];
  if (!chosen) throw new Error(`There is no topic ${topic}. There are: ${Object.keys(TOPICS).join(", ")}.`);
  const folder = "build/mutation";
  mkdirSync(inProject(folder), { recursive: true });
  const jest = JSON.parse(readFileSync(inProject("tests/stryker.jest.config.json"), "utf8")) as object;
  const testMatch = chosen.tests.map((name) => `**/core/${name}.test.ts`);
  writeFileSync(inProject(folder, `${topic}.jest.json`), JSON.stringify({ ...jest, rootDir: "../..", testMatch }));
  const report = `${folder}/${topic}.report.json`;
  rmSync(inProject(report), { force: true });
  const stryker = JSON.parse(readFileSync(inProject("tests/stryker.config.json"), "utf8")) as { jest: object };
  writeFileSync(
    inProject(folder, `${topic}.json`),
    JSON.stringify({
      ...stryker,
      mutate: chosen.files.map((name) => `src/core/${name}.ts`),
      jest: { ...stryker.jest, configFile: `${folder}/${topic}.jest.json` },
      jsonReporter: { fileName: report },
    }),
  );
  spawnSync("npx", ["stryker", "run", `${folder}/${topic}.json`], { cwd: inProject(), stdio: "inherit" });
  const { files } = JSON.parse(readFileSync(inProject(report), "utf8")) as Report;
  const states = Object.values(files).flatMap(({ mutants }) => mutants.map(({ status }) => status));
  return {
    noticed: states.filter((status) => status === "Killed" || status === "Timeout").length,
    all: states.filter((status) => !["Ignored", "CompileError", "RuntimeError"].includes(status)).length,
  };
}

const { positionals: asked } = readCommand(process.argv.slice(2), {
  usage: "npm run mutation -- [topic …]",
  options: {},
  takesWords: true,
});
const results = (asked.length > 0 ? asked : Object.keys(TOPICS)).map((topic) => ({ topic, ...run(topic) }));
const percent = (noticed: number, all: number): string => ((100 * noticed) / all).toFixed(1);
for (const { topic, noticed, all } of results) console.log(`${topic}: ${percent(noticed, all)} % of ${all}`);
const noticed = results.reduce((sum, result) => sum + result.noticed, 0);
const all = results.reduce((sum, result) => sum + result.all, 0);
console.log(`All: ${percent(noticed, all)} % of ${all} (at least ${LOWEST_SCORE} % are asked for)`);
if ((100 * noticed) / all < LOWEST_SCORE) process.exitCode = 1;
