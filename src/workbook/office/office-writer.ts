/**
 * Writes a plan into the open workbook through Office.js, within the sets that the manifest asks for (ExcelApi 1.12).
 * Knows how a sheet is written and nothing of what stands on it.
 */
import { blockName, cellName } from "../plan/address";
import { columnLetters } from "../../core/sheet";
import { EARLIEST_YEAR, LATEST_YEAR } from "../plan/days";
import { printFormula, type Formula } from "../plan/formula";
import {
  alignmentOf,
  columnLook,
  headingFormat,
  looks,
  numberFormats,
  pageOf,
  seriesLooks,
  wordLooks,
  TABLE_STYLE_NAME,
  type Drawing,
  type Place,
  type SeriesDrawing,
} from "../plan/looks";
import type {
  Allowed,
  Block,
  CellPlan,
  ChartAxis,
  ChartPlan,
  Content,
  ListSource,
  Look,
  NumberFormat,
  SheetPlan,
  StatusRule,
  TablePlan,
  Validation,
  WorkbookPlan,
} from "../plan/schema";
import { columnBlock, saysNo, tableBlock, validatedBlock } from "../plan/tables";

/** Told as each sheet is begun: its name, which one it is (from 1) and of how many. */
type WriteProgress = (sheet: string, number: number, of: number) => void;

/** The workbook could not be written; `cause` is what the host said. */
export class WriteFailure extends Error {
  constructor(
    message: string,
    cause: unknown,
    /** Sheets of ours that could not be taken out again. */
    readonly leftBehind: readonly string[],
  ) {
    super(message, { cause });
    this.name = "WriteFailure";
  }
}

/**
 * Adds the plan's sheets and shows its active one. One unit: after a failure at any step the sheets that were added are
 * taken out again.
 *
 * Every sheet is written in two rounds: first what stands still and the tables, then, once all tables are there, what
 * refers to them. A formula or a list that names a table which is not there yet would be refused.
 * @throws WriteFailure
 */
export async function writeWithOffice(
  context: Excel.RequestContext,
  plan: WorkbookPlan,
  progress: WriteProgress = () => undefined,
): Promise<void> {
  const { worksheets, tables } = context.workbook;
  const activeBefore = worksheets.getActiveWorksheet();
  try {
    worksheets.load("items/name");
    tables.load("items/name");
    activeBefore.load("id");
    await context.sync();
  } catch (cause) {
    throw new WriteFailure("The workbook could not be read.", cause, []);
  }
  refuseTakenNames(
    plan,
    worksheets.items.map(({ name }) => name),
    tables.items.map(({ name }) => name),
  );

  const begun: string[] = [];
  let at = "";
  try {
    for (const [index, sheetPlan] of plan.sheets.entries()) {
      at = sheetPlan.name;
      progress(at, index + 1, plan.sheets.length);
      begun.push(at);
      writeStandingContent(worksheets.add(at), sheetPlan);
      await context.sync();
    }
    for (const sheetPlan of plan.sheets) {
      at = sheetPlan.name;
      writeReferringContent(worksheets.getItem(at), sheetPlan);
      await context.sync();
    }
    for (const sheetPlan of plan.sheets.filter(({ charts }) => charts.length > 0)) {
      at = sheetPlan.name;
      await writeCharts(context, worksheets.getItem(at), sheetPlan);
    }
    at = plan.active;
    worksheets.getItem(at).activate();
    await context.sync();
  } catch (cause) {
    const leftBehind = await takeOut(context, begun, activeBefore.id);
    throw new WriteFailure(`The sheet "${at}" could not be made.`, cause, leftBehind);
  }
  await layOutPages(context, plan);
}

/**
 * How the sheets lie on paper. A machine without a printer refuses this, and a season is no worse on the screen for it:
 * so it comes last, and a refusal is let pass.
 */
async function layOutPages(context: Excel.RequestContext, plan: WorkbookPlan): Promise<void> {
  for (const sheet of plan.sheets) {
    const { pageLayout } = context.workbook.worksheets.getItem(sheet.name);
    const { orientation, pagesWide, repeatRows, columns } = pageOf(sheet);
    pageLayout.orientation = orientation === "landscape" ? "Landscape" : "Portrait";
    pageLayout.zoom = { horizontalFitToPages: pagesWide };
    if (repeatRows > 0) pageLayout.setPrintTitleRows(`$1:$${repeatRows}`);
    if (columns) {
      pageLayout.setPrintArea(
        columns.map(({ first, last }) => `${columnLetters(first)}:${columnLetters(last)}`).join(","),
      );
    }
  }
  try {
    await context.sync();
  } catch {
    return;
  }
}

