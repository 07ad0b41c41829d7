import { looks, numberFormats, statusLooks, statusWordLooks } from "../../../src/workbook/plan/looks";
import { STATUSES } from "../../../src/trade/statuses";
import { contrast, difference, visions } from "./colour";

/** WCAG 2.2, 1.4.3: text of the usual size. */
const LEAST_CONTRAST = 4.5;
const SHEET = "#FFFFFF";

/** Seen at a glance, side by side (2.3 is the least that is noticed at all). */
const LEAST_DIFFERENCE = 10;

describe("the measures themselves", () => {
  test("black on white is 21 to 1, and #767676 is the lightest grey that passes on white", () => {
    expect(contrast("#000000", "#FFFFFF")).toBeCloseTo(21, 10);
    expect(contrast("#767676", "#FFFFFF")).toBeGreaterThan(4.5);
    expect(contrast("#777777", "#FFFFFF")).toBeLessThan(4.5);
  });

  test("red and green of one lightness part for usual eyes and meet for those without red or green", () => {
    expect(difference("#B00000", "#3F6F00", "usual")).toBeGreaterThan(60);
    expect(difference("#B06000", "#6F7F00", "deuteranopia")).toBeLessThan(
      difference("#B06000", "#6F7F00", "usual") / 2,
    );
  });
});

test.each(Object.entries(looks))("the look %s is readable", (_, { textColour, fill }) => {
  expect(contrast(textColour, fill ?? SHEET)).toBeGreaterThanOrEqual(LEAST_CONTRAST);
});

test.each(Object.entries(statusLooks))("the status look %s is readable", (_, { textColour, fill }) => {
  expect(contrast(textColour, fill)).toBeGreaterThanOrEqual(LEAST_CONTRAST);
});

describe.each(visions)("with %s", (vision) => {
  const pairs = Object.entries(statusLooks).flatMap(([one, { fill }], index, all) =>
    all.slice(index + 1).map(([other, { fill: otherFill }]) => ({ one, fill, other, otherFill })),
  );

  test.each(pairs)("$one and $other are told apart", ({ fill, otherFill }) => {
    // Without any hue seven greys under readable text cannot all lie 10 apart; the word tells the rest.
    const least = vision === "no colours" ? 4 : LEAST_DIFFERENCE;
    expect(difference(fill, otherFill, vision)).toBeGreaterThan(least);
  });
});

test("each status word has a look of its own", () => {
  const used = STATUSES.map((word) => statusWordLooks[word]);
  expect(new Set(used).size).toBe(STATUSES.length);
  expect(new Set(used)).toEqual(new Set(Object.keys(statusLooks)));
});

test("text cells keep what is typed, and a date's month is a word", () => {
  expect(numberFormats.text).toBe("@");
  expect(numberFormats.date).toMatch(/mmm/);
});
