/** A sheet's tables as the file keeps them. */
import type { TableShape } from "../../formulas/reading";
import { type CellRange, parseRange } from "../../ranges";
import { relationshipsOf } from "../../package/relationships";
import type { WorkbookPackage } from "../../package/workbook-package";
import { decodeString } from "../../xml/text";
import { child, children, descendants, parseXml, wholeNumber, type XmlDocument } from "../../xml/tree";

export interface FileTable extends TableShape {
  readonly part: string;
  readonly name: string;
  /** Headings, rows and totals. */
  readonly range: CellRange;
  readonly columns: readonly FileTableColumn[];
  /** Whether rows are hidden by what a column's filter lets through. */
  readonly isFiltered: boolean;
}

interface FileTableColumn {
  readonly heading: string;
  /** As the file holds it, without `=`. */
  readonly formula: string | undefined;
}

export function readTables(source: WorkbookPackage, sheetPart: string): FileTable[] {
  return relationshipsOf(source, sheetPart)
    .filter(({ kind, isExternal, target }) => kind === "table" && !isExternal && source.has(target))
    .flatMap(({ target }) => {
      const table = readTable(parseXml(source.text(target)), target);
      return table === undefined ? [] : [table];
    });
}

function readTable({ root }: XmlDocument, part: string): FileTable | undefined {
  const range = parseRange(root.attributes["ref"] ?? "");
  const name = root.attributes["displayName"] ?? root.attributes["name"];
  if (range === undefined || name === undefined) return undefined;
  return {
    part,
    name: decodeString(name),
    range,
    hasHeadings: (wholeNumber(root, "headerRowCount") ?? 1) > 0,
    hasTotals: (wholeNumber(root, "totalsRowCount") ?? 0) > 0,
    columns: children(child(root, "tableColumns"), "tableColumn").map((column) => ({
      heading: decodeString(column.attributes["name"] ?? ""),
      formula: child(column, "calculatedColumnFormula")?.text,
    })),
    isFiltered: descendants(root, "filterColumn").length > 0,
  };
}

/** Tables are numbered throughout the workbook. */
export function nextTableId(target: WorkbookPackage): number {
  const ids = target
    .names()
    .filter((name) => /(^|\/)tables\/[^/]+\.xml$/i.test(name))
    .map((name) => Number(/<(?:\w+:)?table\b[^>]*?\sid="(\d+)"/.exec(target.text(name))?.[1] ?? 0));
  return Math.max(0, ...ids) + 1;
}
