/**
 * `npm run sbom`: a CycloneDX bill of materials of everything installed, in build/sbom.json, and on the screen what a
 * club hosts, by publisher: of the add-in, and of the page with the open-source grid. Fails where the add-in has more
 * than five publishers, for each is one to trust; the page has those of the grid, and its policy lets none of them ask
 * anything of anybody.
 */
import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { build, bundledPackages } from "./build";
import { isMain } from "./main-module";
import { inProject } from "./paths";

const BILL = inProject("build/sbom.json");
const MOST_PUBLISHERS = 5;
/** Copied as its package ships it: see OFFICE_FILES in build.ts. */
const COPIED = ["@microsoft/office-js"];
const FONT = "@fontsource/carlito";

interface Bill {
  metadata: { component?: { name?: string } };
  components: { name: string; group?: string }[];
}

/** What a club hosts: the packages of each publisher. A scope of the registry has one owner; else it is the author. */
export function publishersOf(packages: readonly string[]): ReadonlyMap<string, string[]> {
  const publishers = new Map<string, string[]>();
  for (const name of packages) {
    const scope = /^@([^/]+)\//.exec(name)?.[1];
    const publisher = scope ?? authorOf(name);
    publishers.set(publisher, [...(publishers.get(publisher) ?? []), name]);
  }
  return publishers;
}

function authorOf(name: string): string {
  const { author, contributors, repository } = JSON.parse(
    readFileSync(inProject("node_modules", name, "package.json"), "utf8"),
  ) as {
    author?: string | { name?: string };
    contributors?: readonly (string | { name?: string })[];
    repository?: string | { url?: string };
  };
  const nameOf = (person: string | { name?: string } | undefined): string | undefined =>
    (typeof person === "string" ? person : person?.name) || undefined;
  const place = typeof repository === "string" ? repository : repository?.url;
  // Whoever names nobody has a repository that is somebody's.
  const text = nameOf(author) ?? nameOf(contributors?.[0]) ?? /([\w-]+)\/[\w.-]+$/.exec(place ?? "")?.[1];
  if (text === undefined) throw new Error(`${name} does not say who publishes it.`);
  return text.replace(/\s*[<(].*$/, "");
}

/** The packages of the add-in. */
export function hostedPackages(): string[] {
  return [...bundledPackages().dist.map(nameAt), ...COPIED];
}

/** The packages of the page. */
export function pagePackages(): string[] {
  const { dist, "build/preview": preview, "build/offline": offline } = bundledPackages();
  return [...new Set([...dist, ...preview, ...offline].map(nameAt)), FONT];
}

function nameAt(place: string): string {
  return place.replace(/^.*node_modules\//, "");
}

async function main(): Promise<void> {
  await build();
  const text = execFileSync("npm", ["sbom", "--sbom-format", "cyclonedx"], {
    cwd: inProject(),
    encoding: "utf8",
    maxBuffer: 2 ** 28,
    shell: process.platform === "win32",
  });
  const bill = JSON.parse(text) as Bill;
  const { name } = JSON.parse(readFileSync(inProject("package.json"), "utf8")) as { name: string };
  // npm takes the folder's name.
  if (bill.metadata.component) bill.metadata.component.name = name;
  writeFileSync(BILL, `${JSON.stringify(bill, null, 2)}\n`);
  console.log(`build/sbom.json: CycloneDX, ${bill.components.length} components.`);
  const publishers = publishersOf(hostedPackages());
  console.log(`The add-in that a club hosts comes from ${publishers.size} publishers beside this project:`);
  for (const [publisher, names] of publishers) {
    console.log(`  ${publisher}: ${names.length} packages${names.length <= 6 ? ` (${names.join(", ")})` : ""}`);
  }
  const page = pagePackages();
  console.log(`The page beside it holds ${page.length} packages of ${publishersOf(page).size} publishers.`);
  if (publishers.size > MOST_PUBLISHERS) {
    console.error(`More than ${MOST_PUBLISHERS} publishers.`);
    process.exitCode = 1;
  }
}

if (isMain(module)) {
  main().catch((error: unknown) => {
    console.error(error instanceof Error ? error.message : error);
    process.exitCode = 1;
  });
}
