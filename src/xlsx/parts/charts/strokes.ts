/** How the file names dashes and markers. */
import type { LineDrawing, MarkerDrawing } from "../../../workbook/plan/looks";

export const DASHES = {
  solid: "solid",
  dash: "dash",
  longDash: "lgDash",
  dot: "sysDot",
} as const satisfies Record<LineDrawing["dash"], string>;

export const SYMBOLS = { cross: "x", circle: "circle" } as const satisfies Record<MarkerDrawing["shape"], string>;
