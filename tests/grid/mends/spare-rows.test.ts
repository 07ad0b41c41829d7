import { CellValueType, IUndoRedoService, IUniverInstanceService } from "@univerjs/core";

import { keepSpareRows, LEAST_SPARE_ROWS } from "../../../src/grid/mends/spare-rows";
import { LAST_ROW } from "../../../src/core/sheet";
import { type Engine, openEngine } from "../engine";
import { smallPlan } from "../plan";

describe("a sheet", () => {
  let engine: Engine;

  beforeEach(async () => {
    engine = await openEngine(smallPlan);
    keepSpareRows(engine.api);
  });

  afterEach(() => engine.close());

  const sheet = () => {
    const found = engine.api.getActiveWorkbook()?.getSheetByName("Log O'Hara");
    if (!found) throw new Error("The sheet is gone.");
    return found;
  };
  const type = (row: number): void => {
    sheet().getRange(row, 1).setValue({ v: "ccd", t: CellValueType.STRING });
  };
  const rows = (): number => sheet().getSheet().getRowCount();

  test("gets more rows where somebody writes near its end, up to the last that a sheet has", () => {
    const before = rows();
    type(before - LEAST_SPARE_ROWS - 1);
    expect(rows()).toBe(before);
    type(before - 1);
    expect(rows()).toBe(before + 1000);
    sheet().setRowCount(LAST_ROW - 5);
    type(LAST_ROW - 6);
    expect(rows()).toBe(LAST_ROW);
    type(LAST_ROW - 1);
    expect(rows()).toBe(LAST_ROW);
  });

  test("has one step for Undo as before, and its rows stay", async () => {
    // Undo is for the workbook that has the keys.
    engine.injector.get(IUniverInstanceService).focusUnit(engine.api.getActiveWorkbook()?.getId() ?? "");
    const before = rows();
    type(before - 1);
    await engine.api.undo();
    expect(engine.injector.get(IUndoRedoService).pitchTopUndoElement()).toBeNull();
    expect(
      sheet()
        .getSheet()
        .getCellRaw(before - 1, 1)?.v ?? "",
    ).toBe("");
    expect(rows()).toBe(before + 1000);
  });
});
