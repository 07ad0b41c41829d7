import type { Content } from "../../../src/workbook/plan/schema";
import { defaultSettings, seasonPlan } from "../../../src/workbook/season/season";
import { OccupiedCell } from "../../../src/taskpane/host/host";
import { officeHost, wordsFor } from "../../../src/taskpane/host/office-host";
import { texts } from "../../../src/taskpane/words/texts";
import { WriteFailure } from "../../../src/workbook/office/office-writer";
import { fakeContext, FakeHostError, FakeWorkbook, type Failure } from "../fake-office";

let workbook: FakeWorkbook;
let failure: Failure | undefined;
let startup: string[];

beforeEach(() => {
  workbook = new FakeWorkbook();
  failure = undefined;
  startup = [];
  Object.assign(globalThis, {
    Excel: {
      run: <Answer>(work: (context: Excel.RequestContext) => Promise<Answer>) =>
        work(fakeContext(workbook, failure).context),
    },
    Office: {
      StartupBehavior: { load: "load" },
      addin: {
        setStartupBehavior: (behavior: string) => {
          startup.push(behavior);
          return Promise.resolve();
        },
      },
    },
  });
});

const plan = seasonPlan({
  ...defaultSettings,
  label: "2027",
  athletes: ["M.K."],
  tricks: [{ name: "Thumb toss", bodyCounts: null }],
});

test("names in use are those of sheets, tables and defined names", async () => {
  workbook = new FakeWorkbook(["One", "Two"]);
  workbook.definedNames.push("Standard");
  await officeHost.addSheets(plan);
  const { sheets, tables } = await officeHost.namesInUse();
  expect(sheets).toEqual(["One", "Two", ...plan.sheets.map(({ name }) => name)]);
  expect(tables).toEqual([...plan.sheets.flatMap((sheet) => sheet.tables.map(({ name }) => name)), "Standard"]);
});

test("a built season asks the host to load the add-in with the workbook", async () => {
  await officeHost.addSheets(plan);
  expect(startup).toEqual(["load"]);
});

test("a host that cannot load the add-in with the workbook has built the season all the same", async () => {
  Object.assign(globalThis, { Office: { StartupBehavior: { load: "load" } } });
  await officeHost.addSheets(plan);
  expect(workbook.sheets).toHaveLength(1 + plan.sheets.length);
});

test("a season that failed asks for nothing, and the error says which sheet and why", async () => {
  failure = { atSync: 3, after: "half" };
  await expect(officeHost.addSheets(plan)).rejects.toThrow(
    `The sheet "${plan.sheets[1]?.name ?? ""}" could not be made. ${texts.hostRefused("The host gave up")}`,
  );
  expect(startup).toEqual([]);
});

describe("insert", () => {
  test("puts the formula into the selected cell and answers where", async () => {
    workbook.selected = "C4";
    await expect(officeHost.insertFormula("=1+1")).resolves.toBe("Sheet1!C4");
    expect(workbook.cell("Sheet1", "C4").formula).toBe("=1+1");
  });

  test.each([
    { what: "a value", cell: { value: "Double turn", formula: null, format: "General" } },
    { what: "a formula that shows nothing", cell: { value: null, formula: '=""', format: "General" } },
    { what: "part of a spill", cell: { value: 0, formula: null, format: "General" } },
  ])("leaves a cell alone that holds $what", async ({ cell }) => {
    workbook.sheet("Sheet1").cells.set("A1", cell);
    await expect(officeHost.insertFormula("=1+1")).rejects.toThrow(texts.cellNotEmpty("Sheet1!A1"));
    expect(workbook.cell("Sheet1", "A1")).toEqual(cell);
  });
});

describe("a formula filled in", () => {
  test("the selection is told with its sheet", async () => {
    workbook.selected = "B2:C9";
    await expect(officeHost.selection()).resolves.toEqual({
      sheet: "Sheet1",
      block: { row: 2, column: 2, rows: 8, columns: 2 },
    });
  });

  test("goes into the cell that is named, and never over anything without being told to", async () => {
    const into = { sheet: "Sheet1", cell: { row: 4, column: 3 } };
    await expect(officeHost.putFormula("=1+1", into, false)).resolves.toBe("Sheet1!C4");
    const refused = officeHost.putFormula("=2+2", into, false);
    await expect(refused).rejects.toThrow(OccupiedCell);
    await expect(refused).rejects.toThrow(texts.cellNotEmpty("Sheet1!C4"));
    expect(workbook.cell("Sheet1", "C4").formula).toBe("=1+1");
    await officeHost.putFormula("=2+2", into, true);
    expect(workbook.cell("Sheet1", "C4").formula).toBe("=2+2");
  });

  test("a sheet that is gone is told in words", async () => {
    const into = { sheet: "Nowhere", cell: { row: 1, column: 1 } };
    await expect(officeHost.putFormula("=1", into, false)).rejects.toThrow(texts.hostMissing);
  });

  test("several blocks at once are refused with what to do", () => {
    expect(wordsFor({ code: "InvalidSelection", message: "no" })).toBe(texts.selectionNotOne);
  });
});

