import { blockName, cellName } from "../../../src/workbook/plan/address";
import { checkPlan, overlap } from "../../../src/workbook/plan/check-plan";
import { callsTwirl, formulaParts, printFormula, type Formula } from "../../../src/workbook/plan/formula";
import { STATUSES } from "../../../src/trade/statuses";
import type { CellPlan, SheetPlan, WorkbookPlan } from "../../../src/workbook/plan/schema";
import { defaultSettings, seasonPlan, sheetNames, type SeasonSettings } from "../../../src/workbook/season/season";
import { setting, settingAddress, type SheetSetting } from "../../../src/workbook/season/season-sheet";
import { sampleRecords, sampleSeason, sampleSettings } from "../../../src/workbook/sample/sample-season";

const awkward: SeasonSettings = {
  ...defaultSettings,
  label: " Été 27-B ",
  athletes: ["=HYPERLINK(1)"],
  tricks: [{ name: "+1 spin", bodyCounts: null }],
  unit: "ft",
};

const plans: readonly (readonly [string, WorkbookPlan])[] = [
  ["the sample season", sampleSeason()],
  ["an empty season", seasonPlan(sampleSettings)],
  ["a season with duos and a team", seasonPlan({ ...awkward, exchanges: true })],
  ["a season of awkward names", seasonPlan(awkward)],
  ["the longest label", seasonPlan({ ...sampleSettings, label: "Under-12 2027".slice(0, 12) })],
];

function formulasOf(sheet: SheetPlan): readonly Formula[] {
  return [
    ...sheet.cells.flatMap(({ content }) => (content.kind === "formula" ? [content.formula] : [])),
    ...sheet.tables.flatMap((table) => table.columns.flatMap(({ formula }) => formula ?? [])),
  ];
}

function sheetOf(plan: WorkbookPlan, name: string): SheetPlan {
  const sheet = plan.sheets.find((one) => one.name === name);
  if (!sheet) throw new Error(`no sheet ${name}`);
  return sheet;
}

function cellAt(sheet: SheetPlan, row: number, column: number): CellPlan {
  const found = sheet.cells.find(({ at }) => at.row === row && at.column === column);
  if (!found) throw new Error(`nothing planned in ${cellName({ row, column })} of ${sheet.name}`);
  return found;
}

