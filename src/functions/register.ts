/**
 * Registers every cell function with the host. The id is the exported name in capitals; a test holds these ids equal to
 * those of functions.json and to the `@customfunction` tags.
 */
import * as practice from "./practice";
import * as toss from "./toss";

for (const functions of [practice, toss]) {
  for (const [name, body] of Object.entries(functions)) CustomFunctions.associate(name.toUpperCase(), body);
}
