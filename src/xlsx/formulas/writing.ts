/** Formulas from the grid's writing into the file's. */
import { CELL_NAMESPACE, FILE_NAMESPACE } from "../../workbook/plan/namespace";
import { formulaTokens, joinTokens, type Token } from "./tokens";
import { filePrefix } from "./future-functions";

/** @param formula as the grid holds it, with its leading `=` */
export function writeFormula(formula: string): string {
  const tokens = formulaTokens(formula.replace(/^=/, ""));
  return joinTokens(withOwnVariables(withAnchors(tokens.map(fileToken))));
}

function fileToken(token: Token): Token {
  if (token.kind !== "call") return token;
  const upper = token.text.toUpperCase();
  if (upper.startsWith(CELL_NAMESPACE))
    return { kind: "call", text: `${FILE_NAMESPACE}${upper.slice(CELL_NAMESPACE.length)}` };
  return { kind: "call", text: `${filePrefix(token.text)}${token.text}` };
}

/** `A1#`, all that A1 spills, is a call in the file. */
function withAnchors(tokens: readonly Token[]): Token[] {
  const result: Token[] = [];
  for (const token of tokens) {
    const last = result.at(-1);
    if (token.kind !== "sign" || token.text !== "#" || last?.kind !== "word") {
      result.push(token);
      continue;
    }
    result.pop();
    const sheet = result.at(-1)?.kind === "sheet" ? result.pop() : undefined;
    result.push({ kind: "call", text: "_xlfn.ANCHORARRAY" }, { kind: "sign", text: "(" });
    if (sheet) result.push(sheet);
    result.push(last, { kind: "sign", text: ")" });
  }
  return result;
}

interface OpenCall {
  readonly name: string;
  readonly from: number;
  argument: number;
}

/** The names that LET and LAMBDA give carry a prefix in the file, wherever they are used inside the call. */
function withOwnVariables(tokens: readonly Token[]): Token[] {
  const variables = new Set<string>();
  const open: OpenCall[] = [];
  tokens.forEach((token, index) => {
    if (token.kind === "sign" && (token.text === "(" || token.text === "{")) {
      open.push({
        name: tokens[index - 1]?.kind === "call" ? (tokens[index - 1]?.text ?? "") : "",
        from: index,
        argument: 0,
      });
    } else if (token.kind === "sign" && (token.text === ")" || token.text === "}")) {
      open.pop();
    } else if (token.kind === "sign" && token.text === ",") {
      const call = open.at(-1);
      if (call) call.argument += 1;
    } else if (token.kind === "word") {
      const call = open.at(-1);
      if (call !== undefined && declares(call, tokens, index)) variables.add(token.text.toLowerCase());
    }
  });
  if (variables.size === 0) return [...tokens];
  return tokens.map((token) =>
    (token.kind === "word" || token.kind === "call") && variables.has(token.text.toLowerCase())
      ? { kind: token.kind, text: `_xlpm.${token.text}` }
      : token,
  );
}

/** A name alone before a comma: at every other place of LET, at all but the last of LAMBDA. */
function declares({ name, argument }: OpenCall, tokens: readonly Token[], index: number): boolean {
  const isAlone = sign(tokens, index, -1, "(,") && sign(tokens, index, 1, ",");
  if (!isAlone) return false;
  return name === "_xlfn.LET" ? argument % 2 === 0 : name === "_xlfn.LAMBDA";
}

/** Whether the next token that is no space is one of these signs. */
function sign(tokens: readonly Token[], index: number, step: 1 | -1, wanted: string): boolean {
  let at = index + step;
  while (tokens[at]?.kind === "space") at += step;
  const token = tokens[at];
  return token?.kind === "sign" && wanted.includes(token.text);
}
