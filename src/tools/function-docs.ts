/**
 * Reads the doc comments of `src/functions/*.ts`: the one source from which the metadata, the README's table, the
 * pane's list and the help page are made.
 */
import { readFileSync } from "node:fs";
import path from "node:path";
import ts from "typescript";
import type { FunctionHelp } from "../taskpane/parts/functions/function-help";
import { headings } from "../functions/headings";
import { root } from "./paths";

/** @param file as `headings` names it */
export function functionFilePath(file: string): string {
  return path.join(root, "src/functions", `${file}.ts`);
}

/** Every function's help, in the order of the files. Throws where a part is missing, naming the function. */
export function readFunctionDocs(): FunctionHelp[] {
  return headings.flatMap(({ file, heading }) => {
    const source = ts.createSourceFile(
      file,
      readFileSync(functionFilePath(file), "utf8"),
      ts.ScriptTarget.Latest,
      true,
    );
    return source.statements
      .filter(ts.isFunctionDeclaration)
      .filter((declaration) => tagText(declaration, "customfunction") !== undefined)
      .map((declaration) => describe(declaration, heading));
  });
}

function describe(declaration: ts.FunctionDeclaration, heading: string): FunctionHelp {
  const id = required(tagText(declaration, "customfunction"), "an id", declaration);
  const comment = ts.getJSDocCommentsAndTags(declaration).find(ts.isJSDoc)?.comment;
  const parameters = declaration.parameters.filter(isArgument).map((parameter) => {
    const [tag] = ts.getJSDocParameterTags(parameter);
    return {
      name: plainName(parameter.name.getText()),
      optional: tag?.isBracketed ?? false,
      matrix: parameter.type?.getText().endsWith("[][]") ?? false,
      description: required(
        tag && ts.getTextOfJSDocComment(tag.comment)?.trim(),
        `a description of ${parameter.name.getText()}`,
        declaration,
      ),
    };
  });
  const example = required(tagText(declaration, "example"), "an example", declaration);
  const parts = /^(=TWIRL\..*) shows (.*)$/s.exec(example);
  return {
    id,
    heading,
    sentence: required(ts.getTextOfJSDocComment(comment)?.trim(), "a sentence", declaration),
    syntax: `TWIRL.${id}(${parameters.map(({ name, optional }) => (optional ? `[${name}]` : name)).join(", ")})`,
    parameters,
    answer: required(
      ts.getTextOfJSDocComment(ts.getJSDocReturnTag(declaration)?.comment)?.trim(),
      "@returns",
      declaration,
    ),
    example: {
      formula: required(parts?.[1], "an example of the form =TWIRL... shows ...", declaration),
      shows: required(parts?.[2], "an example of the form =TWIRL... shows ...", declaration),
    },
    errors: required(tagText(declaration, "throws"), "@throws", declaration),
    source: required(tagText(declaration, "source"), "@source", declaration),
  };
}

/** What the host adds by itself is no argument. */
function isArgument(parameter: ts.ParameterDeclaration): boolean {
  return parameter.type?.getText() !== "CustomFunctions.Invocation";
}

/** A word that the language keeps for itself is written with an underscore in the code: `catch_`. */
export function plainName(name: string): string {
  return name.replace(/_$/, "");
}

function tagText(declaration: ts.FunctionDeclaration, name: string): string | undefined {
  const tag = ts.getJSDocTags(declaration).find((candidate) => candidate.tagName.text === name);
  // The language's own @throws tag takes what looks like a type apart; its plain text is what the help shows.
  return (
    tag &&
    tag
      .getText()
      .replace(/^@\w+\s*/, "")
      .replace(/[^\S\n]*\n[^\S\n]*\*[^\S\n]*/g, " ")
      .replace(/[\s*]+$/, "")
  );
}

function required(text: string | undefined, what: string, declaration: ts.FunctionDeclaration): string {
  if (text === undefined || text === "") throw new Error(`${declaration.name?.text} in its doc comment lacks ${what}`);
  return text;
}
