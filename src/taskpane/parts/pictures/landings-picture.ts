/** Where one athlete's tosses of one trick come down around the target, with the circles that hold half and nine tenths. */
import { driftOf } from "../../../core/advice";
import type { Placement } from "../../../core/placement";
import { dayInWords } from "../../words/day";
import { decimals } from "../../words/number-text";
import { texts } from "../../words/texts";
import { axis } from "./axes";
import { cross, dot, drawing, keyEntry, stroke, words, type Picture, type Point } from "./picture";
import { make, place } from "../../ui/svg";

interface LandingsQuestion {
  readonly athlete: string;
  readonly trick: string;
  readonly marks: readonly { readonly date: number | undefined; readonly sideways: number; readonly forward: number }[];
  readonly placement: Placement;
  readonly unit: string;
}

const EDGE = 38;
const MOST_SIDE = 320;
const PIXELS_PER_TICK = 52;

export function landingsPicture(question: LandingsQuestion, width: number): Picture {
  const { marks, placement, unit } = question;
  const side = Math.min(width - EDGE - 8, MOST_SIDE);
  const furthest = Math.max(
    0.25,
    placement.within90,
    ...marks.flatMap(({ sideways, forward }) => [Math.abs(sideways), Math.abs(forward)]),
  );
  const scale = axis({ title: "", scale: "number" }, [-furthest * 1.05, furthest * 1.05], side / PIXELS_PER_TICK);
  const pixels = side / (scale.to - scale.from);
  const x = (value: number): number => EDGE + (value - scale.from) * pixels;
  const y = (value: number): number => 8 + (scale.to - value) * pixels;
  const target: Point = { x: x(0), y: y(0) };
  const mean: Point = { x: x(placement.meanSideways), y: y(placement.meanForward) };
  const bottom = 8 + side;

  const svg = drawing(
    EDGE + side + 8,
    bottom + 34,
    ...scale.ticks.flatMap(({ at, words: tick }) => [
      stroke("grid", { x: x(at), y: 8 }, { x: x(at), y: bottom }),
      stroke("grid", { x: EDGE, y: y(at) }, { x: EDGE + side, y: y(at) }),
      words(tick, { x: x(at), y: bottom + 14 }, "middle"),
      words(tick, { x: EDGE - 4, y: y(at) + 4 }, "end"),
    ]),
    ...[EDGE, EDGE + side].map((at) => stroke("axis", { x: at, y: 8 }, { x: at, y: bottom })),
    ...[8, bottom].map((at) => stroke("axis", { x: EDGE, y: at }, { x: EDGE + side, y: at })),
    circle("circle-half", target, placement.within50 * pixels),
    circle("circle-most", target, placement.within90 * pixels),
    ...marks.map(({ sideways, forward }) => dot("landing", { x: x(sideways), y: y(forward) }, 3.5)),
    ...(marks.length > 1 ? [diamond(mean)] : []),
    cross("target", target, 6),
    words(`${texts.landingsAcross}, ${unit}`, { x: EDGE + side / 2, y: bottom + 29 }, "middle", "quiet-words"),
    sideWords(`${texts.landingsUp}, ${unit}`, { x: 10, y: 8 + side / 2 }),
  );

  const drift = driftOf(placement);
  const landingsKey = texts.landingsKey;
  const middle = { x: 13, y: 7 };
  return {
    svg,
    title: texts.pictureOf(texts.pictureNames.landings, `${question.athlete}, ${question.trick}`),
    sentences: [
      texts.landingsMarks(placement.tosses),
      texts.landingsWithin(decimals(placement.within50, 2), decimals(placement.within90, 2), unit),
      texts.landingsMean(meanInWords(placement, unit)),
      drift.kind === "too few"
        ? texts.landingsFew(drift.more)
        : drift.kind === "none"
          ? texts.landingsNoDrift
          : texts.landingsDrift,
    ],
    key: [
      keyEntry(landingsKey.mark, dot("landing", middle, 3.5)),
      keyEntry(landingsKey.target, cross("target", middle, 5)),
      ...(marks.length > 1 ? [keyEntry(landingsKey.mean, diamond(middle))] : []),
      keyEntry(landingsKey.half, stroke("circle-half", { x: 0, y: 7 }, { x: 26, y: 7 })),
      keyEntry(landingsKey.most, stroke("circle-most", { x: 0, y: 7 }, { x: 26, y: 7 })),
    ],
    table: {
      headings: texts.landingsHeadings(unit),
      rows: marks.map(({ date, sideways, forward }) => [
        date === undefined ? "–" : dayInWords(date),
        decimals(sideways, 2),
        decimals(forward, 2),
        decimals(Math.hypot(sideways, forward), 2),
      ]),
    },
    // A wall shows a drift forward or back, and is what the baton comes back from.
    caution: drift.kind === "drift" && drift.along !== undefined ? texts.landingsCaution : null,
  };
}

function meanInWords({ meanSideways, meanForward }: Placement, unit: string): string {
  const near = 0.005;
  const sides = [
    ...(Math.abs(meanSideways) < near
      ? []
      : [(meanSideways > 0 ? texts.landingsRight : texts.landingsLeft)(decimals(Math.abs(meanSideways), 2), unit)]),
    ...(Math.abs(meanForward) < near
      ? []
      : [(meanForward > 0 ? texts.landingsForward : texts.landingsBack)(decimals(Math.abs(meanForward), 2), unit)]),
  ];
  const [one, other] = sides;
  if (one === undefined) return texts.landingsOnTarget;
  return other === undefined ? one : texts.and(one, other);
}

function circle(look: string, at: Point, radius: number): SVGElement {
  return make("circle", { class: `twirl-${look}`, cx: place(at.x), cy: place(at.y), r: place(radius) });
}

function diamond({ x, y }: Point): SVGElement {
  return make("path", { class: "twirl-mean", d: `M${place(x)},${place(y - 6)}l6,6l-6,6l-6,-6z` });
}

function sideWords(text: string, { x, y }: Point): SVGElement {
  return make(
    "text",
    {
      class: "twirl-quiet-words",
      transform: `translate(${place(x)} ${place(y)}) rotate(-90)`,
      "text-anchor": "middle",
    },
    text,
  );
}
