/** `npm run pictures`: runs the browser tests, which take the screenshots, and renews the README's pictures. */
import { spawnSync } from "node:child_process";
import { cpSync, mkdirSync, statSync } from "node:fs";
import { build } from "./build";
import { JEST } from "./jest";
import { inProject } from "./paths";

/** From the browser tests' folder of screenshots to the names that the README shows. */
const PICTURES: Readonly<Record<string, string>> = {
  "try-out-page-1366x768.png": "board.png",
  "first-status.png": "first-status.png",
  "figure-record.png": "record.png",
  "figure-landings.png": "landings.png",
  "figure-routine.png": "routine.png",
  "figure-toss.png": "toss.png",
};

/** A picture of a few flat colours is small; one that is larger shows more than it needs to. */
const MOST_BYTES = 260_000;

async function main(): Promise<void> {
  await build();
  const tests = ["tests/browser/try-out-page", "tests/browser/parts"];
  const run = spawnSync(process.execPath, [JEST, ...tests], { cwd: inProject(), stdio: "inherit" });
  if (run.status !== 0) throw new Error("The browser tests failed; the pictures stay as they were.");
  mkdirSync(inProject("tests/browser/pictures"), { recursive: true });
  for (const [taken, shown] of Object.entries(PICTURES)) {
    const from = inProject("build/screenshots", taken);
    if (statSync(from).size > MOST_BYTES) throw new Error(`${shown} would be larger than ${MOST_BYTES} bytes.`);
    cpSync(from, inProject("tests/browser/pictures", shown));
  }
}

main().catch((error: unknown) => {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
});
