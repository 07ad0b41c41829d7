/**
 * One season through the three writers: the workbook behind the fake host, the `.xlsx` file read back by another
 * library than wrote it, and the workbook that the grid of the try-out page holds. Each is brought to the same plain
 * form, and all three must be the same.
 */
import { type DataValidation, Workbook, type Worksheet } from "@cj-tech-master/excelts";
import type { ICellData, IWorkbookData, IWorksheetData } from "@univerjs/core";

import { blockName, cellName } from "../../src/workbook/plan/address";
import { sampleSeason } from "../../src/workbook/sample/sample-season";
import type { Block, ChartPlan, SheetPlan } from "../../src/workbook/plan/schema";
import { tableBlock } from "../../src/workbook/plan/tables";
import { writeWorkbookFile } from "../../src/xlsx/write-plan";
import { writeWithOffice } from "../../src/workbook/office/office-writer";
import { openEngine } from "../grid/engine";
import { type Area, areaOf, fakeContext, FakeWorkbook, type FakeSheet } from "../taskpane/fake-office";
import { attribute, childText, elementsIn, Package } from "./package";

const season = sampleSeason();

/** One sheet in plain form. Lists are sorted, so that only what is there is compared. */
interface PlainSheet {
  readonly name: string;
  /** `A1` to what was put there: a formula as a person reads it, or a value. */
  readonly cells: Readonly<Record<string, string | number>>;
  /** `A1` to the number format of each cell that holds something. */
  readonly formats: Readonly<Record<string, string>>;
  /** `A1` to where the content stands, such as `right, 2 steps in`: each cell that holds something, or is drawn for a spill. */
  readonly alignments: Readonly<Record<string, string>>;
  /** `Practice_2027 A4:G200 Date|Athlete|…` */
  readonly tables: readonly string[];
  /** `K5:K404 = Ready` */
  readonly rules: readonly string[];
  /** `A5:A2004 list Tricks_2027[Trick]: title, message, alert` */
  readonly validations: readonly string[];
  /** `Rate by day over W5:AB26: Rate = O5:O204 and R5:R204; …` */
  readonly charts: readonly string[];
}

type Plain = readonly PlainSheet[];

/* ---- what two forms say in two ways ---- */

/** The table column whose cells a reference covers. */
function columnAt(sheetName: string, address: string): string {
  const [first = ""] = address.replaceAll("$", "").split(":");
  for (const table of season.sheets.find(({ name }) => name === sheetName)?.tables ?? []) {
    for (const [index, { heading }] of table.columns.entries()) {
      if (first === cellName({ row: table.at.row + 1, column: table.at.column + index })) {
        return `${table.name}[${heading}]`;
      }
    }
  }
  throw new Error(`${sheetName}!${address} is no table's column.`);
}

/** A list's source: a table's column by reference or through INDIRECT, or its words. */
function listSource(written: string): string {
  const indirect = /^=?INDIRECT\("(.+)"\)$/.exec(written);
  if (indirect) return indirect[1] ?? "";
  const reference = /^=?'((?:[^']|'')+)'!(.+)$/.exec(written);
  if (reference) return columnAt((reference[1] ?? "").replaceAll("''", "'"), reference[2] ?? "");
  return written.replace(/^"(.*)"$/, "$1");
}

const asRead = (formula: string): string =>
  `=${formula
    .replace(/^=/, "")
    .replaceAll("_xldudf_TWIRL_", "TWIRL.")
    .replaceAll(/_xlfn\.(_xlws\.)?/g, "")}`;

/** The first cell of each area: the room of a spill, which holds nothing before the workbook is worked out. */
function areaStarts(sheetName: string): readonly string[] {
  return (season.sheets.find(({ name }) => name === sheetName)?.areas ?? []).map(({ on }) => cellName(on));
}

/** @param horizontal `undefined` where the spreadsheet decides */
const standing = (horizontal: string | undefined, indent: number): string =>
  horizontal === undefined ? "as it is" : `${horizontal.toLowerCase()}, ${String(indent)} steps in`;

const sorted = (lines: readonly string[]): string[] => [...lines].sort();

const validationLine = (on: string, what: string, { title = "", message = "", alert = "" }): string =>
  `${on} ${what}: ${title} / ${message} / ${alert}`;

/* ---- the fake host's workbook ---- */

