/** The Use my sheet part's errands in the try-out page. */
import "@univerjs/sheets/facade";
import "@univerjs/sheets-table/facade";
import { CellValueType, type ICellData, type Injector, type Nullable, type Worksheet } from "@univerjs/core";
import type { FUniver } from "@univerjs/core/facade";
import { FormulaDataModel } from "@univerjs/engine-formula";

import { type HostCells, readSelectedLog, type SheetArea, type SheetSource } from "../../taskpane/host/log-reading";
import type { OwnSheetHost, ReadLog, ReadProgress, Repairs } from "../../taskpane/host/own-sheet-host";
import { texts } from "../../taskpane/words/texts";
import { repairedFormula } from "../../workbook/plan/broken-calls";
import type { GridCell } from "../engine/messages";

interface Parts {
  readonly api: FUniver;
  readonly injector: Injector;
  /** Brings a cell into sight and selects it. */
  readonly show: (cell: GridCell) => void;
}

export function gridOwnSheet({ api, injector, show }: Parts): OwnSheetHost {
  return {
    readLog: (progress) => readLog(api, injector, progress),
    goToCell: (sheetName, { row, column }) =>
      Promise.resolve().then(() => {
        const sheet = openWorkbook(api).getSheetByName(sheetName);
        if (!sheet) throw new Error(texts.sheetGone(sheetName));
        show({ sheetId: sheet.getSheetId(), row: row - 1, column: column - 1 });
      }),
    repairFormulas: () => repairFormulas(api),
  };
}

type Workbook = NonNullable<ReturnType<FUniver["getActiveWorkbook"]>>;
type Sheet = ReturnType<Workbook["getActiveSheet"]>;

function openWorkbook(api: FUniver): Workbook {
  const workbook = api.getActiveWorkbook();
  if (workbook === null) throw new Error("There is no open workbook.");
  return workbook;
}

/* ---- reading the log ---- */

async function readLog(api: FUniver, injector: Injector, progress: ReadProgress | undefined): Promise<ReadLog> {
  const workbook = openWorkbook(api);
  const sheet = workbook.getActiveSheet();
  // The grid's formulas take the mark for the end of the sheet's name, between quotation marks too.
  if (sheet.getSheetName().includes("!")) throw new Error(texts.markInSheetName(sheet.getSheetName()));
  const selection = sheet.getSelection()?.getActiveRange();
  if (!selection) throw new Error(texts.nothingToRead);
  const selected = areaOfRange(selection.getRange());
  const reader = new SheetReader(workbook, sheet, injector);
  const table = sheet
    .getSubTableInfos()
    .find(({ range, showHeader }) => showHeader && meets(selected, areaOfRange(range)));
  const source: SheetSource = {
    sheet: sheet.getSheetName(),
    selected,
    used: reader.used(),
    table: table ? { name: table.name, area: areaOfRange(table.range) } : null,
    isTooMuch: () => false,
    cells: async (area, asShown) => {
      // A breath for the page between two rounds.
      await new Promise((resolve) => setTimeout(resolve));
      return reader.cells(area, asShown);
    },
  };
  return readSelectedLog(source, progress);
}

function areaOfRange(range: {
  readonly startRow: number;
  readonly startColumn: number;
  readonly endRow: number;
  readonly endColumn: number;
}): SheetArea {
  return {
    row: range.startRow,
    column: range.startColumn,
    rows: range.endRow - range.startRow + 1,
    columns: range.endColumn - range.startColumn + 1,
  };
}

function meets(one: SheetArea, other: SheetArea): boolean {
  return (
    one.row < other.row + other.rows &&
    other.row < one.row + one.rows &&
    one.column < other.column + other.columns &&
    other.column < one.column + one.columns
  );
}

class SheetReader {
  private readonly worksheet: Worksheet;
  private readonly spilled: Readonly<Record<number, Nullable<Readonly<Record<number, Nullable<ICellData>>>>>>;
  private readonly patterns = new Map<unknown, string>();

