/** The routine as a strip in time, a line for each half minute, each toss with the share of its tries that is dropped. */
import { clock, type TimelineEntry } from "../../../core/timeline";
import { decimals, percent } from "../../words/number-text";
import { texts } from "../../words/texts";
import { box, drawing, hatching, keyEntry, stroke, words, type Picture } from "./picture";

export interface RoutineStep extends TimelineEntry {
  /** Share caught; undefined for what is no toss, and for a trick without a record. */
  readonly rate: number | undefined;
  readonly hasCounts: boolean;
}

interface RoutineQuestion {
  readonly athlete: string;
  readonly steps: readonly RoutineStep[];
  readonly limitSeconds: number | undefined;
  readonly cleanChance: number | undefined;
  readonly expectedDrops: number;
}

const EDGE = 34;
const BAR = 40;
const LINE = 66;
/** So wide at the least that the numbers of short tosses stand apart. */
const PIXELS_A_SECOND = 7.5;
const LINE_LENGTHS = [20, 30, 60] as const;

export function routinePicture(question: RoutineQuestion, width: number): Picture {
  const { steps, limitSeconds } = question;
  const end = steps.at(-1)?.endSeconds ?? 0;
  const across = width - EDGE - 6;
  const lineSeconds =
    [...LINE_LENGTHS].reverse().find((seconds) => across / seconds >= PIXELS_A_SECOND) ?? LINE_LENGTHS[0];
  const pixels = across / lineSeconds;
  const lines = Math.max(1, Math.ceil((Math.max(end, limitSeconds ?? 0) - 1e-9) / lineSeconds));
  const hatch = hatching();

  const svg = drawing(
    width,
    lines * LINE + 4,
    hatch.definition,
    ...Array.from({ length: lines }, (_, line) => {
      const base = line * LINE + 14 + BAR;
      return [
        words(minutes(line * lineSeconds), { x: EDGE - 4, y: base }, "end"),
        stroke("axis", { x: EDGE, y: base }, { x: EDGE + across, y: base }),
        ...Array.from({ length: lineSeconds / 5 + 1 }, (__, tick) => {
          const at = EDGE + tick * 5 * pixels;
          return stroke("axis", { x: at, y: base }, { x: at, y: base + (tick % 2 === 0 ? 5 : 3) });
        }),
      ];
    }).flat(),
    ...steps.flatMap((step, index) => stepParts(step, index + 1, { lineSeconds, pixels, fill: hatch.fill })),
    ...(limitSeconds === undefined ? [] : [limitMark(limitSeconds, lineSeconds, pixels)]),
  );

  const rated = steps.filter(({ rate }) => rate !== undefined);
  const risky = [...rated]
    .sort((one, other) => (one.rate ?? 1) - (other.rate ?? 1))
    .filter(({ rate }) => rate !== undefined && rate < 1)
    .slice(0, 3);
  const without = steps.filter(({ hasCounts }) => !hasCounts).length;
  const key = hatching();
  return {
    svg,
    title: texts.pictureOf(texts.pictureNames.routine, question.athlete),
    sentences: [
      texts.routineEntries(steps.length, rated.length, clock(end)),
      ...(limitSeconds === undefined ? [] : [limitInWords(end, limitSeconds)]),
      ...(question.cleanChance === undefined
        ? []
        : [texts.routineClean(percent(question.cleanChance), decimals(question.expectedDrops, 1))]),
      ...(risky.length === 0
        ? []
        : [
            texts.routineRisk(
              risky
                .map(({ trick, startSeconds, rate = 1 }) =>
                  texts.routineRiskOf(trick, clock(startSeconds), percent(1 - rate)),
                )
                .join("; "),
            ),
          ]),
      ...(without === 0 ? [] : [texts.routineNoCounts(without)]),
    ],
    key: [
      keyEntry(
        texts.routineKey.risk,
        key.definition,
        box("step", { x: 6, y: 1 }, 14, 12),
        box("risk", { x: 6, y: 7 }, 14, 6, key.fill),
      ),
      ...(rated.length < steps.length
        ? [keyEntry(texts.routineKey.none, box("step-none", { x: 6, y: 1 }, 14, 12))]
        : []),
      ...(limitSeconds === undefined
        ? []
        : [keyEntry(texts.routineKey.limit, stroke("limit", { x: 13, y: 0 }, { x: 13, y: 14 }))]),
    ],
    table: {
      headings: texts.routineHeadings,
      rows: steps.map(({ trick, startSeconds, rate }, index) => [
        String(index + 1),
        trick,
        clock(startSeconds),
        rate === undefined ? "–" : percent(rate),
        rate === undefined ? "–" : percent(1 - rate),
      ]),
    },
    caution: null,
  };
}

interface Strip {
  readonly lineSeconds: number;
  readonly pixels: number;
  readonly fill: string;
}

/** A step may run over the end of a line: then it has a box on each. Its number stands in the first. */
function stepParts(step: RoutineStep, number: number, { lineSeconds, pixels, fill }: Strip): readonly SVGElement[] {
  const { startSeconds, endSeconds, rate } = step;
  if (endSeconds <= startSeconds) return [];
  const first = Math.floor(startSeconds / lineSeconds + 1e-9);
  const last = Math.ceil(endSeconds / lineSeconds - 1e-9) - 1;
  return Array.from({ length: last - first + 1 }, (_, index) => {
    const line = first + index;
    const from = Math.max(startSeconds, line * lineSeconds) - line * lineSeconds;
    const to = Math.min(endSeconds, (line + 1) * lineSeconds) - line * lineSeconds;
    const [left, wide, top] = [EDGE + from * pixels, (to - from) * pixels, line * LINE + 14];
    const risk = rate === undefined ? 0 : (1 - rate) * BAR;
    return [
      box(rate === undefined ? "step-none" : "step", { x: left, y: top }, wide, BAR),
      ...(risk > 0 ? [box("risk", { x: left, y: top + BAR - risk }, wide, risk, fill)] : []),
      ...(index === 0 ? [words(String(number), { x: left + Math.min(wide / 2, 9), y: top - 3 }, "middle")] : []),
    ];
  }).flat();
}

function limitMark(limitSeconds: number, lineSeconds: number, pixels: number): SVGElement {
  // A limit at the end of a line is drawn there, not at the start of the next.
  const line = Math.max(0, Math.ceil(limitSeconds / lineSeconds - 1e-9) - 1);
  const at = EDGE + (limitSeconds - line * lineSeconds) * pixels;
  return stroke("limit", { x: at, y: line * LINE + 4 }, { x: at, y: line * LINE + 14 + BAR + 8 });
}

function limitInWords(end: number, limitSeconds: number): string {
  const over = end - limitSeconds;
  const words = over > 0 ? texts.routineOver : texts.routineUnder;
  return words(decimals(Math.abs(over), 1), minutes(limitSeconds));
}

/** Whole seconds as m:ss. */
function minutes(seconds: number): string {
  const whole = Math.round(seconds);
  return `${String(Math.floor(whole / 60))}:${String(whole % 60).padStart(2, "0")}`;
}
