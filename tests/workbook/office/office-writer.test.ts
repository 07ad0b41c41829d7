import { defaultSettings, seasonPlan } from "../../../src/workbook/season/season";
import { blockName, cellName } from "../../../src/workbook/plan/address";
import { printFormula } from "../../../src/workbook/plan/formula";
import { numberFormats, wordLooks } from "../../../src/workbook/plan/looks";
import type { Content, NumberFormat, SheetPlan, WorkbookPlan } from "../../../src/workbook/plan/schema";
import { tableBlock } from "../../../src/workbook/plan/tables";
import { WriteFailure, writeWithOffice } from "../../../src/workbook/office/office-writer";
import { fakeContext, FakeHostError, FakeWorkbook, type Failure } from "../../taskpane/fake-office";

const season = seasonPlan({
  ...defaultSettings,
  label: "2027",
  contestDate: 46_500,
  athletes: ["M.K.", "A.R."],
  tricks: [
    { name: "Double turn", bodyCounts: 4 },
    { name: "=HYPERLINK(1)", bodyCounts: null },
    { name: "+1 spin", bodyCounts: 2.5 },
  ],
});

const emptySheet: SheetPlan = {
  name: "Trial",
  columnWidths: [],
  areas: [],
  cells: [],
  tables: [],
  validations: [],
  rules: [],
  charts: [],
  frozen: { rows: 0, columns: 0 },
};

const planOf = (...sheets: readonly Partial<SheetPlan>[]): WorkbookPlan => {
  const full = sheets.map((sheet) => ({ ...emptySheet, ...sheet }));
  return { sheets: full, active: full[0]?.name ?? "" };
};

async function write(plan: WorkbookPlan, workbook = new FakeWorkbook(), failure?: Failure): Promise<FakeWorkbook> {
  await writeWithOffice(fakeContext(workbook, failure).context, plan);
  return workbook;
}

describe("a season in the workbook", () => {
  let workbook: FakeWorkbook;
  beforeAll(async () => {
    workbook = await write(season, new FakeWorkbook(["Club", "Notes"]));
  });

  test("its sheets come after those that were there, and its active one is shown", () => {
    expect(workbook.sheets.map(({ name }) => name)).toEqual([
      "Club",
      "Notes",
      ...season.sheets.map(({ name }) => name),
    ]);
    expect(workbook.sheet(workbook.activeId).name).toBe(season.active);
  });

  test("every cell of the plan holds what the plan says, in its format", () => {
    let cells = 0;
    for (const sheet of season.sheets) {
      for (const { at, content, format } of sheet.cells) {
        const found = workbook.cell(sheet.name, cellName(at));
        expect([sheet.name, cellName(at), found]).toEqual([
          sheet.name,
          cellName(at),
          { ...expectedCell(content), format: numberFormats[format] },
        ]);
        cells += 1;
      }
    }
    expect(cells).toBeGreaterThan(0);
  });

  test("every table stands where the plan puts it, with its name, headings, rows and calculated columns", () => {
    const tables = season.sheets.flatMap((sheet) => sheet.tables.map((table) => ({ sheet: sheet.name, table })));
    expect(workbook.tables().map(({ name }) => name)).toEqual(tables.map(({ table }) => table.name));
    for (const { sheet, table } of tables) {
      expect(workbook.sheet(sheet).tables.find(({ name }) => name === table.name)?.area).toEqual(tableBlock(table));
      table.columns.forEach((column, index) => {
        const at = (row: number) => cellName({ row: table.at.row + row, column: table.at.column + index });
        expect(workbook.cell(sheet, at(0)).value).toBe(column.heading);
        table.rows.forEach((row, rowIndex) => {
          const content: Content | undefined = column.formula
            ? { kind: "formula", formula: column.formula, spills: false }
            : row[index];
          expect(workbook.cell(sheet, at(rowIndex + 1))).toEqual({
            ...expectedCell(content ?? { kind: "empty" }),
            format: numberFormats[column.format],
          });
        });
      });
    }
  });

  test("a column's format is there in the room below its table as well: 8/10 typed there stays a tally", () => {
    const practice = season.sheets.flatMap((sheet) => sheet.tables.map((table) => ({ sheet, table })));
    const texts = practice.flatMap(({ sheet, table }) =>
      table.columns.flatMap((column, index) => (column.format === "text" ? [{ sheet, table, index }] : [])),
    );
    expect(texts.length).toBeGreaterThan(0);
    for (const { sheet, table, index } of texts) {
      const below = { row: table.at.row + table.rows.length + 1000, column: table.at.column + index };
      expect(workbook.cell(sheet.name, cellName(below)).format).toBe("@");
    }
  });

  test("every status rule colours by the word, in the plan's order", () => {
    for (const sheet of season.sheets) {
      const found = workbook.sheet(sheet.name).settings.filter((line) => / rule(\.| =)/.test(line));
      expect(found).toEqual(
        sheet.rules.flatMap((rule) => {
          const { textColour, bold, fill } = wordLooks[rule.look];
          return [
            `${blockName(rule.on)} rule.font.color = "${textColour}"`,
            `${blockName(rule.on)} rule.font.bold = ${String(bold)}`,
            `${blockName(rule.on)} rule.fill.color = "${fill}"`,
            `${blockName(rule.on)} rule = ${JSON.stringify({ operator: "EqualTo", formula1: `="${rule.text}"` })}`,
          ];
        }),
      );
    }
    expect(season.sheets.flatMap(({ rules }) => rules).length).toBeGreaterThan(0);
  });

  test("every validation of the plan is set, with its input message", () => {
    for (const sheet of season.sheets) {
      const planned = [
        ...sheet.tables.flatMap(({ columns }) => columns.flatMap(({ validation }) => validation ?? [])),
        ...sheet.validations.map(({ validation }) => validation),
      ];
      const { settings } = workbook.sheet(sheet.name);
      expect(settings.filter((line) => line.includes(" validation.rule = "))).toHaveLength(planned.length);
      const messages = planned.flatMap(({ inputMessage }) => inputMessage ?? []);
      const prompts = settings.filter((line) => line.includes(" validation.prompt = "));
      expect(prompts.map((line) => (JSON.parse(line.split(" = ")[1] ?? "") as { message: string }).message)).toEqual(
        messages,
      );
    }
  });
});

