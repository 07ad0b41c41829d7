/** What signs of a club's own nearly always mean. Not x and o: clubs use them either way round. */
import { comparable } from "../text";

export const CAUGHT = words(
  "c caught catch y yes j ja si sì sí oui s v ✓ ✔ √ ☑ ✅ 👍 + 1 h hit ok made clean g good gut",
);
export const DROPPED = words(
  "d drop dropped n no non nein nee não ✗ ✘ ✕ ✖ ☒ ❌ 👎 - – — − 0 m miss missed f fail failed bad",
);
export const BAILED = words("b bail bailed balk a abandoned");

function words(text: string): ReadonlySet<string> {
  return new Set(text.split(" ").map(comparable));
}

/** Whether a word of two letters or more means caught or dropped by itself; a letter could be anything. */
export function isKnownWord(text: string): boolean {
  return text.length > 1 && (CAUGHT.has(text) || DROPPED.has(text));
}
