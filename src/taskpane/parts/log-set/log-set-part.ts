/** The Log a set part on the page: what the set is of, the three large buttons, and what the board makes of it. */
import { RISK_BAILS } from "../../../core/readiness";
import { comparable } from "../../../core/text";
import { STAGES } from "../../../trade/stages";
import { PRACTICE } from "../../../workbook/season/season";
import { statusWordLooks } from "../../../workbook/plan/looks";
import { combobox } from "../../ui/combobox";
import { dayInWords, serialOfDay } from "../../words/day";
import { element, say, setAttribute } from "../../ui/dom";
import type { Part, PartContext } from "../part";
import { texts } from "../../words/texts";
import { leftOutNote } from "../../season/left-out-note";
import { LogSet, type Field, type FieldProblems, type Live, type LogSetState } from "./log-set";
import type { SeasonData } from "../../season/season-data";
import { countOf, marksInFives, type Mark, type SetInHand } from "./set-in-hand";

export const logSetPart: Part = {
  id: "log-set",
  get title() {
    return texts.logSetTitle;
  },
  mount,
};

/** How the set was done: folded away, since it is noted while something is tried out only. */
const WAY_FIELDS = ["entrance", "exit", "condition"] as const;

const MOST_SUGGESTIONS = 12;

/**
 * What was noted there last, this athlete's this trick first, then the trick's, then all; of conditions the season's list
 * as well.
 */
function lastWords(
  { log, conditions }: SeasonData,
  { athlete, trick }: SetInHand,
  name: (typeof WAY_FIELDS)[number],
): readonly string[] {
  const noted = log.filter((row) => row[name] !== "").reverse();
  const ofTrick = noted.filter((row) => comparable(row.trick) === comparable(trick));
  const own = ofTrick.filter((row) => comparable(row.athlete) === comparable(athlete));
  const found = new Map<string, string>();
  const words = [...own, ...ofTrick, ...noted].map((row) => row[name]);
  for (const one of [...words, ...(name === "condition" ? conditions : [])]) {
    if (found.size === MOST_SUGGESTIONS) break;
    if (!found.has(comparable(one))) found.set(comparable(one), one);
  }
  return [...found.values()];
}

/** Each mark's key, apart from which it is a letter of the log. */
const markKeys: readonly Mark[] = ["c", "d", "b"];

