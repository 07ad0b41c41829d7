import { ICommandService } from "@univerjs/core";
import { InsertSheetMutation } from "@univerjs/sheets";

import { answersOf } from "../../../src/grid/file/answers";
import { gridState } from "../../../src/grid/file/grid-state";
import { readWorkbook } from "../../../src/grid/file/open";
import { WorkbookFile } from "../../../src/grid/file/workbook-file";
import { WorkbookPackage } from "../../../src/xlsx/package/workbook-package";
import { gridHost } from "../../../src/grid/adapter/grid-host";
import { besideGrid, type Engine, openEngineOn } from "../engine";
import { smallPlan } from "../plan";
import { bookFile, type BookParts, testOptions } from "./parts";

const club: BookParts = {
  styles:
    '<fonts count="1"><font><sz val="10"/><name val="Arial"/></font></fonts><fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>' +
    '<borders count="1"><border/></borders><cellXfs count="2"><xf fontId="0" fillId="0" borderId="0"/><xf fontId="0" fillId="0" borderId="0" numFmtId="14"/></cellXfs>',
  strings: "<si><t>own text</t></si>",
  sheets: [
    {
      name: "Our log",
      rows: '<row r="1"><c r="A1" t="s"><v>0</v></c></row>',
      tables: [
        '<table name="Ours" displayName="Ours" ref="A1:A2"><tableColumns count="1"><tableColumn id="1" name="own text"/></tableColumns></table>',
      ],
    },
  ],
};

const engines: Engine[] = [];

afterEach(() => {
  for (const engine of engines.splice(0)) engine.close();
});

async function open(book: BookParts): Promise<{ engine: Engine; file: WorkbookFile }> {
  const { file, snapshot } = WorkbookFile.open("club.xlsx", bookFile(book), testOptions);
  const engine = await openEngineOn(snapshot);
  engines.push(engine);
  file.opening = answersOf(gridState(engine.api, engine.injector));
  return { engine, file };
}

function host({ engine, file }: { engine: Engine; file: WorkbookFile }): ReturnType<typeof gridHost> {
  return gridHost({
    api: engine.api,
    injector: engine.injector,
    calculate: () => engine.calculate(),
    ...besideGrid(),
    show: () => undefined,
    prepareSheets: (plan) => file.prepareSheets(plan),
  });
}

describe("sheets that the pane adds", () => {
  test("come into the file with their tables, looks, rules and answers; what was there stays", async () => {
    const opened = await open(club);
    const { engine, file } = opened;
    const done = engine.settled();
    await host(opened).addSheets(smallPlan);
    await done;
    const { package: saved, losses } = file.save(gridState(engine.api, engine.injector));
    expect(losses).toEqual([]);
    const before = WorkbookPackage.open(bookFile(club));
    expect(saved.text("xl/worksheets/sheet1.xml")).toBe(before.text("xl/worksheets/sheet1.xml"));
    expect(saved.text("xl/tables/table1.xml")).toBe(before.text("xl/tables/table1.xml"));

    const read = readWorkbook(WorkbookPackage.open(saved.toFile()), testOptions);
    expect(read.part.sheets.map(({ name }) => name)).toEqual(["Our log", ...smallPlan.sheets.map(({ name }) => name)]);
    const [, log, answers] = read.sheets;
    expect(log?.tables.map(({ file: table }) => table.name)).toEqual(
      smallPlan.sheets[0]?.tables.map(({ name }) => name),
    );
    expect(log?.rules.length).toBe(smallPlan.sheets[0]?.rules.length);
    // Worked out in the grid and stored in the file: `Mark` and `Count` head what TALLY answers.
    expect(saved.text("xl/worksheets/sheet3.xml")).toMatch(
      /<c r="A1" s="\d+" cm="1" t="str"><f t="array" ref="A1:B\d+">_xldudf_TWIRL_TALLY\(Log_A\[Marks\]\)<\/f><v>Mark<\/v>/,
    );
    expect(answers?.sheet.cellData?.[0]?.[0]?.f).toBe("=TWIRL.TALLY(Log_A[Marks])");
    // Ids of tables are unique throughout the workbook.
    expect(saved.text("xl/tables/table2.xml")).toContain(' id="2"');
  });

  test("take no name of a part that another sheet still points to although it is gone", async () => {
    const [sheet] = club.sheets;
    const links = [
      ["drawing", "../drawings/drawing1.xml"],
      ["vmlDrawing", "../charts/chart1.xml"],
    ] as const;
    const opened = await open({ ...club, sheets: [{ ...sheet, related: links }] });
    const done = opened.engine.settled();
    await host(opened).addSheets(smallPlan);
    await done;
    const saved = WorkbookPackage.open(opened.file.original);
    expect(saved.has("xl/drawings/drawing1.xml")).toBe(false);
    expect(saved.has("xl/charts/chart1.xml")).toBe(false);
    expect(saved.names().filter((name) => /drawings\/drawing\d+\.xml$/.test(name))).toEqual([
      "xl/drawings/drawing2.xml",
    ]);
    const charts = readWorkbook(saved, testOptions).sheets.map(({ entry, charts: own }) => [
      entry.name,
      own.charts.length,
    ]);
    expect(charts[0]).toEqual(["Our log", 0]);
    expect(charts.some(([, count]) => count === 1)).toBe(true);
  });

  test("can be added twice, and be typed into", async () => {
    const opened = await open(club);
    const { engine, file } = opened;
    await host(opened).addSheets(smallPlan);
    const renamed = JSON.parse(
      JSON.stringify(smallPlan)
        .replaceAll("Log_A", "Log_B")
        .replaceAll("Log O'Hara", "Second log")
        .replaceAll("Answers", "Second answers"),
    ) as typeof smallPlan;
    await host(opened).addSheets(renamed);
    const sheet = engine.api.getActiveWorkbook()?.getSheetByName("Second log");
    sheet?.getRange("G9").setValue("typed");
    const done = engine.settled();
    engine.calculate();
    await done;
    const saved = file.save(gridState(engine.api, engine.injector)).package;
    const read = readWorkbook(WorkbookPackage.open(saved.toFile()), testOptions);
    expect(read.sheets).toHaveLength(5);
    expect(read.sheets[3]?.sheet.cellData?.[8]?.[6]?.v).toBe("typed");
    expect(new Set(read.sheets.flatMap(({ tables }) => tables.map(({ file: table }) => table.part))).size).toBe(3);
  });

  test("leave no trace when the grid refuses them", async () => {
    const opened = await open(club);
    const { engine, file } = opened;
    const before = file.original;
    const commands = engine.injector.get(ICommandService);
    const listener = commands.beforeCommandExecuted(({ id, params }) => {
      const { sheet } = (params ?? {}) as { sheet?: { name?: string } };
      if (id === InsertSheetMutation.id && sheet?.name === smallPlan.sheets[1]?.name) throw new Error("No room.");
    });
    await expect(host(opened).addSheets(smallPlan)).rejects.toThrow("taken out again");
    listener.dispose();
    expect(file.original).toBe(before);
    expect(file.save(gridState(engine.api, engine.injector)).package.isChanged).toBe(false);
  });
});
