/**
 * When an answer that spilled gets smaller, or turns into an error, cells are empty that held something. The engine goes on
 * reading there what is gone, and does not tell those who read them, such as the rules that colour a status: their colour
 * would stay where no word is left. Here such cells are empty at once, and the same calculation goes on with who reads them.
 * (To work everything out once more afterwards would keep a long log busy twice for a single mark.)
 */
import { type Injector, type IRange, type IUnitRange, ObjectMatrix } from "@univerjs/core";
import type { FUniver } from "@univerjs/core/facade";
import {
  CELL_INVERTED_INDEX_CACHE,
  FORMULA_REF_TO_ARRAY_CACHE,
  FormulaDataModel,
  FormulaExecutedStateType,
  ICalculateFormulaService,
  IFormulaCurrentConfigService,
  IFormulaRuntimeService,
} from "@univerjs/engine-formula";

/** How often a calculation goes on at the most: answers of answers may get smaller too, and a circle would have no end. */
const ROUNDS = 20;

/** Cells that are worked out no more in this calculation, by workbook and sheet. */
type Excluded = Record<string, Record<string, ObjectMatrix<boolean>> | undefined>;

interface Calculation {
  /** What is to be worked out again because answers spill: where they do, and without them. */
  _getArrayFormulaDirtyRangeAndExcludedRange(...spilled: unknown[]): {
    dirtyRanges: IUnitRange[];
    excludedCell: Excluded;
  };
  /** Works out what depends on the dirty ranges; answers nothing where it was stopped. */
  _apply(spillsAreDirty?: boolean): Promise<unknown>;
}

interface Due {
  _forceCalculate: boolean;
}

interface Vanished {
  readonly unitId: string;
  readonly sheetId: string;
  /** The formula's own cell. */
  readonly row: number;
  readonly column: number;
  /** Where it used to spill. */
  readonly range: IRange;
}

/**
 * A formula that is typed over gives no answer that could be smaller: calls `calculate`, which is to work everything out
 * anew, after a calculation before which such a formula has gone.
 */
export function tellOfLostFormulas(api: FUniver, injector: Injector, calculate: () => void): void {
  const model = injector.get(FormulaDataModel);
  let before: readonly Place[] = [];
  api.getFormula().calculationEnd((end) => {
    if (end === FormulaExecutedStateType.STOP_EXECUTION) return;
    const workbook = api.getActiveWorkbook();
    const isLost = ({ unitId, sheetId, row, column }: Place): boolean => {
      if (workbook?.getId() !== unitId) return false;
      const cell = workbook.getSheetBySheetId(sheetId)?.getSheet().getCellRaw(row, column);
      return !cell?.f && !cell?.si;
    };
    const lost = before.some(isLost);
    before = placesOf(model);
    if (lost) calculate();
  });
}

interface Place {
  readonly unitId: string;
  readonly sheetId: string;
  readonly row: number;
  readonly column: number;
}

/** Of the formulas that fill further cells. */
function placesOf(model: FormulaDataModel): Place[] {
  const places: Place[] = [];
  for (const [unitId, sheets] of Object.entries(model.getArrayFormulaRange())) {
    for (const [sheetId, rows] of Object.entries(sheets ?? {})) {
      for (const [row, cells] of Object.entries(rows ?? {})) {
        for (const [column, range] of Object.entries((cells ?? {}) as Record<string, IRange | null>)) {
          if (range) places.push({ unitId, sheetId, row: Number(row), column: Number(column) });
        }
      }
    }
  }
  return places;
}

/** Called before `followChainedSpills`, which then sees what has come out of these calculations too. */
export function tellOfVanishedSpills(injector: Injector): void {
  const calculation = injector.get(ICalculateFormulaService) as unknown as Calculation;
  const current = injector.get(IFormulaCurrentConfigService);
  const runtime = injector.get(IFormulaRuntimeService);
  /** Of this calculation, whose readers have not been told yet. */
  let vanished: Vanished[] = [];

  const setAnswer = runtime.setRuntimeData.bind(runtime);
  runtime.setRuntimeData = (answer) => {
    setAnswer(answer);
    const { currentUnitId: unitId, currentSubUnitId: sheetId, currentRow: row, currentColumn: column } = runtime;
    const range = rangeAt(current.getArrayFormulaRange(), unitId, sheetId, row, column);
    if (!range) return;
    const { arrayFormulaRange, clearArrayFormulaCellData } = runtime.getAllRuntimeData();
    // A range is noted also for an answer that found no room.
    const fillsOneCell = Boolean(clearArrayFormulaCellData[unitId]?.[sheetId]?.getValue(row, column));
    const now = fillsOneCell ? undefined : rangeAt(arrayFormulaRange, unitId, sheetId, row, column);
    if (now && now.endRow >= range.endRow && now.endColumn >= range.endColumn) return;
    const cells = current.getArrayFormulaCellData()[unitId]?.[sheetId];
    for (let r = range.startRow; r <= range.endRow; r += 1) {
      for (let c = range.startColumn; c <= range.endColumn; c += 1) {
        if (!now || r > now.endRow || c > now.endColumn) cells?.realDeleteValue(r, c);
      }
    }
    FORMULA_REF_TO_ARRAY_CACHE.clear();
    CELL_INVERTED_INDEX_CACHE.clear();
    vanished.push({ unitId, sheetId, row, column, range });
  };

  let excluded: Excluded = {};
  const tellReaders = (): IUnitRange[] => {
    const ranges = vanished.map(({ unitId, sheetId, range }) => ({ unitId, sheetId, range }));
    for (const { unitId, sheetId, row, column } of vanished) {
      ((excluded[unitId] ??= {})[sheetId] ??= new ObjectMatrix()).setValue(row, column, true);
    }
    vanished = [];
    return ranges;
  };

  const spillsToTell = calculation._getArrayFormulaDirtyRangeAndExcludedRange.bind(calculation);
  calculation._getArrayFormulaDirtyRangeAndExcludedRange = (...spilled) => {
    const { dirtyRanges, excludedCell } = spillsToTell(...spilled);
    excluded = excludedCell;
    return { dirtyRanges: [...dirtyRanges, ...tellReaders()], excludedCell };
  };

  const apply = calculation._apply.bind(calculation);
  calculation._apply = async (spillsAreDirty) => {
    if (spillsAreDirty !== true) vanished = [];
    let state = await apply(spillsAreDirty);
    if (spillsAreDirty !== true) return state;
    for (let round = 0; Boolean(state) && vanished.length > 0 && round < ROUNDS; round += 1) {
      // Where everything was to be worked out, that is done.
      (current as unknown as Due)._forceCalculate = false;
      FORMULA_REF_TO_ARRAY_CACHE.clear();
      current.loadDirtyRangesAndExcludedCell(tellReaders(), excluded as never);
      state = await apply(true);
    }
    return state;
  };
}

type Spills = ReturnType<IFormulaCurrentConfigService["getArrayFormulaRange"]>;

function rangeAt(
  spills: Spills,
  unitId: string,
  sheetId: string,
  row: number,
  column: number,
): IRange | null | undefined {
  return spills[unitId]?.[sheetId]?.[row]?.[column];
}