test("a value goes into the selected cell as a formula does", async () => {
  workbook.selected = "C4";
  await expect(officeHost.insertValue(1.83)).resolves.toBe("Sheet1!C4");
  expect(workbook.cell("Sheet1", "C4").value).toBe(1.83);
  await expect(officeHost.insertValue(2)).rejects.toThrow(texts.cellNotEmpty("Sheet1!C4"));
  expect(workbook.cell("Sheet1", "C4").value).toBe(1.83);
});

test.each([
  { url: "https://club.example/Larkfield.xlsx", name: "https://club.example/Larkfield.xlsx" },
  { url: "", name: texts.newWorkbook },
])("a workbook at $url is told by $name, and still when it is saved elsewhere", ({ url, name }) => {
  // A pane is opened anew with each workbook.
  jest.isolateModules(() => {
    const { officeHost: fresh } = jest.requireActual<typeof import("../../../src/taskpane/host/office-host")>(
      "../../../src/taskpane/host/office-host",
    );
    Object.assign(globalThis, { Office: { context: { document: { url } } } });
    expect(fresh.workbookName()).toBe(name);
    Object.assign(globalThis, { Office: { context: { document: { url: "https://club.example/Other.xlsx" } } } });
    expect(fresh.workbookName()).toBe(name);
  });
});

describe("the log", () => {
  const sheet = "Practice 2027";
  const table = "Practice_2027";
  const content = (day: number, marks: string, trick = "Thumb toss"): Map<string, Content> =>
    new Map<string, Content>([
      ["Date", { kind: "date", serial: day }],
      ["Athlete", { kind: "text", text: "M.K." }],
      ["Trick", { kind: "text", text: trick }],
      ["Stage", { kind: "text", text: "Joined" }],
      ["Marks", { kind: "text", text: marks }],
    ]);
  const row = (number: number): unknown[] =>
    [..."ABCDEFG"].map((column) => workbook.cell(sheet, column + String(number)).value);

  beforeEach(async () => {
    await officeHost.addSheets(plan);
  });

  test("is read with its place, its headings and its rows, beside the other tables", async () => {
    const [athletes, practice] = await officeHost.readTables(["Athletes_2027", table]);
    expect(athletes).toMatchObject({
      sheet: "Season 2027",
      headings: ["Athlete", "Minutes or away"],
      rows: [["M.K.", ""]],
    });
    expect(practice).toEqual({
      sheet,
      at: { row: 4, column: 1 },
      headings: ["Date", "Athlete", "Trick", "Stage", "Marks", "Minutes", "Entrance", "Exit", "Condition", "Note"],
      rows: [["", "", "", "", "", "", "", "", "", ""]],
    });
  });

  test("columns that a table lacks are added at its right end as words; nothing else changes, and twice adds none", async () => {
    await officeHost.appendRow(table, content(46390, "ccd"));
    const [before] = await officeHost.readTables([table]);
    await officeHost.addColumns(table, ["Entrance", "Hall", "Floor"]);
    await officeHost.addColumns(table, ["Entrance", "Hall", "Floor"]);
    const [after] = await officeHost.readTables([table]);
    expect(after?.headings).toEqual([...(before?.headings ?? []), "Hall", "Floor"]);
    expect(after?.rows).toEqual(before?.rows.map((values) => [...values, "", ""]));
    expect(["K5", "L5"].map((cell) => workbook.cell(sheet, cell).format)).toEqual(["@", "@"]);
  });

  test("a table that is not there is told in words", async () => {
    await expect(officeHost.readTables(["Practice_1999"])).rejects.toThrow(texts.hostMissing);
  });

  test("cells are read as a block", async () => {
    await expect(officeHost.readBlock("Season 2027", { row: 7, column: 2, rows: 2, columns: 1 })).resolves.toEqual([
      [0.8],
      [10],
    ]);
  });

  test("an empty row is filled first, and the table grows from then on", async () => {
    await expect(officeHost.appendRow(table, content(46390, "ccd"))).resolves.toBe(`${sheet}!A5:J5`);
    await expect(officeHost.appendRow(table, content(46391, "8/10"))).resolves.toBe(`${sheet}!A6:J6`);
    await expect(officeHost.appendRow(table, content(46392, "0110", "=1+1"))).resolves.toBe(`${sheet}!A7:J7`);
    expect([5, 6, 7, 8].map(row)).toEqual([
      [46390, "M.K.", "Thumb toss", "Joined", "ccd", null, null],
      [46391, "M.K.", "Thumb toss", "Joined", "8/10", null, null],
      [46392, "M.K.", "=1+1", "Joined", "0110", null, null],
      [null, null, null, null, null, null, null],
    ]);
    expect(workbook.cell(sheet, "C7")).toEqual({ value: "=1+1", formula: null, format: "@" });
    expect(workbook.cell(sheet, "A7").format).toBe("d mmm yyyy");
    const [practice] = await officeHost.readTables([table]);
    expect(practice?.rows).toHaveLength(3);
  });

  test("text stays text where the coach has taken the format away, and a chosen format of days stays", async () => {
    const { cells } = workbook.sheet(sheet);
    for (const address of ["B5", "E5", "B6", "E6"])
      cells.set(address, { value: null, formula: null, format: "General" });
    cells.set("A5", { value: null, formula: null, format: "dd.mm.yyyy" });
    await officeHost.appendRow(table, content(46390, "0110"));
    expect(workbook.cell(sheet, "E5")).toEqual({ value: "0110", formula: null, format: "@" });
    expect(workbook.cell(sheet, "A5").format).toBe("dd.mm.yyyy");
  });

  test("a day is seen as one where nothing is formatted", async () => {
    workbook.sheet(sheet).cells.set("A5", { value: null, formula: null, format: "General" });
    await officeHost.appendRow(table, content(46390, "c"));
    expect(workbook.cell(sheet, "A5").format).toBe("d mmm yyyy");
  });

  test("a column that is not there is told before anything is written", async () => {
    const before = workbook.toText();
    const cells = content(46390, "ccd").set("Mood", { kind: "text", text: "good" });
    await expect(officeHost.appendRow(table, cells)).rejects.toThrow(texts.tableLacksColumn(table, "Mood"));
    expect(workbook.toText()).toBe(before);
  });

  test.each([
    { atSync: 1, after: "nothing" },
    { atSync: 2, after: "nothing" },
    { atSync: 2, after: "half" },
  ] as const)(
    "after a failure at sync $atSync with $after done no row counts, and the next goes to its place",
    async (given) => {
      await officeHost.appendRow(table, content(46390, "ccd"));
      failure = given;
      await expect(officeHost.appendRow(table, content(46391, "ddd"))).rejects.toThrow(
        texts.hostRefused("The host gave up"),
      );
      expect(row(6)).toEqual([null, null, null, null, null, null, null]);
      failure = undefined;
      await officeHost.appendRow(table, content(46391, "ddd"));
      expect([5, 6].map((number) => row(number)[4])).toEqual(["ccd", "ddd"]);
    },
  );
});

