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
  const before = sheet.columnData ?? {};
  const now = grid.sheet.columnData ?? {};
  const count = Math.max(sheet.columnCount, grid.sheet.columnCount ?? 0);
  const changed = new Set<number>();
  for (const key of new Set([...Object.keys(before), ...Object.keys(now)])) {
    const was = before[Number(key)];
    const is = now[Number(key)];
    const isSame =
      (was?.w ?? sheet.defaultColumnWidth) === (is?.w ?? sheet.defaultColumnWidth) &&
      (was?.hd ?? 0) === (is?.hd ?? 0) &&
      styleNumber(was?.s) === styleNumber(is?.s);
    if (!isSame) changed.add(Number(key));
  }
  if (changed.size === 0) return;

  const prefix = prefixOf(root);
  const list = child(root, "cols");
  const written: string[] = [];
  const put = (
    first: number,
    last: number,
    attributes: Readonly<Record<string, string | number | undefined>>,
  ): void => {
    written.push(element(`${prefix}col`, { ...attributes, min: first + 1, max: last + 1 }));
  };
  const inFile = children(list, "col");
  const ofColumn = (number: number): XmlElement | undefined =>
    inFile.find((col) => (wholeNumber(col, "min") ?? 0) - 1 <= number && number <= (wholeNumber(col, "max") ?? 0) - 1);
  let number = 0;
  while (number < count) {
    const col = ofColumn(number);
    let last = number;
    if (changed.has(number)) {
      const { w, hd, s } = now[number] ?? {};
      const width = w ?? sheet.defaultColumnWidth ?? 64;
      const wasWidth = before[number]?.w;
      put(number, number, {
        ...col?.attributes,
        width: wasWidth === w && col?.attributes["width"] ? col.attributes["width"] : columnCharacters(width),
        customWidth: 1,
        hidden: hd === BooleanNumber.TRUE ? 1 : undefined,
        style: styleNumber(s) ?? undefined,
      });
    } else {
      const end = col === undefined ? number : (wholeNumber(col, "max") ?? 1) - 1;
      while (last < end && last + 1 < count && !changed.has(last + 1)) last += 1;
      // What the file says of columns far to the right of all content stays as it is.
      if (last === count - 1 && end > last) last = end;
      if (col) put(number, last, col.attributes);
    }
    number = last + 1;
  }
  for (const col of inFile)
    if ((wholeNumber(col, "min") ?? 1) - 1 >= number)
      put((wholeNumber(col, "min") ?? 1) - 1, (wholeNumber(col, "max") ?? 1) - 1, col.attributes);
  const xml = written.length === 0 ? "" : element(`${prefix}cols`, {}, ...written);
  if (list) edits.replaceElement(list, xml);
  else if (xml !== "") insertInOrder(edits, root, "cols", xml);
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
  const was = sheet.freeze;
  const is = grid.sheet.freeze ?? { xSplit: 0, ySplit: 0, startRow: -1, startColumn: -1 };
  const isMoved =
    (was?.xSplit ?? 0) !== is.xSplit ||
    (was?.ySplit ?? 0) !== is.ySplit ||
    (is.ySplit > 0 && was?.startRow !== is.startRow) ||
    (is.xSplit > 0 && was?.startColumn !== is.startColumn);
  const lines = grid.sheet.showGridlines ?? BooleanNumber.TRUE;
  const hasOtherLines = lines !== (sheet.showGridlines ?? BooleanNumber.TRUE);
  if (!isMoved && !hasOtherLines) return;

  const prefix = prefixOf(root);
  const views = child(root, "sheetViews");
  const view = child(views, "sheetView");
  const pane = isMoved ? paneXml(is, prefix) : "";
  if (view === undefined) {
    const attributes = { showGridLines: lines === BooleanNumber.FALSE ? 0 : undefined, workbookViewId: 0 };
    const xml = element(`${prefix}sheetView`, attributes, ...(pane === "" ? [] : [pane]));
    if (views) edits.append(views, xml);
    else insertInOrder(edits, root, "sheetViews", element(`${prefix}sheetViews`, {}, xml));
    return;
  }
  if (hasOtherLines) edits.setAttribute(view, "showGridLines", lines === BooleanNumber.FALSE ? 0 : undefined);
  if (!isMoved) return;
  const old = child(view, "pane");
  const first = view.children[0];
  if (old) edits.replaceElement(old, pane);
  else if (first) edits.insertBefore(first, pane);
  else if (pane !== "") edits.append(view, pane);
  // A selection in a pane that is no longer there would be a fault.
  for (const selection of children(view, "selection")) edits.removeElement(selection);
}

function paneXml(
  { xSplit, ySplit, startRow, startColumn }: NonNullable<GridSheetState["sheet"]["freeze"]>,
  prefix: string,
): string {
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
