import type { ICellData, IWorkbookData } from "@univerjs/core";
import { CellValueType, LocaleType } from "@univerjs/core";

import { bindCustomFunctions, createFunctionsGlobal, type EmptyCells } from "../../../src/grid/engine/custom-functions";
import { loadFunctions } from "../../../src/grid/engine/functions-realm";
import { calculateSnapshot, type HeadlessSheet } from "../../../src/grid/headless";
import { MessageBook } from "../../../src/grid/engine/messages";
import { fixtureMetadata, fixtureScript } from "../fixture";

/** What stands in the sheet beside each formula: B1 text, B2 a number, B3 TRUE, B4 empty, B5 an error, B6 text of digits. */
const beside: readonly (ICellData | undefined)[] = [
  { v: "c", t: CellValueType.STRING },
  { v: 7, t: CellValueType.NUMBER },
  { v: 1, t: CellValueType.BOOLEAN },
  undefined,
  { v: "#N/A", t: CellValueType.STRING },
  { v: "0110", t: CellValueType.STRING },
];

interface Setting {
  readonly emptyCells?: EmptyCells;
  readonly allowErrors?: boolean;
}

async function sheetWith(formulas: readonly string[], setting: Setting = {}): Promise<HeadlessSheet> {
  const cellData: Record<number, Record<number, ICellData>> = {};
  for (const [row, cell] of beside.entries()) if (cell !== undefined) cellData[row] = { 1: cell };
  // Ten rows apart, so that no answer spills over the next one.
  for (const [index, formula] of formulas.entries()) {
    (cellData[index * 10] ??= {})[3] = { f: formula };
  }
  const snapshot: IWorkbookData = {
    id: "workbook",
    name: "",
    appVersion: "",
    locale: LocaleType.EN_US,
    styles: {},
    sheetOrder: ["one"],
    sheets: { one: { id: "one", name: "One", rowCount: 400, columnCount: 12, cellData } },
  };
  const workbook = await calculateSnapshot(snapshot, {
    functionsScript: fixtureScript,
    functionsMetadata: { ...fixtureMetadata, allowErrorForDataTypeAny: setting.allowErrors ?? true },
    emptyCells: setting.emptyCells ?? "zero",
  });
  const sheet = workbook.get("One");
  if (sheet === undefined) throw new Error("The sheet is gone.");
  return sheet;
}

interface Case extends Setting {
  readonly formula: string;
  readonly expected: string | number | boolean;
  readonly message?: string;
  readonly because: string;
}

async function check(cases: readonly Case[], setting: Setting): Promise<void> {
  const sheet = await sheetWith(
    cases.map(({ formula }) => formula),
    setting,
  );
  const found = cases.map(({ formula, because }, index) => {
    const address = `D${index * 10 + 1}`;
    const value = sheet.values.get(address);
    const shown =
      value === undefined
        ? undefined
        : value.kind === "text"
          ? value.text
          : value.kind === "error"
            ? value.name
            : value.value;
    return { formula, because, shown, message: sheet.messages.get(address) };
  });
  expect(found).toEqual(
    cases.map(({ formula, because, expected, message }) => ({ formula, because, shown: expected, message })),
  );
}

