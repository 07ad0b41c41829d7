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
import type { Draft, KeptWorkbook } from "./drafts";
import {
  canChoosePlace,
  choosePlace,
  endingOf,
  isFileHandle,
  isNamed,
  mayReadUnasked,
  mayUse,
  needsPress,
} from "./file-access";
import { type ChosenFile, FileBar } from "./file-bar";
import { fileTexts, momentWords, unshownWords } from "./file-texts";
import { holdPlaces } from "./fixed-places";
import { rememberWorkbookName } from "./kept-workbook";
import { changedByOthers, type Place, readPlace, writePlace } from "./place";
import { troubleWords } from "./place-trouble";
import { type RecentFile, RecentFiles } from "./recent-files";
import { RecentMenu } from "./recent-menu";
import { SameFile } from "./same-file";
import { type AsWorkbook, asWorkbook } from "./other-formats/as-workbook";

interface PageFilesParts {
  readonly grid: Grid;
  readonly file: WorkbookFile;
  readonly options: ReadingOptions;
  /** The draft that the page has opened with; undefined where it opened with the sample. */
  readonly own?: { readonly id: string; readonly isChanged: boolean; readonly place?: Place };
  /** The sample season's file. */
  readonly sample: { readonly name: string; readonly bytes: () => Promise<Uint8Array> };
}

const WORKBOOK_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

export class PageFiles {
  private file: WorkbookFile;
  /** The file that Save writes into; undefined where the workbook belongs to none. */
  private place: Place | undefined;
  /** What was last looked at for changes by others. */
  private lookedAt: Place | undefined;
  private isChanged: boolean;
  /** Counts the changes, to know of those that came during a saving. */
  private changes = 0;
  private isLeaving = false;
  private state: GridState = "calculating";
  private waiting: (() => void)[] = [];
  /** Files, one after the other: a second one is not begun before the first is done. */
  private queue: Promise<void> = Promise.resolve();
  /** What was named before a saving: it is not named twice. */
  private readonly told = new Set<string>();
  private readonly bar: FileBar;
  private readonly keeper: DraftKeeper;
  private readonly recent = new RecentFiles();
  private readonly menu: RecentMenu | undefined;
  private readonly sameFile: SameFile | undefined;

