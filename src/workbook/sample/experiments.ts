/**
 * What is tried out in the sample season: two other ways into a trick that slides, and a left hand that is only tried on
 * tricks that are hard anyway. The days and the marks of everybody else stay as they are.
 */
import type { PracticeEntry } from "../season/season";
import { dayOf } from "./calendar";
import { Chance } from "./chance";

const ATHLETE = "M.K.";
const SLIDING = "Cartwheel blind catch";
const USUAL = "Walk";

interface Trial {
  readonly entrance: string;
  readonly days: readonly number[];
  /** True catch rate of the usual way and of the one that is tried, alternating within the practice. */
  readonly rates: { readonly usual: number; readonly tried: number };
  readonly note: string;
}

const TRIALS: readonly Trial[] = [
  {
    entrance: "Run-up",
    days: [dayOf(20, 2), dayOf(21, 0), dayOf(21, 2)],
    rates: { usual: 0.5, tried: 0.15 },
    note: "A run-up into it, in turn with the walk: too much travel",
  },
  {
    entrance: "Half turn",
    days: [dayOf(22, 0), dayOf(22, 2), dayOf(23, 0), dayOf(23, 2)],
    rates: { usual: 0.4, tried: 0.9 },
    note: "A half turn into it, in turn with the walk: the eyes find the baton",
  },
];

const TRIES = 10;

/** A set of the usual way and one of the other, on each day of a trial. */
export function trials(): readonly PracticeEntry[] {
  const chance = new Chance(`${ATHLETE} ${SLIDING} entrances`);
  return TRIALS.flatMap(({ entrance, days, rates, note }) =>
    days.flatMap((date, index) =>
      [
        { way: USUAL, rate: rates.usual, words: "" },
        { way: entrance, rate: rates.tried, words: index === 0 ? note : "" },
      ].map(({ way, rate, words }): PracticeEntry => ({
        date,
        athlete: ATHLETE,
        trick: SLIDING,
        stage: "Joined",
        marks: marksOf(rate, chance),
        minutes: null,
        entrance: way,
        note: words,
      })),
    ),
  );
}

function marksOf(rate: number, chance: Chance): string {
  const marks = Array.from({ length: TRIES }, () => (chance.happens(rate) ? "c" : "d"));
  return `${marks.slice(0, TRIES / 2).join("")} ${marks.slice(TRIES / 2).join("")}`;
}

/** Hard tricks that are practised with the left hand every second time: of all catches few, and no fewer than with the right. */
const LEFT_HANDED: ReadonlySet<string> = new Set(["Front walkover", "Triple spin"]);

export function withConditions(entries: readonly PracticeEntry[]): readonly PracticeEntry[] {
  const turns = new Map<string, number>();
  return entries.map((entry) => {
    if (entry.athlete !== ATHLETE || !LEFT_HANDED.has(entry.trick) || entry.stage === "Run-through") return entry;
    const turn = turns.get(entry.trick) ?? 0;
    turns.set(entry.trick, turn + 1);
    return turn % 2 === 0 ? { ...entry, condition: "left hand" } : entry;
  });
}
