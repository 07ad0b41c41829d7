/**
 * `npm run size`: how large the files are that a spreadsheet loads, against their budgets. Our own part of functions.js
 * is measured by building it once more with the libraries left out.
 */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { gzipSync } from "node:zlib";
import webpack, { type Configuration } from "webpack";
import { build } from "./build";
import { TEMPLATE_ADDRESS } from "./package/manifest";
import { firstVisit, writePageFolder } from "./package/page-folder";
import { inProject } from "./paths";
import { traffic } from "./traffic";

interface Budget {
  readonly what: string;
  readonly bytes: number;
  readonly most: number;
}

async function main(): Promise<void> {
  await build();
  const functions = readFileSync(inProject("dist/functions.js"));
  writePageFolder({ address: `${TEMPLATE_ADDRESS}page/`, out: inProject("build/kept-page") });
  const visit = firstVisit(inProject("build/kept-page"));
  const budgets: readonly Budget[] = [
    { what: "functions.js", bytes: functions.length, most: 280_000 },
    { what: "functions.js, gzipped", bytes: gzipSync(functions, { level: 9 }).length, most: 80_000 },
    { what: "functions.js, our own part", bytes: await ownPart(), most: 110_000 },
    { what: "taskpane.js", bytes: readFileSync(inProject("dist/taskpane.js")).length, most: 170_000 },
    // Loaded when their parts are first opened.
    { what: "own-sheet.js", bytes: readFileSync(inProject("dist/own-sheet.js")).length, most: 100_000 },
    { what: "pictures.js", bytes: readFileSync(inProject("dist/pictures.js")).length, most: 55_000 },
    // Loaded where French is spoken.
    { what: "french.js", bytes: readFileSync(inProject("dist/french.js")).length, most: 40_000 },
    // Loaded when the list of functions is first opened.
    { what: "functions-help.js", bytes: readFileSync(inProject("dist/functions-help.js")).length, most: 90_000 },
    // What a tablet fetches once, to have the page without a connection.
    { what: "the kept page, gzipped", bytes: visit.gzipped, most: 4_500_000 },
  ];
  for (const { what, bytes, most } of budgets) {
    const held = bytes <= most;
    console.log(`${held ? "within" : "OVER"} budget: ${what} ${bytes} of ${most} bytes`);
    if (!held) process.exitCode = 1;
  }
  console.log(
    `a first visit to the kept page fetches ${visit.files} files, ${visit.bytes} bytes, ${visit.gzipped} gzipped`,
  );
  const { ours, library, requests, month } = traffic(inProject("dist"));
  console.log(
    `a coach's spreadsheet fetches ${ours} bytes of ours and ${library} of the host's library, gzipped, and asks ${requests} times whether they are current at each later opening: about ${month} bytes a month`,
  );
}

/** The size of functions.js without its libraries. */
async function ownPart(): Promise<number> {
  const all = createRequire(__filename)(inProject("webpack.config.js")) as Configuration[];
  const functions = all.find(({ name }) => name === "functions");
  if (!functions) throw new Error("webpack.config.js has no bundle called functions");
  const compiler = webpack({
    ...functions,
    externals: ({ request }, done) => {
      if (/^(@stdlib\/|simple-statistics$)/.test(request ?? "")) done(undefined, "globalThis.library");
      else done();
    },
    output: { ...functions.output, path: inProject("build/own") },
  });
  await new Promise<void>((resolve, reject) => {
    compiler.run((error, stats) => {
      compiler.close(() => undefined);
      if (error) reject(error);
      else if (stats?.hasErrors()) reject(new Error(stats.toString({ preset: "errors-only" })));
      else resolve();
    });
  });
  return readFileSync(inProject("build/own/functions.js")).length;
}

main().catch((error: unknown) => {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
});
