/**
 * A formula as a small tree, printed once for the sheet (`TWIRL.READINESS(…)`) and once for the file
 * (`_xldudf_TWIRL_READINESS(…)`, `_xlfn.` before the functions that came after the file format).
 */

export type Formula =
  | { readonly kind: "number"; readonly value: number }
  | { readonly kind: "text"; readonly text: string }
  | { readonly kind: "left-out" }
  /** A cell or block of cells, absolute. Without a sheet it is on the formula's own sheet. */
  | { readonly kind: "cells"; readonly sheet?: string; readonly from: Corner; readonly to?: Corner }
  /** `Table[Column]`: the column's cells without its heading; it grows with the table. */
  | { readonly kind: "column"; readonly table: string; readonly column: string }
  /** `Table[[#This Row],[Column]]` */
  | { readonly kind: "this-row"; readonly table: string; readonly column: string }
  | { readonly kind: "call"; readonly name: string; readonly args: readonly Formula[] }
  /** A call of one of our own functions, by its id. */
  | { readonly kind: "twirl"; readonly id: string; readonly args: readonly Formula[] }
  | { readonly kind: "operation"; readonly operator: Operator; readonly left: Formula; readonly right: Formula };

export type Operator = "+" | "-" | "*" | "/" | "&" | "=" | "<>" | "<" | "<=" | ">" | ">=";

export interface Corner {
  readonly row: number;
  readonly column: number;
}

/** Who reads the printed formula: a person and the host's formula bar, or the workbook file. */
export type Dialect = "sheet" | "file";
