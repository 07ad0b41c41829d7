/** Whether a text looks like somebody's name. */
import fc from "fast-check";
import { looksLikeName } from "../../../src/core/log-layout/column-profile";

test.each([
  "M.K.",
  "M. K.",
  "Lea B.",
  "Lea",
  "LEA",
  "Anne-Marie D.",
  "D'Arcy P.",
  "MK",
  "M.-K. L.",
  "Ida, Bo",
  "Élodie T.",
])("%s does", (text) => {
  expect(looksLikeName(text)).toBe(true);
});

test.each([
  "lea",
  "ccdcc",
  "8/10",
  "Lea 2",
  "Lea b.",
  "Lea!",
  "ABCDEFGHIJKLMNOPQRSTUVWXY!",
  "A..B",
  "",
  "Double turn left hand up high",
])("%s does not", (text) => {
  expect(looksLikeName(text)).toBe(false);
});

/** The rule character by character: a capital begins a word; a stop, a comma or a space ends it. */
function byCharacters(text: string): boolean {
  let place: "start" | "word" | "break" = "start";
  for (const [index, sign] of [...text].entries()) {
    if (place === "word") {
      if (/[.\s,]/u.test(sign)) place = "break";
      else if (!/[\p{L}'’-]/u.test(sign)) return false;
    } else if (/\p{Lu}/u.test(sign)) place = "word";
    else if (index === 0 || !/[\s,-]/u.test(sign)) return false;
  }
  return text !== "";
}

test("it is what the rule says, character by character", () => {
  const text = fc
    .array(fc.constantFrom(..."AÉbé.,- '1".split("")), { maxLength: 14 })
    .map((signs) => signs.join("").trim());
  fc.assert(
    fc.property(text, (words) => {
      // More words than four are no name, whatever they are.
      const count = (words.match(/\p{L}+|\d+/gu) ?? []).length;
      fc.pre(count > 0 && count <= 4);
      expect(looksLikeName(words)).toBe(byCharacters(words));
    }),
    { seed: 20261130, numRuns: 2000 },
  );
});
