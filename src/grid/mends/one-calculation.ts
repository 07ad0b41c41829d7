/**
 * One calculation at a time. An edit that comes while the engine begins a calculation (it draws breath once it knows what is
 * due) begins another in the midst of it, and the two share what is due: the first takes what it has yet to do for all
 * that is left, the second finds nothing, and what was typed is never reckoned. Nobody is told: a board stays as it was.
 */
import { ICommandService, type Injector } from "@univerjs/core";
import {
  FormulaDataModel,
  ICalculateFormulaService,
  SetTriggerFormulaCalculationStartMutation,
} from "@univerjs/engine-formula";
import { TriggerCalculationController } from "@univerjs/sheets-formula";
import { hasMethods, type Mend } from "./mend";

interface Calculation {
  execute(what: object): Promise<void>;
  /** Held from a calculation's beginning to its end. */
  readonly _executeLock?: { acquire(key: string, work: () => void): Promise<void> };
}

/** What the engine's own keeper of edits is about. */
interface Gathering {
  /** Edits that no calculation has been told of yet. */
  readonly _waitingCommandQueue?: readonly unknown[];
  /** Whether a calculation is to stop, and to begin again with what has been gathered. */
  _restartCalculation?: boolean;
}

const LOCK = "FORMULA_EXECUTION_LOCK";

/** What is known of a grid's calculations, from the mend on. */
interface Work {
  /** How many calculations are under way or wait for their turn. */
  due: number;
  readonly edits: Gathering;
  readonly listeners: (() => void)[];
}

const works = new WeakMap<Injector, Work>();

/** How many calculations are under way or wait for their turn. */
export function calculationsDue(injector: Injector): number {
  return works.get(injector)?.due ?? 0;
}

/** Whether anything is being worked out, or an edit waits to be. */
export function isCalculating(injector: Injector): boolean {
  const work = works.get(injector);
  if (work === undefined) return false;
  const { _waitingCommandQueue: waiting, _restartCalculation: isStopping } = work.edits;
  return work.due > 0 || (waiting?.length ?? 0) > 0 || isStopping === true;
}

/** Has the listener told when no calculation is left, however the last one ended. */
export function whenCalculated(injector: Injector, listener: () => void): void {
  works.get(injector)?.listeners.push(listener);
}

function gathering(injector: Injector): Gathering {
  return injector.get(TriggerCalculationController) as unknown as Gathering;
}

/** Has each calculation wait for the one before it, and begin with what stands in the workbook then. */
export function calculateOneByOne(injector: Injector): void {
  const calculation = injector.get(ICalculateFormulaService) as unknown as Calculation;
  const model = injector.get(FormulaDataModel);
  const commands = injector.get(ICommandService);
  const execute = calculation.execute.bind(calculation);
  const work: Work = { due: 0, edits: gathering(injector), listeners: [] };
  works.set(injector, work);
  const finish = (): void => {
    if (work.due > 0) return;
    if (work.edits._restartCalculation === true) {
      // It was to stop and had come to its end before: what had been gathered by then is forgotten.
      work.edits._restartCalculation = false;
      const all = { commands: [], forceCalculation: true };
      void commands.executeCommand(SetTriggerFormulaCalculationStartMutation.id, all, { onlyLocal: true });
      return;
    }
    for (const listener of work.listeners) listener();
  };
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
      work.due -= 1;
      if (work.due === 0) setTimeout(finish);
    }
  };
  let last = Promise.resolve();
  calculation.execute = (what) => {
    work.due += 1;
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
      Array.isArray(gathering(injector)._waitingCommandQueue) &&
      hasMethods(injector.get(FormulaDataModel), "getFormulaData", "getArrayFormulaCellData", "getArrayFormulaRange")
    );
  },
  apply: ({ injector }) => calculateOneByOne(injector),
};
