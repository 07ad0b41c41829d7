/**
 * Which of the host's requirement sets the code needs, read with the compiler's own checker: every member of the host's
 * library that the code names, against the note on the member's declaration (`[Api set: ExcelApi 1.9]`), or on what
 * it stands in where it has none of its own. Names in `load("…")` count as well.
 */
import path from "node:path";
import ts from "typescript";

export interface OfficeCall {
  /** `Worksheet.tables`. */
  readonly member: string;
  /** The set that the note names, such as `ExcelApi`; undefined where no note names one. */
  readonly set: string | undefined;
  /** `1.9`; undefined for a set without versions. */
  readonly version: string | undefined;
  /** It runs only where `isSetSupported` has answered yes for that set and version. */
  readonly isGuarded: boolean;
  /** `src/taskpane/host/office-host.ts:12`. */
  readonly where: string;
}

const root = path.resolve(__dirname, "..");
const LIBRARY = /@types\/office-js\/index\.d\.ts$/;
const OPTIONS: ts.CompilerOptions = {
  target: ts.ScriptTarget.ES2022,
  module: ts.ModuleKind.ESNext,
  moduleResolution: ts.ModuleResolutionKind.Bundler,
  lib: ["lib.es2022.d.ts", "lib.dom.d.ts", "lib.dom.iterable.d.ts"],
  types: ["office-js", "custom-functions-runtime"],
  strict: true,
  resolveJsonModule: true,
  noEmit: true,
};

/** The vendor's declarations are 190,000 lines: read once for all programs. */
const libraries = new Map<string, ts.SourceFile>();

/**
 * @param entries files below the project's folder; what they import is read with them
 * @param made texts in the place of files, by name: for the check of the check
 */
export function officeCalls(entries: readonly string[], made: Readonly<Record<string, string>> = {}): OfficeCall[] {
  const host = ts.createCompilerHost(OPTIONS);
  const texts = new Map(Object.entries(made).map(([name, text]) => [path.join(root, name), text]));
  const { readFile, fileExists, getSourceFile } = host;
  host.readFile = (file) => texts.get(file) ?? readFile(file);
  host.fileExists = (file) => texts.has(file) || fileExists(file);
  host.getSourceFile = (file, language, ...rest) => {
    const text = texts.get(file);
    if (text !== undefined) return ts.createSourceFile(file, text, language, true);
    const known = libraries.get(file) ?? getSourceFile(file, language, ...rest);
    if (known && file.includes("node_modules")) libraries.set(file, known);
    return known;
  };
  host.getCurrentDirectory = () => root;
  const program = ts.createProgram(
    entries.map((entry) => path.join(root, entry)),
    OPTIONS,
    host,
  );
  const checker = program.getTypeChecker();
  const ours = program.getSourceFiles().filter(({ fileName }) => !fileName.includes("node_modules"));
  return ours.flatMap((file) => callsIn(file, checker));
}

function callsIn(file: ts.SourceFile, checker: ts.TypeChecker): OfficeCall[] {
  const calls: OfficeCall[] = [];
  const add = (declaration: ts.Declaration, at: ts.Node): void => {
    if (!LIBRARY.test(declaration.getSourceFile().fileName)) return;
    const { set, version } = noteOf(declaration);
    calls.push({
      member: nameOf(declaration),
      set,
      version,
      isGuarded: set !== undefined && isGuarded(at, set, version),
      where: `${path.relative(root, file.fileName)}:${file.getLineAndCharacterOfPosition(at.getStart()).line + 1}`,
    });
  };
  const addSymbol = (symbol: ts.Symbol | undefined, at: ts.Node): void => {
    for (const declaration of symbol?.declarations ?? []) add(declaration, at);
  };
  const visit = (node: ts.Node): void => {
    // A name in a type is nothing that runs.
    if (ts.isTypeNode(node)) return;
    if (ts.isPropertyAccessExpression(node)) {
      const called = ts.isCallExpression(node.parent) && node.parent.expression === node;
      const signature = called ? checker.getResolvedSignature(node.parent as ts.CallExpression) : undefined;
      // Which of several ways to call it: each has its own note.
      if (signature?.declaration) add(signature.declaration, node);
      else addSymbol(checker.getSymbolAtLocation(node.name), node);
      if (called && node.name.text === "load") addLoaded(node.parent as ts.CallExpression, node);
    } else if (ts.isPropertyAssignment(node) || ts.isShorthandPropertyAssignment(node)) {
      addSymbol(checker.getContextualType(node.parent)?.getProperty(node.name.getText()), node);
    } else if (ts.isBindingElement(node) && ts.isObjectBindingPattern(node.parent)) {
      const name = (node.propertyName ?? node.name).getText();
      addSymbol(checker.getTypeAtLocation(node.parent).getProperty(name), node);
    }
    ts.forEachChild(node, visit);
  };
  const addLoaded = (call: ts.CallExpression, access: ts.PropertyAccessExpression): void => {
    const type = checker.getTypeAtLocation(access.expression);
    if (
      !(type.symbol as ts.Symbol | undefined)?.declarations?.some((one) => LIBRARY.test(one.getSourceFile().fileName))
    )
      return;
    const names = call.arguments.flatMap((argument) => textsIn(argument, checker));
    if (names.length === 0) throw new Error(`${file.fileName}: what ${call.getText()} loads cannot be read.`);
    for (const name of names.flatMap((list) => list.split(",")).map((one) => one.trim())) {
      let from: ts.Type = type;
      for (const step of name.split("/")) {
        const symbol = from.getProperty(step);
        if (!symbol) throw new Error(`${file.fileName}: ${call.getText()} loads ${name}, which is not there.`);
        addSymbol(symbol, access);
        const found = checker.getTypeOfSymbol(symbol);
        from = checker.getIndexTypeOfType(found, ts.IndexKind.Number) ?? found;
      }
    }
  };
  visit(file);
  return calls;
}

