/** The club's routine as it stands at the end of the season. Who has not got a toss of it yet puts a roll in its place. */
import type { LimitEntry, RoutineEntry, SwapEntry } from "../season/season";
import { dayOf } from "./calendar";

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

/** Out after the winter contest, and the leap to the hand in its place; the illusion came back after a month apart. */
export const swaps: readonly SwapEntry[] = [
  { athlete: "A.R.", out: "Single illusion", in: "Leap", day: dayOf(10, 0), back: dayOf(14, 0) },
  { athlete: "D.L.", out: "Leap back catch", in: "Leap", day: dayOf(18, 0), back: null },
  { athlete: "M.K.", out: "Leap back catch", in: "Leap", day: dayOf(18, 0), back: null },
];

/** What the club has written down of its own rules; invented, as the club is. */
export const limits: readonly LimitEntry[] = [
  { on: "Tosses", named: "", most: 8 },
  { on: "Seconds", named: "", most: 150 },
  { on: "Tricks named", named: "spin", most: 2 },
  { on: "Tricks named", named: "quad", most: 0 },
];
