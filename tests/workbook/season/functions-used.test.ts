/** The workbook knows our functions by their ids alone: each must be one that the build registers, with as many arguments. */
import { existsSync, readFileSync } from "node:fs";
import path from "node:path";
import { formulaParts } from "../../../src/workbook/plan/formula";
import { sampleSeason } from "../../../src/workbook/sample/sample-season";

const file = path.join(__dirname, "../../../dist/functions.json");
const isBuilt = existsSync(file);
if (!isBuilt) console.log("Skipped: dist/functions.json is not there; npm run build makes it.");
const whenBuilt = isBuilt ? test : test.skip;

interface Parameter {
  readonly name: string;
  readonly optional?: boolean;
}

whenBuilt("every call of ours is a built function, with the arguments that it wants", () => {
  const { functions } = JSON.parse(readFileSync(file, "utf8")) as {
    functions: readonly { readonly id: string; readonly parameters: readonly Parameter[] }[];
  };
  const calls = sampleSeason()
    .sheets.flatMap((sheet) => [
      ...sheet.cells.flatMap(({ content }) => (content.kind === "formula" ? [content.formula] : [])),
      ...sheet.tables.flatMap((table) => table.columns.flatMap(({ formula }) => formula ?? [])),
    ])
    .flatMap(formulaParts)
    .flatMap((part) => (part.kind === "twirl" ? [part] : []));
  expect(calls.length).toBeGreaterThan(0);
  for (const { id, args } of calls) {
    const built = functions.find((one) => one.id === id);
    if (!built) throw new Error(`${id} is not built`);
    expect(args.length).toBeLessThanOrEqual(built.parameters.length);
    expect(args.length).toBeGreaterThanOrEqual(built.parameters.filter(({ optional }) => optional !== true).length);
  }
});