/** The texts that stand in an expression, and in the constants that it names. */
function textsIn(node: ts.Node, checker: ts.TypeChecker): string[] {
  if (ts.isStringLiteralLike(node)) return [node.text];
  if (ts.isIdentifier(node)) {
    const declaration = checker.getSymbolAtLocation(node)?.valueDeclaration;
    const start = declaration && ts.isVariableDeclaration(declaration) ? declaration.initializer : undefined;
    return start ? textsIn(start, checker) : [];
  }
  const texts: string[] = [];
  ts.forEachChild(node, (inner) => void texts.push(...textsIn(inner, checker)));
  return texts;
}

interface Note {
  readonly set: string | undefined;
  readonly version: string | undefined;
}

function noteOf(declaration: ts.Node): Note {
  for (let node: ts.Node | undefined = declaration; node && !ts.isSourceFile(node); node = node.parent) {
    const comments = ts
      .getJSDocCommentsAndTags(node)
      .filter(ts.isJSDoc)
      .map((comment) => comment.getText());
    for (const comment of comments.reverse()) {
      const excel = /\[Api set: *(\w*) +([\d.]+)/.exec(comment);
      if (excel) return { set: excel[1] === "" ? "ExcelApi" : excel[1], version: excel[2] };
      const common = /\*\*Requirement set\*\*:.*\| ?(\w[\w ]*?)(?: ([\d.]+))? *\}/.exec(comment);
      if (common) return { set: common[1], version: common[2] };
    }
  }
  return { set: undefined, version: undefined };
}

function nameOf(declaration: ts.Declaration): string {
  const own = ts.getNameOfDeclaration(declaration)?.getText() ?? "";
  const parent = declaration.parent as ts.Node | undefined;
  const of =
    parent && (ts.isClassDeclaration(parent) || ts.isInterfaceDeclaration(parent) || ts.isEnumDeclaration(parent))
      ? `${parent.name?.text ?? ""}.`
      : "";
  return `${of}${own}`;
}

/** Whether the node runs only where a condition around it asks for the set in that version or a later one. */
function isGuarded(node: ts.Node, set: string, version: string | undefined): boolean {
  for (let inner = node; !ts.isSourceFile(inner); inner = inner.parent) {
    const outer = inner.parent;
    const condition =
      ts.isIfStatement(outer) && outer.thenStatement === inner
        ? outer.expression
        : ts.isConditionalExpression(outer) && outer.whenTrue === inner
          ? outer.condition
          : ts.isBinaryExpression(outer) &&
              outer.operatorToken.kind === ts.SyntaxKind.AmpersandAmpersandToken &&
              outer.right === inner
            ? outer.left
            : undefined;
    if (condition && asksFor(condition, set, version ?? "1.1")) return true;
  }
  return false;
}

/** A condition, or several joined by `&&`, one of which is the question. */
function asksFor(condition: ts.Expression, set: string, version: string): boolean {
  if (ts.isParenthesizedExpression(condition)) return asksFor(condition.expression, set, version);
  if (ts.isBinaryExpression(condition) && condition.operatorToken.kind === ts.SyntaxKind.AmpersandAmpersandToken)
    return asksFor(condition.left, set, version) || asksFor(condition.right, set, version);
  if (!ts.isCallExpression(condition) || !/\bisSetSupported$/.test(condition.expression.getText())) return false;
  const [asked, from] = condition.arguments.map((argument) => (ts.isStringLiteralLike(argument) ? argument.text : ""));
  return asked === set && from !== undefined && isAtLeast(from, version);
}

/** `1.12` is later than `1.9`. */
export function isAtLeast(version: string, wanted: string): boolean {
  const [one, other] = [version, wanted].map((text) => text.split(".").map(Number));
  const [major = 0, minor = 0] = one ?? [];
  const [wantedMajor = 0, wantedMinor = 0] = other ?? [];
  return major > wantedMajor || (major === wantedMajor && minor >= wantedMinor);
}
