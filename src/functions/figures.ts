/** An assessment as cells, the same on a card and on a board. */
import type { Assessment } from "../core/readiness";

/** An assessment's figures as cells; what cannot be said is an empty text, since null would show as 0. */
export function figures({ attempts, lastSet, recentRate, recentInterval, chance, streaks: runs }: Assessment) {
  return {
    lastSet: attempts > 0 ? `${lastSet.caught}/${lastSet.attempts}` : "",
    recentRate: recentRate ?? "",
    low: recentInterval?.low ?? "",
    high: recentInterval?.high ?? "",
    chance: chance ?? "",
    streak: attempts > 0 && runs ? runs.current : "",
    bestStreak: attempts > 0 && runs ? runs.best : "",
  };
}
