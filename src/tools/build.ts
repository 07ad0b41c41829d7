/**
 * Builds the add-in into `dist/`, the try-out page into `build/preview/`, and into `build/offline/` what keeps that page
 * on a device once a club hosts it.
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
import { drawGroundedIcon, drawIcon, PAGE_ICONS } from "./icon-drawing";
import { makeHelpPage } from "./help-page";
import { makeMetadata } from "./metadata";
import { isMain } from "./main-module";
import { TEMPLATE_ADDRESS } from "./package/manifest";
import { inProject, root } from "./paths";

const INPUTS = ["src", "webpack.config.js", "manifest.xml", "package-lock.json", "tsconfig.json"];
const STAMP = inProject("build/stamp.json");
const FOLDERS = ["dist", "build/preview", "build/offline"] as const;
/**
 * Each package of which something is in the bundles of a folder, by its place in the project, for the bill of materials
 * and for the licences that a club hosts with them.
 */
const BUNDLED = inProject("build/bundled-packages.json");
type BundledPackages = Readonly<Record<(typeof FOLDERS)[number], readonly string[]>>;
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
  for (const folder of FOLDERS) rmSync(inProject(folder), { recursive: true, force: true });
  rmSync(STAMP, { force: true });
  for (const folder of FOLDERS) mkdirSync(inProject(folder), { recursive: true });

  const functions = await bundle(["functions"]);
  writeFileSync(inProject("dist/functions.json"), await makeMetadata(TEMPLATE_ADDRESS));
  const others = await bundle(["pane", "preview", "offline"]);
  const packages = FOLDERS.map((folder) => [folder, packagesIn([...functions.stats, ...others.stats], folder)]);
  writeFileSync(BUNDLED, `${JSON.stringify(Object.fromEntries(packages))}\n`);
  copyPaneFiles(inProject("dist"));
  copyPreview();
  drawPageIcons();
  writeFileSync(STAMP, stamp);
  return true;
}

async function bundle(names: readonly string[]): Promise<MultiStats> {
  const all = createRequire(__filename)(inProject("webpack.config.js")) as Configuration[];
  const compiler = webpack(all.filter(({ name }) => name !== undefined && names.includes(name)));
  return new Promise((resolve, reject) => {
    compiler.run((error, stats) => {
      compiler.close(() => undefined);
      if (error) reject(error);
      else if (!stats || stats.hasErrors()) reject(new Error(stats?.toString({ preset: "errors-only" })));
      else resolve(stats);
    });
  });
}

/** Such as `node_modules/d3-array`, in a fixed order. */
function packagesIn(stats: MultiStats["stats"], folder: string): string[] {
  const packages = new Set<string>();
  for (const { compilation } of stats) {
    if (compilation.compiler.outputPath !== inProject(folder)) continue;
    for (const module of compilation.modules) {
      // Modules that were joined into one are inside it.
      const { modules = [module] } = module as Module & { modules?: Module[] };
      for (const inner of modules) {
        const file = path.relative(root, inner.nameForCondition() ?? "").replaceAll("\\", "/");
        const place = /^node_modules\/(?:.*\/node_modules\/)?(?:@[^/]+\/)?[^/]+(?=\/)/.exec(file)?.[0];
        if (place !== undefined) packages.add(place);
      }
    }
  }
  return [...packages].sort();
}

/** What the last build has put into the bundles of each folder. */
export function bundledPackages(): BundledPackages {
  return JSON.parse(readFileSync(BUNDLED, "utf8")) as BundledPackages;
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

function drawPageIcons(): void {
  const svg = readFileSync(inProject("src/taskpane/icons/icon.svg"), "utf8");
  mkdirSync(inProject("build/offline/icons"));
  for (const { pixels, name, isGrounded } of PAGE_ICONS) {
    const picture = isGrounded ? drawGroundedIcon(svg, pixels) : drawIcon(svg, pixels);
    writeFileSync(inProject("build/offline/icons", name), picture);
  }
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
  console.log(
    (await build(values)) ? "Built dist/, build/preview/ and build/offline/." : "Nothing changed since the last build.",
  );
}

if (isMain(module)) {
  main(process.argv.slice(2)).catch((error: unknown) => {
    console.error(error instanceof Error ? error.message : error);
    process.exitCode = 1;
  });
}
