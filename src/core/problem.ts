/** What is wrong with an argument. Rows and columns count from 1 inside the argument's range. */
export interface ProblemDetails {
  readonly argument: string;
  readonly row?: number;
  readonly column?: number;
  /** The sheet's own cell, such as `Practice!E11`, where the host tells it. */
  readonly cell?: string | undefined;
  /** What was found there, as a person would describe it: `the text "maybe"`. */
  readonly found: string;
  /** What is accepted instead. */
  readonly accepted: string;
}

/** An argument is wrong: the cell shows `#VALUE!` with this message. */
export class Problem extends Error {
  readonly details: ProblemDetails;

  constructor(details: ProblemDetails) {
    super(describe(details));
    this.name = "Problem";
    this.details = details;
  }
}

/** The arguments are fine and there is nothing to answer yet: the cell shows `#N/A` with this message. */
export class Missing extends Error {
  constructor(what: string) {
    super(what);
    this.name = "Missing";
  }
}

function describe({ argument, row, column, cell, found, accepted }: ProblemDetails): string {
  const inRange = row === undefined ? "" : column === undefined ? `, row ${row}` : `, row ${row}, column ${column}`;
  const place = cell === undefined ? inRange : `, ${cell}`;
  return `${argument}${place}: found ${found}. Accepted: ${accepted}.`;
}

/** Longer texts are cut, so that the message stays readable in the host's small box. */
const LONGEST_QUOTE = 40;

/** What a person does not see: control and format characters, line ends, halves of a character. */
const INVISIBLE = /[\p{Control}\p{Format}\p{Surrogate}\u2028\u2029]/gu;

/**
 * A text as a message shows it: cut, and what cannot be seen in it named. Two texts that look alike would leave a coach
 * without a clue, and a character that turns the direction of writing would turn the rest of the message.
 */
export function shownText(text: string, longest = LONGEST_QUOTE): string {
  // A character is at most four units long with its accents, for any text that is written in earnest.
  const characters = Array.from(text.slice(0, 4 * longest));
  const isCut = characters.length > longest || text.length > 4 * longest;
  const shown = characters.slice(0, longest).join("").replace(INVISIBLE, nameOf);
  return isCut ? `${shown}…` : shown;
}

function nameOf(sign: string): string {
  if (sign === "\t") return "[tab]";
  if (sign === "\n" || sign === "\r") return "[line end]";
  return `[U+${(sign.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, "0")}]`;
}

/** A cell's value in words, for a message. */
export function quote(value: unknown): string {
  if (value === null || value === undefined || value === "") return "an empty cell";
  if (typeof value === "string") return `the text "${shownText(value)}"`;
  if (typeof value === "number") return `the number ${value}`;
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  return "something that is neither a number nor a text";
}
