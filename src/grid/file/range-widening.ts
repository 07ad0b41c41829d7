/**
 * The grid's sheets end not far below what is used, and a rule that held for a whole column ends there too. On the way
 * back into the file such a rule reaches the sheet's end again.
 */
import type { IRange } from "@univerjs/core";

import { LAST_COLUMN, LAST_ROW } from "../../core/sheet";
import type { GridSheetState } from "./grid-state";

export function widened(ranges: readonly IRange[], { sheet }: GridSheetState): IRange[] {
  return ranges.map(({ startRow, endRow, startColumn, endColumn }) => ({
    startRow,
    startColumn,
    endRow: endRow === (sheet.rowCount ?? 0) - 1 ? LAST_ROW - 1 : endRow,
    endColumn: endColumn === (sheet.columnCount ?? 0) - 1 ? LAST_COLUMN - 1 : endColumn,
  }));
}

/** The same value for rules that say the same, whatever the order of their parts and what the grid adds to blocks. */
export function fingerprint(value: unknown): string {
  return JSON.stringify(value, (key, inner: unknown) => {
    if (key === "ranges" && Array.isArray(inner)) {
      return (inner as IRange[]).map(({ startRow, endRow, startColumn, endColumn }) => [
        startRow,
        endRow,
        startColumn,
        endColumn,
      ]);
    }
    if (inner === null || typeof inner !== "object" || Array.isArray(inner)) return inner;
    return Object.fromEntries(Object.entries(inner).sort(([one], [other]) => (one < other ? -1 : 1)));
  });
}
