/** From what was found in a club's log to what the board's formulas need to know. */
import { isSumRow } from "../../../core/log-layout/as-read";
import { valueAt, type CellBlock } from "../../../core/log-layout/cell-block";
import type { LogLayout } from "../../../core/log-layout/find-layout";
import { isNameOver } from "../../../core/log-layout/names-over";
import { comparable } from "../../../core/text";
import type { OwnLog, OwnTable } from "../../../workbook/own-board/own-board";

/** What a board cannot do without. */
export type NeededRole = "date" | "athlete" | "trick" | "record";

/** The roles that still have no column. */
export function missingRoles({ mapping }: LogLayout): readonly NeededRole[] {
  return (["date", "athlete", "trick", "record"] as const).filter((role) => {
    const found = mapping[role];
    // One name for all rows that is not typed yet.
    return found === null || (typeof found === "object" && "name" in found && found.name === "");
  });
}

/** The log for the board's formulas; null while something is missing. */
export function ownLogOf(sheet: string, table: OwnTable | null, layout: LogLayout): OwnLog | null {
  const { date, athlete, trick, record, ...mapping } = layout.mapping;
  if (missingRoles(layout).length > 0) return null;
  if (date === null || athlete === null || trick === null || record === null) return null;
  return {
    sheet,
    table,
    firstRow: mapping.firstRow,
    lastRow: mapping.lastRow,
    date,
    dateHeading: layout.columns.find(({ column }) => column === date)?.heading ?? "",
    dateText: mapping.dateText,
    athlete,
    trick,
    stage: mapping.stage,
    attempts: record,
    key: mapping.key,
    filledDown: mapping.filledDown,
    blank: mapping.blank,
    tally: mapping.tally,
    turned: mapping.turned,
    sums: mapping.sums,
    numberTexts: mapping.numberTexts,
    writing: mapping.writing,
    endsAt: mapping.endsAt,
  };
}

/** The names in the log, each once, the latest first. */
export function namesInLog(block: CellBlock, layout: LogLayout, role: "athlete" | "trick"): readonly string[] {
  const source = layout.mapping[role];
  if (source !== null && "name" in source) return [source.name];
  const names = new Map<string, string>();
  if (source === null) return [];
  for (let row = layout.mapping.lastRow; row >= layout.mapping.firstRow; row -= 1) {
    const name = nameAt(block, layout, row, source);
    const key = comparable(name);
    if (name !== "" && !names.has(key)) names.set(key, name);
  }
  return [...names.values()];
}

/** The athlete and trick of a row; where the cell is filled down, of the row above that says so. */
export function namesOfRow(
  block: CellBlock,
  layout: LogLayout,
  row: number | null,
): { readonly athlete: string; readonly trick: string } {
  const nameOf = (role: "athlete" | "trick"): string => {
    const source = layout.mapping[role];
    if (source === null) return "";
    if ("name" in source) return source.name;
    for (let at = row ?? 0; at >= layout.mapping.firstRow; at -= 1) {
      const name = nameAt(block, layout, at, source);
      if (name !== "") return name;
    }
    return "";
  };
  return { athlete: nameOf("athlete"), trick: nameOf("trick") };
}

/** What a row says of a name itself: nothing in rows below a name over its block, and in rows of sums. */
function nameAt(
  block: CellBlock,
  { mapping }: LogLayout,
  row: number,
  source: { readonly column: number } | { readonly over: number },
): string {
  if (isSumRow(block, mapping.sums, row)) return "";
  if ("over" in source && !isNameOver(block, mapping, row, source.over)) return "";
  const column = "over" in source ? source.over : source.column;
  const value = valueAt(block, row, column);
  return typeof value === "string" || typeof value === "number" ? String(value).trim() : "";
}
