/**
 * The charts of the sheets: the grid draws none, so each is laid over the cells that its plan names and follows them
 * as they are scrolled, zoomed and resized. It takes no clicks: the cells under it stay within reach.
 */
import "@univerjs/sheets/facade";
import "@univerjs/sheets-ui/facade";
import type { Injector, IWorkbookData } from "@univerjs/core";
import type { FUniver } from "@univerjs/core/facade";
import { FormulaDataModel } from "@univerjs/engine-formula";
import { IRenderManagerService, SHEET_VIEWPORT_KEY } from "@univerjs/engine-render";
import type { FWorksheet } from "@univerjs/sheets/facade";

import {
  type ChartPicture,
  drawChart,
  type PictureAxis,
  type PicturePoint,
  type PictureSize,
  type Scale,
} from "../../taskpane/parts/pictures/chart-picture";
import { seriesLooks } from "../../workbook/plan/looks";
import type { Block, ChartAxis, ChartPlan } from "../../workbook/plan/schema";

export interface SheetCharts {
  /** The charts of a sheet, in place of those it had. */
  put(sheetId: string, charts: readonly ChartPlan[]): void;
  of(sheetId: string): readonly ChartPlan[];
  /** Draws anew what the cells hold now. */
  refresh(): void;
}

export function layCharts(api: FUniver, injector: Injector, snapshot: IWorkbookData): SheetCharts {
  const bySheet = new Map<string, readonly ChartPlan[]>(
    Object.entries((snapshot.custom?.["charts"] ?? {}) as Record<string, readonly ChartPlan[]>),
  );
  const layer = document.createElement("div");
  layer.className = "page-charts";
  let drawn: readonly DrawnChart[] = [];

  const redraw = (): void => {
    const sheet = api.getActiveWorkbook()?.getActiveSheet();
    const charts = (sheet && bySheet.get(sheet.getSheetId())) ?? [];
    drawn = sheet ? charts.map((chart) => ({ chart, element: document.createElement("div"), sheet, size: "" })) : [];
    layer.replaceChildren(...drawn.map(({ element }) => element));
    place();
  };
  const place = (): void => {
    const view = mainView(api, injector);
    layer.hidden = view === null || drawn.length === 0;
    if (view === null) return;
    if (layer.parentElement !== view.holder) view.holder.append(layer);
    setBox(layer, view.box);
    for (const one of drawn) placeChart(one, view, injector);
  };
  /** Many events of one moment are answered once. */
  let asked = false;
  const placeSoon = (): void => {
    if (asked) return;
    asked = true;
    requestAnimationFrame(() => {
      asked = false;
      place();
    });
  };
  for (const event of [api.Event.Scroll, api.Event.SheetZoomChanged, api.Event.SheetSkeletonChanged] as const) {
    api.addEvent(event, placeSoon);
  }
  api.addEvent(api.Event.ActiveSheetChanged, () => requestAnimationFrame(redraw));
  window.addEventListener("resize", () => setTimeout(place, RESIZE_MILLISECONDS));
  return {
    put: (sheetId, charts) => {
      bySheet.set(sheetId, charts);
      redraw();
    },
    of: (sheetId) => bySheet.get(sheetId) ?? [],
    refresh: redraw,
  };
}

/** The grid follows a new window size a little later. */
const RESIZE_MILLISECONDS = 200;

interface DrawnChart {
  readonly chart: ChartPlan;
  readonly element: HTMLElement;
  readonly sheet: FWorksheet;
  /** The size that it was drawn for. */
  size: string;
}

interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** The part of the grid that scrolls, on the page, and how far it has. */
interface MainView {
  readonly holder: HTMLElement;
  readonly box: Box;
  readonly scale: number;
  /** Where a point of the sheet lies in the box. */
  readonly left: (x: number) => number;
  readonly top: (y: number) => number;
}

function mainView(api: FUniver, injector: Injector): MainView | null {
  const workbook = api.getActiveWorkbook();
  const render = workbook && injector.get(IRenderManagerService).getRenderById(workbook.getId());
  const viewport = render?.scene.getViewport(SHEET_VIEWPORT_KEY.VIEW_MAIN);
  const canvas = render?.engine.getCanvasElement();
  const holder = canvas?.parentElement;
  if (!render || !viewport || !canvas || !holder) return null;
  const { scaleX: scale } = render.scene.getAncestorScale();
  const { left, top, viewportScrollX, viewportScrollY } = viewport;
  const box = {
    left: canvas.offsetLeft + left * scale,
    top: canvas.offsetTop + top * scale,
    width: canvas.clientWidth - left * scale,
    height: canvas.clientHeight - top * scale,
  };
  return {
    holder,
    box,
    scale,
    left: (x) => (x - viewportScrollX - left) * scale,
    top: (y) => (y - viewportScrollY - top) * scale,
  };
}

