/** A function's arguments as fields: cells are taken from the sheet's selection, and the formula goes into a chosen cell. */
import { element, say, setAttribute } from "../../../ui/dom";
import type { FunctionHelp } from "../function-help";
import { OccupiedCell, type WorkbookHost } from "../../../host/host";
import { reasonOf } from "../../../words/reason";
import { texts } from "../../../words/texts";
import { callFrom, cellsInWords, type Call } from "./function-call";

interface FillField {
  readonly block: HTMLElement;
  readonly input: HTMLInputElement;
  setProblem(words: string): void;
}

export function fillInForm(help: FunctionHelp, host: WorkbookHost): HTMLElement {
  const status = element("p", { role: "status", class: "twirl-status" });
  const preview = element("code", {});
  const ask = element("div", { class: "twirl-message", role: "group", hidden: true });
  let activeSheet = "";

  const take = async (input: HTMLInputElement, name: string): Promise<void> => {
    try {
      const selected = await host.selection();
      activeSheet = selected.sheet;
      input.value = cellsInWords(selected);
      input.dispatchEvent(new Event("input", { bubbles: true }));
      say(status, texts.fillInTaken(name, input.value));
    } catch (cause) {
      say(status, texts.selectionNotRead(reasonOf(cause)));
    }
  };

  const field = (key: string, name: string, hint: string, optional: boolean): FillField => {
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
    return {
      input,
      block: element(
        "div",
        { class: "twirl-field" },
        element(
          "label",
          { for: id },
          name,
          optional ? element("span", { class: "twirl-optional" }, ` (${texts.optional})`) : null,
        ),
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
  };

  const fields = help.parameters.map(({ name, description, optional }) => field(name, name, description, optional));
  const target = field("target", texts.fillInTarget, texts.fillInTargetHint, false);
  const form = element(
    "form",
    { class: "twirl-fill", novalidate: true, autocomplete: "off", "aria-label": texts.fillInOf(help.id) },
    element("p", { class: "twirl-hint" }, texts.fillInHint),
    ...fields.map(({ block }) => block),
    target.block,
    element("p", { class: "twirl-field twirl-quiet" }, `${texts.fillInFormula}: `, preview),
    element(
      "div",
      { class: "twirl-actions" },
      element("button", { type: "submit", class: "twirl-button twirl-button-main" }, texts.fillInInsert),
    ),
    ask,
    status,
  );

  const call = (): Call =>
    callFrom(help, {
      ...{ typed: fields.map(({ input }) => input.value), target: target.input.value, activeSheet },
    });
  const showFormula = (): void => {
    const made = call();
    preview.replaceChildren("formula" in made ? made.formula : `=${help.syntax}`);
  };

  const insert = async (made: Extract<Call, { formula: string }>, replace: boolean): Promise<void> => {
    ask.hidden = true;
    try {
      const address = await host.putFormula(made.formula, made, replace);
      say(status, texts.functionInserted(made.formula, address));
    } catch (cause) {
      if (cause instanceof OccupiedCell) return askFirst(made, cause.address);
      say(status, texts.functionNotInserted(reasonOf(cause)));
    }
  };
  const askFirst = (made: Extract<Call, { formula: string }>, address: string): void => {
    const words = element("p", { id: `twirl-fill-${help.id}-ask` }, texts.targetOccupied(address));
    const replace = element("button", { type: "button", class: "twirl-button" }, texts.targetReplace);
    const keep = element("button", { type: "button", class: "twirl-button twirl-button-main" }, texts.targetKeep);
    replace.addEventListener("click", () => {
      target.input.focus();
      void insert(made, true);
    });
    keep.addEventListener("click", () => {
      ask.hidden = true;
      say(status, texts.targetKept);
      target.input.focus();
    });
    ask.setAttribute("aria-labelledby", words.id);
    ask.replaceChildren(words, element("div", { class: "twirl-actions" }, keep, replace));
    ask.hidden = false;
    keep.focus();
    say(status, texts.targetOccupied(address));
  };

  form.addEventListener("input", (event) => {
    [...fields, target].find(({ input }) => input === event.target)?.setProblem("");
    ask.hidden = true;
    showFormula();
  });
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const made = call();
    const problems = "formula" in made ? null : made;
    fields.forEach((one, index) => one.setProblem(problems?.problems[index] ?? ""));
    target.setProblem(problems?.targetProblem ?? "");
    if ("formula" in made) return void insert(made, false);
    const wrong = [...fields, target].filter(({ input }) => input.getAttribute("aria-invalid") === "true");
    say(status, texts.problemsFound(wrong.length));
    wrong[0]?.input.focus();
  });

  // The cell that is selected as one begins is most likely where the answer is wanted.
  host.selection().then(
    (selected) => {
      activeSheet = selected.sheet;
      if (target.input.value !== "") return;
      const { row, column } = selected.block;
      target.input.value = cellsInWords({ sheet: selected.sheet, block: { row, column, rows: 1, columns: 1 } });
      showFormula();
    },
    // It can be typed, or taken later.
    () => undefined,
  );
  showFormula();
  return form;
}