function expectedCell(content: Content): { value: string | number | null; formula: string | null } {
  switch (content.kind) {
    case "text":
      return { value: content.text === "" ? null : content.text, formula: null };
    case "number":
      return { value: content.value, formula: null };
    case "date":
      return { value: content.serial, formula: null };
    case "formula":
      return { value: null, formula: `=${printFormula(content.formula, "sheet")}` };
    case "empty":
      return { value: null, formula: null };
  }
}

describe("text stays text", () => {
  const risky = [
    '=HYPERLINK("https://example.org")',
    "+1 spin",
    "-2",
    "@name",
    "'quoted",
    "8/10",
    "0110",
    "80%",
    "1,5",
    "TRUE",
    "false",
    "May 5",
    "5 May",
    "10:30",
    "Double turn",
    "1½ spins",
    "Étoile (left)",
  ];
  const cases = risky.flatMap((text) => (["general", "text"] as const).map((format) => ({ text, format })));

  test.each(cases)("$text in a $format cell", async ({ text, format }: { text: string; format: NumberFormat }) => {
    const content = { kind: "text", text } as const;
    const workbook = await write(
      planOf({
        cells: [{ at: { row: 1, column: 1 }, content, look: "plain", format }],
        tables: [{ name: "T", at: { row: 3, column: 1 }, columns: [{ heading: "Trick", format }], rows: [[content]] }],
      }),
    );
    expect(workbook.cell("Trial", "A1").value).toBe(text);
    expect(workbook.cell("Trial", "A4").value).toBe(text);
  });
});

test("a formula may name a table that comes on a later sheet", async () => {
  const first = planOf({
    cells: [
      {
        at: { row: 1, column: 1 },
        content: { kind: "formula", formula: { kind: "column", table: "Later", column: "Marks" }, spills: true },
        look: "plain",
        format: "general",
      },
    ],
  }).sheets[0] as SheetPlan;
  const second: SheetPlan = {
    ...emptySheet,
    name: "Second",
    tables: [
      {
        name: "Later",
        at: { row: 1, column: 1 },
        columns: [{ heading: "Marks", format: "text" }],
        rows: [[{ kind: "empty" }]],
      },
    ],
  };
  const workbook = await write({ sheets: [first, second], active: "Trial" });
  expect(workbook.cell("Trial", "A1").formula).toBe("=Later[Marks]");
});

