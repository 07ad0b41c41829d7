/**
 * The folder `page/` of the package: the page with the open-source grid, as a thing of its own that a device keeps and
 * opens without a connection.
 */
import { createHash } from "node:crypto";
import { cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import path from "node:path";
import { gzipSync } from "node:zlib";
import { PAGE_ICONS } from "../icon-drawing";
import { moveMetadata } from "../metadata";
import { inProject } from "../paths";
import { pagePolicy } from "../serve/page-policy";
import { filesIn } from "./archive";
import { pageHeaderFiles } from "./headers";
import { licencesText } from "./licences-text";
import { TEMPLATE_ADDRESS } from "./manifest";

interface PageFolderOptions {
  /** That of the page itself, ending with a slash. */
  readonly address: string;
  /** The folder to write; what was in it is gone. */
  readonly out: string;
}

const MANIFEST = "manifest.json";
const WORKER = "worker.js";

/** Writes the folder from what is built in `build/preview` and `build/offline`. */
export function writePageFolder({ address, out }: PageFolderOptions): void {
  rmSync(out, { recursive: true, force: true });
  mkdirSync(out, { recursive: true });
  for (const built of ["build/preview", "build/offline"]) cpSync(inProject(built), out, { recursive: true });
  const read = (name: string): string => readFileSync(path.join(out, name), "utf8");
  const write = (name: string, content: string): void => writeFileSync(path.join(out, name), content);
  // A web space shows index.html where the address ends with the folder.
  write("index.html", keptPage(read("page.html")));
  rmSync(path.join(out, "page.html"));
  write(MANIFEST, `${JSON.stringify(webManifest(read("page.css")), null, 2)}\n`);
  write("functions.json", moveMetadata(read("functions.json"), TEMPLATE_ADDRESS, address));
  write("licences.txt", licencesText());
  for (const { name, content } of pageHeaderFiles()) write(name, content);
  // Last, since it names all the others.
  write(WORKER, `const keptFiles = ${JSON.stringify(keptFiles(out))};\n${read(WORKER)}`);
}

/** The page's markup with what only a page that is kept has, and with its policy: not every web space sends one. */
function keptPage(page: string): string {
  const before = '<link rel="icon"';
  if (page.split(before).length !== 2) throw new Error(`page.html does not have ${before} once.`);
  const further = [
    `<meta http-equiv="Content-Security-Policy" content="${pagePolicy({ isKept: true })}" />`,
    `<link rel="manifest" href="${MANIFEST}" />`,
    `<link rel="apple-touch-icon" href="icons/page-ground-180.png" />`,
    `<script src="keep.js" defer></script>`,
  ];
  return page.replace(before, `${further.join("\n    ")}\n    ${before}`);
}

/** W3C, Web Application Manifest. Its addresses are read from where it lies itself. */
function webManifest(css: string): object {
  const colour = (name: string): string => {
    const value = new RegExp(`--page-${name}: (#[0-9a-f]{6});`).exec(css)?.[1];
    if (value === undefined) throw new Error(`page.css has no colour --page-${name}.`);
    return value;
  };
  return {
    name: "Twirl Ledger",
    short_name: "Twirl Ledger",
    description: "Is the trick reliable enough for the routine? The log, the board and the season's workbook.",
    lang: "en",
    start_url: "./",
    scope: "./",
    display: "standalone",
    // WICG, Manifest incubations: a workbook of this computer can be opened with the installed page, in the window that is
    // open already; that asks before anything unsaved goes.
    file_handlers: [
      { action: "./", accept: { "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet": [".xlsx"] } },
    ],
    launch_handler: { client_mode: ["focus-existing", "auto"] },
    theme_color: colour("accent"),
    background_color: colour("paper"),
    icons: PAGE_ICONS.filter(({ pixels }) => pixels >= 192).map(({ pixels, name, isGrounded }) => ({
      src: `icons/${name}`,
      sizes: `${pixels}x${pixels}`,
      type: "image/png",
      purpose: isGrounded ? "maskable" : "any",
    })),
  };
}

interface KeptFile {
  readonly url: string;
  readonly revision: string;
  readonly integrity: string;
}

/** What the worker keeps: every file that the page may ask for, with its check sum, so that no file of another version is taken. */
function keptFiles(folder: string): readonly KeptFile[] {
  return servedFiles(folder)
    .filter((name) => name !== WORKER)
    .map((url) => {
      const sum = createHash("sha256")
        .update(readFileSync(path.join(folder, url)))
        .digest();
      return { url, revision: sum.toString("hex"), integrity: `sha256-${sum.toString("base64")}` };
    });
}

/** Without those that are for the web space alone. */
function servedFiles(folder: string): readonly string[] {
  const forTheSpace = pageHeaderFiles().map(({ name }) => name);
  return filesIn(folder).filter((name) => !forTheSpace.includes(name));
}

interface FirstVisit {
  readonly files: number;
  readonly bytes: number;
  /** As a web space sends it that compresses texts; fonts, pictures and workbooks are so already. */
  readonly gzipped: number;
}

/** What a first visit fetches: every file once, and with these the page needs no connection. */
export function firstVisit(folder: string): FirstVisit {
  const files = servedFiles(folder);
  const contents = files.map((name) => ({ name, content: readFileSync(path.join(folder, name)) }));
  const sum = (sizes: readonly number[]): number => sizes.reduce((total, size) => total + size, 0);
  return {
    files: files.length,
    bytes: sum(contents.map(({ content }) => content.length)),
    gzipped: sum(
      contents.map(({ name, content }) =>
        /\.(html|css|js|json|txt)$/.test(name) ? gzipSync(content, { level: 6 }).length : content.length,
      ),
    ),
  };
}
