/**
 * Mark cells to attempts. A cell holds one attempt (`c`), several in order (`ccdcc ccccd`) or a tally (`8/10`); the
 * table of what is accepted is in the README. Everything that could be read in two ways is refused with its own message,
 * because a mark read wrongly would move a coach's numbers unseen.
 */
import { AttemptLog, BAILED, CAUGHT, DROPPED, SKIPPED, type Outcome } from "./attempt-log";
import { Problem, quote, shownText } from "./problem";
import { comparable } from "./text";

/** A cell without errors and objects; `null` is an empty cell. */
export type Cell = string | number | boolean | null;

/** The most attempts one tally may stand for: more is a slip of the finger. */
const LARGEST_TALLY = 1_000_000;

const ACCEPTED =
  "c, d or b (caught, dropped, bailed), a run such as ccdcc, or a tally such as 8/10 in a cell formatted as text";

const WORDS: ReadonlyMap<string, Outcome> = new Map<string, Outcome>([
  ...["c", "caught", "catch", "y", "yes", "1", "true", "✓", "✔"].map((word) => [word, CAUGHT] as const),
  ...["d", "drop", "dropped", "n", "no", "0", "false", "✗", "✘"].map((word) => [word, DROPPED] as const),
  ...["b", "bail", "bailed", "balk"].map((word) => [word, BAILED] as const),
]);

const LETTERS: ReadonlyMap<string, Outcome> = new Map<string, Outcome>([
  ["c", CAUGHT],
  ["d", DROPPED],
  ["b", BAILED],
]);

/** Marks that may be written together in one cell. A run stays within one row of this table. */
const RUN_ALPHABETS: readonly ReadonlyMap<string, Outcome>[] = [
  LETTERS,
  new Map<string, Outcome>([
    ["1", CAUGHT],
    ["0", DROPPED],
  ]),
  new Map<string, Outcome>([
    ["✓", CAUGHT],
    ["✔", CAUGHT],
    ["✗", DROPPED],
    ["✘", DROPPED],
  ]),
];

/** Emoji keyboards add this invisible sign after ✔. */
const VARIATION_SELECTORS = /[\uFE0E\uFE0F]/g;
const TALLY = /^(\d{1,9})\s*\/\s*(\d{1,9})$/;
const SEPARATORS = /[\s,]/;

/** The marks of a `key` such as `x/o`; a club's own signs in place of the table. */
export interface MarkKey {
  /** As typed, for messages. */
  readonly text: string;
  readonly signs: ReadonlyMap<string, Outcome>;
}

/**
 * Reads a key: `caught/dropped` or `caught/dropped/bailed`, each sign one or more characters without spaces, commas or
 * slashes, all different.
 */
export function readKey(text: string, argument = "key"): MarkKey {
  const parts = text.split("/").map((part) => comparable(part.replace(VARIATION_SELECTORS, "")));
  const accepted =
    'two or three different signs with slashes between them, caught/dropped or caught/dropped/bailed, such as "x/o"';
  const usable =
    (parts.length === 2 || parts.length === 3) && parts.every((part) => part !== "" && !SEPARATORS.test(part));
  if (!usable || new Set(parts).size !== parts.length) {
    throw new Problem({ argument, found: quote(text), accepted });
  }
  const outcomes: readonly Outcome[] = [CAUGHT, DROPPED, BAILED];
  const signs = new Map<string, Outcome>();
  parts.forEach((part, index) => signs.set(part, outcomes[index] as Outcome));
  return { text: text.trim(), signs };
}

/** Whether a mark cell holds no attempt: empty, only spaces, or the number 0, unless 0 is one of the key's signs. */
export function isBlankMark(cell: Cell, key?: MarkKey): boolean {
  if (cell === null) return true;
  if (cell === 0) return !key?.signs.has("0");
  return typeof cell === "string" && cell.trim() === "";
}

/** Where a mark stands, for messages. */
interface MarkPlace {
  readonly argument: string;
  readonly row: number;
  readonly column: number;
}

