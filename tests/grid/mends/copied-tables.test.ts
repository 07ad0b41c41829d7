import { CellValueType, ICommandService, IUniverInstanceService, RedoCommand, UndoCommand } from "@univerjs/core";
import { CopySheetCommand } from "@univerjs/sheets";

import { cellAddress } from "../../../src/page/addresses";
import { nameCopiedTables } from "../../../src/grid/mends/copied-tables";
import { type Engine, openEngine } from "../engine";
import { smallPlan } from "../plan";

/** The table of the plan holds 1.5 and 2 in C4 and C5, their doubles in D; its sum is told in E1 of another sheet. */
describe("the copy of a sheet with a table", () => {
  const LOG = "Log O'Hara";
  /** The engine of the tests has no words of any language: without them it looks for a copy's free name for ever. */
  const COPIES = ["The first copy", "The second"] as const;
  let engine: Engine;

  beforeEach(async () => {
    engine = await openEngine(smallPlan);
    nameCopiedTables(engine.injector);
    engine.injector.get(IUniverInstanceService).focusUnit(engine.api.getActiveWorkbook()?.getId() ?? "");
  });

  afterEach(() => {
    engine.close();
  });

  function sheet(name: string) {
    const found = engine.api.getActiveWorkbook()?.getSheetByName(name);
    if (!found) throw new Error(`There is no sheet ${name}.`);
    return found;
  }

  function value(name: string, address: string): unknown {
    const { row, column } = cellAddress(address);
    return sheet(name).getSheet().getCellRaw(row, column)?.v;
  }

  async function run(id: string, params?: object): Promise<void> {
    const done = engine.settled();
    await engine.injector.get(ICommandService).executeCommand(id, params);
    await done;
  }

  async function copy(as?: string): Promise<void> {
    const workbook = engine.api.getActiveWorkbook();
    const known = workbook?.getSheets().map((one) => one.getSheetId());
    await run(CopySheetCommand.id, { unitId: workbook?.getId(), subUnitId: sheet(LOG).getSheetId() });
    const made = workbook?.getSheets().find((one) => known?.includes(one.getSheetId()) === false);
    if (as !== undefined) made?.setName(as);
  }

  async function type(name: string, address: string, number: number): Promise<void> {
    const { row, column } = cellAddress(address);
    sheet(name).getRange(row, column).setValue({ v: number, t: CellValueType.NUMBER });
    await engine.settled();
  }

  const tables = () =>
    engine.api
      .getActiveWorkbook()
      ?.getSheets()
      .flatMap((one) => one.getSubTableInfos().map(({ name }) => name));

  test("has a table of its own, and what reads the first goes on reading that", async () => {
    await copy(COPIES[0]);
    expect(tables()).toEqual(["Log_A", "Log_A_2"]);
    expect(value("Answers", "E1")).toBe(3.5);
    await type(COPIES[0], "C5", 40);
    expect(value("Answers", "E1")).toBe(3.5);
    expect(value(COPIES[0], "D5")).toBe(80);
    expect(value(LOG, "D5")).toBe(4);
    await type(LOG, "C5", 5);
    expect(value("Answers", "E1")).toBe(6.5);
    expect(value(COPIES[0], "D5")).toBe(80);
    expect(value(LOG, "D5")).toBe(10);
  });

  test("can be taken back, and done again", async () => {
    await copy();
    await run(UndoCommand.id);
    expect(tables()).toEqual(["Log_A"]);
    await type(LOG, "C5", 5);
    expect(value("Answers", "E1")).toBe(6.5);
    await run(UndoCommand.id);
    await copy();
    await run(UndoCommand.id);
    await run(RedoCommand.id);
    expect(tables()).toEqual(["Log_A", "Log_A_2"]);
    expect(value("Answers", "E1")).toBe(3.5);
  });

  test("can be made once more", async () => {
    await copy(COPIES[0]);
    await copy(COPIES[1]);
    expect(tables()?.sort()).toEqual(["Log_A", "Log_A_2", "Log_A_3"]);
    await type(COPIES[1], "C5", 40);
    expect([value("Answers", "E1"), value(LOG, "D5"), value(COPIES[0], "D5"), value(COPIES[1], "D5")]).toEqual([
      3.5, 4, 4, 80,
    ]);
  });
});
