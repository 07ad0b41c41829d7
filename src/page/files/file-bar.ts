/** The page's buttons, keys and messages for files. */
import { byId } from "../page-state";
import { button } from "../button";
import type { DraftHeading } from "./drafts";
import { canChoosePlace, chooseFile, isFileHandle, needsPress } from "./file-access";
import { fileTexts, momentWords } from "./file-texts";

/** A file that was chosen: with the way to its place where the browser gives one, or else what is in it. */
export type ChosenFile = File | FileSystemFileHandle;

interface FileActions {
  readonly open: (file: ChosenFile) => void;
  readonly save: () => void;
  readonly saveAs: () => void;
  readonly saveAnswers: () => void;
  readonly openSample: () => void;
}

interface DraftActions {
  readonly bringBack: (id: string) => void;
  readonly discard: (id: string) => void;
}

const FADING_MILLISECONDS = 10_000;

export class FileBar {
  private readonly picker = byId("file-picker") as HTMLInputElement;
  private readonly name = byId("file-name");
  private readonly message = byId("file-message");
  private readonly drafts = byId("drafts");
  private fading: ReturnType<typeof setTimeout> | undefined;

  constructor(private readonly actions: FileActions) {
    byId("open-file").addEventListener("click", () => void this.choose());
    byId("save-as").addEventListener("click", () => actions.saveAs());
    byId("save-as").hidden = !canChoosePlace();
    byId("save-file").addEventListener("click", () => actions.save());
    byId("save-answers").addEventListener("click", () => actions.saveAnswers());
    byId("open-sample").addEventListener("click", () => actions.openSample());
    this.picker.addEventListener("change", () => {
      const [file] = this.picker.files ?? [];
      // Emptied, so that the same file may be chosen again.
      this.picker.value = "";
      if (file) actions.open(file);
    });
    window.addEventListener("keydown", (event) => this.key(event), { capture: true });
    this.takeDrops();
  }

  /** The open file's name, whether it has changes that are not saved, and whether Save writes into the file itself. */
  show(name: string, isChanged: boolean, isInPlace: boolean): void {
    const asks = canChoosePlace() ? fileTexts.saveAsks : fileTexts.saveDownloads;
    byId("save-file").title = isInPlace ? fileTexts.saveInto(name) : asks;
    const mark = document.createElement("span");
    mark.textContent = isChanged ? ` – ${fileTexts.changed}` : "";
    const words = document.createElement("bdi");
    words.textContent = name;
    this.name.replaceChildren(words, mark);
    this.name.title = name;
    document.body.dataset["file"] = isChanged ? "changed" : "saved";
  }

  /** Says what is going on; what is done is not said for ever. */
  tell(words: string): void {
    this.say(words, "told");
    this.fading = setTimeout(() => this.say("", "told"), FADING_MILLISECONDS);
  }

  warn(words: string): void {
    this.say(words, "warned");
  }

  /** Work that earlier pages have left unsaved. */
  offer(drafts: readonly DraftHeading[], actions: DraftActions): void {
    this.drafts.hidden = drafts.length === 0;
    const heading = document.createElement("p");
    heading.textContent = fileTexts.unsavedWork;
    const list = document.createElement("ul");
    for (const { id, name, time } of drafts) {
      const item = document.createElement("li");
      const words = `${name}, ${momentWords(new Date(time))}`;
      item.append(
        words,
        " ",
        button(fileTexts.bringBack, `${fileTexts.bringBack}: ${words}`, () => actions.bringBack(id)),
        " ",
        button(fileTexts.discard, `${fileTexts.discard}: ${words}`, () => actions.discard(id)),
      );
      list.append(item);
    }
    this.drafts.replaceChildren(heading, list);
    fitGrid();
  }

  /** What stays true for a while, and is said for as long. */
  notKept(isUnable: boolean): void {
    sayLasting("not-kept", isUnable ? fileTexts.notKept : "");
  }

  sameFile(name: string, isShared: boolean): void {
    sayLasting("same-file", isShared ? fileTexts.sameFile(name) : "");
  }

  fileChanged(words: string | undefined): void {
    sayLasting("file-changed", words ?? "");
  }

  /** By the browser's own dialog; where it gives no way to the file's place, by the one that gives what is in it. */
  private async choose(): Promise<void> {
    if (!canChoosePlace()) return this.picker.click();
    try {
      const handle = await chooseFile(fileTexts.workbooks);
      if (handle !== undefined) this.actions.open(handle);
    } catch (cause) {
      if (!needsPress(cause)) throw cause;
      this.picker.click();
    }
  }

  private say(words: string, kind: "told" | "warned"): void {
    clearTimeout(this.fading);
    const wasHidden = this.message.hidden;
    this.message.hidden = words === "";
    this.message.textContent = words;
    this.message.dataset["kind"] = kind;
    if (wasHidden !== this.message.hidden) fitGrid();
  }

  private key(event: KeyboardEvent): void {
    if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
    if (document.querySelector("dialog[open]") !== null) return;
    const key = event.key.toLowerCase();
    const act = this.byKey(`${event.shiftKey ? "shift " : ""}${key}`);
    if (act === undefined) return;
    event.preventDefault();
    event.stopPropagation();
    act();
  }

  private byKey(key: string): (() => void) | undefined {
    if (key === "o") return () => void this.choose();
    if (key === "s") return this.actions.save;
    return key === "shift s" && canChoosePlace() ? this.actions.saveAs : undefined;
  }

  private takeDrops(): void {
    const holdsFiles = ({ dataTransfer }: DragEvent): boolean => dataTransfer?.types.includes("Files") === true;
    window.addEventListener("dragover", (event) => {
      if (!holdsFiles(event)) return;
      event.preventDefault();
      if (event.dataTransfer) event.dataTransfer.dropEffect = "copy";
      document.body.dataset["drop"] = "over";
    });
    window.addEventListener("dragleave", (event) => {
      if (event.relatedTarget === null) delete document.body.dataset["drop"];
    });
    window.addEventListener("drop", (event) => {
      delete document.body.dataset["drop"];
      if (!holdsFiles(event)) return;
      // Without this the browser would leave the page for the file.
      event.preventDefault();
      const files = [...(event.dataTransfer?.files ?? [])];
      const [file] = files;
      if (files.length !== 1 || file === undefined) return this.warn(fileTexts.oneFile);
      const [item] = [...(event.dataTransfer?.items ?? [])].filter(({ kind }) => kind === "file");
      // Asked for now: the browser lets go of what was dropped once this is over.
      const handle = canChoosePlace() ? item?.getAsFileSystemHandle?.() : undefined;
      void Promise.resolve(handle)
        .catch(() => undefined)
        .then((found) => this.actions.open(isFileHandle(found) ? found : file));
    });
  }
}

function sayLasting(id: string, words: string): void {
  const strip = byId(id);
  if (strip.textContent === words) return;
  strip.textContent = words;
  strip.hidden = words === "";
  fitGrid();
}

/** The grid fits itself to the window when it is told that the window's size has changed. */
function fitGrid(): void {
  window.dispatchEvent(new Event("resize"));
}
