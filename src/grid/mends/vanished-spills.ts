/**
 * When an answer that spilled gets smaller, or turns into an error, cells are empty that held something. The engine does
 * not tell those who read them, such as the rules that colour a status: their colour would stay where no word is left.
 */
import type { Injector, IRange } from "@univerjs/core";
import type { FUniver } from "@univerjs/core/facade";
import { FormulaDataModel, FormulaExecutedStateType } from "@univerjs/engine-formula";

/** Where each spilling formula fills cells, by the place of its own cell. */
type Spills = ReadonlyMap<string, IRange>;

/** Calls `calculate`, which is to work everything out anew, after each calculation that has left such cells empty. */
export function tellOfVanishedSpills(api: FUniver, injector: Injector, calculate: () => void): void {
  const model = injector.get(FormulaDataModel);
  let before: Spills = new Map();
  api.getFormula().calculationEnd((end) => {
    if (end === FormulaExecutedStateType.STOP_EXECUTION) return;
    const now = spillsOf(model);
    const vanished = [...before].some(([place, range]) => !covers(now.get(place), range));
    before = now;
    if (vanished) calculate();
  });
}

function spillsOf(model: FormulaDataModel): Spills {
  const spills = new Map<string, IRange>();
  for (const [unitId, sheets] of Object.entries(model.getArrayFormulaRange())) {
    for (const [sheetId, rows] of Object.entries(sheets ?? {})) {
      for (const [row, cells] of Object.entries(rows ?? {})) {
        for (const [column, range] of Object.entries((cells ?? {}) as Record<string, IRange | null>)) {
          if (range) spills.set([unitId, sheetId, row, column].join(" "), { ...range });
        }
      }
    }
  }
  return spills;
}

function covers(now: IRange | undefined, before: IRange): boolean {
  return now !== undefined && now.endRow >= before.endRow && now.endColumn >= before.endColumn;
}
