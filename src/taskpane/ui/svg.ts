/** A few lines over SVG elements, so that a picture reads as what it shows. Words always go in as text nodes. */
const SVG = "http://www.w3.org/2000/svg";

export type Attributes = Readonly<Record<string, string | number>>;

export function make<Name extends keyof SVGElementTagNameMap>(
  name: Name,
  attributes: Attributes,
  words?: string,
): SVGElementTagNameMap[Name] {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, String(value));
  if (words !== undefined) made.textContent = words;
  return made;
}

export function line(x1: number, y1: number, x2: number, y2: number, stroke: string): SVGElement {
  return make("line", { x1: place(x1), y1: place(y1), x2: place(x2), y2: place(y2), stroke });
}

/** A tenth of a pixel is finer than any eye. */
export function place(value: number): string {
  return String(Math.round(value * 10) / 10);
}
