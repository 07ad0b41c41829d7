/** What is wrong with an argument. Rows and columns count from 1 inside the argument's range. */
export interface ProblemDetails {
  readonly argument: string;
  readonly row?: number;
  readonly column?: number;
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

function describe({ argument, row, column, found, accepted }: ProblemDetails): string {
  const place = row === undefined ? "" : column === undefined ? `, row ${row}` : `, row ${row}, column ${column}`;
  return `${argument}${place}: found ${found}. Accepted: ${accepted}.`;
}

/** Longer texts are cut, so that the message stays readable in the host's small box. */
const LONGEST_QUOTE = 40;

/** A cell's value in words, for a message. */
export function quote(value: unknown): string {
  if (value === null || value === undefined || value === "") return "an empty cell";
  if (typeof value === "string") {
    const characters = Array.from(value.slice(0, 4 * LONGEST_QUOTE));
    const shown =
      characters.length > LONGEST_QUOTE ? `${characters.slice(0, LONGEST_QUOTE).join("")}…` : characters.join("");
    return `the text "${shown}"`;
  }
  if (typeof value === "number") return `the number ${value}`;
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  return "something that is neither a number nor a text";
}
