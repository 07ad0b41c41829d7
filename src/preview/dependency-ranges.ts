/**
 * The engine keeps an index of the ranges that each formula reads. At every calculation it enters all of them again beside
 * those that are there: a session of typing would hold on to some 65 kB more for each mark of the sample season, and every edit
 * would look through all of it. Here each formula's ranges stand in the index once.
 */
import type { Injector, IUnitRange, RTree } from "@univerjs/core";
import { IDependencyManagerService } from "@univerjs/engine-formula";

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
  readonly id: string | number;
}

interface Entry {
  readonly range: IUnitRange;
  /** The sheet's part of the index: another one once all that was known of the sheet is gone, single cells included. */
  readonly part: ReturnType<RTree["getTree"]>;
  readonly box: Box;
}

/** Has a formula's ranges entered anew only when they have changed, in place of the former ones. */
export function keepEachRangeOnce(injector: Injector): void {
  const dependencies = injector.get(IDependencyManagerService) as unknown as Dependencies;
  const index = dependencies._dependencyRTreeCache;
  const entered = new WeakMap<object, readonly Entry[]>();
  const enter = dependencies.addDependencyRTreeCache.bind(dependencies);
  dependencies.addDependencyRTreeCache = (formula) => {
    const id = formula.treeId;
    const entries = formula.rangeList.map((range): Entry => ({
      range: { ...range, range: { ...range.range } },
      part: index.getTree(range.unitId, range.sheetId),
      box: boxOf(range, id),
    }));
    const record = dependencies._allTreeMap.get(id);
    const former = record === undefined ? undefined : entered.get(record);
    if (former?.length === entries.length && former.every((entry, place) => isSame(entry, entries[place]))) return;
    for (const entry of former ?? []) takeOut(index, entry);
    enter(formula);
    const present = dependencies._allTreeMap.get(id);
    if (present !== undefined) entered.set(present, entries);
  };
}

function isSame(former: Entry, now: Entry | undefined): boolean {
  return now !== undefined && former.part === now.part && isSameBox(former.box, now.box);
}

/** One range of one formula. (What the engine has for this goes through the range cell by cell.) */
function takeOut(index: RTree, { range, part, box }: Entry): void {
  // Single cells stand beside the tree.
  if (box.minX === box.maxX && box.minY === box.maxY) index.remove({ ...range, id: box.id });
  else part.remove(box, isSameBox);
}

function isSameBox(one: Box, other: Box): boolean {
  return (
    one.id === other.id &&
    one.minX === other.minX &&
    one.minY === other.minY &&
    one.maxX === other.maxX &&
    one.maxY === other.maxY
  );
}

/** As the index has it: whole rows and columns, which have no numbers for their ends, go on without end. */
function boxOf({ range }: IUnitRange, id: number): Box {
  const orElse = (place: number, end: number): number => (Number.isNaN(place) ? end : place);
  return {
    minX: orElse(range.startColumn, 0),
    minY: orElse(range.startRow, 0),
    maxX: orElse(range.endColumn, Infinity),
    maxY: orElse(range.endRow, Infinity),
    id,
  };
}
