/**
 * Turns a workbook's description into what the try-out page's grid reads. Nothing of a sheet's content is written here:
 * the description says what stands where, `looks.ts` how it is drawn.
 */
import {
  BooleanNumber,
  BorderStyleTypes,
  CellValueType,
  DataValidationErrorStyle,
  DataValidationOperator,
  DataValidationRenderMode,
  DataValidationType,
  HorizontalAlign,
  type IBorderData,
  type IBorderStyleData,
  type ICellData,
  type IObjectMatrixPrimitiveType,
  type IRange,
  type ISheetDataValidationRule,
  type IStyleData,
  type IWorkbookData,
  type IWorksheetData,
  LocaleType,
  WrapStrategy,
} from "@univerjs/core";
import { CFRuleType, CFSubRuleType, type IConditionFormattingRule } from "@univerjs/sheets-conditional-formatting";
import { type ITableJson, TableColumnDataTypeEnum } from "@univerjs/sheets-table";

import { cellName } from "../../workbook/plan/address";
import { FIRST_DAY, LAST_DAY } from "../../workbook/plan/days";
import { type Formula, printFormula } from "../../workbook/plan/formula";
import {
  alignmentOf,
  columnLook,
  type Drawing,
  FONT_NAME,
  headingFormat,
  INDENT_PIXELS,
  looks,
  numberFormats,
  pageOf,
  type Place,
  wordLooks,
} from "../../workbook/plan/looks";
import type {
  Allowed,
  Block,
  ChartPlan,
  Content,
  Look,
  NumberFormat,
  PrintPlan,
  SheetPlan,
  StatusRule,
  TableColumn,
  TablePlan,
  Validation,
  WorkbookPlan,
} from "../../workbook/plan/schema";
import { tableBlock, validatedBlock } from "../../workbook/plan/tables";

/** Names under which the grid keeps what a sheet's cells do not hold. */
export const resourceNames = {
  tables: "SHEET_TABLE_PLUGIN",
  rules: "SHEET_CONDITIONAL_FORMATTING_PLUGIN",
  validations: "SHEET_DATA_VALIDATION_PLUGIN",
} as const;

const WORKBOOK_ID = "workbook";

/** One sheet as the grid reads it, with all that hangs on it. */
export interface GridSheet {
  readonly sheet: Partial<IWorksheetData> & { readonly id: string; readonly name: string };
  readonly tables: readonly ITableJson[];
  readonly rules: readonly IConditionFormattingRule[];
  readonly validations: readonly ISheetDataValidationRule[];
  /** The grid draws none: the page lays them over it. */
  readonly charts: readonly ChartPlan[];
  /** How the page prints it. */
  readonly print: PrintPlan;
}

export interface GridSheets {
  readonly sheets: readonly GridSheet[];
  /** The cells' styles by the ids that the cells name. */
  readonly styles: Readonly<Record<string, IStyleData>>;
  /** The id of the sheet shown first. */
  readonly activeId: string;
}

/** Rows and columns of every sheet beyond what is planned: room for a log to grow and for answers to spill. */
const SPARE_ROWS = 1000;
const SPARE_COLUMNS = 12;
const LEAST_COLUMNS = 26;
const ROW_HEIGHT_PIXELS = 22;
const TALLEST_TEXT_ROW_FACTOR = 1.8;
const DEFAULT_COLUMN_CHARACTERS = 11;

/** The whole plan as one workbook. */
export function toSnapshot(plan: WorkbookPlan): IWorkbookData {
  return workbookSnapshot(gridSheets(plan, ""), "Twirl Ledger");
}

/** Sheets with all that hangs on them as one workbook. */
export function workbookSnapshot(grid: GridSheets, name: string): IWorkbookData {
  return {
    id: WORKBOOK_ID,
    name,
    appVersion: "0.25.1",
    locale: LocaleType.EN_US,
    styles: { ...grid.styles },
    sheetOrder: grid.sheets.map(({ sheet }) => sheet.id),
    sheets: Object.fromEntries(grid.sheets.map(({ sheet }) => [sheet.id, sheet])),
    resources: [
      {
        name: resourceNames.tables,
        data: JSON.stringify(bySheet(grid.sheets, ({ tables }) => ({ tables, tableFilteredOutRows: [] }))),
      },
      { name: resourceNames.rules, data: JSON.stringify(bySheet(grid.sheets, ({ rules }) => rules)) },
      { name: resourceNames.validations, data: JSON.stringify(bySheet(grid.sheets, ({ validations }) => validations)) },
    ],
    // The grid itself opens on the first sheet; the page goes to this one.
    custom: {
      activeSheet: grid.activeId,
      charts: bySheet(grid.sheets, ({ charts }) => charts),
      print: bySheet(grid.sheets, ({ print }) => print),
    },
  };
}

