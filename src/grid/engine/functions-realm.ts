/**
 * Loads the built `functions.js` in Node as a host does: in a bare realm whose only extra global is `CustomFunctions`.
 */
import { runInNewContext } from "node:vm";

import { type CellFunction, createFunctionsGlobal } from "./custom-functions";

/** The functions that the script associates, by their ids. Throws what the script throws. */
export function loadFunctions(functionsScript: string): ReadonlyMap<string, CellFunction> {
  const { customFunctions, associated } = createFunctionsGlobal();
  runInNewContext(functionsScript, { CustomFunctions: customFunctions }, { filename: "functions.js" });
  return associated;
}
