import {
  call,
  callsTwirl,
  cell,
  cells,
  column,
  columns,
  leftOut,
  operation,
  printFormula,
  thisRow,
  twirl,
  type Formula,
} from "../../../src/workbook/plan/formula";

interface Case {
  readonly formula: Formula;
  readonly sheet: string;
  readonly file: string;
  readonly because: string;
}

const board = twirl("BOARD", column("Practice_2027", "Date"), cell(5, 2, "Season 2027"));

const cases: readonly Case[] = [
  {
    formula: board,
    sheet: "TWIRL.BOARD(Practice_2027[Date],'Season 2027'!$B$5)",
    file: "_xldudf_TWIRL_BOARD(Practice_2027[Date],'Season 2027'!$B$5)",
    because: "a file stores our own functions under a prefix, with no dot",
  },
  {
    formula: call("IFNA", board, "none"),
    sheet: `IFNA(TWIRL.BOARD(Practice_2027[Date],'Season 2027'!$B$5),"none")`,
    file: `_xlfn.IFNA(_xldudf_TWIRL_BOARD(Practice_2027[Date],'Season 2027'!$B$5),"none")`,
    because: "IFNA came after the file format",
  },
  {
    formula: call("XLOOKUP", "a", cells({ row: 1, column: 1 }, { row: 9, column: 1 }), column("T", "C")),
    sheet: `XLOOKUP("a",$A$1:$A$9,T[C])`,
    file: `_xlfn.XLOOKUP("a",$A$1:$A$9,T[C])`,
    because: "so did XLOOKUP; a block without a sheet is on the formula's own",
  },
  {
    formula: call("SUM", 1, 2),
    sheet: "SUM(1,2)",
    file: "SUM(1,2)",
    because: "SUM is as old as the format",
  },
  {
    formula: cell(1, 1, "M.K.'s board"),
    sheet: "'M.K.''s board'!$A$1",
    file: "'M.K.''s board'!$A$1",
    because: "a quote in a sheet's name is doubled",
  },
  {
    formula: columns("T", "Try 1", "Try #2"),
    sheet: "T[[Try 1]:[Try '#2]]",
    file: "T[[Try 1]:[Try '#2]]",
    because: "several columns stand in brackets of their own, and a # inside them wants a '",
  },
  {
    formula: columns("T", "C", "C"),
    sheet: "T[C]",
    file: "T[C]",
    because: "one column is no block",
  },
  {
    formula: call("SEQUENCE", 3),
    sheet: "SEQUENCE(3)",
    file: "_xlfn.SEQUENCE(3)",
    because: "SEQUENCE came after the file format",
  },
  {
    formula: column("T", "Sets done"),
    sheet: "T[Sets done]",
    file: "T[Sets done]",
    because: "a space needs nothing more",
  },
  {
    formula: column("T", "Airtime (s)"),
    sheet: "T[[Airtime (s)]]",
    file: "T[[Airtime (s)]]",
    because: "other signs need a second pair of brackets",
  },
  {
    formula: column("T", "A[1]'s #@"),
    sheet: "T[[A'[1']''s '#'@]]",
    file: "T[[A'[1']''s '#'@]]",
    because: "brackets, quotes, # and @ in a heading want a quote before them",
  },
  {
    formula: thisRow("Tricks_2027", "Body counts"),
    sheet: "Tricks_2027[[#This Row],[Body counts]]",
    file: "Tricks_2027[[#This Row],[Body counts]]",
    because: "the short form with @ is for the formula bar alone",
  },
  {
    formula: operation('say "c"', "&", ""),
    sheet: `"say ""c"""&""`,
    file: `"say ""c"""&""`,
    because: "quotes in a text are doubled",
  },
  {
    formula: operation(operation(1, "+", 2), "*", 3),
    sheet: "(1+2)*3",
    file: "(1+2)*3",
    because: "× binds tighter than +",
  },
  {
    formula: operation(operation(1, "*", 2), "+", 3),
    sheet: "1*2+3",
    file: "1*2+3",
    because: "no parentheses where none are needed",
  },
  {
    formula: operation(10, "-", operation(3, "-", 2)),
    sheet: "10-(3-2)",
    file: "10-(3-2)",
    because: "operators group from the left",
  },
  {
    formula: operation(operation(10, "-", 3), "-", 2),
    sheet: "10-3-2",
    file: "10-3-2",
    because: "and on the left that is the order already",
  },
  {
    formula: operation(operation("a", "&", "b"), "=", operation(1, "+", 2)),
    sheet: `"a"&"b"=1+2`,
    file: `"a"&"b"=1+2`,
    because: "a comparison binds last",
  },
  {
    formula: operation("a", "&", operation(1, "=", 2)),
    sheet: `"a"&(1=2)`,
    file: `"a"&(1=2)`,
    because: "a comparison inside a text needs parentheses",
  },
  {
    formula: twirl("TOSSHEIGHT", 2.1, leftOut, "ft", leftOut, leftOut),
    sheet: `TWIRL.TOSSHEIGHT(2.1,,"ft")`,
    file: `_xldudf_TWIRL_TOSSHEIGHT(2.1,,"ft")`,
    because: "arguments left out at the end are not written; between others they are",
  },
  {
    formula: operation(1e21, "/", 1e-7),
    sheet: "1E+21/1E-7",
    file: "1E+21/1E-7",
    because: "exponents are written with a capital",
  },
];

test.each(cases)("$sheet: $because", ({ formula, sheet, file }) => {
  expect(printFormula(formula, "sheet")).toBe(sheet);
  expect(printFormula(formula, "file")).toBe(file);
});

test.each([NaN, Infinity, -Infinity])("a formula cannot hold %p", (value) => {
  expect(() => printFormula({ kind: "number", value }, "sheet")).toThrow(RangeError);
});

test("a reference off the sheet is refused", () => {
  expect(() => printFormula(cell(0, 1), "sheet")).toThrow(RangeError);
  expect(() => printFormula(cell(1, 16_385), "sheet")).toThrow(RangeError);
});

test("a call of ours is found however deep it lies", () => {
  expect(callsTwirl(operation(1, "+", call("IF", 1, call("SUM", board))))).toBe(true);
  expect(callsTwirl(operation(1, "+", call("IF", 1, thisRow("T", "TWIRL"))))).toBe(false);
});
