/** What the page offers to the outside, such as a browser's console or a test. */
interface PageWindow {
  /** What a cell shows, or undefined: `tryOutPage.read("Board 2027", "K5")`. No selector finds a cell: the grid is drawn. */
  read(sheetName: string, address: string): unknown;
  /** Puts a value into a cell, as the grid does with what is typed there. */
  write(sheetName: string, address: string, value: string | number): void;
  /** Shows and selects a cell. */
  goTo(sheetName: string, address: string): void;
  /** Where a cell of the sheet in sight lies on the page, in its pixels; of a cell in a frozen row or column, where it would lie scrolled. */
  place(address: string): {
    readonly left: number;
    readonly top: number;
    readonly right: number;
    readonly bottom: number;
  };
  sheetNames(): string[];
  /** The mends of the grid that did not find what they reach for. */
  readonly notMended: readonly string[];
}

declare global {
  interface Window {
    tryOutPage?: PageWindow;
  }
}

export {};
