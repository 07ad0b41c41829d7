/** The list of the files that were opened last, beside Open…: it opens one at a press, and forgets one at a press. */
import { byId } from "../page-state";
import { button } from "../button";
import { dayWords, fileTexts } from "./file-texts";
import type { RecentFile, RecentFiles } from "./recent-files";

interface RecentActions {
  readonly open: (file: RecentFile) => void;
  readonly tell: (words: string) => void;
}

export class RecentMenu {
  private readonly menu = byId("recent-files") as HTMLDetailsElement;
  private readonly summary = part(this.menu, "summary");
  private readonly list = part(this.menu, "ul");

  constructor(
    private readonly files: RecentFiles,
    private readonly actions: RecentActions,
  ) {
    const { menu, summary } = this;
    // Another page may have put a file first.
    menu.addEventListener("toggle", () => {
      if (menu.open) void this.refresh();
    });
    menu.addEventListener("keydown", (event) => {
      if (event.key !== "Escape" || !menu.open) return;
      event.stopPropagation();
      menu.open = false;
      summary.focus();
    });
    window.addEventListener("pointerdown", ({ target }) => {
      if (!(target instanceof Node && menu.contains(target))) menu.open = false;
    });
    void this.refresh();
  }

  async refresh(): Promise<void> {
    const files = await this.files.all();
    this.menu.hidden = files.length === 0;
    this.list.replaceChildren(...files.map((file) => this.item(file)));
  }

  private item(file: RecentFile): HTMLElement {
    const item = document.createElement("li");
    const words = fileTexts.recentOpen(file.name, dayWords(file.day));
    const open = button(words, words, () => {
      this.menu.open = false;
      this.summary.focus();
      this.actions.open(file);
    });
    open.title = file.name;
    const forget = button(fileTexts.forget, `${fileTexts.forget}: ${file.name}`, () => void this.forget(file, item));
    item.append(open, forget);
    return item;
  }

  private async forget(file: RecentFile, item: HTMLElement): Promise<void> {
    const place = [...this.list.children].indexOf(item);
    await this.files.forget(file.key);
    await this.refresh();
    this.actions.tell(fileTexts.forgotten(file.name));
    // The button that had the keys is gone: on to the next one, or out of the empty list.
    const next = this.list.children[Math.min(place, this.list.children.length - 1)];
    const goal = next?.querySelector<HTMLElement>("button:last-child");
    if (goal) goal.focus();
    else byId("open-file").focus();
  }
}

function part(menu: HTMLElement, name: "summary" | "ul"): HTMLElement {
  const element = menu.querySelector<HTMLElement>(name);
  if (element === null) throw new Error(`The list of recent files has no ${name}.`);
  return element;
}