describe("what reaches a function", () => {
  test("values of every kind, in ranges and alone", () =>
    check(
      [
        { formula: "=TWIRL.SHOW(B1:B3)", expected: '[["c"],[7],[true]]', because: "a block arrives row by row" },
        { formula: "=TWIRL.SHOW(B1)", expected: '[["c"]]', because: "one cell is a block of one" },
        { formula: "=TWIRL.SHOW(B2:C3)", expected: "[[7,0],[true,0]]", because: "two columns, two rows" },
        { formula: '=TWIRL.SHOW("c")', expected: '[["c"]]', because: "a typed value is a block of one" },
        { formula: '=TWIRL.SHOW({1,2;"a",TRUE})', expected: '[[1,2],["a",true]]', because: "a typed block" },
        { formula: "=TWIRL.SHOWONE(B3)", expected: "true", because: "a truth value stays one" },
        { formula: "=TWIRL.SHOWONE(B6)", expected: '"0110"', because: "text of digits stays text" },
        { formula: "=twirl.showone(B2)", expected: "7", because: "names are read without regard to case" },
        { formula: "=TWIRL.ADDONE(B2)", expected: 8, because: "a number for a number" },
        { formula: '=TWIRL.ADDONE("4")', expected: 5, because: "text that is a number serves as one" },
        { formula: "=TWIRL.HOWMANY(B:B)", expected: 5, because: "a whole column" },
        { formula: "=TWIRL.ADDONE(TWIRL.ADDONE(B2))", expected: 9, because: "one call inside another" },
      ],
      {},
    ));

  test("empty cells as 0", () =>
    check(
      [
        { formula: "=TWIRL.SHOW(B3:B4)", expected: "[[true],[0]]", because: "in a range" },
        { formula: "=TWIRL.SHOWONE(B4)", expected: "0", because: "alone" },
      ],
      { emptyCells: "zero" },
    ));

  test("empty cells as nothing", () =>
    check(
      [
        { formula: "=TWIRL.SHOW(B3:B4)", expected: "[[true],[null]]", because: "in a range" },
        { formula: "=TWIRL.SHOWONE(B4)", expected: "null", because: "alone" },
        { formula: "=TWIRL.SHOW(B1:C2)", expected: '[["c",null],[7,null]]', because: "a column without any cell" },
      ],
      { emptyCells: "null" },
    ));

  test("arguments left out are null, whatever empty cells are", () =>
    check(
      [
        { formula: "=TWIRL.SHOWTHREE(1)", expected: "[1,null,null]", because: "at the end" },
        { formula: "=TWIRL.SHOWTHREE(1,,3)", expected: "[1,null,3]", because: "in the middle" },
        { formula: "=TWIRL.SHOWTHREE(1,B4,3)", expected: "[1,0,3]", because: "an empty cell is not left out" },
        { formula: "=TWIRL.SHOWONE()", expected: "null", because: "the only one" },
      ],
      { emptyCells: "zero" },
    ));

  test("errors arrive as error objects", () =>
    check(
      [
        { formula: "=TWIRL.SHOW(B4:B5)", expected: "[[0],[error #N/A]]", because: "in a range" },
        { formula: "=TWIRL.SHOWONE(1/0)", expected: "error #DIV/0!", because: "worked out on the way" },
        { formula: "=TWIRL.SHOWONE(B5)", expected: "error #N/A", because: "alone" },
      ],
      {},
    ));

  test("without allowErrorForDataTypeAny an error ends the call", () =>
    check(
      [
        { formula: "=TWIRL.SHOW(B4:B5)", expected: "#N/A", because: "in a range" },
        { formula: "=TWIRL.SHOWONE(1/0)", expected: "#DIV/0!", because: "alone" },
      ],
      { allowErrors: false },
    ));
});

describe("calls that never reach the function", () => {
  test("are answered with an error that says why", () =>
    check(
      [
        {
          formula: "=TWIRL.SHOWONE(B1:B2)",
          expected: "#VALUE!",
          message: "value takes one cell, not a range.",
          because: "a range for one value",
        },
        {
          formula: "=TWIRL.SHOW()",
          expected: "#VALUE!",
          message: "cells is missing.",
          because: "a needed argument left out",
        },
        {
          formula: "=TWIRL.SHOWTHREE(1,2,3,4)",
          expected: "#VALUE!",
          message: "TWIRL.SHOWTHREE takes at most 3 arguments.",
          because: "one too many",
        },
        {
          formula: "=TWIRL.ADDONE(B1)",
          expected: "#VALUE!",
          message: 'number takes numbers; found "c".',
          because: "text for a number",
        },
        { formula: "=TWIRL.ADDONE(B5)", expected: "#N/A", because: "an error for a number stays that error" },
      ],
      {},
    ));
});