test("tells the sheets as it begins them", async () => {
  const told: unknown[] = [];
  await writeWithOffice(fakeContext(new FakeWorkbook()).context, season, (...what) => told.push(what));
  expect(told).toEqual(season.sheets.map(({ name }, index) => [name, index + 1, season.sheets.length]));
});

const sheetsWithCharts = season.sheets.filter(({ charts }) => charts.length > 0);

/**
 * How often a season goes to the host until it stands: once to look, twice a sheet and twice more for one with charts,
 * once to show the first one.
 */
const syncsOfASeason = 2 + 2 * season.sheets.length + 2 * sheetsWithCharts.length;

test("goes to the host a fixed number of times, whatever the sheets hold", async () => {
  const { context, syncs } = fakeContext(new FakeWorkbook());
  await writeWithOffice(context, season);
  // And once more for the pages on paper.
  expect(syncs()).toBe(syncsOfASeason + 1);
});

test("sheets are one page wide, with their headings on each page", async () => {
  const workbook = await write(season);
  for (const { name, frozen } of season.sheets) {
    expect(workbook.sheet(name).settings).toEqual(
      expect.arrayContaining([
        `page.orientation = "${/^(Toss lab|Trick) /.test(name) ? "Portrait" : "Landscape"}"`,
        'page.zoom = {"horizontalFitToPages":1}',
        `page.titles $1:$${String(frozen.rows)}`,
      ]),
    );
  }
  expect(workbook.sheet("Board 2027").settings.find((line) => line.startsWith("page.area"))).toMatch(/^page.area A:M,/);
});

test("every chart has the plan's series and none of the host's own, over the plan's cells", async () => {
  const workbook = await write(season);
  expect(sheetsWithCharts.map(({ name }) => name)).toEqual(["Board 2027", "Trick 2027", "Toss lab 2027"]);
  for (const sheet of sheetsWithCharts) {
    const { charts } = workbook.sheet(sheet.name);
    expect(
      charts.map(({ name, series }) => ({ name, series: series.map(({ name, across, up }) => [name, across, up]) })),
    ).toEqual(
      sheet.charts.map(({ name, series }) => ({
        name,
        series: series.map((one) => [one.name, blockName(one.across), blockName(one.up)]),
      })),
    );
    sheet.charts.forEach((planned, index) => {
      const settings = charts[index]?.settings ?? [];
      expect(settings).toContain(`position ${blockName(planned.on)}`);
      expect(settings).toContain(`title = ${JSON.stringify(planned.title)}`);
    });
  }
});

test("a machine that cannot print builds the season all the same", async () => {
  const printless = new FakeWorkbook();
  await write(season, printless, { atSync: syncsOfASeason + 1, after: "nothing" });
  expect(printless.sheets).toHaveLength(1 + season.sheets.length);
  expect(printless.sheet(printless.activeId).name).toBe(season.active);
});

describe("a failure leaves the workbook as it was", () => {
  const cases = [...Array(syncsOfASeason).keys()].flatMap((index) =>
    (["nothing", "half", "all"] as const).map((after) => ({ atSync: index + 1, after })),
  );

  test.each(cases)("at sync $atSync, after $after of it took effect", async (failure) => {
    const workbook = new FakeWorkbook(["Club", "Notes"]);
    workbook.sheet("Club").cells.set("A1", { value: "ours", formula: null, format: "General" });
    workbook.activeId = workbook.sheet("Club").id;
    const before = workbook.toText();
    const failed = await write(season, workbook, failure).catch((cause: unknown) => cause);
    expect(failed).toBeInstanceOf(WriteFailure);
    expect((failed as WriteFailure).leftBehind).toEqual([]);
    expect((failed as WriteFailure).cause).toBeInstanceOf(FakeHostError);
    expect(workbook.toText()).toBe(before);
  });
});

