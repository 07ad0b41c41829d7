/** Open and Save on the page: which file is behind the grid, whether it has changes, and what happens to them. */
import type { IWorkbookData } from "@univerjs/core";

import type { WorkbookPlan } from "../../workbook/plan/schema";
import type { GridState } from "../../grid/calculation-state";
import type { Grid } from "../../grid/grid";
import { answersOf } from "../../grid/file/answers";
import { FileRefused } from "../../xlsx/package/file-refused";
import { formulasNow, gridState } from "../../grid/file/grid-state";
import type { ReadingOptions } from "../../grid/file/open";
import type { PreparedSheets, WorkbookFile } from "../../grid/file/workbook-file";
import { WorkbookFile as Files } from "../../grid/file/workbook-file";
import { onChange } from "./changes";
import { ask } from "./dialogs";
import { download } from "./download";
import { DraftKeeper, type DraftKeeperParts } from "./draft-keeper";
import type { KeptWorkbook } from "./drafts";
import { FileBar } from "./file-bar";
import { fileTexts, unshownWords } from "./file-texts";
import { holdPlaces } from "./fixed-places";
import { rememberWorkbookName } from "./kept-workbook";
import { type AsWorkbook, asWorkbook } from "./other-formats/as-workbook";

interface PageFilesParts {
  readonly grid: Grid;
  readonly file: WorkbookFile;
  readonly options: ReadingOptions;
  /** The draft that the page has opened with; undefined where it opened with the sample. */
  readonly own?: { readonly id: string; readonly isChanged: boolean };
  /** The sample season's file. */
  readonly sample: { readonly name: string; readonly bytes: () => Promise<Uint8Array> };
}

const WORKBOOK_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

export class PageFiles {
  private file: WorkbookFile;
  private isChanged: boolean;
  private state: GridState = "calculating";
  private waiting: (() => void)[] = [];
  /** Files, one after the other: a second one is not begun before the first is done. */
  private queue: Promise<void> = Promise.resolve();
  /** What was named before a saving: it is not named twice. */
  private readonly told = new Set<string>();
  private readonly bar: FileBar;
  private readonly keeper: DraftKeeper;

  constructor(private readonly parts: PageFilesParts) {
    this.file = parts.file;
    this.isChanged = parts.own?.isChanged ?? false;
    const { api } = parts.grid;
    this.bar = new FileBar({
      open: (chosen) => this.enqueue(() => this.openFile(chosen)),
      save: () => this.enqueue(() => this.save()),
      saveAnswers: () => this.enqueue(() => this.saveAnswers()),
      openSample: () => this.enqueue(() => this.openSample()),
    });
    const keeping: DraftKeeperParts = {
      current: () => ({ name: this.file.name, snapshot: this.snapshot(), opening: this.file.opening }),
      original: () => ({ version: this.file.version, bytes: () => this.file.original }),
      calm: () => this.calm(),
      offer: (drafts) =>
        this.bar.offer(drafts, {
          bringBack: (id) => this.enqueue(() => this.bringBack(id)),
          discard: (id) => void this.keeper.remove(id),
        }),
      unable: () => this.bar.warn(fileTexts.notKept),
    };
    this.keeper = new DraftKeeper(keeping, parts.own?.id);
    onChange(api, () => this.changed());
    holdPlaces(
      api,
      (sheetId) => this.file.fixedOn(sheetId),
      (kind, sheet, what) =>
        this.bar.warn(kind === "places" ? fileTexts.fixedPlaces(sheet, what) : fileTexts.fixedSheet(sheet, what)),
    );
    window.addEventListener("beforeunload", (event) => {
      if (!this.isChanged) return;
      void this.keeper.keepNow();
      event.preventDefault();
    });
    this.show();
  }

  /** To be told of every state of the grid. */
  stateIs(state: GridState): void {
    this.state = state;
    if (state !== "ready") return;
    // What the formulas answer at first is what later answers are compared with.
    this.file.opening ??= answersOf(formulasNow(this.parts.grid.api, this.parts.grid.injector));
    for (const done of this.waiting.splice(0)) done();
  }

  /** Resolves when everything is worked out and shown. */
  calm(): Promise<void> {
    return this.ready().then(idle);
  }

