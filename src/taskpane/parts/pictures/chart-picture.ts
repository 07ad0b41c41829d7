/**
 * A chart as a picture: two axes and, on them, lines and points. The same for the charts of the try-out page's sheets
 * and for the pane's own.
 */
import type { SeriesDrawing } from "../../../workbook/plan/looks";
import { axis, span, type DrawnAxis, type PictureAxis, type Span } from "./axes";
import { line, make, place, type Attributes } from "../../ui/svg";

export type { PictureAxis, Scale } from "./axes";

export interface PicturePoint {
  readonly across: number;
  readonly up: number;
}

interface PictureSeries {
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

function unknownShape(shape: never): never {
  throw new TypeError(`Unknown marker: ${String(shape)}`);
}
