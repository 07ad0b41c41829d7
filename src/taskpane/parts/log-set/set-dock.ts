/** The set in hand, always in sight: its marks, what the board makes of it, the three large buttons, and Save. */
import { RISK_BAILS } from "../../../core/readiness";
import { statusWordLooks } from "../../../workbook/plan/looks";
import { element, setAttribute, setText } from "../../ui/dom";
import { texts } from "../../words/texts";
import type { Live, LogSet, LogSetState } from "./log-set";
import { countOf, marksInFives, type Mark } from "./set-in-hand";

/** Each mark's key, apart from which it is a letter of the log. */
export const markKeys: readonly Mark[] = ["c", "d", "b"];

export class SetDock {
  readonly block: HTMLElement;
  private readonly caution = element("p", { role: "alert", class: "twirl-caution" });
  private readonly outcome = element("p", { class: "twirl-outcome" });
  private readonly marks = element("span", { class: "twirl-marks", "aria-hidden": "true" });
  private readonly marksInWords = element("span", { class: "twirl-unseen" });
  private readonly count = element("span", { class: "twirl-count" });
  private readonly status = element("span", { class: "twirl-badge" });
  private readonly streak = element("span", {});
  private readonly judged = element("p", { class: "twirl-judged" });
  private readonly undo = element(
    "button",
    { type: "button", class: "twirl-button", "aria-keyshortcuts": "U" },
    texts.undo,
  );
  private readonly next = element("button", { type: "button", class: "twirl-button" }, texts.putAside);
  private readonly save = element("button", { type: "button", class: "twirl-button twirl-button-main" }, texts.saveSet);
  private readonly markButtons = markKeys.map((mark) => ({
    mark,
    button: element(
      "button",
      { type: "button", class: `twirl-mark twirl-mark-${mark}`, "aria-keyshortcuts": mark.toUpperCase() },
      element("span", {}, texts.markWords[mark]),
      element("kbd", { "aria-hidden": "true" }, mark.toUpperCase()),
    ),
  }));

  constructor(log: LogSet) {
    const { undo, next, save, markButtons } = this;
    for (const { mark, button } of markButtons) button.addEventListener("click", () => log.mark(mark));
    undo.addEventListener("click", () => log.undo());
    next.addEventListener("click", () => {
      if (next.getAttribute("aria-disabled") !== "true") log.putAside();
    });
    save.addEventListener("click", () => {
      if (log.state.saving === "unsure") void log.findOut();
      else log.save();
    });
    this.block = element(
      "div",
      { class: "twirl-dock", role: "group", "aria-label": texts.dockLabel },
      this.caution,
      this.outcome,
      element("p", { class: "twirl-set" }, this.marks, this.marksInWords, this.count),
      this.judged,
      element("div", { class: "twirl-mark-buttons" }, ...markButtons.map(({ button }) => button)),
      element("div", { class: "twirl-dock-actions" }, undo, next, save),
    );
  }

  show({ book, set, live, saving, problems, outcome }: LogSetState): void {
    const [caught, dropped, bailed] = markKeys.map((mark) => countOf(set.marks, mark)) as [number, number, number];
    setText(this.caution, bailed >= RISK_BAILS ? texts.bailCaution : "");
    setText(this.outcome, problems.marks ?? outcome?.words ?? "");
    this.outcome.dataset["kind"] = problems.marks === undefined ? (outcome?.kind ?? "") : "wrong";
    setText(this.marks, set.marks.length === 0 ? "–" : marksInFives(set.marks));
    setText(this.marksInWords, texts.setInWords(caught, dropped, bailed));
    setText(this.count, texts.setCount(set.marks.length, book.kind === "ready" ? book.data.setSize : null));
    this.showJudged(live, book.kind);

    const isEmpty = set.marks.length === 0;
    const disable = (button: HTMLElement, when: boolean): void =>
      setAttribute(button, "aria-disabled", when ? "true" : null);
    disable(this.undo, isEmpty || saving !== "no");
    disable(this.next, isEmpty || saving === "saving");
    disable(this.save, saving === "saving");
    setText(this.save, { no: texts.saveSet, saving: texts.saving, unsure: texts.lookInLog }[saving]);
    for (const { button } of this.markButtons) disable(button, saving !== "no");
  }

  private showJudged(live: Live | null, book: LogSetState["book"]["kind"]): void {
    const { status, streak, judged } = this;
    if (live?.kind === "judged") {
      const { now } = live;
      setText(status, now.status);
      status.dataset["look"] = statusWordLooks[now.status];
      setText(streak, [texts.reasonInWords(now), ...besideStatus(live)].filter((words) => words !== "").join(" · "));
      if (status.parentElement !== judged) judged.replaceChildren(status, streak);
      return;
    }
    const words =
      live?.kind === "unreadable" ? live.words : book === "reading" ? texts.readingWorkbook : texts.statusNeedsChoice;
    if (judged.textContent !== words || status.parentElement === judged) judged.replaceChildren(words);
  }
}

function besideStatus({ apart, before, now, streak }: Extract<Live, { kind: "judged" }>): readonly string[] {
  const run = streak === undefined ? texts.streakUnknown : texts.streakNow(streak);
  if (apart) return [texts.apartStreak(run)];
  return [before.status === now.status ? "" : texts.statusWas(before.status), run];
}