async function fromOffice(): Promise<Plain> {
  const workbook = new FakeWorkbook([]);
  workbook.addSheet("Before");
  workbook.activeId = workbook.sheets[0]?.id ?? "";
  await writeWithOffice(fakeContext(workbook).context, season);
  return season.sheets.map(({ name }) => plainFake(workbook.sheet(name)));
}

function plainFake(sheet: FakeSheet): PlainSheet {
  const filled = [...sheet.cells].filter(([, { value, formula }]) => value !== null || formula !== null);
  const settings = (what: string): [on: string, value: unknown][] =>
    sheet.settings.flatMap((line) => {
      const parts = new RegExp(`^(\\S+) ${what} = (.*)$`).exec(line);
      return parts ? [[parts[1] ?? "", JSON.parse(parts[2] ?? "")]] : [];
    });
  const prompts = new Map(settings("validation\\.prompt"));
  const alerts = new Map(settings("validation\\.errorAlert"));
  const placed = (what: string): ((at: string) => unknown) => {
    // The last that was said of a cell holds.
    const said = settings(what)
      .map(([on, value]) => ({ area: areaOf(on), value }))
      .reverse();
    return (at) => said.find(({ area }) => holds(area, areaOf(at)))?.value;
  };
  const [horizontal, indent] = [placed("horizontalAlignment"), placed("indentLevel")];
  return {
    name: sheet.name,
    alignments: Object.fromEntries(
      [...filled.map(([at]) => at), ...areaStarts(sheet.name)].map((at) => [
        at,
        standing(horizontal(at) as string | undefined, Number(indent(at) ?? 0)),
      ]),
    ),
    cells: Object.fromEntries(
      filled.map(([at, { value, formula }]) => [
        at,
        formula ?? (typeof value === "boolean" ? String(value) : (value ?? "")),
      ]),
    ),
    formats: Object.fromEntries(filled.map(([at, { format }]) => [at, format])),
    tables: sorted(
      sheet.tables.map(({ name, area }) => {
        const headings = [...Array(area.columns).keys()].map((index) =>
          String(sheet.cells.get(cellName({ row: area.row, column: area.column + index }))?.value),
        );
        return `${name} ${blockName(area)} ${headings.join("|")}`;
      }),
    ),
    rules: sorted(settings("rule").map(([on, rule]) => `${on} ${(rule as { formula1: string }).formula1}`)),
    validations: sorted(
      settings("validation\\.rule").map(([on, rule]) => {
        const prompt = prompts.get(on) as { title: string; message: string } | undefined;
        const alert = alerts.get(on) as { message: string; style: string; showAlert: boolean };
        return validationLine(on, fakeRule(rule as Excel.DataValidationRule, alert), {
          title: prompt?.title ?? "",
          message: prompt?.message ?? "",
          alert: alert.message,
        });
      }),
    ),
    charts: sorted(
      sheet.charts.map(({ name, series, settings: set }) => {
        const on = set.find((line) => line.startsWith("position "))?.slice("position ".length) ?? "";
        return chartLine(name, on, series);
      }),
    ),
  };
}

const holds = (area: Area, cell: Area): boolean =>
  cell.row >= area.row &&
  cell.row < area.row + area.rows &&
  cell.column >= area.column &&
  cell.column < area.column + area.columns;

function fakeRule(rule: Excel.DataValidationRule, alert: { style: string; showAlert: boolean }): string {
  if (rule.list)
    return `${alert.style === "Warning" ? "advised" : "strict"} list ${listSource(String(rule.list.source))}`;
  if (rule.date) return dateRule([rule.date.formula1, rule.date.formula2].map(serialOf));
  if (rule.custom) return alert.showAlert ? "custom" : "anything";
  const bounds = rule.wholeNumber ?? rule.decimal;
  return `${rule.wholeNumber ? "whole" : "decimal"} ${String(bounds?.formula1)} to ${String(bounds?.formula2)}`;
}

function chartLine(
  name: string,
  on: string,
  series: readonly { readonly name: string; readonly across: string; readonly up: string }[],
): string {
  return `${name} over ${on}: ${series.map((one) => `${one.name} = ${one.across} and ${one.up}`).join("; ")}`;
}

/* ---- the file ---- */

async function fromFile(): Promise<Plain> {
  const bytes = writeWorkbookFile(season);
  const workbook = new Workbook();
  await workbook.xlsx.load(bytes);
  const file = new Package(bytes);
  return workbook.worksheets.map((sheet) => plainFile(sheet, file));
}

