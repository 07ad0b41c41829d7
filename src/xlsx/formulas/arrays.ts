/**
 * Whether a formula that was typed in the grid must be marked in the file as one that works with blocks of cells. The
 * grid does so always; the spreadsheet program takes an unmarked formula for one of the old kind, and would read one cell
 * of a block where it stands between operators.
 */
import { CELL_NAMESPACE } from "../../workbook/plan/namespace";
import { formulaTokens, type Token } from "./tokens";

/** Functions that take blocks as they are and answer one value, whatever the kind of formula. */
const TAKES_BLOCKS = new Set(
  (
    "SUM AVERAGE AVERAGEA COUNT COUNTA COUNTBLANK MIN MAX MINA MAXA MEDIAN MODE PRODUCT STDEV STDEVP STDEV.S STDEV.P VAR " +
    "VARP VAR.S VAR.P LARGE SMALL RANK RANK.EQ RANK.AVG PERCENTILE PERCENTILE.INC PERCENTILE.EXC QUARTILE QUARTILE.INC " +
    "QUARTILE.EXC COUNTIF COUNTIFS SUMIF SUMIFS AVERAGEIF AVERAGEIFS MAXIFS MINIFS VLOOKUP HLOOKUP MATCH ROWS COLUMNS " +
    "SUBTOTAL CONCAT TEXTJOIN CORREL SLOPE INTERCEPT FORECAST FORECAST.LINEAR RSQ SUMSQ GEOMEAN HARMEAN AND OR XOR"
  ).split(" "),
);

/** @param formula as the grid holds it */
export function worksWithBlocks(formula: string): boolean {
  const tokens = formulaTokens(formula.replace(/^=/, "")).filter(({ kind }) => kind !== "space");
  const calls: (string | undefined)[] = [];
  for (const [index, token] of tokens.entries()) {
    const before = tokens[index - 1];
    if (token.kind === "call" && !TAKES_BLOCKS.has(token.text.toUpperCase()) && answersBlocks(token.text)) return true;
    if (isSign(token, "{")) return true;
    if (isSign(token, "#")) return true;
    if (isSign(token, "(")) calls.push(before?.kind === "call" ? before.text.toUpperCase() : undefined);
    if (isSign(token, ")")) calls.pop();
    if (!isBlock(tokens, index)) continue;
    const within = calls.at(-1);
    if (within === undefined || !TAKES_BLOCKS.has(within) || !isWholeArgument(tokens, index)) return true;
  }
  return false;
}

/** Ours, and those that came with spilling or after it. */
const PLAIN_CALLS = new Set(
  (
    "ABS ROUND ROUNDUP ROUNDDOWN INT MOD SQRT POWER EXP LN LOG LOG10 PI SIN COS TAN IF IFERROR IFNA IFS NOT TRUE FALSE DATE " +
    "YEAR MONTH DAY TODAY NOW TIME HOUR MINUTE SECOND WEEKDAY WEEKNUM DAYS EDATE EOMONTH TEXT VALUE LEFT RIGHT MID LEN " +
    "TRIM UPPER LOWER PROPER FIND SEARCH SUBSTITUTE REPLACE CONCATENATE REPT EXACT CHAR CODE ISNUMBER ISTEXT ISBLANK " +
    "ISERROR ISNA NA SIGN CEILING FLOOR CHOOSE DATEVALUE TIMEVALUE NETWORKDAYS WORKDAY RAND RANDBETWEEN"
  ).split(" "),
);

function answersBlocks(name: string): boolean {
  const upper = name.toUpperCase();
  return upper.startsWith(CELL_NAMESPACE) || !PLAIN_CALLS.has(upper);
}

/** A token that is, or ends, a block of cells: `A1:B9`, a table's column, a name that may stand for one. */
function isBlock(tokens: readonly Token[], index: number): boolean {
  const token = tokens[index];
  if (token === undefined) return false;
  if (token.kind === "columns") return !/#this row/i.test(token.text);
  if (token.kind !== "word" && token.kind !== "number") return false;
  if (tokens[index + 1]?.kind === "columns") return false;
  if (isSign(tokens[index - 1], ":")) return true;
  if (isSign(tokens[index + 1], ":")) return false;
  // Whatever is neither a cell nor a truth value is a name.
  return token.kind === "word" && !/^\$?[A-Z]{1,3}\$?\d+$/i.test(token.text) && !/^(TRUE|FALSE)$/i.test(token.text);
}

/** Whether the block stands alone between two commas or brackets. */
function isWholeArgument(tokens: readonly Token[], end: number): boolean {
  const after = tokens[end + 1];
  if (after !== undefined && !isSign(after, ",") && !isSign(after, ")")) return false;
  let start = end;
  while (start > 0 && !isSign(tokens[start - 1], ",") && !isSign(tokens[start - 1], "(")) start -= 1;
  return tokens
    .slice(start, end + 1)
    .every((token) => token.kind !== "sign" || token.text === ":" || token.text === "$");
}

function isSign(token: Token | undefined, text: string): boolean {
  return token?.kind === "sign" && token.text === text;
}
