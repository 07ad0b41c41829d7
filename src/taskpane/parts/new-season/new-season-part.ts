/** The New season part: the form on the page, its messages, and the way from Build to the result. */
import type { SettingsField } from "../../../workbook/season/season";
import { dayInWords } from "../../words/day";
import { element, say, setAttribute } from "../../ui/dom";
import { formFields, formFromDraft, tidyForm, usualForm, type FormText, type Problems } from "./new-season-form";
import { buildSeason, type SeasonState } from "./new-season-state";
import type { Part, PartContext } from "../part";
import { texts } from "../../words/texts";
import { typedDay } from "../../words/typed-day";

const draftName = "new-season";

type Control = HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement;

interface Field {
  readonly block: HTMLElement;
  readonly control: Control;
  readonly problem: HTMLElement;
  readonly hintId: string;
  readonly problemId: string;
}

export const newSeasonPart: Part = {
  id: "new-season",
  get title() {
    return texts.newSeasonTitle;
  },
  mount,
};

function mount(panel: HTMLElement, { host, drafts, reached }: PartContext): void {
  const fields: Readonly<Record<SettingsField, Field>> = {
    label: field("label", texts.labelLabel, texts.labelHint, false, input("text", { maxlength: 40 })),
    contestDate: field("contestDate", texts.contestDateLabel, texts.contestDateHint, true, input("text")),
    athletes: field("athletes", texts.athletesLabel, texts.athletesHint, false, element("textarea", { rows: 5 })),
    tricks: field("tricks", texts.tricksLabel, texts.tricksHint, false, element("textarea", { rows: 7 })),
    standard: field("standard", texts.standardLabel, texts.standardHint, false, decimal()),
    setSize: field("setSize", texts.setSizeLabel, texts.setSizeHint, false, input("text", { inputmode: "numeric" })),
    countsPerMinute: field("countsPerMinute", texts.countsPerMinuteLabel, texts.countsPerMinuteHint, false, decimal()),
    dropCost: field("dropCost", texts.dropCostLabel, texts.dropCostHint, false, decimal()),
    unit: field(
      "unit",
      texts.unitLabel,
      texts.unitHint,
      false,
      element(
        "select",
        {},
        element("option", { value: "m" }, texts.unitMetres),
        element("option", { value: "ft" }, texts.unitFeet),
      ),
    ),
    ceiling: field("ceiling", texts.ceilingLabel, texts.ceilingHint, true, decimal()),
  };

  const build = element("button", { type: "submit", class: "twirl-button twirl-button-main" }, texts.buildSeason);
  const clear = element("button", { type: "button", class: "twirl-button" }, texts.clearForm);
  const status = element("p", { role: "status", class: "twirl-status" });
  // In the document from the start: a live region that comes in together with its words is not spoken.
  const outcome = element("div", { role: "status" });

  const form = element(
    "form",
    // Our own words at the field instead of the browser's bubbles, which no screen reader repeats.
    { novalidate: true, autocomplete: "off", "aria-label": texts.newSeasonTitle },
    fields.label.block,
    fields.contestDate.block,
    fields.athletes.block,
    fields.tricks.block,
    group(texts.standardsGroup, pair(fields.standard.block, fields.setSize.block)),
    group(
      texts.tossGroup,
      pair(fields.countsPerMinute.block, fields.dropCost.block),
      pair(fields.unit.block, fields.ceiling.block),
    ),
    element("div", { class: "twirl-actions" }, build, clear),
    element("p", { class: "twirl-quiet twirl-field" }, texts.draftNote),
  );
  panel.append(
    element("h2", {}, texts.newSeasonTitle),
    element("p", { class: "twirl-quiet" }, texts.newSeasonIntro),
    form,
    status,
    outcome,
  );

  const readForm = (): FormText =>
    Object.fromEntries(formFields.map((name) => [name, fields[name].control.value])) as Record<SettingsField, string>;

  const write = (text: FormText): void => {
    for (const name of formFields) {
      if (fields[name].control.value !== text[name]) fields[name].control.value = text[name];
    }
  };

  const showProblems = (problems: Problems): void => {
    for (const name of formFields) showProblem(fields[name], problems[name] ?? null);
  };

  let working = false;

  const show = (state: SeasonState): void => {
    working = state.kind === "working";
    // Not `disabled`: that would throw the focus back to the start of the page in the middle of the work.
    setAttribute(build, "aria-disabled", working ? "true" : null);
    setAttribute(clear, "aria-disabled", working ? "true" : null);
    showProblems(state.kind === "refused" ? state.problems : {});
    outcome.replaceChildren();
    switch (state.kind) {
      case "editing":
        status.textContent = "";
        return;
      case "working":
        status.textContent = state.words;
        return;
      case "refused": {
        const wrong = formFields.filter((name) => state.problems[name] !== undefined);
        say(status, texts.problemsFound(wrong.length));
        const first = wrong[0];
        if (first !== undefined) fields[first].control.focus();
        return;
      }
      case "built":
        status.textContent = "";
        drafts.forget(draftName);
        message(outcome, "right", [
          element("p", {}, texts.seasonBuilt(state.label)),
          list(state.sheets),
          element("p", {}, texts.seasonBuiltNext),
        ]);
        reached({ kind: "season built", label: state.label });
        return;
      case "failed":
        status.textContent = "";
        message(outcome, "wrong", [
          element("p", {}, element("strong", {}, texts.seasonFailed)),
          element("p", {}, state.reason),
          ...leftBehindWords(state.leftBehind),
        ]);
        return;
      default:
        return unknownState(state);
    }
  };

  form.addEventListener("submit", (event) => {
    event.preventDefault();
    if (working) return;
    const text = tidyForm(readForm());
    write(text);
    void buildSeason(text, host, show);
  });

  // With the month as a word: the coach sees which day was read, before a season is built on it.
  fields.contestDate.control.addEventListener("change", ({ target }) => {
    const read = typedDay(fields.contestDate.control.value, { of: "plan" });
    if (read.kind === "wrong" || !(target instanceof HTMLInputElement)) return;
    target.value = dayInWords(read.serial);
    drafts.keep(draftName, readForm());
  });

  form.addEventListener("input", (event) => {
    drafts.keep(draftName, readForm());
    // A field that was wrong is believed again as soon as it is touched; Build checks it anew.
    const touched = formFields.find((name) => fields[name].control === event.target);
    if (touched !== undefined) showProblem(fields[touched], null);
  });

  clear.addEventListener("click", () => {
    if (working) return;
    write(usualForm);
    drafts.forget(draftName);
    show({ kind: "editing" });
    say(status, texts.formCleared);
    fields.label.control.focus();
  });

  write(formFromDraft(drafts.read(draftName)) ?? usualForm);
}

