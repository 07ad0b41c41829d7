/** The toss tricks of the sample season. Counts, travel and values lie where a club's own would; no rule set gives them. */
import { USUAL_EXTRA_COUNTS } from "../../trade/usual";
import type { TrickDetails, TrickEntry } from "../season/season";

interface SampleTrick extends TrickEntry, TrickDetails {}

type Row = readonly [
  name: string,
  release: string,
  body: string,
  caught: string,
  hand: string,
  bodyCounts: number,
  travel: number,
  value: number,
  inRoutine: "in the routine" | "not in it",
];

/** With a ceiling of 9 m a toss of 7 counts fits, one of 8 comes close, one of 9 hits. */
const ROWS: readonly Row[] = [
  ["Double spin", "Thumb", "2 spins", "Hand", "right", 3, 0, 1.2, "in the routine"],
  ["Triple spin", "Thumb", "3 spins", "Hand", "right", 5, 0, 1.8, "in the routine"],
  ["Single illusion", "Thumb", "illusion", "Hand", "left", 4, 0.5, 1.6, "in the routine"],
  ["Double illusion", "Thumb", "2 illusions", "Hand", "left", 7, 1, 2.4, "not in it"],
  ["Cartwheel blind catch", "Backhand", "cartwheel", "Blind", "left", 4, 2, 1.9, "in the routine"],
  ["Front walkover", "Open hand", "front walkover", "Hand", "right", 6, 2.5, 2.1, "not in it"],
  ["Open hand back catch", "Open hand", "half turn", "Back", "left", 1, 0, 1, "in the routine"],
  ["Flat under-leg", "Flat", "leg lift", "Under-leg", "right", 1, 0, 0.8, "in the routine"],
  ["Single spin", "Thumb", "1 spin", "Hand", "right", 2, 0, 0.7, "not in it"],
  ["One and a half spin", "Thumb", "1½ spins", "Backhand", "right", 3, 0, 1.1, "not in it"],
  ["Quad spin", "Thumb", "4 spins", "Hand", "right", 6, 0, 2.3, "not in it"],
  ["Double spin blind catch", "Thumb", "2 spins", "Blind", "left", 3, 0, 1.7, "not in it"],
  ["Double spin left hand", "Thumb", "2 spins", "Hand", "left", 3, 0, 1.4, "not in it"],
  ["Illusion back catch", "Thumb", "illusion", "Back", "left", 4, 0.5, 2, "not in it"],
  ["Cartwheel", "Backhand", "cartwheel", "Hand", "left", 4, 2, 1.4, "not in it"],
  ["Back walkover", "Open hand", "back walkover", "Hand", "right", 6, 2, 2.2, "not in it"],
  ["Leap", "Open hand", "leap", "Hand", "either", 3, 2.5, 1.1, "in the routine"],
  ["Leap back catch", "Open hand", "leap", "Back", "left", 3, 2.5, 1.5, "not in it"],
  ["Flat single spin", "Flat", "1 spin", "Flat", "right", 2, 0, 0.9, "not in it"],
  ["Backhand head catch", "Backhand", "step under", "Head", "either", 1, 0.5, 1, "not in it"],
];

/** A blind or back catch is found later: one count more to spot it. */
const LATE_CATCHES: ReadonlySet<string> = new Set(["Illusion back catch", "Double spin blind catch"]);

export const sampleTricks: readonly SampleTrick[] = ROWS.map(
  ([name, release, body, caught, hand, bodyCounts, travel, value, inRoutine]) => ({
    name,
    bodyCounts,
    release,
    body,
    catch: caught,
    hand,
    extraCounts: USUAL_EXTRA_COUNTS + (LATE_CATCHES.has(name) ? 1 : 0),
    travel,
    value,
    inRoutine: inRoutine === "in the routine",
  }),
);
