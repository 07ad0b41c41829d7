/** A script of the tests, as one file for a page. */
import path from "node:path";
import { build } from "esbuild";

/** @param entry a file of this folder */
export async function bundled(entry: string): Promise<string> {
  const built = await build({
    entryPoints: [path.join(__dirname, entry)],
    bundle: true,
    write: false,
    format: "iife",
    target: "es2022",
  });
  return built.outputFiles[0]?.text ?? "";
}
