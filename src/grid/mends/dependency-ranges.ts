/**
 * The engine keeps an index of the ranges that each formula reads. At every calculation it enters all of them again beside
 * those that are there: a session of typing would hold on to some 65 kB more for each mark of the sample season, and every edit
 * would look through all of it. Here each formula's ranges stand in the index once.
 */
import type { Injector, IUnitRange, RTree } from "@univerjs/core";
import { IDependencyManagerService } from "@univerjs/engine-formula";
import { hasMethods, type Mend } from "./mend";

interface FormulaRanges {
  readonly treeId: number;
  readonly rangeList: readonly IUnitRange[];
}

interface Dependencies {
  readonly _dependencyRTreeCache: RTree;
  /** Something for each formula whose ranges stand in the index; another one once they were taken out and entered again. */
  readonly _allTreeMap: ReadonlyMap<number, object>;
  addDependencyRTreeCache(formula: FormulaRanges): void;
}

interface Box {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

interface Entry {
  /** The sheet's part of the index: another one once all that was known of the sheet is gone, single cells included. */
  readonly part: object;
  readonly box: Box;
}

/**
 * Has those of a formula's ranges entered that are not there as they are now. (Where rows or tables change, the engine itself lets go
 * of all that it knows of the sheet, so former ranges do not stay.)
 */
export function keepEachRangeOnce(injector: Injector): void {
  const dependencies = injector.get(IDependencyManagerService) as unknown as Dependencies;
  const index = dependencies._dependencyRTreeCache;
  const entered = new WeakMap<object, readonly Entry[]>();
  const enter = dependencies.addDependencyRTreeCache.bind(dependencies);
  // Each asked once: those of a rule's formula are worked out for each of its cells.
  dependencies.addDependencyRTreeCache = ({ treeId, rangeList }) => {
    const entries = rangeList.map((range): Entry => ({
      part: index.getTree(range.unitId, range.sheetId),
      box: boxOf(range),
    }));
    const record = dependencies._allTreeMap.get(treeId);
    const former = record === undefined ? undefined : entered.get(record);
    const missing = rangeList.filter((_, place) => !isSame(former?.[place], entries[place]));
    if (missing.length === 0) return;
    enter({ treeId, rangeList: missing });
    const present = dependencies._allTreeMap.get(treeId);
    if (present !== undefined) entered.set(present, entries);
  };
}

function isSame(former: Entry | undefined, now: Entry | undefined): boolean {
  return former !== undefined && now !== undefined && former.part === now.part && isSameBox(former.box, now.box);
}

function isSameBox(one: Box, other: Box): boolean {
  return one.minX === other.minX && one.minY === other.minY && one.maxX === other.maxX && one.maxY === other.maxY;
}

/** As the index has it: whole rows and columns, which have no numbers for their ends, go on without end. */
function boxOf({ range }: IUnitRange): Box {
  const orElse = (place: number, end: number): number => (Number.isNaN(place) ? end : place);
  return {
    minX: orElse(range.startColumn, 0),
    minY: orElse(range.startRow, 0),
    maxX: orElse(range.endColumn, Infinity),
    maxY: orElse(range.endRow, Infinity),
  };
}

/** For the list of mends. */
export const dependencyRanges: Mend<"injector"> = {
  name: "dependency-ranges",
  why: "Every calculation would enter all ranges that formulas read once more, and hold on to them.",
  until: "The grid enters each range once.",
  isNeeded: (injector) => {
    const dependencies = injector.get(IDependencyManagerService) as unknown as Partial<Dependencies>;
    return (
      hasMethods(dependencies, "addDependencyRTreeCache") &&
      hasMethods(dependencies._dependencyRTreeCache, "getTree") &&
      hasMethods(dependencies._allTreeMap, "get")
    );
  },
  apply: ({ injector }) => keepEachRangeOnce(injector),
};
