/**
 * What every picture of the pane is made of: the drawing, what it shows in sentences, its key and the same as a table. The
 * drawing takes its colours from the pane's style by class, so that it follows the theme; lines differ in their dashes
 * and marks in their shapes, so that it is read in black and white too.
 */
import { element } from "../../ui/dom";
import { texts } from "../../words/texts";
import { make, place } from "../../ui/svg";

interface KeyEntry {
  readonly sample: SVGElement;
  readonly words: string;
}

export interface Picture {
  readonly svg: SVGSVGElement;
  readonly title: string;
  /** The facts, in the order in which one would tell them. */
  readonly sentences: readonly string[];
  readonly key: readonly KeyEntry[];
  readonly table: { readonly headings: readonly string[]; readonly rows: readonly (readonly string[])[] };
  /** What to take care of with what is shown, or null. */
  readonly caution: string | null;
}

export interface Point {
  readonly x: number;
  readonly y: number;
}

const FONT_PIXELS = 11;
/** About the width of a letter, for what must not run over its neighbour. */
export const LETTER_PIXELS = 6.2;

export function drawing(width: number, height: number, ...content: readonly SVGElement[]): SVGSVGElement {
  const svg = make("svg", {
    viewBox: `0 0 ${place(width)} ${place(height)}`,
    width: place(width),
    height: place(height),
    role: "img",
    class: "twirl-drawing",
    "font-size": FONT_PIXELS,
  });
  svg.append(...content);
  return svg;
}

/** A line with one of the style's looks, such as `axis`, `grid`, `standard`. */
export function stroke(look: string, from: Point, to: Point): SVGElement {
  return make("line", {
    class: `twirl-${look}`,
    x1: place(from.x),
    y1: place(from.y),
    x2: place(to.x),
    y2: place(to.y),
  });
}

export function words(
  text: string,
  at: Point,
  anchor: "start" | "middle" | "end" = "start",
  look = "words",
): SVGElement {
  return make("text", { class: `twirl-${look}`, x: place(at.x), y: place(at.y), "text-anchor": anchor }, text);
}

export function dot(look: string, at: Point, radius: number): SVGElement {
  return make("circle", { class: `twirl-${look}`, cx: place(at.x), cy: place(at.y), r: place(radius) });
}

export function path(look: string, points: readonly Point[]): SVGElement {
  const through = points.map(({ x, y }) => `${place(x)},${place(y)}`).join(" ");
  return make("polyline", { class: `twirl-${look}`, points: through });
}

export function box(look: string, at: Point, width: number, height: number, fill?: string): SVGElement {
  const size = { width: place(width), height: place(height) };
  return make("rect", {
    ...{ class: `twirl-${look}`, x: place(at.x), y: place(at.y), ...size },
    ...(fill === undefined ? {} : { fill }),
  });
}

/** A cross through a point. */
export function cross(look: string, { x, y }: Point, reach: number): SVGElement {
  const [step, back] = [place(2 * reach), place(-2 * reach)];
  return make("path", {
    class: `twirl-${look}`,
    d: `M${place(x - reach)},${place(y - reach)}l${step},${step}m0,${back}l${back},${step}`,
  });
}

/** A small triangle that stands on its point. */
export function flag(look: string, { x, y }: Point): SVGElement {
  return make("path", { class: `twirl-${look}`, d: `M${place(x)},${place(y)}l-4,-8h8z` });
}

let patterns = 0;

/** Slanting lines to fill with, where a colour would say it for some people only. */
export function hatching(): { readonly definition: SVGElement; readonly fill: string } {
  patterns += 1;
  const id = `twirl-hatching-${String(patterns)}`;
  const pattern = make("pattern", {
    ...{ id, width: 5, height: 5, patternUnits: "userSpaceOnUse", patternTransform: "rotate(45)" },
  });
  pattern.append(make("line", { class: "twirl-hatch", x1: 0, y1: 0, x2: 0, y2: 5 }));
  const definition = make("defs", {});
  definition.append(pattern);
  return { definition, fill: `url(#${id})` };
}

const SAMPLE = { width: 26, height: 14 } as const;

/** One entry of the key: a small drawing, 26 by 14 pixels, and what it means. */
export function keyEntry(meaning: string, ...content: readonly SVGElement[]): KeyEntry {
  const sample = make("svg", {
    ...{ viewBox: `0 0 ${String(SAMPLE.width)} ${String(SAMPLE.height)}`, ...SAMPLE },
    ...{ class: "twirl-drawing", "aria-hidden": "true" },
  });
  sample.append(...content);
  return { sample, words: meaning };
}

let figures = 0;

/** The picture with all its words, as it stands on the page. A screen reader hears the title and the facts once. */
export function figureOf(picture: Picture, tableOpen: boolean): HTMLElement {
  figures += 1;
  const factsId = `twirl-facts-${String(figures)}`;
  picture.svg.setAttribute("aria-label", picture.title);
  picture.svg.setAttribute("aria-describedby", factsId);
  const { headings, rows } = picture.table;
  return element(
    "figure",
    { class: "twirl-figure" },
    element("h3", {}, picture.title),
    picture.svg,
    element(
      "ul",
      { class: "twirl-key" },
      ...picture.key.map(({ sample, words: meaning }) => element("li", {}, sample, element("span", {}, meaning))),
    ),
    picture.caution === null ? null : element("p", { class: "twirl-care" }, picture.caution),
    element("figcaption", { id: factsId }, ...picture.sentences.map((sentence) => element("p", {}, sentence))),
    element(
      "details",
      { class: "twirl-numbers", open: tableOpen },
      element("summary", {}, texts.picturesTable),
      element(
        "div",
        { class: "twirl-scroll", tabindex: 0, role: "region", "aria-label": texts.picturesTable },
        element(
          "table",
          {},
          element(
            "thead",
            {},
            element("tr", {}, ...headings.map((heading) => element("th", { scope: "col" }, heading))),
          ),
          element(
            "tbody",
            {},
            ...rows.map(([first = "", ...others]) =>
              element(
                "tr",
                {},
                element("th", { scope: "row" }, first),
                ...others.map((value) => element("td", {}, value)),
              ),
            ),
          ),
        ),
      ),
    ),
  );
}
