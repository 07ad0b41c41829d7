/**
 * A chart as a picture: two axes and, on them, lines and points. The same for the charts of the try-out page's sheets
 * and for the pane's own. Its ticks come from d3-array and d3-time; the rest is a handful of lines of SVG.
 */
import { extent, nice, ticks } from "d3-array";
import { utcTicks } from "d3-time";

import type { SeriesDrawing } from "../../workbook/looks";

export type Scale = "number" | "percent" | "day";

export interface PictureAxis {
  readonly title: string;
  /** Days are sheet serial numbers. */
  readonly scale: Scale;
  /** Left out: as far as the points go. */
  readonly least?: number;
  readonly most?: number;
}

export interface PicturePoint {
  readonly across: number;
  readonly up: number;
}

export interface PictureSeries {
  readonly name: string;
  readonly drawing: SeriesDrawing;
  /** In the order in which they are joined. */
  readonly points: readonly PicturePoint[];
}

export interface ChartPicture {
  readonly title: string;
  /** What it shows, for those who do not see it. */
  readonly description: string;
  readonly across: PictureAxis;
  readonly up: PictureAxis;
  /** One unit across is as long as one unit up: circles are round. */
  readonly sameScales: boolean;
  readonly series: readonly PictureSeries[];
  /** Said in the picture's middle while no series has a point. */
  readonly nothingYet: string;
}

export interface PictureSize {
  readonly width: number;
  readonly height: number;
}

const SVG = "http://www.w3.org/2000/svg";

const INK = "#1F2430";
const QUIET_INK = "#4C5464";
const GRID = "#D5D9E0";

const FONT_PIXELS = 11;
const TITLE_PIXELS = 14;
/** About the width of a letter, for what must not run over its neighbour. */
const LETTER_PIXELS = 6;
const PIXELS_PER_TICK_ACROSS = 80;
const PIXELS_PER_TICK_UP = 36;
const PIXELS_PER_POINT = 4 / 3;

const dashes = { solid: "", dash: "5 3", longDash: "10 4", dot: "2 3" } as const;

