/** Formulas from the file's writing into the grid's. */
import { CELL_NAMESPACE, FILE_NAMESPACE } from "../../workbook/plan/namespace";
import { type Token, formulaTokens, joinTokens } from "./tokens";
import { withoutPrefix } from "./future-functions";
import { gridColumns } from "./structured-references";

export interface FormulaReading {
  /** Ids of our own functions, as functions.json names them. */
  readonly ownFunctions: readonly string[];
  /** Names of all functions that the grid's engine works out, in capitals; undefined where that is not known. */
  readonly knownFunctions?: ReadonlySet<string>;
  /** The workbook's tables by name in small letters. */
  readonly tables: ReadonlyMap<string, TableShape>;
  /** Names, in small letters, that stand for something which the grid does not work out. */
  readonly unknownNames: ReadonlySet<string>;
}

/** What the grid can read of a table. */
export interface TableShape {
  /** Without headings the grid does not know it at all. */
  readonly hasHeadings: boolean;
  /** The grid knows no row of totals: it stands just below the table there. */
  readonly hasTotals: boolean;
}

export interface GridFormula {
  /** With its leading `=`. */
  readonly text: string;
  /** Whether the grid works it out; if not, its last answer is shown. */
  readonly isWorkable: boolean;
}

/** Words that a formula may use like names without being any. */
const SINGLE_CALL = "_XLFN.SINGLE";
const ANCHOR_CALL = "_XLFN.ANCHORARRAY";

/**
 * @param formula as the file holds it, without `=`
 * @param ownTable the name of the table in which the formula stands, if it stands in one
 */
export function readFormula(formula: string, reading: FormulaReading, ownTable?: string): GridFormula {
  const tokens = formulaTokens(formula);
  let isWorkable = true;
  const written = tokens.map((token, index): Token => {
    switch (token.kind) {
      case "call": {
        const upper = token.text.toUpperCase();
        if (upper === SINGLE_CALL || upper === ANCHOR_CALL) isWorkable = false;
        const text = gridCall(token.text, reading.ownFunctions);
        if (reading.knownFunctions?.has(text.toUpperCase()) === false && !isOwnName(text, tokens)) isWorkable = false;
        return { kind: "call", text };
      }
      case "word":
        if (reading.unknownNames.has(token.text.toLowerCase())) isWorkable = false;
        return { kind: "word", text: token.text.replace(/^_xlpm\./i, "") };
      case "columns": {
        const before = tokens[index - 1];
        const named = before?.kind === "word";
        const table = reading.tables.get((named ? before.text : (ownTable ?? "")).toLowerCase());
        if (table === undefined || !isReadable(table, token.text)) isWorkable = false;
        return { kind: "columns", text: gridColumns(token.text, named, ownTable) };
      }
      case "sheet":
        // A number in brackets stands for another workbook, which the page does not have.
        // Two sheets with a colon between them stand for all that lie between, which the grid does not read.
        if (/^'?[^'!]*\[/.test(token.text) || token.text.includes(":")) isWorkable = false;
        return token;
      case "text":
      case "number":
      case "error":
      case "space":
      case "sign":
        return token;
      default:
        return unknownKind(token.kind);
    }
  });
  return { text: `=${joinTokens(written)}`, isWorkable };
}

function isReadable(table: TableShape, columns: string): boolean {
  if (!table.hasHeadings) return false;
  return !(table.hasTotals && /#(totals|all)\b/i.test(columns));
}

/** A name that LET gave to a function of its own. */
function isOwnName(name: string, tokens: readonly Token[]): boolean {
  return tokens.some(({ kind, text }) => kind === "word" && text.replace(/^_xlpm\./i, "") === name);
}

function gridCall(name: string, ownFunctions: readonly string[]): string {
  if (name.toUpperCase().startsWith(FILE_NAMESPACE.toUpperCase())) {
    const rest = name.slice(FILE_NAMESPACE.length).toUpperCase();
    const id = ownFunctions.find((candidate) => candidate.toUpperCase() === rest);
    if (id !== undefined) return `${CELL_NAMESPACE}${id}`;
  }
  return withoutPrefix(name).replace(/^_xlpm\./i, "");
}

function unknownKind(found: never): never {
  throw new TypeError(`No formula has ${JSON.stringify(found)}.`);
}
