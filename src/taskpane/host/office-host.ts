/** The workbook through Office.js: what the pane asks for, done in the spreadsheet program. */
import { WriteFailure, writeWithOffice } from "../../workbook/office/office-writer";
import { CalmChanges, type ChangeListener } from "./calm-changes";
import { OccupiedCell, type WorkbookHost } from "./host";
import { addColumns, appendRow, readBlock, readTables } from "./office-tables";
import { goToCellWithOffice, readLogWithOffice, repairWithOffice } from "./office-own-sheet";
import { texts } from "../words/texts";

export const officeHost: WorkbookHost = {
  namesInUse: () =>
    inWords(() =>
      Excel.run(async (context) => {
        const { worksheets, tables, names } = context.workbook;
        worksheets.load("items/name");
        tables.load("items/name");
        // A table may not take a defined name either.
        names.load("items/name");
        await context.sync();
        return {
          sheets: worksheets.items.map(({ name }) => name),
          tables: [...tables.items, ...names.items].map(({ name }) => name),
        };
      }),
    ),

  addSheets: (plan, progress) =>
    inWords(async () => {
      await Excel.run((context) => writeWithOffice(context, plan, progress));
      await loadWithThisWorkbook();
    }),

  insertFormula: (formula) => insertInto((cell) => (cell.formulas = [[formula]])),
  insertValue: (value) => insertInto((cell) => (cell.values = [[value]])),

  selection: () =>
    inWords(() =>
      Excel.run(async (context) => {
        const selected = context.workbook.getSelectedRange();
        selected.load(["rowIndex", "columnIndex", "rowCount", "columnCount"]);
        selected.worksheet.load("name");
        await context.sync();
        const { rowIndex, columnIndex, rowCount, columnCount } = selected;
        return {
          sheet: selected.worksheet.name,
          block: { row: rowIndex + 1, column: columnIndex + 1, rows: rowCount, columns: columnCount },
        };
      }),
    ),

  putFormula: (formula, { sheet, cell: { row, column } }, replace) =>
    fill(
      (context) => context.workbook.worksheets.getItem(sheet).getRangeByIndexes(row - 1, column - 1, 1, 1),
      (cell) => (cell.formulas = [[formula]]),
      replace,
    ),

  sheetInView: () =>
    inWords(() =>
      Excel.run(async (context) => {
        const sheet = context.workbook.worksheets.getActiveWorksheet();
        sheet.load("name");
        await context.sync();
        return sheet.name;
      }),
    ),
  whenChanged,

  workbookName,
  readTables: (names) => inWords(() => Excel.run((context) => readTables(context, names))),
  readBlock: (sheet, block) => inWords(() => Excel.run((context) => readBlock(context, sheet, block))),
  appendRow: (table, cells) => inWords(() => Excel.run((context) => appendRow(context, table, cells))),
  addColumns: (table, headings) => inWords(() => Excel.run((context) => addColumns(context, table, headings))),

  readLog: (progress) => inWords(() => Excel.run((context) => readLogWithOffice(context, progress))),
  goToCell: (sheet, cell) => inWords(() => Excel.run((context) => goToCellWithOffice(context, sheet, cell))),
  repairFormulas: () => inWords(() => Excel.run(repairWithOffice)),
};

let changes: CalmChanges | undefined;

/** Asked of the host once, for as long as the pane lives. Where it refuses, the pane looks when it is opened and entered. */
function whenChanged(listener: ChangeListener): () => void {
  if (changes === undefined) {
    const heard = (changes = new CalmChanges());
    const changed = (): Promise<void> => Promise.resolve(heard.changed());
    Excel.run(async (context) => {
      const { worksheets } = context.workbook;
      worksheets.onChanged.add(changed);
      worksheets.onActivated.add(changed);
      worksheets.onAdded.add(changed);
      worksheets.onDeleted.add(changed);
      await context.sync();
    }).catch(() => undefined);
  }
  return changes.add(listener);
}

let firstName: string | undefined;

/** The pane lives as long as its workbook is open: saved under another name, the workbook is still the same. */
function workbookName(): string {
  firstName ??= Office.context.document.url || texts.newWorkbook;
  return firstName;
}

/** Has the selected cell filled, where it is empty, and answers its address. */
function insertInto(write: (cell: Excel.Range) => void): Promise<string> {
  return fill((context) => context.workbook.getActiveCell(), write, false);
}

/** Has a cell filled, where it is empty or may be replaced, and answers its address. */
function fill(
  find: (context: Excel.RequestContext) => Excel.Range,
  write: (cell: Excel.Range) => void,
  replace: boolean,
): Promise<string> {
  return inWords(() =>
    Excel.run(async (context) => {
      const cell = find(context);
      cell.load(["address", "formulas", "values"]);
      await context.sync();
      // Both: a cell that another formula spills into has a value and no formula of its own.
      if (!replace && (cell.formulas[0]?.[0] !== "" || cell.values[0]?.[0] !== "")) {
        throw new OccupiedCell(cell.address, texts.cellNotEmpty(cell.address));
      }
      write(cell);
      await context.sync();
      return cell.address;
    }),
  );
}

/**
 * Keeps in the workbook that the add-in starts with it: its functions then answer as soon as it is opened again.
 * Where the host cannot, they answer once the pane was opened, so a refusal is no failure of the season.
 */
async function loadWithThisWorkbook(): Promise<void> {
  try {
    await Office.addin.setStartupBehavior(Office.StartupBehavior.load);
  } catch {
    return;
  }
}

/** Turns the host's errors into words for the coach. */
async function inWords<Answer>(work: () => Promise<Answer>): Promise<Answer> {
  try {
    return await work();
  } catch (cause) {
    // It is asked about, and so has to stay what it is.
    if (cause instanceof OccupiedCell) throw cause;
    throw new Error(wordsFor(cause), { cause });
  }
}

/** What an error of the host means for the coach. */
export function wordsFor(cause: unknown): string {
  if (cause instanceof WriteFailure) {
    const why = cause.cause === undefined ? "" : ` ${wordsFor(cause.cause)}`;
    return `${cause.message}${why}`;
  }
  const { code, message } = (cause ?? {}) as { readonly code?: unknown; readonly message?: unknown };
  switch (code) {
    case undefined:
      return typeof message === "string" && message !== "" ? message : texts.unknownCause;
    case "InvalidOperationInCellEditMode":
      return texts.hostBusy;
    case "AccessDenied":
      return texts.hostProtected;
    case "InvalidSelection":
    case "InvalidReference":
      return texts.selectionNotOne;
    case "ItemNotFound":
      return texts.hostMissing;
    default:
      return texts.hostRefused(typeof message === "string" ? message : String(code));
  }
}
