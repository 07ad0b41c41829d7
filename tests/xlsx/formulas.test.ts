import { FILE_PREFIXES } from "../../src/workbook/plan/formula";
import { worksWithBlocks } from "../../src/xlsx/formulas/arrays";
import { isFormula } from "../../src/xlsx/formulas/check";
import { filePrefix } from "../../src/xlsx/formulas/future-functions";
import { readFormula, type FormulaReading } from "../../src/xlsx/formulas/reading";
import { shiftedFormula } from "../../src/xlsx/formulas/shifting";
import { formulaTokens, joinTokens } from "../../src/xlsx/formulas/tokens";
import { writeFormula } from "../../src/xlsx/formulas/writing";

const reading: FormulaReading = {
  ownFunctions: ["READINESS", "BOARD"],
  knownFunctions: new Set(["SUM", "IF", "LET", "FILTER", "XLOOKUP", "TWIRL.READINESS", "TWIRL.BOARD"]),
  tables: new Map([
    ["log", { hasHeadings: true, hasTotals: false }],
    ["summed", { hasHeadings: true, hasTotals: true }],
    ["bare", { hasHeadings: false, hasTotals: false }],
  ]),
  unknownNames: new Set(["lastyear"]),
};

describe("a formula's words", () => {
  test.each([
    `IF("a""b"&'O''Hara & co'!$A$1>1.5E-3,#N/A,Log[[#This Row],[a '[b]]])`,
    `SUM(Sheet1!A:A,[2]Other!B3,'[2]Other one'!B3,{1,2;3,4})*-5%`,
    `"never closed`,
    `_xlfn.LET(_xlpm.x,1,_xlpm.x)`,
    "Straße+日本!A1",
    "#",
    "",
  ])("%s is whole again when they are put together", (formula) => {
    expect(joinTokens(formulaTokens(formula))).toBe(formula);
  });

  test("tell calls from names and text", () => {
    const kinds = formulaTokens(`SUM(Log[Marks],"SUM(",A1)`).map(({ kind, text }) => `${kind} ${text}`);
    expect(kinds).toEqual([
      "call SUM",
      "sign (",
      "word Log",
      "columns [Marks]",
      "sign ,",
      'text "SUM("',
      "sign ,",
      "word A1",
      "sign )",
    ]);
  });
});

describe("from the file to the grid", () => {
  test.each([
    ["_xldudf_TWIRL_READINESS(Log[Marks],0.8)", "=TWIRL.READINESS(Log[Marks],0.8)"],
    ["_XLDUDF_twirl_board(A1:A9)", "=TWIRL.BOARD(A1:A9)"],
    ['SUM("_xldudf_TWIRL_BOARD(")', '=SUM("_xldudf_TWIRL_BOARD(")'],
    ["_xlfn._xlws.FILTER(A:A,B:B)", "=FILTER(A:A,B:B)"],
    ["_xlfn.XLOOKUP(1,A:A,B:B)", "=XLOOKUP(1,A:A,B:B)"],
    ["_xlfn.LET(_xlpm.rate,A1,_xlpm.rate*2)", "=LET(rate,A1,rate*2)"],
    ["[@Marks]&[@[Two words]]", "=Log[[#This Row],[Marks]]&Log[[#This Row],[Two words]]"],
    ["Log[@Marks]", "=Log[[#This Row],[Marks]]"],
    ["SUM([Marks])", "=SUM(Log[Marks])"],
    ["Log[[#This Row],[Marks]]", "=Log[[#This Row],[Marks]]"],
    ["Summed[Marks]", "=Summed[Marks]"],
  ])("%s reads %s", (file, grid) => {
    expect(readFormula(file, reading, "Log")).toEqual({ text: grid, isWorkable: true });
  });

  test.each([
    ["another workbook", "SUM([1]Log!A1)"],
    ["another workbook, quoted", "'[club.xlsx]Log 1'!A1"],
    ["several sheets at once", "SUM(Sheet1:Sheet3!A1)"],
    ["a function that the engine does not know", "CUBEVALUE(1)"],
    ["one of ours that is no longer there", "_xldudf_TWIRL_GONE(1)"],
    ["a table that is not there", "SUM(Nowhere[Marks])"],
    ["a row of totals", "Summed[[#Totals],[Marks]]"],
    ["a table without headings", "SUM(Bare[Column1])"],
    ["a name that cannot be worked out", "LastYear+1"],
    ["one value of many", "_xlfn.SINGLE(A1:A3)"],
  ])("knows that the grid has no %s", (_, file) => {
    expect(readFormula(file, reading).isWorkable).toBe(false);
  });

  test("takes a name that LET gave to a function for no unknown function", () => {
    const own = "_xlfn.LET(_xlpm.twice,_xlfn.LAMBDA(_xlpm.x,_xlpm.x*2),_xlpm.twice(4))";
    const known = { ...reading, knownFunctions: new Set(["LET", "LAMBDA"]) };
    expect(readFormula(own, known)).toEqual({ text: "=LET(twice,LAMBDA(x,x*2),twice(4))", isWorkable: true });
  });
});

