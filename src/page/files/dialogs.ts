/** Questions of the page: the browser's own dialog element, which keeps the keyboard inside and closes by Escape. */

interface Choice<Value> {
  readonly label: string;
  readonly value: Value;
}

interface Question<Value> {
  readonly title: string;
  /** Paragraphs, and lists where one is an array. */
  readonly words: readonly (string | readonly string[])[];
  /** The first one is chosen by Enter. */
  readonly choices: readonly Choice<Value>[];
}

/** Answers the choice, or undefined where the dialog is closed without one. */
export function ask<Value>({ title, words, choices }: Question<Value>): Promise<Value | undefined> {
  const dialog = document.createElement("dialog");
  dialog.className = "page-dialog";
  const heading = document.createElement("h2");
  heading.id = "page-dialog-title";
  heading.textContent = title;
  dialog.setAttribute("aria-labelledby", heading.id);
  dialog.append(heading, ...words.map(paragraph));
  const buttons = document.createElement("div");
  buttons.className = "page-dialog-buttons";
  dialog.append(buttons);
  const before = document.activeElement;
  return new Promise((resolve) => {
    let chosen: Value | undefined;
    for (const { label, value } of choices) {
      const button = document.createElement("button");
      button.type = "button";
      button.textContent = label;
      button.addEventListener("click", () => {
        chosen = value;
        dialog.close();
      });
      buttons.append(button);
    }
    dialog.addEventListener("close", () => {
      dialog.remove();
      takeBack(before);
      resolve(chosen);
    });
    // The grid listens for keys on the whole page: what is typed here is not for its cells.
    dialog.addEventListener("keydown", (event) => event.stopPropagation());
    document.body.append(dialog);
    dialog.showModal();
    buttons.querySelector("button")?.focus();
  });
}

/**
 * The browser gives the keys back to what had them, which the grid does not hear of: it would let what is typed next go
 * by, until somebody clicks.
 */
function takeBack(before: Element | null): void {
  if (!(before instanceof HTMLElement) || document.activeElement !== before) return;
  before.blur();
  before.focus();
}

function paragraph(words: string | readonly string[]): HTMLElement {
  if (typeof words === "string") {
    const element = document.createElement("p");
    element.textContent = words;
    return element;
  }
  const list = document.createElement("ul");
  for (const item of words) {
    const element = document.createElement("li");
    element.textContent = item;
    list.append(element);
  }
  return list;
}
