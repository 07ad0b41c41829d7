/**
 * The one way in which the pane reaches the workbook. `office-host.ts` implements it in the spreadsheet program,
 * `src/grid/adapter/grid-host.ts` on the try-out page.
 */
import type { Block, CellAddress, Content, WorkbookPlan } from "../../workbook/plan/schema";
import type { ChangeListener } from "./calm-changes";
import type { OwnSheetHost } from "./own-sheet-host";

/** Told before each sheet is built: its name, which one it is (from 1) and of how many. */
type SheetProgress = (sheet: string, number: number, of: number) => void;

/** What a cell shows, as a plain value: an empty one is "", a date its sheet serial, an error its text. */
export type CellValue = string | number | boolean;

/** A table as it stands now. */
export interface TableContent {
  /** The sheet that it stands on. */
  readonly sheet: string;
  /** The cell of its first heading. */
  readonly at: CellAddress;
  readonly headings: readonly string[];
  readonly rows: readonly (readonly CellValue[])[];
}

/** Cells that are selected, all on one sheet. Whole columns have as many rows as a sheet can have. */
export interface SelectedCells {
  readonly sheet: string;
  readonly block: Block;
}

/** A cell that was to be filled holds something already. */
export class OccupiedCell extends Error {
  constructor(
    readonly address: string,
    message: string,
  ) {
    super(message);
    this.name = "OccupiedCell";
  }
}

export interface WorkbookHost extends OwnSheetHost {
  /** Names that a new sheet or table may not take, as the workbook spells them. */
  namesInUse(): Promise<{ readonly sheets: readonly string[]; readonly tables: readonly string[] }>;

  /**
   * Adds the plan's sheets and shows its active one. One unit: if anything fails, what was added is taken out again
   * and the promise is rejected with an error whose message says what happened, in words for the coach.
   * @param progress told as each sheet is begun; a host that builds all at once need not
   */
  addSheets(plan: WorkbookPlan, progress?: SheetProgress): Promise<void>;

  /**
   * Puts a formula, such as `=TWIRL.STREAK(A1:A10)`, into the selected cell. Answers the cell's address. A cell that
   * holds something is left alone: the promise is rejected, and the error's message says so.
   */
  insertFormula(formula: string): Promise<string>;

  /** The cells that are selected. Rejected, with words for the coach, where several blocks or no cells are. */
  selection(): Promise<SelectedCells>;

  /**
   * Puts a formula into a cell. Answers the cell's address.
   * @param replace whether what stands there may be overwritten: otherwise a cell that holds something is left alone,
   * and the promise is rejected with an `OccupiedCell`
   */
  putFormula(
    formula: string,
    into: { readonly sheet: string; readonly cell: CellAddress },
    replace: boolean,
  ): Promise<string>;

  /**
   * Tells this workbook from others, for what is kept on this computer: its place, or its name where it has none yet.
   * Another name means another workbook, not that this one was saved elsewhere.
   */
  workbookName(): string;

  /** The tables of these names, in the same order. Rejected where one is not there. */
  readTables(names: readonly string[]): Promise<readonly TableContent[]>;

  /** What the cells of a block hold, row by row. */
  readBlock(sheet: string, block: Block): Promise<readonly (readonly CellValue[])[]>;

  /**
   * Writes one row below the last filled row of a table, which grows where it has no room. Cells without content in
   * `cells` stay as the table fills them. Answers the row's address. One unit: rejected, it has written nothing that
   * counts as a row.
   * @param cells by heading; text is written as text, whatever it looks like
   */
  appendRow(table: string, cells: ReadonlyMap<string, Content>): Promise<string>;

  /**
   * Adds columns of words at the right end of a table; what is there stays where it is, and a heading that the table has
   * already is passed over. Rejected where cells beside the table are in the way.
   */
  addColumns(table: string, headings: readonly string[]): Promise<void>;

  /** The name of the sheet in sight. */
  sheetInView(): Promise<string>;

  /**
   * Has the listener told that the workbook has changed (cells, sheets, tables, the sheet in sight, another workbook in its
   * place), in a calm moment some time after; what it answers is waited for. A host that cannot tell never does. Answers the
   * way to be told no more.
   */
  whenChanged(listener: ChangeListener): () => void;

  /** Puts a number into the selected cell, as `insertFormula` does a formula. */
  insertValue(value: number): Promise<string>;

  /**
   * Prints the sheets, each from a new page of paper on. Only a host has it in which the pane may print: in a spreadsheet
   * program the coach does.
   */
  readonly printSheets?: (sheets: readonly string[]) => Promise<void>;
}
