/** The ways in which clubs write attempts down, as `drawn-logs.ts` draws from. */
import type { Corrections } from "../../src/core/log-layout/find-layout";
import type { RecordColumns, TallyReading } from "../../src/core/log-layout/mapping";
import { serial } from "../core/log-layout/sheets";
import type { Draw } from "./draw";
import type { Words } from "./drawn-words";
import { drawFurtherRecord } from "./drawn-further-records";
import { bailedIn, caughtIn, droppedIn, type PractisedSet, type Written } from "./practised";

export interface RecordWay {
  readonly name: string;
  readonly setSize: number;
  readonly sameSize: boolean;
  readonly bails: boolean;
  /** Over each of its columns; `number` where the headings are 1, 2, 3. */
  readonly headings: readonly (string | number)[];
  readonly cells: (set: PractisedSet, row: number) => readonly Written[];
  readonly record: (first: number) => RecordColumns | null;
  readonly answers: Corrections;
  /** The columns of the record that hold the attempts, from the first of them. */
  readonly parts?: (
    set: PractisedSet,
  ) => readonly { readonly at: number; readonly caught: number; readonly attempts: number }[];
  /** A mark that is none may take a cell's place. */
  readonly spoils: boolean;
}

/** What most ways have in common. */
export type UsualRecord = Omit<RecordWay, "name" | "headings" | "cells" | "parts">;

const replaced = (marks: string, [caught, dropped]: readonly [string, string]): string =>
  [...marks].map((mark) => (mark === "c" ? caught : mark === "d" ? dropped : mark)).join("");

