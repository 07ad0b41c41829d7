/**
 * `npm run dev`: serves the add-in over https on this computer, to be side-loaded into the spreadsheet program, and
 * builds it anew whenever a source changes. `-- --port 3001` takes another port than 3000.
 */
import { numberOf, readCommand } from "../command-line";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import path from "node:path";
import webpack, { type Compiler, type Configuration, type MultiCompiler } from "webpack";
import { serve } from "../serve/server";
import { copyPaneFiles } from "../build";
import { makeMetadata } from "../metadata";
import { checkAddress } from "../package/address";
import { headers } from "../package/headers";
import { manifestFor } from "../package/manifest";
import { inProject } from "../paths";
import { keptCertificate } from "./certificate";
import { trustWords } from "./trust";

const FOLDER = inProject("build/dev");
const CERTIFICATES = inProject("build/certificate");
const DEFAULT_PORT = 3000;

type Watching = NonNullable<ReturnType<MultiCompiler["watch"]>>;

/** Files that no bundle imports, and that are copied or read when they change. */
const FURTHER = [
  "src/taskpane/taskpane.html",
  "src/taskpane/pane.css",
  "src/tools/help.css",
  "src/tools/guide/guide.css",
  "manifest.xml",
];

async function main(words: readonly string[]): Promise<void> {
  const port = wishedPort(words);
  const address = checkAddress(`https://localhost:${port}/`, { forDevelopment: true });
  mkdirSync(FOLDER, { recursive: true });
  const kept = await keptCertificate(CERTIFICATES, new Date());
  const server = await serve({
    folders: [FOLDER],
    port,
    isPortFixed: true,
    tls: kept,
    headers: Object.fromEntries(headers({ officeNetwork: false }).map(({ name, value }) => [name, value])),
  });
  console.log("Building; the first time takes a minute …");
  const watching = await watch(address);

  const commands = trustWords(kept, process.platform);
  console.log(`
Serving ${server.url} from ${path.relative(process.cwd(), FOLDER)}. Press Ctrl+C to end it.

${kept.isNew ? "The certificate is new. Have it trusted once" : "The certificate is the one of last time. If it is not trusted yet"} (${commands.where}):
  ${commands.trust}
and when you are done with it:
  ${commands.remove}
  then delete ${path.relative(process.cwd(), CERTIFICATES)}

Side-load ${path.relative(process.cwd(), path.join(FOLDER, "manifest.xml"))} as DEVELOPERS.md says. After a change, reload the pane (click into it, F5).
`);
  for (const signal of ["SIGINT", "SIGTERM"] as const) {
    process.once(signal, () => {
      watching.close(() => void server.close().then(() => process.exit(0)));
    });
  }
}

function wishedPort(words: readonly string[]): number {
  const { values } = readCommand(words, {
    usage: "npm run dev -- [--port 3001]",
    options: { port: { type: "string" } },
  });
  return numberOf("--port", values.port, { otherwise: DEFAULT_PORT, most: 65_535 });
}

/** Resolves once the first build stands. */
async function watch(address: string): Promise<Watching> {
  const all = createRequire(__filename)(inProject("webpack.config.js")) as Configuration[];
  const compiler = webpack(
    ["functions", "pane"].map((name) => {
      const found = all.find((configuration) => configuration.name === name);
      if (!found) throw new Error(`webpack.config.js has no bundle called ${name}.`);
      return {
        ...found,
        output: { ...found.output, path: FOLDER },
        // Readable in the browser's own tools, and sooner there.
        optimization: { ...found.optimization, minimize: false },
        plugins: [...(found.plugins ?? []), { apply: watchFurtherFiles }],
      };
    }),
  );
  let metadataOf = "";
  const finish = async (): Promise<void> => {
    copyPaneFiles(FOLDER);
    const template = readFileSync(inProject("manifest.xml"), "utf8");
    writeFileSync(path.join(FOLDER, "manifest.xml"), manifestFor(template, { address, forDevelopment: true }));
    // Takes seconds: only where a doc comment may have changed.
    const functions = readFileSync(path.join(FOLDER, "functions.js"), "utf8");
    if (functions === metadataOf) return;
    writeFileSync(path.join(FOLDER, "functions.json"), await makeMetadata(address));
    metadataOf = functions;
  };
  return new Promise((resolve) => {
    const watching = compiler.watch({ aggregateTimeout: 200 }, (error, stats) => {
      if (error) console.error(error);
      else if (stats?.hasErrors()) console.error(stats.toString({ preset: "errors-only" }));
      else {
        finish().then(
          () => {
            console.log(`${new Date().toLocaleTimeString()}  built`);
            if (watching) resolve(watching);
          },
          (problem: unknown) => console.error(problem),
        );
      }
    });
  });
}

function watchFurtherFiles(compiler: Compiler): void {
  compiler.hooks.afterCompile.tap("FurtherFiles", (compilation) => {
    for (const file of FURTHER) compilation.fileDependencies.add(inProject(file));
  });
}

main(process.argv.slice(2)).catch((error: unknown) => {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
});