interface Plot {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

interface DrawnAxis {
  readonly from: number;
  readonly to: number;
  readonly ticks: readonly { readonly at: number; readonly words: string }[];
}

/** The picture as an SVG element with a title and a description. */
export function drawChart(picture: ChartPicture, size: PictureSize): SVGSVGElement {
  const named = picture.series.filter(({ drawing }) => drawing.named);
  const keyLines = layOutKey(named, size.width - 16);
  const plot: Plot = {
    left: 56,
    top: 34,
    width: Math.max(40, size.width - 56 - 18),
    height: Math.max(40, size.height - 34 - 46 - keyLines.length * 18),
  };
  const { across, up, area } = layOutAxes(picture, plot);
  const x = (value: number): number => area.left + ((value - across.from) / (across.to - across.from)) * area.width;
  const y = (value: number): number => area.top + area.height - ((value - up.from) / (up.to - up.from)) * area.height;
  const empty = picture.series.every(({ points }) => points.length === 0);

  const svg = make("svg", {
    viewBox: `0 0 ${String(size.width)} ${String(size.height)}`,
    width: size.width,
    height: size.height,
    role: "img",
    "aria-label": `${picture.title}. ${picture.description}`,
    "font-size": FONT_PIXELS,
    "font-family": "system-ui, sans-serif",
  });
  svg.append(
    make("title", {}, picture.title),
    make("desc", {}, picture.description),
    make("rect", { width: size.width, height: size.height, fill: "#FFFFFF" }),
    make(
      "text",
      { x: size.width / 2, y: 20, "text-anchor": "middle", "font-size": TITLE_PIXELS, fill: INK },
      picture.title,
    ),
    ...across.ticks.map(({ at }) => line(x(at), area.top, x(at), area.top + area.height, GRID)),
    ...up.ticks.map(({ at }) => line(area.left, y(at), area.left + area.width, y(at), GRID)),
    line(area.left, area.top + area.height, area.left + area.width, area.top + area.height, QUIET_INK),
    line(area.left, area.top, area.left, area.top + area.height, QUIET_INK),
    ...across.ticks.map(({ at, words }) =>
      make("text", { x: x(at), y: area.top + area.height + 16, "text-anchor": "middle", fill: INK }, words),
    ),
    ...up.ticks.map(({ at, words }) =>
      make("text", { x: area.left - 6, y: y(at) + 4, "text-anchor": "end", fill: INK }, words),
    ),
    make(
      "text",
      { x: area.left + area.width / 2, y: area.top + area.height + 34, "text-anchor": "middle", fill: QUIET_INK },
      picture.across.title,
    ),
    make(
      "text",
      {
        transform: `translate(${String(area.left - 44)} ${String(area.top + area.height / 2)}) rotate(-90)`,
        "text-anchor": "middle",
        fill: QUIET_INK,
      },
      picture.up.title,
    ),
    ...picture.series.flatMap((series) => seriesElements(series, x, y)),
    ...keyElements(keyLines, plot.top + plot.height + 48),
    ...(empty
      ? [
          make(
            "text",
            {
              x: area.left + area.width / 2,
              y: area.top + area.height / 2,
              "text-anchor": "middle",
              fill: QUIET_INK,
              "font-style": "italic",
            },
            picture.nothingYet,
          ),
        ]
      : []),
  );
  return svg;
}

/* ---- axes ---- */

function layOutAxes(
  picture: ChartPicture,
  plot: Plot,
): { readonly across: DrawnAxis; readonly up: DrawnAxis; readonly area: Plot } {
  const points = picture.series.flatMap((series) => series.points);
  const acrossSpan = span(picture.across, points.map((point) => point.across)); // prettier-ignore
  const upSpan = span(picture.up, points.map((point) => point.up)); // prettier-ignore
  if (!picture.sameScales) {
    return {
      across: axis(picture.across, acrossSpan, plot.width / PIXELS_PER_TICK_ACROSS),
      up: axis(picture.up, upSpan, plot.height / PIXELS_PER_TICK_UP),
      area: plot,
    };
  }
  const both: Span = [Math.min(acrossSpan[0], upSpan[0]), Math.max(acrossSpan[1], upSpan[1])];
  const side = Math.min(plot.width, plot.height);
  return {
    across: axis(picture.across, both, side / PIXELS_PER_TICK_UP / 1.5),
    up: axis(picture.up, both, side / PIXELS_PER_TICK_UP / 1.5),
    area: { ...plot, left: plot.left + (plot.width - side) / 2, width: side, height: side },
  };
}

type Span = readonly [from: number, to: number];

/** As far as the points go, where the axis itself does not say it. */
function span({ least, most, scale }: PictureAxis, values: readonly number[]): Span {
  const [first, last] = extent(values);
  const from = least ?? first ?? 0;
  const to = most ?? last ?? from;
  if (to > from) return [from, to];
  // One day or one value alone: room on both sides of it.
  const room = scale === "percent" ? 0.1 : 1;
  return [from - room, from + room];
}

function axis({ scale, least, most }: PictureAxis, [from, to]: Span, wanted: number): DrawnAxis {
  const count = Math.max(2, Math.round(wanted));
  if (scale === "day") {
    const found = utcTicks(dayOf(from), dayOf(to), count).filter((day) => Number.isInteger(serialOf(day)));
    return { from, to, ticks: found.map((day) => ({ at: serialOf(day), words: dayWords(day) })) };
  }
  const [niceFrom, niceTo] = nice(from, to, count);
  const ends = { from: least ?? niceFrom, to: most ?? niceTo };
  return {
    ...ends,
    ticks: ticks(ends.from, ends.to, count).map((at) => ({ at, words: numberWords(at, scale) })),
  };
}

/** Sheet serial number 25,569 is 1 January 1970. */
const DAY_ZERO_SERIAL = 25_569;
const DAY_MILLISECONDS = 86_400_000;

function dayOf(serial: number): Date {
  return new Date((serial - DAY_ZERO_SERIAL) * DAY_MILLISECONDS);
}

function serialOf(day: Date): number {
  return day.getTime() / DAY_MILLISECONDS + DAY_ZERO_SERIAL;
}

/** The month as a word: 3/4 is two different days in two countries. */
function dayWords(day: Date): string {
  return day.toLocaleDateString("en-GB", { day: "numeric", month: "short", timeZone: "UTC" });
}

function numberWords(value: number, scale: Scale): string {
  return scale === "percent" ? `${String(Math.round(value * 100))}%` : String(value).replace("-", "−");
}

/* ---- series ---- */

type Place = (value: number) => number;

function seriesElements({ drawing, points, name }: PictureSeries, x: Place, y: Place): readonly SVGElement[] {
  const elements: SVGElement[] = [];
  if (drawing.line !== null && points.length > 1) {
    elements.push(
      make("polyline", {
        points: points.map(({ across, up }) => `${place(x(across))},${place(y(up))}`).join(" "),
        fill: "none",
        ...lineLook(drawing.line),
      }),
    );
  }
  if (drawing.marker !== null) {
    const { marker } = drawing;
    elements.push(...points.map(({ across, up }) => markerAt(marker, x(across), y(up))));
  }
  if (elements.length === 0) return [];
  const group = make("g", { "data-series": name });
  group.append(...elements);
  return [group];
}

function lineLook(look: NonNullable<SeriesDrawing["line"]>): Attributes {
  const dash = dashes[look.dash];
  return {
    stroke: look.colour,
    "stroke-width": look.widthPoints * PIXELS_PER_POINT,
    "stroke-linejoin": "round",
    ...(dash === "" ? {} : { "stroke-dasharray": dash }),
  };
}

function markerAt(marker: NonNullable<SeriesDrawing["marker"]>, atX: number, atY: number): SVGElement {
  const half = (marker.sizePoints * PIXELS_PER_POINT) / 2;
  switch (marker.shape) {
    case "circle":
      return make("circle", { cx: place(atX), cy: place(atY), r: half, fill: marker.colour, stroke: "#FFFFFF" });
    case "cross": {
      const reach = half * 0.8;
      return make("path", {
        d: `M${place(atX - reach)},${place(atY - reach)}l${String(2 * reach)},${String(2 * reach)}m0,${String(-2 * reach)}l${String(-2 * reach)},${String(2 * reach)}`,
        stroke: marker.colour,
        "stroke-width": 3,
      });
    }
    default:
      return unknownShape(marker.shape);
  }
}

/* ---- the key ---- */

const KEY_SAMPLE_PIXELS = 26;

type KeyLine = readonly { readonly series: PictureSeries; readonly left: number }[];

/** What each line and point is, as many side by side as there is room for. */
function layOutKey(series: readonly PictureSeries[], width: number): readonly KeyLine[] {
  const lines: { series: PictureSeries; left: number }[][] = [];
  let left = Infinity;
  for (const one of series) {
    const wanted = KEY_SAMPLE_PIXELS + 6 + one.name.length * LETTER_PIXELS + 14;
    if (left + wanted > width) {
      lines.push([]);
      left = 8;
    }
    lines[lines.length - 1]?.push({ series: one, left });
    left += wanted;
  }
  return lines;
}

function keyElements(lines: readonly KeyLine[], top: number): readonly SVGElement[] {
  return lines.flatMap((entries, row) =>
    entries.flatMap(({ series, left }) => {
      const middle = top + row * 18;
      const { line: lineDrawing, marker } = series.drawing;
      return [
        ...(lineDrawing === null
          ? []
          : [
              make("line", {
                x1: left,
                y1: middle,
                x2: left + KEY_SAMPLE_PIXELS,
                y2: middle,
                ...lineLook(lineDrawing),
              }),
            ]),
        ...(marker === null ? [] : [markerAt(marker, left + KEY_SAMPLE_PIXELS / 2, middle)]),
        make("text", { x: left + KEY_SAMPLE_PIXELS + 6, y: middle + 4, fill: INK }, series.name),
      ];
    }),
  );
}

/* ---- elements ---- */

type Attributes = Readonly<Record<string, string | number>>;

function make<Name extends keyof SVGElementTagNameMap>(
  name: Name,
  attributes: Attributes,
  words?: string,
): SVGElementTagNameMap[Name] {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, String(value));
  if (words !== undefined) made.textContent = words;
  return made;
}

function line(x1: number, y1: number, x2: number, y2: number, stroke: string): SVGElement {
  return make("line", { x1: place(x1), y1: place(y1), x2: place(x2), y2: place(y2), stroke });
}

/** A tenth of a pixel is finer than any eye. */
function place(value: number): string {
  return String(Math.round(value * 10) / 10);
}

function unknownShape(shape: never): never {
  throw new TypeError(`Unknown marker: ${String(shape)}`);
}