  constructor(
    private readonly workbook: Workbook,
    sheet: Sheet,
    injector: Injector,
  ) {
    this.worksheet = sheet.getSheet();
    const cells = injector.get(FormulaDataModel).getArrayFormulaCellData();
    this.spilled = cells[workbook.getId()]?.[sheet.getSheetId()] ?? {};
  }

  /** The cells that hold anything, from the first used row and column on. */
  used(): SheetArea | null {
    let [top, left, bottom, right] = [Infinity, Infinity, -1, -1];
    this.worksheet.getCellMatrix().forValue((row, column, cell) => {
      if (isEmpty(cell)) return;
      top = Math.min(top, row);
      left = Math.min(left, column);
      bottom = Math.max(bottom, row);
      right = Math.max(right, column);
    });
    return bottom < 0 ? null : { row: top, column: left, rows: bottom - top + 1, columns: right - left + 1 };
  }

  cells(area: SheetArea, asShown: boolean): HostCells {
    const block = <Value>(read: (row: number, column: number) => Value): Value[][] =>
      Array.from({ length: area.rows }, (_, row) =>
        Array.from({ length: area.columns }, (__, column) => read(area.row + row, area.column + column)),
      );
    return {
      values: block((row, column) => this.value(row, column)),
      numberFormats: block((row, column) => this.pattern(row, column)),
      texts: asShown ? block((row, column) => String(this.worksheet.getCell(row, column)?.v ?? "")) : null,
    };
  }

  private value(row: number, column: number): unknown {
    const cell = this.worksheet.getCellRaw(row, column);
    const held = isEmpty(cell) ? this.spilled[row]?.[column] : cell;
    if (!held) return null;
    // A text typed with a style inside it is kept as a small document.
    const value = held.v ?? held.p?.body?.dataStream?.replace(/\r\n$/, "");
    if (held.t === CellValueType.BOOLEAN) return value === true || value === 1 || value === "1";
    if (held.t === CellValueType.NUMBER && typeof value === "string") return Number(value);
    return value;
  }

  private pattern(row: number, column: number): string {
    const cell = this.worksheet.getCellRaw(row, column);
    const key = cell?.s;
    if (!cell || key === null || key === undefined) return GENERAL;
    const known = this.patterns.get(key);
    if (known !== undefined) return known;
    const pattern = this.workbook.getWorkbook().getStyles().getStyleByCell(cell)?.n?.pattern ?? GENERAL;
    this.patterns.set(key, pattern);
    return pattern;
  }
}

const GENERAL = "General";

function isEmpty(cell: Nullable<ICellData>): boolean {
  if (!cell) return true;
  return (cell.v === undefined || cell.v === null || cell.v === "") && !cell.p && !cell.f;
}

/* ---- repairing formulas ---- */

async function repairFormulas(api: FUniver): Promise<Repairs> {
  const workbook = openWorkbook(api);
  const written: { readonly sheet: Sheet; readonly row: number; readonly column: number }[] = [];
  for (const sheet of workbook.getSheets()) {
    const broken: { readonly row: number; readonly column: number; readonly formula: string }[] = [];
    sheet
      .getSheet()
      .getCellMatrix()
      .forValue((row, column, cell) => {
        const better = typeof cell?.f === "string" ? repairedFormula(cell.f, cell.v) : null;
        if (better !== null) broken.push({ row, column, formula: better });
      });
    for (const { row, column, formula } of broken) {
      sheet.getRange(row, column).setFormula(formula);
      written.push({ sheet, row, column });
    }
  }
  if (written.length > 0) await api.getFormula().onCalculationEnd();
  const unknown = written.filter(({ sheet, row, column }) => sheet.getSheet().getCellRaw(row, column)?.v === "#NAME?");
  return {
    repaired: written.length - unknown.length,
    stillUnknown: unknown.length,
    refused: 0,
    protectedSheets: [],
  };
}
