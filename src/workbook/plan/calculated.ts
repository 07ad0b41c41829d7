/**
 * What the formulas of a plan answer, as a formula engine worked it out. The file writer stores these answers beside the
 * formulas, so that a viewer without the cell functions shows them.
 */

export type ErrorName = "#N/A" | "#VALUE!" | "#REF!" | "#DIV/0!" | "#NAME?" | "#NUM!" | "#NULL!" | "#SPILL!" | "#CALC!";

export type CalculatedValue =
  | { readonly kind: "number"; readonly value: number }
  | { readonly kind: "text"; readonly text: string }
  | { readonly kind: "boolean"; readonly value: boolean }
  | { readonly kind: "error"; readonly name: ErrorName };

export interface SpillSize {
  readonly rows: number;
  readonly columns: number;
}

/** One sheet's answers. The keys are addresses such as `B5`. */
export interface CalculatedSheet {
  /** The answer of each formula cell, and of each cell that a formula spills into. */
  readonly values: ReadonlyMap<string, CalculatedValue>;
  /** For each formula that spills, by its own cell: the size of the block it fills, its own cell included. */
  readonly spills: ReadonlyMap<string, SpillSize>;
}

/** The answers by sheet name. */
export type CalculatedWorkbook = ReadonlyMap<string, CalculatedSheet>;
