import { defaultSettings, seasonPlan } from "../../src/workbook/season";
import { officeHost, wordsFor } from "../../src/taskpane/office-host";
import { texts } from "../../src/taskpane/texts";
import { WriteFailure } from "../../src/workbook/writers/office";
import { fakeContext, FakeHostError, FakeWorkbook, type Failure } from "./fake-office";

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

test.each([
  {
    cause: new FakeHostError("InvalidOperationInCellEditMode", "Excel is in cell-editing mode."),
    expected: texts.hostBusy,
  },
  { cause: new FakeHostError("AccessDenied", "You cannot do that"), expected: texts.hostProtected },
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
