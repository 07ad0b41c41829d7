import { CellValueType } from "@univerjs/core";

import { tellOfVanishedSpills } from "../../../src/grid/mends/vanished-spills";
import { type Engine, openEngine } from "../engine";
import { smallPlan } from "../plan";

/** The plan's first answer counts each mark of B4:B6 in a block of its own row: three marks, and a heading. */
describe("cells that a spill has left empty", () => {
  let engine: Engine;
  const calculate = jest.fn();

  beforeEach(async () => {
    calculate.mockReset();
    engine = await openEngine(smallPlan);
    tellOfVanishedSpills(engine.api, engine.injector, calculate);
    await mark(4, "c");
  });

  afterEach(() => {
    engine.close();
  });

  async function mark(row: number, value: string): Promise<void> {
    const sheet = engine.api.getActiveWorkbook()?.getSheetByName("Log O'Hara");
    sheet?.getRange(row - 1, 1).setValue({ v: value, t: CellValueType.STRING });
    await engine.settled();
  }

  test("are told of when the block gets smaller", async () => {
    expect(calculate).not.toHaveBeenCalled();
    await mark(5, "c");
    expect(calculate).toHaveBeenCalledTimes(1);
  });

  test("are told of when the block turns into an error", async () => {
    await mark(5, "x");
    expect(calculate).toHaveBeenCalledTimes(1);
  });

  test("are not told of when the block stays as large, or grows", async () => {
    await mark(5, "b");
    expect(calculate).not.toHaveBeenCalled();
    await mark(5, "c");
    expect(calculate).toHaveBeenCalledTimes(1);
    await mark(5, "d");
    expect(calculate).toHaveBeenCalledTimes(1);
  });
});
