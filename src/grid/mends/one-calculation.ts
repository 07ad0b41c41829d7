/**
 * One calculation at a time. An edit that comes while the engine begins a calculation (it draws breath once it knows what is
 * due) begins another in the midst of it, and the two share what is due: the first takes what it has yet to do for all
 * that is left, the second finds nothing, and what was typed is never reckoned. Nobody is told: a board stays as it was.
 */
import type { Injector } from "@univerjs/core";
import { FormulaDataModel, ICalculateFormulaService } from "@univerjs/engine-formula";
import { hasMethods, type Mend } from "./mend";

interface Calculation {
  execute(what: object): Promise<void>;
  /** Held from a calculation's beginning to its end. */
  readonly _executeLock?: { acquire(key: string, work: () => void): Promise<void> };
}

const LOCK = "FORMULA_EXECUTION_LOCK";

const due = new WeakMap<Injector, number>();

/** How many calculations are under way or wait for their turn. */
export function calculationsDue(injector: Injector): number {
  return due.get(injector) ?? 0;
}

/** Has each calculation wait for the one before it, and begin with what stands in the workbook then. */
export function calculateOneByOne(injector: Injector): void {
  const calculation = injector.get(ICalculateFormulaService) as unknown as Calculation;
  const model = injector.get(FormulaDataModel);
  const execute = calculation.execute.bind(calculation);
  const run = async (what: object): Promise<void> => {
    try {
      await execute({
        ...what,
        formulaData: model.getFormulaData(),
        arrayFormulaCellData: model.getArrayFormulaCellData(),
        arrayFormulaRange: model.getArrayFormulaRange(),
      });
      await calculation._executeLock?.acquire(LOCK, () => undefined);
    } finally {
      due.set(injector, calculationsDue(injector) - 1);
    }
  };
  let last = Promise.resolve();
  calculation.execute = (what) => {
    due.set(injector, calculationsDue(injector) + 1);
    const own = last.then(() => run(what));
    // One that fails holds none up; who asked for it hears of it.
    last = own.catch(() => undefined);
    return own;
  };
}

/** For the list of mends. */
export const oneCalculation: Mend<"injector"> = {
  name: "one-calculation",
  why: "What is typed while a calculation begins would be in no answer, and nothing would say so.",
  until: "The engine begins no calculation in the midst of another.",
  isNeeded: (injector) => {
    const calculation = injector.get(ICalculateFormulaService) as unknown as Calculation;
    return (
      hasMethods(calculation, "execute") &&
      hasMethods(calculation._executeLock, "acquire") &&
      hasMethods(injector.get(FormulaDataModel), "getFormulaData", "getArrayFormulaCellData", "getArrayFormulaRange")
    );
  },
  apply: ({ injector }) => calculateOneByOne(injector),
};