function plainFile(sheet: Worksheet, file: Package): PlainSheet {
  const cells: Record<string, string | number> = {};
  const formats: Record<string, string> = {};
  const alignments: Record<string, string> = {};
  const align = (at: string): void => {
    const { horizontal, indent = 0 } = sheet.getCell(at).alignment ?? {};
    alignments[at] = standing(horizontal, indent);
  };
  areaStarts(sheet.name).forEach(align);
  sheet.eachRow((row) =>
    row.eachCell((cell) => {
      const value = plainValue(cell.value);
      if (value === null) return;
      cells[cell.address] = value;
      formats[cell.address] = typeof cell.numFmt === "string" ? cell.numFmt : "General";
      align(cell.address);
    }),
  );
  const path = file.sheetPath(sheet.name);
  const tables = file.elements(path, "tablePart").map((part) => {
    const table = file.xml(file.relations(path).get(attribute(part, "r:id"))?.path ?? "").documentElement;
    if (!table) throw new Error("A table part is empty.");
    const headings = elementsIn(table, "tableColumn").map((column) => attribute(column, "name"));
    return `${attribute(table, "displayName")} ${attribute(table, "ref")} ${headings.join("|")}`;
  });
  // The library spreads a validation over its cells; the part itself says how far each one reaches.
  const validations = file.elements(path, "dataValidation").map((one) => {
    const on = attribute(one, "sqref");
    const [firstCell = ""] = on.split(":");
    const read = sheet.getCell(firstCell).dataValidation as DataValidation | undefined;
    const advised = one.getAttribute("errorStyle") === "warning";
    const what =
      one.getAttribute("type") === null
        ? "anything"
        : fileRule(one.getAttribute("type") ?? "", [childText(one, "formula1"), childText(one, "formula2")], advised);
    if (read !== undefined && what !== "anything") expect(String(read.type)).toBe(one.getAttribute("type"));
    return validationLine(on, what, {
      title: one.getAttribute("promptTitle") ?? "",
      message: one.getAttribute("prompt") ?? "",
      alert: one.getAttribute("error") ?? "",
    });
  });
  return {
    name: sheet.name,
    cells,
    formats,
    alignments,
    tables: sorted(tables),
    rules: sorted(
      file
        .elements(path, "conditionalFormatting")
        .map((one) => `${attribute(one, "sqref")} =${childText(one, "formula") ?? ""}`),
    ),
    validations: sorted(validations),
    charts: sorted(fileCharts(file, path)),
  };
}

/** What the library read, in plain form; null for a cell that holds nothing. */
function plainValue(value: unknown): string | number | null {
  if (value === null || value === undefined || value === "") return null;
  if (value instanceof Date) return Math.round(value.getTime() / 86_400_000 + 25_569);
  if (typeof value === "object" && "formula" in value) return asRead(String(value.formula));
  if (typeof value === "string" || typeof value === "number") return value;
  throw new Error(`The library read ${JSON.stringify(value)}.`);
}

function dateRule([first, last]: readonly number[]): string {
  return `date ${String(first)} to ${String(last)}`;
}

/** A day as the sheet counts it (ECMA-376, part 1, 18.17.4.1), from a call of DATE. */
function serialOf(formula: unknown): number {
  const [year = NaN, month = NaN, day = NaN] = (/^=DATE\((\d+),(\d+),(\d+)\)$/.exec(String(formula)) ?? []).slice(1).map(Number); // prettier-ignore
  return Date.UTC(year, month - 1, day) / 86_400_000 + 25_569;
}

function fileRule(type: string, formulas: readonly (string | undefined)[], advised: boolean): string {
  if (type === "list") return `${advised ? "advised" : "strict"} list ${listSource(formulas[0] ?? "")}`;
  if (type === "date") return dateRule(formulas.map(Number));
  return `${type} ${formulas[0] ?? ""} to ${formulas[1] ?? ""}`;
}

