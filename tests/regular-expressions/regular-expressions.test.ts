/**
 * No regular expression of the sources can be made to take for ever by what somebody types or by what a file holds: the steps
 * of each are counted on long hostile texts, made of its own characters.
 */
import { AST, RegExpParser, visitRegExpAST } from "@eslint-community/regexpp";
import { stepsOf, TooManySteps } from "./matcher";
import { inFile, regularExpressions } from "./patterns";

const all = regularExpressions();

/** Characters that each piece of a pattern takes, tried one by one. */
const CHARACTERS = [..."aAbBxXeEzZ019 \t\n.,;:!?'\"-–_+*/\\|<>()[]{}&#@$%=~éÉß´’\u0000\u00a0😀"];

/** Texts that are hard for this pattern: what it repeats, alone and by turns, with an end that it does not take. */
function hostileTexts(pattern: RegExp, length: number): readonly string[] {
  const flags = pattern.flags.replace(/[gymd]/g, "");
  const taken = new Set<string>();
  const words = new Set<string>();
  visitRegExpAST(
    new RegExpParser().parsePattern(pattern.source, 0, pattern.source.length, { unicode: flags.includes("u") }),
    {
      onCharacterEnter: (one: AST.Character) => void taken.add(String.fromCodePoint(one.value)),
      onCharacterClassEnter: (one: AST.CharacterClass) => taking(one.raw),
      onCharacterSetEnter: (one: AST.CharacterSet) => taking(one.raw),
      onAlternativeEnter: (one: AST.Alternative) => {
        const letters = one.elements.flatMap((element) =>
          element.type === "Character" ? [String.fromCodePoint(element.value)] : [],
        );
        if (letters.length > 1) words.add(letters.join(""));
      },
    },
  );
  function taking(raw: string): void {
    const test = new RegExp(`^(?:${raw})$`, flags);
    for (const character of CHARACTERS.filter((one) => test.test(one)).slice(0, 3)) taken.add(character);
  }
  const pieces = [...taken].slice(0, 12);
  const repeated = [...pieces, ...pieces.flatMap((one) => pieces.map((other) => one + other)), ...words];
  return repeated.flatMap((piece) => {
    const run = piece.repeat(Math.ceil(length / piece.length));
    return [run, `${run}\u0000`, `${run}!`, ...pieces.slice(0, 4).map((start) => `${start}${run}\u0001`)];
  });
}

/** A pattern that is looked for from every place may walk to the end of the text from each: so many steps, and no more. */
const LENGTH = 120;
const MOST_STEPS = 12 * LENGTH * LENGTH;

function slowText(pattern: RegExp): string | undefined {
  return hostileTexts(pattern, LENGTH).find((text) => {
    try {
      stepsOf(pattern, text, MOST_STEPS);
      return false;
    } catch (error) {
      if (error instanceof TooManySteps) return true;
      throw error;
    }
  });
}

test("the sources have regular expressions, and all are found", () => {
  expect(all.length).toBeGreaterThan(150);
  expect(
    inFile("one.ts", 'const a = /x+/gu; const b = new RegExp("y*", "i"); const c = new RegExp(`z${w}?`);'),
  ).toEqual([
    { name: "one.ts:1 /x+/gu", pattern: /x+/gu },
    { name: "one.ts:1 /y*/i", pattern: /y*/i },
    { name: "one.ts:1 /zword?/", pattern: /zword?/ },
  ]);
});

test("no hostile text has one of them take more steps than a walk from each of its places", () => {
  const slow = all.flatMap(({ name, pattern }) => {
    const text = slowText(pattern);
    return text === undefined ? [] : [`${name} on ${JSON.stringify(text.slice(0, 12))}`];
  });
  expect(slow).toEqual([]);
});

test.each([
  // What stood in core/log-layout/column-profile.ts: a word in capitals could be cut at each of them.
  /^(\p{Lu}[\p{L}'’-]*\.?[\s,-]*)+$/u,
  /^(a+)+$/,
  /^(a|a)*$/,
  /(x+x+)+y/,
  /^(?:\d+|\d+,)*$/,
])("%s would be found to be slow", (pattern) => {
  expect(slowText(pattern)).toBeDefined();
});

test("the matcher that counts finds what the language finds", () => {
  const texts = [
    "",
    "a",
    "8/10",
    "ccdcc ccccd",
    "Lea B.",
    "12.5.2026",
    "=SUM(A1:B2)",
    "'Board 2027'!AH30",
    "  x\n\ty ",
  ];
  for (const { name, pattern } of all) {
    const plain = new RegExp(pattern.source, pattern.flags.replace(/[gy]/g, ""));
    if (pattern.sticky) continue;
    for (const text of texts) {
      expect([name, text, stepsOf(pattern, text, MOST_STEPS).found]).toEqual([name, text, plain.test(text)]);
    }
  }
});
