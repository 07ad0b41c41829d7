/**
 * `npm run analyse -- <folder> --out season.parquet`: reads every season workbook in a folder, with the same core as the
 * cells, into one Parquet table. A workbook that cannot be read is named and left out; the others go on.
 *
 *   --standard 0.8   the catch rate asked for, one for all clubs
 *   --set-size 10    attempts in a set
 *   --names          athletes' and files' names go into the table; without it athletes are numbers within a workbook
 *
 * Ends with 0 where every workbook was read, with 2 where some were left out, with 1 where there is no table.
 */
import { readCommand } from "../command-line";
import { readdirSync, readFileSync, renameSync, statSync, writeFileSync } from "node:fs";
import path from "node:path";
import { USUAL_SET_SIZE, USUAL_STANDARD } from "../../trade/usual";
import { FileRefused } from "../../xlsx/package/file-refused";
import { isMain } from "../main-module";
import { parquetTable, type ReadWorkbook } from "./parquet-table";
import { seasonRows, WorkbookLeftOut } from "./season-rows";

interface AnalysisOptions {
  readonly folder: string;
  /** The table's file; ends in `.parquet`. */
  readonly out: string;
  readonly standard: number;
  readonly setSize: number;
  readonly withNames: boolean;
}

interface Analysis {
  readonly read: number;
  readonly rows: number;
  readonly bytes: number;
  /** Files left out, each with why. */
  readonly leftOut: readonly string[];
  /** Lines about rows of practice that were left out of workbooks that were read. */
  readonly rowsLeftOut: readonly string[];
}

const USAGE = "npm run analyse -- folder --out season.parquet [--standard 0.8] [--set-size 10] [--names]";

/** @throws Error that says which word is wrong and how the command is written */
export function analysisOptions(words: readonly string[]): AnalysisOptions {
  const refuse = (reason: string): never => {
    throw new Error(`${reason}\n${USAGE}`);
  };
  const { values, positionals } = readCommand(words, {
    usage: USAGE,
    takesWords: true,
    options: {
      out: { type: "string" },
      standard: { type: "string" },
      "set-size": { type: "string" },
      names: { type: "boolean", default: false },
    },
  });
  const { out, names: withNames } = values;
  const standard = Number(values.standard ?? USUAL_STANDARD);
  const setSize = Number(values["set-size"] ?? USUAL_SET_SIZE);
  const [folder, ...more] = positionals;
  if (folder === undefined || more.length > 0) return refuse("One folder of workbooks is needed.");
  if (out === undefined) return refuse("--out is missing.");
  if (!out.endsWith(".parquet")) refuse(`--out is ${out}; its name is to end in .parquet.`);
  if (!(standard > 0 && standard < 1)) refuse("--standard is a share between 0 and 1: 80 % is 0.8.");
  if (!(Number.isInteger(setSize) && setSize >= 1 && setSize <= 1000)) {
    refuse("--set-size is a whole number from 1 to 1000.");
  }
  return { folder, out, standard, setSize, withNames };
}

/** Workbooks in the folder and below, by their path inside it; what a program keeps beside an open one is none. */
export function workbooksIn(folder: string): readonly string[] {
  if (!statSync(folder, { throwIfNoEntry: false })?.isDirectory()) throw new Error(`There is no folder ${folder}.`);
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.xlsx$/i.test(entry.name) && !/^[~.]/.test(entry.name))
    .map((entry) => path.relative(folder, path.join(entry.parentPath, entry.name)).split(path.sep).join("/"))
    .sort((one, other) => (one < other ? -1 : 1));
}

/** @param tell is handed each line for the person who waits */
export async function analyse(options: AnalysisOptions, tell: (line: string) => void): Promise<Analysis> {
  const files = workbooksIn(options.folder);
  if (files.length === 0) throw new Error(`There is no .xlsx workbook in ${options.folder}.`);
  const workbooks: ReadWorkbook[] = [];
  const leftOut: string[] = [];
  const rowsLeftOut: string[] = [];
  files.forEach((file, index) => {
    try {
      const rows = seasonRows(readFileSync(path.join(options.folder, file)), options, (line) => {
        rowsLeftOut.push(`${file}: ${line}`);
        tell(`Row left out: ${file}: ${line}`);
      });
      // Numbered by all files, so that leaving one out renumbers no other.
      workbooks.push({ number: index + 1, file, rows });
    } catch (problem) {
      leftOut.push(`${file}: ${reasonOf(problem)}`);
      tell(`Left out: ${file}: ${reasonOf(problem)}`);
    }
  });
  if (workbooks.length === 0) throw new Error("Not one workbook could be read, so no table was written.");
  const table = await parquetTable(workbooks, options);
  // Whole or not at all: a table that was there stays until the new one is written.
  const begun = `${options.out}.part`;
  writeFileSync(begun, table);
  renameSync(begun, options.out);
  return {
    read: workbooks.length,
    rows: workbooks.reduce((sum, { rows }) => sum + rows.length, 0),
    bytes: table.length,
    leftOut,
    rowsLeftOut,
  };
}

function reasonOf(problem: unknown): string {
  if (problem instanceof FileRefused || problem instanceof WorkbookLeftOut) return problem.message;
  const code = (problem as NodeJS.ErrnoException | undefined)?.code;
  if (code !== undefined) return `The file cannot be read (${code}).`;
  // Anything else is a mistake of ours, and must not look like a damaged file.
  throw problem;
}

async function main(words: readonly string[]): Promise<void> {
  const options = analysisOptions(words);
  const { read, rows, bytes, leftOut, rowsLeftOut } = await analyse(options, (line) => console.error(line));
  console.log(`Wrote ${options.out}: ${rows} rows of ${read} workbooks, ${bytes} bytes.`);
  if (leftOut.length > 0) {
    console.log(`Left out: ${leftOut.length} of ${read + leftOut.length} workbooks, named above.`);
    process.exitCode = 2;
  }
  if (rowsLeftOut.length > 0) {
    console.log("Some rows of practice could not be read and were left out, named above.");
    process.exitCode = 2;
  }
}

if (isMain(module)) {
  main(process.argv.slice(2)).catch((error: unknown) => {
    console.error(error instanceof Error ? error.message : error);
    process.exitCode = 1;
  });
}
