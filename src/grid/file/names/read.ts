/** Names that stand for cells or formulas, from the file into the grid. */
import { type FormulaReading, readFormula } from "../../../xlsx/formulas/reading";
import type { DefinedName, SheetEntry } from "../../../xlsx/parts/workbook/read";

/** Where the grid keeps a workbook's names, and how it says that a name holds in every sheet. */
export const NAMES_RESOURCE = "SHEET_DEFINED_NAME_PLUGIN";
export const EVERY_SHEET = "AllDefaultWorkbook";

export interface GridName {
  readonly id: string;
  readonly name: string;
  readonly formulaOrRefString: string;
  readonly comment: string;
  readonly localSheetId: string;
  readonly hidden: boolean;
}

export interface ReadNames {
  /** By their ids. */
  readonly names: Readonly<Record<string, GridName>>;
  /** In small letters: names that the grid cannot work out. */
  readonly unknown: ReadonlySet<string>;
}

/** Such as what is printed of a sheet: the program's own names, which no formula of a coach reads. */
function isBuiltIn(name: string): boolean {
  return /^_xl/i.test(name);
}

export function nameId(index: number): string {
  return `name-${index + 1}`;
}

export function readNames(
  defined: readonly DefinedName[],
  sheets: readonly SheetEntry[],
  sheetId: (entry: SheetEntry) => string,
  formulas: FormulaReading,
): ReadNames {
  const names: Record<string, GridName> = {};
  const unknown = new Set<string>();
  for (const [index, { name, formula, sheetIndex, isHidden, comment }] of defined.entries()) {
    if (isBuiltIn(name)) continue;
    const { text, isWorkable } = readFormula(formula, formulas);
    const sheet = sheetIndex === undefined ? undefined : sheets[sheetIndex];
    if (!isWorkable || formula === "" || (sheetIndex !== undefined && sheet?.isWorksheet !== true)) {
      unknown.add(name.toLowerCase());
      continue;
    }
    const id = nameId(index);
    const isReference = /^=(?:'(?:[^']|'')+'|[\p{L}\p{N}_.]+)!\$?[A-Z]*\$?\d*(?::\$?[A-Z]*\$?\d*)?$/u.test(text);
    names[id] = {
      id,
      name,
      formulaOrRefString: isReference ? text.slice(1) : text,
      comment,
      localSheetId: sheet === undefined ? EVERY_SHEET : sheetId(sheet),
      hidden: isHidden,
    };
  }
  return { names, unknown };
}
