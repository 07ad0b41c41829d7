/**
 * Writes the icons' PNG files from their SVG sources:
 *
 *   tsx src/tools/draw-icons.ts
 */
import { readFileSync, writeFileSync } from "node:fs";
import { drawIcon, ICONS } from "./icon-drawing";
import { inProject } from "./paths";

for (const { pixels, source } of ICONS) {
  const svg = readFileSync(inProject("src/taskpane/icons", source), "utf8");
  writeFileSync(inProject("src/taskpane/icons", `icon-${String(pixels)}.png`), drawIcon(svg, pixels));
}
