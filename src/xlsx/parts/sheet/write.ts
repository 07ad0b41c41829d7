/** One sheet of the plan as the worksheet part of a workbook file. */
import { blockName, cellName } from "../../../workbook/plan/address";
import { columnLetters } from "../../../core/sheet";
import type { CalculatedSheet, CalculatedValue, ErrorName } from "../../../workbook/plan/calculated";
import { FIRST_DAY, LAST_DAY } from "../../../workbook/plan/days";
import { callsTwirl, printFormula, quoteSheetName } from "../../../workbook/plan/formula";
import { columnLook, headingFormat, pageOf } from "../../../workbook/plan/looks";
import type {
  Allowed,
  Block,
  CellAddress,
  Content,
  ListSource,
  SheetPlan,
  TablePlan,
  Validation,
  WorkbookPlan,
} from "../../../workbook/plan/schema";
import { columnBlock, saysNo, validatedBlock } from "../../../workbook/plan/tables";
import { MAIN_NAMESPACE, RELATION_NAMESPACE } from "../../package/namespaces";
import { DEFAULT_ROW_HEIGHT_POINTS, rowHeights } from "../layout/row-heights";
import type { SharedStrings } from "../strings/write";
import type { CellStyle, Styles } from "../styles/write";
import { codeString, element, escapeText, xmlPart } from "../../xml/write";

interface WorksheetContext {
  readonly plan: WorkbookPlan;
  readonly strings: SharedStrings;
  readonly styles: Styles;
  /** `undefined` where nothing was worked out: the formulas are written without answers. */
  readonly calculated: CalculatedSheet | undefined;
  /** For each of the sheet's tables, the id of the relation to its part. */
  readonly tableRelations: readonly string[];
  /** The id of the relation to the sheet's drawing, which holds its charts. */
  readonly drawingRelation: string | undefined;
}

interface WorksheetPart {
  readonly xml: string;
  /** Whether a cell refers to the workbook's dynamic array metadata. */
  readonly hasDynamicArrays: boolean;
}

/** One cell before it is written. */
interface PlacedCell {
  readonly content: Content;
  readonly style: Omit<CellStyle, "keptAsText">;
  /** The answer that another cell's formula spills into this one. */
  readonly spilled?: CalculatedValue;
}

/** The record of `xl/metadata.xml` that says "dynamic array"; there is one only. */
const DYNAMIC_ARRAY_RECORD = 1;

/** A column is wider than its characters by the cell's padding: 5 pixels beside digits 7 pixels wide. */
const PADDING_CHARACTERS = 5 / 7;

export function worksheetPart(sheet: SheetPlan, context: WorksheetContext): WorksheetPart {
  const rows = placeCells(sheet, context.calculated);
  const heights = rowHeights(sheet);
  const written = [...rows]
    .sort(([one], [other]) => one - other)
    .map(([row, cells]) => rowXml(row, cells, heights.get(row), context));
  const validations = sheetValidations(sheet, context.plan);
  const xml = xmlPart(
    element(
      "worksheet",
      { xmlns: MAIN_NAMESPACE, "xmlns:r": RELATION_NAMESPACE },
      element("sheetPr", {}, element("pageSetUpPr", { fitToPage: 1 })),
      element("dimension", { ref: usedBlock(rows) }),
      element("sheetViews", {}, sheetViewXml(sheet, context.plan)),
      element("sheetFormatPr", { defaultRowHeight: DEFAULT_ROW_HEIGHT_POINTS }),
      ...columnsXml(sheet, context.styles),
      element("sheetData", {}, ...written.map(({ xml: row }) => row)),
      ...rulesXml(sheet, context.styles),
      ...(validations.length === 0 ? [] : [element("dataValidations", { count: validations.length }, ...validations)]),
      element("pageMargins", { left: 0.5, right: 0.5, top: 0.5, bottom: 0.5, header: 0.3, footer: 0.3 }),
      element("pageSetup", {
        orientation: pageOf(sheet).orientation,
        fitToWidth: pageOf(sheet).pagesWide,
        fitToHeight: 0,
      }),
      ...(context.drawingRelation === undefined ? [] : [element("drawing", { "r:id": context.drawingRelation })]),
      ...(context.tableRelations.length === 0
        ? []
        : [
            element(
              "tableParts",
              { count: context.tableRelations.length },
              ...context.tableRelations.map((id) => element("tablePart", { "r:id": id })),
            ),
          ]),
    ),
  );
  return { xml, hasDynamicArrays: written.some(({ hasDynamicArrays }) => hasDynamicArrays) };
}

