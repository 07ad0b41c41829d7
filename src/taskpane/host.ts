/**
 * The one way in which the pane reaches the workbook. `office-host.ts` implements it in the spreadsheet program,
 * `src/preview/preview-host.ts` on the try-out page.
 */
import type { WorkbookPlan } from "../workbook/schema";

/** Told before each sheet is built: its name, which one it is (from 1) and of how many. */
export type SheetProgress = (sheet: string, number: number, of: number) => void;

export interface WorkbookHost {
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
}
