/** What a cell of the grid holds, in one shape for comparing and writing. */
import { CellValueType, type ICellData, type Nullable } from "@univerjs/core";

export type CellValue =
  | { readonly kind: "empty" }
  | { readonly kind: "number"; readonly value: number }
  | { readonly kind: "text"; readonly text: string }
  | { readonly kind: "boolean"; readonly value: boolean }
  | { readonly kind: "error"; readonly name: string };

/** The errors that a file can hold as such. */
export const ERROR_NAMES: ReadonlySet<string> = new Set([
  "#N/A",
  "#VALUE!",
  "#REF!",
  "#DIV/0!",
  "#NAME?",
  "#NUM!",
  "#NULL!",
  "#SPILL!",
  "#CALC!",
]);

const EMPTY: CellValue = { kind: "empty" };

export function cellValue(cell: Nullable<ICellData>): CellValue {
  const value = cell?.v;
  if (value === undefined || value === null || value === "") return EMPTY;
  if (typeof value === "boolean") return { kind: "boolean", value };
  if (cell?.t === CellValueType.BOOLEAN)
    return { kind: "boolean", value: value === 1 || value === "1" || value === "TRUE" };
  const isText = cell?.t === CellValueType.STRING || cell?.t === CellValueType.FORCE_STRING;
  if (typeof value === "number") return isText ? { kind: "text", text: String(value) } : { kind: "number", value };
  if (ERROR_NAMES.has(value)) return { kind: "error", name: value };
  const number = Number(value);
  // The grid may keep a number as it was typed.
  if (cell?.t === CellValueType.NUMBER && Number.isFinite(number)) return { kind: "number", value: number };
  return { kind: "text", text: value };
}

/** What a formula answers: an empty answer is a text without letters where it says so, else 0. */
export function answerOf(cell: Nullable<ICellData>): CellValue {
  if (cell?.v === "") return { kind: "text", text: "" };
  return cellValue(cell);
}

/** Two sums of the same cells may differ in the last digit, by the order in which a program adds. */
const RELATIVE_DIFFERENCE = 1e-12;

export function sameValue(one: CellValue, other: CellValue): boolean {
  switch (one.kind) {
    case "empty":
      return other.kind === "empty" || (other.kind === "text" && other.text === "");
    case "number":
      return other.kind === "number" && sameNumber(one.value, other.value);
    case "text":
      return other.kind === "text" ? one.text === other.text : one.text === "" && other.kind === "empty";
    case "boolean":
      return other.kind === "boolean" && one.value === other.value;
    case "error":
      return other.kind === "error" && one.name === other.name;
    default:
      return unknownKind(one);
  }
}

function sameNumber(one: number, other: number): boolean {
  return one === other || Math.abs(one - other) <= RELATIVE_DIFFERENCE * Math.max(Math.abs(one), Math.abs(other));
}

function unknownKind(found: never): never {
  throw new TypeError(`No cell holds ${JSON.stringify(found)}.`);
}