/* ---- cells ---- */

type Rows = Map<number, Map<number, PlacedCell>>;

/** Later layers lie over earlier ones: areas, tables, single cells, spilled answers. */
function placeCells(sheet: SheetPlan, calculated: CalculatedSheet | undefined): Rows {
  const rows: Rows = new Map();
  const place = (row: number, column: number, cell: PlacedCell): void => {
    let cells = rows.get(row);
    if (cells === undefined) rows.set(row, (cells = new Map()));
    cells.set(column, cell);
  };

  for (const { on, look, format } of sheet.areas) {
    forEachCell(on, (row, column) => {
      place(row, column, { content: { kind: "empty" }, style: { look, format, wrap: false } });
    });
  }
  for (const table of sheet.tables) placeTable(table, place);
  for (const { at, content, look, format, wrap = false } of sheet.cells) {
    place(at.row, at.column, { content, style: { look, format, wrap } });
  }
  if (calculated !== undefined) {
    for (const { at, content } of sheet.cells) {
      if (content.kind === "formula" && content.spills) placeSpill(at, calculated, rows, place);
    }
  }
  return rows;
}

type Place = (row: number, column: number, cell: PlacedCell) => void;

function placeTable(table: TablePlan, place: Place): void {
  table.columns.forEach((column, index) => {
    const sheetColumn = table.at.column + index;
    place(table.at.row, sheetColumn, {
      content: { kind: "text", text: column.heading },
      style: { look: "heading", format: headingFormat(column.format), place: "table", wrap: false },
    });
    const style = { look: columnLook(column), format: column.format, place: "table" as const, wrap: false };
    table.rows.forEach((row, rowIndex) => {
      const typed = row[index] ?? { kind: "empty" };
      const content: Content =
        column.formula === undefined ? typed : { kind: "formula", formula: column.formula, spills: false };
      place(table.at.row + 1 + rowIndex, sheetColumn, { content, style });
    });
  });
}

function placeSpill(at: CellAddress, calculated: CalculatedSheet, rows: Rows, place: Place): void {
  const size = calculated.spills.get(cellName(at));
  if (size === undefined) return;
  forEachCell({ ...at, ...size }, (row, column) => {
    if (row === at.row && column === at.column) return;
    const under = rows.get(row)?.get(column);
    if (under !== undefined && under.content.kind !== "empty") {
      throw new Error(
        `The formula in ${cellName(at)} spills over ${cellName({ row, column })}, which holds something.`,
      );
    }
    const style = under?.style ?? { look: "plain", format: "general", wrap: false };
    const spilled = calculated.values.get(cellName({ row, column }));
    place(row, column, { content: { kind: "empty" }, style, ...(spilled === undefined ? {} : { spilled }) });
  });
}

function forEachCell(block: Block, visit: (row: number, column: number) => void): void {
  for (let row = block.row; row < block.row + block.rows; row++) {
    for (let column = block.column; column < block.column + block.columns; column++) visit(row, column);
  }
}

function usedBlock(rows: Rows): string {
  const rowNumbers = [...rows.keys()];
  const columnNumbers = [...rows.values()].flatMap((cells) => [...cells.keys()]);
  if (rowNumbers.length === 0) return "A1";
  const span = (numbers: readonly number[]): [number, number] =>
    numbers.reduce<[number, number]>(
      ([least, most], value) => [Math.min(least, value), Math.max(most, value)],
      [Infinity, -Infinity],
    );
  const [top, bottom] = span(rowNumbers);
  const [left, right] = span(columnNumbers);
  return blockName({ row: top, column: left, rows: bottom - top + 1, columns: right - left + 1 });
}

function rowXml(
  row: number,
  cells: ReadonlyMap<number, PlacedCell>,
  ht: number | undefined,
  context: WorksheetContext,
): WorksheetPart {
  const written = [...cells]
    .sort(([one], [other]) => one - other)
    .map(([column, cell]) => cellXml({ row, column }, cell, context));
  return {
    xml: element(
      "row",
      { r: row, ht, customHeight: ht === undefined ? undefined : 1 },
      ...written.map(({ xml }) => xml),
    ),
    hasDynamicArrays: written.some(({ hasDynamicArrays }) => hasDynamicArrays),
  };
}

