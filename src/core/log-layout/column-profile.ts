/** What stands in a column, counted: the layout is told by this where headings do not tell it. */
import { AttemptLog } from "../attempt-log";
import { readMark, type Cell } from "../marks";
import { Problem } from "../problem";
import { comparable } from "../text";
import { isError, isLoggedDay, isNumeral, isShownAsRate, showsDate, valueAt, type CellBlock } from "./cell-block";
import { saysDay } from "./date-text";
import { plainText, plainWords } from "./plain-words";
import { isKnownWord } from "./mark-signs";
import { soundsLikeStage, soundsLikeTrick } from "./heading-words";

export interface ColumnProfile {
  readonly column: number;
  /** Cells that hold anything. */
  filled: number;
  /** Numbers that are shown as a day, or could be one where no format is known. */
  days: number;
  /** Texts that say a day. */
  dayTexts: number;
  /** Whole numbers from 0 to 1000 that are not days. */
  counts: number;
  /** Of these, those that are 0 or 1. */
  bits: number;
  otherNumbers: number;
  booleans: number;
  errors: number;
  texts: number;
  /** Texts of several attempts in order, or a tally. */
  runs: number;
  /** Texts that only attempts are written as, in ways that the board does not read: 8 of 10, C-D-C. */
  likeMarks: number;
  /** Texts of one attempt, and truth values. */
  singles: number;
  /** Texts of one to three characters that no letter of the table of marks explains: x, o, +. */
  signs: number;
  /** Texts of letters that could be initials, or of one to three words with capitals. */
  names: number;
  tricks: number;
  stages: number;
  /** Texts longer than a name: notes. */
  long: number;
  /** How often each text stands there, as names are compared. */
  readonly distinct: Map<string, number>;
  /** How often each sign stands there; a text that is a run of signs gives its characters. */
  readonly signCounts: Map<string, number>;
}

const LONG_TEXT = 32;
const MOST_ATTEMPTS_A_ROW = 1000;

export function profileColumn(block: CellBlock, column: number, rows: readonly number[]): ColumnProfile {
  const profile: ColumnProfile = {
    column,
    filled: 0,
    days: 0,
    dayTexts: 0,
    counts: 0,
    bits: 0,
    otherNumbers: 0,
    booleans: 0,
    errors: 0,
    texts: 0,
    runs: 0,
    likeMarks: 0,
    singles: 0,
    signs: 0,
    names: 0,
    tricks: 0,
    stages: 0,
    long: 0,
    distinct: new Map(),
    signCounts: new Map(),
  };
  const numerals: string[] = [];
  for (const row of rows) addCell(profile, block, row, column, numerals);
  const counts = areCounts(numerals);
  for (const numeral of numerals) {
    if (counts) addNumber(profile, Number(numeral), false);
    else addText(profile, numeral);
  }
  return profile;
}

/**
 * Whether texts of digits alone are counts: `8`, `10`. Ones and noughts alone may be marks: one of each, or a run such as
 * `0110`. Where the longest is `10` they are rather asked about.
 */
export function areCounts(numerals: readonly string[]): boolean {
  if (numerals.length === 0) return false;
  const plain = numerals.map((numeral) => numeral.trim());
  if (plain.some((numeral) => /[2-9]/.test(numeral))) return true;
  return plain.some(({ length }) => length === 2) && plain.every(({ length }) => length <= 2);
}

function addCell(profile: ColumnProfile, block: CellBlock, row: number, column: number, numerals: string[]): void {
  const value = valueAt(block, row, column);
  if (value === null) return;
  profile.filled += 1;
  if (isError(value)) profile.errors += 1;
  else if (typeof value === "boolean") {
    profile.booleans += 1;
    profile.singles += 1;
  } else if (typeof value === "number") {
    // A rate of 100 % is no single catch.
    if (isShownAsRate(block, row, column)) profile.otherNumbers += 1;
    else addNumber(profile, value, isDayCell(block, row, column));
  } else if (isNumeral(value)) numerals.push(value);
  else addText(profile, value);
}