function bySheet<T>(sheets: readonly GridSheet[], part: (sheet: GridSheet) => T): Record<string, T> {
  return Object.fromEntries(sheets.map((sheet) => [sheet.sheet.id, part(sheet)]));
}

/**
 * The plan's sheets, to be put into a workbook that exists.
 * @param idPrefix comes before every id, so that nothing of the workbook is met twice
 */
export function gridSheets(plan: WorkbookPlan, idPrefix: string): GridSheets {
  const styles = new StyleBook();
  const tables = plan.sheets.flatMap((sheet) => sheet.tables.map((table) => ({ sheet, table })));
  const listBlock: ListBlock = (tableName, heading) => {
    const found = tables.find(({ table }) => table.name === tableName);
    const column = found?.table.columns.find((candidate) => candidate.heading === heading);
    if (found === undefined || column === undefined) {
      throw new Error(`A list is taken from ${tableName}[${heading}], which is not in the plan.`);
    }
    return { sheetName: found.sheet.name, block: validatedBlock(found.table, column) };
  };
  const sheets = plan.sheets.map((sheet, index) =>
    gridSheet(sheet, `${idPrefix}sheet-${index + 1}`, styles, listBlock),
  );
  const active = sheets.find(({ sheet }) => sheet.name === plan.active);
  if (active === undefined) throw new Error(`The plan shows ${plan.active} first, which is none of its sheets.`);
  return { sheets, styles: styles.all, activeId: active.sheet.id };
}

type ListBlock = (table: string, heading: string) => { readonly sheetName: string; readonly block: Block };

function gridSheet(plan: SheetPlan, id: string, styles: StyleBook, listBlock: ListBlock): GridSheet {
  const cells = new CellSheet();
  const rowHeights = new Map<number, number>();

  for (const { on, look, format } of plan.areas) {
    const style = styles.id(look, format, false);
    for (let row = on.row; row < on.row + on.rows; row += 1) {
      for (let column = on.column; column < on.column + on.columns; column += 1) cells.set(row, column, { s: style });
    }
  }
  for (const table of plan.tables) writeTable(table, cells, styles);
  for (const { at, content, look, format, wrap } of plan.cells) {
    cells.set(at.row, at.column, cellOf(content, styles.id(look, format, wrap === true)));
    const points = looks[look].sizePoints;
    const height = Math.round(points * TALLEST_TEXT_ROW_FACTOR);
    if (height > (rowHeights.get(at.row) ?? ROW_HEIGHT_PIXELS)) rowHeights.set(at.row, height);
  }

  const validations = [
    ...plan.validations,
    ...plan.tables.flatMap((table) =>
      table.columns.flatMap((column) =>
        column.validation === undefined ? [] : [{ on: validatedBlock(table, column), validation: column.validation }],
      ),
    ),
  ];
  // A rule may not reach below the sheet's last row.
  const lastValidatedRow = Math.max(0, ...validations.map(({ on }) => on.row + on.rows - 1));

  const { rows: frozenRows, columns: frozenColumns } = plan.frozen;
  return {
    sheet: {
      id,
      name: plan.name,
      rowCount: Math.max(cells.lastRow + SPARE_ROWS, lastValidatedRow),
      columnCount: Math.max(LEAST_COLUMNS, cells.lastColumn + SPARE_COLUMNS),
      defaultRowHeight: ROW_HEIGHT_PIXELS,
      defaultStyle: { ff: FONT_NAME, fs: looks.plain.sizePoints },
      defaultColumnWidth: pixels(DEFAULT_COLUMN_CHARACTERS),
      cellData: cells.data,
      rowData: Object.fromEntries([...rowHeights].map(([row, h]) => [row - 1, { h, ia: BooleanNumber.FALSE }])),
      columnData: Object.fromEntries(plan.columnWidths.map((width, index) => [index, { w: pixels(width) }])),
      freeze: {
        xSplit: frozenColumns,
        ySplit: frozenRows,
        startRow: frozenRows === 0 ? -1 : frozenRows,
        startColumn: frozenColumns === 0 ? -1 : frozenColumns,
      },
      showGridlines: BooleanNumber.TRUE,
    },
    tables: plan.tables.map((table, index) => gridTable(table, `${id}-table-${index + 1}`)),
    rules: plan.rules.map((rule, index) => statusRule(rule, `${id}-rule-${index + 1}`)),
    validations: validations.map(({ on, validation }, index) =>
      validationRule(validation, on, `${id}-check-${index + 1}`, listBlock),
    ),
    charts: plan.charts,
    print: pageOf(plan),
  };
}

