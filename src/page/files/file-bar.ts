/** The page's buttons, keys and messages for files. */
import type { DraftHeading } from "./drafts";
import { fileTexts, momentWords } from "./file-texts";

interface FileActions {
  readonly open: (file: File) => void;
  readonly save: () => void;
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
    byId("open-file").addEventListener("click", () => this.picker.click());
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

  /** The open file's name, and whether it has changes that are not saved. */
  show(name: string, isChanged: boolean): void {
    const mark = document.createElement("span");
    mark.textContent = isChanged ? ` – ${fileTexts.changed}` : "";
    this.name.replaceChildren(name, mark);
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

  private say(words: string, kind: "told" | "warned"): void {
    clearTimeout(this.fading);
    const wasHidden = this.message.hidden;
    this.message.hidden = words === "";
    this.message.textContent = words;
    this.message.dataset["kind"] = kind;
    if (wasHidden !== this.message.hidden) fitGrid();
  }

  private key(event: KeyboardEvent): void {
    if (!(event.ctrlKey || event.metaKey) || event.altKey || event.shiftKey) return;
    if (document.querySelector("dialog[open]") !== null) return;
    const key = event.key.toLowerCase();
    if (key !== "o" && key !== "s") return;
    event.preventDefault();
    event.stopPropagation();
    if (key === "o") this.picker.click();
    else this.actions.save();
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
      if (files.length !== 1 || file === undefined) this.warn(fileTexts.oneFile);
      else this.actions.open(file);
    });
  }
}

function button(label: string, name: string, act: () => void): HTMLButtonElement {
  const element = document.createElement("button");
  element.type = "button";
  element.textContent = label;
  element.setAttribute("aria-label", name);
  element.addEventListener("click", act);
  return element;
}

/** The grid fits itself to the window when it is told that the window's size has changed. */
function fitGrid(): void {
  window.dispatchEvent(new Event("resize"));
}

function byId(id: string): HTMLElement {
  const element = document.getElementById(id);
  if (element === null) throw new Error(`The page has no #${id}.`);
  return element;
}
