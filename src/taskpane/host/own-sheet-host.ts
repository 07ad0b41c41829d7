/** What the Use my sheet part asks of the workbook, beside what every part asks. */
import type { CellBlock } from "../../core/log-layout/cell-block";
import type { OwnTable } from "../../workbook/own-board/own-board";

/** A club's log as it was read. */
export interface ReadLog {
  readonly sheet: string;
  /** Null where the log is no table. */
  readonly table: OwnTable | null;
  /** Headings and rows; where the log is a table, without its row of sums. */
  readonly block: CellBlock;
}

/** What came of writing our formulas again. */
export interface Repairs {
  /** Cells whose formula was written again and works now. */
  readonly repaired: number;
  /** Cells whose formula was written again and is still not known: the functions are not loaded. */
  readonly stillUnknown: number;
  /** Cells whose formula the spreadsheet would not take, such as one of several in an old array. */
  readonly refused: number;
  /** Protected sheets, each with how many such cells it has: they were left as they are. */
  readonly protectedSheets: readonly { readonly sheet: string; readonly cells: number }[];
}

/** Told while a long sheet is read: how many rows of how many. */
export type ReadProgress = (rows: number, of: number) => void;

export interface OwnSheetHost {
  /**
   * Reads the log that is selected: the whole table where a cell of a table is selected; else the used rows of the
   * selected columns, or, where one cell is selected, of the columns around it. Changes nothing. Rejected with words for
   * the coach where nothing is there.
   */
  readLog(progress?: ReadProgress): Promise<ReadLog>;

  /** Shows and selects a cell; rows and columns count from 1. */
  goToCell(sheet: string, cell: { readonly row: number; readonly column: number }): Promise<void>;

  /** Writes every formula of ours again that the workbook does not know by its name. Other cells stay as they are. */
  repairFormulas(): Promise<Repairs>;
}
