/** What lies around a sheet's cells: widths, heights, merged cells, frozen panes, grid lines, the tab's colour. */
import { BooleanNumber, type IRange, type IRowData, type Nullable } from "@univerjs/core";

import { element } from "../../../xlsx/xml/write";
import type { GridSheetState } from "../grid-state";
import { columnCharacters, rowPoints } from "../../../xlsx/parts/layout/measures";
import { placeName, rangeName } from "../../../xlsx/ranges";
import type { ReadSheet } from "../open";
import type { RowChange } from "../cells/write-rows";
import { insertInOrder } from "../../../xlsx/xml/insert-in-order";
import { styleNumber } from "../styles/read";
import type { XmlEdits } from "../../../xlsx/xml/edits";
import { child, children, prefixOf, wholeNumber, type XmlElement } from "../../../xlsx/xml/tree";

export function writeLayout(edits: XmlEdits, file: ReadSheet, grid: GridSheetState): void {
  writeColumns(edits, file, grid);
  writeMerges(edits, file, grid);
  writeView(edits, file, grid);
  writeTabColour(edits, file, grid);
}

/* ---- rows ---- */

export function rowChanges({ sheet: before }: ReadSheet, { sheet: now }: GridSheetState): Map<number, RowChange> {
  const changes = new Map<number, RowChange>();
  const rows = new Set([...Object.keys(before.rowData ?? {}), ...Object.keys(now.rowData ?? {})]);
  for (const key of rows) {
    const row = Number(key);
    const was = before.rowData?.[row];
    const is = now.rowData?.[row];
    const height = changedHeight(was, is);
    const isHidden = isHiddenRow(is) === isHiddenRow(was) ? undefined : isHiddenRow(is);
    if (height === undefined && isHidden === undefined) continue;
    changes.set(row, { ...(height === undefined ? {} : { height }), ...(isHidden === undefined ? {} : { isHidden }) });
  }
  return changes;
}

function isHiddenRow(row: Nullable<Partial<IRowData>>): boolean {
  return row?.hd === BooleanNumber.TRUE;
}

/** In points; null for one that fits itself to what it shows again; undefined where nothing changed. */
function changedHeight(was: Nullable<Partial<IRowData>>, is: Nullable<Partial<IRowData>>): number | null | undefined {
  const isFixed = (row: Nullable<Partial<IRowData>>): boolean => row?.h !== undefined && row.ia === BooleanNumber.FALSE;
  if (isFixed(is)) return isFixed(was) && was?.h === is?.h ? undefined : rowPoints(is?.h ?? 0);
  return isFixed(was) ? null : undefined;
}

/* ---- columns ---- */

function writeColumns(edits: XmlEdits, { root, sheet }: ReadSheet, grid: GridSheetState): void {
  const changed = changedColumns(sheet, grid.sheet);
  if (changed.size === 0) return;
  const prefix = prefixOf(root);
  const list = child(root, "cols");
  const count = Math.max(sheet.columnCount, grid.sheet.columnCount ?? 0);
  const written = columnRuns(children(list, "col"), changed, count).map(({ first, last, col }) => {
    const attributes = changed.has(first) ? columnAttributes(first, sheet, grid.sheet, col) : col?.attributes;
    return element(`${prefix}col`, { ...attributes, min: first + 1, max: last + 1 });
  });
  const xml = written.length === 0 ? "" : element(`${prefix}cols`, {}, ...written);
  if (list) edits.replaceElement(list, xml);
  else if (xml !== "") insertInOrder(edits, root, "cols", xml);
}

type Before = ReadSheet["sheet"];
type Now = GridSheetState["sheet"];

/** The columns, from 0, whose width, look or hiding is another than in the file. */
function changedColumns(before: Before, now: Now): ReadonlySet<number> {
  const [was, is] = [before.columnData ?? {}, now.columnData ?? {}];
  const facts = (of: typeof was, number: number): string => {
    const { w = before.defaultColumnWidth, hd = 0, s } = of[number] ?? {};
    return [w, hd, styleNumber(s)].join(" ");
  };
  const all = new Set([...Object.keys(was), ...Object.keys(is)].map(Number));
  return new Set([...all].filter((number) => facts(was, number) !== facts(is, number)));
}

/** Columns side by side, from 0, that are written as one; `col` is what the file says of them. */
interface ColumnRun {
  readonly first: number;
  readonly last: number;
  readonly col: XmlElement | undefined;
}

/** Each changed column for itself, between them what the file says of the others; of those it says nothing of, nothing. */
function columnRuns(inFile: readonly XmlElement[], changed: ReadonlySet<number>, count: number): ColumnRun[] {
  const spans = inFile.map((col) => ({
    col,
    first: (wholeNumber(col, "min") ?? 1) - 1,
    last: (wholeNumber(col, "max") ?? 1) - 1,
  }));
  const runs: ColumnRun[] = [];
  let number = 0;
  while (number < count) {
    const span = spans.find(({ first, last }) => first <= number && number <= last);
    let last = number;
    if (!changed.has(number)) {
      const end = span?.last ?? number;
      while (last < end && last + 1 < count && !changed.has(last + 1)) last += 1;
      // What the file says of columns far to the right of all content stays as it is.
      if (last === count - 1 && end > last) last = end;
    }
    if (changed.has(number) || span) runs.push({ first: number, last, col: span?.col });
    number = last + 1;
  }
  return [...runs, ...spans.filter(({ first }) => first >= number)];
}

