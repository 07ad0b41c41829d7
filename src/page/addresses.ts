import { columnNumber } from "../core/sheet";

/** `{row: 4, column: 1}`, counted from 0 as the grid does, for `B5`. Throws for anything else. */
export function cellAddress(name: string): { readonly row: number; readonly column: number } {
  const match = /^([A-Z]{1,3})([1-9]\d{0,6})$/.exec(name);
  if (match?.[1] === undefined || match[2] === undefined) throw new RangeError(`${name} is no cell's address.`);
  return { row: Number(match[2]) - 1, column: columnNumber(match[1]) - 1 };
}