export function drawRecord(draw: Draw, words: Words): RecordWay {
  const setSize = draw.of([3, 5, 8, 10, 10, 10]);
  const one = (first: number): RecordColumns => ({ kind: "marks", first, last: first });
  const common: UsualRecord = {
    setSize,
    sameSize: draw.chance(0.7),
    bails: false,
    answers: {},
    spoils: true,
    record: one,
  };
  if (draw.chance(0.35)) return drawFurtherRecord(draw, words, common);
  const kind = draw.whole(0, 13);
  switch (kind) {
    case 0:
    case 1: {
      const upper = draw.chance(0.3);
      return {
        ...common,
        name: "a run of c and d",
        bails: draw.chance(0.3),
        headings: [draw.of(words.marks)],
        cells: ({ marks }) => [upper ? marks.toUpperCase() : marks],
      };
    }
    case 2: {
      const [signs, key] = draw.of<readonly [readonly [string, string], string | null]>([
        [["x", "o"], "x/o"],
        [["o", "x"], "o/x"],
        [["✓", "✗"], null],
        [["+", "-"], "+/-"],
        [["+", "o"], "+/o"],
        [["j", "n"], "j/n"],
      ]);
      return {
        ...common,
        name: `a run of ${signs.join(" and ")}`,
        headings: [draw.of(words.marks)],
        cells: ({ marks }) => [`${replaced(marks, signs)}`],
        answers: { key },
      };
    }
    case 3: {
      const spaced = draw.chance(0.2);
      return {
        ...common,
        name: "a tally of caught",
        headings: [draw.of([...words.marks, ...words.caught])],
        cells: ({ marks }) => [`${String(caughtIn(marks))}${spaced ? " / " : "/"}${String(marks.length)}`],
        answers: { tally: "caught/attempts" },
      };
    }
    case 4: {
      const reading: TallyReading = draw.of([
        "dropped/attempts",
        "caught/dropped",
        "dropped/caught",
        "attempts/caught",
      ]);
      const [first, second] = reading.split("/") as ["caught", "dropped"];
      const exact = draw.chance(0.7);
      const heading = exact ? `${draw.of(words[first])}/${draw.of(words[second]).toLowerCase()}` : reading === "dropped/attempts" ? draw.of(words.dropped) : draw.of(words.marks); // prettier-ignore
      const number = (part: string, marks: string): number =>
        part === "caught" ? caughtIn(marks) : part === "attempts" ? marks.length : marks.length - caughtIn(marks);
      return {
        ...common,
        name: `a tally of ${reading}, ${exact ? "both named" : "its heading names one or none"}`,
        // Where no heading says it, the sizes do: nobody could tell 2/8 and 3/9 of drops from a poor record.
        sameSize: exact ? common.sameSize : true,
        headings: [heading],
        cells: ({ marks }) => [`${String(number(first, marks))}/${String(number(second, marks))}`],
        answers: { tally: reading },
      };
    }
    case 5:
    case 6: {
      const [one, other] = draw.of([
        ["caught", "attempts"],
        ["attempts", "caught"],
        ["caught", "dropped"],
        ["attempts", "dropped"],
        ["caught", "notCaught"],
      ] as const);
      const bails = one !== "attempts" && other !== "attempts" && draw.chance(0.3);
      const number = (part: string, marks: string): number =>
        part === "caught" ? caughtIn(marks) : part === "attempts" ? marks.length : part === "notCaught" ? marks.length - caughtIn(marks) : droppedIn(marks); // prettier-ignore
      const roleOf = (part: string): string => (part === "notCaught" ? "dropped" : part);
      const isBails = bails && other !== "notCaught";
      return {
        ...common,
        name: `numbers: ${one}, ${other}${isBails ? ", bails" : ""}`,
        bails: isBails,
        headings: [draw.of(words[one]), draw.of(words[other]), ...(isBails ? [draw.of(words.bailed)] : [])],
        cells: ({ marks }) => [
          number(one, marks),
          number(other, marks),
          ...(isBails ? [bailedIn(marks) === 0 && draw.chance(0.5) ? null : bailedIn(marks)] : []),
        ],
        record: (first) =>
          ({
            kind: "tally",
            [roleOf(one)]: first,
            [roleOf(other)]: first + 1,
            ...(isBails ? { bailed: first + 2 } : {}),
          }) as unknown as RecordColumns,
        spoils: false,
      };
    }
    case 7:
    case 8:
    case 9: {
      const width = Math.min(setSize, 10);
      const [signs, answers] = draw.of<readonly [readonly [Written, Written], Corrections]>([
        [["c", "d"], { key: null, blank: null }],
        [["✓", "✗"], { key: null, blank: null }],
        [["✓", null], { key: null, blank: "dropped" }],
        [[1, 0], { key: "1/0", blank: null }],
        [[1, null], { key: "1/0", blank: "dropped" }],
        [["x", null], { key: "x/d", blank: "dropped" }],
        [[null, "x"], { key: "c/x", blank: "caught" }],
        [["x", "o"], { key: "x/o", blank: null }],
        [[true, false], { key: null, blank: null }],
        [[true, null], { key: null, blank: "dropped" }],
        [["✓", "-"], { key: "✓/-", blank: null }],
      ]);
      const lone = answers.blank !== null;
      const stem = draw.of(words.tries);
      const heading = draw.of<(index: number) => string | number>([
        (index) => index + 1,
        (index) => `${stem} ${String(index + 1)}`,
        (index) => (index === 0 ? stem : ""),
      ]);
      return {
        ...common,
        name: `one attempt a column, ${signs.map(String).join(" and ")}`,
        setSize: width,
        sameSize: lone,
        headings: Array.from({ length: lone ? width : width + 3 }, (_, index) => heading(index)),
        cells: ({ marks }) =>
          Array.from({ length: lone ? width : width + 3 }, (_, index) =>
            index >= marks.length ? null : marks[index] === "c" ? signs[0] : signs[1],
          ),
        record: (first) => ({ kind: "marks", first, last: first + (lone ? width : width + 3) - 1 }),
        answers,
        spoils: !lone,
      };
    }
    case 10: {
      const sets = draw.whole(2, 4);
      return {
        ...common,
        name: "a set a column, as tallies",
        headings: Array.from({ length: sets }, (_, index) => `Set ${String(index + 1)}`),
        cells: ({ marks }) => Array.from({ length: sets }, () => `${String(caughtIn(marks))}/${String(marks.length)}`),
        record: (first) => ({ kind: "marks", first, last: first + sets - 1 }),
        answers: { tally: "caught/attempts" },
        parts: ({ marks }) =>
          Array.from({ length: sets }, (_, at) => ({ at, caught: caughtIn(marks), attempts: marks.length })),
      };
    }
    case 11: {
      const order = draw.of(["day/month", "month/day"] as const);
      return {
        ...common,
        name: `tallies that became days, ${order}`,
        setSize: 10,
        sameSize: true,
        headings: [draw.of(words.marks)],
        cells: ({ marks }) => {
          const caught = caughtIn(marks);
          if (caught === 0) return [`0/${String(marks.length)}`];
          const [date, month] = order === "day/month" ? [caught, marks.length] : [marks.length, caught];
          const iso = `2026-${String(month).padStart(2, "0")}-${String(date).padStart(2, "0")}`;
          return [{ value: serial(iso), format: "d-mmm", text: `${String(date)}-${String(month)}` }];
        },
        answers: { turned: order, tally: "caught/attempts" },
        spoils: false,
      };
    }
    case 12: {
      const way = draw.of(["of", "dash"] as const);
      return {
        ...common,
        name: way === "of" ? "8 of 10" : "C-D-C",
        answers: way === "of" ? { tally: "caught/attempts" } : {},
        headings: [draw.of(words.marks)],
        cells: ({ marks }) => [
          way === "of" ? `${String(caughtIn(marks))} of ${String(marks.length)}` : [...marks.toUpperCase()].join("-"),
        ],
        spoils: false,
      };
    }
    default: {
      const hands = draw.of([
        ["Right", "Left"],
        ["Droite", "Gauche"],
        ["A", "B"],
      ] as const);
      return {
        ...common,
        name: "two hands side by side",
        headings: [...hands],
        cells: ({ marks }) => [`${String(caughtIn(marks))}/${String(marks.length)}`, `${String(marks.length - 1)}/${String(marks.length)}`], // prettier-ignore
        record: (first) => ({ kind: "marks", first, last: first + 1 }),
        answers: { tally: "caught/attempts" },
        parts: ({ marks }) => [
          { at: 0, caught: caughtIn(marks), attempts: marks.length },
          { at: 1, caught: marks.length - 1, attempts: marks.length },
        ],
      };
    }
  }
}
