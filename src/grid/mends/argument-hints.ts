/**
 * While one of our functions is typed into a cell, the grid says its arguments beside it as it does for its own. It looks
 * them up in a list of its own, beside the one in which functions are registered and offered.
 */
import type { Injector } from "@univerjs/core";
import { FunctionType, IFunctionService } from "@univerjs/engine-formula";
import { IDescriptionService } from "@univerjs/sheets-formula";
import { hasMethods, type Mend } from "./mend";

function tellArguments(injector: Injector): void {
  const ours = [...injector.get(IFunctionService).getDescriptions().values()].filter(
    ({ functionType }) => functionType === FunctionType.User,
  );
  injector.get(IDescriptionService).registerDescriptions(ours);
}

/** For the list of mends. */
export const argumentHints: Mend<"injector"> = {
  name: "argument-hints",
  why: "Whoever types one of our functions into a cell would not be told its arguments.",
  until: "The grid looks arguments up where functions are registered.",
  isNeeded: (injector) =>
    hasMethods(injector.get(IFunctionService), "getDescriptions") &&
    hasMethods(injector.get(IDescriptionService), "registerDescriptions"),
  apply: ({ injector }) => tellArguments(injector),
};
