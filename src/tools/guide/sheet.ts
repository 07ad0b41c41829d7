/**
 * A small sheet that works formulas out with the cell functions themselves, for the guide: what stands in it is shown as
 * the coach would type it, and no answer is written by hand.
 */

export type Value = string | number;
export type Answer = Value | Value[][];
/** The cell functions by their ids. */
export type Functions = Readonly<Record<string, (...given: (Value | null | Value[][])[]) => Answer>>;

const FORMULA = /^=TWIRL\.([A-Z]+)\((.*)\)$/;
const RANGE = /^([A-Z])(\d+):([A-Z])(\d+)$/;
const CELL = /^([A-Z])(\d+)$/;

export class Sheet {
  private readonly cells = new Map<string, Value>();

  constructor(private readonly functions: Functions) {}

  /** @throws Error where the cell is taken */
  put(address: string, value: Value): void {
    if (this.cells.has(address)) throw new Error(`${address} holds something already.`);
    this.cells.set(address, value);
  }

  /**
   * The answer of one call whose arguments are numbers, texts in quotes, cells, ranges, or left out.
   * @throws Error for any other formula, and whatever the function throws
   */
  answer(formula: string): Answer {
    const [, id, list] = FORMULA.exec(formula) ?? [];
    const called = id === undefined ? undefined : this.functions[id];
    if (called === undefined || list === undefined) throw new Error(`${formula} is no formula of ours.`);
    return called(...list.split(",").map((text) => this.argument(text.trim(), formula)));
  }

  private argument(text: string, formula: string): Value | null | Value[][] {
    if (text === "") return null;
    if (/^-?\d+(\.\d+)?$/.test(text)) return Number(text);
    if (/^"[^"]*"$/.test(text)) return text.slice(1, -1);
    if (CELL.test(text)) return this.cells.get(text) ?? "";
    const [, left, top, right, bottom] = RANGE.exec(text) ?? [];
    if (left === undefined || right === undefined) throw new Error(`${formula}: ${text} cannot be read.`);
    const columns = between(left.charCodeAt(0), right.charCodeAt(0)).map((code) => String.fromCharCode(code));
    return between(Number(top), Number(bottom)).map((row) =>
      columns.map((column) => this.cells.get(`${column}${row}`) ?? ""),
    );
  }
}

function between(first: number, last: number): number[] {
  return Array.from({ length: last - first + 1 }, (_, index) => first + index);
}