describe.each(plans)("%s", (_, plan) => {
  const label = plan.sheets[0]?.name.replace("Season ", "") ?? "";

  test("holds nothing that a spreadsheet would refuse", () => {
    expect(checkPlan(plan)).toEqual([]);
  });

  test("every sheet ends in the label, every table carries it", () => {
    for (const { name, tables } of plan.sheets) {
      expect(name.endsWith(` ${label}`)).toBe(true);
      for (const table of tables) expect(table.name.endsWith(`_${label.replace(/[ -]/g, "_")}`)).toBe(true);
    }
  });

  test("every reference to another sheet is to a setting's value, or to the room of the board or of the countdown", () => {
    const rooms = [sheetNames(label).board, sheetNames(label).week];
    const addresses: string[] = [];
    for (const sheet of plan.sheets) {
      for (const part of formulasOf(sheet).flatMap(formulaParts)) {
        if (part.kind !== "cells" || part.sheet === undefined) continue;
        if (part.sheet === sheetNames(label).week && part.to === undefined) {
          // What Week works out of the season's days, for the club's page.
          const { look } = cellAt(sheetOf(plan, part.sheet), part.from.row, part.from.column);
          expect(["answer", "note"]).toContain(look);
          continue;
        }
        if (rooms.includes(part.sheet)) {
          // Below its heading and as far as its rows are drawn: one column, or the names of athlete and trick.
          expect(part.from).toMatchObject({ row: 5 });
          expect(part.to?.row).toBe(404);
          expect([part.from.column, 2]).toContain(part.to?.column);
          continue;
        }
        expect(part.sheet).toBe(sheetNames(label).season);
        expect(part.to).toBeUndefined();
        const settings = sheetOf(plan, sheetNames(label).season);
        expect(cellAt(settings, part.from.row, part.from.column).look).toBe("input");
        addresses.push(cellName(part.from));
      }
    }
    expect(addresses.length).toBeGreaterThan(5);
  });

  test("each setting's value stands beside the words that name it", () => {
    const words: Readonly<Record<SheetSetting, string>> = {
      label: "Season",
      contestDate: "Contest date",
      standard: "Catch standard",
      setSize: "Set size",
      countsPerMinute: "Counts per minute",
      ceiling: "Ceiling height",
      unit: "Unit of lengths",
      releaseHeight: "Release height",
      clearance: "Room under the ceiling",
      dropCost: "Points lost for a drop",
      practicesAWeek: "Practices a week",
    };
    const sheet = sheetOf(plan, sheetNames(label).season);
    for (const [name, expected] of Object.entries(words)) {
      const { row, column } = settingAddress(name as SheetSetting);
      expect(cellAt(sheet, row, column - 1).content).toEqual({ kind: "text", text: expected });
    }
  });

  test("the board has room: nothing is planned where it may fall", () => {
    const spills = sheetOf(plan, sheetNames(label).board).cells.filter(
      ({ content }) => content.kind === "formula" && content.spills,
    );
    // The board, the history by day, the stages of learning, three short lists of three columns each, and what these ask.
    expect(spills.length).toBe(3 + 3 * 3 + 1);
    for (const sheet of [sheetOf(plan, sheetNames(label).board)]) {
      for (const { at } of spills) {
        // The board itself, the history by day, and the stages of learning.
        const isShortList = at.row > 4;
        const columns = isShortList ? 1 : at.column === 1 ? 13 : at.column < 20 ? 7 : 16;
        const room = { ...at, rows: isShortList ? 60 : at.column === 1 ? 401 : 201, columns };
        const inTheWay = [
          ...sheet.cells.filter((other) => other.at !== at).map((other) => ({ ...other.at, rows: 1, columns: 1 })),
          ...sheet.tables.map((table) => ({ ...table.at, rows: table.rows.length + 1, columns: table.columns.length })),
        ].filter((block) => overlap(block, room));
        expect(inTheWay.map(blockName)).toEqual([]);
      }
    }
  });

  test("no calculated column calls our functions, and no formula needs what the try-out page's engine lacks", () => {
    for (const sheet of plan.sheets) {
      for (const table of sheet.tables) {
        for (const { formula } of table.columns) if (formula) expect(callsTwirl(formula)).toBe(false);
      }
      for (const formula of formulasOf(sheet)) {
        const printed = printFormula(formula, "sheet");
        expect(printed).not.toMatch(/\[@|LET\(|[A-Z]\d+#/);
      }
    }
  });

  test("a sheet with several blocks beside each other holds no columns fast: they would look like the others' names", () => {
    for (const { name, frozen, columnWidths, tables } of plan.sheets) {
      // A narrow column is a gap between two blocks.
      const blocks = columnWidths.filter((width) => width <= 3).length + 1;
      const grows = tables.length === 0;
      if (grows && blocks > 1) expect([name, frozen.columns]).toEqual([name, 0]);
    }
  });

  test("the Season sheet is in sight beside an open pane on a laptop: settings, values, explanations", () => {
    const [label = 0, value = 0, explanation = 0] = plan.sheets[0]?.columnWidths ?? [];
    // 1366 pixels less a pane of 330 and the row numbers; a digit of the usual letter is 7 pixels wide (ECMA-376, 18.3.1.13).
    expect((label + value + explanation) * 7 + 3 * 5).toBeLessThan(1366 - 330 - 46);
  });

  test("a table's headings fit their columns, the filter button included", () => {
    for (const sheet of plan.sheets) {
      for (const table of sheet.tables) {
        table.columns.forEach(({ heading }, index) => {
          expect(sheet.columnWidths[table.at.column - 1 + index]).toBeGreaterThanOrEqual(heading.length + 3);
        });
      }
    }
  });
});

describe("the settings", () => {
  const plan = seasonPlan({ ...sampleSettings, ceiling: 8.5, standard: 0.9, setSize: 5, unit: "ft" });
  const sheet = sheetOf(plan, "Season 2026");
  const value = (name: SheetSetting): CellPlan => {
    const { row, column } = settingAddress(name);
    return cellAt(sheet, row, column);
  };

  test("stand on the sheet as the coach gave them", () => {
    expect(value("standard")).toMatchObject({ content: { kind: "number", value: 0.9 }, format: "percent" });
    expect(value("setSize")).toMatchObject({ content: { kind: "number", value: 5 } });
    expect(value("ceiling")).toMatchObject({ content: { kind: "number", value: 8.5 } });
    expect(value("unit")).toMatchObject({ content: { kind: "text", text: "ft" } });
    expect(value("contestDate")).toMatchObject({ content: { kind: "date", serial: 46103 }, format: "date" });
  });

  test("the board reads the standard and the set size, in that order", () => {
    const board = sheetOf(plan, "Board 2026");
    const formula = formulasOf(board)
      .flatMap(formulaParts)
      .find((part) => part.kind === "twirl" && part.id === "BOARD");
    if (formula?.kind !== "twirl") throw new Error("the board is no call of ours");
    expect(formula.args.slice(4, 6)).toEqual([setting("2026", "standard"), setting("2026", "setSize")]);
    expect(formula.args.map((argument) => (argument.kind === "column" ? argument.column : argument.kind))).toEqual([
      "Date",
      "Athlete",
      "Trick",
      "Marks",
      "cells",
      "cells",
      "Stage",
    ]);
  });
});

describe("what is typed", () => {
  const plan = seasonPlan(awkward);

  test("a name that reads as a formula is text", () => {
    const season = sheetOf(plan, "Season Été 27-B");
    const tricks = sheetOf(plan, "Tricks Été 27-B");
    expect(season.tables[0]?.rows).toEqual([[{ kind: "text", text: "=HYPERLINK(1)" }, { kind: "empty" }]]);
    expect(tricks.tables[0]?.rows[0]?.[0]).toEqual({ kind: "text", text: "+1 spin" });
    expect(tricks.tables[0]?.columns[0]?.format).toBe("text");
  });

  test("marks are text, with a message how to type them, and dates are dates", () => {
    const log = sheetOf(plan, "Practice Été 27-B").tables[0];
    const column = (heading: string) => log?.columns.find((one) => one.heading === heading);
    expect(column("Marks")).toMatchObject({ format: "text", validation: { allowed: { kind: "none" } } });
    expect(column("Marks")?.validation?.inputMessage).toMatch(/ccdcc ccccd/);
    expect(column("Date")).toMatchObject({ format: "date", validation: { allowed: { kind: "date" } } });
  });

  test("an empty log has one row to type in", () => {
    const log = sheetOf(plan, "Practice Été 27-B").tables[0];
    expect(log?.rows).toHaveLength(1);
    expect(log?.rows[0]?.every(({ kind }) => kind === "empty")).toBe(true);
  });

  test("every row of the records is in the log, in order", () => {
    const log = sheetOf(sampleSeason(), "Practice 2026").tables[0];
    expect(log?.rows.map((row) => row[4])).toEqual(
      sampleRecords.practice.map(({ marks }) => ({ kind: "text", text: marks })),
    );
  });
});

test("each status word is explained, and coloured wherever statuses stand", () => {
  const season = sheetOf(sampleSeason(), "Season 2026");
  const board = sheetOf(sampleSeason(), "Board 2026");
  for (const word of STATUSES) {
    const explained = season.cells.find(({ content }) => content.kind === "text" && content.text === word);
    expect(explained).toBeDefined();
    const rule = season.rules.find(({ text }) => text === word);
    expect(rule && explained && overlap(rule.on, { ...explained.at, rows: 1, columns: 1 })).toBe(true);
    expect(board.rules.some(({ text, on }) => text === word && blockName(on) === "K5:K404")).toBe(true);
  }
});