describe("what a function answers", () => {
  test("values, errors and their messages", () =>
    check(
      [
        { formula: '=TWIRL.ANSWER("text number")', expected: "0110", because: "text keeps its zero" },
        { formula: '=TWIRL.ANSWER("truth")', expected: true, because: "a truth value" },
        { formula: '=TWIRL.ANSWER("nothing")', expected: 0, because: "null shows as 0, as in the host" },
        { formula: '=TWIRL.ANSWER("not a number")', expected: "#NUM!", because: "NaN is not hidden" },
        { formula: '=TWIRL.ANSWER("endless")', expected: "#NUM!", because: "Infinity in a block is not hidden" },
        {
          formula: '=TWIRL.ANSWER("crash")',
          expected: "#VALUE!",
          message:
            "TWIRL.ANSWER stopped unexpectedly: TypeError: Cannot read properties of undefined (reading 'length')",
          because: "an exception ends this cell alone",
        },
        {
          formula: '=TWIRL.ANSWER("throw text")',
          expected: "#VALUE!",
          message: "TWIRL.ANSWER stopped unexpectedly: plain text",
          because: "anything can be thrown",
        },
        {
          formula: '=TWIRL.ANSWER("ragged")',
          expected: "#VALUE!",
          message: "TWIRL.ANSWER answered a block that is not rectangular.",
          because: "rows of different lengths",
        },
        {
          formula: '=TWIRL.ANSWER("empty block")',
          expected: "#VALUE!",
          message: "TWIRL.ANSWER answered a block that is not rectangular.",
          because: "a block without cells",
        },
        {
          formula: '=TWIRL.ANSWER("object")',
          expected: "#VALUE!",
          message: "TWIRL.ANSWER answered something a cell cannot hold.",
          because: "an object is no value",
        },
        {
          formula: '=TWIRL.ANSWER("division")',
          expected: "#DIV/0!",
          because: "the host shows no message for this error",
        },
        {
          formula: "=TWIRL.TALLY(C1:C3)",
          expected: "#N/A",
          message: "No attempts yet.",
          because: "the function's own words",
        },
        {
          formula: '=TWIRL.TALLY({"c","x"})',
          expected: "#VALUE!",
          message: "marks: x is not read. Type c or d.",
          because: "the function's own words",
        },
        { formula: '=IFERROR(TWIRL.ANSWER("crash"),"caught")', expected: "caught", because: "no message is kept" },
        { formula: "=1+1", expected: 2, because: "the cells after the failures are still worked out" },
      ],
      {},
    ));

  test("a block spills, with an error and an empty text inside it", async () => {
    const sheet = await sheetWith(['=TWIRL.ANSWER("block")', '=TWIRL.ANSWER("error in block")']);
    expect(sheet.spills.get("D1")).toEqual({ rows: 2, columns: 4 });
    expect(["D1", "E1", "F1", "G1", "D2", "E2", "F2", "G2"].map((address) => sheet.values.get(address))).toEqual([
      { kind: "text", text: "a" },
      { kind: "number", value: 1 },
      { kind: "boolean", value: true },
      { kind: "text", text: "8/10" },
      { kind: "text", text: "" },
      { kind: "number", value: 0 },
      { kind: "boolean", value: false },
      { kind: "text", text: "0110" },
    ]);
    expect(sheet.spills.get("D11")).toEqual({ rows: 2, columns: 2 });
    expect(sheet.values.get("E11")).toEqual({ kind: "error", name: "#N/A" });
    expect(sheet.messages.get("E11")).toBe("Nothing for b yet.");
    expect(sheet.values.get("D12")).toEqual({ kind: "text", text: "c" });
  });

  test("a spill without room is #SPILL! and fills nothing", async () => {
    // The block of this formula would need B1, which holds something.
    const sheet = await sheetWith(["=1"]);
    expect(sheet.spills.size).toBe(0);
    const blocked = await calculateSnapshot(
      {
        id: "workbook",
        name: "",
        appVersion: "",
        locale: LocaleType.EN_US,
        styles: {},
        sheetOrder: ["one"],
        sheets: {
          one: {
            id: "one",
            name: "One",
            rowCount: 20,
            columnCount: 8,
            cellData: {
              0: { 0: { f: '=TWIRL.ANSWER("block")' }, 1: { v: "in the way", t: CellValueType.STRING } },
            },
          },
        },
      },
      { functionsScript: fixtureScript, functionsMetadata: fixtureMetadata, emptyCells: "zero" },
    );
    expect(blocked.get("One")?.values.get("A1")).toEqual({ kind: "error", name: "#SPILL!" });
    expect(blocked.get("One")?.spills.size).toBe(0);
    expect(blocked.get("One")?.values.size).toBe(1);
  });
});

describe("loading", () => {
  test("functions.js meets a realm with CustomFunctions and nothing else", () => {
    const script = `
      const extras = ["window", "document", "fetch", "process", "require", "Office", "setTimeout"];
      const present = extras.filter((name) => typeof globalThis[name] !== "undefined");
      CustomFunctions.associate("FOUND", () => present.join());
    `;
    expect(loadFunctions(script).get("FOUND")?.()).toBe("");
  });

  test("functions may be associated one by one or together", () => {
    const { customFunctions, associated } = createFunctionsGlobal();
    customFunctions.associate("ONE", () => 1);
    customFunctions.associate({ TWO: () => 2, THREE: () => 3 });
    expect([...associated.keys()]).toEqual(["ONE", "TWO", "THREE"]);
    expect(() => customFunctions.associate("FOUR")).toThrow("FOUR");
  });

  test("a function that functions.json names and functions.js lacks is said", () => {
    const injector = { get: () => ({}) } as unknown as Parameters<typeof bindCustomFunctions>[0];
    expect(() =>
      bindCustomFunctions(injector, {
        metadata: fixtureMetadata,
        implementations: new Map(),
        messages: new MessageBook(),
        emptyCells: () => "zero",
      }),
    ).toThrow("functions.json names SHOW, but functions.js does not bring it.");
  });
});
