import { fileTexts } from "../../src/page/files/file-texts";
import { NotAsWritten } from "../../src/page/files/place";
import { troubleWords } from "../../src/page/files/place-trouble";

const NAME = "club log.xlsx";

/** What a browser throws, by its name. */
function thrown(name: string): Error {
  return Object.assign(new Error("What the browser says."), { name });
}

// WHATWG, File System: createWritable, write and close; WICG, File System Access: getFile, requestPermission.
test.each([
  ["NotAllowedError", "write", fileTexts.mayNotWrite(NAME)],
  ["NotAllowedError", "read", fileTexts.mayNotRead(NAME)],
  ["NotFoundError", "write", fileTexts.gone(NAME)],
  ["NoModificationAllowedError", "write", fileTexts.locked(NAME)],
  ["QuotaExceededError", "write", fileTexts.full],
  ["AbortError", "write", fileTexts.stopped],
  ["InvalidStateError", "write", fileTexts.locked(NAME)],
  ["SomethingElse", "write", "What the browser says."],
] as const)("%s on a %s has its sentence", (name, doing, words) => {
  expect(troubleWords(thrown(name), NAME, doing)).toBe(words);
});

test("a file that does not hold what was written has a sentence of its own", () => {
  expect(troubleWords(new NotAsWritten(), NAME, "write")).toBe(fileTexts.notAsWritten(NAME));
});