/** A day shown as a plain number is taken for one from 1 January 2000 on: no count is that large. */
const EARLIEST_BARE_DAY = 36526;

/** Whether a cell holds a real date, by its format or, where it is not shown as one, by its size. */
export function isDayCell(block: CellBlock, row: number, column: number): boolean {
  const value = valueAt(block, row, column);
  if (!isLoggedDay(value)) return false;
  return showsDate(block, row, column) === true || (Number.isInteger(value) && value >= EARLIEST_BARE_DAY);
}

function addNumber(profile: ColumnProfile, value: number, day: boolean): void {
  if (day) profile.days += 1;
  else if (Number.isInteger(value) && value >= 0 && value <= MOST_ATTEMPTS_A_ROW) {
    profile.counts += 1;
    if (value <= 1) profile.bits += 1;
  } else profile.otherNumbers += 1;
}

function addText(profile: ColumnProfile, text: string): void {
  profile.texts += 1;
  const key = comparable(text);
  profile.distinct.set(key, (profile.distinct.get(key) ?? 0) + 1);
  if (saysDay(text)) {
    profile.dayTexts += 1;
    return;
  }
  const attempts = attemptsIn(text);
  if (attempts > 1) profile.runs += 1;
  if (attempts === 1) profile.singles += 1;
  if (attempts === 0 && LIKE_MARKS.test(key)) profile.likeMarks += 1;
  else if (attempts === 0 && (isSigns(key) || isKnownWord(key))) profile.signs += 1;
  if (key.length <= LONGEST_RUN) {
    for (const sign of key.replace(/[\s,]/g, "")) {
      profile.signCounts.set(sign, (profile.signCounts.get(sign) ?? 0) + 1);
    }
  }
  if (text.length > LONG_TEXT) profile.long += 1;
  const plain = plainText(text);
  if (soundsLikeStage(plain)) profile.stages += 1;
  else if (soundsLikeTrick(plain)) profile.tricks += 1;
  else if (looksLikeName(text)) profile.names += 1;
}

const LONGEST_RUN = 40;

/** Two numbers with a word or a sign between them, or one-letter marks with signs between. */
const LIKE_MARKS =
  /^(?:\d{1,4}\s*(?:\/|:|-|of|out of|sur|von|aus|de|di|su|van|uit)\s*\d{1,4}|[cdbxo✓✗10+](?:\s*[-–.;|/]\s*[cdbxo✓✗10+])+)$/u;

/** Signs that are no letters or digits, or x and o: what clubs tick and cross with. */
function isSigns(key: string): boolean {
  return key.length <= LONGEST_RUN && /^[xov\s,+\-–—.•*/\\|=~!?✕✖○●◯√☑☒👍👎✅❌⭕]+$/u.test(key);
}

/**
 * Words that begin with a capital, with a stop, a comma or a space between them. Each character can belong to one piece of
 * the pattern only: where a word could be cut at any of its capitals, a long one in capitals would be cut in every way.
 */
const NAME = /^\p{Lu}[\p{L}'’-]*(?:[.\s,][\s,-]*\p{Lu}[\p{L}'’-]*)*(?:[.\s,][\s,-]*)?$/u;

/** Initials, or one to three words that begin with a capital, without digits. */
export function looksLikeName(text: string): boolean {
  const words = plainWords(text);
  if (words.length === 0 || words.length > 4 || text.length > 28) return false;
  return NAME.test(text.trim());
}

/** How many attempts a mark's text holds; 0 where it is no mark. */
export function attemptsIn(text: string): number {
  const log = new AttemptLog();
  return isMark(text, log) ? log.attempts : 0;
}

function isMark(cell: Cell, log: AttemptLog): boolean {
  try {
    readMark(cell, "marks", 2, 1, log);
    return log.attempts > 0;
  } catch (error) {
    if (error instanceof Problem) return false;
    throw error;
  }
}

export function shareOf(part: number, whole: number): number {
  return whole === 0 ? 0 : part / whole;
}
