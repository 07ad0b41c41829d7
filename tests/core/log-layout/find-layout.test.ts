import { findLayout } from "../../../src/core/log-layout/find-layout";
import { suggestKey } from "../../../src/core/log-layout/suggest-key";
import { unreadableCells } from "../../../src/core/log-layout/unreadable-cells";
import { layouts } from "./layouts";
import { addressOf } from "./sheets";

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
