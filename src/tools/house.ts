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
  tools: "what npm runs: build, serve, package, analyse",
  page: "the try-out page",
  grid: "the open-source grid: engine, mends, adapter, files",
  xlsx: ".xlsx in and out",
  taskpane: "the pane",
  functions: "the cell face",
  workbook: "a season as plain data",
  core: "the mathematics",
  trade: "the trade's own facts",
};

/** The chambers of the larger rooms, from the lowest up: each looks into those before it. */
export const CHAMBERS: Readonly<Record<string, readonly string[]>> = {
  workbook: ["plan", "season", "own-board", "sample", "office"],
  taskpane: ["words", "ui", "host", "season", "parts", "frame"],
  grid: ["engine", "mends", "adapter", "file"],
};

/** The room in which a file lies: a folder of `src`. */
export function roomOf(file: string): string {
  return path.relative(SOURCE, file).split(path.sep)[0] ?? "";
}

/** The folder inside its room in which a file lies, or undefined where it lies in the room itself. */
export function chamberOf(file: string): string | undefined {
  const inside = path.relative(SOURCE, file).split(path.sep);
  return inside.length > 2 ? inside[1] : undefined;
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

/** The file that an import leads to, as it is named there (without its ending), or undefined where it leads to a package. */
export function fileImported({ file, imported }: Import): string | undefined {
  return imported.startsWith(".") ? path.resolve(path.dirname(file), imported) : undefined;
}

function roomImported(one: Import): string | undefined {
  const file = fileImported(one);
  return file === undefined ? undefined : roomOf(file);
}

/** Files that import each other, at once or by way of others: each circle once, types included. */
export function circles(imports: readonly Import[] = allImports()): readonly (readonly string[])[] {
  const nameOf = (file: string): string => path.relative(SOURCE, file).replace(/\.tsx?$/, "");
  const into = new Map<string, string[]>();
  for (const one of imports) {
    const to = fileImported(one);
    if (to === undefined) continue;
    const from = nameOf(one.file);
    into.set(from, [...(into.get(from) ?? []), nameOf(to)]);
  }
  const done = new Set<string>();
  const way: string[] = [];
  const found: string[][] = [];
  const walk = (file: string): void => {
    const before = way.indexOf(file);
    if (before >= 0) found.push(way.slice(before));
    if (before >= 0 || done.has(file)) return;
    way.push(file);
    for (const next of into.get(file) ?? []) walk(next);
    way.pop();
    done.add(file);
  };
  for (const file of into.keys()) walk(file);
  return found;
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
      .map((to) => `  ${from} --> ${to}`),
  );
  const packages = rooms
    // The tools bring in whatever they need.
    .filter((room) => room !== "tools")
    .flatMap((room) => {
      const names = new Set(
        imports.filter((one) => roomOf(one.file) === room && roomImported(one) === undefined).map(packageOf),
      );
      names.delete("node:");
      return names.size === 0 ? [] : [`  ${room} -.- ${room}Libraries(["${[...names].sort().join("<br>")}"])`];
    });
  return [
    "flowchart TB",
    ...rooms.map((room) => `  ${room}["<b>${room}</b><br>${ROOMS[room] ?? ""}"]`),
    ...arrows,
    ...packages,
  ].join("\n");
}

/** `@scope` for a package of one publisher, else the package's name. */
function packageOf({ imported }: Import): string {
  if (imported.startsWith("node:")) return "node:";
  return imported.split("/")[0] ?? imported;
}
