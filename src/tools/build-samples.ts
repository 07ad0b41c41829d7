/**
 * Writes the sample workbooks, the same bytes each time, with the answers of the built functions stored in the cells.
 *
 *   npm run samples              writes sample-workbooks/
 *   npm run samples -- --check   fails if a file there is not what would be written
 */
import { readCommand } from "./command-line";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { calculate, type BuiltFunctions, type HeadlessWorkbook } from "../grid/headless";
import type { FunctionsMetadata } from "../grid/engine/custom-functions";
import { olderLog } from "../workbook/sample/older-log";
import { sampleSeason, sampleSettings } from "../workbook/sample/sample-season";
import type { WorkbookPlan } from "../workbook/plan/schema";
import { seasonPlan } from "../workbook/season/season";
import { writeWorkbookFile } from "../xlsx/write-plan";
import { build } from "./build";
import { isMain } from "./main-module";
import { inProject } from "./paths";

interface Sample {
  readonly file: string;
  readonly plan: () => WorkbookPlan;
}

const samples: readonly Sample[] = [
  { file: "season.xlsx", plan: sampleSeason },
  { file: "empty-season.xlsx", plan: () => seasonPlan(sampleSettings) },
  { file: "older-log.xlsx", plan: olderLog },
];

/** The functions as the last build left them. */
export function builtFunctions(): BuiltFunctions {
  return {
    functionsScript: readFileSync(inProject("dist/functions.js"), "utf8"),
    functionsMetadata: JSON.parse(readFileSync(inProject("dist/functions.json"), "utf8")) as FunctionsMetadata,
    emptyCells: "null",
  };
}

/** The bytes of one sample workbook. */
async function sampleBytes(sample: Sample, functions: BuiltFunctions): Promise<Uint8Array> {
  const plan = sample.plan();
  const calculated = await calculate(plan, functions);
  refuseErrors(sample, calculated);
  return writeWorkbookFile(plan, calculated);
}

/** A sample that shows an error by mistake must not be written. */
function refuseErrors(sample: Sample, calculated: HeadlessWorkbook): void {
  for (const [sheet, { values, messages }] of calculated) {
    for (const [address, value] of values) {
      if (value.kind === "error") {
        throw new Error(`${sample.file}: ${sheet}!${address} answers ${value.name}. ${messages.get(address) ?? ""}`);
      }
    }
  }
}

async function main(words: readonly string[]): Promise<void> {
  const { check } = readCommand(words, {
    usage: "npm run samples -- [--check]",
    options: { check: { type: "boolean", default: false } },
  }).values;
  await build();
  const functions = builtFunctions();
  mkdirSync(inProject("sample-workbooks"), { recursive: true });
  for (const sample of samples) {
    const path = inProject("sample-workbooks", sample.file);
    const bytes = await sampleBytes(sample, functions);
    const unchanged = existsSync(path) && readFileSync(path).equals(bytes);
    if (!check && !unchanged) writeFileSync(path, bytes);
    if (check && !unchanged) process.exitCode = 1;
    const outcome = unchanged ? "as committed" : check ? "DIFFERS: run npm run samples and commit it" : "written";
    console.log(`sample-workbooks/${sample.file}: ${bytes.length} bytes, ${outcome}`);
  }
}

if (isMain(module)) {
  main(process.argv.slice(2)).catch((error: unknown) => {
    console.error(error instanceof Error ? error.message : error);
    process.exitCode = 1;
  });
}
