/**
 * The rules for single-value arguments, each declared once under the argument's name and applied by one step, so that
 * `standard` means and accepts the same in every function. Ranges are read in `cells.ts`.
 */
import { DAY_MINUTES, MOST_ATTEMPTS } from "../trade/limits";
import { USUAL_BREAK_DAYS, USUAL_EXTRA_COUNTS, USUAL_SET_SIZE, USUAL_STANDARD } from "../trade/usual";
import { INTERVAL_METHODS, type IntervalMethod } from "../core/catch-rate";
import { readKey, type Cell, type MarkKey } from "../core/marks";
import { Missing, Problem, quote } from "../core/problem";
import { grouped } from "../core/numbers-in-words";
import { comparable } from "../core/text";
import { LENGTH_UNITS, type LengthUnit } from "../core/toss";
import { dateOf, isLeftOut, plainCell } from "./cells";

/** Reads one raw value; the argument's name, and row and column where it stands in a range, are for the message. */
type Rule<Value> = (raw: unknown, argument: string, row?: number, column?: number) => Value;

interface Bounds {
  readonly least: number;
  readonly most: number;
  readonly whole?: boolean;
  /** What it is, for the message: `a share`. */
  readonly what: string;
  /** Added to what is accepted. */
  readonly hint?: string;
}

function number({ least, most, whole, what, hint }: Bounds): Rule<number> {
  const accepted = `${what} from ${bound(least)} to ${bound(most)}${hint ? ` (${hint})` : ""}`;
  return (raw, argument, row, column) => {
    const cell = row === undefined ? scalar(raw, argument) : plainCell(raw, argument, row, column);
    if (typeof cell === "number" && cell >= least && cell <= most && !(whole && !Number.isInteger(cell))) return cell;
    const place = row === undefined || column === undefined ? { argument } : { argument, row, column };
    const asText = typeof cell === "string" && cell.trim() !== "" && Number.isFinite(Number(cell));
    throw new Problem({
      ...place,
      found: quote(cell),
      accepted: asText ? `${accepted}, as a number and not as text` : accepted,
    });
  };
}

/** Four digits are read at a glance. */
function bound(value: number): string {
  return Math.abs(value) < 10_000 ? String(value) : grouped(value);
}

/** The one cell of an argument that takes a single value. A range of one cell stands for its value. */
function scalar(raw: unknown, argument: string): Cell {
  if (!Array.isArray(raw)) return plainCell(raw, argument);
  const [row] = raw;
  const cells = Array.isArray(row) ? row : raw;
  if (raw.length === 1 && cells.length === 1) return plainCell(cells[0], argument);
  throw new Problem({ argument, found: "a range of several cells", accepted: "one cell or one value" });
}

function share(what: string): Rule<number> {
  return number({ least: 0, most: 1, what, hint: "80 % is 0.8" });
}

function choice<Word extends string>(words: readonly Word[]): Rule<Word> {
  const accepted = words
    .map((word) => `"${word}"`)
    .join(", ")
    .replace(/, ([^,]*)$/, " or $1");
  return (raw, argument) => {
    const cell = scalar(raw, argument);
    const given = typeof cell === "string" ? comparable(cell) : undefined;
    const word = words.find((candidate) => candidate === given);
    if (word === undefined) throw new Problem({ argument, found: quote(cell), accepted });
    return word;
  };
}

function optional<Value, Default>(rule: Rule<Value>, otherwise: Default): Rule<Value | Default> {
  return (raw, argument) => (isLeftOut(raw) ? otherwise : rule(raw, argument));
}

const attempts = number({ least: 0, most: MOST_ATTEMPTS, whole: true, what: "a whole number" });
const MOST_LENGTH = 10_000;
const length = number({ least: 0, most: MOST_LENGTH, what: "a length" });
const counts = number({ least: 0, most: 10_000, what: "a number of counts" });

/** The club's own marks; an empty cell means the table of marks. */
function keyOf(cell: Cell): MarkKey | undefined {
  if (cell === null || (typeof cell === "string" && cell.trim() === "")) return undefined;
  if (typeof cell !== "string") {
    throw new Problem({
      argument: "key",
      found: quote(cell),
      accepted: 'a text, caught/dropped or caught/dropped/bailed, such as "x/o"',
    });
  }
  return readKey(cell);
}

