import { fileURLToPath } from "node:url";

/** Whether this file was started from the command line and not imported. */
export function isMain(moduleUrl: string): boolean {
  return (
    process.argv[1] !== undefined &&
    fileURLToPath(moduleUrl).replace(/\.ts$/, "") === process.argv[1].replace(/\.ts$/, "")
  );
}
