/** Practices that are known in full, as `drawn-logs.ts` writes them down. Everything is invented. */
import type { sheet } from "../core/log-layout/sheets";
import type { Draw } from "./draw";
import { ATHLETES, TRICKS } from "./drawn-words";

export type Written = Parameters<typeof sheet>[1][number][number];

/** A set as it was practised: c, d and b in order. */
export interface PractisedSet {
  readonly day: string;
  readonly athlete: string;
  readonly trick: string;
  readonly apart: boolean;
  readonly marks: string;
}

const MILLISECONDS_IN_DAY = 86_400_000;

export function practise(draw: Draw, setSize: number, sameSize: boolean, bails: boolean): readonly PractisedSet[] {
  const athletes = draw.of(ATHLETES).slice(0, draw.whole(1, 4));
  const tricks = draw.of(TRICKS).slice(0, draw.whole(1, 4));
  const sets: PractisedSet[] = [];
  let at = Date.UTC(2025, draw.whole(0, 11), draw.whole(1, 28));
  const days = draw.whole(3, 12);
  const skill = 0.4 + 0.55 * draw.next();
  for (let count = 0; count < days; count += 1) {
    for (const athlete of athletes) {
      for (const trick of tricks) {
        if (!draw.chance(0.7)) continue;
        const size = sameSize ? setSize : Math.max(1, setSize + draw.whole(-3, 3));
        const marks = Array.from({ length: size }, () =>
          draw.chance(skill) ? "c" : bails && draw.chance(0.3) ? "b" : "d",
        );
        sets.push({
          day: new Date(at).toISOString().slice(0, 10),
          athlete,
          trick,
          apart: draw.chance(0.2),
          marks: marks.join(""),
        });
      }
    }
    at += draw.whole(1, 5) * MILLISECONDS_IN_DAY;
  }
  return sets;
}

export const caughtIn = (marks: string): number => [...marks].filter((mark) => mark === "c").length;
export const droppedIn = (marks: string): number => [...marks].filter((mark) => mark === "d").length;
export const bailedIn = (marks: string): number => [...marks].filter((mark) => mark === "b").length;
