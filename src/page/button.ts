/** @param name what a screen reader calls it */
export function button(label: string, name: string, act: () => void): HTMLButtonElement {
  const element = document.createElement("button");
  element.type = "button";
  element.textContent = label;
  element.setAttribute("aria-label", name);
  element.addEventListener("click", act);
  return element;
}
