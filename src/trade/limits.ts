/** The largest log that is answered: the beta tails are held to their digits up to here, and no club has more. */
export const MOST_ATTEMPTS = 10_000_000;
