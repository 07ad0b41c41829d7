/** Which cells of a sheet are read as the club's log, and how: the same in every host. */
import {
  columnsAround,
  MOST_COLUMNS,
  ROWS_TOLD_BY,
  selectedPart,
  type SheetArea,
} from "../../core/log-layout/block-around";
import { cellValue, type CellBlock, type CellValue } from "../../core/log-layout/cell-block";
import type { ReadLog, ReadProgress } from "./own-sheet-host";
import { texts } from "../words/texts";

export type { SheetArea } from "../../core/log-layout/block-around";

/** Cells as a host hands them over: empty ones as "" or null, errors as their texts. */
export interface HostCells {
  readonly values: readonly (readonly unknown[])[];
  readonly numberFormats: readonly (readonly string[])[];
  /** As the sheet shows them; only where they were asked for. */
  readonly texts: readonly (readonly string[])[] | null;
}

/** The active sheet, what is selected on it, and a way to its cells. Rows and columns count from 0. */
export interface SheetSource {
  readonly sheet: string;
  readonly selected: SheetArea;
  /** Null where the sheet is empty. */
  readonly used: SheetArea | null;
  /** The table in which something is selected: its headings and rows, without its row of sums. */
  readonly table: { readonly name: string; readonly area: SheetArea } | null;
  cells(area: SheetArea, asShown: boolean): Promise<HostCells>;
  /** Whether the host refused because too much was asked for at once. */
  isTooMuch(cause: unknown): boolean;
}

/** Cells a round: with their formats and some long notes well under the 5 MB that a host hands over at once. */
const CELLS_A_ROUND = 12_000;
/** Rows whose cells are read as they are shown too: enough to choose columns by. */
const ROWS_SHOWN = 200;

export async function readSelectedLog(source: SheetSource, progress?: ReadProgress): Promise<ReadLog> {
  const { sheet, table } = source;
  if (table) {
    const block = await readBlock(source, table.area, progress);
    const headings = new Map((block.values[0] ?? []).map((heading, at) => [block.column + at, wordsOf(heading)]));
    return { sheet, table: { name: table.name, headings }, block };
  }
  const area = await logArea(source);
  if (area === null) throw new Error(texts.nothingToRead);
  return { sheet, table: null, block: await readBlock(source, area, progress) };
}

/** The part of the used cells that is meant; null where there are none. */
async function logArea(source: SheetSource): Promise<SheetArea | null> {
  const { used, selected } = source;
  if (used === null) return null;
  const part = selectedPart(selected, used);
  if (part !== null) return part;
  const top = { ...used, rows: Math.min(used.rows, ROWS_TOLD_BY), columns: Math.min(used.columns, MOST_COLUMNS) };
  const around = columnsAround(await readBlock(source, top), selected.column + 1);
  return around === null ? null : { ...used, column: around.first - 1, columns: around.last - around.first + 1 };
}

/** The cells round by round: a long log is more than a host hands over at once, and the pane stays alive between. */
async function readBlock(source: SheetSource, area: SheetArea, progress?: ReadProgress): Promise<CellBlock> {
  const values: CellValue[][] = [];
  const numberFormats: (readonly string[])[] = [];
  const shown: (readonly string[])[] = [];
  let rowsARound = Math.max(1, Math.floor(CELLS_A_ROUND / area.columns));
  while (values.length < area.rows) {
    progress?.(values.length, area.rows);
    const asShown = values.length < ROWS_SHOWN;
    const rows = Math.min(asShown ? Math.min(rowsARound, ROWS_SHOWN) : rowsARound, area.rows - values.length);
    let cells: HostCells;
    try {
      cells = await source.cells({ ...area, row: area.row + values.length, rows }, asShown);
    } catch (cause) {
      if (!source.isTooMuch(cause) || rowsARound === 1) throw cause;
      rowsARound = Math.ceil(Math.min(rows, rowsARound) / 2);
      continue;
    }
    for (const row of cells.values) values.push(row.map(cellValue));
    numberFormats.push(...cells.numberFormats);
    shown.push(...(cells.texts ?? []));
  }
  return { row: area.row + 1, column: area.column + 1, values, numberFormats, texts: shown };
}

function wordsOf(value: CellValue): string {
  return typeof value === "object" ? "" : String(value);
}
