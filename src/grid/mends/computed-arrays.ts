/**
 * The engine keeps, for each column of a sheet, which cells hold what, so that a comparison with one value need not look at
 * them again. But what a function answers (COUNTIFS, SUMIFS, FILTER, SORTBY) passes for the cells at the formula's own
 * place: compared with a value, it is taken for what stands there, and what it holds is kept as theirs. A formula that is
 * worked out twice then reads its own former answer; and those that compare the cells below it read what is not there.
 * Nor does the engine forget, between its steps, what has been emptied since.
 */
import type { Injector } from "@univerjs/core";
import {
  ArrayValueObject,
  BaseReferenceObject,
  CELL_INVERTED_INDEX_CACHE,
  ICalculateFormulaService,
} from "@univerjs/engine-formula";
import { hasMethods, type Mend } from "./mend";

type Compared = (
  this: ComparedArray,
  value: unknown,
  column: number,
  result: unknown[],
  kind: number,
  operator?: unknown,
  isCaseSensitive?: boolean,
) => void;

interface ComparedArray {
  readonly _rowCount: number;
  __batchOperatorRowValue(
    value: unknown,
    column: number,
    result: unknown[],
    kind: number,
    row: number,
    unitId: string,
    sheetId: string,
    startRow: number,
    startColumn: number,
    operator?: unknown,
    isCaseSensitive?: boolean,
  ): void;
}

interface Steps {
  _apply?: (afterSpills?: boolean) => Promise<unknown>;
}

const arrays = ArrayValueObject.prototype as unknown as ComparedArray & { _batchOperatorValue: Compared };

/** The classes are those of all grids of a page. */
let areKeptApart = false;

/** Has only what was read from cells be taken for them. */
function keepArraysApart(): void {
  if (areKeptApart) return;
  areKeptApart = true;
  const fromCells = new WeakSet<object>();
  const references = BaseReferenceObject.prototype;
  const read = references.toArrayValueObject;
  references.toArrayValueObject = function (this: BaseReferenceObject, ...given) {
    const array = read.apply(this, given);
    fromCells.add(array);
    return array;
  };
  const compare = arrays._batchOperatorValue;
  arrays._batchOperatorValue = function (value, column, result, kind, operator, isCaseSensitive) {
    if (fromCells.has(this)) return compare.call(this, value, column, result, kind, operator, isCaseSensitive);
    // At a column that no sheet has, for which nothing is kept.
    const nowhere = -1 - column;
    for (let row = 0; row < this._rowCount; row += 1)
      this.__batchOperatorRowValue(value, column, result, kind, row, "", "", 0, nowhere, operator, isCaseSensitive);
  };
}

export function compareWhatIsThere(injector: Injector): void {
  keepArraysApart();
  const steps = injector.get(ICalculateFormulaService) as unknown as Steps;
  const apply = steps._apply?.bind(steps);
  if (apply === undefined) return;
  steps._apply = (afterSpills) => {
    CELL_INVERTED_INDEX_CACHE.clear();
    return apply(afterSpills);
  };
}

/** For the list of mends. */
export const computedArrays: Mend<"injector"> = {
  name: "computed-arrays",
  why: "A comparison of what a function answers may be taken from other cells, and be wrong without a word.",
  until: "The engine keeps what cells hold by what was read from them alone.",
  isNeeded: (injector) =>
    hasMethods(injector.get(ICalculateFormulaService), "_apply") &&
    hasMethods(arrays, "_batchOperatorValue", "__batchOperatorRowValue") &&
    hasMethods(BaseReferenceObject.prototype, "toArrayValueObject") &&
    hasMethods(CELL_INVERTED_INDEX_CACHE, "clear"),
  apply: ({ injector }) => compareWhatIsThere(injector),
};
