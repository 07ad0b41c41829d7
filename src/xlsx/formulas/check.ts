/**
 * Whether a formula is one at all. The grid keeps whatever is typed after `=`; a file with half a formula in it would be
 * called damaged by the spreadsheet program, so such a cell is written as text.
 */
import { formulaTokens, type Token } from "./tokens";

const BINARY = new Set(["+", "-", "*", "/", "^", "&", "=", "<", ">", ":", "<=", ">=", "<>"]);

/** @param formula with or without its leading `=` */
export function isFormula(formula: string): boolean {
  const tokens = signsJoined(formulaTokens(formula.replace(/^=/, "")).filter(({ kind }) => kind !== "space"));
  const open: ("call" | "(" | "{")[] = [];
  let wantsValue = true;
  let before: Token | undefined;
  for (const token of tokens) {
    const opensCall = before?.kind === "call";
    switch (token.kind) {
      case "text":
        if (!wantsValue || !/^"(?:[^"]|"")*"$/.test(token.text)) return false;
        wantsValue = false;
        break;
      case "number":
      case "error":
      case "word":
        if (!wantsValue) return false;
        wantsValue = false;
        break;
      case "call":
      case "sheet":
        if (!wantsValue) return false;
        break;
      case "columns":
        // After a table's name, or alone inside the table.
        if (!wantsValue && before?.kind !== "word") return false;
        if (!token.text.endsWith("]")) return false;
        wantsValue = false;
        break;
      case "sign":
        if (token.text === "(") {
          // A name or a value may be called as well: LAMBDA(…)(…).
          open.push(opensCall || !wantsValue ? "call" : "(");
          wantsValue = true;
        } else if (token.text === "{") {
          if (!wantsValue) return false;
          open.push("{");
        } else if (token.text === ")" || token.text === "}") {
          const opened = open.pop();
          if (opened === undefined || (token.text === "}") !== (opened === "{")) return false;
          const isEmptyArgument = opened === "call" && (before?.text === "(" || before?.text === ",");
          if (wantsValue && !isEmptyArgument) return false;
          wantsValue = false;
        } else if (token.text === "," || token.text === ";") {
          const inside = open.at(-1);
          if (inside === undefined || (token.text === ";" && inside !== "{")) return false;
          if (wantsValue && inside !== "call") return false;
          wantsValue = true;
        } else if (token.text === "%" || token.text === "#") {
          if (wantsValue) return false;
        } else if (wantsValue && ["+", "-", "@"].includes(token.text)) {
          break;
        } else if (!BINARY.has(token.text) || wantsValue) {
          return false;
        } else {
          wantsValue = true;
        }
        break;
      case "space":
        break;
      default:
        return unknownKind(token.kind);
    }
    before = token;
  }
  return open.length === 0 && !wantsValue;
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