  constructor(private readonly parts: PageFilesParts) {
    this.file = parts.file;
    this.place = parts.own?.place;
    this.isChanged = parts.own?.isChanged ?? false;
    const { api } = parts.grid;
    this.bar = new FileBar({
      open: (chosen) => this.enqueue(() => this.openFile(chosen)),
      save: () => this.enqueue(() => this.save()),
      saveAs: () => this.enqueue(() => this.saveAs()),
      saveAnswers: () => this.enqueue(() => this.saveAnswers()),
      openSample: () => this.enqueue(() => this.openSample()),
    });
    const keeping: DraftKeeperParts = {
      current: () => ({ ...this.named(), snapshot: this.snapshot(), opening: this.file.opening }),
      original: () => ({ version: this.file.version, bytes: () => this.file.original }),
      calm: () => this.calm(),
      offer: (drafts) =>
        this.bar.offer(drafts, {
          bringBack: (id) => this.enqueue(() => this.bringBack(id)),
          discard: (id) => void this.keeper.remove(id),
        }),
      unable: (isUnable) => this.bar.notKept(isUnable),
    };
    this.keeper = new DraftKeeper(keeping, parts.own?.id);
    if (canChoosePlace()) {
      this.sameFile = new SameFile((isShared) => this.bar.sameFile(this.file.name, isShared));
      this.menu = new RecentMenu(this.recent, {
        open: (file) => this.enqueue(() => this.openRecent(file)),
        tell: (words) => this.bar.tell(words),
      });
      window.launchQueue?.setConsumer(({ files }) => this.launched(files ?? []));
    }
    onChange(api, () => this.changed());
    holdPlaces(
      api,
      (sheetId) => this.file.fixedOn(sheetId),
      (kind, sheet, what) =>
        this.bar.warn(kind === "places" ? fileTexts.fixedPlaces(sheet, what) : fileTexts.fixedSheet(sheet, what)),
    );
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "visible") void this.lookAtPlace();
    });
    window.addEventListener("beforeunload", (event) => {
      const isTyping = api.getActiveWorkbook()?.isCellEditing() === true;
      if (!this.isChanged && !isTyping) return;
      event.preventDefault();
      // What stands half typed in a cell goes along, into the cell: kept in the moment it is there, there may be no other.
      this.isLeaving = true;
      if (!isTyping) void this.keeper.keepNow();
      void this.endTyping().then(() => (this.isLeaving = false));
    });
    this.show();
    void this.lookAtPlace();
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
    this.changes += 1;
    if (!this.isChanged) {
      this.isChanged = true;
      this.show();
    }
    if (this.isLeaving) void this.keeper.keepNow();
    else this.keeper.keepSoon();
  }

  /** The workbook is as the file has it, and kept so. */
  private unchanged(file: Uint8Array): void {
    this.isChanged = false;
    this.show();
    void this.keeper.keepFile(this.named(), file);
  }

  private named(): Pick<Draft, "name" | "place"> {
    return { name: this.file.name, ...(this.place === undefined ? {} : { place: this.place }) };
  }

  private show(): void {
    this.bar.show(this.file.name, this.isChanged, this.place !== undefined);
    if (this.place !== this.lookedAt) this.bar.fileChanged(undefined);
    this.sameFile?.follow(this.place?.handle);
    rememberWorkbookName(this.file.name);
  }

  /** Says where the file has been changed by somebody else meanwhile: better now than when more has been typed. */
  private async lookAtPlace(): Promise<void> {
    const { place } = this;
    if (place === undefined || !(await mayReadUnasked(place.handle))) return;
    // One that is gone is told when it is to be written.
    const changed = await changedByOthers(place).catch(() => undefined);
    if (place !== this.place) return;
    this.lookedAt = place;
    this.bar.fileChanged(changed === undefined ? undefined : fileTexts.changedMeanwhile(place.handle.name));
  }

  private enqueue(work: () => Promise<void>): void {
    this.queue = this.queue.then(work).catch((cause: unknown) => {
      this.bar.warn(fileTexts.unexpected(cause instanceof Error ? cause.message : String(cause)));
    });
  }

  private async endTyping(): Promise<void> {
    await this.parts.grid.api.getActiveWorkbook()?.endEditingAsync(true);
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

  private async openFile(chosen: ChosenFile): Promise<void> {
    if (!(await this.mayReplace(chosen.name))) return;
    if (chosen instanceof File) await this.openBytes(chosen.name, async () => ({ bytes: await readFile(chosen) }));
    else await this.openPlace(chosen);
  }

  private async openSample(): Promise<void> {
    const { name, bytes } = this.parts.sample;
    if (await this.mayReplace(fileTexts.sampleSeason)) {
      await this.openBytes(name, async () => ({ bytes: await bytes() }));
    }
  }

  /** Answers whether the file is still there. */
  private async openPlace(handle: FileSystemFileHandle): Promise<boolean> {
    const { name } = handle;
    let read: Awaited<ReturnType<typeof readPlace>>;
    try {
      if ((await afterPress(() => mayUse(handle, "read"))) !== true) {
        this.bar.warn(fileTexts.mayNotRead(name));
        return true;
      }
      read = await readPlace(handle);
    } catch (cause) {
      this.bar.warn(fileTexts.refused(name, troubleWords(cause, name, "read")));
      return !isNamed(cause, "NotFoundError");
    }
    const isOpen = await this.openBytes(name, () => Promise.resolve(read));
    // A file that another workbook was made of is not the one to go on with.
    if (isOpen && this.place !== undefined) await this.remember(handle);
    return true;
  }

  private async openRecent({ key, handle }: RecentFile): Promise<void> {
    if (!(await this.mayReplace(handle.name)) || (await this.openPlace(handle))) return;
    await this.recent.forget(key);
    await this.menu?.refresh();
  }

  /** The installed page was chosen to open a workbook. A page that is loaded anew is told of the same one once more. */
  private launched(files: readonly FileSystemHandle[]): void {
    const [file] = files;
    if (file === undefined) return;
    if (files.length > 1 || !isFileHandle(file)) return this.bar.warn(fileTexts.oneFile);
    this.enqueue(async () => {
      await this.ready();
      const isOpen = this.place !== undefined && (await this.place.handle.isSameEntry(file));
      if (isOpen && this.isChanged) this.bar.tell(fileTexts.alreadyOpen(file.name));
      else await this.openFile(file);
    });
  }

  private async remember(handle: FileSystemFileHandle): Promise<void> {
    // Without the list there is still Open….
    await this.recent.add(handle, dayOf(new Date())).catch(() => undefined);
    await this.menu?.refresh();
  }

  /** Whether it is open now. */
  private async openBytes(
    name: string,
    read: () => Promise<{ readonly bytes: Uint8Array; readonly place?: Place }>,
  ): Promise<boolean> {
    this.bar.tell(fileTexts.opening(name));
    await painted();
    let opened: ReturnType<typeof Files.open>;
    let { bytes, place } = await read();
    let other: AsWorkbook | null;
    try {
      other = asWorkbook(name, bytes);
      bytes = other?.bytes ?? bytes;
      // A workbook is never written into the file of another kind from which it was made.
      if (other !== null) place = undefined;
      opened = Files.open(other?.name ?? name, bytes, this.parts.options);
    } catch (cause) {
      if (!(cause instanceof FileRefused)) throw cause;
      this.bar.warn(fileTexts.refused(name, cause.message));
      return false;
    }
    await this.replace(opened.file, opened.snapshot, place);
    this.keeper.begin();
    this.unchanged(bytes);
    if (other === null) this.bar.tell(place === undefined ? fileTexts.opened(name) : fileTexts.openedInPlace(name));
    else if (other.formulas === 0) this.bar.tell(fileTexts.openedAsWorkbook(name, other.name, 0));
    else this.bar.warn(fileTexts.openedAsWorkbook(name, other.name, other.formulas));
    return true;
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

  private async replace(file: WorkbookFile, snapshot: IWorkbookData, place: Place | undefined): Promise<void> {
    this.file = file;
    this.place = place;
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
    await this.replace(file, snapshot, kept.draft.place);
    this.keeper.begin();
    this.changed();
    await this.keeper.keepNow();
    await this.keeper.remove(id);
    this.bar.tell(fileTexts.broughtBack(name));
  }

  /* ---- save ---- */

  private async save(): Promise<void> {
    if (this.place !== undefined) await this.saveInPlace(this.place);
    else if (canChoosePlace()) await this.saveAs();
    else await this.saveAmongDownloads();
  }

  private async saveAmongDownloads(): Promise<void> {
    const written = await this.written(IN_FILE, (state) => this.file.save(state));
    if (written === undefined) return;
    download(this.file.name, written.bytes, WORKBOOK_TYPE);
    this.unchanged(written.bytes);
    this.bar.tell(fileTexts.saved(this.file.name));
  }

  /** Into the file that the workbook belongs to. */
  private async saveInPlace(place: Place): Promise<void> {
    const { handle } = place;
    const { name } = handle;
    let written: Written | undefined;
    try {
      // Asked for first: the press must not be too long ago.
      if ((await afterPress(() => mayUse(handle, "readwrite"))) !== true) {
        return await this.offerWaysOut(name, fileTexts.mayNotWrite(name));
      }
      written = await this.written(IN_FILE, (state) => this.file.save(state));
      if (written === undefined) return;
      const changed = await changedByOthers(place, written.bytes);
      const answer = changed === undefined ? "replace" : await askToReplace(name, changed);
      if (answer === "elsewhere") return await this.saveAs();
      if (answer !== "replace") return this.bar.tell("");
      this.place = await writePlace(handle, written.bytes);
    } catch (cause) {
      return this.offerWaysOut(name, troubleWords(cause, name, "write"));
    }
    this.savedInto(name, written);
  }

  /** Into a file that the coach chooses, which the workbook belongs to from then on. */
  private async saveAs(): Promise<void> {
    const written = await this.written(IN_FILE, (state) => this.file.save(state));
    if (written === undefined) return;
    const { name } = this.file;
    const handle = await afterPress(() => choosePlace(name, fileTexts.workbooks, this.place?.handle));
    if (handle === undefined) return this.bar.tell(fileTexts.noPlace);
    const ending = endingOf(name);
    if (endingOf(handle.name) !== ending || !handle.name.toLowerCase().endsWith(ending)) {
      return this.bar.warn(fileTexts.wrongEnding(handle.name, ending));
    }
    try {
      this.place = await writePlace(handle, written.bytes);
    } catch (cause) {
      return this.offerWaysOut(handle.name, troubleWords(cause, handle.name, "write"));
    }
    this.file.rename(handle.name);
    this.savedInto(handle.name, written);
    await this.remember(handle);
  }

  /** The file holds the bytes. */
  private savedInto(name: string, { bytes, changes }: Written): void {
    if (this.changes === changes) {
      this.unchanged(bytes);
      this.bar.tell(fileTexts.savedInto(name));
      return;
    }
    this.show();
    this.keeper.keepSoon();
    this.bar.warn(fileTexts.savedBefore(name));
  }

  /** The workbook was not written where it was to go: nothing of it is lost, and there are other ways. */
  private async offerWaysOut(name: string, reason: string): Promise<void> {
    this.bar.warn(fileTexts.notWritten(name, reason));
    const answer = await ask({
      title: fileTexts.notInPlaceTitle(name),
      words: [reason, fileTexts.nothingLost],
      choices: [
        { label: fileTexts.downloadCopy, value: "download" },
        ...(canChoosePlace() ? [{ label: fileTexts.saveElsewhere, value: "elsewhere" } as const] : []),
        { label: fileTexts.notYet, value: "no" },
      ] as const,
    });
    if (answer === "elsewhere") return this.saveAs();
    if (answer !== "download") return;
    const written = await this.written(IN_FILE, (state) => this.file.save(state));
    if (written === undefined) return;
    download(this.file.name, written.bytes, WORKBOOK_TYPE);
    this.bar.warn(fileTexts.copyDownloaded(this.file.name));
  }

  /** A copy to pass on: the open workbook stays what it is, saved or not. */
  private async saveAnswers(): Promise<void> {
    const written = await this.written(IN_COPY, (state) => this.file.saveAnswers(state));
    if (written === undefined) return;
    const copy = fileTexts.answersName(this.file.name);
    download(copy, written.bytes, WORKBOOK_TYPE);
    this.bar.tell(fileTexts.savedCopy(copy, this.file.name));
  }

  /** The bytes of a file with all that was typed and worked out; undefined where it was given up, or is not possible. */
  private async written(words: SavingWords, write: WorkbookFile["save"]): Promise<Written | undefined> {
    const { api, injector } = this.parts.grid;
    this.bar.tell(fileTexts.saving);
    await painted();
    // What stands half typed in a cell belongs to it.
    await this.endTyping();
    await settling();
    await this.ready();
    try {
      const { changes } = this;
      const saved = write(gridState(api, injector));
      if (await this.tellBefore(words, saved.losses)) return { bytes: saved.package.toFile(), changes };
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

interface Written {
  readonly bytes: Uint8Array;
  /** How many changes there had been. */
  readonly changes: number;
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
  // It may have been saved under another name since it was opened.
  return {
    file: resumed.file,
    snapshot: { ...snapshot, name, custom: { ...snapshot.custom, charts: resumed.charts } },
  };
}

function askToReplace(name: string, changed: Date): Promise<"elsewhere" | "replace" | "cancel" | undefined> {
  return ask({
    title: fileTexts.changedTitle(name),
    words: [fileTexts.changedWords(momentWords(changed)), fileTexts.nothingLost],
    choices: [
      { label: fileTexts.saveElsewhere, value: "elsewhere" },
      { label: fileTexts.replaceFile, value: "replace" },
      { label: fileTexts.cancel, value: "cancel" },
    ] as const,
  });
}

/** Some things a browser does right after a press only: where that is too long ago, one is asked for. */
async function afterPress<T>(work: () => Promise<T>): Promise<T | undefined> {
  try {
    return await work();
  } catch (cause) {
    if (!needsPress(cause)) throw cause;
  }
  const choices = [
    { label: fileTexts.goOn, value: true },
    { label: fileTexts.cancel, value: false },
  ];
  const goesOn = await ask({ title: fileTexts.pressTitle, words: [fileTexts.pressWords], choices });
  return goesOn === true ? work() : undefined;
}

/** `2027-03-02`, by this computer's clock. */
function dayOf(moment: Date): string {
  const two = (part: number): string => String(part).padStart(2, "0");
  return `${String(moment.getFullYear())}-${two(moment.getMonth() + 1)}-${two(moment.getDate())}`;
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