function refuseTakenNames(plan: WorkbookPlan, sheets: readonly string[], tables: readonly string[]): void {
  const taken = new Set([...sheets, ...tables].map((name) => name.toLowerCase()));
  const clash = plan.sheets
    .flatMap((sheet) => [sheet.name, ...sheet.tables.map((table) => table.name)])
    .find((name) => taken.has(name.toLowerCase()));
  if (clash !== undefined) throw new WriteFailure(`This workbook has "${clash}" already.`, undefined, []);
}

/** Deletes those of the sheets that are there, shows what was shown before, and answers what could not be deleted. */
async function takeOut(
  context: Excel.RequestContext,
  names: readonly string[],
  activeId: string,
): Promise<readonly string[]> {
  if (names.length === 0) return [];
  const { worksheets } = context.workbook;
  try {
    // Whether the step that failed got as far as adding its sheet, only the workbook knows.
    const sheets = names.map((name) => worksheets.getItemOrNullObject(name));
    sheets.forEach((sheet) => sheet.load("name"));
    await context.sync();
    const present = sheets.filter((sheet) => !sheet.isNullObject);
    if (present.length === 0) return [];
    worksheets.getItem(activeId).activate();
    present.forEach((sheet) => sheet.delete());
    await context.sync();
    return [];
  } catch {
    return names;
  }
}

/* ---- the two rounds ---- */

function writeStandingContent(sheet: Excel.Worksheet, plan: SheetPlan): void {
  plan.columnWidths.forEach((characters, index) => {
    sheet.getRangeByIndexes(0, index, 1, 1).format.columnWidth = widthPoints(characters);
  });
  for (const area of plan.areas) {
    const range = rangeOf(sheet, area.on);
    setFormat(range, area.format);
    draw(range, area.look, area.format);
  }
  for (const table of plan.tables) writeTable(sheet, table);
  for (const cell of plan.cells) writeCell(sheet, cell);
  freeze(sheet, plan.frozen);
}

function writeReferringContent(sheet: Excel.Worksheet, plan: SheetPlan): void {
  for (const { at, content } of plan.cells) {
    if (content.kind === "formula") rangeOf(sheet, oneCell(at)).formulas = [[formulaText(content.formula)]];
  }
  for (const table of plan.tables) {
    for (const column of table.columns) {
      if (column.formula !== undefined) {
        const written = formulaText(column.formula);
        rangeOf(sheet, columnBlock(table, column.heading)).formulas = table.rows.map(() => [written]);
      }
      if (column.validation !== undefined) validate(rangeOf(sheet, validatedBlock(table, column)), column.validation);
    }
  }
  for (const { on, validation } of plan.validations) validate(rangeOf(sheet, on), validation);
  for (const rule of plan.rules) addStatusRule(sheet, rule);
}

/* ---- cells ---- */

function writeCell(sheet: Excel.Worksheet, plan: CellPlan): void {
  const range = rangeOf(sheet, oneCell(plan.at));
  // The format first: in a cell that is text already, `8/10` and `=…` stay what they are.
  setFormat(range, plan.format);
  draw(range, plan.look, plan.format);
  if (plan.wrap === true) {
    range.format.wrapText = true;
    range.format.verticalAlignment = "Top";
  }
  const value = valueOf(plan.content, plan.format);
  if (value !== null) range.values = [[value]];
}

/**
 * What is handed to the host for a content; null where this round writes nothing.
 */
function valueOf(content: Content, format: NumberFormat): string | number | null {
  switch (content.kind) {
    case "text":
      return format === "text" ? content.text : textAsTyped(content.text);
    case "number":
      return content.value;
    case "date":
      return content.serial;
    case "formula":
    case "empty":
      return null;
    default:
      return unknown(content);
  }
}

/**
 * The host reads a text in a cell that is not formatted as text as if it were typed: it would take `=…`, `+1 spin`, `3/4`
 * or `true` for something else. A leading apostrophe keeps it text and is not shown. Plain words go without it, so that
 * the formula bar shows them plainly.
 */
function textAsTyped(text: string): string {
  const plainWords = /^\p{L}[^\p{N}]*$/u.test(text) && !/^(true|false)$/i.test(text.trim());
  return plainWords || text === "" ? text : `'${text}`;
}

function setFormat(range: Excel.Range, format: NumberFormat): void {
  // One value for the whole block; the declared type knows arrays only.
  if (numberFormats[format] !== numberFormats.general)
    (range as { numberFormat: unknown }).numberFormat = numberFormats[format];
}

