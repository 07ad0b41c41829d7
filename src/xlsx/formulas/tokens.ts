/** A formula cut into its words: what is text, what names a sheet, a column of a table, a function or a cell. */

type TokenKind =
  /** Text between quotes. */
  | "text"
  /** A sheet with its `!`, quoted or not, with a workbook's number before it or not. */
  | "sheet"
  /** Square brackets with all that is in them: columns of a table. */
  | "columns"
  /** A function's name; its `(` is the next token. */
  | "call"
  /** Letters, digits, dots and underscores: a cell, a name, a table, TRUE. */
  | "word"
  | "number"
  /** Such as `#REF!`. */
  | "error"
  | "space"
  /** One character: an operator, a comma, a bracket. */
  | "sign";

export interface Token {
  readonly kind: TokenKind;
  readonly text: string;
}

const SPACE = /\s+/y;
const TEXT = /"(?:[^"]|"")*"?/y;
const QUOTED_SHEET = /'(?:[^']|'')*'!/y;
const PLAIN_SHEET = /(?:\[[^\]]*\])?[\p{L}\p{N}_.\\?]+(?::[\p{L}\p{N}_.\\?]+)?!/uy;
const NUMBER = /(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?/y;
const ERROR =
  /#(?:REF!|N\/A|VALUE!|DIV\/0!|NAME\?|NUM!|NULL!|SPILL!|CALC!|GETTING_DATA|FIELD!|BLOCKED!|UNKNOWN!|CONNECT!|BUSY!)/iy;
const WORD = /[$\p{L}_\\][$\p{L}\p{N}_.\\?]*/uy;

function at(pattern: RegExp, formula: string, index: number): string | undefined {
  pattern.lastIndex = index;
  return pattern.exec(formula)?.[0];
}

/** Without the leading `=`. Whatever is given, the tokens put together are the formula again. */
export function formulaTokens(formula: string): Token[] {
  const tokens: Token[] = [];
  for (let index = 0; index < formula.length;) {
    const token = nextToken(formula, index);
    tokens.push(token);
    index += token.text.length;
  }
  return tokens;
}

function nextToken(formula: string, index: number): Token {
  const first = formula[index] ?? "";
  if (/\s/.test(first)) return { kind: "space", text: at(SPACE, formula, index) ?? first };
  if (first === '"') return { kind: "text", text: at(TEXT, formula, index) ?? first };
  if (first === "#") {
    const error = at(ERROR, formula, index);
    if (error !== undefined) return { kind: "error", text: error };
  }
  const sheet = first === "'" ? at(QUOTED_SHEET, formula, index) : at(PLAIN_SHEET, formula, index);
  if (sheet !== undefined) return { kind: "sheet", text: sheet };
  if (first === "[") return { kind: "columns", text: bracketed(formula, index) };
  if (/[\d.]/.test(first)) {
    const number = at(NUMBER, formula, index);
    if (number !== undefined) return { kind: "number", text: number };
  }
  const word = at(WORD, formula, index);
  if (word !== undefined) {
    const kind = formula[index + word.length] === "(" ? "call" : "word";
    return { kind, text: word };
  }
  return { kind: "sign", text: first };
}

/** From an opening square bracket to the one that closes it; `'` takes the next character's meaning away. */
function bracketed(formula: string, start: number): string {
  let depth = 0;
  for (let index = start; index < formula.length; index += 1) {
    const character = formula[index];
    if (character === "'") index += 1;
    else if (character === "[") depth += 1;
    else if (character === "]") {
      depth -= 1;
      if (depth === 0) return formula.slice(start, index + 1);
    }
  }
  return formula.slice(start);
}

export function joinTokens(tokens: readonly Token[]): string {
  return tokens.map(({ text }) => text).join("");
}
