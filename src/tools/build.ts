/**
 * Builds the add-in into `dist/` and the try-out page into `build/preview/` (never hosted).
 *
 *   npm run build                for https://localhost:3000/; `npm run package` makes of it what a club hosts
 *   npm run build -- --force     even when nothing changed
 */
import { readCommand } from "./command-line";
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createHash } from "node:crypto";
import { createRequire } from "node:module";
import path from "node:path";
import webpack, { type Configuration, type Module, type MultiStats } from "webpack";
import { sampleSeason } from "../workbook/sample/sample-season";
import { writeWorkbookFile } from "../xlsx/write-plan";
import { makeGuidePage } from "./guide/guide-page";
import { makeHelpPage } from "./help-page";
import { makeMetadata } from "./metadata";
import { isMain } from "./main-module";
import { TEMPLATE_ADDRESS } from "./package/manifest";
import { inProject, root } from "./paths";

const INPUTS = ["src", "webpack.config.js", "manifest.xml", "package-lock.json", "tsconfig.json"];
const STAMP = inProject("build/stamp.json");
/** The names of the packages of which something is in a file that a club hosts, for the bill of materials. */
export const HOSTED = inProject("build/hosted-packages.json");
/** The host's own library, as its package ships it: only what the spreadsheet host loads. */
const OFFICE_FILES = [
  "office.js",
  "o15apptofilemappingtable.js",
  "custom-functions-runtime.js",
  "es6-promise.js",
  "excel-web-16.00.js",
  "excel-web-16.00-core.js",
  "excel-win32-16.00.js",
  "excel-win32-16.01.js",
  "excel-win32-16.01-core.js",
  "excel-winrt-16.00.js",
  "excel-mac-16.00.js",
  "excel-mac-16.00-core.js",
  "en-us/office_strings.js",
];

/** Builds what is stale; answers whether anything was. */
export async function build({ force = false } = {}): Promise<boolean> {
  const stamp = JSON.stringify({ inputs: hashOf(INPUTS) });
  if (!force && existsSync(STAMP) && readFileSync(STAMP, "utf8") === stamp) return false;
  for (const folder of ["dist", "build/preview"]) rmSync(inProject(folder), { recursive: true, force: true });
  rmSync(STAMP, { force: true });
  for (const folder of ["dist", "build/preview"]) mkdirSync(inProject(folder), { recursive: true });

  const hosted = await bundle(["functions"]);
  writeFileSync(inProject("dist/functions.json"), await makeMetadata(TEMPLATE_ADDRESS));
  for (const name of await bundle(["pane", "preview"])) hosted.add(name);
  writeFileSync(HOSTED, `${JSON.stringify([...hosted].sort())}\n`);
  copyPaneFiles(inProject("dist"));
  copyPreview();
  writeFileSync(STAMP, stamp);
  return true;
}

/** Answers the packages that are in the bundles of `dist/`. */
async function bundle(names: readonly string[]): Promise<Set<string>> {
  const all = createRequire(__filename)(inProject("webpack.config.js")) as Configuration[];
  const compiler = webpack(all.filter(({ name }) => name !== undefined && names.includes(name)));
  return new Promise((resolve, reject) => {
    compiler.run((error, stats) => {
      compiler.close(() => undefined);
      if (error) reject(error);
      else if (!stats || stats.hasErrors()) reject(new Error(stats?.toString({ preset: "errors-only" })));
      else resolve(packagesIn(stats));
    });
  });
}

function packagesIn({ stats }: MultiStats): Set<string> {
  const packages = new Set<string>();
  for (const { compilation } of stats) {
    if (compilation.compiler.outputPath !== inProject("dist")) continue;
    for (const module of compilation.modules) {
      // Modules that were joined into one are inside it.
      const { modules = [module] } = module as Module & { modules?: Module[] };
      for (const inner of modules) {
        const file = inner.nameForCondition()?.replaceAll("\\", "/") ?? "";
        const name = /node_modules\/((?:@[^/]+\/)?[^/]+)\/(?!.*node_modules\/)/.exec(file)?.[1];
        if (name !== undefined) packages.add(name);
      }
    }
  }
  return packages;
}

/** What the bundles do not bring: pages, styles, pictures, the manifest and the host's own library. */
export function copyPaneFiles(folder: string): void {
  const from = (file: string) => inProject("src/taskpane", file);
  const to = (file: string) => path.join(folder, file);
  for (const file of ["taskpane.html", "pane.css"]) cpSync(from(file), to(file));
  mkdirSync(to("icons"), { recursive: true });
  for (const icon of readdirSync(from("icons")).filter((name) => name.endsWith(".png"))) {
    cpSync(from(`icons/${icon}`), to(`icons/${icon}`));
  }
  cpSync(inProject("src/tools/help.css"), to("help.css"));
  cpSync(inProject("src/tools/guide/guide.css"), to("guide.css"));
  writeFileSync(to("help.html"), makeHelpPage());
  writeFileSync(to("guide.html"), makeGuidePage());
  cpSync(inProject("manifest.xml"), to("manifest.xml"));
  const office = path.join(root, "node_modules/@microsoft/office-js/dist");
  for (const file of OFFICE_FILES) cpSync(path.join(office, file), to(`office/${file}`));
}

/** What the page's own bundle does not bring: the functions as built for the host, and the season it opens with. */
function copyPreview(): void {
  const to = (file: string) => inProject("build/preview", file);
  for (const file of ["functions.js", "functions.json", "help.html", "help.css", "guide.html", "guide.css", "icons"]) {
    cpSync(inProject("dist", file), to(file), { recursive: true });
  }
  writeFileSync(to("season.xlsx"), writeWorkbookFile(sampleSeason()));
}

/** A fingerprint of the files in these places: names and contents. */
function hashOf(places: readonly string[]): string {
  const hash = createHash("sha256");
  const visit = (place: string): void => {
    const full = inProject(place);
    let entries: string[] | undefined;
    try {
      entries = readdirSync(full).sort();
    } catch {
      entries = undefined;
    }
    if (entries) entries.forEach((entry) => visit(path.join(place, entry)));
    else hash.update(place).update("\0").update(readFileSync(full)).update("\0");
  };
  places.forEach(visit);
  return hash.digest("hex");
}

async function main(words: readonly string[]): Promise<void> {
  const { values } = readCommand(words, {
    usage: "npm run build -- [--force]\nnpm run package -- --url … makes the folder for a club's address.",
    options: { force: { type: "boolean", default: false } },
  });
  console.log((await build(values)) ? "Built dist/ and build/preview/." : "Nothing changed since the last build.");
}

if (isMain(module)) {
  main(process.argv.slice(2)).catch((error: unknown) => {
    console.error(error instanceof Error ? error.message : error);
    process.exitCode = 1;
  });
}
