/** The pane's own icons: line drawings on a square of 24, in the colour of the words beside them. */
import { make } from "../ui/svg";

const lines = {
  /** Four strokes and one across: a tally. */
  "log-set": "M6 5v14M10 5v14M14 5v14M18 5v14M3 16L21 8",
  /** A rate that rises and falls between two axes. */
  pictures: "M4 4v16h16M7 15l4-5 3 3 5-7",
  /** A sheet, and a sign to add one. */
  "new-season": "M6 3h9l4 4v14H6zM12.5 10v7M9 13.5h7",
  /** A table that is there already. */
  "own-sheet": "M4 5h16v14H4zM4 10h16M10 5v14",
  /** A pendulum that beats the counts. */
  tempo: "M9 3h6l4 18H5zM12 16l5-10",
  /** A page with lines. */
  "hand-out": "M6 3h12v18H6zM9 8h6M9 12h6M9 16h3",
  /** A function of x. */
  functions: "M13 4c-3 0-3 3-3.5 8S9 20 6 20M6 11h8M15 13l5 7M20 13l-5 7",
} as const;

export function icon(name: string): SVGSVGElement | null {
  const drawn = (lines as Readonly<Record<string, string>>)[name];
  if (drawn === undefined) return null;
  const svg = make("svg", { class: "twirl-icon", viewBox: "0 0 24 24", "aria-hidden": "true", focusable: "false" });
  svg.append(make("path", { d: drawn }));
  return svg;
}
