/**
 * Whether a formula is one at all. The grid keeps whatever is typed after `=`; a file with half a formula in it would be
 * called damaged by the spreadsheet program, so such a cell is written as text.
 */
import { formulaTokens, type Token } from "./tokens";

const BINARY = new Set(["+", "-", "*", "/", "^", "&", "=", "<", ">", ":", "<=", ">=", "<>"]);

/** @param formula with or without its leading `=` */
export function isFormula(formula: string): boolean {
  const tokens = signsJoined(formulaTokens(formula.replace(/^=/, "")).filter(({ kind }) => kind !== "space"));
  const grammar = new Grammar();
  return tokens.every((token) => grammar.takes(token)) && grammar.isComplete;
}

type Bracket = "call" | "(" | "{";

/** Reads a formula from left to right; each question answers whether the token may stand where it does. */
class Grammar {
  private readonly open: Bracket[] = [];
  /** Whether a value is to come: at the start, after an operator or an opening bracket. */
  private wantsValue = true;
  private before: Token | undefined;

  get isComplete(): boolean {
    return this.open.length === 0 && !this.wantsValue;
  }

  takes(token: Token): boolean {
    const fits = this.fits(token);
    this.before = token;
    return fits;
  }

  private fits({ kind, text }: Token): boolean {
    switch (kind) {
      case "text":
        return /^"(?:[^"]|"")*"$/.test(text) && this.value();
      case "number":
      case "error":
      case "word":
        return this.value();
      case "call":
      case "sheet":
        return this.wantsValue;
      case "columns":
        return this.columns(text);
      case "sign":
        return this.sign(text);
      case "space":
        return true;
      default:
        return unknownKind(kind);
    }
  }

  private value(): boolean {
    const wanted = this.wantsValue;
    this.wantsValue = false;
    return wanted;
  }

  /** After a table's name, or alone inside the table. */
  private columns(text: string): boolean {
    const follows = this.before?.kind === "word";
    return (this.value() || follows) && text.endsWith("]");
  }

  private sign(text: string): boolean {
    switch (text) {
      case "(":
        // A name or a value may be called as well: LAMBDA(…)(…).
        this.open.push(this.before?.kind === "call" || !this.wantsValue ? "call" : "(");
        this.wantsValue = true;
        return true;
      case "{":
        this.open.push("{");
        return this.wantsValue;
      case ")":
      case "}":
        return this.closes(text);
      case ",":
      case ";":
        return this.separates(text);
      case "%":
      case "#":
        return !this.wantsValue;
      default:
        return this.operator(text);
    }
  }

  private closes(bracket: ")" | "}"): boolean {
    const opened = this.open.pop();
    if (opened === undefined || (bracket === "}") !== (opened === "{")) return false;
    const isEmptyArgument = opened === "call" && (this.before?.text === "(" || this.before?.text === ",");
    const fits = !this.wantsValue || isEmptyArgument;
    this.wantsValue = false;
    return fits;
  }

  private separates(sign: "," | ";"): boolean {
    const inside = this.open.at(-1);
    if (inside === undefined || (sign === ";" && inside !== "{")) return false;
    const fits = !this.wantsValue || inside === "call";
    this.wantsValue = true;
    return fits;
  }

  private operator(text: string): boolean {
    if (this.wantsValue) return ["+", "-", "@"].includes(text);
    this.wantsValue = true;
    return BINARY.has(text);
  }
}

/** `<` and `>` before `=` or `>` are one operator. */
function signsJoined(tokens: readonly Token[]): Token[] {
  const result: Token[] = [];
  for (const token of tokens) {
    const last = result.at(-1);
    const joined = `${last?.text ?? ""}${token.text}`;
    if (last?.kind === "sign" && token.kind === "sign" && ["<=", ">=", "<>"].includes(joined)) {
      result[result.length - 1] = { kind: "sign", text: joined };
    } else result.push(token);
  }
  return result;
}

function unknownKind(found: never): never {
  throw new TypeError(`No formula has ${JSON.stringify(found)}.`);
}
