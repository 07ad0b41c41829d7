/**
 * A formula may spill what it makes of another formula's spill, as the week's lines are taken from the board's. The engine
 * works out the formulas that read what was typed, then those that read a cell into which one of them has spilled, and ends
 * there: what reads the cells of a second spill (the rule that colours a status on the Week sheet, a formula on a further
 * sheet) would keep its former answer without a word.
 */
import { type Injector, type IRange, type IUnitRange, ObjectMatrix } from "@univerjs/core";
import {
  FORMULA_REF_TO_ARRAY_CACHE,
  ICalculateFormulaService,
  IFormulaCurrentConfigService,
} from "@univerjs/engine-formula";
import { hasMethods, type Mend } from "./mend";

type Sheets<T> = Readonly<Record<string, Readonly<Record<string, T>> | null | undefined>>;

/** What has been worked out so far. */
interface Answers {
  /** The cells that each spilling formula fills, by the place of its own cell: another object each time that it is worked out. */
  readonly arrayFormulaRange: Sheets<Readonly<Record<number, Readonly<Record<number, IRange>>>>>;
  readonly arrayFormulaCellData: Sheets<ObjectMatrix<{ readonly v?: unknown } | null>>;
}

interface Calculation {
  /** Works out what is due; first what typed cells have made due, then what spills have. Nothing when it was stopped. */
  _apply?: (afterSpills?: boolean) => Promise<Answers | undefined>;
}

interface Due {
  _forceCalculate: boolean;
  loadDirtyRangesAndExcludedCell(ranges: readonly IUnitRange[], ownCells: OwnCells): void;
}

/** The cells of the spilling formulas themselves: they are not due because of their own spill. */
type OwnCells = Record<string, Record<string, ObjectMatrix<boolean>>>;

/** Longer chains are circles: two spills that read each other. */
const LONGEST_CHAIN = 32;

/** Has the engine go on until no spill has changed that something reads. */
export function followChainedSpills(injector: Injector): void {
  const calculation = injector.get(ICalculateFormulaService) as unknown as Calculation;
  const due = injector.get(IFormulaCurrentConfigService) as unknown as Due;
  const apply = calculation._apply?.bind(calculation);
  if (apply === undefined) return;
  /** The spills at the end of the step before. */
  let before: ReadonlyMap<string, Spill> = new Map();
  calculation._apply = async (afterSpills = false) => {
    let answers = await apply(afterSpills);
    if (!afterSpills) {
      before = answers === undefined ? new Map() : spillsOf(answers, due._forceCalculate);
      return answers;
    }
    for (let link = 0; link < LONGEST_CHAIN && answers !== undefined; link += 1) {
      const now = spillsOf(answers, due._forceCalculate);
      const changed = [...now].filter(([place, spill]) => hasChanged(before.get(place), spill));
      if (changed.length === 0) break;
      // Where everything was to be worked out, that is done: what is left is what reads the spills that came out otherwise.
      due._forceCalculate = false;
      before = now;
      FORMULA_REF_TO_ARRAY_CACHE.clear();
      due.loadDirtyRangesAndExcludedCell(
        changed.map(([, { unitId, sheetId, range }]) => ({ unitId, sheetId, range })),
        ownCellsOf(changed.map(([, spill]) => spill)),
      );
      answers = await apply(true);
    }
    before = new Map();
    return answers;
  };
}

interface Spill extends IUnitRange {
  /** What it holds; only where all formulas are worked out twice, and most come out the same. */
  readonly values: readonly unknown[] | undefined;
}

function spillsOf(
  { arrayFormulaRange, arrayFormulaCellData }: Answers,
  withValues: boolean,
): ReadonlyMap<string, Spill> {
  const spills = new Map<string, Spill>();
  for (const [unitId, sheets] of Object.entries(arrayFormulaRange)) {
    for (const [sheetId, rows] of Object.entries(sheets ?? {})) {
      const cells = arrayFormulaCellData[unitId]?.[sheetId];
      for (const [row, columns] of Object.entries(rows)) {
        for (const [column, range] of Object.entries(columns)) {
          const values = withValues ? valuesIn(range, cells) : undefined;
          spills.set([unitId, sheetId, row, column].join(" "), { unitId, sheetId, range, values });
        }
      }
    }
  }
  return spills;
}

function valuesIn(range: IRange, cells: ObjectMatrix<{ readonly v?: unknown } | null> | undefined): unknown[] {
  const values: unknown[] = [];
  for (let row = range.startRow; row <= range.endRow; row += 1) {
    for (let column = range.startColumn; column <= range.endColumn; column += 1) {
      values.push(cells?.getValue(row, column)?.v);
    }
  }
  return values;
}

function hasChanged(before: Spill | undefined, now: Spill): boolean {
  if (before === undefined) return true;
  if (before.range === now.range) return false;
  const [former, present] = [before.values, now.values];
  if (former === undefined || present === undefined) return true;
  return !isSameRange(before.range, now.range) || present.some((value, index) => value !== former[index]);
}

function isSameRange(one: IRange, other: IRange): boolean {
  return (
    one.startRow === other.startRow &&
    one.startColumn === other.startColumn &&
    one.endRow === other.endRow &&
    one.endColumn === other.endColumn
  );
}

function ownCellsOf(spills: readonly Spill[]): OwnCells {
  const cells: OwnCells = {};
  for (const { unitId, sheetId, range } of spills) {
    ((cells[unitId] ??= {})[sheetId] ??= new ObjectMatrix()).setValue(range.startRow, range.startColumn, true);
  }
  return cells;
}

/** For the list of mends. */
export const chainedSpills: Mend<"injector"> = {
  name: "chained-spills",
  why: "What reads the spill of a spill would keep its former answer without a word.",
  until: "The grid goes on working out until no spill has changed that something reads.",
  isNeeded: (injector) =>
    hasMethods(injector.get(ICalculateFormulaService), "_apply") &&
    hasMethods(injector.get(IFormulaCurrentConfigService), "loadDirtyRangesAndExcludedCell"),
  apply: ({ injector }) => followChainedSpills(injector),
};
