/** The workbook's tables through Office.js, read and added to as the pane asks. */
import type { Content, Block } from "../../workbook/plan/schema";
import { numberFormats } from "../../workbook/plan/looks";
import type { CellValue, TableContent } from "./host";
import { texts } from "../words/texts";

export async function readTables(
  context: Excel.RequestContext,
  names: readonly string[],
): Promise<readonly TableContent[]> {
  const asked = names.map((name) => {
    const table = context.workbook.tables.getItem(name);
    const headings = table.getHeaderRowRange();
    const body = table.getDataBodyRange();
    table.worksheet.load("name");
    headings.load(["values", "rowIndex", "columnIndex"]);
    body.load("values");
    return { table, headings, body };
  });
  await context.sync();
  return asked.map(({ table, headings, body }) => ({
    sheet: table.worksheet.name,
    at: { row: headings.rowIndex + 1, column: headings.columnIndex + 1 },
    headings: (headings.values[0] ?? []).map(String),
    rows: body.values as CellValue[][],
  }));
}

export async function readBlock(
  context: Excel.RequestContext,
  sheet: string,
  block: Block,
): Promise<readonly (readonly CellValue[])[]> {
  const range = context.workbook.worksheets
    .getItem(sheet)
    .getRangeByIndexes(block.row - 1, block.column - 1, block.rows, block.columns);
  range.load("values");
  await context.sync();
  return range.values as CellValue[][];
}

/**
 * The row is added empty and then filled with one write of its values: should the host stop between the two, an empty
 * row is left, which counts for nothing and is the first to be filled next time.
 */
export async function appendRow(
  context: Excel.RequestContext,
  name: string,
  cells: ReadonlyMap<string, Content>,
): Promise<string> {
  const table = context.workbook.tables.getItem(name);
  const headingRow = table.getHeaderRowRange();
  const body = table.getDataBodyRange();
  const lastRow = body.getLastRow();
  headingRow.load("values");
  body.load("formulas");
  lastRow.load("numberFormat");
  await context.sync();

  const headings = (headingRow.values[0] ?? []).map(String);
  const unknown = [...cells.keys()].find((heading) => !headings.includes(heading));
  if (unknown !== undefined) throw new Error(texts.tableLacksColumn(name, unknown));
  const rows = body.formulas as CellValue[][];
  const formats = (lastRow.numberFormat[0] ?? []) as string[];

  const free = firstFreeRow(rows);
  if (free === rows.length) table.rows.add();
  const row = table.getDataBodyRange().getRow(free);
  const contents = headings.map((heading) => cells.get(heading));
  // A null leaves a cell as it is. The format first: what is text already stays as it is written.
  row.numberFormat = [contents.map((content, index) => formatOf(content, formats[index] ?? "General"))];
  row.values = [contents.map(valueOf)];
  row.load("address");
  await context.sync();
  return row.address;
}

/** Columns of words at the right end; the host moves what stands beside the table. Those that it has are passed over. */
export async function addColumns(
  context: Excel.RequestContext,
  name: string,
  headings: readonly string[],
): Promise<void> {
  const table = context.workbook.tables.getItem(name);
  const headingRow = table.getHeaderRowRange();
  headingRow.load("values");
  await context.sync();
  const present = (headingRow.values[0] ?? []).map(String);
  for (const heading of headings.filter((one) => !present.includes(one))) {
    const column = table.columns.add(undefined, undefined, heading);
    // The declarations ask for a block; the host takes one value for every cell.
    (column.getDataBodyRange() as { numberFormat: unknown }).numberFormat = numberFormats.text;
  }
  await context.sync();
}

/** The row after the last one in which somebody has written something; a calculated column does not count. */
function firstFreeRow(rows: readonly (readonly CellValue[])[]): number {
  const isTyped = (formula: CellValue): boolean =>
    formula !== "" && !(typeof formula === "string" && formula.startsWith("="));
  let free = rows.length;
  while (free > 0 && !rows[free - 1]?.some(isTyped)) free -= 1;
  return free;
}

function formatOf(content: Content | undefined, formatAbove: string): string | null {
  if (content?.kind === "text") return numberFormats.text;
  // A day in an unformatted cell would be seen as a number; a format that the coach chose stays.
  return content?.kind === "date" && formatAbove === "General" ? numberFormats.date : null;
}

function valueOf(content: Content | undefined): string | number | null {
  switch (content?.kind) {
    case "text":
      return content.text;
    case "number":
      return content.value;
    case "date":
      return content.serial;
    case "formula":
    case "empty":
    case undefined:
      return null;
  }
}
