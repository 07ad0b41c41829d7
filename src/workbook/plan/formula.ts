/**
 * A formula as a small tree, printed once for the sheet (`TWIRL.READINESS(…)`) and once for the file
 * (`_xldudf_TWIRL_READINESS(…)`, `_xlfn.` before the functions that came after the file format).
 */
import { cellName } from "./address";
import { columnLetters } from "../../core/sheet";
import { CELL_NAMESPACE, FILE_NAMESPACE } from "./namespace";

export type Formula =
  | { readonly kind: "number"; readonly value: number }
  | { readonly kind: "text"; readonly text: string }
  /** An argument passed over, as the second one in `F(1,,3)`. */
  | { readonly kind: "left-out" }
  /** A cell or block of cells, absolute. Without a sheet it is on the formula's own sheet. */
  | { readonly kind: "cells"; readonly sheet?: string; readonly from: Corner; readonly to?: Corner }
  /** `Table[Column]`: the column's cells without its heading; it grows with the table. With `to`, all columns up to that. */
  | { readonly kind: "column"; readonly table: string; readonly column: string; readonly to?: string }
  /** `Table[[#All],[Column]]`: the same with its heading. */
  | { readonly kind: "whole-column"; readonly table: string; readonly column: string }
  /** `Table[[#This Row],[Column]]` */
  | { readonly kind: "this-row"; readonly table: string; readonly column: string }
  | { readonly kind: "call"; readonly name: SheetFunction; readonly args: readonly Formula[] }
  /** A call of one of our own functions, by its id. */
  | { readonly kind: "twirl"; readonly id: string; readonly args: readonly Formula[] }
  | { readonly kind: "operation"; readonly operator: Operator; readonly left: Formula; readonly right: Formula };

type Operator = "+" | "-" | "*" | "/" | "&" | "=" | "<>" | "<" | "<=" | ">" | ">=";

interface Corner {
  readonly row: number;
  readonly column: number;
}

/** Who reads the printed formula: a person and the host's formula bar, or the workbook file. */
type Dialect = "sheet" | "file";

/**
 * The spreadsheet's own functions that a plan may call, each with what the file format wants before its name. A function
 * younger than the format without its prefix opens as `#NAME?`, so a name that is not in this list does not compile.
 * Source: the list of future functions in [MS-XLSX].
 */
export const FILE_PREFIXES = {
  ABS: "",
  AND: "",
  AVERAGE: "",
  AVERAGEIFS: "",
  COUNT: "",
  COUNTA: "",
  COUNTIFS: "",
  DATE: "",
  DAY: "",
  EXP: "",
  FILTER: "_xlfn._xlws.",
  IF: "",
  IFERROR: "",
  IFNA: "_xlfn.",
  INDEX: "",
  INT: "",
  ISERROR: "",
  ISLOGICAL: "",
  ISNA: "",
  ISNUMBER: "",
  ISTEXT: "",
  LEN: "",
  LN: "",
  LOOKUP: "",
  LOWER: "",
  MATCH: "",
  MAX: "",
  MAXIFS: "_xlfn.",
  MID: "",
  MIN: "",
  MINIFS: "_xlfn.",
  MMULT: "",
  MONTH: "",
  NOT: "",
  OR: "",
  REPT: "",
  ROUND: "",
  ROW: "",
  SEARCH: "",
  SEQUENCE: "_xlfn.",
  SORTBY: "_xlfn.",
  SQRT: "",
  SUBSTITUTE: "",
  SUM: "",
  SUMIFS: "",
  SUMPRODUCT: "",
  TEXT: "",
  TODAY: "",
  TRIM: "",
  XLOOKUP: "_xlfn.",
} as const;

type SheetFunction = keyof typeof FILE_PREFIXES;

/* ---- builders ---- */

/** A number or a text stands for itself where a formula is wanted. */
export type FormulaInput = Formula | number | string;

function toFormula(input: FormulaInput): Formula {
  if (typeof input === "number") return { kind: "number", value: input };
  if (typeof input === "string") return { kind: "text", text: input };
  return input;
}

/** An argument passed over. */
export const leftOut: Formula = { kind: "left-out" };

/** One cell, absolute; without a sheet, on the formula's own sheet. */
export function cell(row: number, column: number, sheet?: string): Formula {
  const from = { row, column };
  return sheet === undefined ? { kind: "cells", from } : { kind: "cells", sheet, from };
}

/** A block of cells, absolute, both corners included. */
export function cells(from: Corner, to: Corner, sheet?: string): Formula {
  return sheet === undefined ? { kind: "cells", from, to } : { kind: "cells", sheet, from, to };
}

/** `Table[Column]` */
export function column(table: string, heading: string): Formula {
  return { kind: "column", table, column: heading };
}

/** `Table[[#All],[Column]]` */
export function wholeColumn(table: string, heading: string): Formula {
  return { kind: "whole-column", table, column: heading };
}

/** `Table[[First]:[Last]]`: several columns side by side. */
export function columns(table: string, first: string, last: string): Formula {
  return { kind: "column", table, column: first, to: last };
}

/** `Table[[#This Row],[Column]]` */
export function thisRow(table: string, heading: string): Formula {
  return { kind: "this-row", table, column: heading };
}

/** A call of one of the spreadsheet's own functions. */
export function call(name: SheetFunction, ...args: readonly FormulaInput[]): Formula {
  return { kind: "call", name, args: args.map(toFormula) };
}

