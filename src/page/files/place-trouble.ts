/** Why a file could not be read or written in its place, in a sentence (WHATWG, File System; W3C, File API: names of errors). */
import { isNamed } from "./file-access";
import { fileTexts } from "./file-texts";
import { NotAsWritten } from "./place";

const SENTENCES: readonly (readonly [string, (name: string) => string])[] = [
  ["NotFoundError", fileTexts.gone],
  ["NoModificationAllowedError", fileTexts.locked],
  ["InvalidModificationError", fileTexts.locked],
  ["InvalidStateError", fileTexts.locked],
  ["NotReadableError", fileTexts.locked],
  ["QuotaExceededError", () => fileTexts.full],
  ["AbortError", () => fileTexts.stopped],
];

export function troubleWords(cause: unknown, name: string, doing: "read" | "write"): string {
  if (isNamed(cause, "NotAllowedError")) {
    return doing === "read" ? fileTexts.mayNotRead(name) : fileTexts.mayNotWrite(name);
  }
  if (cause instanceof NotAsWritten) return fileTexts.notAsWritten(name);
  const [, words] = SENTENCES.find(([error]) => isNamed(cause, error)) ?? [];
  return words?.(name) ?? (cause instanceof Error ? cause.message : String(cause));
}
