/** What the cells of a sheet that was worked out show, as plain values. */
import type { HeadlessSheet } from "../../src/grid/headless";
import type { CalculatedValue } from "../../src/workbook/plan/calculated";

type Plain = string | number | boolean;

/** An error by its name; undefined where nothing stands. */
export function plain(value: CalculatedValue | undefined): Plain | undefined {
  if (value === undefined) return undefined;
  return value.kind === "error" ? value.name : value.kind === "text" ? value.text : value.value;
}

/** Reads a cell by its address; "" where nothing stands. */
export function reader(sheet: HeadlessSheet | undefined): (address: string) => Plain {
  if (!sheet) throw new Error("The sheet was not worked out.");
  return (address) => plain(sheet.values.get(address)) ?? "";
}
