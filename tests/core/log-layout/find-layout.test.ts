import { findLayout } from "../../../src/core/log-layout/find-layout";
import { suggestKey } from "../../../src/core/log-layout/suggest-key";
import { unreadableCells } from "../../../src/core/log-layout/unreadable-cells";
import { layouts } from "./layouts";
import { addressOf, day, sheet } from "./sheets";

/** The parts of what was found that the layout speaks of. */
function asExpected<Expected extends object>(found: object, expected: Expected): object {
  return Object.fromEntries(Object.keys(expected).map((name) => [name, (found as Record<string, unknown>)[name]]));
}

describe("logs of clubs", () => {
  test.each(layouts.map((layout) => [layout.name, layout] as const))("%s: the columns are found", (_, layout) => {
    const found = findLayout(layout.block);
    expect(asExpected({ ...found.mapping, headingRows: found.headingRows }, layout.expected)).toEqual(layout.expected);
  });

  test.each(layouts.map((layout) => [layout.name, layout] as const))(
    "%s: after the coach's word all is found, and the unreadable cells are listed",
    (_, layout) => {
      const found = findLayout(layout.block, layout.corrections);
      const expected = { ...layout.expected, ...layout.corrected };
      expect(asExpected({ ...found.mapping, headingRows: found.headingRows }, expected)).toEqual(expected);
      const { cells, count } = unreadableCells(layout.block, found.mapping, found.headingRows);
      const listed = cells.map((cell) => `${cell.kind === "missing" ? "- " : ""}${addressOf(cell)} ${cell.role}`);
      expect(listed.sort()).toEqual([...layout.unreadable].sort());
      expect(count).toBe(layout.unreadable.length);
    },
  );

  test.each(layouts.map((layout) => [layout.name, layout] as const))("%s: the key that is offered", (_, layout) => {
    const corrections = { ...layout.corrections, key: null };
    const suggested = suggestKey(layout.block, findLayout(layout.block, corrections).mapping);
    expect(suggested === null ? undefined : { first: suggested.keys[0], sure: suggested.sure }).toEqual(layout.key);
  });
});

test("a week's total that carries a day is not the first row of the log", () => {
  const block = sheet("A1", [
    [day("2025-04-23"), null, null, null, null],
    [null, "Lea B.", "Double turn", 8, 10],
    [null, "M.K.", "Illusion", 9, 10],
    [day("2025-04-23"), null, "Week total", 17, 20],
    [day("2025-04-30"), null, null, null, null],
    [null, "Lea B.", "Double turn", 9, 10],
    [null, "M.K.", "Illusion", 7, 10],
  ]);
  expect(findLayout(block).mapping).toMatchObject({ firstRow: 1, lastRow: 7 });
});

test("dashes between the marks are no marks: no key is offered for them, and the marks are read", () => {
  const rows = ["2025-01-04", "2025-01-10", "2025-01-12"].map((iso) => [day(iso), "A.R.", "Double tour", "C-C-C-C-C"]);
  const block = sheet("A1", [["Giorno", "Atleta", "Esercizio", "Tentativi"], ...rows]);
  const { mapping, headingRows } = findLayout(block);
  expect(suggestKey(block, mapping, headingRows)).toBeNull();
  expect(mapping.writing).toEqual({ text: "-", by: "" });
  expect(unreadableCells(block, mapping, headingRows).cells.map(addressOf)).toEqual([]);
});
