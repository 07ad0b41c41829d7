/**
 * `npm run sbom`: a CycloneDX bill of materials of everything installed, in build/sbom.json, and on the screen what a
 * club hosts, by publisher. Fails where that is more than five publishers: each is one to trust.
 */
import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { build, HOSTED } from "./build";
import { isMain } from "./main-module";
import { inProject } from "./paths";

const BILL = inProject("build/sbom.json");
const MOST_PUBLISHERS = 5;
/** Copied as its package ships it: see OFFICE_FILES in build.ts. */
const COPIED = ["@microsoft/office-js"];

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
  const { author, contributors } = JSON.parse(
    readFileSync(inProject("node_modules", name, "package.json"), "utf8"),
  ) as {
    author?: string | { name?: string };
    contributors?: readonly (string | { name?: string })[];
  };
  const first = author ?? contributors?.[0];
  const text = typeof first === "string" ? first : first?.name;
  if (text === undefined) throw new Error(`${name} does not say who publishes it.`);
  return text.replace(/\s*[<(].*$/, "");
}

export function hostedPackages(): string[] {
  return [...(JSON.parse(readFileSync(HOSTED, "utf8")) as string[]), ...COPIED];
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
  console.log(`What a club hosts comes from ${publishers.size} publishers beside this project:`);
  for (const [publisher, names] of publishers) {
    console.log(`  ${publisher}: ${names.length} packages${names.length <= 6 ? ` (${names.join(", ")})` : ""}`);
  }
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
