/** A folder as one zip file, the same bytes each time. */
import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { zipSync } from "fflate";

/** The first moment that a zip file can hold, by the reader's own clock: the library writes local time. */
const FIXED_TIME = new Date(1980, 0, 1);

/** Every file's path inside the folder, with forward slashes, in a fixed order. */
export function filesIn(folder: string): readonly string[] {
  const visit = (inside: string): string[] =>
    readdirSync(path.join(folder, inside), { withFileTypes: true }).flatMap((entry) => {
      const name = inside === "" ? entry.name : `${inside}/${entry.name}`;
      return entry.isDirectory() ? visit(name) : [name];
    });
  // By code point: the same order whatever the computer's language.
  return visit("").sort((one, other) => (one < other ? -1 : 1));
}

export function archiveOf(folder: string): Uint8Array {
  const entries = filesIn(folder).map((name) => [name, readFileSync(path.join(folder, name))] as const);
  return zipSync(Object.fromEntries(entries), { level: 6, mtime: FIXED_TIME });
}