test("what cannot be taken out again is named", async () => {
  const workbook = new FakeWorkbook();
  const failed = await write(season, workbook, { atSync: 4, after: "nothing", lasting: true }).catch(
    (cause: unknown) => cause,
  );
  const there = workbook.sheets.map(({ name }) => name).filter((name) => name !== "Sheet1");
  expect(there.length).toBeGreaterThan(0);
  expect((failed as WriteFailure).leftBehind).toEqual(expect.arrayContaining(there));
});

describe("a name that is taken is refused before anything is written", () => {
  test.each([
    {
      what: "sheet",
      take: (workbook: FakeWorkbook) => workbook.addSheet((season.sheets[1]?.name ?? "").toUpperCase()),
    },
    {
      what: "table",
      take: (workbook: FakeWorkbook) =>
        workbook.sheet("Sheet1").tables.push({
          name: (season.sheets.flatMap(({ tables }) => tables)[0]?.name ?? "").toLowerCase(),
          style: "TableStyleLight1",
          area: { row: 1, column: 1, rows: 2, columns: 1 },
        }),
    },
  ])("of a $what", async ({ take }) => {
    const workbook = new FakeWorkbook();
    take(workbook);
    const before = workbook.toText();
    const { context, syncs } = fakeContext(workbook);
    await expect(writeWithOffice(context, season)).rejects.toThrow(/already/);
    expect(workbook.toText()).toBe(before);
    expect(syncs()).toBe(1);
  });
});

describe("the fake host is strict", () => {
  const sheetOf = (workbook = new FakeWorkbook()) => {
    const { context } = fakeContext(workbook);
    return { context, sheet: context.workbook.worksheets.getItem("Sheet1") };
  };

  test("a read before load, and before sync, throws", async () => {
    const { context, sheet } = sheetOf();
    expect(() => sheet.name).toThrow(/not loaded/);
    sheet.load("name");
    expect(() => sheet.name).toThrow(/before a sync/);
    await context.sync();
    expect(sheet.name).toBe("Sheet1");
  });

  test("a block of another shape than its range throws", () => {
    const range = sheetOf().sheet.getRangeByIndexes(0, 0, 2, 2);
    expect(() => (range.values = [[1, 2]])).toThrow(/2 by 2/);
    expect(() => (range.values = [[1], [2]])).toThrow(/2 by 2/);
    expect(() => (range.numberFormat = [["@"]])).toThrow(/2 by 2/);
  });

  test("what the fake does not know throws, read, called or set", () => {
    const { sheet } = sheetOf();
    expect(() => sheet.shapes).toThrow(/knows no/);
    expect(() => sheet.calculate(true)).toThrow(/knows no/);
    expect(() => (sheet.tabColor = "#000000")).toThrow(/cannot be set/);
    expect(() => (sheet.getRangeByIndexes(0, 0, 1, 1).format.rowHeight = "10" as unknown as number)).toThrow();
  });

  test.each([
    ["a sheet name that is there, in other capitals", "sheet1"],
    ["a sheet name of 32 characters", "a".repeat(32)],
    ["a sheet name with a character that is not allowed", "5/6"],
    ["an empty sheet name", ""],
  ])("%s is refused", async (_what, name) => {
    const { context } = sheetOf();
    context.workbook.worksheets.add(name);
    await expect(context.sync()).rejects.toBeInstanceOf(FakeHostError);
  });

  test.each(["=SUM(1", '="open', "=Nowhere[Marks]", "='No sheet'!$A$1", "=_xldudf_TWIRL_STREAK(1)", "=1+"])(
    "the formula %s is refused",
    async (formula) => {
      const { context, sheet } = sheetOf();
      sheet.getRangeByIndexes(0, 0, 1, 1).formulas = [[formula]];
      await expect(context.sync()).rejects.toBeInstanceOf(FakeHostError);
    },
  );

  test("a text that is typed into a cell that is not text turns into something else", async () => {
    const workbook = new FakeWorkbook();
    const { context, sheet } = sheetOf(workbook);
    sheet.getRangeByIndexes(0, 0, 1, 3).values = [["8/10", "0110", "TRUE"]];
    await context.sync();
    expect(["A1", "B1", "C1"].map((address) => typeof workbook.cell("Sheet1", address).value)).toEqual([
      "number",
      "number",
      "boolean",
    ]);
  });
});
