/**
 * What a spreadsheet program would refuse or repair in a plan, found before anything is written. Every writer asks here
 * first, so that a workbook is written whole or not at all.
 */
import { blockName } from "./address";
import { LAST_COLUMN, LAST_ROW } from "../../core/sheet";
import { formulaParts, type Formula } from "./formula";
import type { Block, ChartPlan, Content, SheetPlan, TablePlan, Validation, WorkbookPlan } from "./schema";
import { tableBlock, validatedBlock } from "./tables";

/** The limits that the host keeps for names, validation texts and a cell's text. */
const LONGEST_SHEET_NAME = 31;
const LONGEST_TABLE_NAME = 255;
const LONGEST_VALIDATION_TITLE = 32;
const LONGEST_VALIDATION_MESSAGE = 255;
const LONGEST_WORD_LIST = 255;
const LONGEST_CELL_TEXT = 32_767;

/** What is wrong with the plan, one sentence each; nothing when it can be written. */
export function checkPlan(plan: WorkbookPlan): readonly string[] {
  const problems: string[] = [];
  const sheetNames = new Set<string>();
  for (const sheet of plan.sheets) {
    const key = sheet.name.toLowerCase();
    if (sheetNames.has(key)) problems.push(`Two sheets are called ${sheet.name}.`);
    sheetNames.add(key);
    problems.push(...checkSheetName(sheet.name));
  }
  if (!plan.sheets.some((sheet) => sheet.name === plan.active)) {
    problems.push(`The sheet to be shown first, ${plan.active}, is not in the plan.`);
  }
  const tables = plan.sheets.flatMap((sheet) => sheet.tables);
  const tableKeys = new Set<string>();
  for (const table of tables) {
    const key = table.name.toLowerCase();
    if (tableKeys.has(key)) problems.push(`Two tables are called ${table.name}.`);
    if (sheetNames.has(key)) problems.push(`A table and a sheet are both called ${table.name}.`);
    tableKeys.add(key);
    problems.push(...checkTable(table));
  }
  for (const sheet of plan.sheets) problems.push(...checkSheet(sheet, plan));
  return problems;
}

function checkSheetName(name: string): readonly string[] {
  const problems: string[] = [];
  if (name === "" || name.length > LONGEST_SHEET_NAME) {
    problems.push(`The sheet name "${name}" has ${name.length} characters; 1 to ${LONGEST_SHEET_NAME} are allowed.`);
  }
  if (/[\\/?*[\]:]/.test(name)) problems.push(`The sheet name "${name}" holds one of \\ / ? * [ ] :.`);
  if (name.startsWith("'") || name.endsWith("'")) problems.push(`The sheet name "${name}" begins or ends with '.`);
  return problems;
}

function checkTable(table: TablePlan): readonly string[] {
  const problems: string[] = [];
  const { name, columns, rows } = table;
  if (!/^[\p{L}_][\p{L}\p{N}_.]*$/u.test(name) || name.length > LONGEST_TABLE_NAME) {
    problems.push(`"${name}" cannot be the name of a table.`);
  }
  // Such a name would be read as a cell: AB12, R1C1.
  if (/^[a-z]{1,3}\d+$/i.test(name) || /^(r\d*)?(c\d*)?$/i.test(name)) {
    problems.push(`The table name ${name} reads as a cell address.`);
  }
  if (columns.length === 0) problems.push(`Table ${name} has no columns.`);
  if (rows.length === 0) problems.push(`Table ${name} has no rows; an empty table has one row of empties.`);
  const headings = new Set<string>();
  for (const { heading } of columns) {
    if (heading.trim() === "") problems.push(`A column of table ${name} has no heading.`);
    if (headings.has(heading.toLowerCase())) problems.push(`Table ${name} has two columns called ${heading}.`);
    if (/\p{Cc}/u.test(heading)) problems.push(`A heading of table ${name} holds a line break or tab.`);
    headings.add(heading.toLowerCase());
  }
  rows.forEach((row, index) => {
    if (row.length !== columns.length) {
      problems.push(`Row ${index + 1} of table ${name} has ${row.length} cells for ${columns.length} columns.`);
    }
    columns.forEach((column, columnIndex) => {
      const content = row[columnIndex];
      if (column.formula !== undefined && content !== undefined && content.kind !== "empty") {
        problems.push(`Row ${index + 1} of table ${name} holds a value in the calculated column ${column.heading}.`);
      }
      if (content?.kind === "formula" && content.spills) {
        problems.push(`Row ${index + 1} of table ${name} holds a formula that spills; inside a table it cannot.`);
      }
    });
  });
  return problems;
}

