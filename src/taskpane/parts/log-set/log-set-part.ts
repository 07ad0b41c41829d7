/** The Log a set part on the page: what the set is of, the three large buttons, and what the board makes of it. */
import { leftOutNote } from "../../season/left-out-note";
import { element, say } from "../../ui/dom";
import { dayInWords, serialOfDay } from "../../words/day";
import { texts } from "../../words/texts";
import type { Part, PartContext } from "../part";
import { LogSet, type LogSetState } from "./log-set";
import { SetDock, markKeys } from "./set-dock";
import { SetFields } from "./set-fields";
import { marksInFives, type SetInHand } from "./set-in-hand";

export const logSetPart: Part = {
  id: "log-set",
  get title() {
    return texts.logSetTitle;
  },
  mount,
};

function mount(
  panel: HTMLElement,
  { host, drafts, open, whenShown, whenChanged, reached, whenReached }: PartContext,
): void {
  const log = new LogSet({
    ...{ host, drafts, tell: (state: LogSetState, words: string | null) => page.show(state, words) },
    saved: ({ athlete: of, trick: on }, judged) => reached({ kind: "set saved", athlete: of, trick: on, judged }),
  });
  const page = new Page(log, open);
  const { block } = page;
  panel.append(block);
  page.show(log.state, null);
  whenShown(() => void log.refresh());
  whenChanged(() => log.refresh());
  whenReached((milestone) => {
    if (milestone.kind === "season built") log.beginIn(milestone.label);
  });
  // The coach comes back from the sheet, where names and rows may have changed.
  block.addEventListener("focusin", (event) => {
    if (!(event.relatedTarget instanceof Node) || !block.contains(event.relatedTarget)) void log.refresh();
  });
}

class Page {
  readonly block: HTMLElement;
  private readonly fields: SetFields;
  private readonly dock: SetDock;
  private readonly counting: HTMLElement;
  private readonly noSeason: HTMLElement;
  private readonly again = element("button", { type: "button", class: "twirl-button" }, texts.tryAgain);
  private readonly failure = element("div", { class: "twirl-message twirl-message-wrong", hidden: true });
  private readonly notes = element("div", { class: "twirl-quiet" });
  private readonly leftOut = leftOutNote();
  private readonly asideList = element("ul", { class: "twirl-aside" });
  private readonly aside = element("section", { hidden: true }, element("h3", {}, texts.asideTitle), this.asideList);
  private readonly spoken = element("p", { role: "status", class: "twirl-unseen" });

  constructor(
    private readonly log: LogSet,
    open: PartContext["open"],
  ) {
    this.fields = new SetFields(log);
    this.dock = new SetDock(log);
    this.again.addEventListener("click", () => void log.refresh());
    this.noSeason = noSeasonYet(() => open("new-season"));
    const { notes, leftOut, aside, dock } = this;
    this.counting = element(
      "div",
      { class: "twirl-counting" },
      ...this.fields.blocks,
      ...[notes, leftOut.block, aside, dock.block],
    );
    // Takes the focus when it is pressed beside a control, so that the keys count from then on.
    this.block = element(
      "div",
      { class: "twirl-log", tabindex: "-1" },
      element("h2", { class: "twirl-unseen" }, texts.logSetTitle),
      ...[this.noSeason, this.failure, this.counting, this.spoken],
    );
    this.block.addEventListener("keydown", (event) => this.press(event));
  }

  show(state: LogSetState, words: string | null): void {
    const { book, set } = state;
    this.noSeason.hidden = book.kind !== "none";
    this.failure.hidden = book.kind !== "failed";
    if (book.kind === "failed") {
      this.failure.replaceChildren(
        element("p", {}, texts.workbookNotRead(book.reason)),
        element("div", { class: "twirl-actions" }, this.again),
      );
    }
    // Marks without a season are still marks: they stay in sight.
    this.counting.hidden = book.kind === "none" && set.marks.length === 0 && state.aside.length === 0;
    this.fields.show(state);
    this.notes.replaceChildren(...notesOn(state).map((line) => element("p", {}, line)));
    this.leftOut.show(book.kind === "ready" ? book.data : null);
    this.showAside(state);
    this.fields.showProblems(state.problems);
    this.dock.show(state);
    if (words !== null) say(this.spoken, words);
  }

