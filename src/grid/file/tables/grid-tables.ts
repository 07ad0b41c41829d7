/** A file's tables as the grid keeps them. */
import { type ITableJson, TableColumnDataTypeEnum } from "@univerjs/sheets-table";

import type { FileTable } from "../../../xlsx/parts/tables/read";
import type { CellRange } from "../../../xlsx/ranges";

/** Says of a table in the grid that a row of totals lies below it: it must not grow over them. */
const TOTALS_BELOW = "totalsBelow";

/** The table's cells as the grid counts them: without a row of totals. */
export function gridTableRange({ range, hasTotals }: FileTable): CellRange {
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