/** Where a cell of the sheet in sight lies on the page, in its pixels; rows and columns count from 0. */
export function cellOnPage(api: FUniver, injector: Injector, row: number, column: number): CellPlace {
  const view = mainView(api, injector);
  const rect = api.getActiveWorkbook()?.getActiveSheet().getRange(row, column).getCellRect();
  if (!view || !rect) throw new Error("No sheet is in sight.");
  const origin = view.holder.getBoundingClientRect();
  const x = (along: number): number => origin.left + view.box.left + view.left(along);
  const y = (down: number): number => origin.top + view.box.top + view.top(down);
  return { left: x(rect.left), top: y(rect.top), right: x(rect.right), bottom: y(rect.bottom) };
}

interface CellPlace {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

function placeChart(drawn: DrawnChart, view: MainView, injector: Injector): void {
  const { chart, element, sheet } = drawn;
  const first = sheet.getRange(chart.on.row - 1, chart.on.column - 1).getCellRect();
  const last = sheet.getRange(chart.on.row + chart.on.rows - 2, chart.on.column + chart.on.columns - 2).getCellRect();
  const box = {
    left: view.left(first.left),
    top: view.top(first.top),
    width: (last.right - first.left) * view.scale,
    height: (last.bottom - first.top) * view.scale,
  };
  setBox(element, box);
  const size = `${String(Math.round(box.width))} ${String(Math.round(box.height))}`;
  if (drawn.size === size) return;
  drawn.size = size;
  // Drawn in the sheet's own measure: a zoom makes its letters larger as it does those of the cells.
  const picture = chartOn(chart, sheet, injector, { width: last.right - first.left, height: last.bottom - first.top });
  picture.setAttribute("width", "100%");
  picture.setAttribute("height", "100%");
  element.replaceChildren(picture);
}

/** The chart with what its sheet's cells hold now. */
export function chartOn(chart: ChartPlan, sheet: FWorksheet, injector: Injector, size: PictureSize): SVGSVGElement {
  return drawChart(pictureOf(chart, numbersOn(sheet, injector)), size);
}

function setBox(element: HTMLElement, { left, top, width, height }: Box): void {
  Object.assign(element.style, {
    left: `${String(left)}px`,
    top: `${String(top)}px`,
    width: `${String(width)}px`,
    height: `${String(height)}px`,
  });
}

/* ---- from the sheet to the picture ---- */

const scales: Readonly<Partial<Record<ChartAxis["format"], Scale>>> = { date: "day", percent: "percent" };

function pictureOf(chart: ChartPlan, numberAt: NumberAt): ChartPicture {
  return {
    title: chart.title,
    description: chart.description,
    across: pictureAxis(chart.across),
    up: pictureAxis(chart.up),
    sameScales: chart.series.some(({ look }) => look === "frame"),
    nothingYet: "Nothing to show yet",
    series: chart.series.map(({ name, look, across, up }) => ({
      name,
      drawing: seriesLooks[look],
      points: pointsOf(numberAt, across, up),
    })),
  };
}

function pictureAxis({ title, format, least, most }: ChartAxis): PictureAxis {
  return {
    title,
    scale: scales[format] ?? "number",
    ...(least === undefined ? {} : { least }),
    ...(most === undefined ? {} : { most }),
  };
}

/** What a cell holds as a number, or null; rows and columns count from 1. */
type NumberAt = (row: number, column: number) => number | null;

/** The cells' own numbers: the grid's usual way of asking answers them as they are shown, as text. */
function numbersOn(sheet: FWorksheet, injector: Injector): NumberAt {
  const matrix = sheet.getSheet();
  const spilled = injector.get(FormulaDataModel).getArrayFormulaCellData()[matrix.getUnitId()]?.[sheet.getSheetId()];
  return (row, column) => {
    const value = matrix.getCellRaw(row - 1, column - 1)?.v ?? spilled?.[row - 1]?.[column - 1]?.v;
    return typeof value === "number" ? value : null;
  };
}

/** The rows in which both cells hold a number. */
function pointsOf(numberAt: NumberAt, across: Block, up: Block): readonly PicturePoint[] {
  return [...Array(across.rows).keys()].flatMap((index) => {
    const x = numberAt(across.row + index, across.column);
    const y = numberAt(up.row + index, up.column);
    return x === null || y === null ? [] : [{ across: x, up: y }];
  });
}