/**
 * Adds one cell's attempts to the log. Nothing is added when the cell is refused.
 *
 * @param row and `column` count from 1 inside the argument, for messages
 * @throws Problem where the cell cannot be read
 */
export function readMark(
  cell: Cell,
  argument: string,
  row: number,
  column: number,
  log: AttemptLog,
  key?: MarkKey,
): void {
  if (!addMark(cell, row, column, log, key)) throw markProblem(cell, argument, row, column, key);
}

/**
 * Adds one cell's attempts to the log and answers whether it could be read; an empty cell can, and adds nothing. A log
 * may hold a million cells that cannot: why is told by `markProblem`, only for those that are shown.
 *
 * @param row and `column` count from 1 inside the range; a tally remembers them
 */
export function addMark(cell: Cell, row: number, column: number, log: AttemptLog, key?: MarkKey): boolean {
  // Most logs hold runs of c, d and b: read first, without making anything else.
  if (!key && typeof cell === "string" && addPlainRun(cell, log)) return true;
  if (isBlankMark(cell, key)) return true;
  if (key) return addWithKey(cell, log, key);
  if (typeof cell === "string") return addText(cell, row, column, log);
  if (typeof cell !== "boolean") return false;
  log.add(cell ? CAUGHT : DROPPED);
  return true;
}

function addText(text: string, row: number, column: number, log: AttemptLog): boolean {
  const plain = plainMark(text);
  const word = WORDS.get(plain);
  if (word !== undefined) {
    log.add(word);
    return true;
  }
  const tally = TALLY.exec(plain);
  if (tally) {
    const [caught, attempts] = [Number(tally[1]), Number(tally[2])];
    if (attempts < 1 || attempts > LARGEST_TALLY || caught > attempts) return false;
    log.addTally(caught, attempts, row, column);
    return true;
  }
  for (const alphabet of RUN_ALPHABETS) {
    const run = runIn(plain, alphabet);
    if (!run) continue;
    for (const outcome of run) log.add(outcome);
    return true;
  }
  return false;
}

function plainMark(text: string): string {
  return comparable(text.replace(VARIATION_SELECTORS, ""));
}

/** Why a cell that `addMark` refuses cannot be read, and what is accepted. */
export function markProblem(cell: Cell, argument: string, row: number, column: number, key?: MarkKey): Problem {
  const place: MarkPlace = { argument, row, column };
  if (key) return keyProblem(cell, place, key);
  if (typeof cell === "number") return numberProblem(cell, place);
  const plain = plainMark(String(cell));
  const tally = TALLY.exec(plain);
  if (tally) return tallyProblem(Number(tally[1]), Number(tally[2]), place);
  if (/^[xo\s,]+$/.test(plain)) {
    return problem(
      place,
      quote(cell),
      'c, d or b: clubs use x and o either way round, so say which is which with the key, such as "x/o" for x caught and o dropped',
    );
  }
  const heading = row === 1 && /^\p{Letter}[\p{Letter}\s]{2,}$/u.test(plain);
  return problem(
    place,
    quote(cell),
    heading ? `${ACCEPTED}; if this is a heading, start the range below it` : ACCEPTED,
  );
}

/** By character code: 1 + outcome for c, d and b in either case, and what may stand between them. */
const PLAIN_OUTCOMES = new Uint8Array(128);
for (const [letter, outcome] of LETTERS) {
  PLAIN_OUTCOMES[letter.charCodeAt(0)] = 1 + outcome;
  PLAIN_OUTCOMES[letter.toUpperCase().charCodeAt(0)] = 1 + outcome;
}
for (const separator of " ,") PLAIN_OUTCOMES[separator.charCodeAt(0)] = SKIPPED;

/**
 * Reads a text of nothing but c, d, b, spaces and commas; answers whether it was one. What nearly all cells of a log
 * are: a reader may ask this of a raw cell before anything else.
 */
export function addPlainRun(text: string, log: AttemptLog): boolean {
  return log.addRun(text, PLAIN_OUTCOMES);
}

