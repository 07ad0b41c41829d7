/** The Use my sheet part's errands in the spreadsheet program, through Office.js. */
import { repairedFormula } from "../../workbook/plan/broken-calls";
import { readSelectedLog, type SheetArea, type SheetSource } from "./log-reading";
import type { ReadLog, ReadProgress, Repairs } from "./own-sheet-host";
import { texts } from "../words/texts";

/* ---- reading the log ---- */

const AREA = ["rowIndex", "columnIndex", "rowCount", "columnCount"];

export async function readLogWithOffice(context: Excel.RequestContext, progress?: ReadProgress): Promise<ReadLog> {
  const selected = context.workbook.getSelectedRange();
  const sheet = selected.worksheet;
  const tables = selected.getTables(false);
  const used = sheet.getUsedRangeOrNullObject(true);
  selected.load(AREA);
  sheet.load("name");
  tables.load("items/name, items/showHeaders");
  used.load(AREA);
  await context.sync();

  const [table] = tables.items;
  const source: SheetSource = {
    sheet: sheet.name,
    selected: areaOf(selected),
    used: used.isNullObject ? null : areaOf(used),
    table: table?.showHeaders === true ? { name: table.name, area: await tableArea(context, table) } : null,
    isTooMuch,
    cells: async ({ row, column, rows, columns }, asShown) => {
      const range = sheet.getRangeByIndexes(row, column, rows, columns);
      range.load(asShown ? ["values", "numberFormat", "text"] : ["values", "numberFormat"]);
      await context.sync();
      return {
        values: range.values as unknown[][],
        numberFormats: range.numberFormat as string[][],
        texts: asShown ? range.text : null,
      };
    },
  };
  return readSelectedLog(source, progress);
}

/** Headings and rows, without the row of sums that the host may show at the foot. */
async function tableArea(context: Excel.RequestContext, table: Excel.Table): Promise<SheetArea> {
  const [headings, body] = [table.getHeaderRowRange(), table.getDataBodyRange()];
  headings.load(AREA);
  body.load(AREA);
  await context.sync();
  return { ...areaOf(headings), rows: headings.rowCount + body.rowCount };
}

function areaOf(range: Excel.Range): SheetArea {
  return { row: range.rowIndex, column: range.columnIndex, rows: range.rowCount, columns: range.columnCount };
}

/** Long notes can make even few cells too much for one answer. */
function isTooMuch(cause: unknown): boolean {
  return (cause as { readonly code?: unknown } | null)?.code === "ResponsePayloadSizeLimitExceeded";
}

/* ---- going to a cell ---- */

export async function goToCellWithOffice(
  context: Excel.RequestContext,
  sheetName: string,
  cell: { readonly row: number; readonly column: number },
): Promise<void> {
  const sheet = context.workbook.worksheets.getItemOrNullObject(sheetName);
  sheet.load("name");
  await context.sync();
  if (sheet.isNullObject) throw new Error(texts.sheetGone(sheetName));
  sheet.activate();
  sheet.getRangeByIndexes(cell.row - 1, cell.column - 1, 1, 1).select();
  await context.sync();
}

/* ---- repairing formulas ---- */

/** Cells a round: formulas are longer than values. */
const CELLS_A_ROUND = 12_000;

interface BrokenCell {
  readonly range: Excel.Range;
  readonly formula: string;
}

export async function repairWithOffice(context: Excel.RequestContext): Promise<Repairs> {
  const { worksheets } = context.workbook;
  worksheets.load("items/name");
  await context.sync();
  let repaired = 0;
  let stillUnknown = 0;
  let refused = 0;
  const protectedSheets: { sheet: string; cells: number }[] = [];
  for (const sheet of worksheets.items) {
    const broken = await brokenCells(context, sheet);
    if (broken.length === 0) continue;
    sheet.protection.load("protected");
    await context.sync();
    if (sheet.protection.protected) {
      protectedSheets.push({ sheet: sheet.name, cells: broken.length });
      continue;
    }
    const written = await writeAgain(context, broken);
    const unknown = written.filter(({ range }) => range.values[0]?.[0] === "#NAME?").length;
    refused += broken.length - written.length;
    stillUnknown += unknown;
    repaired += written.length - unknown;
  }
  return { repaired, stillUnknown, refused, protectedSheets };
}

/** All at once; where the host refuses that, one by one, so that one cell does not hold up the others. */
async function writeAgain(
  context: Excel.RequestContext,
  broken: readonly BrokenCell[],
): Promise<readonly BrokenCell[]> {
  const write = ({ range, formula }: BrokenCell): void => {
    range.formulas = [[formula]];
    range.load("values");
  };
  try {
    broken.forEach(write);
    await context.sync();
    return broken;
  } catch {
    const written: BrokenCell[] = [];
    for (const cell of broken) {
      try {
        write(cell);
        await context.sync();
        written.push(cell);
      } catch {
        continue;
      }
    }
    return written;
  }
}

async function brokenCells(context: Excel.RequestContext, sheet: Excel.Worksheet): Promise<readonly BrokenCell[]> {
  const used = sheet.getUsedRangeOrNullObject(false);
  used.load(AREA);
  await context.sync();
  if (used.isNullObject) return [];
  const area = areaOf(used);
  const found: BrokenCell[] = [];
  let rowsARound = Math.max(1, Math.floor(CELLS_A_ROUND / area.columns));
  for (let done = 0; done < area.rows;) {
    const rows = Math.min(rowsARound, area.rows - done);
    const range = sheet.getRangeByIndexes(area.row + done, area.column, rows, area.columns);
    range.load(["formulas", "values"]);
    try {
      await context.sync();
    } catch (cause) {
      if (!isTooMuch(cause) || rowsARound === 1) throw cause;
      rowsARound = Math.ceil(rowsARound / 2);
      continue;
    }
    range.formulas.forEach((row, rowAt) =>
      row.forEach((formula, columnAt) => {
        const better = typeof formula === "string" ? repairedFormula(formula, range.values[rowAt]?.[columnAt]) : null;
        if (better === null) return;
        const cell = sheet.getRangeByIndexes(area.row + done + rowAt, area.column + columnAt, 1, 1);
        found.push({ range: cell, formula: better });
      }),
    );
    done += rows;
  }
  return onlyOwnFormulas(context, found);
}

/** A cell into which another one spills shows that one's formula, and must not be given it. */
async function onlyOwnFormulas(
  context: Excel.RequestContext,
  cells: readonly BrokenCell[],
): Promise<readonly BrokenCell[]> {
  if (cells.length === 0) return cells;
  const parents = cells.map(({ range }) => range.getSpillParentOrNullObject());
  parents.forEach((parent) => parent.load("address"));
  cells.forEach(({ range }) => range.load("address"));
  await context.sync();
  return cells.filter(({ range }, at) => {
    const parent = parents[at];
    return parent === undefined || parent.isNullObject || parent.address === range.address;
  });
}
