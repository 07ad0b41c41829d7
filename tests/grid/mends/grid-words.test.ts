import { readFileSync } from "node:fs";

import coreWords from "@univerjs/preset-sheets-core/locales/en-US";

import { gridWords } from "../../../src/grid/mends/grid-words";

/** The keys of the words beside the formula bar, as the grid's own code asks for them. */
const asked = [
  ...readFileSync(require.resolve("@univerjs/sheets-formula"), "utf8").matchAll(
    /"(sheets-formula\.progress\.[\w-]+)"/g,
  ),
].map(([, key]) => key ?? "");

const wordsAt = (words: object, key: string): unknown =>
  key.split(".").reduce<unknown>((part, name) => (part as Record<string, unknown> | undefined)?.[name], words);

test("the progress of a calculation is told in words", () => {
  expect(asked.length).toBeGreaterThanOrEqual(5);
  for (const key of asked) expect([key, wordsAt(gridWords(), key)]).toEqual([key, expect.stringMatching(/^[A-Z]/)]);
});

test("the grid's other words are all there", () => {
  for (const [part, words] of Object.entries(coreWords)) expect(gridWords()[part]).toMatchObject(words as object);
});

test("its own catalogue has no words for it: else there is nothing to mend", () => {
  for (const key of asked) expect(wordsAt(coreWords, key)).toBeUndefined();
});
