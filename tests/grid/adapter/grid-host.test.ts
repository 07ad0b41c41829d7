import { ICommandService } from "@univerjs/core";
import { DataValidationModel } from "@univerjs/data-validation";
import { ConditionalFormattingRuleModel } from "@univerjs/sheets-conditional-formatting";

import { gridHost } from "../../../src/grid/adapter/grid-host";
import { OccupiedCell, type WorkbookHost } from "../../../src/taskpane/host/host";
import { texts } from "../../../src/taskpane/words/texts";
import type { ChartPlan, WorkbookPlan } from "../../../src/workbook/plan/schema";
import { besideGrid, type Engine, openEngine } from "../engine";
import { smallPlan } from "../plan";

/** The plan of the tests once more, under names that the workbook does not have yet. */
const second = JSON.parse(
  JSON.stringify(smallPlan)
    .replaceAll("Log_A", "Log_B")
    .replaceAll("Log O'Hara", "Log 2")
    .replaceAll("Answers", "Answers 2"),
) as WorkbookPlan;

describe("the workbook of the page", () => {
  let engine: Engine;
  let host: WorkbookHost;
  let put: [sheetId: string, charts: readonly ChartPlan[]][];

  beforeEach(async () => {
    engine = await openEngine(smallPlan);
    put = [];
    host = gridHost({ ...engine, show: () => undefined, ...besideGrid((id, charts) => put.push([id, charts])) });
  });

  afterEach(() => {
    engine.close();
  });

  function workbook() {
    const open = engine.api.getActiveWorkbook();
    if (open === null) throw new Error("There is no workbook.");
    return open;
  }

  /** How many tables, rules and validations hang on each sheet. */
  function hangings(): Record<string, readonly number[]> {
    const unitId = workbook().getId();
    return Object.fromEntries(
      workbook()
        .getSheets()
        .map((sheet) => [
          sheet.getSheetName(),
          [
            sheet.getSubTableInfos().length,
            engine.injector.get(ConditionalFormattingRuleModel).getSubunitRules(unitId, sheet.getSheetId())?.length ??
              0,
            engine.injector.get(DataValidationModel).getRules(unitId, sheet.getSheetId()).length,
          ],
        ]),
    );
  }

  test("tells the names that are taken", async () => {
    await expect(host.namesInUse()).resolves.toEqual({ sheets: ["Log O'Hara", "Answers"], tables: ["Log_A"] });
  });

  test("takes in a plan's sheets with all that hangs on them, works them out and shows the active one", async () => {
    await host.addSheets(second);
    expect(hangings()["Log 2"]).toEqual(hangings()["Log O'Hara"]);
    expect(hangings()["Log 2"]).toEqual([1, 1, 5]);
    expect(workbook().getActiveSheet().getSheetName()).toBe("Answers 2");
    await engine.settled();
    const answers = workbook().getSheetByName("Answers 2")?.getSheet();
    expect(answers?.getCellRaw(0, 4)?.v).toBe(3.5);
    expect(answers?.getCellRaw(0, 0)?.v).toBe("Mark");
    expect(workbook().getSheetByName("Log 2")?.getSheet().getCellRaw(0, 0)).toMatchObject({ v: "=1+1", t: 1 });
    expect(workbook().getTableInfoByName("Log_B")?.columns[3]?.formula).toBe("=Log_B[[#This Row],[Length (s)]]*2");
  });

  test("refuses a plan whose names are taken, and leaves all as it is", async () => {
    await expect(host.addSheets(smallPlan)).rejects.toThrow(
      "The workbook already has Log O'Hara, Log_A, Answers. Nothing was added.",
    );
    await expect(host.namesInUse()).resolves.toEqual({ sheets: ["Log O'Hara", "Answers"], tables: ["Log_A"] });
  });

  test("refuses a faulty plan in words", async () => {
    const faulty = { ...second, sheets: second.sheets.map((sheet) => ({ ...sheet, name: "Twice" })), active: "Twice" };
    await expect(host.addSheets(faulty)).rejects.toThrow("Two sheets are called Twice.");
  });

  // Two sheets, a table, a rule and five validations are nine steps.
  test.each([1, 2, 3, 4, 5, 9])("takes everything out again when step %i fails", async (failing) => {
    const before = hangings();
    const commands = engine.injector.get(ICommandService);
    const execute = commands.executeCommand.bind(commands);
    let steps = 0;
    commands.executeCommand = ((id: string, ...rest: unknown[]) => {
      if (/insert-sheet|add-table|add-conditional-rule|addRule/.test(id)) {
        steps += 1;
        if (steps === failing) return Promise.reject(new Error("The disk is on fire."));
      }
      return (execute as (id: string, ...rest: unknown[]) => Promise<unknown>)(id, ...rest);
    }) as typeof commands.executeCommand;
    await expect(host.addSheets(second)).rejects.toThrow(
      "The sheets could not be added, and what was added is taken out again. The disk is on fire.",
    );
    expect(steps).toBe(failing);
    expect(hangings()).toEqual(before);
    await expect(host.namesInUse()).resolves.toEqual({ sheets: ["Log O'Hara", "Answers"], tables: ["Log_A"] });
    commands.executeCommand = execute;
    await host.addSheets(second);
    expect(hangings()["Log 2"]).toEqual([1, 1, 5]);
  });

  test("puts a formula into an empty cell and tells where", async () => {
    const answers = workbook().getSheetByName("Answers");
    if (!answers) throw new Error("The sheet is gone.");
    workbook().setActiveSheet(answers);
    answers.setActiveSelection(answers.getRange("H9"));
    await expect(host.insertFormula('=TWIRL.SHOWONE("a")')).resolves.toBe("'Answers'!H9");
    await engine.settled();
    expect(answers.getSheet().getCellRaw(8, 7)?.v).toBe('"a"');
  });

  test("tells what is selected, whole columns with all the rows that a sheet can have", async () => {
    const log = workbook().getSheetByName("Log O'Hara");
    if (!log) throw new Error("The sheet is gone.");
    workbook().setActiveSheet(log);
    log.setActiveSelection(log.getRange("B2:C9"));
    await expect(host.selection()).resolves.toEqual({
      sheet: "Log O'Hara",
      block: { row: 2, column: 2, rows: 8, columns: 2 },
    });
    log.setActiveSelection(log.getRange("B:B"));
    await expect(host.selection()).resolves.toEqual({
      sheet: "Log O'Hara",
      block: { row: 1, column: 2, rows: 1_048_576, columns: 1 },
    });
  });

  test("puts a formula into a cell of any sheet, over what stands there only when it is told to", async () => {
    const answers = workbook().getSheetByName("Answers");
    const into = { sheet: "Answers", cell: { row: 9, column: 8 } };
    await expect(host.putFormula("='Log O''Hara'!A1", into, false)).resolves.toBe("'Answers'!H9");
    await engine.settled();
    await expect(host.putFormula("=2", into, false)).rejects.toThrow(OccupiedCell);
    expect(answers?.getSheet().getCellRaw(8, 7)?.f).toBe("='Log O''Hara'!A1");
    await host.putFormula("=1+2", into, true);
    await engine.settled();
    expect(answers?.getSheet().getCellRaw(8, 7)?.v).toBe(3);
    await expect(host.putFormula("=1", { ...into, sheet: "Nowhere" }, false)).rejects.toThrow(
      texts.sheetGone("Nowhere"),
    );
  });

  test.each([
    ["holds a formula", "E1"],
    ["is filled by another formula", "B2"],
  ])("leaves a cell alone that %s", async (_, address) => {
    const answers = workbook().getSheetByName("Answers");
    if (!answers) throw new Error("The sheet is gone.");
    workbook().setActiveSheet(answers);
    answers.setActiveSelection(answers.getRange(address));
    await expect(host.insertFormula("=1")).rejects.toThrow(`'Answers'!${address} holds something.`);
  });
});
