/** The cell functions by their ids, as `src/functions/register.ts` names them to the host. */
import { headings } from "../../functions/headings";
import type { Functions } from "./sheet";

export const cellFunctions = Object.fromEntries(
  headings.flatMap(({ functions }) => Object.entries(functions).map(([name, body]) => [name.toUpperCase(), body])),
) as Functions;
