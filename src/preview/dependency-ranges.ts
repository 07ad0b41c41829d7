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
  /** The part of the index, for one sheet, in which the range stands; a single cell stands elsewhere. */
  readonly part: object | undefined;
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
      part: partOf(index, range),
    }));
    const record = dependencies._allTreeMap.get(id);
    const former = record === undefined ? undefined : entered.get(record);
    if (former?.length === entries.length && former.every((entry, place) => isSame(entry, entries[place]))) {
      // Single cells are a set, and may have been taken out with all that is known of a sheet.
      for (const { range, part } of entries) if (part === undefined) index.insert({ ...range, id });
      return;
    }
    for (const { range } of former ?? []) takeOut(index, range, id);
    enter(formula);
    const present = dependencies._allTreeMap.get(id);
    if (present !== undefined) entered.set(present, entries);
  };
}

function isSingleCell({ range }: IUnitRange): boolean {
  return range.startRow === range.endRow && range.startColumn === range.endColumn;
}

function partOf(index: RTree, unitRange: IUnitRange): object | undefined {
  return isSingleCell(unitRange) ? undefined : index.getTree(unitRange.unitId, unitRange.sheetId);
}

function isSame(former: Entry, now: Entry | undefined): boolean {
  if (now === undefined || former.part !== now.part) return false;
  const [a, b] = [former.range, now.range];
  return (
    a.unitId === b.unitId &&
    a.sheetId === b.sheetId &&
    Object.is(a.range.startRow, b.range.startRow) &&
    Object.is(a.range.endRow, b.range.endRow) &&
    Object.is(a.range.startColumn, b.range.startColumn) &&
    Object.is(a.range.endColumn, b.range.endColumn)
  );
}

/** One range of one formula. (What the engine has for this goes through the range cell by cell.) */
function takeOut(index: RTree, unitRange: IUnitRange, id: number): void {
  if (isSingleCell(unitRange)) return index.remove({ ...unitRange, id });
  const { unitId, sheetId, range } = unitRange;
  const box: Box = {
    minX: orElse(range.startColumn, 0),
    minY: orElse(range.startRow, 0),
    maxX: orElse(range.endColumn, Infinity),
    maxY: orElse(range.endRow, Infinity),
    id,
  };
  index.getTree(unitId, sheetId).remove(box, isSameBox);
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

/** Whole rows and columns have no numbers for their ends. */
function orElse(place: number, end: number): number {
  return Number.isNaN(place) ? end : place;
}
