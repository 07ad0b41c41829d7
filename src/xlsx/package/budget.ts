/** Counts what the workbook's cells hold while it is read, and stops the reading where a browser would run out of memory. */
import { refuse } from "./file-refused";
import { limits } from "./limits";

export class Budget {
  private cells = 0;
  private characters = 0;
  private formulaCharacters = 0;
  private richCells = 0;

  cell(): void {
    this.cells += 1;
    if (this.cells > limits.cells) refuse("tooManyCells");
  }

  text(characters: number): void {
    this.characters += characters;
    if (this.characters > limits.cellCharacters) refuse("tooMuchText");
  }

  formula(characters: number): void {
    this.formulaCharacters += characters;
    if (this.formulaCharacters > limits.formulaCharacters) refuse("tooMuchText");
  }

  /** Whether one more cell may be drawn in several ways. */
  allowsRich(): boolean {
    this.richCells += 1;
    return this.richCells <= limits.richCells;
  }
}
