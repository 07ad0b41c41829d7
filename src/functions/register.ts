/**
 * Registers every cell function with the host. The id is the exported name in capitals; a test holds these ids equal to
 * those of functions.json and to the `@customfunction` tags.
 */
import "./shared-tails";
import { headings } from "./headings";

for (const { functions } of headings) {
  for (const [name, body] of Object.entries(functions)) CustomFunctions.associate(name.toUpperCase(), body);
}