test.each([
  {
    cause: new FakeHostError("InvalidOperationInCellEditMode", "Excel is in cell-editing mode."),
    expected: texts.hostBusy,
  },
  { cause: new FakeHostError("AccessDenied", "You cannot do that"), expected: texts.hostProtected },
  { cause: new FakeHostError("ItemNotFound", "No table"), expected: texts.hostMissing },
  { cause: new FakeHostError("GeneralException", "Hm"), expected: texts.hostRefused("Hm") },
  { cause: new Error("Plain words."), expected: "Plain words." },
  { cause: {}, expected: texts.unknownCause },
  { cause: null, expected: texts.unknownCause },
  {
    cause: new WriteFailure('The sheet "X" could not be made.', new FakeHostError("AccessDenied", ""), []),
    expected: `The sheet "X" could not be made. ${texts.hostProtected}`,
  },
])("the host's errors become words: $expected", ({ cause, expected }) => {
  expect(wordsFor(cause)).toBe(expected);
});

describe("changes of the workbook", () => {
  test("are asked of the host once, and told in a calm moment", async () => {
    jest.useFakeTimers();
    try {
      const told = jest.fn();
      const stop = officeHost.whenChanged(told);
      officeHost.whenChanged(() => undefined)();
      await jest.advanceTimersByTimeAsync(0);
      expect(workbook.handlers.map(({ event }) => event)).toEqual(["onChanged", "onActivated", "onAdded", "onDeleted"]);
      await workbook.fire("onChanged");
      await workbook.fire("onActivated");
      expect(told).not.toHaveBeenCalled();
      await jest.advanceTimersByTimeAsync(1000);
      expect(told).toHaveBeenCalledTimes(1);
      stop();
      await workbook.fire("onChanged");
      await jest.advanceTimersByTimeAsync(1000);
      expect(told).toHaveBeenCalledTimes(1);
    } finally {
      jest.useRealTimers();
    }
  });

  test("the sheet in view is told by its name", async () => {
    await officeHost.addSheets(plan);
    expect(await officeHost.sheetInView()).toBe(workbook.sheet(workbook.activeId).name);
  });
});