function fileCharts(file: Package, sheetPath: string): string[] {
  return file.elements(sheetPath, "drawing").flatMap((mark) => {
    const drawing = file.relations(sheetPath).get(attribute(mark, "r:id"))?.path ?? "";
    return file.elements(drawing, "xdr:twoCellAnchor").map((anchor) => {
      const corner = (name: string, back: number): string => {
        const [element] = elementsIn(anchor, name);
        if (!element) throw new Error(`No ${name}.`);
        const at = (part: string): number => Number(childText(element, part)) + 1 - back;
        return cellName({ row: at("xdr:row"), column: at("xdr:col") });
      };
      const [mine] = elementsIn(anchor, "c:chart");
      const chart = file.relations(drawing).get(mine ? attribute(mine, "r:id") : "")?.path ?? "";
      const [properties] = elementsIn(anchor, "xdr:cNvPr");
      const series = file.elements(chart, "c:ser").map((one) => {
        const [across = "", up = ""] = elementsIn(one, "c:f").map((reference) =>
          (reference.textContent ?? "").replace(/^.*!/, "").replaceAll("$", ""),
        );
        const plain = (range: string): string => range.replace(/^([A-Z]+\d+):\1$/, "$1");
        return { name: childText(one, "c:v") ?? "", across: plain(across), up: plain(up) };
      });
      const name = properties ? attribute(properties, "name") : "";
      return chartLine(name, `${corner("xdr:from", 0)}:${corner("xdr:to", 1)}`, series);
    });
  });
}

/* ---- the page's grid ---- */

async function fromPage(): Promise<Plain> {
  const engine = await openEngine(season);
  const saved = engine.api.getActiveWorkbook()?.save();
  engine.close();
  if (!saved) throw new Error("The grid lost the workbook.");
  return saved.sheetOrder.map((id) => plainGrid(saved, id));
}

/** The grid's own numbers of the two sides, and how wide it draws three spaces, which a step is (ECMA-376, part 1, 18.8.1). */
const GRID_SIDES = new Map([
  [1, "left"],
  [3, "right"],
]);
const PIXELS_A_STEP = 9;

interface SavedRange {
  readonly startRow: number;
  readonly endRow: number;
  readonly startColumn: number;
  readonly endColumn: number;
}

function plainGrid(saved: IWorkbookData, id: string): PlainSheet {
  const sheet = saved.sheets[id] as IWorksheetData;
  const resource = <T>(name: string): T | undefined => {
    const data = saved.resources?.find((one) => one.name === name)?.data;
    return data === undefined || data === "" ? undefined : (JSON.parse(data) as Record<string, T>)[id];
  };
  const cells: Record<string, string | number> = {};
  const formats: Record<string, string> = {};
  const alignments: Record<string, string> = {};
  const starts = new Set(areaStarts(sheet.name));
  for (const [row, columns] of Object.entries(sheet.cellData)) {
    for (const [column, cell] of Object.entries(columns as Record<string, ICellData>)) {
      const value = cell.f ?? cell.v;
      const at = cellName({ row: Number(row) + 1, column: Number(column) + 1 });
      const style = typeof cell.s === "string" ? saved.styles[cell.s] : cell.s;
      const holdsNothing = value === undefined || value === null || value === "";
      if (!holdsNothing || starts.has(at)) {
        alignments[at] = standing(GRID_SIDES.get(style?.ht ?? 0), (style?.pd?.r ?? 0) / PIXELS_A_STEP);
      }
      if (holdsNothing) continue;
      cells[at] = typeof value === "boolean" ? String(value) : value;
      formats[at] = style?.n?.pattern ?? "General";
    }
  }
  const tables = resource<{ tables: { name: string; range: SavedRange; columns: { displayName: string }[] }[] }>(
    "SHEET_TABLE_PLUGIN",
  );
  const rules = resource<{ ranges: SavedRange[]; rule: { value: string } }[]>("SHEET_CONDITIONAL_FORMATTING_PLUGIN");
  const validations = resource<SavedValidation[]>("SHEET_DATA_VALIDATION_PLUGIN");
  const charts = (saved.custom?.["charts"] as Record<string, readonly ChartPlan[]> | undefined)?.[id];
  return {
    name: sheet.name,
    cells,
    formats,
    alignments,
    tables: sorted(
      (tables?.tables ?? []).map(
        ({ name, range, columns }) => `${name} ${rangeName(range)} ${columns.map((one) => one.displayName).join("|")}`,
      ),
    ),
    rules: sorted(
      (rules ?? []).flatMap(({ ranges, rule }) =>
        ranges.map((range) => `${rangeName(range)} ${ownText(rule.value, range)}`),
      ),
    ),
    validations: sorted((validations ?? []).flatMap((one) => one.ranges.map((range) => gridValidation(one, range)))),
    charts: sorted(
      (charts ?? []).map(({ name, on, series }) =>
        chartLine(
          name,
          blockName(on),
          series.map((one) => ({ name: one.name, across: blockName(one.across), up: blockName(one.up) })),
        ),
      ),
    ),
  };
}

