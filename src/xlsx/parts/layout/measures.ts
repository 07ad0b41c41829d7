/** Widths and heights: the file counts characters and points, the grid pixels. */

/** The usual font's digits are seven pixels wide at its usual size. */
const DIGIT_PIXELS = 7;
const PIXELS_A_POINT = 96 / 72;

/** A column of so many characters, padding included (ECMA-376 part 1, 18.3.1.13). */
export function columnPixels(characters: number): number {
  return Math.trunc(((256 * characters + Math.trunc(128 / DIGIT_PIXELS)) / 256) * DIGIT_PIXELS);
}

export function columnCharacters(pixels: number): number {
  return Math.trunc((pixels / DIGIT_PIXELS) * 256) / 256;
}

export function rowPixels(points: number): number {
  return Math.round(points * PIXELS_A_POINT);
}

export function rowPoints(pixels: number): number {
  return Math.round((pixels / PIXELS_A_POINT) * 100) / 100;
}
