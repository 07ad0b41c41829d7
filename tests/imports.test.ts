/** Imports run downwards only: each room knows what is below it and nothing above, and nothing runs in a circle. */
import path from "node:path";
import {
  allImports,
  chamberOf,
  CHAMBERS,
  circles,
  fileImported,
  type Import,
  roomOf,
  SOURCE as source,
} from "../src/tools/house";

interface Rules {
  /** Other rooms, or one chamber or file of a room. */
  readonly rooms: readonly string[];
  /** By the start of their names. */
  readonly packages: readonly string[];
}

const ALLOWED: Readonly<Record<string, Rules>> = {
  trade: { rooms: [], packages: [] },
  core: { rooms: ["trade"], packages: ["@stdlib/", "simple-statistics"] },
  functions: { rooms: ["core", "trade"], packages: [] },
  workbook: { rooms: ["core", "trade"], packages: [] },
  // A file knows of a workbook's plan and of what every sheet has: neither of a season nor of the grid.
  xlsx: { rooms: ["workbook/plan", "core/sheet"], packages: ["fflate", "saxes"] },
  taskpane: { rooms: ["workbook", "core", "trade"], packages: ["d3-array", "d3-time"] },
  grid: {
    rooms: ["xlsx", "taskpane", "workbook", "core", "trade"],
    packages: ["@univerjs/", "rxjs", "node:vm"],
  },
  page: {
    rooms: ["grid", "xlsx", "taskpane", "workbook", "core", "trade"],
    packages: ["@univerjs/", "idb", "react", "workbox-", "papaparse"],
  },
  tools: {
    rooms: ["page", "grid", "xlsx", "taskpane", "functions", "workbook", "core", "trade"],
    packages: [""],
  },
};

const all = allImports();

function isAllowed(file: string, imported: string): boolean {
  const room = roomOf(file);
  const rules = ALLOWED[room];
  if (!rules) return false;
  const target = fileImported({ file, imported });
  if (target === undefined) return rules.packages.some((start) => imported.startsWith(start));
  if (roomOf(target) === room) return isBelow(room, chamberOf(file), chamberOf(target));
  const inside = path.relative(source, target);
  return rules.rooms.some((one) => inside === one || inside.startsWith(`${one}${path.sep}`));
}

/** Inside a room with chambers: what lies in the room itself stands above them all. */
function isBelow(room: string, chamber: string | undefined, into: string | undefined): boolean {
  const order = CHAMBERS[room];
  if (order === undefined) return true;
  const height = (one: string | undefined): number => (one === undefined ? order.length : order.indexOf(one));
  return height(into) >= 0 && height(into) <= height(chamber);
}

const words = ({ file, imported }: Import): string => `${path.relative(source, file)} imports ${imported}`;

test("every import runs downwards", () => {
  expect(all.length).toBeGreaterThan(50);
  expect(all.filter(({ file, imported }) => !isAllowed(file, imported)).map(words)).toEqual([]);
});

test("nothing runs in a circle, types included", () => {
  expect(circles(all)).toEqual([]);
});

test("a part of the pane knows no other part", () => {
  const partOf = (file: string): string | undefined => {
    const [room, chamber, part, ...rest] = path.relative(source, file).split(path.sep);
    return room === "taskpane" && chamber === "parts" && rest.length > 0 ? part : undefined;
  };
  const across = all.filter((one) => {
    const target = fileImported(one);
    const into = target === undefined ? undefined : partOf(target);
    return partOf(one.file) !== undefined && into !== undefined && into !== partOf(one.file);
  });
  expect(across.map(words)).toEqual([]);
});

test("every folder of a room with chambers has its place", () => {
  for (const [room, order] of Object.entries(CHAMBERS)) {
    const found = new Set(all.filter(({ file }) => roomOf(file) === room).map(({ file }) => chamberOf(file)));
    found.delete(undefined);
    expect([...found].filter((chamber) => chamber === undefined || !order.includes(chamber))).toEqual([]);
  }
});

test.each([
  ["core/board.ts", "../functions/cells", false],
  ["trade/stages.ts", "../core/text", false],
  ["workbook/season/season.ts", "../../core/text", true],
  ["workbook/plan/looks.ts", "../season/records", false],
  ["workbook/season/season.ts", "../plan/schema", true],
  ["xlsx/ranges.ts", "../grid/grid", false],
  ["xlsx/write-plan.ts", "../workbook/plan/schema", true],
  ["xlsx/write-plan.ts", "../workbook/season/season", false],
  ["taskpane/host/host.ts", "../frame/pane", false],
  ["taskpane/main.ts", "./frame/pane", true],
  ["grid/mends/sort-rows.ts", "../grid", false],
  ["page/page.ts", "../functions/practice", false],
  ["core/board.ts", "node:fs", false],
  ["functions/toss.ts", "../core/toss", true],
])("%s importing %s: %s", (file, imported, allowed) => {
  expect(isAllowed(path.join(source, file), imported)).toBe(allowed);
});

test("a circle is found, by way of others too", () => {
  const from = (file: string, imported: string): Import => ({ file: path.join(source, file), imported });
  const three = [from("a/one.ts", "./two"), from("a/two.ts", "../b/three"), from("b/three.ts", "../a/one")];
  expect(circles(three)).toEqual([["a/one", "a/two", "b/three"]]);
  expect(circles(three.slice(0, 2))).toEqual([]);
});
