/** `npm run pictures`: runs the browser tests, which take the screenshots, and renews the README's picture. */
import { spawnSync } from "node:child_process";
import { cpSync, mkdirSync } from "node:fs";
import { build } from "./build";
import { JEST } from "./jest";
import { inProject } from "./paths";

/** From the browser tests' folder of screenshots to the names that the README shows. */
const PICTURES: Readonly<Record<string, string>> = { "try-out-page-1366x768.png": "board.png" };

async function main(): Promise<void> {
  await build();
  const run = spawnSync(process.execPath, [JEST, "tests/browser/try-out-page"], { cwd: inProject(), stdio: "inherit" });
  if (run.status !== 0) throw new Error("The browser tests failed; the pictures stay as they were.");
  mkdirSync(inProject("tests/browser/pictures"), { recursive: true });
  for (const [taken, shown] of Object.entries(PICTURES)) {
    cpSync(inProject("build/screenshots", taken), inProject("tests/browser/pictures", shown));
  }
}

main().catch((error: unknown) => {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
});
