/** The folder as it is written, from what the last build left. */
import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import os from "node:os";
import path from "node:path";
import { unzipSync } from "fflate";
import { DOMParser } from "@xmldom/xmldom";
import { streakChance } from "../../../src/core/streak";
import { archiveOf, filesIn } from "../../../src/tools/package/archive";
import { writePackage } from "../../../src/tools/package/package";
import { headersAt, packagedRules } from "../../browser/packaged-headers";

const address = "https://tools.example.org/twirl/";
const folder = mkdtempSync(path.join(os.tmpdir(), "twirl-ledger-"));
const own = path.join(folder, "own");
const network = path.join(folder, "network");
const textOf = (file: string): string => readFileSync(path.join(own, file), "utf8");

beforeAll(() => {
  const options = { address, forDevelopment: false };
  writePackage({ ...options, officeNetwork: false, out: own });
  writePackage({ ...options, officeNetwork: true, out: network });
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

test("every address of the manifest and of functions.json is a file of the folder", () => {
  const manifest = new DOMParser().parseFromString(textOf("manifest.xml"), "text/xml");
  const addresses = Array.from(manifest.getElementsByTagName("*")).flatMap((element) => {
    const value = element.getAttribute("DefaultValue") ?? "";
    return value.includes("://") ? [value] : [];
  });
  const { functions } = JSON.parse(textOf("functions.json")) as { functions: { helpUrl: string }[] };
  const all = [...addresses, ...functions.map(({ helpUrl }) => helpUrl)];
  expect(all.length).toBeGreaterThan(40);
  for (const one of all) {
    expect(one.startsWith(address)).toBe(true);
    expect(existsSync(path.join(own, one.slice(address.length).replace(/#.*$/, "")))).toBe(true);
  }
});

test("whatever the folder's pages lead to is in the folder", () => {
  for (const page of filesIn(own).filter((file) => file.endsWith(".html"))) {
    const linked = [...textOf(page).matchAll(/ (?:src|href)="([^"#]+)/g)].map((match) => match[1] ?? "");
    for (const link of linked) {
      expect({
        page,
        link,
        there: existsSync(path.resolve(own, path.dirname(page), link.replace(address, ""))),
      }).toMatchObject({
        there: true,
      });
    }
  }
});

test("no file leads to another address", () => {
  for (const file of filesIn(own).filter(
    (name) => !name.startsWith("office/") && /\.(html|css|json|xml)$/.test(name),
  )) {
    const strangers = [...textOf(file).matchAll(/https?:\/\/[^\s"'<>)]+/g)]
      .map(([found]) => found)
      // Names of namespaces, and the addresses in the policy.
      .filter((found) => !found.startsWith(address) && !/schemas\.microsoft\.com|www\.w3\.org|\*\./.test(found));
    expect({ file, strangers }).toEqual({ file, strangers: [] });
  }
});

test("INSTALL.html says for which address and version it is, and has a drawing for each way", () => {
  const page = textOf("INSTALL.html");
  expect(page).toContain(`<code>${address}</code>`);
  expect(page).toContain(`Version ${/<Version>(.*?)<\/Version>/.exec(textOf("manifest.xml"))?.[1] ?? "none"}`);
  for (const id of ["host", "club", "coach", "check", "page", "update", "remove", "safety"]) {
    expect(page).toContain(`<section id="${id}"`);
    expect(page).toContain(`href="#${id}"`);
  }
  const drawings = [...page.matchAll(/<svg role="img" aria-label="([^"]{20,})"/g)];
  expect(drawings).toHaveLength(5);
  // The cell that shows whether it works.
  expect(page).toContain("=TWIRL.STREAKCHANCE(0.6,5,30)</code> into a cell: it shows 0.644");
  expect(streakChance(0.6, 5, 30).toFixed(3)).toBe("0.644");
  // The page's own policy refuses both.
  expect(page).not.toMatch(/ style=|<style|<script/);
});

test("every document of the folder is sent with one policy", () => {
  const rules = packagedRules(own);
  const documents = filesIn(own).filter((file) => file.endsWith(".html"));
  expect(documents.length).toBeGreaterThanOrEqual(7);
  for (const file of documents) {
    // Throws where there are two.
    const policy = headersAt(rules, new URL(file, address).pathname)["Content-Security-Policy"] ?? "";
    expect({ file, framed: /frame-ancestors ('\w+')/.exec(policy)?.[1] }).toEqual({
      file,
      framed: file.startsWith("page/") ? "'none'" : "'self'",
    });
  }
});

test("with the vendor's network the copy is left out and the pane's page loads it from there", () => {
  const page = readFileSync(path.join(network, "taskpane.html"), "utf8");
  expect(page).toContain('<script src="https://appsforoffice.microsoft.com/lib/1/hosted/office.js"></script>');
  expect(existsSync(path.join(network, "office"))).toBe(false);
  expect(textOf("taskpane.html")).toContain('<script src="office/office.js"></script>');
  expect(filesIn(own).filter((file) => !file.startsWith("office/"))).toEqual(filesIn(network));
});

test("the zip holds the folder's files, and is the same each time", () => {
  const zip = archiveOf(own);
  const unpacked = unzipSync(zip);
  expect(Object.keys(unpacked)).toEqual(filesIn(own));
  for (const [name, bytes] of Object.entries(unpacked)) {
    expect(Buffer.compare(bytes, readFileSync(path.join(own, name)))).toBe(0);
  }
  expect(Buffer.compare(archiveOf(own), zip)).toBe(0);
  // The date of the first entry: 1 January 1980, 0:00, the first that the format holds (APPNOTE.TXT 4.4.6).
  expect(Buffer.from(zip).readUInt32LE(10)).toBe(0x00210000);
});
