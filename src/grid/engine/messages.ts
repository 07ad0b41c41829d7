/**
 * What the functions said about their errors, kept beside the address of the cell: the grid itself shows an error's
 * name alone, while the spreadsheet program also shows the message.
 */

export interface GridCell {
  readonly sheetId: string;
  /** Counted from 0, as the grid does. */
  readonly row: number;
  readonly column: number;
}

interface CellMessage {
  readonly code: string;
  readonly message: string;
  readonly functionName: string;
}

export interface PlacedMessage extends GridCell, CellMessage {}

interface Entry extends PlacedMessage {
  readonly run: number;
}

export class MessageBook {
  private readonly entries = new Map<string, Entry>();
  private run = 0;

  /** A new calculation begins: what it says replaces what earlier ones said of the same cells. */
  beginRun(): void {
    this.run += 1;
  }

  /** Another workbook is open. */
  clear(): void {
    this.entries.clear();
  }

  fail(cell: GridCell, message: CellMessage): void {
    this.entries.set(keyOf(cell), { ...cell, ...message, run: this.run });
  }

  /** A call in this cell is under way. A message from this very run stays: one formula may hold several calls. */
  succeed(cell: GridCell): void {
    const key = keyOf(cell);
    if (this.entries.get(key)?.run !== this.run) this.entries.delete(key);
  }

  at(cell: GridCell): CellMessage | undefined {
    return this.entries.get(keyOf(cell));
  }

  /**
   * The messages of the cells that still show the error: a formula may have caught it (IFERROR), or be gone.
   * `shown` answers what the cell shows now.
   */
  current(shown: (cell: GridCell) => unknown): PlacedMessage[] {
    return [...this.entries.values()]
      .filter((entry) => shown(entry) === entry.code)
      .map(({ sheetId, row, column, code, message, functionName }) => ({
        sheetId,
        row,
        column,
        code,
        message,
        functionName,
      }));
  }
}

function keyOf(cell: GridCell): string {
  return `${cell.sheetId}!${cell.row},${cell.column}`;
}
