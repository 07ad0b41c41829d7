import type { FunctionHelp } from "../../../../../src/taskpane/parts/functions/function-help";
import { callFrom, cellsInWords, referenceIn } from "../../../../../src/taskpane/parts/functions/fill-in/function-call";
import { texts } from "../../../../../src/taskpane/words/texts";

const help: FunctionHelp = {
  id: "READINESS",
  heading: "Record",
  sentence: "",
  syntax: "TWIRL.READINESS(marks, [standard], [setSize], [key])",
  parameters: [
    { name: "marks", optional: false, matrix: true, description: "" },
    { name: "standard", optional: true, matrix: false, description: "" },
    { name: "setSize", optional: true, matrix: false, description: "" },
    { name: "key", optional: true, matrix: false, description: "" },
  ],
  answer: "",
  example: { formula: "", shows: "" },
  errors: "",
  source: "",
};

const call = (typed: readonly string[], target = "'Board 2027'!B5"): ReturnType<typeof callFrom> =>
  callFrom(help, { typed, target, activeSheet: "Board 2027" });
const formula = (typed: readonly string[], target?: string): string => {
  const made = call(typed, target);
  return "formula" in made ? made.formula : JSON.stringify(made);
};

describe("cells in words", () => {
  // A1 references as ECMA-376 part 1, section 18.17.2.3 writes them, quotes in a sheet's name doubled.
  test.each([
    ["Practice 2027", { row: 5, column: 5, rows: 36, columns: 1 }, "'Practice 2027'!E5:E40"],
    ["O'Hara", { row: 1, column: 27, rows: 1, columns: 1 }, "'O''Hara'!AA1"],
    ["Log", { row: 1, column: 2, rows: 1_048_576, columns: 2 }, "'Log'!B:C"],
    ["Log", { row: 3, column: 1, rows: 2, columns: 16_384 }, "'Log'!3:4"],
  ])("on %s: %j is %s, and is read back", (sheet, block, words) => {
    expect(cellsInWords({ sheet, block })).toBe(words);
    expect(referenceIn(words)).toMatchObject({ sheet, block });
  });

  test.each(["ccdcc", "8/10", "Double turn", "0.8", "A0", "ZZZZ1", "XFE1", "A1048577", "A1:", "wilson", ""])(
    "%s names no cells",
    (text) => {
      expect(referenceIn(text)).toBeNull();
    },
  );

  test("corners may come in any order, and with the signs that hold them fast", () => {
    expect(referenceIn("$C$9:B2")?.block).toEqual({ row: 2, column: 2, rows: 8, columns: 2 });
  });
});

describe("the formula", () => {
  test.each([
    ["cells of the target's own sheet go without it", ["'Board 2027'!A1:A9"], "=TWIRL.READINESS(A1:A9)"],
    ["whatever its case", ["'BOARD 2027'!a1:a9"], "=TWIRL.READINESS(A1:A9)"],
    ["cells of another sheet with it, in quotes", ["Log!E5:E40"], "=TWIRL.READINESS('Log'!E5:E40)"],
    ["a quote in the name doubled", ["'O''Hara'!E5"], "=TWIRL.READINESS('O''Hara'!E5)"],
    ["a table's column as it is", ["Practice_2027[Marks]"], "=TWIRL.READINESS(Practice_2027[Marks])"],
    ["a day by its year, month and day", ["13 Oct 2026"], "=TWIRL.READINESS(DATE(2026,10,13))"],
    ["a day without its year as text", ["13 Oct"], '=TWIRL.READINESS("13 Oct")'],
    ["text in quotes", ["ccdcc"], '=TWIRL.READINESS("ccdcc")'],
    ["quotes inside it doubled", ['c"d'], '=TWIRL.READINESS("c""d")'],
    ["text that is in quotes already as it is", ['"cc"'], '=TWIRL.READINESS("cc")'],
    ["a decimal comma as a point", ["A1:A9", "0,8"], "=TWIRL.READINESS(A1:A9,0.8)"],
    ["per cent", ["A1:A9", "80 %"], "=TWIRL.READINESS(A1:A9,80%)"],
    ["what is left out in the middle", ["A1:A9", "", "12"], "=TWIRL.READINESS(A1:A9,,12)"],
    ["what is left out at the end", ["A1:A9", " ", ""], "=TWIRL.READINESS(A1:A9)"],
    ["what looks like a formula is a text", ["=1+1"], '=TWIRL.READINESS("=1+1")'],
  ])("%s", (_, typed, expected) => {
    expect(formula(typed)).toBe(expected);
  });

  test("for a target on another sheet than the one in sight, its cells are named with theirs", () => {
    const made = callFrom(help, { typed: ["A1:A9"], target: "'Notes'!C3", activeSheet: "Log" });
    expect(made).toEqual({ formula: "=TWIRL.READINESS('Log'!A1:A9)", sheet: "Notes", cell: { row: 3, column: 3 } });
  });
});

describe("what is refused", () => {
  const problems = (typed: readonly string[], target?: string): unknown => call(typed, target);

  test("an argument that is needed and empty", () => {
    expect(problems([""])).toMatchObject({ problems: [texts.argumentMissing, "", "", ""], targetProblem: "" });
  });

  test("several cells for one value", () => {
    expect(problems(["A1:A9", "B1:B2"])).toMatchObject({ problems: ["", texts.argumentOneCell("B1:B2"), "", ""] });
  });

  test("cells that hold the target", () => {
    expect(problems(["A1:C9"])).toMatchObject({ problems: [texts.argumentHoldsTarget("B5"), "", "", ""] });
    expect(problems(["Log!A1:C9"])).toHaveProperty("formula");
  });

  test("a quotation mark that is open", () => {
    expect(problems(['"cc'])).toMatchObject({ problems: [texts.argumentQuotes, "", "", ""] });
  });

  test.each(["", "somewhere", "A1:B2", "A:A"])("%p as the target", (target) => {
    expect(problems(["ccd"], target)).toMatchObject({ targetProblem: texts.targetNotOne });
  });
});
