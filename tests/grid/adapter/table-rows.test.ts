import { IUndoRedoService, IUniverInstanceService } from "@univerjs/core";
import { growTables } from "../../../src/grid/mends/growing-tables";
import { cellAddress } from "../../../src/page/addresses";
import { gridHost } from "../../../src/grid/adapter/grid-host";
import type { WorkbookHost } from "../../../src/taskpane/host/host";
import type { Content } from "../../../src/workbook/plan/schema";
import { besideGrid, type Engine, openEngine } from "../engine";
import { smallPlan } from "../plan";

/** The table of the plan has its headings in row 3 and its rows in 4 to 6; its last column is calculated. */
describe("the tables of the page", () => {
  let engine: Engine;
  let host: WorkbookHost;

  beforeEach(async () => {
    engine = await openEngine(smallPlan);
    growTables(engine.api, engine.injector);
    host = gridHost({ ...engine, ...besideGrid(), show: () => undefined });
  });

  afterEach(() => {
    engine.close();
  });

  const sheetName = "Log O'Hara";

  function sheet() {
    const found = engine.api.getActiveWorkbook()?.getSheetByName(sheetName);
    if (!found) throw new Error("The sheet is gone.");
    return found;
  }

  function raw(address: string) {
    const { row, column } = cellAddress(address);
    return sheet().getSheet().getCellRaw(row, column);
  }

  const lastRow = (): number => (sheet().getSubTableInfos()[0]?.range.endRow ?? -1) + 1;

  const row = (marks: string): Map<string, Content> =>
    new Map<string, Content>([
      ["Date", { kind: "date", serial: 46400 }],
      ["Marks", { kind: "text", text: marks }],
      ["Length (s)", { kind: "number", value: 3 }],
    ]);

  /** Everything that the sheet holds and how large its table is. */
  const all = (): string => JSON.stringify([lastRow(), sheet().getSheet().getSnapshot().cellData]);

  test("are read with their place, headings and values", async () => {
    await expect(host.readTables(["Log_A"])).resolves.toEqual([
      {
        sheet: sheetName,
        at: { row: 3, column: 1 },
        headings: ["Date", "Marks", "Length (s)", "Twice"],
        rows: [
          [46391, "c", 1.5, 3],
          [46392, "0110", 2, 4],
          [46393, "=1+1", "", 0],
        ],
      },
    ]);
    await expect(host.readTables(["Log_Z"])).rejects.toThrow("The workbook has no table Log_Z.");
  });

  test("columns are added at the right end in one step for Undo; what is there stays, and twice adds none", async () => {
    const [before] = await host.readTables(["Log_A"]);
    await host.addColumns("Log_A", ["Marks", "Hall", "Floor"]);
    await host.addColumns("Log_A", ["Hall", "Floor"]);
    await engine.settled();
    const [after] = await host.readTables(["Log_A"]);
    expect(after?.headings).toEqual([...(before?.headings ?? []), "Hall", "Floor"]);
    expect(after?.rows).toEqual(before?.rows.map((values) => [...values, "", ""]));
    expect(raw("E3")).toMatchObject({ v: "Hall", s: raw("C3")?.s });
    // A row that comes later has the new columns as well.
    await host.appendRow("Log_A", row("ccd").set("Floor", { kind: "text", text: "wood" }));
    await engine.settled();
    expect(raw("F7")?.v).toBe("wood");
    engine.injector.get(IUniverInstanceService).focusUnit(engine.api.getActiveWorkbook()?.getId() ?? "");
    await engine.api.undo();
    await engine.api.undo();
    await engine.settled();
    await expect(host.readTables(["Log_A"])).resolves.toEqual([before]);
    expect(raw("E3")?.v ?? null).toBeNull();
  });

  test("columns are refused where cells beside the table are in the way, and nothing has changed then", async () => {
    sheet().getRange("F5").setValue("mine");
    await expect(host.addColumns("Log_A", ["Hall", "Floor"])).rejects.toThrow("F5");
    const [table] = await host.readTables(["Log_A"]);
    expect(table?.headings).toHaveLength(4);
  });

  test("a block is read by its sheet", async () => {
    await expect(host.readBlock(sheetName, { row: 3, column: 2, rows: 2, columns: 2 })).resolves.toEqual([
      ["Marks", "Length (s)"],
      ["c", 1.5],
    ]);
    await expect(host.readBlock("Nowhere", { row: 1, column: 1, rows: 1, columns: 1 })).rejects.toThrow("Nowhere");
  });

  test.each(["ccdcc ccccd", "8/10", "0110", "=1+1", "true"])(
    "a row goes below the last, its marks %s as text",
    async (marks) => {
      await expect(host.appendRow("Log_A", row(marks))).resolves.toBe("'Log O''Hara'!A7:D7");
      await engine.settled();
      expect(lastRow()).toBe(7);
      expect(raw("B7")).toMatchObject({ v: marks, t: 1, s: raw("B6")?.s });
      expect(raw("A7")).toMatchObject({ v: 46400, t: 2, s: raw("A6")?.s });
      // The calculated column comes with its row.
      expect(raw("D7")).toMatchObject({ f: "=Log_A[[#This Row],[Length (s)]]*2", v: 6 });
      const answers = engine.api.getActiveWorkbook()?.getSheetByName("Answers")?.getSheet();
      expect(answers?.getCellRaw(0, 4)?.v).toBe(6.5);
    },
  );

  test("rows follow each other, and one that was left empty is filled first", async () => {
    await host.appendRow("Log_A", row("c"));
    await expect(host.appendRow("Log_A", row("d"))).resolves.toBe("'Log O''Hara'!A8:D8");
    sheet().getRange("A7:C8").clearContent();
    await engine.settled();
    await expect(host.appendRow("Log_A", row("b"))).resolves.toBe("'Log O''Hara'!A7:D7");
    expect([lastRow(), raw("B7")?.v]).toEqual([8, "b"]);
  });

  test("one press of Undo takes the row and the table's growth back, one of Redo brings both again", async () => {
    const book = engine.api.getActiveWorkbook();
    // Undo is for the workbook that has the keys.
    engine.injector.get(IUniverInstanceService).focusUnit(book?.getId() ?? "");
    const undo = engine.injector.get(IUndoRedoService);
    await host.appendRow("Log_A", row("ccd"));
    await engine.settled();
    expect(undo.pitchTopUndoElement()).not.toBeNull();
    await engine.api.undo();
    expect(lastRow()).toBe(6);
    expect(["A7", "B7", "C7", "D7"].map((address) => [raw(address)?.v ?? "", raw(address)?.f ?? ""])).toEqual(
      Array(4).fill(["", ""]),
    );
    expect(undo.pitchTopUndoElement()).toBeNull();
    await engine.api.redo();
    await engine.settled();
    expect(lastRow()).toBe(7);
    expect(raw("B7")?.v).toBe("ccd");
    expect(raw("D7")?.f).toBe("=Log_A[[#This Row],[Length (s)]]*2");
  });

  test("a column that is not there is told before anything is written", async () => {
    const before = all();
    await expect(host.appendRow("Log_A", row("c").set("Mood", { kind: "text", text: "good" }))).rejects.toThrow(
      "The table Log_A has no column Mood.",
    );
    expect(all()).toBe(before);
  });

  test("a number goes into the selected cell, and only where it is empty", async () => {
    sheet().setActiveSelection(sheet().getRange("H9"));
    engine.api.getActiveWorkbook()?.setActiveSheet(sheet());
    await expect(host.insertValue(1.83)).resolves.toBe("'Log O''Hara'!H9");
    expect(raw("H9")).toMatchObject({ v: 1.83 });
    await expect(host.insertValue(2)).rejects.toThrow("'Log O''Hara'!H9 holds something.");
    expect(raw("H9")).toMatchObject({ v: 1.83 });
  });

  test("the workbook has a name", () => {
    expect(host.workbookName()).toBe("Twirl Ledger");
  });
});