function mount(
  panel: HTMLElement,
  { host, drafts, open, whenShown, whenChanged, reached, whenReached }: PartContext,
): void {
  /* ---- what the set is of ---- */

  const season = element("select", { id: "twirl-log-season" });
  const seasonField = field(season, texts.seasonLabel);
  const athlete = combobox({
    id: "twirl-log-athlete",
    label: texts.athleteLabel,
    chosen: (value) => log.choose({ athlete: value }),
  });
  const trick = combobox({
    id: "twirl-log-trick",
    label: texts.trickLabel,
    chosen: (value) => log.choose({ trick: value }),
  });
  const stage = element(
    "select",
    { id: "twirl-log-stage" },
    ...STAGES.map((name) => element("option", { value: name }, name)),
  );
  const stageField = field(stage, texts.stageLabel);
  const minutes = element("input", {
    id: "twirl-log-minutes",
    type: "text",
    inputmode: "decimal",
    autocomplete: "off",
  });
  const minutesField = field(minutes, texts.minutesLabel);
  const note = element("input", { id: "twirl-log-note", type: "text", autocomplete: "off" });
  const noteField = field(note, texts.noteLabel);
  const day = element("input", { id: "twirl-log-day", type: "text", autocomplete: "off" });
  const dayField = field(day, texts.dayLabel);
  const ways = WAY_FIELDS.map((name) => ({
    name,
    box: combobox({
      id: `twirl-log-${name}`,
      label: texts.wayLabels[name],
      chosen: (value) => log.write({ [name]: value }),
    }),
  }));
  const addColumns = element("button", { type: "button", class: "twirl-button" }, texts.addColumns);
  addColumns.addEventListener("click", () => void log.addColumns());
  const lacking = element(
    "div",
    { class: "twirl-line", hidden: true },
    element("p", { class: "twirl-quiet" }, texts.columnsLacking),
    element("div", { class: "twirl-actions" }, addColumns),
  );
  const more = element(
    "details",
    { class: "twirl-more" },
    element("summary", {}, texts.minutesAndNote),
    dayField.block,
    minutesField.block,
    ...ways.map(({ box }) => box.block),
    lacking,
    noteField.block,
  );

  const asideList = element("ul", { class: "twirl-aside" });
  const aside = element("section", { hidden: true }, element("h3", {}, texts.asideTitle), asideList);

  /* ---- the set, and what the board makes of it ---- */

  const caution = element("p", { role: "alert", class: "twirl-caution" });
  const outcome = element("p", { class: "twirl-outcome" });
  const marks = element("span", { class: "twirl-marks", "aria-hidden": "true" });
  const marksInWords = element("span", { class: "twirl-unseen" });
  const count = element("span", { class: "twirl-count" });
  const status = element("span", { class: "twirl-badge" });
  const streak = element("span", {});
  const judged = element("p", { class: "twirl-judged" });
  const spoken = element("p", { role: "status", class: "twirl-unseen" });

  const markButtons = markKeys.map((mark) => {
    const button = element(
      "button",
      { type: "button", class: `twirl-mark twirl-mark-${mark}`, "aria-keyshortcuts": mark.toUpperCase() },
      element("span", {}, texts.markWords[mark]),
      element("kbd", { "aria-hidden": "true" }, mark.toUpperCase()),
    );
    button.addEventListener("click", () => log.mark(mark));
    return button;
  });
  const undo = element("button", { type: "button", class: "twirl-button", "aria-keyshortcuts": "U" }, texts.undo);
  const next = element("button", { type: "button", class: "twirl-button" }, texts.putAside);
  const save = element("button", { type: "button", class: "twirl-button twirl-button-main" }, texts.saveSet);
  undo.addEventListener("click", () => log.undo());
  next.addEventListener("click", () => {
    if (next.getAttribute("aria-disabled") !== "true") log.putAside();
  });
  save.addEventListener("click", () => {
    if (log.state.saving === "unsure") void log.findOut();
    else log.save();
  });

  const dock = element(
    "div",
    { class: "twirl-dock", role: "group", "aria-label": texts.dockLabel },
    caution,
    outcome,
    element("p", { class: "twirl-set" }, marks, marksInWords, count),
    judged,
    element("div", { class: "twirl-mark-buttons" }, ...markButtons),
    element("div", { class: "twirl-dock-actions" }, undo, next, save),
  );

  /* ---- what stands there instead ---- */

  const again = element("button", { type: "button", class: "twirl-button" }, texts.tryAgain);
  again.addEventListener("click", () => void log.refresh());
  const failure = element("div", { class: "twirl-message twirl-message-wrong", hidden: true });
  const build = element("button", { type: "button", class: "twirl-button twirl-button-main" }, texts.goToNewSeason);
  build.addEventListener("click", () => open("new-season"));
  const noSeason = element(
    "div",
    { class: "twirl-message", hidden: true },
    element("p", {}, texts.noSeason),
    element("p", {}, texts.noSeasonNext),
    element("div", { class: "twirl-actions" }, build),
  );
  const notes = element("div", { class: "twirl-quiet" });
  const leftOut = leftOutNote();

  const counting = element(
    "div",
    { class: "twirl-counting" },
    seasonField.block,
    athlete.block,
    trick.block,
    stageField.block,
    more,
    notes,
    leftOut.block,
    aside,
    dock,
  );
  // Takes the focus when it is pressed beside a control, so that the keys count from then on.
  const part = element(
    "div",
    { class: "twirl-log", tabindex: "-1" },
    element("h2", { class: "twirl-unseen" }, texts.logSetTitle),
    noSeason,
    failure,
    counting,
    spoken,
  );
  panel.append(part);

  /* ---- keys ---- */

  part.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.target instanceof Element && event.target.closest("input, select, textarea") !== null) return;
    const key = event.key.toLowerCase();
    const mark = markKeys.find((one) => one === key);
    const isUndo = key === "u" || key === "backspace";
    const isHeldPress = event.repeat && (key === "enter" || key === " ");
    if (mark === undefined && !isUndo && !isHeldPress) return;
    event.preventDefault();
    // A key that is held down is one attempt, and one press of a button.
    if (event.repeat || counting.hidden) return;
    if (mark !== undefined) log.mark(mark);
    else if (isUndo) log.undo();
  });

  season.addEventListener("change", () => log.choose({ season: season.value }));
  stage.addEventListener("change", () => log.choose({ stage: stage.value }));
  minutes.addEventListener("input", () => log.write({ minutes: minutes.value }));
  note.addEventListener("input", () => log.write({ note: note.value }));
  day.addEventListener("input", () => log.write({ dayTyped: day.value }));

  /* ---- from state to page ---- */

  let asked: Field | null = null;

  const show = (state: LogSetState, words: string | null): void => {
    const { book, set, live, saving } = state;
    noSeason.hidden = book.kind !== "none";
    failure.hidden = book.kind !== "failed";
    if (book.kind === "failed") {
      failure.replaceChildren(
        element("p", {}, texts.workbookNotRead(book.reason)),
        element("div", { class: "twirl-actions" }, again),
      );
    }
    // Marks without a season are still marks: they stay in sight.
    counting.hidden = book.kind === "none" && set.marks.length === 0 && state.aside.length === 0;

    const seasons = book.kind === "ready" ? book.seasons : [];
    const named = set.season === "" || seasons.includes(set.season) ? seasons : [...seasons, set.season];
    seasonField.block.hidden = named.length < 2;
    replaceOptions(season, named, (key) => key.replaceAll("_", " "));
    season.value = set.season;
    if (book.kind === "ready") {
      athlete.setOptions(book.data.athletes);
      trick.setOptions(book.data.tricks);
      for (const { name, box } of ways) box.setOptions(lastWords(book.data, set, name));
    }
    const lacks = book.kind === "ready" && book.data.lackingColumns.length > 0;
    lacking.hidden = !lacks;
    for (const { name, box } of ways) {
      box.setValue(set[name]);
      // What is typed already stays in sight where the log has no column for it.
      box.block.hidden = set[name] === "" && book.kind === "ready" && book.data.lackingColumns.includes(PRACTICE[name]);
    }
    athlete.setValue(set.athlete);
    trick.setValue(set.trick);
    stage.value = set.stage;
    for (const [control, value] of [
      [minutes, set.minutes],
      [note, set.note],
      [day, set.dayTyped],
    ] as const) {
      if (control.value !== value) control.value = value;
    }
    if ([set.minutes, set.note, set.dayTyped, ...WAY_FIELDS.map((name) => set[name])].some((typed) => typed !== "")) {
      more.open = true;
    }

    notes.replaceChildren(...notesOn(state).map((line) => element("p", {}, line)));
    leftOut.show(book.kind === "ready" ? book.data : null);
    showAside(state);
    showProblems(state.problems);

    setText(caution, countOf(set.marks, "b") >= RISK_BAILS ? texts.bailCaution : "");
    setText(outcome, state.problems.marks ?? state.outcome?.words ?? "");
    outcome.dataset["kind"] = state.problems.marks === undefined ? (state.outcome?.kind ?? "") : "wrong";
    setText(marks, set.marks.length === 0 ? "–" : marksInFives(set.marks));
    setText(marksInWords, texts.setInWords(countOf(set.marks, "c"), countOf(set.marks, "d"), countOf(set.marks, "b")));
    setText(count, texts.setCount(set.marks.length, book.kind === "ready" ? book.data.setSize : null));
    showJudged(live, book.kind);

    setAttribute(undo, "aria-disabled", set.marks.length === 0 || saving !== "no" ? "true" : null);
    setAttribute(next, "aria-disabled", saving === "saving" || set.marks.length === 0 ? "true" : null);
    setAttribute(save, "aria-disabled", saving === "saving" ? "true" : null);
    setText(save, { no: texts.saveSet, saving: texts.saving, unsure: texts.lookInLog }[saving]);
    for (const button of markButtons) setAttribute(button, "aria-disabled", saving === "no" ? null : "true");
    if (words !== null) say(spoken, words);
  };

  const showJudged = (live: Live | null, book: LogSetState["book"]["kind"]): void => {
    if (live?.kind === "judged") {
      const { now, before } = live;
      setText(status, now.status);
      status.dataset["look"] = statusWordLooks[now.status];
      const moved = before.status === now.status ? "" : texts.statusWas(before.status);
      const run = live.streak === undefined ? texts.streakUnknown : texts.streakNow(live.streak);
      const beside = live.apart ? [texts.apartStreak(run)] : [moved, run];
      setText(streak, [texts.reasonInWords(now), ...beside].filter((words) => words !== "").join(" · "));
      if (status.parentElement !== judged) judged.replaceChildren(status, streak);
      return;
    }
    const words =
      live?.kind === "unreadable" ? live.words : book === "reading" ? texts.readingWorkbook : texts.statusNeedsChoice;
    if (judged.textContent !== words || status.parentElement === judged) judged.replaceChildren(words);
  };

  const showAside = ({ aside: sets, workbook: here }: LogSetState): void => {
    aside.hidden = sets.length === 0;
    const shown = [here, ...sets.map((set) => `${set.id} ${String(set.changed)}`)].join(" ");
    if (asideList.dataset["shown"] === shown) return;
    asideList.dataset["shown"] = shown;
    asideList.replaceChildren(...sets.map((set) => asideItem(set, here, log)));
  };

  const showProblems = (problems: FieldProblems): void => {
    const choices = { athlete: athlete.setProblem, trick: trick.setProblem };
    choices.athlete(problems.athlete ?? null);
    choices.trick(problems.trick ?? null);
    seasonField.setProblem(problems.season ?? null);
    stageField.setProblem(problems.stage ?? null);
    minutesField.setProblem(problems.minutes ?? null);
    dayField.setProblem(problems.dayTyped ?? null);
    for (const { name, box } of ways) box.setProblem(problems[name] ?? null);
    const folded = ["dayTyped", "minutes", ...WAY_FIELDS] as const;
    if (folded.some((name) => problems[name] !== undefined)) more.open = true;
    const first = (["season", "athlete", "trick", "stage", ...folded] as const).find((name) => problems[name]);
    // Once for each order to save, not at every change while the message stands.
    if (first !== undefined && first !== asked) {
      const controls = { season, athlete: athlete.input, trick: trick.input, stage, minutes, dayTyped: day };
      const way = ways.find(({ name }) => name === first)?.box.input;
      (way ?? controls[first as keyof typeof controls]).focus();
    }
    asked = first ?? null;
  };

  const log = new LogSet({
    ...{ host, drafts, tell: show },
    saved: ({ athlete: of, trick: on }, judged) => reached({ kind: "set saved", athlete: of, trick: on, judged }),
  });
  show(log.state, null);
  whenShown(() => void log.refresh());
  whenChanged(() => log.refresh());
  whenReached((milestone) => {
    if (milestone.kind === "season built") log.beginIn(milestone.label);
  });
  // The coach comes back from the sheet, where names and rows may have changed.
  part.addEventListener("focusin", (event) => {
    if (!(event.relatedTarget instanceof Node) || !part.contains(event.relatedTarget)) void log.refresh();
  });
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

interface PlainField {
  readonly block: HTMLElement;
  setProblem(words: string | null): void;
}

function field(control: HTMLInputElement | HTMLSelectElement, label: string): PlainField {
  const problemId = `${control.id}-problem`;
  const problem = element("p", { id: problemId, class: "twirl-problem" });
  return {
    block: element("div", { class: "twirl-line" }, element("label", { for: control.id }, label), control, problem),
    setProblem: (words) => {
      setText(problem, words ?? "");
      setAttribute(control, "aria-invalid", words === null ? null : "true");
      setAttribute(control, "aria-describedby", words === null ? null : problemId);
    },
  };
}

function replaceOptions(select: HTMLSelectElement, values: readonly string[], words: (value: string) => string): void {
  const present = [...select.options].map(({ value }) => value);
  if (present.length === values.length && values.every((value, index) => value === present[index])) return;
  select.replaceChildren(...values.map((value) => element("option", { value }, words(value))));
}

/** Left alone where it says this already: a live region would be read out again. */
function setText(on: HTMLElement, words: string): void {
  if (on.textContent !== words) on.textContent = words;
}