/** The grid's rule is a formula over the block's first cell: `=K5="Ready"` on K5:K404 is that the cell is `Ready`. */
function ownText(rule: string, { startRow, startColumn }: SavedRange): string {
  const start = `=${cellName({ row: startRow + 1, column: startColumn + 1 })}=`;
  if (!rule.startsWith(start)) throw new Error(`The rule ${rule} is not about its own cells.`);
  return `=${rule.slice(start.length)}`;
}

interface SavedValidation {
  readonly ranges: readonly SavedRange[];
  readonly type: string;
  readonly formula1?: string;
  readonly formula2?: string;
  readonly errorStyle?: number;
  readonly prompt?: string;
  readonly promptTitle?: string;
  readonly error?: string;
}

function gridValidation(saved: SavedValidation, range: SavedRange): string {
  const { type, formula1 = "", formula2 = "" } = saved;
  /** 2 is the grid's own number for a warning. */
  const advised = saved.errorStyle === 2;
  const what = type === "list" ? fileRule("list", [formula1], advised) : type === "any" || type === "none" ? "anything" : fileRule(type, [formula1, formula2], advised); // prettier-ignore
  return validationLine(rangeName(range), what, {
    title: saved.promptTitle ?? "",
    message: saved.prompt ?? "",
    alert: saved.error ?? "",
  });
}

function rangeName({ startRow, endRow, startColumn, endColumn }: SavedRange): string {
  const block: Block = {
    row: startRow + 1,
    column: startColumn + 1,
    rows: endRow - startRow + 1,
    columns: endColumn - startColumn + 1,
  };
  return blockName(block);
}

/* ---- the comparison ---- */

describe("the three workbooks of one season", () => {
  let office: Plain;
  let file: Plain;
  let page: Plain;
  beforeAll(async () => {
    [office, file, page] = [await fromOffice(), await fromFile(), await fromPage()];
  }, 120_000);

  const sheets = season.sheets.map(({ name }) => name);
  const parts = ["cells", "formats", "alignments", "tables", "rules", "validations", "charts"] as const;
  const of = (plain: Plain, name: string): PlainSheet => {
    const found = plain.find((sheet) => sheet.name === name);
    if (!found) throw new Error(`No sheet ${name}.`);
    return found;
  };

  test("have the same sheets in the same order", () => {
    for (const plain of [office, file, page]) expect(plain.map(({ name }) => name)).toEqual(sheets);
  });

  test.each(sheets.flatMap((sheet) => parts.map((part) => ({ sheet, part }))))(
    "$sheet: the same $part",
    ({ sheet, part }) => {
      expect(of(file, sheet)[part]).toEqual(of(office, sheet)[part]);
      expect(of(page, sheet)[part]).toEqual(of(office, sheet)[part]);
    },
  );

  test("and it is what the plan holds: nothing was left out on all three sides", () => {
    const count = (pick: (sheet: SheetPlan) => readonly unknown[]): number => season.sheets.flatMap(pick).length;
    const found = (part: "tables" | "rules" | "validations" | "charts"): number =>
      office.flatMap((sheet) => sheet[part]).length;
    expect(found("tables")).toBe(count(({ tables }) => tables));
    expect(found("rules")).toBe(count(({ rules }) => rules));
    expect(found("charts")).toBe(count(({ charts }) => charts));
    expect(found("validations")).toBe(
      count(({ validations, tables }) => [
        ...validations,
        ...tables.flatMap(({ columns }) => columns.filter(({ validation }) => validation !== undefined)),
      ]),
    );
    for (const { name, tables, cells } of season.sheets) {
      const addresses = Object.keys(of(office, name).cells);
      for (const { at, content } of cells) {
        const holds = content.kind !== "empty" && !(content.kind === "text" && content.text === "");
        if (holds) expect(addresses).toContain(cellName(at));
      }
      for (const table of tables) expect(of(office, name).tables.join()).toContain(blockName(tableBlock(table)));
    }
  });
});
