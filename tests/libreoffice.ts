/** LibreOffice, where it is on the machine: a reader and printer of workbooks that had no part in writing them. */
import { spawnSync } from "node:child_process";
import path from "node:path";
import { pathToFileURL } from "node:url";

export const isOfficeThere = spawnSync("soffice", ["--version"], { encoding: "utf8" }).status === 0;

/**
 * Commas, double quotes, UTF-8, every sheet into a file of its own (-1).
 * @param asShown whether cells come as they are shown, or as what they hold
 */
export function sheetsAsText(asShown: boolean): string {
  return `csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,${String(!asShown)},${String(asShown)},false,false,-1`;
}

/** Converts files; each result stands in the folder under the file's name. It may take `timeout` milliseconds. */
export function convert(files: readonly string[], to: string, folder: string, timeout = 120_000): void {
  const profile = pathToFileURL(path.join(folder, "profile")).href;
  const run = spawnSync(
    "soffice",
    [`-env:UserInstallation=${profile}`, "--headless", "--convert-to", to, "--outdir", folder, ...files],
    { encoding: "utf8", timeout },
  );
  if (run.status !== 0) throw new Error(`LibreOffice stopped: ${run.stderr}`);
}
