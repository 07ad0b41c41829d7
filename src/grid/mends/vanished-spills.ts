/**
 * When an answer that spilled gets smaller, or turns into an error, cells are empty that held something. The engine does
 * not tell those who read them, such as the rules that colour a status: their colour would stay where no word is left.
 */
import type { Injector, IRange } from "@univerjs/core";
import type { FUniver } from "@univerjs/core/facade";
import { FormulaDataModel, FormulaExecutedStateType } from "@univerjs/engine-formula";
import { hasMethods, type Mend } from "./mend";

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
  /** The engine leaves gaps at each of these levels. */
  const entries = <T>(of: unknown): [string, T][] => Object.entries((of ?? {}) as Record<string, T>);
  return new Map(
    entries(model.getArrayFormulaRange()).flatMap(([unitId, sheets]) =>
      entries(sheets).flatMap(([sheetId, rows]) =>
        entries(rows).flatMap(([row, cells]) =>
          entries<IRange | null>(cells).flatMap(([column, range]): [string, IRange][] =>
            range ? [[[unitId, sheetId, row, column].join(" "), { ...range }]] : [],
          ),
        ),
      ),
    ),
  );
}

function covers(now: IRange | undefined, before: IRange): boolean {
  return now !== undefined && now.endRow >= before.endRow && now.endColumn >= before.endColumn;
}

/** For the list of mends. */
export const vanishedSpills: Mend<"api" | "injector" | "calculate"> = {
  name: "vanished-spills",
  why: "The colour of a status would stay where no word is left.",
  until: "The grid tells those who read cells that a smaller spill has emptied.",
  isNeeded: (injector) => hasMethods(injector.get(FormulaDataModel), "getArrayFormulaRange"),
  apply: ({ api, injector, calculate }) => tellOfVanishedSpills(api, injector, calculate),
};
