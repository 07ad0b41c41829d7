/**
 * A chart of the plan as the chart part of a workbook file, and a sheet's charts as its drawing part (ECMA-376 part 1,
 * chapters 20.5 and 21.2).
 */
import { cellName } from "../../../workbook/plan/address";
import { columnLetters } from "../../../core/sheet";
import type { CalculatedSheet } from "../../../workbook/plan/calculated";
import { quoteSheetName } from "../../../workbook/plan/formula";
import { numberFormats, seriesLooks, type LineDrawing, type MarkerDrawing } from "../../../workbook/plan/looks";
import type { Block, ChartAxis, ChartPlan, ChartSeries, SheetPlan } from "../../../workbook/plan/schema";
import {
  CHART_NAMESPACE,
  DRAWING_NAMESPACE,
  RELATION_NAMESPACE,
  SHEET_DRAWING_NAMESPACE,
} from "../../package/namespaces";
import { DASHES, SYMBOLS } from "./strokes";
import { element, escapeText, xmlPart } from "../../xml/write";

/** English Metric Units in a point. */
const EMU_PER_POINT = 12_700;

const ACROSS_AXIS = 1001;
const UP_AXIS = 1002;

/**
 * @param sheet on which the chart and its cells are
 * @param calculated the sheet's answers: they are stored with the series, for programs that draw without working out
 */
export function chartPart(chart: ChartPlan, sheet: SheetPlan, calculated: CalculatedSheet | undefined): string {
  const numbers = numbersOf(sheet, calculated);
  const hidden = chart.series.flatMap(({ look }, index) => (seriesLooks[look].named ? [] : [index]));
  return xmlPart(
    element(
      "c:chartSpace",
      { "xmlns:c": CHART_NAMESPACE, "xmlns:a": DRAWING_NAMESPACE, "xmlns:r": RELATION_NAMESPACE },
      value("roundedCorners", 0),
      element(
        "c:chart",
        {},
        titleXml(chart.title, 1400),
        value("autoTitleDeleted", 0),
        element(
          "c:plotArea",
          {},
          element("c:layout"),
          element(
            "c:scatterChart",
            {},
            value("scatterStyle", "lineMarker"),
            value("varyColors", 0),
            ...chart.series.map((series, index) => seriesXml(series, index, sheet.name, numbers)),
            value("axId", ACROSS_AXIS),
            value("axId", UP_AXIS),
          ),
          axisXml(chart.across, { id: ACROSS_AXIS, crosses: UP_AXIS, position: "b" }),
          axisXml(chart.up, { id: UP_AXIS, crosses: ACROSS_AXIS, position: "l" }),
        ),
        element(
          "c:legend",
          {},
          value("legendPos", "b"),
          ...hidden.map((index) => element("c:legendEntry", {}, value("idx", index), value("delete", 1))),
          value("overlay", 0),
        ),
        value("plotVisOnly", 1),
        value("dispBlanksAs", "gap"),
      ),
    ),
  );
}

/** What the sheet's cells hold as numbers, by address. */
type Numbers = ReadonlyMap<string, number>;

function numbersOf(sheet: SheetPlan, calculated: CalculatedSheet | undefined): Numbers {
  const numbers = new Map<string, number>();
  for (const { at, content } of sheet.cells) {
    if (content.kind === "number") numbers.set(cellName(at), content.value);
    if (content.kind === "date") numbers.set(cellName(at), content.serial);
  }
  for (const [address, answer] of calculated?.values ?? []) {
    if (answer.kind === "number") numbers.set(address, answer.value);
  }
  return numbers;
}

function seriesXml({ name, across, up, look }: ChartSeries, index: number, sheet: string, numbers: Numbers): string {
  const { line, marker } = seriesLooks[look];
  return element(
    "c:ser",
    {},
    value("idx", index),
    value("order", index),
    element("c:tx", {}, element("c:v", {}, escapeText(name))),
    element("c:spPr", {}, lineXml(line)),
    element("c:marker", {}, ...markerXml(marker)),
    element("c:xVal", {}, numbersXml(across, sheet, numbers)),
    element("c:yVal", {}, numbersXml(up, sheet, numbers)),
    value("smooth", 0),
  );
}

function lineXml(line: LineDrawing | null): string {
  if (line === null) return element("a:ln", { w: 19_050 }, element("a:noFill"));
  return element(
    "a:ln",
    { w: Math.round(line.widthPoints * EMU_PER_POINT), cap: "rnd" },
    fillXml(line.colour),
    element("a:prstDash", { val: DASHES[line.dash] }),
    element("a:round"),
  );
}

function markerXml(marker: MarkerDrawing | null): readonly string[] {
  if (marker === null) return [value("symbol", "none")];
  // A cross is all line; a circle all fill, with a rim that parts it from the next one.
  const cross = marker.shape === "cross";
  return [
    value("symbol", SYMBOLS[marker.shape]),
    value("size", marker.sizePoints),
    element(
      "c:spPr",
      {},
      cross ? element("a:noFill") : fillXml(marker.colour),
      element("a:ln", { w: cross ? 25_400 : 6350 }, fillXml(cross ? marker.colour : "#FFFFFF")),
    ),
  ];
}

