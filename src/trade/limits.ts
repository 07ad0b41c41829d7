/** The longest practice of one set that a row may hold: common practice, no source. */
export const MOST_MINUTES = 600;

/** The largest log that is answered: the beta tails are held to their digits up to here, and no club has more. */
export const MOST_ATTEMPTS = 10_000_000;