/** A name given for itself: an athlete, a trick. */
const name: Rule<string> = (raw, argument) => {
  const cell = scalar(raw, argument);
  if (typeof cell === "string" && cell.trim() !== "") return cell;
  if (typeof cell === "number" && cell !== 0) return String(cell);
  throw new Problem({ argument, found: cell === 0 ? "an empty cell" : quote(cell), accepted: "a name" });
};

const points = number({ least: -1_000_000, most: 1_000_000, what: "points" });
const dropCost = number({ least: 0, most: 1_000_000, what: "points lost for a drop" });
const frame = number({ least: 0, most: 100_000_000, what: "a frame's number" });
/** A catch rate strictly inside: at 0 or 1 a chart of misses has nothing to weigh. */
const innerRate = number({ least: 0.001, most: 0.999, what: "a rate", hint: "80 % is 0.8" });

type StreakKind = "current" | "best" | "misses";
const STREAK_KINDS: readonly StreakKind[] = ["current", "best", "misses"];

const practicesAWeek = number({ least: 0.1, most: 21, what: "a number of practices" });
/** Every single-value argument by its name. Where a function needs another default it says so at the call. */
const RULES = {
  caught: attempts,
  attempts,
  rate: share("a rate"),
  rateA: share("a rate"),
  rateB: share("a rate"),
  standard: optional(share("a standard"), USUAL_STANDARD),
  power: optional(share("a power"), 0.8),
  confidence: optional(share("a confidence"), 0.95),
  setSize: optional(number({ least: 1, most: 1000, whole: true, what: "a whole number of attempts" }), USUAL_SET_SIZE),
  last: optional(number({ least: 1, most: MOST_ATTEMPTS, whole: true, what: "a whole number of attempts" }), undefined),
  method: optional<IntervalMethod, IntervalMethod>(choice(INTERVAL_METHODS), "wilson"),
  which: optional<StreakKind, StreakKind>(choice(STREAK_KINDS), "current"),
  length: number({ least: 1, most: 100_000, whole: true, what: "a whole number of catches" }),
  key: ((raw, argument) => keyOf(scalar(raw, argument))) as Rule<MarkKey | undefined>,
  // An empty cell arrives as 0 from some hosts, and no day has that number.
  asOf: ((raw, argument) =>
    isLeftOut(raw) || raw === 0 ? Infinity : dateOf(scalar(raw, argument), argument)) as Rule<number>,
  since: ((raw, argument) =>
    isLeftOut(raw) || raw === 0 ? -Infinity : dateOf(scalar(raw, argument), argument)) as Rule<number>,
  contest: ((raw, argument) => {
    // Neither is an empty cell on the Season sheet a mistake of the formula: it waits for its day.
    if (isLeftOut(raw) || raw === 0) throw new Missing("No contest day is entered yet");
    return dateOf(scalar(raw, argument), argument);
  }) as Rule<number>,
  breakDays: optional(
    number({ least: 1, most: 10_000, whole: true, what: "a whole number of days" }),
    USUAL_BREAK_DAYS,
  ),
  unit: optional<LengthUnit, LengthUnit>(choice(LENGTH_UNITS), "m"),
  rise: length,
  dropBelow: optional(number({ least: -MOST_LENGTH, most: MOST_LENGTH, what: "a length" }), 0),
  terminalSpeed: optional(number({ least: 0.1, most: 1000, what: "a speed" }), undefined),
  airtime: number({ least: 0, most: 100_000, what: "seconds" }),
  counts,
  bodyCounts: counts,
  extraCounts: optional(counts, USUAL_EXTRA_COUNTS),
  countsPerMinute: number({ least: 1, most: 1000, what: "counts per minute", hint: "as the athlete says them" }),
  seconds: number({ least: 0, most: 1_000_000, what: "seconds" }),
  travel: optional(length, 0),
  clearance: optional(length, undefined),
  athlete: name,
  trick: name,
  usual: optional(innerRate, 0.9),
  slumped: optional(innerRate, 0.7),
  falseAlarm: optional(number({ least: 1, most: 1_000_000, what: "a number of attempts" }), 500),
  releaseFrame: frame,
  catchFrame: frame,
  framesPerSecond: number({ least: 1, most: 100_000, what: "frames per second" }),
  turns: number({ least: 0, most: 10_000, what: "turns" }),
  turnsPerSecond: number({ least: 0, most: 1000, what: "turns per second" }),
  drops: number({ least: 0, most: MOST_ATTEMPTS, whole: true, what: "a whole number of drops" }),
  dropCost,
  optionalDropCost: optional(dropCost, undefined),
  rateNow: share("a rate"),
  valueNow: points,
  rateOther: share("a rate"),
  valueOther: points,
  limitSeconds: optional(number({ least: 0, most: 1_000_000, what: "seconds" }), undefined),
  budget: number({ least: 0, most: MOST_ATTEMPTS, whole: true, what: "a whole number of attempts" }),
  age: number({ least: 1, most: 120, what: "an age in years" }),
  // In ranges, cell by cell:
  values: points,
  rates: share("a rate"),
  airtimes: number({ least: 0, most: 1000, what: "seconds" }),
  weights: number({ least: 0, most: 1_000_000, what: "a weight" }),
  minutes: number({ least: 0, most: DAY_MINUTES, what: "minutes" }),
  practiceMinutes: number({ least: 0, most: DAY_MINUTES, what: "minutes" }),
  // An empty cell arrives as 0 from some hosts, and nobody who counts down does not practise at all.
  practicesAWeek: ((raw, argument) =>
    isLeftOut(raw) || raw === 0 ? undefined : practicesAWeek(raw, argument)) as Rule<number | undefined>,
  sideways: number({ least: -MOST_LENGTH, most: MOST_LENGTH, what: "a length" }),
  forward: number({ least: -MOST_LENGTH, most: MOST_LENGTH, what: "a length" }),
  release: optional(length, undefined),
  catch: optional(length, undefined),
  // An empty cell arrives as 0 from some hosts, and no hall has a ceiling of 0.
  ceiling: ((raw, argument) => (isLeftOut(raw) || raw === 0 ? undefined : length(raw, argument))) as Rule<
    number | undefined
  >,
} satisfies Record<string, Rule<unknown>>;

