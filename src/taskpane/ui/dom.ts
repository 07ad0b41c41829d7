/**
 * A few lines over the document, so that views read as what they show. Text always goes in as a text node: what a
 * person typed can never turn into markup.
 */
type Child = Node | string | null;

interface Attributes {
  readonly [name: string]: string | number | boolean | undefined;
}

/** An element with its attributes and children. `true` sets an attribute without a value, `false` and undefined leave it out. */
export function element<Tag extends keyof HTMLElementTagNameMap>(
  tag: Tag,
  attributes: Attributes = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[Tag] {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === undefined || value === false) continue;
    made.setAttribute(name, value === true ? "" : String(value));
  }
  made.append(...children.filter((child): child is Node | string => child !== null));
  return made;
}

/** Sets an attribute, or takes it away where the value is null. */
export function setAttribute(on: Element, name: string, value: string | null): void {
  if (value === null) on.removeAttribute(name);
  else on.setAttribute(name, value);
}

/**
 * Says something in a live region. The same words twice in a row would not be spoken again, so the region is emptied
 * first and filled in the next task.
 */
export function say(region: HTMLElement, words: string): void {
  region.textContent = "";
  setTimeout(() => {
    region.textContent = words;
  }, 0);
}

/** Left alone where it says this already: a live region would be read out again. */
export function setText(on: HTMLElement, words: string): void {
  if (on.textContent !== words) on.textContent = words;
}

/** What can be chosen, and what is; left alone where it holds these already: a list that is open would close. */
export function setOptions(
  select: HTMLSelectElement,
  options: readonly { readonly value: string; readonly words: string }[],
  chosen: string,
): void {
  const present = [...select.options];
  const isSame =
    present.length === options.length &&
    options.every(({ value, words }, index) => value === present[index]?.value && words === present[index].text);
  if (!isSame) select.replaceChildren(...options.map(({ value, words }) => element("option", { value }, words)));
  select.value = chosen;
}