/* ---- cells ---- */

/** A sheet's cells by row and column, counted from 0 as the grid does, with the furthest that is used. */
class CellSheet {
  readonly data: IObjectMatrixPrimitiveType<ICellData> = {};
  lastRow = 0;
  lastColumn = 0;

  setIfFree(row: number, column: number, cell: ICellData): void {
    if (this.data[row - 1]?.[column - 1] === undefined) this.set(row, column, cell);
  }

  set(row: number, column: number, cell: ICellData): void {
    (this.data[row - 1] ??= {})[column - 1] = cell;
    this.lastRow = Math.max(this.lastRow, row);
    this.lastColumn = Math.max(this.lastColumn, column);
  }
}

function cellOf(content: Content, style: string): ICellData {
  switch (content.kind) {
    case "text":
      // Said to be text, so that neither `=1+1` nor `0110` is read as anything else.
      return { v: content.text, t: CellValueType.STRING, s: style };
    case "number":
      return { v: content.value, t: CellValueType.NUMBER, s: style };
    case "date":
      return { v: content.serial, t: CellValueType.NUMBER, s: style };
    case "formula":
      return { f: formulaText(content.formula), s: style };
    case "empty":
      return { s: style };
    default:
      return unknownKind(content);
  }
}

function formulaText(formula: Formula): string {
  return `=${printFormula(formula, "sheet")}`;
}

/** A column's width in pixels: seven for each character of the usual font at its usual size, and five of margin. */
function pixels(characters: number): number {
  return Math.round(characters * 7 + 5);
}

/* ---- styles ---- */

/** Each look with each number format once, by an id that says what it is. */
class StyleBook {
  readonly all: Record<string, IStyleData> = {};

  id(look: Look, format: NumberFormat, wrap: boolean, place: Place = "sheet"): string {
    const id = `${look}-${format}${wrap ? "-wrap" : ""}${place === "table" ? "-table" : ""}`;
    this.all[id] ??= styleOf(look, format, wrap, place);
    return id;
  }
}

const HORIZONTAL = { left: HorizontalAlign.LEFT, right: HorizontalAlign.RIGHT } as const;

function styleOf(look: Look, format: NumberFormat, wrap: boolean, place: Place): IStyleData {
  const drawing = looks[look];
  const { horizontal, indent } = alignmentOf(look, format, place);
  const style: IStyleData = {
    ff: FONT_NAME,
    fs: drawing.sizePoints,
    cl: { rgb: drawing.textColour },
  };
  if (drawing.bold) style.bl = BooleanNumber.TRUE;
  if (drawing.italic) style.it = BooleanNumber.TRUE;
  if (drawing.fill !== null) style.bg = { rgb: drawing.fill };
  if (drawing.border !== null) style.bd = bordersOf(drawing.border);
  if (horizontal !== "natural") style.ht = HORIZONTAL[horizontal];
  if (indent > 0) style.pd = { r: indent * INDENT_PIXELS };
  if (numberFormats[format] !== numberFormats.general) style.n = { pattern: numberFormats[format] };
  if (wrap) style.tb = WrapStrategy.WRAP;
  return style;
}

function bordersOf(border: NonNullable<Drawing["border"]>): IBorderData {
  const line: IBorderStyleData = { s: BorderStyleTypes.THIN, cl: { rgb: border.colour } };
  switch (border.sides) {
    case "all":
      return { t: line, r: line, b: line, l: line };
    case "below":
      return { b: line };
    default:
      return unknownKind(border.sides);
  }
}

/* ---- tables ---- */

/**
 * Rows below a table that are formatted before anything is typed there: `8/10` must not become a date first. As the
 * table grows the page formats further ones. (The grid does not read a typed value by the format of a whole column.)
 */
export const PREPARED_ROWS = 50;

function writeTable(table: TablePlan, cells: CellSheet, styles: StyleBook): void {
  for (const [index, column] of table.columns.entries()) {
    const columnNumber = table.at.column + index;
    const style = styles.id(columnLook(column), column.format, false, "table");
    cells.set(table.at.row, columnNumber, {
      v: column.heading,
      t: CellValueType.STRING,
      s: styles.id("heading", headingFormat(column.format), false, "table"),
    });
    for (const [rowIndex, row] of table.rows.entries()) {
      const content = row[index] ?? { kind: "empty" };
      cells.set(
        table.at.row + 1 + rowIndex,
        columnNumber,
        column.formula === undefined ? cellOf(content, style) : { f: formulaText(column.formula), s: style },
      );
    }
    if (column.formula !== undefined) continue;
    const firstBelow = table.at.row + 1 + table.rows.length;
    for (let row = firstBelow; row < firstBelow + PREPARED_ROWS; row += 1)
      cells.setIfFree(row, columnNumber, { s: style });
  }
}

