/** The sheets for duos and teams, typed into as a coach does; every figure beside it is worked out by hand. */
import { toSnapshot } from "../../src/grid/adapter/grid-writer";
import { builtFunctions } from "../../src/tools/build-samples";
import type { Content } from "../../src/workbook/plan/schema";
import { noRecords, seasonPlan, type PracticeEntry, type SeasonSettings } from "../../src/workbook/season/season";
import { sampleSettings } from "../../src/workbook/sample/sample-season";
import { type Engine, openEngineOn } from "./engine";

jest.setTimeout(120_000);

const TRICK = "Double spin";
const settings: SeasonSettings = {
  ...sampleSettings,
  athletes: ["A.K.", "M.K.", "R.S.", "T.L."],
  tricks: [{ name: TRICK, bodyCounts: 3 }],
  exchanges: true,
};
const set = (athlete: string, marks: string): PracticeEntry => ({
  ...{ date: 46_300, athlete, trick: TRICK, stage: "Joined", marks, minutes: null, note: "" },
});
const practice = [set("A.K.", "9/10"), set("M.K.", "6/10"), set("R.S.", "8/10")];

const text = (words: string): Content => ({ kind: "text", text: words });

/** @param logged exchange, thrower, catcher and marks of each row */
function open(logged: readonly (readonly string[])[], tosses = practice): Promise<Engine> {
  const plan = seasonPlan(settings, { ...noRecords, practice: tosses });
  const rows = logged.map((row): readonly Content[] => [
    { kind: "date", serial: 46_300 },
    ...row.map(text),
    { kind: "empty" },
  ]);
  const sheets = plan.sheets.map((sheet) => ({
    ...sheet,
    tables: sheet.tables.map((table) =>
      table.name === "Exchanges_2026" && rows.length > 0 ? { ...table, rows } : table,
    ),
  }));
  return openEngineOn(toSnapshot({ ...plan, sheets }), builtFunctions());
}

let engine: Engine;
beforeAll(async () => {
  engine = await open([]);
});
afterAll(() => engine.close());

const range = (sheet: string, at: string) => engine.api.getActiveWorkbook()?.getSheetByName(sheet)?.getRange(at);

async function type(sheet: string, values: Readonly<Record<string, string | number>>): Promise<void> {
  for (const [at, value] of Object.entries(values)) range(sheet, at)?.setValue(value);
  const settled = engine.settled();
  engine.calculate();
  await settled;
}

/** A block's values, row by row, numbers to six digits; cells without any as null. */
function block(sheet: string, at: string): unknown[][] {
  const values = (range(sheet, at)?.getValues() ?? []) as unknown[][];
  return values.map((row) =>
    row.map((one) => (typeof one === "number" ? Number(one.toFixed(6)) : one === "" ? null : one)),
  );
}

describe("the team", () => {
  const sheet = "Team 2026";

  test("is not reckoned while somebody who is in has not logged the toss", () => {
    expect(block(sheet, "B5:C7")).toEqual([
      [TRICK, null],
      [null, "Somebody who is in has not logged it."],
      [null, null],
    ]);
    // Only whoever has not logged it could go: without them the chance of the others is known.
    expect(block(sheet, "A10:F13")).toEqual([
      ["A.K.", "yes", 0.9, 10, null, null],
      ["M.K.", "yes", 0.6, 10, null, null],
      ["R.S.", "yes", 0.8, 10, null, null],
      ["T.L.", "yes", null, null, null, 0.432],
    ]);
  });

  test("all who are in catch with the product of their rates; each with and without", async () => {
    await type(sheet, { B13: "no" });
    expect(block(sheet, "B6:B7")).toEqual([[0.432], ["None of those who are out is likelier to catch."]]);
    expect(block(sheet, "E10:F13")).toEqual([
      [0.432, 0.48],
      [0.432, 0.72],
      [0.432, 0.54],
      [null, 0.432],
    ]);
  });

  test("the best of those who are out stands in for the weakest of those who are in", async () => {
    await type(sheet, { B12: "no" });
    // 0.9 × 0.6 now, 0.9 × 0.8 after.
    expect(block(sheet, "B6:B7")).toEqual([[0.54], ["R.S. in for M.K.: all catch 72%"]]);
    await type(sheet, { B10: "no", B11: "no" });
    expect(block(sheet, "B6:C7")).toEqual([
      [null, "Nobody is in."],
      [null, null],
    ]);
  });

  test("one who catches none of them leaves no chance, except without them", async () => {
    engine.close();
    engine = await open([], [set("A.K.", "0/10"), set("M.K.", "6/10"), set("R.S.", "8/10"), set("T.L.", "0/5")]);
    expect(block(sheet, "B6")).toEqual([[0]]);
    expect(block(sheet, "E10:F13").map((row) => row.join(" "))).toEqual(["0 0", "0 0", "0 0", "0 0"]);
    await type(sheet, { B13: "no" });
    expect(block(sheet, "E10:F13").map((row) => row.join(" "))).toEqual(["0 0.48", "0 0", "0 0", "0 0"]);
  });

  test("early and late are counted against the middle one", async () => {
    expect(block(sheet, "J10:M10")).toEqual([["Type airtimes beside the athletes.", null, null, null]]);
    await type(sheet, { G10: 1.4, G11: 1.5, G13: 1.8 });
    // A tenth of a second is a third of a count at 200 a minute.
    expect(block(sheet, "J10:M13")).toEqual([
      ["A.K.", 1.4, -0.333333, null],
      ["M.K.", 1.5, 0, null],
      ["T.L.", 1.8, 1, "late"],
      [null, null, null, null],
    ]);
  });
});

describe("exchanges", () => {
  const sheet = "Exchanges 2026";

  test("wait for the first", () => {
    expect(block(sheet, "H5:H6")).toEqual([["Fills itself with the first exchange that is logged."], [null]]);
  });

  test("are told by thrower and catcher, and what cannot be read with its cell", async () => {
    engine.close();
    engine = await open([
      ["Cross toss", "A.K.", "M.K.", "9/10"],
      ["Cross toss", "M.K.", "A.K.", "ccccd"],
      ["Circle", "A.K.", "M.K.", "ddddd"],
      ["Circle", "A.K.", "M.K.", "ccxcc"],
    ]);
    const [headings, ...pairs] = block(sheet, "H5:L8");
    expect(headings).toEqual(["Thrower", "A.K.", "A.K. attempts", "M.K.", "M.K. attempts"]);
    expect(pairs.slice(0, 2)).toEqual([
      ["A.K.", null, null, 0.6, 15],
      ["M.K.", 0.8, 5, null, null],
    ]);
    expect(pairs[2]?.slice(0, 2)).toEqual(["Not counted", expect.stringMatching(/E9/)]);
    expect(block(sheet, "H2")[0]?.[0]).toBe("1 of 4 rows does not count");
  });

  test("or those of one alone", async () => {
    await type(sheet, { I3: "Cross toss" });
    expect(block(sheet, "H5:L8").slice(1)).toEqual([
      ["A.K.", null, null, 0.9, 10],
      ["M.K.", 0.8, 5, null, null],
      [null, null, null, null, null],
    ]);
  });
});
