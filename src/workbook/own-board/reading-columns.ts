/**
 * Columns of the new sheet in which a log is read before the board reads it: days out of texts, marks without what is
 * none, which rows are whole. They are worked out once there and used by every formula; where the log is a table, whose
 * rows are not known, each formula holds them itself.
 */
import { cells, type Formula } from "../plan/formula";
import type { NumberFormat } from "../plan/schema";

interface ReadingColumn {
  readonly heading: string;
  /** How many columns it fills. */
  readonly width: number;
  readonly format: NumberFormat;
  readonly tree: Formula;
}

interface ColumnLook {
  readonly width?: number;
  readonly format?: NumberFormat;
}

export class ReadingColumns {
  readonly columns: ReadingColumn[] = [];
  private used = 0;

  /**
   * @param rows how many rows of the log are read; null where nothing is kept on the sheet
   */
  constructor(
    private readonly firstRow: number,
    private readonly firstColumn: number,
    readonly rows: number | null,
  ) {}

  /** What a formula refers to for this tree: its column on the sheet, or the tree itself. */
  keep(heading: string, tree: Formula, { width = 1, format = "general" }: ColumnLook = {}): Formula {
    if (this.rows === null) return tree;
    const column = this.firstColumn + this.used;
    this.used += width;
    this.columns.push({ heading, width, format, tree });
    return cells({ row: this.firstRow, column }, { row: this.firstRow + this.rows - 1, column: column + width - 1 });
  }
}
