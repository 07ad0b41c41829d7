/** The licences of what the page is made of, which go with its files to whoever hosts them. */
import { readdirSync, readFileSync } from "node:fs";
import { bundledPackages } from "../build";
import { inProject } from "../paths";

interface Described {
  readonly name: string;
  readonly version: string;
  readonly license?: string;
}

/** Each licence's text once, under the packages that come with it. */
export function licencesText(): string {
  const places = ["dist", "build/preview", "build/offline"] as const;
  const packages = [...new Set(places.flatMap((folder) => bundledPackages()[folder]))].sort();
  const byText = new Map<string, string[]>();
  for (const place of packages) {
    const { name, version, license } = JSON.parse(readFileSync(inProject(place, "package.json"), "utf8")) as Described;
    const text = textsIn(place) || `Licence: ${license ?? "not stated"}. The package brings no text of it.`;
    byText.set(text, [...(byText.get(text) ?? []), `${name} ${version}`]);
  }
  const blocks = [...byText].map(([text, names]) => `${names.join(", ")}\n\n${text}`);
  return `This page is Twirl Ledger, under the licence that follows, and holds parts of these packages. The font's licence is
fonts/LICENSE.txt.

${readFileSync(inProject("LICENSE"), "utf8").trim()}
${blocks.map((block) => `\n${"-".repeat(80)}\n${block}\n`).join("")}`;
}

function textsIn(place: string): string {
  return readdirSync(inProject(place))
    .filter((file) => /^(licen[cs]e|notice)(\.(md|txt))?$/i.test(file))
    .sort()
    .map((file) => readFileSync(inProject(place, file), "utf8").replaceAll("\r\n", "\n").trim())
    .join("\n\n");
}