function checkSheet(sheet: SheetPlan, plan: WorkbookPlan): readonly string[] {
  const problems: string[] = [];
  const say = (words: string): void => {
    problems.push(`Sheet ${sheet.name}: ${words}`);
  };

  const blocks: { readonly what: string; readonly on: Block }[] = [
    ...sheet.tables.map((table) => ({ what: `table ${table.name}`, on: tableBlock(table) })),
    ...sheet.tables.flatMap((table) =>
      table.columns.map((column) => ({ what: `column ${column.heading}`, on: validatedBlock(table, column) })),
    ),
    ...sheet.areas.map(({ on }) => ({ what: "an area", on })),
    ...sheet.validations.map(({ on }) => ({ what: "a validation", on })),
    ...sheet.rules.map(({ on }) => ({ what: "a rule", on })),
    ...sheet.charts.flatMap(({ name, on, series }) => [
      { what: `chart ${name}`, on },
      ...series.flatMap(({ across, up }) =>
        [across, up].map((block) => ({ what: `a series of chart ${name}`, on: block })),
      ),
    ]),
    ...sheet.cells.map(({ at }) => ({ what: "a cell", on: oneCell(at) })),
  ];
  for (const { what, on } of blocks) if (!insideSheet(on)) say(`${what} at ${describe(on)} lies outside the sheet.`);

  const taken = new Set<string>();
  for (const { at } of sheet.cells) {
    const key = `${at.row},${at.column}`;
    if (taken.has(key)) say(`the cell ${describe(oneCell(at))} is planned twice.`);
    taken.add(key);
    const under = sheet.tables.find((table) => overlap(tableBlock(table), oneCell(at)));
    if (under !== undefined) say(`the cell ${describe(oneCell(at))} lies in table ${under.name}.`);
  }
  sheet.tables.forEach((table, index) => {
    for (const other of sheet.tables.slice(index + 1)) {
      if (overlap(tableBlock(table), tableBlock(other))) say(`tables ${table.name} and ${other.name} overlap.`);
    }
  });

  const chartNames = new Set<string>();
  for (const chart of sheet.charts) {
    if (chartNames.has(chart.name.toLowerCase())) say(`two charts are called ${chart.name}.`);
    chartNames.add(chart.name.toLowerCase());
    for (const problem of checkChart(chart)) say(problem);
  }

  for (const content of allContents(sheet)) problems.push(...checkContent(content, sheet, plan));
  for (const validation of allValidations(sheet)) problems.push(...checkValidation(validation, sheet, plan));
  return problems;
}

function checkChart({ name, across, up, series }: ChartPlan): readonly string[] {
  const problems: string[] = [];
  if (name.trim() === "") problems.push("a chart has no name.");
  if (series.length === 0) problems.push(`chart ${name} has no series.`);
  for (const axis of [across, up]) {
    const { least = -Infinity, most = Infinity, title } = axis;
    if (least >= most) problems.push(`the axis ${title} of chart ${name} ends before it begins.`);
  }
  for (const one of series) {
    const [wide, tall] = [one.across, one.up];
    if (wide.rows !== tall.rows || wide.columns !== 1 || tall.columns !== 1) {
      problems.push(`the series ${one.name} of chart ${name} wants two columns of the same length.`);
    }
  }
  return problems;
}

function allContents(sheet: SheetPlan): readonly Content[] {
  return [
    ...sheet.cells.map((cell) => cell.content),
    ...sheet.tables.flatMap((table) => [
      ...table.rows.flat(),
      ...table.columns.flatMap((column): readonly Content[] =>
        column.formula === undefined ? [] : [{ kind: "formula", formula: column.formula, spills: false }],
      ),
    ]),
  ];
}

function allValidations(sheet: SheetPlan): readonly Validation[] {
  return [
    ...sheet.validations.map(({ validation }) => validation),
    ...sheet.tables.flatMap((table) => table.columns.flatMap(({ validation }) => validation ?? [])),
  ];
}

