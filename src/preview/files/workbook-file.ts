/** The file behind the workbook in the grid: what it came from, and what it is saved into. */
import type { IWorkbookData } from "@univerjs/core";

import type { WorkbookPlan } from "../../workbook/schema";
import { writeWorkbookFile } from "../../workbook/writers/file";
import type { GridSheets } from "../grid-writer";
import { addSheetsFrom } from "./add-sheets";
import type { Answers } from "./answers";
import type { GridState } from "./grid-state";
import { type ReadingOptions, readWorkbook, type ReadWorkbook, toGridSheets, toGridWorkbook } from "./read-workbook";
import { type SavedWorkbook, saveWorkbook } from "./save-workbook";
import { findUnshown, type UnshownThings } from "./unshown";
import { WorkbookPackage } from "./workbook-package";

/** Sheets that the pane asks for, on their way into the workbook. */
export interface PreparedSheets {
  readonly grid: GridSheets;
  /** To be called when the grid has taken them: from then on they belong to the file. */
  keep(): void;
}

export class WorkbookFile {
  private constructor(
    /** As it was opened, and as it is saved. */
    readonly name: string,
    private contents: WorkbookPackage,
    private readonly options: ReadingOptions,
    private things: UnshownThings,
    /** What the formulas answered when it was opened; set when they are worked out for the first time. */
    public opening: Answers | undefined,
  ) {}

  /** @throws FileRefused where the bytes are no workbook that this page can open */
  static open(
    name: string,
    bytes: Uint8Array,
    options: ReadingOptions,
  ): { readonly file: WorkbookFile; readonly snapshot: IWorkbookData } {
    const contents = WorkbookPackage.open(bytes);
    const workbook = readWorkbook(contents, options);
    const file = new WorkbookFile(name, contents, options, findUnshown(contents, workbook), undefined);
    return { file, snapshot: toGridWorkbook(workbook, name) };
  }

  /** The same for a file that was opened before, and whose grid was kept since. */
  static resume(name: string, bytes: Uint8Array, options: ReadingOptions, opening: Answers | undefined): WorkbookFile {
    const contents = WorkbookPackage.open(bytes);
    return new WorkbookFile(name, contents, options, findUnshown(contents, readWorkbook(contents, options)), opening);
  }

  /** What the file holds that the page cannot show. */
  get unshown(): UnshownThings {
    return this.things;
  }

  /** The file as it was opened, with the sheets that the pane has put into it since, without what was typed. */
  get original(): Uint8Array {
    return this.contents.toFile();
  }

  /** Writes the plan into the file, and answers its sheets as they are read from there. */
  prepareSheets(plan: WorkbookPlan): PreparedSheets {
    const next = this.contents.copy();
    const before = readWorkbook(next, this.options);
    addSheetsFrom(next, WorkbookPackage.open(writeWorkbookFile(plan)));
    const after = readWorkbook(next, this.options);
    return {
      grid: addedSheets(before, after, plan),
      keep: () => {
        this.contents = next;
        this.things = findUnshown(next, after);
      },
    };
  }

  save(state: GridState): SavedWorkbook {
    return saveWorkbook(this.contents, this.options, state, this.opening);
  }
}

function addedSheets(before: ReadWorkbook, after: ReadWorkbook, plan: WorkbookPlan): GridSheets {
  const known = new Set(before.sheets.map(({ id }) => id));
  const grid = toGridSheets(after);
  const sheets = grid.sheets.filter(({ sheet }) => !known.has(sheet.id));
  const active = sheets.find(({ sheet }) => sheet.name === plan.active) ?? sheets[0];
  return { sheets, styles: grid.styles, activeId: active?.sheet.id ?? "" };
}
