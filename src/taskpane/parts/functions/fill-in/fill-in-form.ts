/** A function's arguments as fields: cells are taken from the sheet's selection, and the formula goes into a chosen cell. */
import { element, say, setAttribute } from "../../../ui/dom";
import type { FunctionHelp } from "../function-help";
import { OccupiedCell, type WorkbookHost } from "../../../host/host";
import { reasonOf } from "../../../words/reason";
import { texts } from "../../../words/texts";
import { callFrom, cellsInWords, type Call } from "./function-call";

/** Takes what is selected on the sheet into a field. */
type Take = (input: HTMLInputElement, name: string) => Promise<void>;

interface FillField {
  readonly block: HTMLElement;
  readonly input: HTMLInputElement;
  setProblem(words: string): void;
}

export function fillInForm(help: FunctionHelp, host: WorkbookHost): HTMLElement {
  const filling = new Filling(help, host);
  filling.begin();
  return filling.form;
}

interface FieldWords {
  readonly key: string;
  readonly name: string;
  readonly hint: string;
  readonly optional: boolean;
}

function fillField(help: FunctionHelp, { key, name, hint, optional }: FieldWords, take: Take): FillField {
  const id = `twirl-fill-${help.id}-${key}`;
  const input = element("input", {
    ...{ id, type: "text", autocomplete: "off", autocapitalize: "off", spellcheck: "false" },
    ...{ "aria-describedby": `${id}-hint`, "aria-required": optional ? undefined : "true" },
  });
  const button = element(
    "button",
    { type: "button", class: "twirl-button twirl-take", "aria-label": texts.fillInTakeFor(name) },
    texts.fillInTake,
  );
  const problem = element("p", { id: `${id}-problem`, class: "twirl-problem" });
  button.addEventListener("click", () => void take(input, name));
  input.addEventListener("keydown", (event) => {
    // In a filled field Enter inserts, as in every form.
    if (event.key !== "Enter" || input.value.trim() !== "") return;
    event.preventDefault();
    void take(input, name);
  });
  const optionalWords = optional ? element("span", { class: "twirl-optional" }, ` (${texts.optional})`) : null;
  return {
    input,
    block: element(
      "div",
      { class: "twirl-field" },
      element("label", { for: id }, name, optionalWords),
      element("p", { id: `${id}-hint`, class: "twirl-hint" }, hint),
      element("div", { class: "twirl-take-line" }, input, button),
      problem,
    ),
    setProblem: (words) => {
      problem.textContent = words;
      setAttribute(input, "aria-invalid", words === "" ? null : "true");
      setAttribute(input, "aria-describedby", words === "" ? `${id}-hint` : `${id}-problem ${id}-hint`);
    },
  };
}

type Made = Extract<Call, { formula: string }>;

class Filling {
  readonly form: HTMLElement;
  private readonly status = element("p", { role: "status", class: "twirl-status" });
  private readonly preview = element("code", {});
  private readonly ask = element("div", { class: "twirl-message", role: "group", hidden: true });
  private readonly fields: readonly FillField[];
  private readonly target: FillField;
  private activeSheet = "";

  constructor(
    private readonly help: FunctionHelp,
    private readonly host: WorkbookHost,
  ) {
    const take: Take = (input, name) => this.take(input, name);
    this.fields = help.parameters.map(({ name, description, optional }) =>
      fillField(help, { key: name, name, hint: description, optional }, take),
    );
    const words = { name: texts.fillInTarget, hint: texts.fillInTargetHint };
    this.target = fillField(help, { key: "target", ...words, optional: false }, take);
    this.form = element(
      "form",
      { class: "twirl-fill", novalidate: true, autocomplete: "off", "aria-label": texts.fillInOf(help.id) },
      element("p", { class: "twirl-hint" }, texts.fillInHint),
      ...this.fields.map(({ block }) => block),
      this.target.block,
      element("p", { class: "twirl-field twirl-quiet" }, `${texts.fillInFormula}: `, this.preview),
      element(
        "div",
        { class: "twirl-actions" },
        element("button", { type: "submit", class: "twirl-button twirl-button-main" }, texts.fillInInsert),
      ),
      this.ask,
      this.status,
    );
  }

  begin(): void {
    this.form.addEventListener("input", ({ target }) => {
      [...this.fields, this.target].find(({ input }) => input === target)?.setProblem("");
      this.ask.hidden = true;
      this.showFormula();
    });
    this.form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.submit();
    });
    // The cell that is selected as one begins is most likely where the answer is wanted.
    this.host.selection().then(
      (selected) => {
        this.activeSheet = selected.sheet;
        const { input } = this.target;
        if (input.value !== "") return;
        const { row, column } = selected.block;
        input.value = cellsInWords({ sheet: selected.sheet, block: { row, column, rows: 1, columns: 1 } });
        this.showFormula();
      },
      // It can be typed, or taken later.
      () => undefined,
    );
    this.showFormula();
  }

  private async take(input: HTMLInputElement, name: string): Promise<void> {
    try {
      const selected = await this.host.selection();
      this.activeSheet = selected.sheet;
      input.value = cellsInWords(selected);
      input.dispatchEvent(new Event("input", { bubbles: true }));
      say(this.status, texts.fillInTaken(name, input.value));
    } catch (cause) {
      say(this.status, texts.selectionNotRead(reasonOf(cause)));
    }
  }

  private call(): Call {
    const typed = this.fields.map(({ input }) => input.value);
    return callFrom(this.help, { typed, target: this.target.input.value, activeSheet: this.activeSheet });
  }

  private showFormula(): void {
    const made = this.call();
    this.preview.replaceChildren("formula" in made ? made.formula : `=${this.help.syntax}`);
  }

  private submit(): void {
    const made = this.call();
    const problems = "formula" in made ? null : made;
    this.fields.forEach((one, index) => one.setProblem(problems?.problems[index] ?? ""));
    this.target.setProblem(problems?.targetProblem ?? "");
    if ("formula" in made) return void this.insert(made, false);
    const wrong = [...this.fields, this.target].filter(({ input }) => input.getAttribute("aria-invalid") === "true");
    say(this.status, texts.problemsFound(wrong.length));
    wrong[0]?.input.focus();
  }

  private async insert(made: Made, replace: boolean): Promise<void> {
    this.ask.hidden = true;
    try {
      const address = await this.host.putFormula(made.formula, made, replace);
      say(this.status, texts.functionInserted(made.formula, address));
    } catch (cause) {
      if (cause instanceof OccupiedCell) return this.askFirst(made, cause.address);
      say(this.status, texts.functionNotInserted(reasonOf(cause)));
    }
  }

  private askFirst(made: Made, address: string): void {
    const words = element("p", { id: `twirl-fill-${this.help.id}-ask` }, texts.targetOccupied(address));
    const replace = element("button", { type: "button", class: "twirl-button" }, texts.targetReplace);
    const keep = element("button", { type: "button", class: "twirl-button twirl-button-main" }, texts.targetKeep);
    replace.addEventListener("click", () => {
      this.target.input.focus();
      void this.insert(made, true);
    });
    keep.addEventListener("click", () => {
      this.ask.hidden = true;
      say(this.status, texts.targetKept);
      this.target.input.focus();
    });
    this.ask.setAttribute("aria-labelledby", words.id);
    this.ask.replaceChildren(words, element("div", { class: "twirl-actions" }, keep, replace));
    this.ask.hidden = false;
    keep.focus();
    say(this.status, texts.targetOccupied(address));
  }
}
