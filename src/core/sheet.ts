/** What every sheet has, whoever made it. Rows and columns count from 1. */

/** The last row and column of a sheet in the `.xlsx` format. */
export const LAST_ROW = 1_048_576;
export const LAST_COLUMN = 16_384;

/** 31 December 9999 as a sheet counts days: the last that it knows. */
export const LAST_DAY = 2_958_465;

/** `A` for 1, `Z` for 26, `AA` for 27. */
export function columnLetters(column: number): string {
  if (!Number.isInteger(column) || column < 1 || column > LAST_COLUMN) {
    throw new RangeError(`There is no column ${column} on a sheet.`);
  }
  let letters = "";
  for (let rest = column; rest > 0; rest = Math.floor((rest - 1) / 26)) {
    letters = String.fromCharCode(65 + ((rest - 1) % 26)) + letters;
  }
  return letters;
}

/**
 * 1 for `A`, 27 for `AA`; more than `LAST_COLUMN` for letters that name no column.
 * @param letters A to Z, large or small
 */
export function columnNumber(letters: string): number {
  let column = 0;
  // A small letter is its capital with one bit more.
  for (let index = 0; index < letters.length; index += 1)
    column = column * 26 + (letters.charCodeAt(index) & 0xdf) - 64;
  return column;
}
