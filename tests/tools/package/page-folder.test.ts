/** The page's folder as it is written, from what the last build left. */
import { createHash } from "node:crypto";
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import os from "node:os";
import path from "node:path";
import { gzipSync } from "node:zlib";
import { PNG } from "pngjs";
import { drawGroundedIcon } from "../../../src/tools/icon-drawing";
import { filesIn } from "../../../src/tools/package/archive";
import { firstVisit, writePageFolder } from "../../../src/tools/package/page-folder";
import { pagePolicy } from "../../../src/tools/serve/page-policy";

const address = "https://tools.example.org/twirl/page/";
const temporary = mkdtempSync(path.join(os.tmpdir(), "twirl-ledger-"));
const folder = path.join(temporary, "page");
const bytesOf = (file: string): Buffer => readFileSync(path.join(folder, file));
const textOf = (file: string): string => bytesOf(file).toString("utf8");

interface KeptFile {
  readonly url: string;
  readonly revision: string;
  readonly integrity: string;
}

function keptFiles(): readonly KeptFile[] {
  const [line = ""] = textOf("worker.js").split("\n", 1);
  return JSON.parse(/^const keptFiles = (.*);$/.exec(line)?.[1] ?? "") as KeptFile[];
}

beforeAll(() => writePageFolder({ address, out: folder }));
afterAll(() => rmSync(temporary, { recursive: true }));

test("the worker keeps every file of the folder, each once, with the check sum of what it is", () => {
  const others = ["worker.js", ".htaccess", "web.config"];
  const kept = keptFiles();
  expect(kept.map(({ url }) => url)).toEqual(filesIn(folder).filter((file) => !others.includes(file)));
  for (const { url, revision, integrity } of kept) {
    const sum = createHash("sha256").update(bytesOf(url)).digest();
    expect({ url, revision, integrity }).toEqual({
      url,
      revision: sum.toString("hex"),
      integrity: `sha256-${sum.toString("base64")}`,
    });
  }
  for (const url of ["index.html", "page.js", "workbook.js", "french.js", "season.xlsx", "help.html", "guide.html"]) {
    expect(kept.some((file) => file.url === url)).toBe(true);
  }
});

test("the same sources give the same files, and another file another list", () => {
  const again = path.join(temporary, "again");
  writePageFolder({ address, out: again });
  expect(filesIn(again)).toEqual(filesIn(folder));
  for (const file of filesIn(again)) {
    expect({ file, same: bytesOf(file).equals(readFileSync(path.join(again, file))) }).toEqual({ file, same: true });
  }
  writePageFolder({ address: "https://elsewhere.example.org/page/", out: again });
  // Its functions.json names another address.
  expect(readFileSync(path.join(again, "worker.js"), "utf8")).not.toBe(textOf("worker.js"));
});

test("the manifest leads to files of the folder alone, and its icons have the sizes that it says", () => {
  const manifest = JSON.parse(textOf("manifest.json")) as {
    readonly start_url: string;
    readonly scope: string;
    readonly display: string;
    readonly theme_color: string;
    readonly background_color: string;
    readonly file_handlers: unknown;
    readonly launch_handler: unknown;
    readonly icons: readonly { readonly src: string; readonly sizes: string; readonly purpose: string }[];
  };
  expect([manifest.start_url, manifest.scope, manifest.display]).toEqual(["./", "./", "standalone"]);
  for (const colour of [manifest.theme_color, manifest.background_color]) expect(textOf("page.css")).toContain(colour);
  // What browsers ask of a page that can be installed: 192 and 512 pixels, and one that may be cut.
  expect(manifest.icons.map(({ sizes, purpose }) => `${sizes} ${purpose}`).sort()).toEqual([
    "192x192 any",
    "512x512 any",
    "512x512 maskable",
  ]);
  // A workbook of the computer can be opened with the installed page: its own ending and no other, by the page itself.
  expect(manifest.file_handlers).toEqual([
    { action: "./", accept: { "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet": [".xlsx"] } },
  ]);
  expect(manifest.launch_handler).toEqual({ client_mode: ["focus-existing", "auto"] });
  for (const { src, sizes, purpose } of manifest.icons) {
    const { width, height, data } = PNG.sync.read(bytesOf(src));
    expect(`${width}x${height}`).toBe(sizes);
    // What is cut must have no clear corner.
    expect(data[3]).toBe(purpose === "maskable" ? 255 : 0);
  }
});

