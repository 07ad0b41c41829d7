/** The sample workbook of a club's own older log: its layout, and the mess that its description says it has. */
import { findLayout } from "../../../src/core/log-layout/find-layout";
import { stagesInLog } from "../../../src/core/log-layout/stages";
import { unreadableCells } from "../../../src/core/log-layout/unreadable-cells";
import type { CellBlock, CellValue } from "../../../src/core/log-layout/cell-block";
import { OLDER_LOG_HEADINGS, olderLog } from "../../../src/workbook/sample/older-log";
import { addressOf, col } from "./sheets";

function olderBlock(): CellBlock {
  const sheet = olderLog().sheets.find(({ name }) => name === "Log");
  const cells = sheet?.cells.filter(({ at }) => at.column <= OLDER_LOG_HEADINGS.length) ?? [];
  const values: CellValue[][] = Array.from({ length: Math.max(...cells.map(({ at }) => at.row)) }, () =>
    OLDER_LOG_HEADINGS.map(() => null),
  );
  for (const { at, content } of cells) {
    const row = values[at.row - 1];
    if (!row) continue;
    if (content.kind === "text") row[at.column - 1] = content.text;
    else if (content.kind === "number") row[at.column - 1] = content.value;
    else if (content.kind === "date") row[at.column - 1] = content.serial;
  }
  return { row: 1, column: 1, values };
}

test("its columns are found", () => {
  const { mapping, headingRows } = findLayout(olderBlock());
  expect(headingRows).toEqual([3]);
  expect(mapping).toMatchObject({
    date: col("A"),
    athlete: { column: col("B") },
    trick: { column: col("C") },
    stage: col("D"),
    record: { kind: "tally", caught: col("E"), attempts: col("F") },
    // One day as text among five hundred real ones is listed, and not read.
    dateText: null,
    filledDown: [],
  });
});

test("what is practised apart is guessed by its words", () => {
  const block = olderBlock();
  const stages = stagesInLog(block, findLayout(block).mapping);
  expect(stages[0]?.stage).toBe("together");
  expect(stages.length).toBe(4);
  expect(stages.filter(({ soundsApart }) => soundsApart).map(({ stage }) => stage)).toEqual(["toss alone"]);
});

test("every cell that its keepers typed wrongly is listed, and no other", () => {
  const block = olderBlock();
  const { mapping, headingRows } = findLayout(block);
  const { cells, entries, readable } = unreadableCells(block, mapping, headingRows);
  const listed = cells.map(({ row, column, kind }) => {
    const value = block.values[row - 1]?.[column - 1] ?? null;
    return `${kind} ${addressOf({ row, column }).replace(/\d+/, "")}: ${String(value)}`;
  });
  expect(listed).toEqual([
    "unreadable E: lots",
    "unreadable A: 12.11.24",
    "unreadable E: 11",
    "unreadable F: 10ish",
    "unreadable A: Tue 3rd",
    "unreadable E: 7/10",
    "missing F: null",
    "missing B: null",
    "unreadable A: 14th Jan",
    "unreadable E: all",
    "unreadable E: 8",
    "missing F: null",
    "unreadable A: yesterday",
    "unreadable E: ?",
    "unreadable E: 12",
  ]);
  expect(entries - readable).toBe(14);
});
