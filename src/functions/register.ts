/**
 * Registers every cell function with the host. The id is the exported name in capitals; a test holds these ids equal to
 * those of functions.json and to the `@customfunction` tags.
 */
import "./shared-tails";
import * as contest from "./contest";
import * as exchange from "./exchange";
import * as log from "./log";
import * as practice from "./practice";
import * as routine from "./routine";
import * as toss from "./toss";
import * as trick from "./trick";
import * as week from "./week";

for (const functions of [practice, log, trick, toss, routine, week, contest, exchange]) {
  for (const [name, body] of Object.entries(functions)) CustomFunctions.associate(name.toUpperCase(), body);
}