function runIn(plain: string, alphabet: ReadonlyMap<string, Outcome>): Outcome[] | undefined {
  const run: Outcome[] = [];
  for (const sign of plain) {
    const outcome = alphabet.get(sign);
    if (outcome !== undefined) run.push(outcome);
    else if (!SEPARATORS.test(sign)) return undefined;
  }
  return run.length > 0 ? run : undefined;
}

function tallyProblem(caught: number, attempts: number, place: MarkPlace): Problem {
  if (attempts < 1 || attempts > LARGEST_TALLY) {
    return problem(place, `the tally ${caught}/${attempts}`, `a tally of 1 to 1,000,000 attempts, caught first: 8/10`);
  }
  return problem(
    place,
    `the tally ${caught}/${attempts}, which has more caught than tried`,
    "a tally with the caught first and the attempts second, such as 8/10",
  );
}

/** Serial numbers of 1 January 1955 and 31 December 2099: no count of catches is that large, every typed date is. */
const EARLIEST_DATE = 20090;
const LATEST_DATE = 73050;

function numberProblem(value: number, place: MarkPlace): Problem {
  if (value === 1) {
    return problem(
      place,
      "the number 1",
      'c or d: its partner 0 cannot be told from an empty cell; type letters, or pass the key "1/0" over cells that are all filled',
    );
  }
  if (/^[01]{2,}$/.test(String(value))) {
    return problem(
      place,
      quote(value),
      "a run as text: a leading 0 would have been lost; format the cell as text and type the run again",
    );
  }
  if (Number.isInteger(value) && value >= EARLIEST_DATE && value <= LATEST_DATE) {
    return problem(
      place,
      `the number ${value}, which can only be a date`,
      "a tally as text: 8/10 typed into a General cell turns into a date; format the cell as text and type it again",
    );
  }
  return problem(place, quote(value), `${ACCEPTED}, not a number`);
}

function addWithKey(cell: Cell, log: AttemptLog, key: MarkKey): boolean {
  const plain = plainMark(String(cell));
  const sign = key.signs.get(plain);
  if (sign !== undefined) {
    log.add(sign);
    return true;
  }
  const run = typeof cell === "string" ? keyRun(plain, key) : undefined;
  if (!run) return false;
  for (const outcome of run) log.add(outcome);
  return true;
}

function keyProblem(cell: Cell, place: MarkPlace, key: MarkKey): Problem {
  const numberRun = typeof cell === "number" && /^[01]{2,}$/.test(String(cell)) && key.signs.has("0");
  return problem(
    place,
    quote(cell),
    `only the marks of the key ${shownText(key.text)}, one or several in a cell${numberRun ? "; a leading 0 would have been lost, so format the cell as text" : ""}`,
  );
}

function keyRun(plain: string, key: MarkKey): Outcome[] | undefined {
  // The longest sign first, so that with the key ok/o the text "ok" is one catch.
  const signs = [...key.signs].sort(([one], [other]) => other.length - one.length);
  const run: Outcome[] = [];
  let index = 0;
  while (index < plain.length) {
    const found = signs.find(([sign]) => plain.startsWith(sign, index));
    if (found) {
      run.push(found[1]);
      index += found[0].length;
    } else if (SEPARATORS.test(plain.charAt(index))) {
      index += 1;
    } else {
      return undefined;
    }
  }
  return run.length > 0 ? run : undefined;
}

function problem(place: MarkPlace, found: string, accepted: string): Problem {
  return new Problem({ ...place, found, accepted });
}

/** Refuses a log with a tally where the order of the attempts matters. */
export function requireOrder(log: AttemptLog, argument: string): void {
  const tally = log.firstTally();
  if (tally) {
    throw new Problem({
      argument,
      row: tally.row,
      column: tally.column,
      found: `the tally ${tally.caught}/${tally.attempts}`,
      accepted: "marks in order, such as ccdcc ccccd: a tally does not say which attempts were caught",
    });
  }
}