  private showAside({ aside: sets, workbook: here }: LogSetState): void {
    const { aside, asideList, log } = this;
    aside.hidden = sets.length === 0;
    const shown = [here, ...sets.map((set) => `${set.id} ${String(set.changed)}`)].join(" ");
    if (asideList.dataset["shown"] === shown) return;
    asideList.dataset["shown"] = shown;
    asideList.replaceChildren(...sets.map((set) => asideItem(set, here, log)));
  }

  /** The marks by their letters, anywhere but in a field. */
  private press(event: KeyboardEvent): void {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.target instanceof Element && event.target.closest("input, select, textarea") !== null) return;
    const key = event.key.toLowerCase();
    const mark = markKeys.find((one) => one === key);
    const isUndo = key === "u" || key === "backspace";
    const isHeldPress = event.repeat && (key === "enter" || key === " ");
    if (mark === undefined && !isUndo && !isHeldPress) return;
    event.preventDefault();
    // A key that is held down is one attempt, and one press of a button.
    if (event.repeat || this.counting.hidden) return;
    if (mark !== undefined) this.log.mark(mark);
    else if (isUndo) this.log.undo();
  }
}

function noSeasonYet(build: () => void): HTMLElement {
  const button = element("button", { type: "button", class: "twirl-button twirl-button-main" }, texts.goToNewSeason);
  button.addEventListener("click", build);
  return element(
    "div",
    { class: "twirl-message", hidden: true },
    element("p", {}, texts.noSeason),
    element("p", {}, texts.noSeasonNext),
    element("div", { class: "twirl-actions" }, button),
  );
}

/** What is worth knowing about the set besides the marks. */
function notesOn({ book, set, live, forgetful }: LogSetState): readonly string[] {
  return [
    ...(forgetful ? [texts.keepsNothing] : []),
    ...(book.kind === "ready" && book.data.usualSettings ? [texts.usualSettings(book.data.setSize)] : []),
    ...(book.kind === "ready" && book.data.athletes.length === 0 ? [texts.noAthletes] : []),
    ...(book.kind === "ready" && book.data.tricks.length === 0 ? [texts.noTricks] : []),
    ...(set.day !== null && set.day !== serialOfDay(new Date()) ? [texts.ofAnotherDay(dayInWords(set.day))] : []),
    ...(live?.kind === "judged" && live.laterDay !== undefined ? [texts.laterDays(dayInWords(live.laterDay))] : []),
  ];
}

function asideItem(set: SetInHand, here: string, log: LogSet): HTMLElement {
  const name = texts.asideSet(set.athlete, set.trick, marksInFives(set.marks));
  const button = (words: string, label: string): HTMLButtonElement =>
    element("button", { type: "button", class: "twirl-button", "aria-label": label }, words);
  const take = button(texts.takeUp, texts.takeUpOf(name));
  const discard = button(texts.throwAway, texts.throwAwayOf(name));
  take.addEventListener("click", () => log.takeUp(set.id));
  discard.addEventListener("click", () => {
    // Attempts are thrown away by two presses, never by one.
    if (discard.dataset["sure"] === "true") return log.throwAway(set.id);
    discard.dataset["sure"] = "true";
    discard.textContent = texts.throwAwaySure;
    discard.setAttribute("aria-label", texts.throwAwaySureOf(name));
  });
  return element(
    "li",
    {},
    element("p", {}, name),
    set.workbook === here ? null : element("p", { class: "twirl-quiet" }, texts.fromWorkbook(fileName(set.workbook))),
    element("div", { class: "twirl-actions" }, take, discard),
  );
}

/** The last part of a place: enough to know the workbook by. */
const fileName = (place: string): string => place.split(/[/\\]/).filter(Boolean).at(-1) ?? place;
