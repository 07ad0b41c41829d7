/** The file behind the workbook in the grid: what it came from, and what it is saved into. */
import type { IWorkbookData } from "@univerjs/core";

import type { ChartPlan, WorkbookPlan } from "../../workbook/plan/schema";
import { writeWorkbookFile } from "../../xlsx/write-plan";
import type { GridSheets } from "../adapter/grid-writer";
import { addSheetsFrom } from "../../xlsx/add-sheets";
import { answersOnly } from "../../xlsx/answers-only";
import { type Answers, unknownAnswers } from "./answers";
import type { GridState } from "./grid-state";
import { type ReadingOptions, readWorkbook, type ReadWorkbook, sheetIdOf, toGridSheets, toGridWorkbook } from "./open";
import { type SavedWorkbook, saveWorkbook } from "./save";
import { findUnshown, type UnshownThings } from "./unshown";
import { readWorkbookPart } from "../../xlsx/parts/workbook/read";
import { WorkbookPackage } from "../../xlsx/package/workbook-package";

/** Sheets that the pane asks for, on their way into the workbook. */
export interface PreparedSheets {
  readonly grid: GridSheets;
  /** To be called when the grid has taken them: from then on they belong to the file. */
  keep(): void;
}

export class WorkbookFile {
  private count: string = crypto.randomUUID();

  private constructor(
    private calledNow: string,
    private contents: WorkbookPackage,
    private readonly options: ReadingOptions,
    /** What the page cannot show in it; looked for again when that is asked and the file has become another. */
    private found: FoundThings | undefined,
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
    const file = new WorkbookFile(name, contents, options, findThings(contents, workbook), undefined);
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
    const file = new WorkbookFile(name, contents, options, findThings(contents, workbook), opening);
    const charts = Object.fromEntries(workbook.sheets.map((sheet) => [sheet.id, sheet.charts.charts]));
    return { file, charts };
  }

  /** As it was opened, and as it is saved. */
  get name(): string {
    return this.calledNow;
  }

  /** It is saved under another name from now on. */
  rename(name: string): void {
    this.calledNow = name;
  }

  /** What the file holds that the page cannot show. */
  get unshown(): UnshownThings {
    return this.things.unshown;
  }

  /** What keeps the rows, columns and the name of a sheet as they are, by the grid's id of the sheet. */
  fixedOn(sheetId: string): string | undefined {
    return this.things.fixed.get(sheetId);
  }

  private get things(): FoundThings {
    return (this.found ??= findThings(this.contents, readWorkbook(this.contents, this.options)));
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
    // A log of years is not read once more for the sake of a new sheet beside it.
    const added = readWorkbook(next, this.options, (entry) => !known.has(sheetIdOf(entry)));
    return {
      grid: addedSheets(added, plan),
      keep: () => {
        this.contents = next;
        this.count = crypto.randomUUID();
        this.found = undefined;
      },
    };
  }

  save(state: GridState): SavedWorkbook {
    return saveWorkbook(this.contents, this.options, state, this.opening);
  }

  /**
   * A copy for programs that do not know our functions: every formula's answer in its place. The answers are all those
   * of the grid, since nobody works out anew what the file answered on an earlier day.
   */
  saveAnswers(state: GridState): SavedWorkbook {
    const saved = saveWorkbook(this.contents, this.options, state, unknownAnswers(state));
    const copy = answersOnly(saved.package);
    return { package: copy.package, losses: [...saved.losses, ...copy.losses] };
  }
}

interface FoundThings {
  readonly unshown: UnshownThings;
  /** By the grid's ids of the sheets. */
  readonly fixed: ReadonlyMap<string, string>;
}

function findThings(contents: WorkbookPackage, workbook: ReadWorkbook): FoundThings {
  const unshown = findUnshown(contents, workbook);
  return { unshown, fixed: fixedSheets(unshown, workbook) };
}

function fixedSheets({ fixed }: UnshownThings, { sheets }: ReadWorkbook): ReadonlyMap<string, string> {
  return new Map(
    sheets.flatMap(({ id, entry }) => {
      const what = fixed.get(entry.name);
      return what === undefined ? [] : [[id, what] as const];
    }),
  );
}

function addedSheets(added: ReadWorkbook, plan: WorkbookPlan): GridSheets {
  const { sheets, styles } = toGridSheets(added);
  const active = sheets.find(({ sheet }) => sheet.name === plan.active) ?? sheets[0];
  return { sheets, styles, activeId: active?.sheet.id ?? "" };
}
