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

export interface ComboboxParts {
  readonly id: string;
  readonly label: string;
  /** Told when a name was picked, and what stands in the field when it is left. */
  readonly chosen: (value: string) => void;
}

export function combobox({ id, label, chosen }: ComboboxParts): Combobox {
  const [listId, problemId] = [`${id}-list`, `${id}-problem`];
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
  const problem = element("p", { id: problemId, class: "twirl-problem" });
  const block = element(
    "div",
    { class: "twirl-line" },
    element("label", { for: id }, label),
    element("div", { class: "twirl-combobox" }, input, list, found),
    problem,
  );

  let options: readonly string[] = [];
  let shown: readonly string[] = [];
  let active = -1;
  /** What was told last, and is shown again by Escape. */
  let settled = "";

  const isOpen = (): boolean => !list.hidden;

  const close = (): void => {
    list.hidden = true;
    active = -1;
    setAttribute(input, "aria-expanded", "false");
    setAttribute(input, "aria-activedescendant", null);
    found.textContent = "";
  };

  const activate = (index: number): void => {
    active = index;
    [...list.children].forEach((option, at) => setAttribute(option, "aria-selected", at === index ? "true" : "false"));
    const option = list.children[index];
    setAttribute(input, "aria-activedescendant", option?.id ?? null);
    option?.scrollIntoView({ block: "nearest" });
  };

  const open = (narrowed: boolean): void => {
    shown = narrowed ? options.filter((option) => fits(option, input.value)) : options;
    // Typed out in full: a list of that one name would only hide the next field.
    if (narrowed && shown.length === 1 && shown[0] === input.value) return close();
    list.replaceChildren(
      ...shown.map((option, index) =>
        element("li", { role: "option", id: `${listId}-${String(index)}`, "aria-selected": "false" }, option),
      ),
    );
    // A list of nothing is no list; the words beside it tell.
    list.hidden = shown.length === 0;
    setAttribute(input, "aria-expanded", shown.length === 0 ? "false" : "true");
    found.textContent = texts.optionsFound(shown.length);
    activate(narrowed || shown.length === 0 ? -1 : shown.indexOf(input.value));
  };

  const settle = (value: string): void => {
    close();
    input.value = value;
    if (value === settled) return;
    settled = value;
    chosen(value);
  };

  input.addEventListener("input", () => open(true));
  input.addEventListener("focus", () => input.select());
  input.addEventListener("click", () => {
    if (!isOpen()) open(false);
  });
  input.addEventListener("blur", () => settle(input.value.trim()));
  input.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey) return;
    switch (event.key) {
      case "ArrowDown":
      case "ArrowUp": {
        event.preventDefault();
        if (!isOpen()) {
          open(false);
          if (event.altKey) return;
        }
        const [count, step] = [shown.length, event.key === "ArrowDown" ? 1 : -1];
        if (count > 0) activate(active < 0 && step < 0 ? count - 1 : (active + step + count) % count);
        return;
      }
      case "Enter": {
        const picked = shown[active] ?? (shown.length === 1 ? shown[0] : undefined);
        if (isOpen() && picked !== undefined) {
          event.preventDefault();
          settle(picked);
          input.select();
        } else {
          settle(input.value.trim());
        }
        return;
      }
      case "Escape":
        if (!isOpen() && input.value === settled) return;
        event.preventDefault();
        event.stopPropagation();
        close();
        input.value = settled;
        return;
      default:
        return;
    }
  });
  // The field keeps the focus while the list is pressed; otherwise leaving it would close the list first.
  list.addEventListener("mousedown", (event) => event.preventDefault());
  list.addEventListener("click", (event) => {
    const option = event.target instanceof Element ? event.target.closest('[role="option"]') : null;
    const index = option === null ? -1 : [...list.children].indexOf(option);
    const picked = shown[index];
    if (picked !== undefined) settle(picked);
  });

  return {
    block,
    input,
    setOptions: (given) => {
      options = given;
    },
    setValue: (value) => {
      settled = value;
      if (document.activeElement !== input) input.value = value;
    },
    setProblem: (words) => {
      problem.textContent = words ?? "";
      setAttribute(input, "aria-invalid", words === null ? null : "true");
      setAttribute(input, "aria-describedby", words === null ? null : problemId);
    },
  };
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
