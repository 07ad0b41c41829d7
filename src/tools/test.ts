/**
 * `npm test`: builds what is stale and wanted, runs every test (the real-browser ones find or install a browser themselves) and
 * closes with the counts on one plain line. Further words go to jest: `npm test -- tests/core`.
 */
import { spawn } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, rmSync } from "node:fs";
import { build } from "./build";
import { JEST } from "./jest";
import { inProject } from "./paths";
import { needsBuild } from "./unbuilt-tests";

const RESULTS = inProject("build/test-results.json");
const SECONDS_TO_END = 30;

/**
 * Jest waits without end for what a test has left open, though all results are there: it is ended then, and what the tests
 * showed is the result.
 */
function runJest(words: readonly string[]): Promise<number | null> {
  // With --json jest prints its report to standard error and the results, which the file holds, to standard output.
  const jest = spawn(process.execPath, [JEST, ...words], { cwd: inProject(), stdio: ["ignore", "ignore", "inherit"] });
  let secondsSinceResults = 0;
  const watch = setInterval(() => {
    if (!existsSync(RESULTS)) return;
    secondsSinceResults += 1;
    if (secondsSinceResults < SECONDS_TO_END) return;
    console.error(
      `jest did not end within ${String(SECONDS_TO_END)} s of its results: a test has left something open.`,
    );
    jest.kill("SIGKILL");
  }, 1000);
  return new Promise((resolve, reject) => {
    jest.once("error", reject).once("exit", (status) => {
      clearInterval(watch);
      resolve(status);
    });
  });
}

async function main(): Promise<void> {
  const words = process.argv.slice(2);
  if (needsBuild(words)) await build();
  mkdirSync(inProject("build"), { recursive: true });
  rmSync(RESULTS, { force: true });
  const status = await runJest([...words, "--json", `--outputFile=${RESULTS}`]);
  const results = JSON.parse(readFileSync(RESULTS, "utf8")) as {
    numPassedTests: number;
    numFailedTests: number;
    numPendingTests: number;
    numFailedTestSuites: number;
    numRuntimeErrorTestSuites: number;
  };
  const failed = results.numFailedTests + results.numRuntimeErrorTestSuites;
  const skipped = results.numPendingTests > 0 ? `, ${results.numPendingTests} skipped` : "";
  console.log(`${results.numPassedTests} passed, ${failed} failed${skipped}`);
  process.exitCode = status ?? (failed > 0 ? 1 : 0);
}

main().catch((error: unknown) => {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
});
