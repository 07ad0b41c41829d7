import { readKey } from "../../../src/core/marks";
import { findLayout } from "../../../src/core/log-layout/find-layout";
import { suggestKey } from "../../../src/core/log-layout/suggest-key";
import { col, day, sheet } from "./sheets";

/** A log with these marks in column D. */
function suggestedFor(marks: readonly (string | number)[]) {
  const block = sheet("A1", [
    ["Date", "Athlete", "Trick", "Marks"],
    ...marks.map((mark) => [day("2026-03-02"), "M.K.", "Two spin", mark]),
  ]);
  return suggestKey(block, findLayout(block, { record: { kind: "marks", first: col("D"), last: col("D") } }).mapping);
}

test.each<[because: string, marks: readonly (string | number)[], first: string, sure: boolean]>([
  ["words", ["Hit", "Miss", "Hit", "hit"], "hit/miss", true],
  ["runs of signs", ["++-+", "+ + -", "--+"], "+/-", true],
  ["runs of x and o, more caught than not is no reason to be sure", ["xxox", "xxxx", "oxxo"], "x/o", false],
  ["three signs, one of them a bail by its letter", ["xxoa", "xoxx", "aaxx"], "x/o/a", false],
  ["a letter of another language", ["jjn", "jnj", "jjj"], "j/n", true],
  ["a tick and a dash", ["✓", "-", "✓\uFE0F", "✓"], "✓/-", true],
  ["numbers", [1, 0, 1, 1, 0], "1/0", true],
])("%s: %p", (_, marks, first, sure) => {
  const suggested = suggestedFor(marks);
  expect(suggested?.keys[0]).toBe(first);
  expect(suggested?.sure).toBe(sure);
  // Every way is offered, and every one is a key that the functions take.
  const signs = suggested?.signs.length ?? 0;
  expect(suggested?.keys.length).toBe(signs === 3 ? 6 : 2);
  for (const key of suggested?.keys ?? []) expect(readKey(key).signs.size).toBe(signs);
});

test.each<[because: string, marks: readonly (string | number)[]]>([
  ["the usual marks", ["ccdcc", "cdb", "8/10"]],
  ["one sign only: nothing says what the empty cells are", ["x", "x", "", "x"]],
  ["four signs", ["xoab", "xxoa", "boax"]],
  ["notes", ["went well", "tired today", "better than before", "ok I think"]],
  ["a slash, which stands between the signs of a key", ["/ - /", "// -", "-/"]],
  ["tallies turned into days", [46302, 46303]],
])("no key is offered for %s", (_, marks) => {
  expect(suggestedFor(marks)).toBeNull();
});
