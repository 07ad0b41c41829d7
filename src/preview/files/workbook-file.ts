/** The file behind the workbook in the grid: what it came from, and what it is saved into. */
import type { IWorkbookData } from "@univerjs/core";

import type { ChartPlan, WorkbookPlan } from "../../workbook/schema";
import { writeWorkbookFile } from "../../workbook/writers/file";
import type { GridSheets } from "../grid-writer";
import { addSheetsFrom } from "./add-sheets";
import type { Answers } from "./answers";
import type { GridState } from "./grid-state";
import {
  type ReadingOptions,
  readWorkbook,
  type ReadWorkbook,
  sheetIdOf,
  toGridSheets,
  toGridWorkbook,
} from "./read-workbook";
import { type SavedWorkbook, saveWorkbook } from "./save-workbook";
import { findUnshown, type UnshownThings } from "./unshown";
import { readWorkbookPart } from "./workbook-part";
import { WorkbookPackage } from "./workbook-package";

/** Sheets that the pane asks for, on their way into the workbook. */
export interface PreparedSheets {
  readonly grid: GridSheets;
  /** To be called when the grid has taken them: from then on they belong to the file. */
  keep(): void;
}

export class WorkbookFile {
  private count: string = crypto.randomUUID();

  private constructor(
    /** As it was opened, and as it is saved. */
    readonly name: string,
    private contents: WorkbookPackage,
    private readonly options: ReadingOptions,
    private things: UnshownThings,
    /** By the grid's ids of the sheets. */
    private fixed: ReadonlyMap<string, string>,
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
    const things = findUnshown(contents, workbook);
    const file = new WorkbookFile(name, contents, options, things, fixedSheets(things, workbook), undefined);
    return { file, snapshot: toGridWorkbook(workbook, name) };
  }

  /** The same for a file that was opened before, and whose grid was kept since; with the charts of its sheets. */
  static resume(
    name: string,
    bytes: Uint8Array,
    options: ReadingOptions,
    opening: Answers | undefined,
  ): { readonly file: WorkbookFile; readonly charts: Readonly<Record<string, readonly ChartPlan[]>> } {
    const contents = WorkbookPackage.open(bytes);
    const workbook = readWorkbook(contents, options);
    const things = findUnshown(contents, workbook);
    const file = new WorkbookFile(name, contents, options, things, fixedSheets(things, workbook), opening);
    const charts = Object.fromEntries(workbook.sheets.map((sheet) => [sheet.id, sheet.charts.charts]));
    return { file, charts };
  }

  /** What the file holds that the page cannot show. */
  get unshown(): UnshownThings {
    return this.things;
  }

  /** What keeps the rows, columns and the name of a sheet as they are, by the grid's id of the sheet. */
  fixedOn(sheetId: string): string | undefined {
    return this.fixed.get(sheetId);
  }

  /** Another one whenever `original` is another. */
  get version(): string {
    return this.count;
  }

  /** The file as it was opened, with the sheets that the pane has put into it since, without what was typed. */
  get original(): Uint8Array {
    return this.contents.toFile();
  }

  /** Writes the plan into the file, and answers its sheets as they are read from there. */
  prepareSheets(plan: WorkbookPlan): PreparedSheets {
    const next = this.contents.copy();
    const known = new Set(readWorkbookPart(next).sheets.map(sheetIdOf));
    addSheetsFrom(next, WorkbookPackage.open(writeWorkbookFile(plan)));
    const after = readWorkbook(next, this.options);
    return {
      grid: addedSheets(known, after, plan),
      keep: () => {
        this.contents = next;
        this.count = crypto.randomUUID();
        this.things = findUnshown(next, after);
        this.fixed = fixedSheets(this.things, after);
      },
    };
  }

  save(state: GridState): SavedWorkbook {
    return saveWorkbook(this.contents, this.options, state, this.opening);
  }
}

function fixedSheets({ fixed }: UnshownThings, { sheets }: ReadWorkbook): ReadonlyMap<string, string> {
  return new Map(
    sheets.flatMap(({ id, entry }) => {
      const what = fixed.get(entry.name);
      return what === undefined ? [] : [[id, what] as const];
    }),
  );
}

function addedSheets(known: ReadonlySet<string>, after: ReadWorkbook, plan: WorkbookPlan): GridSheets {
  const grid = toGridSheets(after);
  const sheets = grid.sheets.filter(({ sheet }) => !known.has(sheet.id));
  const active = sheets.find(({ sheet }) => sheet.name === plan.active) ?? sheets[0];
  return { sheets, styles: grid.styles, activeId: active?.sheet.id ?? "" };
}
