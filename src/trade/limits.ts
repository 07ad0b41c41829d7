/** The longest practice of one set that a row may hold: common practice, no source. */
export const MOST_MINUTES = 600;

/** The largest log that is answered: the beta tails are held to their digits up to here, and no club has more. */
export const MOST_ATTEMPTS = 10_000_000;

/** Minutes of a day: no practice has more. */
export const DAY_MINUTES = 24 * 60;