function draw(range: Excel.Range, look: Look, numberFormat: NumberFormat, place: Place = "sheet"): void {
  if (look === "plain") return;
  const drawing: Drawing = looks[look];
  const { format } = range;
  format.font.color = drawing.textColour;
  format.font.bold = drawing.bold;
  format.font.italic = drawing.italic;
  format.font.size = drawing.sizePoints;
  const { horizontal, indent } = alignmentOf(look, numberFormat, place);
  if (horizontal !== "natural") format.horizontalAlignment = horizontal === "right" ? "Right" : "Left";
  // Set for words too: a heading may lie on an area that was drawn for numbers.
  if (horizontal !== "natural") format.indentLevel = indent;
  if (drawing.fill !== null) format.fill.color = drawing.fill;
  if (drawing.border !== null) {
    for (const side of borderSides[drawing.border.sides]) {
      const border = format.borders.getItem(side);
      border.style = "Continuous";
      border.weight = "Thin";
      border.color = drawing.border.colour;
    }
  }
}

/** The inner lines too: a look holds for each cell of a block. */
const borderSides = {
  all: ["EdgeTop", "EdgeBottom", "EdgeLeft", "EdgeRight", "InsideHorizontal", "InsideVertical"],
  below: ["EdgeBottom", "InsideHorizontal"],
} as const;

/* ---- tables ---- */

function writeTable(sheet: Excel.Worksheet, plan: TablePlan): void {
  const whole = tableBlock(plan);
  const headingRow: Block = { ...whole, rows: 1 };
  for (const column of plan.columns) {
    // Room below the last row as well: what is typed there is read before the table grows over it.
    setFormat(rangeOf(sheet, validatedBlock(plan, column)), column.format);
    // A worked out cell comes with its row; the others are typed into that room before the row is there.
    const drawn = column.formula === undefined ? validatedBlock(plan, column) : columnBlock(plan, column.heading);
    draw(rangeOf(sheet, drawn), columnLook(column), column.format, "table");
  }
  rangeOf(sheet, headingRow).values = [plan.columns.map(({ heading }) => heading)];
  rangeOf(sheet, { ...whole, row: whole.row + 1, rows: plan.rows.length }).values = plan.rows.map((row) =>
    // An empty text clears a cell; null would mean "leave it", which is the same on a new sheet.
    row.map((content, index) => valueOf(content, plan.columns[index]?.format ?? "general") ?? ""),
  );
  const table = sheet.tables.add(blockName(whole), true);
  table.name = plan.name;
  table.style = TABLE_STYLE_NAME;
  plan.columns.forEach(({ format }, index) => {
    const heading = { ...headingRow, column: headingRow.column + index, columns: 1 };
    draw(rangeOf(sheet, heading), "heading", headingFormat(format), "table");
  });
}

/* ---- validation ---- */

function validate(range: Excel.Range, validation: Validation): void {
  const { allowed, inputTitle, inputMessage, errorMessage } = validation;
  const { dataValidation } = range;
  dataValidation.rule = validationRule(allowed);
  if (inputMessage !== undefined) {
    dataValidation.prompt = { showPrompt: true, title: inputTitle ?? "", message: inputMessage };
  }
  dataValidation.errorAlert = {
    showAlert: saysNo(validation),
    style: allowed.kind === "list" && !allowed.strict ? "Warning" : "Stop",
    title: inputTitle ?? "",
    message: errorMessage ?? "",
  };
}

function validationRule(allowed: Allowed): Excel.DataValidationRule {
  switch (allowed.kind) {
    case "none":
      // A rule that everything keeps: the host shows an input message only beside a rule.
      return { custom: { formula: "=TRUE" } };
    case "list":
      return { list: { inCellDropDown: true, source: listSource(allowed.source) } };
    case "date":
      return {
        date: { formula1: `=DATE(${EARLIEST_YEAR},1,1)`, formula2: `=DATE(${LATEST_YEAR},12,31)`, operator: "Between" },
      };
    case "number": {
      const bounds = { formula1: allowed.least, formula2: allowed.most, operator: "Between" } as const;
      return allowed.whole ? { wholeNumber: bounds } : { decimal: bounds };
    }
    default:
      return unknown(allowed);
  }
}

function listSource(source: ListSource): string {
  switch (source.kind) {
    case "words":
      return source.words.join(",");
    case "column": {
      // Validation takes no structured reference itself; through INDIRECT the list grows with the table.
      const reference = printFormula({ kind: "column", table: source.table, column: source.column }, "sheet");
      return `=INDIRECT("${reference.replaceAll('"', '""')}")`;
    }
    default:
      return unknown(source);
  }
}

/* ---- charts ---- */