/** A call of one of our own functions, by its id: `twirl("STREAK", column("Practice", "Marks"))`. */
export function twirl(id: string, ...args: readonly FormulaInput[]): Formula {
  return { kind: "twirl", id, args: args.map(toFormula) };
}

/** Factors multiplied one after the other: conditions that must all hold, or a product. */
export function product(first: FormulaInput, ...others: readonly FormulaInput[]): Formula {
  return others.reduce<Formula>((left, right) => operation(left, "*", right), toFormula(first));
}

export function operation(left: FormulaInput, operator: Operator, right: FormulaInput): Formula {
  return { kind: "operation", operator, left: toFormula(left), right: toFormula(right) };
}

/* ---- reading the tree ---- */

/** A formula's direct parts: the arguments of a call, the two sides of an operation. */
function partsOf(formula: Formula): readonly Formula[] {
  switch (formula.kind) {
    case "call":
    case "twirl":
      return formula.args;
    case "operation":
      return [formula.left, formula.right];
    case "number":
    case "text":
    case "left-out":
    case "cells":
    case "column":
    case "whole-column":
    case "this-row":
      return [];
    default:
      return unknownKind(formula);
  }
}

/** The formula and everything in it. */
export function formulaParts(formula: Formula): readonly Formula[] {
  return [formula, ...partsOf(formula).flatMap(formulaParts)];
}

/** Whether one of our own functions is called anywhere in the formula. */
export function callsTwirl(formula: Formula): boolean {
  return formulaParts(formula).some((part) => part.kind === "twirl");
}

/* ---- printing ---- */

/** Excel's order of operators, tightest last. All of them group from the left. */
const PRECEDENCE: Readonly<Record<Operator, number>> = {
  "=": 1,
  "<>": 1,
  "<": 1,
  "<=": 1,
  ">": 1,
  ">=": 1,
  "&": 2,
  "+": 3,
  "-": 3,
  "*": 4,
  "/": 4,
};

/**
 * The formula as text, without the leading `=`.
 * @param formula the tree
 * @param dialect `sheet` as a person reads it, `file` as an `.xlsx` file stores it
 */
export function printFormula(formula: Formula, dialect: Dialect): string {
  switch (formula.kind) {
    case "number":
      return printNumber(formula.value);
    case "text":
      return `"${formula.text.replaceAll('"', '""')}"`;
    case "left-out":
      return "";
    case "cells":
      return printCells(formula.from, formula.to, formula.sheet);
    case "column": {
      if (formula.to !== undefined && formula.to !== formula.column) {
        return `${formula.table}[[${escapeHeading(formula.column)}]:[${escapeHeading(formula.to)}]]`;
      }
      const heading = escapeHeading(formula.column);
      // A heading with anything but letters, digits and spaces needs a second pair of brackets.
      const plain = /^[\p{L}\p{N} ]+$/u.test(formula.column) && formula.column.trim() === formula.column;
      return `${formula.table}[${plain ? heading : `[${heading}]`}]`;
    }
    case "whole-column":
      return `${formula.table}[[#All],[${escapeHeading(formula.column)}]]`;
    case "this-row":
      return `${formula.table}[[#This Row],[${escapeHeading(formula.column)}]]`;
    case "call": {
      const prefix = dialect === "file" ? FILE_PREFIXES[formula.name] : "";
      return `${prefix}${formula.name}(${printArguments(formula.args, dialect)})`;
    }
    case "twirl": {
      const name = `${dialect === "file" ? FILE_NAMESPACE : CELL_NAMESPACE}${formula.id}`;
      return `${name}(${printArguments(formula.args, dialect)})`;
    }
    case "operation": {
      const strength = PRECEDENCE[formula.operator];
      const left = printSide(formula.left, dialect, (inner) => inner < strength);
      const right = printSide(formula.right, dialect, (inner) => inner <= strength);
      return `${left}${formula.operator}${right}`;
    }
    default:
      return unknownKind(formula);
  }
}

function printSide(side: Formula, dialect: Dialect, needsParentheses: (strength: number) => boolean): string {
  const text = printFormula(side, dialect);
  return side.kind === "operation" && needsParentheses(PRECEDENCE[side.operator]) ? `(${text})` : text;
}

/** Arguments left out at the end are not printed: `F(1,,)` would pass an empty value instead of nothing. */
function printArguments(args: readonly Formula[], dialect: Dialect): string {
  let used = args.length;
  while (used > 0 && args[used - 1]?.kind === "left-out") used -= 1;
  return args
    .slice(0, used)
    .map((argument) => printFormula(argument, dialect))
    .join(",");
}

function printNumber(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`A formula cannot hold the number ${value}.`);
  return String(value).toUpperCase();
}

function printCells(from: Corner, to: Corner | undefined, sheet: string | undefined): string {
  const corner = (at: Corner): string => {
    cellName(at);
    return `$${columnLetters(at.column)}$${at.row}`;
  };
  const block = to === undefined ? corner(from) : `${corner(from)}:${corner(to)}`;
  return sheet === undefined ? block : `${quoteSheetName(sheet)}!${block}`;
}

/** `'Season 2027'`: always quoted, which is right for every name, with quotes inside it doubled. */
export function quoteSheetName(sheet: string): string {
  return `'${sheet.replaceAll("'", "''")}'`;
}

/** Inside the brackets of a structured reference these five characters want a `'` before them. */
function escapeHeading(heading: string): string {
  return heading.replace(/['#[\]@]/g, "'$&");
}

function unknownKind(formula: never): never {
  throw new TypeError(`Unknown kind of formula: ${JSON.stringify(formula)}`);
}
