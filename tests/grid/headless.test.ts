import { calculate, type BuiltFunctions, type HeadlessSheet } from "../../src/grid/headless";
import { fixtureMetadata, fixtureScript } from "./fixture";
import { smallPlan } from "./plan";

const built: BuiltFunctions = {
  functionsScript: fixtureScript,
  functionsMetadata: fixtureMetadata,
  emptyCells: "null",
};

describe("a plan worked out without a page", () => {
  let answers: HeadlessSheet;
  let log: HeadlessSheet;

  beforeAll(async () => {
    const workbook = await calculate(smallPlan, built);
    expect([...workbook.keys()]).toEqual(["Log O'Hara", "Answers"]);
    answers = workbook.get("Answers") as HeadlessSheet;
    log = workbook.get("Log O'Hara") as HeadlessSheet;
  });

  test("a spilling answer fills its block, and its size is told", () => {
    expect(answers.spills).toEqual(new Map([["A1", { rows: 4, columns: 2 }]]));
    const block = ["A1", "B1", "A2", "B2", "A3", "B3", "A4", "B4"].map((address) => answers.values.get(address));
    expect(block).toEqual([
      { kind: "text", text: "Mark" },
      { kind: "text", text: "Count" },
      { kind: "text", text: "0110" },
      { kind: "number", value: 1 },
      { kind: "text", text: "=1+1" },
      { kind: "number", value: 1 },
      { kind: "text", text: "c" },
      { kind: "number", value: 1 },
    ]);
  });

  test("table columns are read by their names, parentheses and all", () => {
    expect(answers.values.get("E1")).toEqual({ kind: "number", value: 3.5 });
    expect(answers.values.get("E2")).toEqual({ kind: "text", text: "[[1.5],[2],[null]]" });
  });

  test("calculated columns answer in every row", () => {
    expect(["D4", "D5", "D6"].map((address) => log.values.get(address))).toEqual([
      { kind: "number", value: 3 },
      { kind: "number", value: 4 },
      { kind: "number", value: 0 },
    ]);
  });

  test("errors keep their name and their message", () => {
    expect(answers.values.get("E3")).toEqual({ kind: "error", name: "#N/A" });
    expect(answers.messages).toEqual(new Map([["E3", "No attempts yet."]]));
  });

  test("truth values, and text that looks like a formula on another sheet", () => {
    expect(answers.values.get("E4")).toEqual({ kind: "boolean", value: true });
    expect(answers.values.get("E5")).toEqual({ kind: "text", text: "=1+1" });
  });

  test("only formulas and what they spill into are answered", () => {
    expect([...log.values.keys()].sort()).toEqual(["D4", "D5", "D6"]);
  });
});

test("workbooks worked out at the same time do not mix", async () => {
  const other = (marks: string): typeof smallPlan => ({
    ...smallPlan,
    sheets: smallPlan.sheets.map((sheet) => ({
      ...sheet,
      tables: sheet.tables.map((table) => ({
        ...table,
        rows: table.rows.map(([date, , ...rest]) => [
          date ?? { kind: "empty" },
          { kind: "text", text: marks },
          ...rest,
        ]),
      })),
    })),
  });
  const [first, second] = await Promise.all([calculate(other("c"), built), calculate(other("d"), built)]);
  expect(first?.get("Answers")?.values.get("A2")).toEqual({ kind: "text", text: "c" });
  expect(second?.get("Answers")?.values.get("A2")).toEqual({ kind: "text", text: "d" });
});

test("functions that cannot be loaded are said", async () => {
  await expect(calculate(smallPlan, { ...built, functionsScript: "throw new Error('broken')" })).rejects.toThrow(
    "broken",
  );
  await expect(calculate(smallPlan, { ...built, functionsScript: "" })).rejects.toThrow(
    "functions.js does not bring it",
  );
});
