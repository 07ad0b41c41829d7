/** Every regular expression of the sources, with the place where it stands. */
import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import ts from "typescript";

const SOURCE = path.resolve(__dirname, "../../src");

export interface Found {
  /** `core/marks.ts:12 /…/` */
  readonly name: string;
  readonly pattern: RegExp;
}

export function regularExpressions(): readonly Found[] {
  return (readdirSync(SOURCE, { recursive: true }) as string[])
    .filter((file) => /\.tsx?$/.test(file))
    .sort()
    .flatMap((file) => inFile(file, readFileSync(path.join(SOURCE, file), "utf8")));
}

/** Literals, and those that are made of a text that stands there. */
export function inFile(file: string, code: string): Found[] {
  const source = ts.createSourceFile(file, code, ts.ScriptTarget.Latest, true);
  const found: Found[] = [];
  const add = (node: ts.Node, pattern: RegExp): void => {
    const line = source.getLineAndCharacterOfPosition(node.getStart()).line + 1;
    found.push({ name: `${file}:${String(line)} ${String(pattern)}`, pattern });
  };
  const visit = (node: ts.Node): void => {
    if (ts.isRegularExpressionLiteral(node)) {
      const end = node.text.lastIndexOf("/");
      add(node, new RegExp(node.text.slice(1, end), node.text.slice(end + 1)));
    } else if (ts.isNewExpression(node) && node.expression.getText() === "RegExp") {
      const [text, flags] = node.arguments ?? [];
      if (text && ts.isStringLiteralLike(text)) {
        add(node, new RegExp(text.text, flags && ts.isStringLiteralLike(flags) ? flags.text : ""));
      } else if (text && ts.isTemplateExpression(text)) {
        // What is put in from elsewhere stands as a word.
        const words =
          text.head.rawText + text.templateSpans.map(({ literal }) => `word${literal.rawText ?? ""}`).join("");
        add(node, new RegExp(words.replaceAll("\\\\", "\\"), flags && ts.isStringLiteralLike(flags) ? flags.text : ""));
      }
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}
