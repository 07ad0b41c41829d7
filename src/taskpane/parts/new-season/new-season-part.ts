/** The New season part: the form on the page, its messages, and the way from Build to the result. */
import type { SettingsField } from "../../../workbook/season/season";
import { dayInWords } from "../../words/day";
import { element, say, setAttribute } from "../../ui/dom";
import {
  formFields,
  formFromDraft,
  TICKED,
  tidyForm,
  usualForm,
  type FormText,
  type Problems,
} from "./new-season-form";
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
  const controls = drawn();
  const { form, fields, clear } = controls;
  panel.append(
    element("h2", {}, texts.newSeasonTitle),
    element("p", { class: "twirl-quiet" }, texts.newSeasonIntro),
    form,
    controls.status,
    controls.outcome,
  );
  const season = new SeasonForm(controls, { drafts, reached });

  form.addEventListener("submit", (event) => {
    event.preventDefault();
    if (season.isWorking) return;
    const text = tidyForm(season.read());
    season.write(text);
    void buildSeason(text, host, (state) => season.show(state));
  });

  // With the month as a word: the coach sees which day was read, before a season is built on it.
  fields.contestDate.control.addEventListener("change", ({ target }) => {
    const read = typedDay(fields.contestDate.control.value, { of: "plan" });
    if (read.kind === "wrong" || !(target instanceof HTMLInputElement)) return;
    target.value = dayInWords(read.serial);
    drafts.keep(draftName, season.read());
  });

  form.addEventListener("input", (event) => {
    drafts.keep(draftName, season.read());
    // A field that was wrong is believed again as soon as it is touched; Build checks it anew.
    const touched = formFields.find((name) => fields[name].control === event.target);
    if (touched !== undefined) showProblem(fields[touched], null);
  });

  clear.addEventListener("click", () => {
    if (!season.isWorking) season.clear();
  });

  season.write(formFromDraft(drafts.read(draftName)) ?? usualForm);
}

type Fields = Readonly<Record<SettingsField, Field>>;

interface Controls {
  readonly form: HTMLFormElement;
  readonly fields: Fields;
  readonly build: HTMLButtonElement;
  readonly clear: HTMLButtonElement;
  readonly status: HTMLElement;
  readonly outcome: HTMLElement;
}

function drawnFields(): Fields {
  return {
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
    exchanges: tickField("exchanges", texts.exchangesLabel, texts.exchangesHint),
  };
}

function drawn(): Controls {
  const fields = drawnFields();
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
    group(texts.togetherGroup, fields.exchanges.block),
    element("div", { class: "twirl-actions" }, build, clear),
    element("p", { class: "twirl-quiet twirl-field" }, texts.draftNote),
  );
  return { form, fields, build, clear, status, outcome };
}

/** What stands in the fields, and what came of building it. */
class SeasonForm {
  isWorking = false;

  constructor(
    private readonly controls: Controls,
    private readonly around: Pick<PartContext, "drafts" | "reached">,
  ) {}

  read(): FormText {
    const { fields } = this.controls;
    return Object.fromEntries(formFields.map((name) => [name, valueOf(fields[name].control)])) as Record<
      SettingsField,
      string
    >;
  }

  write(text: FormText): void {
    for (const name of formFields) {
      const { control } = this.controls.fields[name];
      if (valueOf(control) !== text[name]) setValue(control, text[name]);
    }
  }

  clear(): void {
    this.write(usualForm);
    this.around.drafts.forget(draftName);
    this.show({ kind: "editing" });
    say(this.controls.status, texts.formCleared);
    this.controls.fields.label.control.focus();
  }

  show(state: SeasonState): void {
    const { build, clear, status, outcome } = this.controls;
    this.isWorking = state.kind === "working";
    // Not `disabled`: that would throw the focus back to the start of the page in the middle of the work.
    setAttribute(build, "aria-disabled", this.isWorking ? "true" : null);
    setAttribute(clear, "aria-disabled", this.isWorking ? "true" : null);
    this.showProblems(state.kind === "refused" ? state.problems : {});
    outcome.replaceChildren();
    if (state.kind !== "refused") status.textContent = state.kind === "working" ? state.words : "";
    switch (state.kind) {
      case "editing":
      case "working":
        return;
      case "refused":
        return this.leadToTheFirst(state.problems);
      case "built":
        this.around.drafts.forget(draftName);
        message(outcome, "right", [
          element("p", {}, texts.seasonBuilt(state.label)),
          list(state.sheets),
          element("p", {}, texts.seasonBuiltNext),
        ]);
        return this.around.reached({ kind: "season built", label: state.label });
      case "failed":
        return message(outcome, "wrong", [
          element("p", {}, element("strong", {}, texts.seasonFailed)),
          element("p", {}, state.reason),
          ...leftBehindWords(state.leftBehind),
        ]);
      default:
        return unknownState(state);
    }
  }

  private showProblems(problems: Problems): void {
    for (const name of formFields) showProblem(this.controls.fields[name], problems[name] ?? null);
  }

  private leadToTheFirst(problems: Problems): void {
    const wrong = formFields.filter((name) => problems[name] !== undefined);
    say(this.controls.status, texts.problemsFound(wrong.length));
    const first = wrong[0];
    if (first !== undefined) this.controls.fields[first].control.focus();
  }
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

/** A box before its words: ticked or not, it cannot be wrong. */
function tickField(name: SettingsField, label: string, hint: string): Field {
  const [id, hintId] = [`twirl-season-${name}`, `twirl-season-${name}-hint`];
  const box = element("input", { type: "checkbox", id, "aria-describedby": hintId });
  const block = element(
    "div",
    { class: "twirl-field" },
    element("label", { class: "twirl-choice" }, box, element("span", {}, label)),
    element("p", { id: hintId, class: "twirl-hint" }, hint),
  );
  const problemId = `${id}-problem`;
  return { block, control: box, problem: element("p", { id: problemId }), hintId, problemId };
}

function valueOf(control: Control): string {
  return isBox(control) ? (control.checked ? TICKED : "") : control.value;
}

function setValue(control: Control, value: string): void {
  if (isBox(control)) control.checked = value === TICKED;
  else control.value = value;
}

function isBox(control: Control): control is HTMLInputElement {
  return control.type === "checkbox";
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
