/**
 * Workbooks hold calls by their id and their arguments by their place. So what was released once stays: no id goes, no
 * argument moves or is renamed, none becomes required, and a new one comes last and may be left out.
 */
import { readFileSync } from "node:fs";
import path from "node:path";
import { BUILT } from "./built";

const root = path.resolve(__dirname, "../..");
const released = readFileSync(path.join(__dirname, "released.txt"), "utf8");
const { version } = JSON.parse(readFileSync(path.join(root, "package.json"), "utf8")) as { version: string };

interface Signature {
  readonly id: string;
  readonly parameters: readonly { readonly name: string; readonly optional?: boolean }[];
}

const { functions } = JSON.parse(readFileSync(path.join(BUILT, "functions.json"), "utf8")) as {
  functions: readonly Signature[];
};

function read(line: string): Signature {
  const [, id = "", list = ""] = /^([A-Z]+)\((.*)\)$/.exec(line) ?? [];
  if (id === "") throw new Error(`released.txt: ${line} cannot be read.`);
  const parameters = list.split(", ").filter((text) => text !== "");
  return {
    id,
    parameters: parameters.map((text) => ({ name: text.replace(/[[\]]/g, ""), optional: text.startsWith("[") })),
  };
}

/** By version, in the file's order. */
const versions = new Map(
  released
    .split(/^## /m)
    .slice(1)
    .map((part) => {
      const [name = "", ...lines] = part.trim().split("\n");
      return [name, lines.filter((line) => line !== "").map(read)] as const;
    }),
);

/** What a workbook made with `before` would miss in `now`. */
function broken(before: readonly Signature[], now: readonly Signature[]): string[] {
  return before.flatMap(({ id, parameters }) => {
    const found = now.find((one) => one.id === id);
    if (!found) return [`${id} is gone`];
    const moved = parameters.flatMap(({ name, optional }, place) => {
      const here = found.parameters[place];
      if (here?.name !== name) return [`${id}: argument ${place + 1} was ${name} and is ${here?.name ?? "gone"}`];
      return optional && !here.optional ? [`${id}: ${name} could be left out`] : [];
    });
    const added = found.parameters.slice(parameters.length).filter(({ optional }) => !optional);
    return [...moved, ...added.map(({ name }) => `${id}: ${name} is new and cannot be left out`)];
  });
}

test.each([...versions])("workbooks made with %s still work", (_version, before) => {
  expect(before.length).toBeGreaterThanOrEqual(40);
  expect(broken(before, functions)).toEqual([]);
});

test("this version is in the list with all that it has, and in the changelog", () => {
  const own = versions.get(version) ?? [];
  const lines = (all: readonly Signature[]): string[] =>
    all.map(
      ({ id, parameters }) => `${id}(${parameters.map((one) => (one.optional ? `[${one.name}]` : one.name)).join()})`,
    );
  expect(lines(own).sort()).toEqual(lines(functions).sort());
  expect(readFileSync(path.join(root, "CHANGELOG.md"), "utf8")).toContain(`\n## ${version}\n`);
});

const before = [read("TOSS(counts, [unit])")];
test.each([
  ["TOSS(counts, [unit], [ceiling])", []],
  ["TOSS([counts], [unit])", []],
  ["THROW(counts, [unit])", ["TOSS is gone"]],
  ["TOSS([unit], counts)", ["TOSS: argument 1 was counts and is unit", "TOSS: argument 2 was unit and is counts"]],
  ["TOSS(counts)", ["TOSS: argument 2 was unit and is gone"]],
  ["TOSS(counts, unit)", ["TOSS: unit could be left out"]],
  ["TOSS(counts, [unit], ceiling)", ["TOSS: ceiling is new and cannot be left out"]],
])("the check of %s", (line, wrong) => {
  expect(broken(before, [read(line)])).toEqual(wrong);
});
