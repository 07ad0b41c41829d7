/**
 * `npm test`: builds what is stale, runs every test (the real-browser ones find or install a browser themselves) and
 * closes with the counts on one plain line. Further words go to jest: `npm test -- tests/core`.
 */
import { spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, rmSync } from "node:fs";
import { build } from "./build";
import { JEST } from "./jest";
import { inProject } from "./paths";

const RESULTS = inProject("build/test-results.json");

async function main(): Promise<void> {
  await build();
  mkdirSync(inProject("build"), { recursive: true });
  rmSync(RESULTS, { force: true });
  const run = spawnSync(
    process.execPath,
    [JEST, "--json", `--outputFile=${RESULTS}`, ...process.argv.slice(2)],
    // With --json jest prints its report to standard error and the results, which the file holds, to standard output.
    { cwd: inProject(), stdio: ["ignore", "ignore", "inherit"] },
  );
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
  process.exitCode = run.status ?? 1;
}

main().catch((error: unknown) => {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
});
