/** What is usual where a club has said nothing else: common practice, no source. */
import type { Stage } from "./stages";

/** Share caught in a set: 8 of 10. */
export const USUAL_STANDARD = 0.8;

/** Attempts in a set. */
export const USUAL_SET_SIZE = 10;

/** Counts a minute as athletes say them: faster than the music's beat, and within the usual band of 190 to 230. */
export const USUAL_COUNTS_PER_MINUTE = 200;

/** Counts on top of a body move under the toss: one to spot, one to catch. */
export const USUAL_EXTRA_COUNTS = 2;

/** Attempts in a minute of practice with its breaks and talk, until an athlete's own minutes are logged. */
export const USUAL_ATTEMPTS_A_MINUTE = 1;

/** The stage of a set of which nothing else is said. */
export const USUAL_STAGE = "Joined" satisfies Stage;

/** Points lost for a drop, until the coach has looked at this year's rules. */
export const USUAL_DROP_COST = 0.5;

/** Days off in a row after which a practice day is the first day back: common practice, no source. */
export const USUAL_BREAK_DAYS = 7;
