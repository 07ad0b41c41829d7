import {
  BooleanNumber,
  CellValueType,
  DataValidationErrorStyle,
  DataValidationType,
  type ICellData,
  WrapStrategy,
} from "@univerjs/core";

import { gridSheets, PREPARED_ROWS, toSnapshot } from "../../../src/grid/adapter/grid-writer";
import { cellAddress } from "../../../src/page/addresses";
import { looks, numberFormats, statusLooks } from "../../../src/workbook/plan/looks";
import type { WorkbookPlan } from "../../../src/workbook/plan/schema";
import { VALIDATED_ROWS } from "../../../src/workbook/plan/tables";
import { smallPlan } from "../plan";

const grid = gridSheets(smallPlan, "");
const [log, answers] = grid.sheets;
if (log === undefined || answers === undefined) throw new Error("A sheet is missing.");

function cell(address: string, sheet = log): ICellData | undefined {
  const { row, column } = cellAddress(address);
  return sheet?.sheet.cellData?.[row]?.[column];
}

function styleAt(address: string): (typeof grid.styles)[string] | undefined {
  const id = cell(address)?.s;
  return typeof id === "string" ? grid.styles[id] : undefined;
}

describe("cells", () => {
  test("text is text, whatever it looks like", () => {
    expect(cell("A1")).toMatchObject({ v: "=1+1", t: CellValueType.STRING });
    expect(cell("A1")?.f).toBeUndefined();
    expect(cell("B5")).toMatchObject({ v: "0110", t: CellValueType.STRING });
    expect(cell("B6")).toMatchObject({ v: "=1+1", t: CellValueType.STRING });
  });

  test("numbers and dates are numbers; an empty cell has a look alone", () => {
    expect(cell("C4")).toMatchObject({ v: 1.5, t: CellValueType.NUMBER });
    expect(cell("A4")).toMatchObject({ v: 46391, t: CellValueType.NUMBER });
    expect(Object.keys(cell("F1") ?? {})).toEqual(["s"]);
  });

  test("formulas are printed as the sheet reads them", () => {
    expect(cell("A1", answers)?.f).toBe("=TWIRL.TALLY(Log_A[Marks])");
    expect(cell("E1", answers)?.f).toBe("=SUM(Log_A[[Length (s)]])");
    expect(cell("E5", answers)?.f).toBe("='Log O''Hara'!$A$1");
    expect(cell("D5")?.f).toBe("=Log_A[[#This Row],[Length (s)]]*2");
  });
});

describe("looks", () => {
  test("come from looks.ts, formats too", () => {
    expect(styleAt("A1")).toMatchObject({
      fs: looks.title.sizePoints,
      bl: BooleanNumber.TRUE,
      cl: { rgb: looks.title.textColour },
      tb: WrapStrategy.WRAP,
    });
    expect(styleAt("A3")).toMatchObject({ bg: { rgb: looks.heading.fill }, cl: { rgb: looks.heading.textColour } });
    expect(styleAt("A4")?.n).toEqual({ pattern: numberFormats.date });
    expect(styleAt("B4")?.n).toEqual({ pattern: numberFormats.text });
    expect(styleAt("D4")).toMatchObject({
      bg: { rgb: looks.answer.fill },
      bd: { b: { cl: { rgb: looks.answer.border?.colour } } },
    });
    expect(styleAt("A1")?.n).toBeUndefined();
  });

  test("an area is drawn where no cell of the plan lies", () => {
    for (const address of ["A20", "B21"]) expect(styleAt(address)?.n).toEqual({ pattern: numberFormats.percent });
    expect(cell("C20")?.s).not.toBe(cell("A20")?.s);
  });

  test("rows below a table are formatted before anything is typed there, calculated columns are not", () => {
    expect(styleAt("B7")?.n).toEqual({ pattern: numberFormats.text });
    expect(styleAt(`B${6 + PREPARED_ROWS}`)?.n).toEqual({ pattern: numberFormats.text });
    expect(cell(`B${7 + PREPARED_ROWS}`)).toBeUndefined();
    expect(cell("D7")).toBeUndefined();
  });

  test("widths are in pixels for that many characters; the frozen rows stay", () => {
    expect([log.sheet.columnData?.[0]?.w, log.sheet.columnData?.[1]?.w]).toEqual([12 * 7 + 5, 20 * 7 + 5]);
    expect(log.sheet.freeze).toEqual({ xSplit: 0, ySplit: 3, startRow: 3, startColumn: -1 });
    expect(answers.sheet.freeze).toEqual({ xSplit: 0, ySplit: 0, startRow: -1, startColumn: -1 });
  });
});

