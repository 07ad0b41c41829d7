/** The Functions part: every cell function with its help, a search over them, and Insert. */
import { element, say, setAttribute } from "../../ui/dom";
import { fillInForm } from "./fill-in/fill-in-form";
import { findFunctions, type FunctionHelp } from "./function-help";
import type { WorkbookHost } from "../../host/host";
import type { Part, PartContext } from "../part";
import { reasonOf } from "../../words/reason";
import { texts } from "../../words/texts";

/** The part over a given list of functions; `functions-all.ts` has the generated one. */
export function functionsPartOf(all: readonly FunctionHelp[]): Part {
  return {
    id: "functions",
    get title() {
      return texts.functionsTitle;
    },
    mount: (panel, context) => mount(panel, context, all),
  };
}

function mount(panel: HTMLElement, { host }: PartContext, all: readonly FunctionHelp[]): void {
  const search = element("input", { type: "search", id: "twirl-functions-search", autocomplete: "off" });
  const count = element("p", { role: "status", class: "twirl-quiet twirl-status" });
  const results = element("div", {});
  // Built once each: what is open stays open while the search changes.
  const entries = new Map(all.map((one) => [one.id, entry(one, host)]));

  const show = (): void => {
    const groups = findFunctions(all, search.value);
    const found = groups.reduce((sum, group) => sum + group.functions.length, 0);
    results.replaceChildren(
      ...groups.map((group) =>
        element(
          "section",
          {},
          element("h3", {}, group.heading),
          ...group.functions.map((one) => entries.get(one.id) ?? null),
        ),
      ),
      ...(found === 0 ? [element("p", {}, texts.functionsNone)] : []),
    );
    count.textContent = texts.functionsFound(found);
  };

  search.addEventListener("input", show);
  panel.append(
    element("h2", {}, texts.functionsTitle),
    element(
      "div",
      { class: "twirl-field", role: "search" },
      element("label", { for: search.id }, texts.functionsSearch),
      search,
    ),
    count,
    results,
  );
  show();
}

/** One function: its name and sentence as a switch, and the rest under it once it is opened. */
function entry(one: FunctionHelp, host: WorkbookHost): HTMLElement {
  const bodyId = `twirl-function-${one.id}`;
  const body = element("div", { id: bodyId, class: "twirl-function-body", hidden: true });
  const name = element(
    "button",
    { type: "button", "aria-expanded": "false", "aria-controls": bodyId, class: "twirl-function-name" },
    // Hidden from names: a screen reader says "expanded" or "collapsed" by itself, and would read the sign out.
    element("span", { class: "twirl-sign", "aria-hidden": "true" }),
    one.id,
  );
  name.addEventListener("click", () => {
    const opening = body.hidden;
    if (opening && body.childElementCount === 0) body.append(...details(one, host));
    body.hidden = !opening;
    setAttribute(name, "aria-expanded", opening ? "true" : "false");
  });
  return element(
    "div",
    { class: "twirl-function" },
    element("h4", {}, name),
    element("p", { class: "twirl-quiet twirl-function-sentence" }, one.sentence),
    body,
  );
}

function details(one: FunctionHelp, host: WorkbookHost): readonly HTMLElement[] {
  const section = (title: string, ...content: HTMLElement[]): readonly HTMLElement[] => [
    element("h5", {}, title),
    ...content,
  ];
  const paragraph = (text: string): HTMLElement => element("p", {}, text);

  return [
    ...section(texts.functionTyped, element("p", {}, element("code", {}, `=${one.syntax}`))),
    ...section(texts.functionArguments, ...argumentsOf(one, host)),
    ...section(texts.functionAnswer, paragraph(one.answer)),
    ...section(
      texts.functionExample,
      element("p", {}, element("code", {}, one.example.formula), " ", texts.functionExampleShows(one.example.shows)),
      ...insertion(one, host),
    ),
    ...section(texts.functionErrors, paragraph(one.errors)),
    ...section(texts.functionSource, paragraph(one.source)),
  ];
}

/** What each argument is; and, once it is asked for, the same as fields to fill in. */
function argumentsOf(one: FunctionHelp, host: WorkbookHost): readonly HTMLElement[] {
  const list = argumentList(one);
  const formId = `twirl-function-${one.id}-fill`;
  const place = element("div", { id: formId, hidden: true });
  const open = element(
    "button",
    {
      type: "button",
      class: "twirl-button",
      "aria-expanded": "false",
      "aria-controls": formId,
      "aria-label": texts.fillInOf(one.id),
    },
    texts.fillIn,
  );
  open.addEventListener("click", () => {
    const opening = place.hidden;
    if (opening && place.childElementCount === 0) place.append(fillInForm(one, host));
    place.hidden = !opening;
    list.hidden = opening;
    setAttribute(open, "aria-expanded", opening ? "true" : "false");
    if (opening) place.querySelector("input")?.focus();
  });
  return [list, element("div", { class: "twirl-actions" }, open), place];
}

function argumentList(one: FunctionHelp): HTMLElement {
  if (one.parameters.length === 0) return element("p", {}, texts.functionNoArguments);
  return element(
    "dl",
    {},
    ...one.parameters.flatMap((parameter) => {
      const marks = [
        ...(parameter.matrix ? [texts.argumentCells] : []),
        ...(parameter.optional ? [texts.optional] : []),
      ];
      return [
        element(
          "dt",
          {},
          element("code", {}, parameter.name),
          marks.length > 0 ? element("span", { class: "twirl-optional" }, ` (${marks.join(", ")})`) : null,
        ),
        element("dd", {}, parameter.description),
      ];
    }),
  );
}

function insertion(one: FunctionHelp, host: WorkbookHost): readonly HTMLElement[] {
  const hintId = `twirl-function-${one.id}-insert-hint`;
  const insert = element(
    "button",
    {
      type: "button",
      class: "twirl-button",
      "aria-label": texts.functionInsertOf(one.id),
      "aria-describedby": hintId,
    },
    texts.functionInsert,
  );
  const outcome = element("p", { role: "status", class: "twirl-status" });
  insert.addEventListener("click", () => {
    host.insertFormula(one.example.formula).then(
      (address) => say(outcome, texts.functionInserted(one.example.formula, address)),
      (cause: unknown) => say(outcome, texts.functionNotInserted(reasonOf(cause))),
    );
  });
  return [
    element("div", { class: "twirl-actions" }, insert),
    element("p", { id: hintId, class: "twirl-hint" }, texts.functionInsertHint),
    outcome,
  ];
}