type Rules = typeof RULES;
type Values<Names extends keyof Rules> = { [Name in Names]: ReturnType<Rules[Name]> };

/** Reads the named arguments, in the order given, so that the first wrong one is the one told. */
export function read<Names extends keyof Rules>(raw: Readonly<Record<Names, unknown>>): Values<Names> {
  const values: Partial<Record<Names, unknown>> = {};
  for (const name of Object.keys(raw) as Names[]) {
    // A rule of another name than the argument in the sheet.
    values[name] = RULES[name](raw[name], name === "optionalDropCost" ? "dropCost" : name);
  }
  return values as Values<Names>;
}

/** One cell of a range, by the rule of that name. */
export function readCell<Name extends keyof Rules>(
  rule: Name,
  raw: unknown,
  row: number,
  column: number,
  argument: string = rule,
): ReturnType<Rules[Name]> {
  return RULES[rule](raw, argument, row + 1, column + 1) as ReturnType<Rules[Name]>;
}

interface Tally {
  readonly caught: number;
  readonly attempts: number;
}

/** Caught and attempts that belong together; the names of both arguments may end alike: caughtA and attemptsA. */
export function readTally(
  raw: { readonly caught: unknown; readonly attempts: unknown },
  ending: "" | "A" | "B" = "",
): Tally {
  const caught = RULES.caught(raw.caught, `caught${ending}`);
  const attempts = RULES.attempts(raw.attempts, `attempts${ending}`);
  return requireTally({ caught, attempts }, { argument: `caught${ending}` });
}

/** Refuses more caught than tried. */
export function requireTally(
  tally: Tally,
  place: { readonly argument: string; readonly row?: number; readonly column?: number },
): Tally {
  if (tally.caught <= tally.attempts) return tally;
  throw new Problem({
    ...place,
    found: `${tally.caught} caught of ${tally.attempts} attempts`,
    accepted: "no more caught than attempts",
  });
}
