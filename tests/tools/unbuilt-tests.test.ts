import { existsSync, readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { inProject } from "../../src/tools/paths";
import { needsBuild, UNBUILT_FOLDERS } from "../../src/tools/unbuilt-tests";

test.each([
  [[], true],
  [["tests/core"], false],
  [["tests/core/slump.test.ts", "tests/core/week"], false],
  [["tests/core", "--verbose"], false],
  [["tests/corelated"], true],
  [["tests/core", "tests/functions"], true],
  // What belongs to an option may be a place of tests as well.
  [["tests/core", "-t", "by hand"], true],
] as const)("%j is built before: %s", (words, expected) => {
  expect(needsBuild(words)).toBe(expected);
});

/** A file and all that it imports of the project, in turn. */
function reached(file: string, found = new Set<string>()): ReadonlySet<string> {
  if (found.has(file)) return found;
  found.add(file);
  for (const [, place = ""] of readFileSync(file, "utf8").matchAll(/(?:from|import|require\()\s*"(\.[^"]+)"/g)) {
    const target = path.resolve(path.dirname(file), place);
    const source = [`${target}.ts`, path.join(target, "index.ts")].find((one) => existsSync(one));
    if (source !== undefined) reached(source, found);
  }
  return found;
}

test.each(UNBUILT_FOLDERS)("no test in %s reads what is built", (folder) => {
  const files = readdirSync(inProject(folder), { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".test.ts"))
    .map((name) => inProject(folder, name));
  expect(files.length).toBeGreaterThan(20);
  const all = new Set(files.flatMap((file) => [...reached(file)]));
  expect(all.size).toBeGreaterThan(files.length);
  const builders = [...all].filter((file) => /["'`/](?:dist|build)\//.test(readFileSync(file, "utf8")));
  expect(builders.map((file) => path.relative(inProject(), file))).toEqual([]);
});