  /** Says something where the page says what becomes of files. */
  tell(words: string): void {
    this.bar.warn(words);
  }

  prepareSheets(plan: WorkbookPlan): PreparedSheets {
    return this.file.prepareSheets(plan);
  }

  private changed(): void {
    if (!this.isChanged) {
      this.isChanged = true;
      this.show();
    }
    this.keeper.keepSoon();
  }

  /** The workbook is as the file has it, and kept so. */
  private unchanged(file: Uint8Array): void {
    this.isChanged = false;
    this.show();
    void this.keeper.keepFile(this.file.name, file);
  }

  private show(): void {
    this.bar.show(this.file.name, this.isChanged);
    rememberWorkbookName(this.file.name);
  }

  private enqueue(work: () => Promise<void>): void {
    this.queue = this.queue.then(work).catch((cause: unknown) => {
      this.bar.warn(fileTexts.unexpected(cause instanceof Error ? cause.message : String(cause)));
    });
  }

  private ready(): Promise<void> {
    return this.state === "ready" ? Promise.resolve() : new Promise((resolve) => this.waiting.push(resolve));
  }

  private snapshot(): IWorkbookData {
    const workbook = this.parts.grid.api.getActiveWorkbook();
    if (workbook === null) throw new Error("There is no open workbook.");
    const snapshot = workbook.save();
    // Opened again, it shows the sheet that was in sight.
    return { ...snapshot, custom: { ...snapshot.custom, activeSheet: workbook.getActiveSheet().getSheetId() } };
  }

  /* ---- open ---- */

  private async openFile(chosen: File): Promise<void> {
    if (await this.mayReplace(chosen.name)) await this.openBytes(chosen.name, () => readFile(chosen));
  }

  private async openSample(): Promise<void> {
    const { name, bytes } = this.parts.sample;
    if (await this.mayReplace(fileTexts.sampleSeason)) await this.openBytes(name, bytes);
  }

  private async openBytes(name: string, read: () => Promise<Uint8Array>): Promise<void> {
    this.bar.tell(fileTexts.opening(name));
    await painted();
    let opened: ReturnType<typeof Files.open>;
    let bytes = await read();
    let other: AsWorkbook | null;
    try {
      other = asWorkbook(name, bytes);
      bytes = other?.bytes ?? bytes;
      opened = Files.open(other?.name ?? name, bytes, this.parts.options);
    } catch (cause) {
      if (!(cause instanceof FileRefused)) throw cause;
      this.bar.warn(fileTexts.refused(name, cause.message));
      return;
    }
    await this.replace(opened.file, opened.snapshot);
    this.keeper.begin();
    this.unchanged(bytes);
    if (other === null) this.bar.tell(fileTexts.opened(name));
    else this.bar.warn(fileTexts.openedAsWorkbook(name, other.name, other.formulas));
  }

  /** Whether the open workbook may go: its changes are saved, or given up. */
  private async mayReplace(name: string): Promise<boolean> {
    if (!this.isChanged) return true;
    const answer = await ask({
      title: fileTexts.replaceTitle,
      words: [fileTexts.replace(name)],
      choices: [
        { label: fileTexts.saveFirst, value: "save" },
        { label: fileTexts.dropChanges, value: "drop" },
        { label: fileTexts.cancel, value: "cancel" },
      ] as const,
    });
    if (answer === "save") await this.save();
    return answer === "drop" || (answer === "save" && !this.isChanged);
  }

  private async replace(file: WorkbookFile, snapshot: IWorkbookData): Promise<void> {
    this.file = file;
    this.told.clear();
    this.state = "calculating";
    await this.parts.grid.replace(snapshot);
    await this.ready();
  }

  private async bringBack(id: string): Promise<void> {
    const kept = await this.keeper.load(id);
    if (kept === undefined || !(await this.mayReplace(kept.draft.name))) return;
    const { name } = kept.draft;
    if (!(await this.keeper.claim(id))) {
      this.bar.warn(fileTexts.openElsewhere(name));
      return;
    }
    this.bar.tell(fileTexts.opening(name));
    await painted();
    const { file, snapshot } = openKept(kept, this.parts.options);
    await this.replace(file, snapshot);
    this.keeper.begin();
    this.changed();
    await this.keeper.keepNow();
    await this.keeper.remove(id);
    this.bar.tell(fileTexts.broughtBack(name));
  }

