/** Short ways to write down what a sheet holds. */
import type { Formula } from "./formula";
import { headingFormat, statusWordLooks } from "./looks";
import { STATUSES } from "../../trade/statuses";
import type { AreaPlan, Block, CellAddress, CellPlan, Content, Look, NumberFormat, StatusRule } from "./schema";

export const empty: Content = { kind: "empty" };

export function text(words: string): Content {
  return { kind: "text", text: words };
}

export function number(value: number): Content {
  return { kind: "number", value };
}

export function date(serial: number): Content {
  return { kind: "date", serial };
}

/** A formula that fills its own cell only. */
export function formula(tree: Formula): Content {
  return { kind: "formula", formula: tree, spills: false };
}

/** A formula that fills a block from its own cell on. */
export function spill(tree: Formula): Content {
  return { kind: "formula", formula: tree, spills: true };
}

/** A table's rows; one empty row where there are none, as a table cannot be without. */
export function rowsOrEmpty(
  columns: readonly unknown[],
  rows: readonly (readonly Content[])[],
): readonly (readonly Content[])[] {
  return rows.length === 0 ? [columns.map(() => empty)] : rows;
}

interface CellOptions {
  readonly look?: Look;
  readonly format?: NumberFormat;
  readonly wrap?: boolean;
}

export function put(row: number, column: number, content: Content, options: CellOptions = {}): CellPlan {
  const { look = "plain", format = "general", wrap } = options;
  const plan: CellPlan = { at: { row, column }, content, look, format };
  return wrap === undefined ? plan : { ...plan, wrap };
}

/** The title in A1 and the line under it. */
export function sheetTitle(title: string, note: string): readonly CellPlan[] {
  return [put(1, 1, text(title), { look: "title" }), put(2, 1, text(note), { look: "note" })];
}

/** A caution over so many columns from a cell on: words in the first, the look in all. */
export function cautionRow(row: number, firstColumn: number, columns: number, words: string): readonly CellPlan[] {
  return Array.from({ length: columns }, (_, index) =>
    put(row, firstColumn + index, index === 0 ? text(words) : empty, { look: "caution" }),
  );
}

/**
 * A row of headings from a cell on.
 *
 * @param formats those of the cells below, where they are not all words: a heading stands as its column does
 */
export function headings(
  row: number,
  firstColumn: number,
  words: readonly string[],
  formats: readonly NumberFormat[] = [],
): readonly CellPlan[] {
  return words.map((word, index) =>
    put(row, firstColumn + index, text(word), {
      look: "heading",
      format: headingFormat(formats[index] ?? "general"),
    }),
  );
}

/** The room that a spill's heading row fills, each heading as its column stands. */
export function headingAreas({ row, column }: CellAddress, formats: readonly NumberFormat[]): readonly AreaPlan[] {
  return formats.map((format, index) => ({
    on: { row, column: column + index, rows: 1, columns: 1 },
    look: "heading",
    format: headingFormat(format),
  }));
}

/** The rules that colour each status word in a block. */
export function statusRules(on: Block): readonly StatusRule[] {
  return STATUSES.map((word) => ({ on, text: word, look: statusWordLooks[word] }));
}
