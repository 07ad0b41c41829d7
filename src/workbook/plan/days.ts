/**
 * The days that a season's sheets take. A number alone would be a day of its own for a spreadsheet: 10 is the 10th of January
 * 1900, in a cell that was to say "the 10th".
 */

/** A practice log is read for these years, and no others. */
export const EARLIEST_YEAR = 1980;
export const LATEST_YEAR = 2079;

/** As a sheet counts days: 1 January 1980 and 31 December 2079. */
export const FIRST_DAY = 29_221;
export const LAST_DAY = 65_745;

/** Every spreadsheet reads this form, whatever the language of the computer. */
export const DAY_EXAMPLE = "2026-10-13";
