/** The house as the imports have it: its rooms, and which looks into which. */
import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import ts from "typescript";
import { inProject } from "./paths";

export const SOURCE = inProject("src");

export interface Import {
  /** The importing file, in full. */
  readonly file: string;
  /** As it is written: `../core/marks` or a package's name. */
  readonly imported: string;
}

/** What each room is for, from the top of the house down. */
const ROOMS: Readonly<Record<string, string>> = {
  tools: "build, serve, package, analyse",
  preview: "the try-out page: grid, files",
  taskpane: "the pane",
  functions: "the cell face",
  "workbook/writers": "Office.js and .xlsx",
  workbook: "a season as plain data",
  core: "the mathematics",
};

/** The room in which a file lies: a folder of `src`; the workbook's writers are one of their own. */
export function roomOf(file: string): string {
  const inside = path.relative(SOURCE, file).split(path.sep);
  return inside[0] === "workbook" && inside[1] === "writers" ? "workbook/writers" : (inside[0] ?? "");
}

function sourceFiles(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const full = path.join(folder, entry.name);
    return entry.isDirectory() ? sourceFiles(full) : /\.tsx?$/.test(entry.name) ? [full] : [];
  });
}

export function allImports(): readonly Import[] {
  return sourceFiles(SOURCE).flatMap((file) =>
    ts
      .preProcessFile(readFileSync(file, "utf8"), true, true)
      .importedFiles.map(({ fileName }) => ({ file, imported: fileName })),
  );
}

/** The room that an import leads to, or undefined where it leads to a package. */
export function roomImported({ file, imported }: Import): string | undefined {
  return imported.startsWith(".") ? roomOf(path.resolve(path.dirname(file), imported)) : undefined;
}

/** A Mermaid flowchart: the rooms, an arrow for each that looks into another, and the packages each brings in. */
export function houseDiagram(imports: readonly Import[] = allImports()): string {
  const found = new Set(imports.flatMap(({ file }) => roomOf(file)));
  const stranger = [...found].find((room) => !(room in ROOMS));
  if (stranger !== undefined) throw new Error(`The room ${stranger} has no words in src/tools/house.ts.`);
  const rooms = Object.keys(ROOMS).filter((room) => found.has(room));
  const arrows = rooms.flatMap((from) =>
    rooms
      .filter((to) => to !== from && imports.some((one) => roomOf(one.file) === from && roomImported(one) === to))
      .map((to) => `  ${idOf(from)} --> ${idOf(to)}`),
  );
  const packages = rooms
    // The tools bring in whatever they need.
    .filter((room) => room !== "tools")
    .flatMap((room) => {
      const names = new Set(
        imports.filter((one) => roomOf(one.file) === room && roomImported(one) === undefined).map(packageOf),
      );
      names.delete("node:");
      return names.size === 0
        ? []
        : [`  ${idOf(room)} -.- ${idOf(room)}Libraries(["${[...names].sort().join("<br>")}"])`];
    });
  return [
    "flowchart TB",
    ...rooms.map((room) => `  ${idOf(room)}["<b>${room}</b><br>${ROOMS[room] ?? ""}"]`),
    ...arrows,
    ...packages,
  ].join("\n");
}

function idOf(room: string): string {
  return room.replace("/", "_");
}

/** `@scope` for a package of one publisher, else the package's name. */
function packageOf({ imported }: Import): string {
  if (imported.startsWith("node:")) return "node:";
  return imported.split("/")[0] ?? imported;
}