function gridTable(table: TablePlan, id: string): ITableJson {
  return {
    id,
    name: table.name,
    range: gridRange(tableBlock(table)),
    options: { showHeader: true },
    filters: { tableColumnFilterList: [] },
    columns: table.columns.map((column, index) => gridColumn(column, `${id}-column-${index + 1}`)),
    meta: {},
  };
}

function gridColumn(column: TableColumn, id: string): ITableJson["columns"][number] {
  return {
    id,
    displayName: column.heading,
    dataType: TableColumnDataTypeEnum.None,
    formula: column.formula === undefined ? "" : formulaText(column.formula),
    meta: {},
    style: {},
  };
}

/* ---- rules and validation ---- */

function statusRule(rule: StatusRule, id: string): IConditionFormattingRule {
  const drawing = wordLooks[rule.look];
  return {
    cfId: id,
    ranges: [gridRange(rule.on)],
    stopIfTrue: true,
    rule: {
      type: CFRuleType.highlightCell,
      // A formula, since the grid's own rule for text does not see what another formula has spilled into a cell. The
      // address is that of the block's first cell, and moves along.
      subType: CFSubRuleType.formula,
      value: `=${cellName(rule.on)}=${printFormula({ kind: "text", text: rule.text }, "sheet")}`,
      style: {
        cl: { rgb: drawing.textColour },
        bg: { rgb: drawing.fill },
        ...(drawing.bold ? { bl: BooleanNumber.TRUE } : {}),
      },
    },
  };
}

function validationRule(validation: Validation, on: Block, id: string, listBlock: ListBlock): ISheetDataValidationRule {
  const { inputTitle, inputMessage, errorMessage } = validation;
  return {
    uid: id,
    ranges: [gridRange(on)],
    allowBlank: true,
    ...allowedRule(validation.allowed, listBlock),
    ...(inputMessage === undefined
      ? {}
      : {
          showInputMessage: true,
          prompt: inputMessage,
          ...(inputTitle === undefined ? {} : { promptTitle: inputTitle }),
        }),
    ...(errorMessage === undefined ? {} : { showErrorMessage: true, error: errorMessage }),
  };
}

type RuleCore = Pick<ISheetDataValidationRule, "type"> & Partial<ISheetDataValidationRule>;

function allowedRule(allowed: Allowed, listBlock: ListBlock): RuleCore {
  switch (allowed.kind) {
    case "none":
      return { type: DataValidationType.ANY };
    case "list":
      return {
        type: DataValidationType.LIST,
        formula1: listFormula(allowed.source, listBlock),
        showDropDown: true,
        renderMode: DataValidationRenderMode.TEXT,
        errorStyle: allowed.strict ? DataValidationErrorStyle.STOP : DataValidationErrorStyle.WARNING,
      };
    case "date":
      return {
        type: DataValidationType.DATE,
        operator: DataValidationOperator.BETWEEN,
        formula1: String(FIRST_DAY),
        formula2: String(LAST_DAY),
        errorStyle: DataValidationErrorStyle.STOP,
      };
    case "number":
      return {
        type: allowed.whole ? DataValidationType.WHOLE : DataValidationType.DECIMAL,
        operator: DataValidationOperator.BETWEEN,
        formula1: String(allowed.least),
        formula2: String(allowed.most),
        errorStyle: DataValidationErrorStyle.STOP,
      };
    default:
      return unknownKind(allowed);
  }
}

function listFormula(source: Extract<Allowed, { kind: "list" }>["source"], listBlock: ListBlock): string {
  switch (source.kind) {
    case "words":
      return source.words.join(",");
    case "column": {
      const { sheetName, block } = listBlock(source.table, source.column);
      return formulaText({
        kind: "cells",
        sheet: sheetName,
        from: block,
        to: { row: block.row + block.rows - 1, column: block.column },
      });
    }
    default:
      return unknownKind(source);
  }
}

/* ---- addresses ---- */

function gridRange(block: Block): IRange {
  return {
    startRow: block.row - 1,
    startColumn: block.column - 1,
    endRow: block.row + block.rows - 2,
    endColumn: block.column + block.columns - 2,
  };
}

function unknownKind(found: never): never {
  throw new TypeError(`The grid writer does not know ${JSON.stringify(found)}.`);
}
