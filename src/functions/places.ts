/** Where the cells of an argument stand in the sheet, where the host tells: a coach looks for `Practice!E11`, not for row 7. */
import { columnLetters, columnNumber } from "../core/sheet";

const CELL = /^\$?([A-Za-z]{1,3})?\$?(\d{1,7})?(?::|$)/;

/** The places of a call's ranges. Without addresses, and for ranges that are worked out and not read, it knows none. */
export class Places {
  constructor(
    private readonly addresses: unknown,
    /** The function's arguments in their order, as far as the last range. */
    private readonly names: readonly string[],
  ) {}

  /**
   * Sheet and cell, such as `Practice 2027!E11`; undefined where the host does not tell.
   *
   * @param row and `column` count from 1 inside the argument
   */
  cellOf(argument: string, row: number, column: number): string | undefined {
    const address = Array.isArray(this.addresses)
      ? (this.addresses as readonly unknown[])[this.names.indexOf(argument)]
      : undefined;
    if (typeof address !== "string") return undefined;
    const end = address.lastIndexOf("!");
    const start = CELL.exec(address.slice(end + 1));
    if (!start || (start[1] === undefined && start[2] === undefined)) return undefined;
    // Whole columns such as A:A begin in the first row, whole rows such as 5:9 in the first column.
    const firstColumn = start[1] === undefined ? 1 : columnNumber(start[1]);
    const firstRow = start[2] === undefined ? 1 : Number(start[2]);
    const cell = `${columnLetters(firstColumn + column - 1)}${firstRow + row - 1}`;
    const sheet = end < 0 ? "" : sheetName(address.slice(0, end));
    return sheet === "" ? cell : `${sheet}!${cell}`;
  }
}

/**
 * @param invocation what the host hands over after the arguments, where it does
 * @param names the function's arguments in their order, as far as the last range
 */
export function placesOf(invocation: unknown, names: readonly string[]): Places {
  const addresses: unknown =
    typeof invocation === "object" && invocation !== null && "parameterAddresses" in invocation
      ? invocation.parameterAddresses
      : undefined;
  return new Places(addresses, names);
}

function sheetName(text: string): string {
  return text.startsWith("'") && text.endsWith("'") ? text.slice(1, -1).replaceAll("''", "'") : text;
}
