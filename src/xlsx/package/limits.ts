/** What a file may hold at the most, so that none can fill the browser's memory. */
const MEGABYTE = 1024 * 1024;

export const limits = {
  fileBytes: 20 * MEGABYTE,
  parts: 5000,
  /** All parts together, unpacked. */
  inflatedBytes: 512 * MEGABYTE,
  /** One part, unpacked; a text of that length is still one string in every browser. */
  partBytes: 192 * MEGABYTE,
  /** How many times its packed size a part may be, from `ratioFromBytes` on. Real sheets stay below 60. */
  ratio: 250,
  ratioFromBytes: 2 * MEGABYTE,
  /** Cells that hold something or have a look of their own. */
  cells: 2_000_000,
  /** Characters of all cells together: a text that is stored once may stand in any number of cells. */
  cellCharacters: 100_000_000,
  /** The same for formulas: one that is held once may stand in any number of cells too. */
  formulaCharacters: 30_000_000,
  /** The longest formula that the format allows; a longer one is not worked out. */
  formulaLength: 8192,
  /** Cells whose letters are drawn in more than one way; those beyond are shown in one. */
  richCells: 50_000,
  /** Elements inside elements. */
  xmlDepth: 100,
  merges: 100_000,
} as const;
