/** The club's routine as it stands at the end of the season. Who has not got a toss of it yet puts a roll in its place. */
import type { RoutineEntry } from "../season/season";

/** Between the tosses rolls and contact material take their counts. */
export const routine: readonly RoutineEntry[] = [
  { trick: "Opening and salute", ownCounts: 16 },
  { trick: "Double spin", ownCounts: null },
  { trick: "Contact material", ownCounts: 72 },
  { trick: "Flat under-leg", ownCounts: null },
  { trick: "Single illusion", ownCounts: null },
  { trick: "Rolls", ownCounts: 96 },
  { trick: "Leap", ownCounts: null },
  { trick: "Open hand back catch", ownCounts: null },
  { trick: "Contact material", ownCounts: 88 },
  { trick: "Cartwheel blind catch", ownCounts: null },
  { trick: "Rolls", ownCounts: 64 },
  { trick: "Triple spin", ownCounts: null },
  { trick: "Finish", ownCounts: 32 },
];