describe("a formula that is held once for a block", () => {
  test.each([
    ["A1+$B$2+C$3+$D4", 2, 1, "B3+$B$2+D$3+$D6"],
    ["SUM(A:B,$C:D,1:2,$3:4)", 1, 1, "SUM(B:C,$C:E,2:3,$3:5)"],
    ["'A1'!A1&\"A1\"&Log[A1]&LOG10(A1)&A1B", 1, 0, "'A1'!A2&\"A1\"&Log[A1]&LOG10(A2)&A1B"],
    ["A1", -1, 0, "#REF!"],
    ["XFD1", 0, 1, "#REF!"],
    ["TRUE+1E5", 4, 4, "TRUE+1E5"],
  ])("%s, %i below and %i right, reads %s", (formula, rows, columns, expected) => {
    expect(shiftedFormula(formula).at(rows, columns)).toBe(expected);
  });
});

describe("from the grid to the file", () => {
  test.each([
    ["=TWIRL.READINESS(Log[Marks],0.8)", "_xldudf_TWIRL_READINESS(Log[Marks],0.8)"],
    ["=twirl.board(A1:A9)", "_xldudf_TWIRL_BOARD(A1:A9)"],
    ['="TWIRL.BOARD("', '"TWIRL.BOARD("'],
    ["=FILTER(A:A,B:B)", "_xlfn._xlws.FILTER(A:A,B:B)"],
    ["=IFNA(xlookup(1,A:A,B:B),0)", "_xlfn.IFNA(_xlfn.xlookup(1,A:A,B:B),0)"],
    ["=LET(rate, A1, rate*2)", "_xlfn.LET(_xlpm.rate, A1, _xlpm.rate*2)"],
    ["=LET(twice,LAMBDA(x,x*2),twice(4))", "_xlfn.LET(_xlpm.twice,_xlfn.LAMBDA(_xlpm.x,_xlpm.x*2),_xlpm.twice(4))"],
    ["=SUM('A b'!F9#)", "SUM(_xlfn.ANCHORARRAY('A b'!F9))"],
    ["=#REF!+1", "#REF!+1"],
  ])("%s is written %s", (grid, file) => {
    expect(writeFormula(grid)).toBe(file);
  });

  test.each([
    "1",
    "-A1%",
    'IF(A1="","",B1)',
    "F(1,,3)",
    "F(,)",
    "TODAY()",
    "{1,2;3,4}",
    "(A1:B2,C3)",
    "LAMBDA(x,x)(4)",
    "Log[Marks]+Log[[#This Row],[A]]",
    "'O''Hara'!A1>=Sheet2!B2",
    "+-1<>2",
    "SUM( A1 , B2 )",
    "A1#",
  ])("%s is a formula", (formula) => {
    expect(isFormula(formula)).toBe(true);
  });

  test.each([
    "",
    "1+",
    "SUM(",
    "SUM(1))",
    "(1",
    '"never closed',
    "1 2",
    "*3",
    "A1 B1 C1)",
    "Log[Marks",
    "{1,2",
    "F(1;2)",
    ",",
    "1,2",
  ])("%s is none", (formula) => {
    expect(isFormula(formula)).toBe(false);
  });

  test.each([
    ["=A1+1", false],
    ["=SUM(A1:A9)", false],
    ["=SUM(Log[Marks])/COUNTA(B:B)", false],
    ['=IF(COUNTIF(A1:A9,"x")>2,"a",Log[[#This Row],[Marks]])', false],
    ["=ROUND(AVERAGE(A1:A3),1)", false],
    // One cell of each block would be read, and the sum be wrong.
    ["=SUM(A1:A3*B1:B3)", true],
    ['=SUM(IF(A1:A9="x",1,0))', true],
    ["=A1:A9", true],
    ["=Log[Marks]", true],
    ["=Standard*2", true],
    ["=UNIQUE(A1:A9)", true],
    ["=TWIRL.STREAK(A1:A9)", true],
    ["=SUM({1,2}*A1)", true],
    ["=INDEX(A1:B9,1,0)", true],
  ])("%s works with blocks: %s", (formula, expected) => {
    expect(worksWithBlocks(formula)).toBe(expected);
  });
});

test.each(Object.entries(FILE_PREFIXES))(
  "%s has the same prefix in a plan and in a file that is changed",
  (name, prefix) => {
    expect(filePrefix(name)).toBe(prefix);
  },
);
