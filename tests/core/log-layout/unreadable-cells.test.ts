import { findLayout, type Corrections } from "../../../src/core/log-layout/find-layout";
import { MOST_CELLS_LISTED, unreadableCells } from "../../../src/core/log-layout/unreadable-cells";
import { addressOf, day, sheet, turned } from "./sheets";

function unreadable(block: ReturnType<typeof sheet>, corrections: Corrections = {}) {
  const { mapping, headingRows } = findLayout(block, corrections);
  return unreadableCells(block, mapping, headingRows);
}

const heading = ["Date", "Athlete", "Trick", "Result"];

test("says what stands in the cell, and what would be read", () => {
  const { cells, talliesTurnedToDays } = unreadable(
    sheet("A1", [
      heading,
      [day("2026-03-02"), "M.K.", "Two spin", "8/10"],
      [day("2026-03-02"), "J.T.", "Two spin", turned("2026-10-08", "8-Oct")],
      ["soon", "J.T.", "Two spin", "11/10"],
      [day("2026-03-02"), true, "#REF!", "x"],
      [day("2026-03-04"), "M.K.", "Two spin", "9/10"],
      [day("2026-03-04"), "M.K.", "Two spin", "9/10"],
    ]),
  );
  expect(cells.map((cell) => [addressOf(cell), cell.found, cell.accepted])).toEqual([
    ["D3", "a date (8-Oct)", expect.stringMatching(/8\/10 typed into an unformatted cell turns into a date.*as text/)],
    ["A4", 'the text "soon"', expect.stringMatching(/^a date, not text/)],
    ["D4", "the tally 11/10, which has more caught than tried", expect.stringMatching(/caught first/)],
    ["B5", "TRUE", expect.stringMatching(/name or initials/)],
    ["C5", "the error #REF!", expect.stringMatching(/mend it/)],
    ["D5", 'the text "x"', expect.stringMatching(/either way round.*key/)],
  ]);
  expect(talliesTurnedToDays).toBe(1);
});

test("names a day as text that reads both ways", () => {
  const { cells } = unreadable(
    sheet("A1", [heading, ["3/4/2026", "M.K.", "Two spin", "8/10"], ["5/4/2026", "M.K.", "Two spin", "8/10"]]),
  );
  expect(cells.map(({ accepted }) => accepted)).toEqual(
    Array(2).fill(expect.stringMatching(/day first or month first/)),
  );
});

test("counts all and lists the first", () => {
  const rows = Array.from({ length: 500 }, (_, row) => [
    day("2026-03-02"),
    "M.K.",
    "Two spin",
    row % 2 === 0 ? "8/10" : "sick",
  ]);
  const found = unreadable(sheet("A1", [heading, ...rows]), {
    record: { kind: "marks", first: 4, last: 4 },
  });
  expect(found.count).toBe(250);
  expect(found.cells.length).toBe(MOST_CELLS_LISTED);
  expect(found.cells.at(-1)?.row).toBe(1 + 2 * MOST_CELLS_LISTED);
  expect([found.entries, found.readable]).toEqual([500, 250]);
  expect(found.unknownMarks).toEqual([{ text: "sick", count: 250 }]);
});

test("a row without attempts is missing them; a month's name or a sum is no row of the log", () => {
  const found = unreadable(
    sheet("A1", [
      heading,
      ["March"],
      [day("2026-03-02"), "M.K.", "Two spin", "8/10"],
      [day("2026-03-02"), "J.T.", "Two spin", ""],
      ["Total", "", "", "8/10"],
      [],
      heading,
      [day("2026-04-02"), "M.K.", "Two spin", "8/10"],
      [day("2026-04-02"), "J.T.", "Two spin", "7/10"],
    ]),
  );
  expect(found.cells.map((cell) => `${cell.kind} ${addressOf(cell)}`)).toEqual(["missing D4"]);
  expect([found.entries, found.readable, found.missing]).toEqual([4, 3, 1]);
});

test("a date that is written once stands for the rows below it", () => {
  const rows = [
    [day("2026-03-02"), "M.K.", "Two spin", "8/10"],
    ["", "J.T.", "Two spin", "7/10"],
    ["", "A.R.", "Two spin", "7/10"],
    ["", "S.L.", "Two spin", "7/10"],
  ];
  expect(unreadable(sheet("A1", [heading, ...rows])).count).toBe(0);
  expect(unreadable(sheet("A1", [heading, ...rows]), { filledDown: [] }).missing).toBe(3);
  // Nothing stands above the first row: its day is missing all the same.
  const [first, ...others] = rows;
  const late = [["", ...(first ?? []).slice(1)], ...others, ...rows];
  const { cells } = unreadable(sheet("A1", [heading, ...late]), { filledDown: ["date"] });
  expect(cells.map(addressOf)).toEqual(["A2", "A3", "A4", "A5"]);
});

test("a set of drops alone, each the number 0, is a row like any other: what it lacks is listed", () => {
  const block = sheet("A1", [
    ["Date", "Athlete", "Trick", 1, 2, 3],
    [day("2026-03-02"), "M.K.", "Two spin", 1, 0, 1],
    [null, null, "Illusion", 0, 0, 0],
    [day("2026-03-04"), "M.K.", "Two spin", 1, 1, 0],
    [day("2026-03-04"), "J.T.", "Two spin", 0, 1, 0],
  ]);
  const { cells } = unreadable(block, { key: "1/0" });
  expect(cells.map(addressOf)).toEqual(["A3", "B3"]);
});
