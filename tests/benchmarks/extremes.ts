/** How long the functions take at the ends of what they accept, and how long functions.js takes to load. */
import { spawnSync } from "node:child_process";
import { FUNCTIONS_FILE, loadBuiltFunctions, median, milliseconds } from "./built-functions";

interface Extreme {
  readonly what: string;
  readonly id: string;
  readonly args: readonly unknown[];
  /** Milliseconds that it may take. */
  readonly aim: number;
}

const SHEET_ROWS = 1_048_576;

/** A whole column with these cells at its top and empty below, as zero-filling hosts pass it. */
function wholeColumn(...cells: unknown[]): unknown[][] {
  return Array.from({ length: SHEET_ROWS }, (_, row) => [cells[row] ?? 0]);
}

function extremes(): Extreme[] {
  const million = 1_000_000;
  const intervals = ["wilson", "exact", "jeffreys"].flatMap((method) =>
    [0, 1, million / 2, 0.8 * million, million - 1, million].map((caught) => ({
      what: `${caught} of 1,000,000, ${method}`,
      id: "CATCHINTERVAL",
      args: [caught, million, 0.95, method],
      aim: 50,
    })),
  );
  const log = [wholeColumn(46300, 46301), wholeColumn("M.K.", "M.K."), wholeColumn("Flat", "Flat")];
  const rates = (tosses: number) => Array.from({ length: tosses }, (_, toss) => [0.9 + (toss % 10) / 101]);
  return [
    ...intervals,
    { what: "8,000,000 of 10,000,000", id: "CHANCEABOVE", args: [8e6, 1e7, 0.8], aim: 50 },
    { what: "at most 20 drops in 2,000 tosses", id: "DROPCHANCE", args: [rates(2000), 20], aim: 50 },
    { what: "at most 1,000 drops in 2,000 tosses", id: "DROPCHANCE", args: [rates(2000), 1000], aim: 50 },
    { what: "2,000 tosses", id: "DROPSPREAD", args: [rates(2000)], aim: 50 },
    { what: "30 tosses of different values", id: "ROUTINESCORE", args: [rates(30), rates(30), 0.5], aim: 50 },
    { what: "12 in a row within 100,000 attempts", id: "STREAKCHANCE", args: [0.5, 12, 100_000], aim: 50 },
    { what: "rate 0.8021 against 0.8, near the limit", id: "PROOFATTEMPTS", args: [0.8021, 0.8], aim: 200 },
    { what: "rate 0.8001 against 0.8, beyond it", id: "PROOFATTEMPTS", args: [0.8001, 0.8], aim: 200 },
    { what: "90 to 70 %, false alarm in 1,000,000", id: "SLUMP", args: [[["ccdcc"]], 0.9, 0.7, million], aim: 200 },
    { what: "99.9 to 99.8 %, in 1,000,000", id: "SLUMP", args: [[["ccdcc"]], 0.999, 0.998, million], aim: 200 },
    { what: "0.2 to 0.1 %, in 1,000,000", id: "SLUMP", args: [[["ccdcc"]], 0.002, 0.001, million], aim: 200 },
    { what: "10,000,000 against 10,000,000", id: "COMPARE", args: [5e6, 1e7, 5.01e6, 1e7], aim: 50 },
    { what: "whole column", id: "READINESS", args: [wholeColumn("ccccc", "ccd")], aim: 50 },
    { what: "whole column", id: "STREAK", args: [wholeColumn("ccccc", "ccd")], aim: 50 },
    { what: "whole columns", id: "BOARD", args: [...log, wholeColumn("ccd", "cc")], aim: 50 },
    { what: "whole columns", id: "TALLYBOARD", args: [...log, wholeColumn(8, 9), wholeColumn(10, 10)], aim: 50 },
    { what: "whole columns", id: "PLACEMENT", args: [wholeColumn(0.1, 0.2), wholeColumn(0.3, 0.1)], aim: 50 },
    {
      what: "whole column",
      id: "CLEANCHANCE",
      args: [Array.from({ length: SHEET_ROWS }, (_, row) => [row < 8 ? 0.9 : ""])],
      aim: 50,
    },
  ];
}

export function extremesBenchmark(print: (line: string) => void): void {
  const functions = loadBuiltFunctions();
  print("| function | at | median of 7 ms | first call ms | aim ms |");
  print("| --- | --- | --- | --- | --- |");
  for (const { what, id, args, aim } of extremes()) {
    const body = functions.get(id);
    if (!body) throw new Error(`${id} is not in dist/functions.js`);
    const call = () => {
      try {
        return body(...args);
      } catch (error) {
        return error;
      }
    };
    const first = milliseconds(call);
    const later = median(Array.from({ length: 7 }, () => milliseconds(call)));
    print(`| ${id} | ${what} | ${later.toFixed(2)} | ${first.toFixed(2)} | ${aim}${later > aim ? " MISSED" : ""} |`);
  }
  print(
    `Loading functions.js: median ${median(Array.from({ length: 9 }, loadInFreshProcess)).toFixed(1)} ms in a fresh process (aim: under 30)`,
  );
}

/** Parsing and running the file for the first time, measured inside a process that has not seen it. */
function loadInFreshProcess(): number {
  const code = `
    const script = require("node:fs").readFileSync(${JSON.stringify(FUNCTIONS_FILE)}, "utf8");
    const start = process.hrtime.bigint();
    new Function("CustomFunctions", script)({ associate() {}, Error, ErrorCode: {} });
    console.log(Number(process.hrtime.bigint() - start) / 1e6);`;
  return Number(spawnSync(process.execPath, ["-e", code], { encoding: "utf8" }).stdout);
}
