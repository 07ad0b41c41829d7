/** What a file exports is used by another: an export that only its own file uses says that somebody relies on it. */
import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import path from "node:path";
import ts from "typescript";

const ROOT = path.resolve(__dirname, "..");

/** Stands in for a package of the grid's, which imports its names (see webpack.config.js). */
const USED_FROM_OUTSIDE = ["src/page/adopted-styles.ts"];

interface Exported {
  readonly file: string;
  readonly name: string;
}

interface Read {
  readonly exported: readonly Exported[];
  /** The file and the name, or `*` for all of it. */
  readonly used: readonly (readonly [file: string, name: string])[];
}

function resolved(from: string, specifier: string): string | undefined {
  if (!specifier.startsWith(".")) return undefined;
  const base = path.resolve(path.dirname(from), specifier);
  return [`${base}.ts`, path.join(base, "index.ts"), base].find((one) => existsSync(one) && statSync(one).isFile());
}

/** `import("…")`, `require("…")`, `jest.requireActual("…")` and the like: all of a file. */
function loads(node: ts.Node): string | undefined {
  if (ts.isImportTypeNode(node) && ts.isLiteralTypeNode(node.argument) && ts.isStringLiteral(node.argument.literal)) {
    return node.argument.literal.text;
  }
  if (!ts.isCallExpression(node)) return undefined;
  const [first] = node.arguments;
  const isLoading =
    node.expression.kind === ts.SyntaxKind.ImportKeyword || /^(require|jest\.\w+)$/.test(node.expression.getText());
  return isLoading && first && ts.isStringLiteralLike(first) ? first.text : undefined;
}

function importedNames(clause: ts.ImportClause | undefined): readonly string[] {
  const bindings = clause?.namedBindings;
  return [
    ...(clause?.name ? ["default"] : []),
    ...(bindings && ts.isNamespaceImport(bindings) ? ["*"] : []),
    ...(bindings && ts.isNamedImports(bindings)
      ? bindings.elements.map(({ name, propertyName }) => (propertyName ?? name).text)
      : []),
  ];
}

function declaredNames(node: ts.Node): readonly string[] {
  if (!ts.canHaveModifiers(node)) return [];
  if (ts.getModifiers(node)?.some(({ kind }) => kind === ts.SyntaxKind.ExportKeyword) !== true) return [];
  if (ts.isVariableStatement(node)) {
    return node.declarationList.declarations.flatMap(({ name }) => (ts.isIdentifier(name) ? [name.text] : []));
  }
  const { name } = node as ts.Node & { readonly name?: ts.Node };
  return name && ts.isIdentifier(name) ? [name.text] : [];
}

function readFile(file: string): Read {
  const source = ts.createSourceFile(file, readFileSync(file, "utf8"), ts.ScriptTarget.Latest, true);
  const exported: Exported[] = [];
  const used: [string, string][] = [];
  const use = (specifier: string, names: readonly string[]): void => {
    const target = resolved(file, specifier);
    if (target !== undefined) used.push(...names.map((name): [string, string] => [target, name]));
  };
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node) && ts.isStringLiteral(node.moduleSpecifier)) {
      use(node.moduleSpecifier.text, importedNames(node.importClause));
    } else if (ts.isExportDeclaration(node)) {
      const names = node.exportClause && ts.isNamedExports(node.exportClause) ? node.exportClause.elements : undefined;
      exported.push(...(names ?? []).map(({ name }) => ({ file, name: name.text })));
      if (node.moduleSpecifier && ts.isStringLiteral(node.moduleSpecifier)) {
        use(node.moduleSpecifier.text, names?.map(({ name, propertyName }) => (propertyName ?? name).text) ?? ["*"]);
      }
    }
    const whole = loads(node);
    if (whole !== undefined) use(whole, ["*"]);
    exported.push(...declaredNames(node).map((name) => ({ file, name })));
    ts.forEachChild(node, visit);
  };
  visit(source);
  return { exported, used };
}

test("every export of the sources is used by another file", () => {
  const files = ["src", "tests"].flatMap((folder) =>
    (readdirSync(path.join(ROOT, folder), { recursive: true }) as string[])
      .filter((file) => file.endsWith(".ts"))
      .map((file) => path.join(ROOT, folder, file)),
  );
  const read = files.map(readFile);
  const used = new Set(read.flatMap((one) => one.used.map(([file, name]) => `${file} ${name}`)));
  const inSources = read
    .flatMap(({ exported }) => exported)
    .map(({ file, name }) => ({ file, name, from: path.relative(ROOT, file) }))
    .filter(({ from }) => from.startsWith("src") && !USED_FROM_OUTSIDE.includes(from));
  expect(inSources.length).toBeGreaterThan(500);
  const alone = inSources.filter(({ file, name }) => !used.has(`${file} ${name}`) && !used.has(`${file} *`));
  expect(alone.map(({ from, name }) => `${from} ${name}`)).toEqual([]);
});
