/**
 * Writes what is made from the functions' doc comments and kept in the repository: the pane's list and the README's
 * table. `npm run generate -- --check` writes nothing and fails where one of them is not current.
 */
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import type { FunctionHelp } from "../taskpane/function-help";
import { readFunctionDocs } from "./function-docs";
import { isMain } from "./main-module";
import { inProject } from "./paths";

const README_START = "<!-- functions: made by npm run generate -->";
const README_END = "<!-- functions end -->";

/** The generated files' paths and contents. */
export function generatedFiles(): { readonly file: string; readonly content: string }[] {
  const docs = readFunctionDocs();
  return [
    { file: "src/taskpane/functions.generated.json", content: `${JSON.stringify(docs, null, 2)}\n` },
    { file: "README.md", content: withFunctionTable(readFileSync(inProject("README.md"), "utf8"), docs) },
  ];
}

function withFunctionTable(readme: string, docs: readonly FunctionHelp[]): string {
  const start = readme.indexOf(README_START);
  const end = readme.indexOf(README_END);
  if (start < 0 || end < start) throw new Error(`README.md lacks the lines ${README_START} and ${README_END}`);
  const headings = [...new Set(docs.map(({ heading }) => heading))];
  const tables = headings.map((heading) => {
    const rows = docs
      .filter((help) => help.heading === heading)
      .map(({ syntax, sentence }) => `| \`${syntax}\` | ${sentence.replaceAll("|", "\\|")} |`);
    return `### ${heading}\n\n| function | answers |\n| --- | --- |\n${rows.join("\n")}\n`;
  });
  return `${readme.slice(0, start)}${README_START}\n\n${tables.join("\n")}\n${readme.slice(end)}`;
}

if (isMain(module)) {
  const check = process.argv.includes("--check");
  for (const { file, content } of generatedFiles()) {
    const current = existsSync(inProject(file)) && readFileSync(inProject(file), "utf8") === content;
    if (current) continue;
    if (check) {
      console.error(`${file} is not current: run npm run generate and commit the result.`);
      process.exitCode = 1;
    } else {
      writeFileSync(inProject(file), content);
      console.log(`Wrote ${file}.`);
    }
  }
}
