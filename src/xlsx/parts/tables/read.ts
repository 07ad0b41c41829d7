/** A sheet's tables as the grid keeps them. */
import type { IRange } from "@univerjs/core";
import { type ITableJson, TableColumnDataTypeEnum } from "@univerjs/sheets-table";

import type { TableShape } from "../../formulas/reading";
import { parseRange } from "../../ranges";
import { relationshipsOf } from "../../package/relationships";
import type { WorkbookPackage } from "../../package/workbook-package";
import { decodeString } from "../../xml/text";
import { child, children, descendants, parseXml, wholeNumber, type XmlDocument } from "../../xml/tree";

export interface FileTable extends TableShape {
  readonly part: string;
  readonly name: string;
  /** Headings, rows and totals. */
  readonly range: IRange;
  readonly columns: readonly FileTableColumn[];
  /** Whether rows are hidden by what a column's filter lets through. */
  readonly isFiltered: boolean;
}

interface FileTableColumn {
  readonly heading: string;
  /** As the file holds it, without `=`. */
  readonly formula: string | undefined;
}

/** Says of a table in the grid that a row of totals lies below it: it must not grow over them. */
export const TOTALS_BELOW = "totalsBelow";

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

/** The table's cells as the grid counts them: without a row of totals. */
export function gridTableRange({ range, hasTotals }: FileTable): IRange {
  return { ...range, endRow: hasTotals ? Math.max(range.startRow, range.endRow - 1) : range.endRow };
}

/**
 * @param formulaOf a column's formula as the grid reads it, or undefined where it cannot be worked out there
 */
export function gridTable(
  table: FileTable,
  id: string,
  formulaOf: (formula: string, table: FileTable) => string | undefined,
): ITableJson {
  return {
    id,
    name: table.name,
    range: gridTableRange(table),
    options: { showHeader: true },
    filters: { tableColumnFilterList: [] },
    columns: table.columns.map(({ heading, formula }, index) => ({
      id: `${id}-column-${index + 1}`,
      displayName: heading,
      dataType: TableColumnDataTypeEnum.None,
      formula: (formula === undefined ? undefined : formulaOf(formula, table)) ?? "",
      meta: {},
      style: {},
    })),
    meta: table.hasTotals ? { [TOTALS_BELOW]: true } : {},
  };
}
