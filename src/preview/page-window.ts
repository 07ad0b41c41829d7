/** What the page offers to the outside, such as a browser's console or a test. */
export interface PageWindow {
  /** What a cell shows, or undefined: `tryOutPage.read("Board 2027", "K5")`. No selector finds a cell: the grid is drawn. */
  read(sheetName: string, address: string): unknown;
  /** Puts a value into a cell, as the grid does with what is typed there. */
  write(sheetName: string, address: string, value: string | number): void;
  /** Shows and selects a cell. */
  goTo(sheetName: string, address: string): void;
  sheetNames(): string[];
}

declare global {
  interface Window {
    tryOutPage?: PageWindow;
  }
}
