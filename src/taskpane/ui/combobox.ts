/**
 * A field with a list to choose from that narrows as one types, after the pattern of the W3C's ARIA Authoring Practices
 * (editable combobox with list autocompletion). The browser's own list would hide all but the present choice.
 */
import { element, setAttribute } from "./dom";
import { texts } from "../words/texts";

export interface Combobox {
  readonly block: HTMLElement;
  readonly input: HTMLInputElement;
  setOptions(options: readonly string[]): void;
  /** Shows a value, unless somebody is typing in the field just now. */
  setValue(value: string): void;
  setProblem(words: string | null): void;
}

interface ComboboxParts {
  readonly id: string;
  readonly label: string;
  /** Told when a name was picked, and what stands in the field when it is left. */
  readonly chosen: (value: string) => void;
}

export function combobox({ id, label, chosen }: ComboboxParts): Combobox {
  const controls = drawn(id, label);
  const { input, list, block, problem } = controls;
  const choice = new Choice(controls, chosen);
  input.addEventListener("input", () => choice.open(true));
  input.addEventListener("focus", () => input.select());
  input.addEventListener("click", () => {
    if (!choice.isOpen) choice.open(false);
  });
  input.addEventListener("blur", () => choice.settle(input.value.trim()));
  input.addEventListener("keydown", (event) => choice.press(event));
  // The field keeps the focus while the list is pressed; otherwise leaving it would close the list first.
  list.addEventListener("mousedown", (event) => event.preventDefault());
  list.addEventListener("click", ({ target }) => {
    const option = target instanceof Element ? target.closest('[role="option"]') : null;
    if (option !== null) choice.pick([...list.children].indexOf(option));
  });
  return {
    block,
    input,
    setOptions: (options) => (choice.options = options),
    setValue: (value) => choice.show(value),
    setProblem: (words) => {
      problem.textContent = words ?? "";
      setAttribute(input, "aria-invalid", words === null ? null : "true");
      setAttribute(input, "aria-describedby", words === null ? null : problem.id);
    },
  };
}

interface Controls {
  readonly block: HTMLElement;
  readonly input: HTMLInputElement;
  readonly list: HTMLElement;
  /** Says how many fit. */
  readonly found: HTMLElement;
  readonly problem: HTMLElement;
}

function drawn(id: string, label: string): Controls {
  const listId = `${id}-list`;
  const input = element("input", {
    id,
    type: "text",
    role: "combobox",
    autocomplete: "off",
    autocapitalize: "off",
    spellcheck: "false",
    "aria-autocomplete": "list",
    "aria-expanded": "false",
    "aria-controls": listId,
  });
  const list = element("ul", {
    id: listId,
    role: "listbox",
    "aria-label": label,
    class: "twirl-options",
    hidden: true,
  });
  const found = element("span", { role: "status", class: "twirl-unseen" });
  const problem = element("p", { id: `${id}-problem`, class: "twirl-problem" });
  const block = element(
    "div",
    { class: "twirl-line" },
    element("label", { for: id }, label),
    element("div", { class: "twirl-combobox" }, input, list, found),
    problem,
  );
  return { block, input, list, found, problem };
}

/** What is chosen, and the list while one chooses. */
class Choice {
  options: readonly string[] = [];
  private shown: readonly string[] = [];
  private active = -1;
  /** What was told last, and is shown again by Escape. */
  private settled = "";

  constructor(
    private readonly controls: Controls,
    private readonly chosen: (value: string) => void,
  ) {}

  get isOpen(): boolean {
    return !this.controls.list.hidden;
  }

  /** Unless somebody is typing in the field just now. */
  show(value: string): void {
    const { input } = this.controls;
    this.settled = value;
    if (document.activeElement !== input) input.value = value;
  }

  /** @param narrowed to what fits what is typed */
  open(narrowed: boolean): void {
    const { input, list, found } = this.controls;
    this.shown = narrowed ? this.options.filter((option) => fits(option, input.value)) : this.options;
    const { shown } = this;
    // Typed out in full: a list of that one name would only hide the next field.
    if (narrowed && shown.length === 1 && shown[0] === input.value) return this.close();
    list.replaceChildren(
      ...shown.map((option, index) =>
        element("li", { role: "option", id: `${list.id}-${String(index)}`, "aria-selected": "false" }, option),
      ),
    );
    // A list of nothing is no list; the words beside it tell.
    list.hidden = shown.length === 0;
    setAttribute(input, "aria-expanded", shown.length === 0 ? "false" : "true");
    found.textContent = texts.optionsFound(shown.length);
    this.activate(narrowed || shown.length === 0 ? -1 : shown.indexOf(input.value));
  }

  settle(value: string): void {
    this.close();
    this.controls.input.value = value;
    if (value === this.settled) return;
    this.settled = value;
    this.chosen(value);
  }

  pick(index: number): void {
    const picked = this.shown[index];
    if (picked !== undefined) this.settle(picked);
  }

  press(event: KeyboardEvent): void {
    if (event.ctrlKey || event.metaKey) return;
    if (event.key === "ArrowDown" || event.key === "ArrowUp") this.move(event, event.key === "ArrowDown" ? 1 : -1);
    else if (event.key === "Enter") this.enter(event);
    else if (event.key === "Escape") this.escape(event);
  }

  private move(event: KeyboardEvent, step: 1 | -1): void {
    event.preventDefault();
    if (!this.isOpen) {
      this.open(false);
      if (event.altKey) return;
    }
    const count = this.shown.length;
    if (count === 0) return;
    this.activate(this.active < 0 && step < 0 ? count - 1 : (this.active + step + count) % count);
  }

  private enter(event: KeyboardEvent): void {
    const { input } = this.controls;
    const picked = this.shown[this.active] ?? (this.shown.length === 1 ? this.shown[0] : undefined);
    if (!this.isOpen || picked === undefined) return this.settle(input.value.trim());
    event.preventDefault();
    this.settle(picked);
    input.select();
  }

  private escape(event: KeyboardEvent): void {
    const { input } = this.controls;
    if (!this.isOpen && input.value === this.settled) return;
    event.preventDefault();
    event.stopPropagation();
    this.close();
    input.value = this.settled;
  }

  private close(): void {
    const { input, list, found } = this.controls;
    list.hidden = true;
    this.active = -1;
    setAttribute(input, "aria-expanded", "false");
    setAttribute(input, "aria-activedescendant", null);
    found.textContent = "";
  }

  private activate(index: number): void {
    const { input, list } = this.controls;
    this.active = index;
    [...list.children].forEach((option, at) => setAttribute(option, "aria-selected", at === index ? "true" : "false"));
    const option = list.children[index];
    setAttribute(input, "aria-activedescendant", option?.id ?? null);
    option?.scrollIntoView({ block: "nearest" });
  }
}

/** Whether each typed word occurs in the option, in either case and without its dots: `mk` finds `M.K.` */
function fits(option: string, typed: string): boolean {
  const text = option.normalize("NFC").toLowerCase();
  const bare = text.replace(/[^\p{L}\p{N}]/gu, "");
  return typed
    .normalize("NFC")
    .toLowerCase()
    .split(/\s+/)
    .every((word) => text.includes(word) || (/[\p{L}\p{N}]/u.test(word) && bare.includes(word)));
}
