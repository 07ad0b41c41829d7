import { columnsAround } from "../../../src/core/log-layout/block-around";
import { col, sheet } from "./sheets";

const beside = sheet("B1", [
  ["Log of all groups"],
  [],
  ["Date", "Who", "Trick", "Marks", null, "When", "Contest", "Who", "Drops", "Place"],
  [46000, "M.K.", "Two spin", "ccd", null, 46010, "Winter", "M.K.", 1, 3],
  [46000, "A.R.", null, "ccd", null, null, null, null, null, null],
]);

test.each([
  ["a cell of the log", "D", "B", "E"],
  ["the title over it", "B", "B", "E"],
  ["a cell of the list beside it", "H", "G", "K"],
  ["the gap between them: the wider of the two", "F", "G", "K"],
  ["nowhere near", "Z", "G", "K"],
])("%s leads to the columns around it", (_, selected, first, last) => {
  expect(columnsAround(beside, col(selected))).toEqual({ first: col(first), last: col(last) });
});

test("an empty sheet has none", () => {
  expect(columnsAround(sheet("A1", [[null, null]]), 1)).toBeNull();
});
