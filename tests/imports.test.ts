/** Imports run downwards only: each room knows what is below it and nothing above. */
import path from "node:path";
import { allImports, roomOf, SOURCE as source } from "../src/tools/house";

/** What each room may import: other rooms, and packages by the start of their names. */
const ALLOWED: Readonly<Record<string, { readonly rooms: readonly string[]; readonly packages: readonly string[] }>> = {
  core: { rooms: [], packages: ["@stdlib/", "simple-statistics"] },
  functions: { rooms: ["core"], packages: [] },
  // The file writer's libraries; the descriptions themselves import nothing.
  workbook: { rooms: [], packages: [] },
  "workbook/writers": { rooms: ["workbook"], packages: ["fflate", "exceljs", "@cj-tech-master/"] },
  taskpane: { rooms: ["workbook", "workbook/writers", "core"], packages: ["d3-array", "d3-time"] },
  preview: {
    rooms: ["workbook", "workbook/writers", "taskpane"],
    packages: ["@univerjs/", "rxjs", "react", "node:", "fflate", "saxes"],
  },
  tools: { rooms: ["core", "functions", "workbook", "workbook/writers", "taskpane", "preview"], packages: [""] },
};

const all = allImports();

function isAllowed(file: string, imported: string): boolean {
  const rules = ALLOWED[roomOf(file)];
  if (!rules) return false;
  if (!imported.startsWith(".")) return rules.packages.some((start) => imported.startsWith(start));
  const target = roomOf(path.resolve(path.dirname(file), imported));
  return target === roomOf(file) || rules.rooms.includes(target);
}

test("every import runs downwards", () => {
  expect(all.length).toBeGreaterThan(50);
  const wrong = all.filter(({ file, imported }) => !isAllowed(file, imported));
  expect(wrong.map(({ file, imported }) => `${path.relative(source, file)} imports ${imported}`)).toEqual([]);
});

test("the check itself refuses what runs upwards", () => {
  expect(isAllowed(path.join(source, "core/board.ts"), "../functions/cells")).toBe(false);
  expect(isAllowed(path.join(source, "workbook/season.ts"), "../core/readiness")).toBe(false);
  expect(isAllowed(path.join(source, "preview/page.ts"), "../functions/practice")).toBe(false);
  expect(isAllowed(path.join(source, "core/board.ts"), "node:fs")).toBe(false);
  expect(isAllowed(path.join(source, "functions/toss.ts"), "../core/toss")).toBe(true);
});