test("nothing of the mark lies outside the circle that every cut leaves", () => {
  const svg = readFileSync(path.resolve(__dirname, "../../../src/taskpane/icons/icon.svg"), "utf8");
  const { width, data } = PNG.sync.read(drawGroundedIcon(svg, 128));
  const ground = [...data.subarray(0, 3)];
  let marked = 0;
  let furthest = 0;
  for (let at = 0; at < width * width; at += 1) {
    const isGround = [0, 1, 2].every((part) => data[at * 4 + part] === ground[part]);
    if (isGround) continue;
    marked += 1;
    furthest = Math.max(furthest, Math.hypot((at % width) + 0.5 - width / 2, Math.floor(at / width) + 0.5 - width / 2));
  }
  expect(marked).toBeGreaterThan(1000);
  // Four fifths of the side across (W3C, Web Application Manifest, "safe zone").
  expect(furthest).toBeLessThanOrEqual(0.4 * width);
});

test("the page carries its policy itself, loads no inline script, and every address in it is relative", () => {
  const page = textOf("index.html");
  expect(existsSync(path.join(folder, "page.html"))).toBe(false);
  const policy = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(page);
  expect(policy?.[1]).toBe(pagePolicy({ isKept: true }));
  // It holds for what comes after it.
  expect(policy?.index ?? Infinity).toBeLessThan(page.search(/<script|<link/));
  expect(page).not.toMatch(/<script(?![^>]* src=)|<style| style=| on\w+=/);
  for (const [, link = ""] of page.matchAll(/ (?:src|href)="([^"]*)"/g)) {
    expect({ link, relative: !/^([a-z]+:|\/)/.test(link), there: existsSync(path.join(folder, link)) }).toEqual({
      link,
      relative: true,
      there: true,
    });
  }
});

test("the page of npm start has none of it", () => {
  const built = readFileSync(path.resolve(__dirname, "../../../build/preview/page.html"), "utf8");
  expect(built).not.toMatch(/manifest|keep\.js|http-equiv/);
  for (const file of ["keep.js", "worker.js"]) {
    expect(existsSync(path.resolve(__dirname, "../../../build/preview", file))).toBe(false);
  }
});

test("the worker brings its library along and takes over from nobody", () => {
  const worker = textOf("worker.js");
  expect(worker).not.toMatch(/importScripts|skipWaiting/);
  expect(worker).toContain("clients.claim");
});

test("each package in the page is named with its licence", () => {
  const text = textOf("licences.txt");
  for (const name of ["@univerjs/core 0.25.1", "react 19", "workbox-precaching 7", "d3-array 3"]) {
    expect(text).toContain(name);
  }
  expect(text).not.toContain("not stated");
});

test("README tells what a first visit fetches, within a twentieth", () => {
  const readme = readFileSync(path.resolve(__dirname, "../../../README.md"), "utf8");
  const told = /first visit fetches ([\d.]+) MB \(([\d.]+) MB/.exec(readme)?.slice(1).map(Number);
  const { gzipped, bytes } = firstVisit(folder);
  for (const [place, measured] of [gzipped, bytes].entries()) {
    expect(Math.abs((told?.[place] ?? 0) / (measured / 1e6) - 1)).toBeLessThan(0.05);
  }
});

test("a first visit is all files, each once", () => {
  const small = path.join(temporary, "small");
  writePageFolder({ address, out: small });
  const before = firstVisit(small);
  const words = "a set of ten, ".repeat(1000);
  writeFileSync(path.join(small, "words.txt"), words);
  writeFileSync(path.join(small, "icons/one.png"), Buffer.alloc(1000));
  const after = firstVisit(small);
  expect(after.files - before.files).toBe(2);
  expect(after.bytes - before.bytes).toBe(words.length + 1000);
  expect(after.gzipped - before.gzipped).toBe(gzipSync(words, { level: 6 }).length + 1000);
  expect(before.files).toBe(filesIn(folder).length - 2);
});
