import { blockName, cellName } from "../../../src/workbook/plan/address";
import { columnLetters } from "../../../src/core/sheet";

const columns = [
  { given: 1, expected: "A", because: "the first column" },
  { given: 26, expected: "Z", because: "the last column of one letter" },
  { given: 27, expected: "AA", because: "there is no zero among the letters" },
  { given: 702, expected: "ZZ", because: "26 + 26 × 26" },
  { given: 703, expected: "AAA", because: "the first column of three letters" },
  { given: 16_384, expected: "XFD", because: "the last column of a sheet, as the file format has it" },
];

test.each(columns)("column $given is $expected: $because", ({ given, expected }) => {
  expect(columnLetters(given)).toBe(expected);
});

test.each([0, -1, 1.5, 16_385, NaN])("there is no column %p", (given) => {
  expect(() => columnLetters(given)).toThrow(RangeError);
});

test.each([0, 1_048_577, 2.5, NaN])("there is no row %p", (given) => {
  expect(() => cellName({ row: given, column: 1 })).toThrow(RangeError);
});

test("a block of one cell is named as the cell, a larger one by its corners", () => {
  expect(blockName({ row: 4, column: 1, rows: 1, columns: 1 })).toBe("A4");
  expect(blockName({ row: 4, column: 1, rows: 16, columns: 13 })).toBe("A4:M19");
});
