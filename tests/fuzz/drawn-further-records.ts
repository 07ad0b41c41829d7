/** Ways to write attempts down that fewer clubs have: rates, one attempt a row, strokes, numbers of one set size. */
import type { Corrections } from "../../src/core/log-layout/find-layout";
import type { RecordColumns } from "../../src/core/log-layout/mapping";
import type { Draw } from "./draw";
import type { RecordWay, UsualRecord } from "./drawn-records";
import type { Words } from "./drawn-words";
import { bailedIn, caughtIn, droppedIn, type Written } from "./practised";

type Make = (draw: Draw, words: Words, common: UsualRecord) => RecordWay;

const asRate = (part: number, whole: number): Written => {
  const value = part / whole;
  return { value, format: "0%", text: `${String(Math.round(100 * value))}%` };
};

const tally = (columns: object): RecordColumns => ({ kind: "tally", ...columns }) as RecordColumns;
const unsaid = (): null => null;

const MAKES: readonly Make[] = [
  (draw, words, common) => ({
    ...common,
    name: "one number, always of the same size",
    sameSize: true,
    headings: [draw.of(words.caught)],
    cells: ({ marks }) => [caughtIn(marks)],
    record: unsaid,
    spoils: false,
  }),
  (draw, _, common) => {
    const way = draw.of(["rate", "text", "number"] as const);
    return {
      ...common,
      name: `per cent alone, as a ${way}`,
      sameSize: draw.chance(0.6),
      headings: [draw.of(["%", "Rate", "Taux", "Quote", "Per cent"])],
      cells: ({ marks }) => {
        const value = caughtIn(marks) / marks.length;
        if (way === "rate") return [asRate(caughtIn(marks), marks.length)];
        return [way === "text" ? `${String(Math.round(100 * value))} %` : Math.round(100 * value)];
      },
      record: unsaid,
      spoils: false,
    };
  },
  (draw, words, common) => {
    const asNumber = draw.chance(0.5);
    return {
      ...common,
      name: asNumber ? "per cent as a number, and attempts" : "a rate, and attempts",
      headings: [draw.of(["%", "Rate", "Taux", "Quote"]), draw.of(words.attempts)],
      cells: ({ marks }) => [
        asNumber ? Math.round((100 * caughtIn(marks)) / marks.length) : asRate(caughtIn(marks), marks.length),
        marks.length,
      ],
      record: unsaid,
      spoils: false,
    };
  },
  (draw, words, common) => ({
    ...common,
    name: "numbers: caught, attempts, and a rate",
    headings: [draw.of(words.caught), draw.of(words.attempts), draw.of(["%", "Rate"])],
    cells: ({ marks }) => [caughtIn(marks), marks.length, asRate(caughtIn(marks), marks.length)],
    record: (first) => tally({ caught: first, attempts: first + 1 }),
    spoils: false,
  }),
  (draw, words, common) => ({
    ...common,
    name: "numbers: caught, dropped, attempts",
    headings: [draw.of(words.caught), draw.of(words.dropped), draw.of(words.attempts)],
    cells: ({ marks }) => [caughtIn(marks), droppedIn(marks), marks.length],
    record: (first) => tally({ caught: first, attempts: first + 2 }),
    spoils: false,
  }),
  (draw, words, common) => ({
    ...common,
    name: "numbers: caught, dropped, bails, attempts",
    bails: true,
    headings: [draw.of(words.caught), draw.of(words.dropped), draw.of(words.bailed), draw.of(words.attempts)],
    cells: ({ marks }) => [caughtIn(marks), droppedIn(marks), bailedIn(marks) || null, marks.length],
    record: (first) => tally({ caught: first, attempts: first + 3 }),
    spoils: false,
  }),
  (draw, words, common) => ({
    ...common,
    name: "numbers: attempts, dropped, bails",
    bails: true,
    headings: [draw.of(words.attempts), draw.of(words.dropped), draw.of(words.bailed)],
    cells: ({ marks }) => [marks.length, droppedIn(marks), bailedIn(marks) || null],
    record: (first) => tally({ attempts: first, dropped: first + 1, bailed: first + 2 }),
    spoils: false,
  }),
  (draw, words, common) => {
    const [signs, answers] = draw.of<readonly [readonly [Written, Written], Corrections]>([
      [["c", "d"], { key: null, blank: null }],
      [["✓", "✗"], { key: null, blank: null }],
      [["✓", null], { key: null, blank: "dropped" }],
      [[1, 0], { key: "1/0", blank: null }],
      [[1, null], { key: "1/0", blank: "dropped" }],
      [["x", null], { key: "x/d", blank: "dropped" }],
      [["x", "o"], { key: "x/o", blank: null }],
      [["yes", "no"], { key: null, blank: null }],
      [["oui", "non"], { key: "oui/non", blank: null }],
      [["hit", "miss"], { key: "hit/miss", blank: null }],
      [["ok", "-"], { key: "ok/-", blank: null }],
      [[true, false], { key: null, blank: null }],
    ]);
    return {
      ...common,
      name: `one attempt a row, ${signs.map(String).join(" and ")}`,
      setSize: 1,
      sameSize: true,
      headings: [draw.of(words.marks)],
      cells: ({ marks }) => [marks === "c" ? signs[0] : signs[1]],
      answers,
      spoils: false,
    };
  },
  (draw, words, common) => {
    const stroke = draw.of(["|", "I", "l", "/"]);
    const both = draw.chance(0.5);
    const strokes = (count: number): Written =>
      count === 0 ? null : stroke.repeat(count).replace(/(.{5})(?=.)/g, "$1 ");
    return {
      ...common,
      name: both ? "strokes, caught and dropped" : "strokes of what was caught",
      headings: both ? [draw.of(words.caught), draw.of(words.dropped)] : [draw.of(words.caught)],
      cells: ({ marks }) => (both ? [strokes(caughtIn(marks)), strokes(marks.length - caughtIn(marks))] : [strokes(caughtIn(marks))]), // prettier-ignore
      record: unsaid,
      spoils: false,
    };
  },
  (draw, words, common) => {
    const way = draw.of(["8-10", "8:10", "8 (10)", "8c 2d", "8 + 2", "8,10", "8.10", "8x of 10", "8 out of 10", "8 sur 10", "8 von 10"]); // prettier-ignore
    return {
      ...common,
      name: `a tally as ${way}`,
      answers: { tally: "caught/attempts" },
      headings: [draw.of(words.marks)],
      cells: ({ marks }) => {
        const [caught, attempts] = [caughtIn(marks), marks.length];
        const second = way === "8c 2d" || way === "8 + 2" ? attempts - caught : attempts;
        return [
          way
            .replace("10", "#")
            .replace(/2(?=d|$)/, "#")
            .replace("8", String(caught))
            .replace("#", String(second)),
        ];
      },
      record: unsaid,
      spoils: false,
    };
  },
  (draw, words, common) => ({
    ...common,
    name: "numbers as texts: caught, attempts",
    headings: [draw.of(words.caught), draw.of(words.attempts)],
    cells: ({ marks }) => [String(caughtIn(marks)), `${String(marks.length)}${draw.chance(0.2) ? " " : ""}`],
    record: (first) => tally({ caught: first, attempts: first + 1 }),
    spoils: false,
  }),
  (draw, words, common) => {
    const parted = draw.of([" ", ",", ", "]);
    return {
      ...common,
      name: "marks with spaces or commas",
      headings: [draw.of(words.marks)],
      cells: ({ marks }) => [[...(draw.chance(0.5) ? marks : marks.toUpperCase())].join(parted)],
    };
  },
  (draw, _, common) => {
    const sets = draw.whole(2, 4);
    const stem = draw.of(["Set ", "", "Serie "]);
    return {
      ...common,
      name: "a set a column, as numbers caught",
      sameSize: true,
      headings: Array.from({ length: sets }, (_, index) => `${stem}${String(index + 1)}`),
      cells: ({ marks }) =>
        Array.from({ length: sets }, () => Math.min(marks.length, Math.max(0, caughtIn(marks) + draw.whole(-2, 2)))),
      record: unsaid,
      spoils: false,
    };
  },
  (draw, words, common) => ({
    ...common,
    name: "a run, and how many of it were caught",
    headings: [draw.of(words.marks), draw.of(words.caught)],
    cells: ({ marks }) => [marks, caughtIn(marks)],
    spoils: false,
  }),
];

export function drawFurtherRecord(draw: Draw, words: Words, common: UsualRecord): RecordWay {
  return draw.of(MAKES)(draw, words, common);
}