describe("what hangs on a sheet", () => {
  test("tables with their columns and the formula for later rows", () => {
    expect(log.tables).toHaveLength(1);
    expect(log.tables[0]).toMatchObject({
      name: "Log_A",
      range: { startRow: 2, startColumn: 0, endRow: 5, endColumn: 3 },
      columns: [
        { displayName: "Date", formula: "" },
        { displayName: "Marks", formula: "" },
        { displayName: "Length (s)", formula: "" },
        { displayName: "Twice", formula: "=Log_A[[#This Row],[Length (s)]]*2" },
      ],
    });
  });

  test("a status is coloured by a formula over its own cell", () => {
    expect(log.rules).toHaveLength(1);
    expect(log.rules[0]).toMatchObject({
      ranges: [{ startRow: 3, startColumn: 1, endRow: 5, endColumn: 1 }],
      rule: {
        subType: "formula",
        value: '=B4="say ""c"""',
        style: { bg: { rgb: statusLooks.ready.fill }, cl: { rgb: statusLooks.ready.textColour } },
      },
    });
  });

  test("validation of every kind, for cells and for the room below a table", () => {
    expect(log.validations).toMatchObject([
      {
        type: DataValidationType.LIST,
        formula1: `='Log O''Hara'!$B$4:$B$${3 + VALIDATED_ROWS}`,
        errorStyle: DataValidationErrorStyle.STOP,
      },
      { type: DataValidationType.LIST, formula1: "m,ft", errorStyle: DataValidationErrorStyle.WARNING },
      {
        type: DataValidationType.WHOLE,
        formula1: "0",
        formula2: "10",
        ranges: [{ startRow: 2, startColumn: 5, endRow: 2, endColumn: 5 }],
      },
      {
        type: DataValidationType.DATE,
        error: "A date.",
        ranges: [{ startRow: 3, startColumn: 0, endRow: 2 + VALIDATED_ROWS, endColumn: 0 }],
      },
      { type: DataValidationType.ANY, prompt: "c or d.", promptTitle: "Marks" },
    ]);
    expect(log.sheet.rowCount).toBeGreaterThanOrEqual(3 + VALIDATED_ROWS);
  });
});

describe("the workbook", () => {
  test("names its sheets in order, and the one that is shown first", () => {
    const snapshot = toSnapshot(smallPlan);
    expect(snapshot.sheetOrder.map((id) => snapshot.sheets[id]?.name)).toEqual(["Log O'Hara", "Answers"]);
    expect(snapshot.sheets[String(snapshot.custom?.["activeSheet"])]?.name).toBe("Answers");
  });

  test("every style that a cell names is there", () => {
    const named = grid.sheets.flatMap(({ sheet }) =>
      Object.values(sheet.cellData ?? {}).flatMap((row) =>
        Object.values(row as Record<number, ICellData>).map(({ s }) => s),
      ),
    );
    expect(named.length).toBeGreaterThan(0);
    expect(named.filter((id) => typeof id !== "string" || grid.styles[id] === undefined)).toEqual([]);
  });

  test("ids carry the prefix, so that two plans share one workbook", () => {
    const added = gridSheets(smallPlan, "new-");
    const ids = added.sheets.flatMap((sheet) => [
      sheet.sheet.id,
      ...sheet.tables.map(({ id }) => id),
      ...sheet.rules.map(({ cfId }) => cfId),
      ...sheet.validations.map(({ uid }) => uid),
    ]);
    expect(ids.filter((id) => !id.startsWith("new-"))).toEqual([]);
    expect(new Set(ids).size).toBe(ids.length);
  });

  test.each<[string, Partial<WorkbookPlan>, string]>([
    ["a first sheet that is not in the plan", { active: "Nowhere" }, "Nowhere"],
    [
      "a list from a table that is not in the plan",
      { sheets: smallPlan.sheets.map((sheet) => ({ ...sheet, tables: [] })) },
      "Log_A",
    ],
  ])("%s is refused", (_, change, said) => {
    expect(() => toSnapshot({ ...smallPlan, ...change })).toThrow(said);
  });
});
