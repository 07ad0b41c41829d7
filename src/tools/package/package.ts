/**
 * `npm run package -- --url https://tools.example.org/twirl/`: one folder, and the same as a zip, that a club puts on
 * any static web space: `build/package/` and `build/twirl-ledger-<version>.zip`.
 *
 *   --office-cdn   the host's library from the vendor's network instead of the copy in the folder
 *   --dev          for a developer's own computer, such as https://localhost:3000/
 */
import { readCommand } from "../command-line";
import { cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import path from "node:path";
import { build } from "../build";
import { isMain } from "../main-module";
import { moveMetadata } from "../metadata";
import { inProject } from "../paths";
import { checkAddress } from "./address";
import { archiveOf } from "./archive";
import { headerFiles, OFFICE_NETWORK_SCRIPT } from "./headers";
import { installPage } from "./install-page";
import { manifestFor, TEMPLATE_ADDRESS } from "./manifest";
import { firstVisit, writePageFolder } from "./page-folder";

interface PackageOptions {
  readonly address: string;
  readonly forDevelopment: boolean;
  /** The host's library from the vendor's network. */
  readonly officeNetwork: boolean;
  /** The folder to write; what was in it is gone. */
  readonly out: string;
}

const USAGE =
  "npm run package -- --url https://tools.example.org/twirl/ [--office-cdn] [--dev]\nThe address is the one under which the club's web space shows the folder.";

/** @throws Error that says which word is wrong and how the command is written */
export function packageOptions(words: readonly string[]): Omit<PackageOptions, "out"> {
  const { values } = readCommand(words, {
    usage: USAGE,
    options: {
      url: { type: "string" },
      dev: { type: "boolean", default: false },
      "office-cdn": { type: "boolean", default: false },
    },
  });
  const { url: address, dev: forDevelopment, "office-cdn": officeNetwork } = values;
  if (address === undefined) throw new Error(`--url is missing.\n${USAGE}`);
  return { address: checkAddress(address, { forDevelopment }), forDevelopment, officeNetwork };
}

/** Writes the folder from what is built. */
export function writePackage({ address, forDevelopment, officeNetwork, out }: PackageOptions): void {
  const dist = inProject("dist");
  rmSync(out, { recursive: true, force: true });
  mkdirSync(out, { recursive: true });
  cpSync(dist, out, {
    recursive: true,
    filter: (from) => !(officeNetwork && path.relative(dist, from).split(path.sep)[0] === "office"),
  });
  const write = (name: string, content: string): void => writeFileSync(path.join(out, name), content);
  const manifest = manifestFor(readFileSync(inProject("manifest.xml"), "utf8"), { address, forDevelopment });
  write("manifest.xml", manifest);
  write(
    "functions.json",
    moveMetadata(readFileSync(path.join(dist, "functions.json"), "utf8"), TEMPLATE_ADDRESS, address),
  );
  if (officeNetwork) write("taskpane.html", withOfficeNetwork(readFileSync(path.join(dist, "taskpane.html"), "utf8")));
  for (const { name, content } of headerFiles(address, { officeNetwork })) write(name, content);
  const version = /<Version>(.*?)<\/Version>/.exec(manifest)?.[1] ?? "";
  write("INSTALL.html", installPage({ address, version, forDevelopment, officeNetwork }));
  cpSync(inProject("src/tools/package/install.css"), path.join(out, "install.css"));
  writePageFolder({ address: `${address}page/`, out: path.join(out, "page") });
}

function withOfficeNetwork(page: string): string {
  const own = 'src="office/office.js"';
  if (!page.includes(own)) throw new Error(`taskpane.html does not load ${own}.`);
  return page
    .replace(own, `src="${OFFICE_NETWORK_SCRIPT}"`)
    .replace("the host's own library, from this folder.", "the host's own library, from the vendor's network.");
}

async function main(words: readonly string[]): Promise<void> {
  const options = { ...packageOptions(words), out: inProject("build/package") };
  await build();
  writePackage(options);
  const { version } = JSON.parse(readFileSync(inProject("package.json"), "utf8")) as { version: string };
  const zip = path.join(path.dirname(options.out), `twirl-ledger-${version}.zip`);
  const bytes = archiveOf(options.out);
  writeFileSync(zip, bytes);
  const shown = (file: string): string => path.relative(process.cwd(), file) || file;
  console.log(`Wrote ${shown(options.out)} and ${shown(zip)} (${bytes.length} bytes) for ${options.address}`);
  const visit = firstVisit(path.join(options.out, "page"));
  console.log(
    `The page at ${options.address}page/: a first visit fetches ${visit.files} files, ${visit.bytes} bytes (${visit.gzipped} gzipped), and needs no connection afterwards`,
  );
  console.log(`How it comes to a club: ${shown(path.join(options.out, "INSTALL.html"))}`);
}

if (isMain(module)) {
  main(process.argv.slice(2)).catch((error: unknown) => {
    console.error(error instanceof Error ? error.message : error);
    process.exitCode = 1;
  });
}
