/** The cell functions by their ids, as `src/functions/register.ts` names them to the host. */
import * as practice from "../../functions/practice";
import * as routine from "../../functions/routine";
import * as toss from "../../functions/toss";
import * as trick from "../../functions/trick";
import * as week from "../../functions/week";
import type { Functions } from "./sheet";

export const cellFunctions = Object.fromEntries(
  [practice, routine, toss, trick, week].flatMap((file) =>
    Object.entries(file).map(([name, body]) => [name.toUpperCase(), body]),
  ),
) as Functions;