  /* ---- save ---- */

  private async save(): Promise<void> {
    const bytes = await this.written(IN_FILE, (state) => this.file.save(state));
    if (bytes === undefined) return;
    download(this.file.name, bytes, WORKBOOK_TYPE);
    this.unchanged(bytes);
    this.bar.tell(fileTexts.saved(this.file.name));
  }

  /** A copy to pass on: the open workbook stays what it is, saved or not. */
  private async saveAnswers(): Promise<void> {
    const bytes = await this.written(IN_COPY, (state) => this.file.saveAnswers(state));
    if (bytes === undefined) return;
    const copy = fileTexts.answersName(this.file.name);
    download(copy, bytes, WORKBOOK_TYPE);
    this.bar.tell(fileTexts.savedCopy(copy, this.file.name));
  }

  /** The bytes of a file with all that was typed and worked out; undefined where it was given up, or is not possible. */
  private async written(words: SavingWords, write: WorkbookFile["save"]): Promise<Uint8Array | undefined> {
    const { api, injector } = this.parts.grid;
    this.bar.tell(fileTexts.saving);
    await painted();
    // What stands half typed in a cell belongs to it.
    await api.getActiveWorkbook()?.endEditingAsync(true);
    await settling();
    await this.ready();
    try {
      const saved = write(gridState(api, injector));
      if (await this.tellBefore(words, saved.losses)) return saved.package.toFile();
      this.bar.tell("");
    } catch (cause) {
      this.bar.warn(fileTexts.failedToSave(cause instanceof Error ? cause.message : String(cause)));
    }
    return undefined;
  }

  /** Names what the file holds beyond what is shown, and what of the grid does not fit into it. */
  private async tellBefore({ title, holdsToo, lost }: SavingWords, losses: readonly string[]): Promise<boolean> {
    const things = this.file.unshown.things.map(unshownWords);
    const words = [...(things.length === 0 ? [] : [holdsToo, things]), ...(losses.length === 0 ? [] : [lost, losses])];
    const key = JSON.stringify(words);
    if (words.length === 0 || this.told.has(key)) return true;
    const answer = await ask({
      title,
      words,
      choices: [
        { label: fileTexts.saveAnyway, value: true },
        { label: fileTexts.cancel, value: false },
      ],
    });
    if (answer !== true) return false;
    this.told.add(key);
    return true;
  }
}

/** What is said before a file is written that holds more than the page shows, or less. */
interface SavingWords {
  readonly title: string;
  readonly holdsToo: string;
  readonly lost: string;
}

const IN_FILE: SavingWords = {
  title: fileTexts.beforeSave,
  holdsToo: fileTexts.holdsToo,
  lost: fileTexts.notSaved,
};

const IN_COPY: SavingWords = {
  title: fileTexts.beforeCopy,
  holdsToo: fileTexts.copyHoldsToo,
  lost: fileTexts.notInCopy,
};

/** A kept workbook, as it was left. */
export function openKept({ draft, file }: KeptWorkbook, options: ReadingOptions): ReturnType<typeof Files.open> {
  const { name, snapshot, opening } = draft;
  if (snapshot === undefined) return Files.open(name, file, options);
  const resumed = Files.resume(name, file, options, opening);
  return { file: resumed.file, snapshot: { ...snapshot, custom: { ...snapshot.custom, charts: resumed.charts } } };
}

async function readFile(file: File): Promise<Uint8Array> {
  return new Uint8Array(await file.arrayBuffer());
}

/** After the next frame: what was said just now is in sight before the work begins. */
function painted(): Promise<void> {
  return new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
}

/** The grid gathers edits for a moment before it works them out. */
function settling(): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, SETTLING_MILLISECONDS));
}

const SETTLING_MILLISECONDS = 50;

/** Resolves when the page has shown what there is to show, or soon at the latest. */
function idle(): Promise<void> {
  return new Promise((resolve) => {
    // One browser engine has no such call.
    if ("requestIdleCallback" in window) requestIdleCallback(() => resolve(), { timeout: 2000 });
    else setTimeout(resolve, 300);
  });
}
