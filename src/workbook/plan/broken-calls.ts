/**
 * Calls of our functions that a workbook holds as mere text: written while the functions were not there, or by a program
 * that does not know them. Writing the formula again binds them.
 */

import { CELL_NAMESPACE, FILE_NAMESPACE, NAMESPACE } from "./namespace";

/** Between quotes the letters of a call are words. */
const TEXT_OR_CALL = new RegExp(`"(?:[^"]|"")*"|${FILE_NAMESPACE}([A-Z]+)`, "g");
const BY_NAME = new RegExp(`(?<![\\p{L}\\p{N}_.])${NAMESPACE}\\.[A-Z]+\\s*\\(`, "iu");

/**
 * The formula to write again, or null where nothing is wrong.
 * @param formula as the cell holds it, with its `=`
 * @param value what the cell shows
 */
export function repairedFormula(formula: string, value: unknown): string | null {
  if (!formula.startsWith("=")) return null;
  const withoutTexts = formula.replace(/"(?:[^"]|"")*"/g, '""');
  if (withoutTexts.includes(FILE_NAMESPACE)) {
    return formula.replace(TEXT_OR_CALL, (part, id?: string) => (id === undefined ? part : `${CELL_NAMESPACE}${id}`));
  }
  return value === "#NAME?" && BY_NAME.test(withoutTexts) ? formula : null;
}