/** The host fills a new chart with series of its own choice: they are counted, taken out, and the plan's put in. */
async function writeCharts(context: Excel.RequestContext, sheet: Excel.Worksheet, plan: SheetPlan): Promise<void> {
  const charts = plan.charts.map((chartPlan) => {
    const chart = sheet.charts.add("XYScatterLines", rangeOf(sheet, { ...chartPlan.on, rows: 1, columns: 1 }));
    chart.series.load("items");
    return { chart, chartPlan };
  });
  await context.sync();
  for (const { chart, chartPlan } of charts) {
    for (const unwanted of chart.series.items) unwanted.delete();
    writeChart(sheet, chart, chartPlan);
  }
  await context.sync();
}

function writeChart(sheet: Excel.Worksheet, chart: Excel.Chart, plan: ChartPlan): void {
  const { row, column, rows, columns } = plan.on;
  chart.name = plan.name;
  chart.title.text = plan.title;
  chart.setPosition(cellName({ row, column }), cellName({ row: row + rows - 1, column: column + columns - 1 }));
  writeAxis(chart.axes.categoryAxis, plan.across);
  writeAxis(chart.axes.valueAxis, plan.up);
  for (const seriesPlan of plan.series) {
    const series = chart.series.add(seriesPlan.name);
    series.setXAxisValues(rangeOf(sheet, seriesPlan.across));
    series.setValues(rangeOf(sheet, seriesPlan.up));
    drawSeries(series, seriesLooks[seriesPlan.look]);
  }
  chart.legend.visible = true;
  chart.legend.position = "Bottom";
  plan.series.forEach(({ look }, index) => {
    if (!seriesLooks[look].named) chart.legend.legendEntries.getItemAt(index).visible = false;
  });
}

function writeAxis(axis: Excel.ChartAxis, { title, format, least, most }: ChartAxis): void {
  axis.title.text = title;
  axis.numberFormat = numberFormats[format];
  axis.tickLabelPosition = "Low";
  if (least !== undefined) axis.minimum = least;
  if (most !== undefined) axis.maximum = most;
}

const lineStyles = { solid: "Continuous", dash: "Dash", longDash: "DashDot", dot: "Dot" } as const;

function drawSeries(series: Excel.ChartSeries, { line, marker }: SeriesDrawing): void {
  if (line === null) {
    series.format.line.lineStyle = "None";
  } else {
    series.format.line.color = line.colour;
    series.format.line.weight = line.widthPoints;
    series.format.line.lineStyle = lineStyles[line.dash];
  }
  if (marker === null) {
    series.markerStyle = "None";
  } else {
    series.markerStyle = marker.shape === "cross" ? "X" : "Circle";
    series.markerSize = marker.sizePoints;
    series.markerBackgroundColor = marker.colour;
    series.markerForegroundColor = marker.colour;
  }
}

/* ---- the rest ---- */

function addStatusRule(sheet: Excel.Worksheet, rule: StatusRule): void {
  const drawing = wordLooks[rule.look];
  const { cellValue } = rangeOf(sheet, rule.on).conditionalFormats.add("CellValue");
  cellValue.format.font.color = drawing.textColour;
  cellValue.format.font.bold = drawing.bold;
  cellValue.format.fill.color = drawing.fill;
  cellValue.rule = { operator: "EqualTo", formula1: `="${rule.text.replaceAll('"', '""')}"` };
}

function freeze(sheet: Excel.Worksheet, { rows, columns }: SheetPlan["frozen"]): void {
  if (rows > 0 && columns > 0) sheet.freezePanes.freezeAt(sheet.getRangeByIndexes(0, 0, rows, columns));
  else if (rows > 0) sheet.freezePanes.freezeRows(rows);
  else if (columns > 0) sheet.freezePanes.freezeColumns(columns);
}

/**
 * Points for a width in characters: a digit of the usual font is 7 pixels wide, a cell has 5 pixels of padding, and a
 * pixel is three quarters of a point. Source: ECMA-376 part 1, 18.3.1.13, with the usual font at 96 dots an inch.
 */
function widthPoints(characters: number): number {
  return (characters * 7 + 5) * 0.75;
}

const formulaText = (formula: Formula): string => `=${printFormula(formula, "sheet")}`;

const oneCell = (at: { readonly row: number; readonly column: number }): Block => ({ ...at, rows: 1, columns: 1 });

function rangeOf(sheet: Excel.Worksheet, block: Block): Excel.Range {
  return sheet.getRangeByIndexes(block.row - 1, block.column - 1, block.rows, block.columns);
}

function unknown(member: never): never {
  throw new TypeError(`Unknown kind: ${JSON.stringify(member)}`);
}
