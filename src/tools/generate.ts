/**
 * Writes what is made from the source and kept in the repository: the pane's list and the README's table from the
 * functions' doc comments, the drawing of the house in DEVELOPERS.md from the imports. `npm run generate -- --check`
 * writes nothing and fails where one of them is not current.
 */
import { readCommand } from "./command-line";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import type { FunctionHelp } from "../taskpane/parts/functions/function-help";
import { readFunctionDocs } from "./function-docs";
import { houseDiagram } from "./house";
import { isMain } from "./main-module";
import { inProject } from "./paths";

const README_MARKS = ["<!-- functions: made by npm run generate -->", "<!-- functions end -->"] as const;
const HOUSE_MARKS = ["<!-- house: made by npm run generate -->", "<!-- house end -->"] as const;

/** The generated files' paths and contents. */
function generatedFiles(): { readonly file: string; readonly content: string }[] {
  const docs = readFunctionDocs();
  return [
    { file: "src/taskpane/parts/functions/functions.generated.json", content: `${JSON.stringify(docs, null, 2)}\n` },
    { file: "README.md", content: between("README.md", README_MARKS, functionTables(docs)) },
    {
      file: "DEVELOPERS.md",
      content: between("DEVELOPERS.md", HOUSE_MARKS, `\`\`\`mermaid\n${houseDiagram()}\n\`\`\`\n`),
    },
  ];
}

/** The file with other text between its two marks. */
function between(file: string, [first, last]: readonly [string, string], text: string): string {
  const whole = readFileSync(inProject(file), "utf8");
  const [start, end] = [whole.indexOf(first), whole.indexOf(last)];
  if (start < 0 || end < start) throw new Error(`${file} lacks the lines ${first} and ${last}`);
  return `${whole.slice(0, start)}${first}\n\n${text}\n${whole.slice(end)}`;
}

function functionTables(docs: readonly FunctionHelp[]): string {
  const headings = [...new Set(docs.map(({ heading }) => heading))];
  const tables = headings.map((heading) => {
    const rows = docs
      .filter((help) => help.heading === heading)
      .map(({ syntax, sentence }) => `| \`${syntax}\` | ${sentence.replaceAll("|", "\\|")} |`);
    return `### ${heading}\n\n| function | answers |\n| --- | --- |\n${rows.join("\n")}\n`;
  });
  return tables.join("\n");
}

if (isMain(module)) {
  const { check } = readCommand(process.argv.slice(2), {
    usage: "npm run generate -- [--check]",
    options: { check: { type: "boolean", default: false } },
  }).values;
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
