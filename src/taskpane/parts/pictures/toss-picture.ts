/** One toss's path between the floor and the ceiling, both ways to the same scale, with a dot at each count. */
import { tossFit } from "../../../core/advice";
import type { FlightPoint, TossPlan, TossQuestion } from "../../../core/toss";
import { decimals } from "../../words/number-text";
import { texts } from "../../words/texts";
import { axis } from "./axes";
import { box, cross, dot, drawing, hatching, keyEntry, path, stroke, words, type Picture, type Point } from "./picture";

interface TossPictureQuestion {
  readonly trick: string;
  readonly question: TossQuestion;
  readonly plan: TossPlan;
  /** Close together, for the line. */
  readonly path: readonly FlightPoint[];
  /** At each whole count. */
  readonly atCounts: readonly FlightPoint[];
  readonly countsPerMinute: number;
  readonly clearance: number;
}

const EDGE = 34;
const HEIGHT = 270;
const CEILING_BAND = 12;
/** Of the picture's width in metres or feet that is drawn beside the travel. */
const BESIDE = 1;

export function tossPicture(given: TossPictureQuestion, width: number): Picture {
  const { question, plan, clearance } = given;
  const { unit, ceiling, travel, releaseHeight, catchHeight } = question;
  const highest = Math.max(plan.peakAboveFloor, ceiling ?? 0);
  const scale = axis({ title: "", scale: "number", least: 0 }, [0, highest * 1.03], HEIGHT / 44);
  const room = width - EDGE - 8;
  const pixels = Math.min(HEIGHT / scale.to, room / (travel + 2 * BESIDE));
  const bottom = CEILING_BAND + 4 + scale.to * pixels;
  const left = EDGE + (room - travel * pixels) / 2;
  const at = (across: number, height: number): Point => ({ x: left + across * pixels, y: bottom - height * pixels });
  const hatch = hatching();
  const wide = { from: EDGE, to: EDGE + room };
  const line = (look: string, height: number): SVGElement =>
    stroke(look, { x: wide.from, y: at(0, height).y }, { x: wide.to, y: at(0, height).y });
  const top = given.path.reduce<FlightPoint | undefined>(
    (best, point) => (best === undefined || point.height > best.height ? point : best),
    undefined,
  );

  const svg = drawing(
    width,
    bottom + 18,
    hatch.definition,
    ...scale.ticks.flatMap(({ at: height, words: tick }) => [
      line("grid", height),
      words(tick, { x: EDGE - 5, y: at(0, height).y + 4 }, "end"),
    ]),
    line("axis", 0),
    words(`${texts.tossFloor}, ${unit}`, { x: wide.from, y: bottom + 14 }, "start", "quiet-words"),
    ...(ceiling === undefined
      ? []
      : [
          box("ceiling", { x: wide.from, y: at(0, ceiling).y - CEILING_BAND }, room, CEILING_BAND, hatch.fill),
          line("ceiling-line", ceiling),
          ...(ceiling > clearance ? [line("clearance", ceiling - clearance)] : []),
        ]),
    path(
      "path",
      given.path.map(({ across, height }) => at(across, height)),
    ),
    ...given.atCounts.map(({ across, height }) => dot("mark", at(across, height), 3)),
    cross("target", at(0, releaseHeight), 5),
    ...(travel > 0 ? [cross("target", at(travel, catchHeight), 5)] : []),
    ...(top
      ? [
          words(`${decimals(top.height, 1)} ${unit}`, {
            x: at(top.across, 0).x + 7,
            y: at(0, top.height).y + (ceiling !== undefined && Math.abs(ceiling - top.height) * pixels < 16 ? 16 : -6),
          }),
        ]
      : []),
  );

  const fit = tossFit(plan.ceilingRoom, clearance, plan.leanDegrees);
  const across = [
    { x: 0, y: 7 },
    { x: 26, y: 7 },
  ] as const;
  const sample = hatching();
  return {
    svg,
    title: texts.pictureOf(texts.pictureNames.toss, given.trick),
    sentences: [
      texts.tossCounts(plain(plan.counts), plain(given.countsPerMinute), decimals(plan.airtimeSeconds, 2)),
      texts.tossRise(decimals(plan.rise, 1), decimals(plan.peakAboveFloor, 1), unit),
      ...(travel > 0 ? [texts.tossTravel(plain(travel), unit, decimals(plan.leanDegrees, 0))] : []),
      ...(ceiling === undefined ? [] : [texts.tossCeiling(plain(ceiling), unit)]),
      ...(fit === "fits" ? [texts.tossFits.fits] : []),
    ],
    key: [
      keyEntry(texts.tossKey.path, stroke("path", ...across), dot("mark", { x: 13, y: 7 }, 3)),
      keyEntry(texts.tossKey.hand, cross("target", { x: 13, y: 7 }, 5)),
      ...(ceiling === undefined
        ? []
        : [
            keyEntry(
              texts.tossKey.ceiling,
              sample.definition,
              box("ceiling", { x: 0, y: 1 }, 26, 9, sample.fill),
              stroke("ceiling-line", { x: 0, y: 10 }, { x: 26, y: 10 }),
            ),
            keyEntry(texts.tossKey.clearance, stroke("clearance", ...across)),
          ]),
    ],
    table: {
      headings: texts.tossHeadings(unit),
      rows: given.atCounts.map(({ seconds, across: along, height }, count) => [
        String(count),
        decimals(seconds, 2),
        decimals(height, 2),
        decimals(along, 2),
      ]),
    },
    caution: fit === "fits" ? null : texts.tossFits[fit],
  };
}

/** With as many decimals as it has, two at most. */
function plain(value: number): string {
  const digits = Number.isInteger(value) ? 0 : Number.isInteger(value * 10) ? 1 : 2;
  return decimals(value, digits);
}
