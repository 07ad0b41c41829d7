/** The Functions part with every function of the add-in: their help is as large as the rest of the pane. */
import type { FunctionHelp } from "./function-help";
import all from "./functions.generated.json";
import { functionsPartOf } from "./functions-part";

export const functionsPart = functionsPartOf(all satisfies readonly FunctionHelp[]);