function field(name: SettingsField, label: string, hint: string, optional: boolean, control: Control): Field {
  const id = `twirl-season-${name}`;
  const [hintId, problemId] = [`${id}-hint`, `${id}-problem`];
  control.id = id;
  control.setAttribute("aria-describedby", hintId);
  if (!optional) control.setAttribute("aria-required", "true");
  const problem = element("p", { id: problemId, class: "twirl-problem" });
  const block = element(
    "div",
    { class: "twirl-field" },
    element(
      "label",
      { for: id },
      label,
      optional ? element("span", { class: "twirl-optional" }, ` (${texts.optional})`) : null,
    ),
    element("p", { id: hintId, class: "twirl-hint" }, hint),
    control,
    problem,
  );
  return { block, control, problem, hintId, problemId };
}

function showProblem(of: Field, words: string | null): void {
  of.problem.textContent = words ?? "";
  setAttribute(of.control, "aria-invalid", words === null ? null : "true");
  // The problem first: it is what the reader should hear on arriving at the field.
  setAttribute(of.control, "aria-describedby", words === null ? of.hintId : `${of.problemId} ${of.hintId}`);
}

const input = (type: string, attributes: Record<string, string | number> = {}): HTMLInputElement =>
  element("input", { type, ...attributes });

/** A text field with the number keys on a touch screen. Not type=number: that one drops a decimal comma in silence. */
const decimal = (): HTMLInputElement => input("text", { inputmode: "decimal" });

const group = (legend: string, ...children: HTMLElement[]): HTMLElement =>
  element("fieldset", {}, element("legend", {}, legend), ...children);

const pair = (...children: HTMLElement[]): HTMLElement => element("div", { class: "twirl-pair" }, ...children);

const list = (items: readonly string[]): HTMLElement =>
  element("ul", {}, ...items.map((item) => element("li", {}, item)));

function leftBehindWords(leftBehind: readonly string[] | null): readonly HTMLElement[] {
  if (leftBehind === null) return [element("p", {}, texts.leftBehindUnknown)];
  if (leftBehind.length === 0) return [element("p", {}, texts.nothingLeftBehind)];
  return [element("p", {}, texts.leftBehind), list(leftBehind)];
}

/** Shows what came of it, in sight even where the form is longer than the pane. */
function message(outcome: HTMLElement, kind: "right" | "wrong", content: readonly HTMLElement[]): void {
  const box = element(
    "div",
    { class: kind === "right" ? "twirl-message" : "twirl-message twirl-message-wrong" },
    ...content,
  );
  outcome.replaceChildren(box);
  box.scrollIntoView({ block: "nearest" });
}

function unknownState(state: never): never {
  throw new TypeError(`Unknown state: ${JSON.stringify(state)}`);
}