function cellXml(at: CellAddress, cell: PlacedCell, context: WorksheetContext): WorksheetPart {
  const { content } = cell;
  const r = cellName(at);
  const s = styleNumber(cell, context.styles);
  switch (content.kind) {
    case "empty": {
      const { type, body } = answerXml(cell.spilled);
      return { xml: element("c", { r, s, t: type }, ...body), hasDynamicArrays: false };
    }
    case "text":
      return {
        xml: element("c", { r, s, t: "s" }, element("v", {}, String(context.strings.numberOf(content.text)))),
        hasDynamicArrays: false,
      };
    case "number":
      return { xml: element("c", { r, s }, element("v", {}, String(content.value))), hasDynamicArrays: false };
    case "date":
      return { xml: element("c", { r, s }, element("v", {}, String(content.serial))), hasDynamicArrays: false };
    case "formula": {
      const { type, body } = answerXml(context.calculated?.values.get(r));
      const printed = escapeText(printFormula(content.formula, "file"));
      // Without this mark the host puts @ before our calls, and a spill shows one cell only.
      if (content.spills || callsTwirl(content.formula)) {
        const size = content.spills ? context.calculated?.spills.get(r) : undefined;
        const ref = blockName({ ...at, ...(size ?? { rows: 1, columns: 1 }) });
        return {
          xml: element(
            "c",
            { r, s, t: type, cm: DYNAMIC_ARRAY_RECORD },
            element("f", { t: "array", ref }, printed),
            ...body,
          ),
          hasDynamicArrays: true,
        };
      }
      return { xml: element("c", { r, s, t: type }, element("f", {}, printed), ...body), hasDynamicArrays: false };
    }
    default:
      return unknownKind(content);
  }
}

function styleNumber({ content, style }: PlacedCell, styles: Styles): number {
  // A text that starts with a letter stays text when it is edited; in a cell formatted as text every one does.
  const keptAsText = content.kind === "text" && style.format !== "text" && !/^\p{L}/u.test(content.text);
  return styles.numberOf({ ...style, keptAsText });
}

/** An answer as a formula's cached value. */
function answerXml(answer: CalculatedValue | undefined): { type: string | undefined; body: readonly string[] } {
  if (answer === undefined) return { type: undefined, body: [] };
  switch (answer.kind) {
    case "number":
      if (!Number.isFinite(answer.value)) throw new RangeError(`A formula cannot answer ${answer.value}.`);
      return { type: undefined, body: [element("v", {}, String(answer.value))] };
    case "text":
      return { type: "str", body: [element("v", {}, escapeText(codeString(answer.text)))] };
    case "boolean":
      return { type: "b", body: [element("v", {}, answer.value ? "1" : "0")] };
    case "error":
      return { type: "e", body: [element("v", {}, fileError(answer.name))] };
    default:
      return unknownKind(answer);
  }
}

/** The format's own list of errors ends before the two that came with spilling; the host works those out again. */
function fileError(name: ErrorName): string {
  return name === "#SPILL!" || name === "#CALC!" ? "#VALUE!" : name;
}

/* ---- what lies around the cells ---- */

function sheetViewXml(sheet: SheetPlan, plan: WorkbookPlan): string {
  const { rows, columns } = sheet.frozen;
  const tabSelected = sheet.name === plan.active ? 1 : undefined;
  if (rows === 0 && columns === 0) return element("sheetView", { tabSelected, workbookViewId: 0 });
  const activePane = rows > 0 && columns > 0 ? "bottomRight" : rows > 0 ? "bottomLeft" : "topRight";
  const topLeftCell = cellName({ row: rows + 1, column: columns + 1 });
  return element(
    "sheetView",
    { tabSelected, workbookViewId: 0 },
    element("pane", {
      xSplit: columns > 0 ? columns : undefined,
      ySplit: rows > 0 ? rows : undefined,
      topLeftCell,
      activePane,
      state: "frozen",
    }),
    element("selection", { pane: activePane, activeCell: topLeftCell, sqref: topLeftCell }),
  );
}

