/**
 * Charts in the file that the page can draw: those that it writes itself. Any other chart stays in the file and is named
 * as one that is not shown.
 */
import { numberFormats, seriesLooks } from "../../../workbook/plan/looks";
import type { Block, ChartAxis, ChartPlan, ChartSeries, NumberFormat, SeriesLook } from "../../../workbook/plan/schema";
import { parseRange } from "../../ranges";
import { DASHES, SYMBOLS } from "./strokes";
import { relationshipsOf } from "../../package/relationships";
import type { WorkbookPackage } from "../../package/workbook-package";
import {
  child,
  children,
  decimalNumber,
  descendants,
  parseXml,
  prefixedAttribute,
  type XmlElement,
} from "../../xml/tree";

export interface ReadCharts {
  readonly charts: readonly ChartPlan[];
  /** How many charts the page cannot draw. */
  readonly others: number;
}

export function readCharts(source: WorkbookPackage, sheetPart: string, sheetName: string): ReadCharts {
  const charts: ChartPlan[] = [];
  let others = 0;
  for (const { kind, target, isExternal } of relationshipsOf(source, sheetPart)) {
    if (kind !== "drawing" || isExternal || !source.has(target)) continue;
    const parts = relationshipsOf(source, target);
    const { root } = parseXml(source.text(target));
    for (const anchor of root.children) {
      const id = descendants(anchor, "chart").map((chart) => prefixedAttribute(chart, "id"))[0];
      if (id === undefined) continue;
      const part = parts.find((candidate) => candidate.id === id)?.target;
      const chart =
        part !== undefined && source.has(part) ? readChart(source.text(part), anchor, sheetName) : undefined;
      if (chart === undefined) others += 1;
      else charts.push(chart);
    }
  }
  return { charts, others };
}

function readChart(text: string, anchor: XmlElement, sheetName: string): ChartPlan | undefined {
  const chart = child(parseXml(text).root, "chart");
  const area = child(chart, "plotArea");
  const kinds = area?.children.filter(({ name }) => name.endsWith("Chart")) ?? [];
  const scatter = kinds[0];
  if (kinds.length !== 1 || scatter?.name !== "scatterChart") return undefined;
  const axes = children(area, "valAx");
  const across = readAxis(axes.find((axis) => valueOf(axis, "axPos") === "b"));
  const up = readAxis(axes.find((axis) => valueOf(axis, "axPos") === "l"));
  const series = children(scatter, "ser").map((one) => readSeries(one, sheetName));
  const properties = descendants(anchor, "cNvPr")[0];
  const on = readAnchor(anchor);
  if (across === undefined || up === undefined || on === undefined || properties === undefined) return undefined;
  if (series.length === 0 || series.includes(undefined)) return undefined;
  return {
    name: properties.attributes["name"] ?? "",
    title: titleOf(chart),
    description: properties.attributes["descr"] ?? "",
    on,
    across,
    up,
    series: series.flatMap((one) => one ?? []),
  };
}

function valueOf(element: XmlElement | undefined, name: string): string | undefined {
  return child(element, name)?.attributes["val"];
}

function titleOf(element: XmlElement | undefined): string {
  const title = child(element, "title");
  return title === undefined
    ? ""
    : descendants(title, "t")
        .map(({ text }) => text)
        .join("");
}

function readAxis(axis: XmlElement | undefined): ChartAxis | undefined {
  if (axis === undefined) return undefined;
  const code = child(axis, "numFmt")?.attributes["formatCode"] ?? "General";
  const format = (Object.keys(numberFormats) as NumberFormat[]).find((name) => numberFormats[name] === code);
  if (format === undefined) return undefined;
  const scaling = child(axis, "scaling");
  const least = decimalNumber(child(scaling, "min"), "val");
  const most = decimalNumber(child(scaling, "max"), "val");
  return {
    title: titleOf(axis),
    format,
    ...(least === undefined ? {} : { least }),
    ...(most === undefined ? {} : { most }),
  };
}

function readSeries(series: XmlElement, sheetName: string): ChartSeries | undefined {
  const across = readBlock(child(series, "xVal"), sheetName);
  const up = readBlock(child(series, "yVal"), sheetName);
  const look = readLook(series);
  const heading = child(series, "tx");
  const name =
    heading === undefined
      ? ""
      : descendants(heading, "v")
          .map(({ text }) => text)
          .join("");
  return across && up && look ? { name, across, up, look } : undefined;
}

/** A column of cells on the chart's own sheet. */
function readBlock(values: XmlElement | undefined, sheetName: string): Block | undefined {
  const reference = values === undefined ? "" : (descendants(values, "f")[0]?.text ?? "");
  const match = /^(?:'((?:[^']|'')+)'|([^'!]+))!(.+)$/.exec(reference);
  const sheet = match?.[1]?.replaceAll("''", "'") ?? match?.[2];
  const range = match?.[3] === undefined ? undefined : parseRange(match[3]);
  if (range === undefined || sheet !== sheetName || range.startColumn !== range.endColumn) return undefined;
  return {
    row: range.startRow + 1,
    column: range.startColumn + 1,
    rows: range.endRow - range.startRow + 1,
    columns: 1,
  };
}

/** By the colours and the dashes with which each is drawn. */
function readLook(series: XmlElement): SeriesLook | undefined {
  const line = child(child(series, "spPr"), "ln");
  const colour = line === undefined ? undefined : solidColour(line);
  const dash = valueOf(line, "prstDash") ?? "solid";
  const marker = child(series, "marker");
  const symbol = valueOf(marker, "symbol") ?? "none";
  const markerProperties = child(marker, "spPr");
  const markerColour =
    markerProperties === undefined
      ? undefined
      : (solidColour(markerProperties) ?? solidColour(child(markerProperties, "ln") ?? markerProperties));
  return (Object.keys(seriesLooks) as SeriesLook[]).find((name) => {
    const look = seriesLooks[name];
    const lineFits =
      look.line === null ? colour === undefined : look.line.colour === colour && DASHES[look.line.dash] === dash;
    const markerFits =
      look.marker === null
        ? symbol === "none"
        : symbol === SYMBOLS[look.marker.shape] && look.marker.colour === markerColour;
    return lineFits && markerFits;
  });
}

function solidColour(element: XmlElement): string | undefined {
  const digits = child(child(element, "solidFill"), "srgbClr")?.attributes["val"];
  return digits === undefined ? undefined : `#${digits.toUpperCase()}`;
}

function readAnchor(anchor: XmlElement): Block | undefined {
  const number = (corner: string, name: string): number | undefined => {
    const text = child(child(anchor, corner), name)?.text.trim() ?? "";
    return /^\d+$/.test(text) ? Number(text) : undefined;
  };
  const [row, column, endRow, endColumn] = [
    number("from", "row"),
    number("from", "col"),
    number("to", "row"),
    number("to", "col"),
  ];
  if (row === undefined || column === undefined || endRow === undefined || endColumn === undefined) return undefined;
  if (endRow <= row || endColumn <= column) return undefined;
  return { row: row + 1, column: column + 1, rows: endRow - row, columns: endColumn - column };
}