function checkContent(content: Content, sheet: SheetPlan, plan: WorkbookPlan): readonly string[] {
  switch (content.kind) {
    case "empty":
      return [];
    case "text":
      return content.text.length > LONGEST_CELL_TEXT
        ? [`Sheet ${sheet.name}: a text of ${content.text.length} characters; a cell holds ${LONGEST_CELL_TEXT}.`]
        : [];
    case "number":
      return Number.isFinite(content.value) ? [] : [`Sheet ${sheet.name}: a cell cannot hold ${content.value}.`];
    case "date":
      return Number.isInteger(content.serial) && content.serial > 0
        ? []
        : [`Sheet ${sheet.name}: ${content.serial} is no whole day.`];
    case "formula":
      return formulaParts(content.formula).flatMap((part) => checkReference(part, sheet, plan));
    default:
      return unknownKind(content);
  }
}

/** A reference to a sheet or a column that the plan does not have would open as `#REF!`. */
function checkReference(part: Formula, sheet: SheetPlan, plan: WorkbookPlan): readonly string[] {
  if (part.kind === "cells") {
    const { sheet: target } = part;
    const known = plan.sheets.some(({ name }) => name === target) || plan.reads?.sheets.includes(target ?? "") === true;
    if (target !== undefined && !known) {
      return [`Sheet ${sheet.name}: a formula reads the sheet ${target}, which is not in the plan.`];
    }
  }
  if (part.kind === "column") {
    return [part.column, ...(part.to === undefined ? [] : [part.to])].flatMap((heading) =>
      checkTableColumn(part.table, heading, sheet, plan),
    );
  }
  if (part.kind === "whole-column" || part.kind === "this-row") {
    return checkTableColumn(part.table, part.column, sheet, plan);
  }
  return [];
}

function checkTableColumn(tableName: string, heading: string, sheet: SheetPlan, plan: WorkbookPlan): readonly string[] {
  const table = plan.sheets.flatMap(({ tables }) => tables).find(({ name }) => name === tableName);
  if (table?.columns.some((column) => column.heading === heading) === true) return [];
  const present = plan.reads?.tables.find(({ name }) => name === tableName);
  if (present?.columns.includes(heading) === true) return [];
  return [`Sheet ${sheet.name}: ${tableName}[${heading}] is not in the plan.`];
}

function checkValidation(validation: Validation, sheet: SheetPlan, plan: WorkbookPlan): readonly string[] {
  const problems: string[] = [];
  const { allowed, inputTitle = "", inputMessage = "", errorMessage = "" } = validation;
  if (inputTitle.length > LONGEST_VALIDATION_TITLE) {
    problems.push(`Sheet ${sheet.name}: the input title "${inputTitle}" is longer than ${LONGEST_VALIDATION_TITLE}.`);
  }
  for (const message of [inputMessage, errorMessage]) {
    if (message.length > LONGEST_VALIDATION_MESSAGE) {
      problems.push(`Sheet ${sheet.name}: the message "${message}" is longer than ${LONGEST_VALIDATION_MESSAGE}.`);
    }
  }
  if (allowed.kind === "list") {
    const { source } = allowed;
    if (source.kind === "column") problems.push(...checkTableColumn(source.table, source.column, sheet, plan));
    else if (source.words.some((word) => word.includes(",")) || source.words.join(",").length > LONGEST_WORD_LIST) {
      problems.push(
        `Sheet ${sheet.name}: the list ${source.words.join(" | ")} holds a comma or more than ${LONGEST_WORD_LIST} characters.`,
      );
    }
  }
  return problems;
}

function oneCell(at: { readonly row: number; readonly column: number }): Block {
  return { row: at.row, column: at.column, rows: 1, columns: 1 };
}

function insideSheet({ row, column, rows, columns }: Block): boolean {
  return (
    row >= 1 &&
    column >= 1 &&
    rows >= 1 &&
    columns >= 1 &&
    row + rows - 1 <= LAST_ROW &&
    column + columns - 1 <= LAST_COLUMN
  );
}

function describe(block: Block): string {
  return insideSheet(block) ? blockName(block) : `row ${block.row}, column ${block.column}`;
}

export function overlap(one: Block, other: Block): boolean {
  return (
    one.row < other.row + other.rows &&
    other.row < one.row + one.rows &&
    one.column < other.column + other.columns &&
    other.column < one.column + one.columns
  );
}

function unknownKind(content: never): never {
  throw new TypeError(`Unknown kind of content: ${JSON.stringify(content)}`);
}
