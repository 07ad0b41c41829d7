/** `npm run licences`: every package that is installed, by licence; fails on one that may not be used here. */
import { readFileSync } from "node:fs";
import { inProject } from "./paths";

/** Licences under which a tool may be used here. What a club hosts is narrower still: see DEVELOPERS.md. */
const ALLOWED =
  /^(0BSD|Apache-2\.0|BSD-2-Clause|BSD-3-Clause|BSL-1\.0|BlueOak-1\.0\.0|CC0-1\.0|CC-BY-4\.0|ISC|MIT|MIT-0|MPL-2\.0|OFL-1\.1|Python-2\.0|Unlicense|WTFPL|Zlib)$/;
/** Read by a person: these packages state their licence in a file only. */
const BY_NAME: ReadonlyMap<string, string> = new Map([
  // Its terms allow what the add-in does with it, and no more.
  ["@microsoft/office-js", "the vendor's terms, for use with its suite"],
  // An empty interface; its LICENSE file is the licence's own text.
  ["@univerjs/telemetry", "Apache-2.0"],
]);

interface Lock {
  readonly packages: Readonly<Record<string, { readonly version?: string; readonly license?: string }>>;
}

function licenceOf(place: string, stated: string | undefined): string {
  if (stated !== undefined) return stated;
  try {
    const { license } = JSON.parse(readFileSync(inProject(place, "package.json"), "utf8")) as { license?: unknown };
    return typeof license === "string" ? license : "unknown";
  } catch {
    return "unknown";
  }
}

function isAllowed(licence: string): boolean {
  const plain = licence.replace(/[()]/g, "");
  if (plain.includes(" OR ")) return plain.split(" OR ").some(isAllowed);
  return plain.split(" AND ").every((one) => ALLOWED.test(one.trim()));
}

const lock = JSON.parse(readFileSync(inProject("package-lock.json"), "utf8")) as Lock;
const byLicence = new Map<string, string[]>();
const refused: string[] = [];
for (const [place, { version, license }] of Object.entries(lock.packages)) {
  if (place === "") continue;
  const name = place.replace(/^.*node_modules\//, "");
  const licence = BY_NAME.get(name) ?? licenceOf(place, license);
  byLicence.set(licence, [...(byLicence.get(licence) ?? []), `${name}@${version ?? ""}`]);
  if (!BY_NAME.has(name) && !isAllowed(licence)) refused.push(`${name}@${version ?? ""}: ${licence}`);
}
for (const [licence, names] of [...byLicence].sort(([one], [other]) => one.localeCompare(other, "en"))) {
  console.log(`${licence}: ${names.length}${names.length <= 5 ? ` (${names.join(", ")})` : ""}`);
}
if (refused.length > 0) {
  console.error(`\nNot allowed, or not known:\n${refused.join("\n")}`);
  process.exitCode = 1;
}