/** Widths, and each table column's format for the rows that are typed below the table. */
function columnsXml(sheet: SheetPlan, styles: Styles): readonly string[] {
  const formats = new Map<number, number>();
  for (const table of sheet.tables) {
    table.columns.forEach(({ format }, index) => {
      const style = { look: "entry", format, place: "table", wrap: false, keptAsText: false } as const;
      formats.set(table.at.column + index, styles.numberOf(style));
    });
  }
  const last = Math.max(sheet.columnWidths.length, ...formats.keys());
  const columns: string[] = [];
  for (let column = 1; column <= last; column++) {
    const characters = sheet.columnWidths[column - 1];
    const style = formats.get(column);
    if (characters === undefined && style === undefined) continue;
    columns.push(
      element("col", {
        min: column,
        max: column,
        width: Math.round(((characters ?? 9) + PADDING_CHARACTERS) * 256) / 256,
        style: style === 0 ? undefined : style,
        customWidth: 1,
      }),
    );
  }
  return columns.length === 0 ? [] : [element("cols", {}, ...columns)];
}

function rulesXml(sheet: SheetPlan, styles: Styles): readonly string[] {
  return sheet.rules.map(({ on, text, look }, index) =>
    element(
      "conditionalFormatting",
      { sqref: blockName(on) },
      element(
        "cfRule",
        { type: "cellIs", dxfId: styles.statusNumberOf(look), priority: index + 1, operator: "equal" },
        element("formula", {}, escapeText(printFormula({ kind: "text", text }, "file"))),
      ),
    ),
  );
}

function sheetValidations(sheet: SheetPlan, plan: WorkbookPlan): readonly string[] {
  return [
    ...sheet.validations.map(({ on, validation }) => validationXml(on, validation, plan)),
    ...sheet.tables.flatMap((table) =>
      table.columns.flatMap((column) =>
        column.validation === undefined ? [] : [validationXml(validatedBlock(table, column), column.validation, plan)],
      ),
    ),
  ];
}

function validationXml(on: Block, validation: Validation, plan: WorkbookPlan): string {
  const { allowed, inputTitle, inputMessage, errorMessage } = validation;
  const { type, lowest, highest } = allowedXml(allowed, plan);
  const warns = allowed.kind === "list" && !allowed.strict;
  return element(
    "dataValidation",
    {
      type,
      errorStyle: warns ? "warning" : undefined,
      allowBlank: 1,
      showInputMessage: inputMessage === undefined ? undefined : 1,
      showErrorMessage: saysNo(validation) ? 1 : undefined,
      error: errorMessage === undefined ? undefined : codeString(errorMessage),
      promptTitle: inputTitle === undefined ? undefined : codeString(inputTitle),
      prompt: inputMessage === undefined ? undefined : codeString(inputMessage),
      sqref: blockName(on),
    },
    ...[lowest, highest].flatMap((limit, index) =>
      limit === undefined ? [] : [element(`formula${index + 1}`, {}, escapeText(limit))],
    ),
  );
}

/** The kind of validation and its one or two formulas. "Between" is what the format takes when no operator is named. */
function allowedXml(
  allowed: Allowed,
  plan: WorkbookPlan,
): { readonly type?: string; readonly lowest?: string; readonly highest?: string } {
  switch (allowed.kind) {
    case "none":
      return {};
    case "list":
      return { type: "list", lowest: listXml(allowed.source, plan) };
    case "date":
      return { type: "date", lowest: String(FIRST_DAY), highest: String(LAST_DAY) };
    case "number":
      return {
        type: allowed.whole ? "whole" : "decimal",
        lowest: String(allowed.least),
        highest: String(allowed.most),
      };
    default:
      return unknownKind(allowed);
  }
}

function listXml(source: ListSource, plan: WorkbookPlan): string {
  switch (source.kind) {
    case "words":
      return printFormula({ kind: "text", text: source.words.join(",") }, "file");
    case "column": {
      // A validation cannot name a table's column; a block that covers the column grows with the table all the same.
      for (const sheet of plan.sheets) {
        const table = sheet.tables.find(({ name }) => name === source.table);
        if (table === undefined) continue;
        const block = columnBlock(table, source.column);
        const letters = columnLetters(block.column);
        return `${quoteSheetName(sheet.name)}!$${letters}$${block.row}:$${letters}$${block.row + block.rows - 1}`;
      }
      throw new Error(`There is no table ${source.table}.`);
    }
    default:
      return unknownKind(source);
  }
}

function unknownKind(value: never): never {
  throw new TypeError(`The file writer does not know ${JSON.stringify(value)}.`);
}
