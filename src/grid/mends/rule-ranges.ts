/**
 * Conditional formats and lists to choose from read cells through formulas of their own. The engine enters what such a
 * formula reads into its index once, and takes it for entered from then on. Yet it empties a sheet's part of the index
 * whenever rows or a table of the sheet change, and every sheet's where that sheet holds no formula (a log that has just
 * gained a row): after that nobody tells a rule that the words it looks at have changed, and a status keeps the colour of
 * the one before it.
 */
import type { Injector } from "@univerjs/core";
import { IDependencyManagerService } from "@univerjs/engine-formula";
import { hasMethods, type Mend } from "./mend";

interface RuleRecords {
  /** Whether what a rule's formula reads is in the index, so that it need not be entered. */
  hasOtherFormulaDataMainData?: (formulaId: string) => boolean;
}

/**
 * Has what rules read offered to the index at every calculation, as the engine does with what cells' formulas read.
 * `keepEachRangeOnce` has only those entered that are missing, and must be in force.
 */
export function enterRulesAgain(injector: Injector): void {
  const records = injector.get(IDependencyManagerService) as unknown as RuleRecords;
  if (records.hasOtherFormulaDataMainData === undefined) return;
  records.hasOtherFormulaDataMainData = () => false;
}

/** For the list of mends. */
export const ruleRanges: Mend<"injector"> = {
  name: "rule-ranges",
  why: "A status would keep the colour of the one before it once a log has gained a row.",
  until: "The grid enters what rules read again whenever it has emptied its index.",
  isNeeded: (injector) => hasMethods(injector.get(IDependencyManagerService), "hasOtherFormulaDataMainData"),
  apply: ({ injector }) => enterRulesAgain(injector),
};
