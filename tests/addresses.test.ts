/**
 * No data leaves the workbook: what is built names nobody whom a page could ask. Comments are left out of account;
 * the host's own library, which a club hosts as its vendor ships it, is the vendor's.
 */
import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { transformSync } from "esbuild";

const root = path.resolve(__dirname, "..");

/** The texts of the built files of a folder, without comments. */
function texts(folder: string): ReadonlyMap<string, string> {
  const files = readdirSync(path.join(root, folder)).filter((name) => /\.(js|css|html|json|xml)$/.test(name));
  return new Map(
    files.map((name) => {
      const text = readFileSync(path.join(root, folder, name), "utf8");
      const bare = name.endsWith(".js") ? transformSync(text, { legalComments: "none", minifyWhitespace: true }).code : text; // prettier-ignore
      return [name, bare];
    }),
  );
}

function addressesIn(text: string): string[] {
  return [...text.matchAll(/\b(?:https?|wss?|ftp):\/\/[^\s"'`<>)\\]*/g)].map(([address]) => address);
}

interface Allowed {
  readonly start: string;
  readonly because: string;
}

/** In what a club hosts. */
const HOSTED: readonly Allowed[] = [
  {
    start: "https://localhost:3000/",
    because: "where the add-in itself is served; `--url` puts the club's address there",
  },
  { start: "http://schemas.microsoft.com/office/", because: "names of the manifest's XML, which nobody asks for" },
  { start: "http://www.w3.org/", because: "names of XML and SVG, which nobody asks for" },
];

/** On the try-out page as well: what the open-source grid brings along. The page's policy lets none of it be asked. */
const GRID: readonly Allowed[] = [
  ...HOSTED,
  { start: "http://schemas.openxmlformats.org/", because: "names of the workbook's XML" },
  { start: "http://sharejs.org/types/", because: "names of kinds of text edits" },
  { start: "https://support.microsoft.com/", because: "documentation of the grid's own functions, behind their help" },
  { start: "https://support.google.com/", because: "documentation of the grid's own functions, behind their help" },
  { start: "https://www.wps.cn/learning/", because: "documentation of the grid's own functions, behind their help" },
  { start: "https://univer.ai", because: "documentation of the grid" },
  { start: "https://universheet.net/docs/", because: "documentation of the grid, in a message for its makers" },
  { start: "https://github.com/dream-num", because: "documentation of the grid" },
  { start: "https://github.com/opentypejs/", because: "documentation of the font reader, in a warning" },
  { start: "https://redi.wendell.fun/", because: "documentation, in a message for the grid's makers" },
  { start: "https://mozilla.github.io/localForage", because: "documentation, in a message for the grid's makers" },
  { start: "https://react.dev/errors/", because: "documentation, in a message for the makers" },
  { start: "https://reactjs.org/docs/", because: "documentation, in a message for the makers" },
  {
    start: "http://localhost",
    because: "a base for reading addresses, and a server that nobody starts, in code never called",
  },
  { start: "https://${", because: "what the grid puts before an address that somebody types into a cell as a link" },
];

/** What keeps the page on a device: it asks for the files of its own folder, by their names. */
const OFFLINE: readonly Allowed[] = [
  { start: "https://bit.ly/wb-precache", because: "documentation of the library, in a warning for its users" },
];

function strangers(folder: string, allowed: readonly Allowed[]): string[] {
  return [...texts(folder)].flatMap(([name, text]) =>
    addressesIn(text)
      .filter((address) => !allowed.some(({ start }) => address.startsWith(start)))
      .map((address) => `${name}: ${address}`),
  );
}

test("what a club hosts names nobody but the club and XML", () => {
  const files = texts("dist");
  for (const name of ["functions.js", "taskpane.js", "own-sheet.js", "taskpane.html"])
    expect(files.has(name)).toBe(true);
  expect(strangers("dist", HOSTED)).toEqual([]);
});

test("no file of the add-in has a way to ask anybody", () => {
  for (const [name, text] of texts("dist")) {
    if (!name.endsWith(".js")) continue;
    const ways = [
      "fetch(",
      "XMLHttpRequest",
      "sendBeacon",
      "WebSocket",
      "EventSource",
      "RTCPeerConnection",
      "new Image",
    ];
    expect({ name, found: ways.filter((way) => text.includes(way)) }).toEqual({ name, found: [] });
  }
});

test("the try-out page names documentation and XML, and every name is explained", () => {
  expect(strangers("build/preview", GRID)).toEqual([]);
});

test("what keeps the page names documentation alone", () => {
  expect(texts("build/offline").has("worker.js")).toBe(true);
  expect(strangers("build/offline", OFFLINE)).toEqual([]);
});

test("each explanation is of an address that is there", () => {
  const folders = ["dist", "build/preview", "build/offline"];
  const all = folders.flatMap((folder) => [...texts(folder).values()]).flatMap(addressesIn);
  expect([...GRID, ...OFFLINE].filter(({ start }) => !all.some((address) => address.startsWith(start)))).toEqual([]);
});

test("the metadata's maker is used without its command, which counts its uses", () => {
  const used = require.resolve("custom-functions-metadata");
  const library = path.dirname(used);
  expect(readFileSync(path.join(library, "commands.js"), "utf8")).toContain("office-addin-usage-data");
  // What src/tools/metadata.ts loads does not load the part that counts.
  const seen = new Set<string>();
  const visit = (file: string): void => {
    if (seen.has(file)) return;
    seen.add(file);
    for (const [, name] of readFileSync(file, "utf8").matchAll(/require\("([^"]+)"\)/g)) {
      expect(name).not.toContain("usage-data");
      if (name?.startsWith(".") === true) visit(require.resolve(path.resolve(path.dirname(file), name)));
    }
  };
  visit(used);
  expect(seen.size).toBeGreaterThan(1);
});