function columnAttributes(
  number: number,
  before: Before,
  now: Now,
  col: XmlElement | undefined,
): Readonly<Record<string, string | number | undefined>> {
  const { w, hd, s } = now.columnData?.[number] ?? {};
  const kept = before.columnData?.[number]?.w === w ? col?.attributes["width"] : undefined;
  return {
    ...col?.attributes,
    // As it is written there: in characters it may not come out as the same digits.
    width: kept ? kept : columnCharacters(w ?? before.defaultColumnWidth ?? 64),
    customWidth: 1,
    hidden: hd === BooleanNumber.TRUE ? 1 : undefined,
    style: styleNumber(s) ?? undefined,
  };
}

/* ---- merged cells ---- */

function writeMerges(edits: XmlEdits, { root, sheet }: ReadSheet, grid: GridSheetState): void {
  const names = (ranges: readonly IRange[] | undefined): string[] => (ranges ?? []).map(rangeName).sort();
  const now = names(grid.sheet.mergeData);
  if (names(sheet.mergeData).join() === now.join()) return;
  const prefix = prefixOf(root);
  const xml =
    now.length === 0
      ? ""
      : element(
          `${prefix}mergeCells`,
          { count: now.length },
          ...(grid.sheet.mergeData ?? []).map((range) => element(`${prefix}mergeCell`, { ref: rangeName(range) })),
        );
  const list = child(root, "mergeCells");
  if (list) edits.replaceElement(list, xml);
  else insertInOrder(edits, root, "mergeCells", xml);
}

/* ---- the view ---- */

function writeView(edits: XmlEdits, { root, sheet }: ReadSheet, grid: GridSheetState): void {
  const frozen = grid.sheet.freeze ?? { xSplit: 0, ySplit: 0, startRow: -1, startColumn: -1 };
  const isMoved = isOtherwiseFrozen(sheet.freeze, frozen);
  const lines = grid.sheet.showGridlines ?? BooleanNumber.TRUE;
  const hasOtherLines = lines !== (sheet.showGridlines ?? BooleanNumber.TRUE);
  if (!isMoved && !hasOtherLines) return;

  const prefix = prefixOf(root);
  const showGridLines = lines === BooleanNumber.FALSE ? 0 : undefined;
  const pane = isMoved ? paneXml(frozen, prefix) : "";
  const view = child(child(root, "sheetViews"), "sheetView");
  if (view === undefined) {
    addView(
      edits,
      root,
      element(`${prefix}sheetView`, { showGridLines, workbookViewId: 0 }, ...(pane === "" ? [] : [pane])),
    );
    return;
  }
  if (hasOtherLines) edits.setAttribute(view, "showGridLines", showGridLines);
  if (isMoved) replacePane(edits, view, pane);
}

type Freeze = NonNullable<GridSheetState["sheet"]["freeze"]>;

function isOtherwiseFrozen(was: ReadSheet["sheet"]["freeze"], is: Freeze): boolean {
  const { xSplit, ySplit, startRow, startColumn } = was ?? { xSplit: 0, ySplit: 0 };
  if (xSplit !== is.xSplit || ySplit !== is.ySplit) return true;
  return (is.ySplit > 0 && startRow !== is.startRow) || (is.xSplit > 0 && startColumn !== is.startColumn);
}

function addView(edits: XmlEdits, root: XmlElement, xml: string): void {
  const views = child(root, "sheetViews");
  if (views) edits.append(views, xml);
  else insertInOrder(edits, root, "sheetViews", element(`${prefixOf(root)}sheetViews`, {}, xml));
}

function replacePane(edits: XmlEdits, view: XmlElement, pane: string): void {
  const old = child(view, "pane");
  const first = view.children[0];
  if (old) edits.replaceElement(old, pane);
  else if (first) edits.insertBefore(first, pane);
  else if (pane !== "") edits.append(view, pane);
  // A selection in a pane that is no longer there would be a fault.
  for (const selection of children(view, "selection")) edits.removeElement(selection);
}

function paneXml({ xSplit, ySplit, startRow, startColumn }: Freeze, prefix: string): string {
  if (xSplit <= 0 && ySplit <= 0) return "";
  const active = xSplit > 0 && ySplit > 0 ? "bottomRight" : ySplit > 0 ? "bottomLeft" : "topRight";
  return element(`${prefix}pane`, {
    xSplit: xSplit > 0 ? xSplit : undefined,
    ySplit: ySplit > 0 ? ySplit : undefined,
    topLeftCell: placeName({ row: Math.max(0, startRow), column: Math.max(0, startColumn) }),
    activePane: active,
    state: "frozen",
  });
}

function writeTabColour(edits: XmlEdits, { root, sheet }: ReadSheet, grid: GridSheetState): void {
  const was = (sheet.tabColor ?? "").toUpperCase();
  const is = (grid.sheet.tabColor ?? "").toUpperCase();
  if (was === is) return;
  const prefix = prefixOf(root);
  const digits = /^#([0-9A-F]{6})$/.exec(is)?.[1];
  const xml = digits === undefined ? "" : element(`${prefix}tabColor`, { rgb: `FF${digits}` });
  const properties = child(root, "sheetPr");
  const old = child(properties, "tabColor");
  if (old) edits.replaceElement(old, xml);
  else if (properties?.children[0]) edits.insertBefore(properties.children[0], xml);
  else if (properties) edits.append(properties, xml);
  else insertInOrder(edits, root, "sheetPr", element(`${prefix}sheetPr`, {}, xml));
}
