/** What a workbook needs to be worked out right, on the page or without it: nothing here is drawn. */
import { answeredCells } from "./answered-cells";
import { chainedSpills } from "./chained-spills";
import { computedArrays } from "./computed-arrays";
import { dependencyRanges } from "./dependency-ranges";
import { keptKinds } from "./kept-kinds";
import type { Mend } from "./mend";
import { oneCalculation } from "./one-calculation";
import { ruleRanges } from "./rule-ranges";
import { tableNames } from "./table-names";

/** Of one that is worked out once. */
export const engineMends: readonly Mend<"injector">[] = [
  tableNames,
  dependencyRanges,
  computedArrays,
  keptKinds,
  chainedSpills,
];

/** Of one that is edited. `ruleRanges` rests on `dependencyRanges`. */
export const editingMends: readonly Mend<"injector">[] = [
  tableNames,
  dependencyRanges,
  ruleRanges,
  computedArrays,
  keptKinds,
  chainedSpills,
  answeredCells,
  oneCalculation,
];