function numbersXml(block: Block, sheet: string, numbers: Numbers): string {
  const letters = columnLetters(block.column);
  const last = block.row + block.rows - 1;
  const reference = `${quoteSheetName(sheet)}!$${letters}$${String(block.row)}:$${letters}$${String(last)}`;
  const points = [...Array(block.rows).keys()].flatMap((index) => {
    const number = numbers.get(cellName({ row: block.row + index, column: block.column }));
    return number === undefined ? [] : [element("c:pt", { idx: index }, element("c:v", {}, String(number)))];
  });
  return element(
    "c:numRef",
    {},
    element("c:f", {}, escapeText(reference)),
    element("c:numCache", {}, element("c:formatCode", {}, "General"), value("ptCount", block.rows), ...points),
  );
}

function axisXml(
  axis: ChartAxis,
  { id, crosses, position }: { readonly id: number; readonly crosses: number; readonly position: "b" | "l" },
): string {
  return element(
    "c:valAx",
    {},
    value("axId", id),
    element(
      "c:scaling",
      {},
      value("orientation", "minMax"),
      ...(axis.most === undefined ? [] : [value("max", axis.most)]),
      ...(axis.least === undefined ? [] : [value("min", axis.least)]),
    ),
    value("delete", 0),
    value("axPos", position),
    element("c:majorGridlines", {}, element("c:spPr", {}, element("a:ln", { w: 6350 }, fillXml("#D5D9E0")))),
    titleXml(axis.title, 1000),
    element("c:numFmt", { formatCode: numberFormats[axis.format], sourceLinked: 0 }),
    value("majorTickMark", "out"),
    value("minorTickMark", "none"),
    // Beside the plot, also where the other axis runs through its middle.
    value("tickLblPos", "low"),
    element("c:spPr", {}, element("a:ln", { w: 9525 }, fillXml("#6B7280"))),
    value("crossAx", crosses),
    value("crosses", "min"),
    value("crossBetween", "midCat"),
  );
}

function titleXml(words: string, hundredthsOfPoint: number): string {
  return element(
    "c:title",
    {},
    element(
      "c:tx",
      {},
      element(
        "c:rich",
        {},
        element("a:bodyPr"),
        element("a:lstStyle"),
        element(
          "a:p",
          {},
          element("a:pPr", {}, element("a:defRPr", { sz: hundredthsOfPoint, b: 0 })),
          element(
            "a:r",
            {},
            element("a:rPr", { lang: "en", sz: hundredthsOfPoint, b: 0 }),
            element("a:t", {}, escapeText(words)),
          ),
        ),
      ),
    ),
    value("overlay", 0),
  );
}

function fillXml(colour: string): string {
  return element("a:solidFill", {}, element("a:srgbClr", { val: colour.slice(1) }));
}

function value(name: string, val: string | number): string {
  return element(`c:${name}`, { val });
}

/* ---- the drawing ---- */

/**
 * @param relations for each chart, the id of the drawing's relation to its part
 */
export function drawingPart(charts: readonly ChartPlan[], relations: readonly string[]): string {
  return xmlPart(
    element(
      "xdr:wsDr",
      { "xmlns:xdr": SHEET_DRAWING_NAMESPACE, "xmlns:a": DRAWING_NAMESPACE },
      ...charts.map((chart, index) => anchorXml(chart, index + 1, relations[index] ?? "")),
    ),
  );
}

function anchorXml(chart: ChartPlan, number: number, relation: string): string {
  const { row, column, rows, columns } = chart.on;
  return element(
    "xdr:twoCellAnchor",
    { editAs: "oneCell" },
    element("xdr:from", {}, ...cornerXml(row, column)),
    element("xdr:to", {}, ...cornerXml(row + rows, column + columns)),
    element(
      "xdr:graphicFrame",
      { macro: "" },
      element(
        "xdr:nvGraphicFramePr",
        {},
        // The number 1 is the drawing itself.
        element("xdr:cNvPr", { id: number + 1, name: chart.name, descr: chart.description }),
        element("xdr:cNvGraphicFramePr"),
      ),
      element("xdr:xfrm", {}, element("a:off", { x: 0, y: 0 }), element("a:ext", { cx: 0, cy: 0 })),
      element(
        "a:graphic",
        {},
        element(
          "a:graphicData",
          { uri: CHART_NAMESPACE },
          element("c:chart", { "xmlns:c": CHART_NAMESPACE, "xmlns:r": RELATION_NAMESPACE, "r:id": relation }),
        ),
      ),
    ),
    element("xdr:clientData"),
  );
}

/** The top left corner of a cell; the format counts from 0. */
function cornerXml(row: number, column: number): readonly string[] {
  return [
    element("xdr:col", {}, String(column - 1)),
    element("xdr:colOff", {}, "0"),
    element("xdr:row", {}, String(row - 1)),
    element("xdr:rowOff", {}, "0"),
  ];
}
