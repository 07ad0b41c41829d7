/**
 * What a tally such as `8/10` says: 8 caught of 10, mostly; but under a heading that says drops it is 8 dropped, and under
 * caught/dropped there are 18 attempts. Told by the heading where the numbers allow it; where they do not, or say
 * something else, the coach is asked.
 */
import { valueAt, type CellBlock } from "./cell-block";
import { attemptNumber, headingParts, headingScore, type TallyPart } from "./heading-words";
import { recordColumns, type LogMapping, type TallyReading } from "./mapping";
import { rewritten } from "./mark-writing";

export interface TallyFinding {
  /** The likeliest first. */
  readonly readings: readonly TallyReading[];
  /** Whether the first is what the heading and the numbers say. */
  readonly sure: boolean;
  /** Some of the tallies, each as it stands there. */
  readonly examples: readonly string[];
}

const TALLY = /^\s*(\d{1,9})\s*\/\s*(\d{1,9})\s*$/;

/** The two numbers of a tally; null for any other text. */
export function tallyNumbers(text: string): readonly [number, number] | null {
  const found = TALLY.exec(text);
  return found ? [Number(found[1]), Number(found[2])] : null;
}

/** Caught and attempts of a tally as it is read; null where the numbers do not allow that. */
export function readTally(
  [one, other]: readonly [number, number],
  reading: TallyReading,
): { readonly caught: number; readonly attempts: number } | null {
  const [first, second] = reading.split("/") as [TallyPart, TallyPart];
  const of = (part: TallyPart): number | null => (part === first ? one : part === second ? other : null);
  const [caught, dropped] = [of("caught"), of("dropped")];
  const attempts = of("attempts") ?? (caught ?? 0) + (dropped ?? 0);
  const made = caught ?? attempts - (dropped ?? 0);
  return attempts > 0 && made >= 0 && made <= attempts ? { caught: made, attempts } : null;
}

const READINGS: readonly TallyReading[] = [
  "caught/attempts",
  "caught/dropped",
  "dropped/attempts",
  "dropped/caught",
  "attempts/caught",
  "attempts/dropped",
];
const USUAL: TallyReading = "caught/attempts";

/** A slip or two does not speak against a reading. */
const MOST_MISFITS = 0.1;
/** Fewer tallies say nothing by their sums. */
const LEAST_TALLIES = 3;
/** Who practises catches more than this; where the record is poorer, the tallies may be of drops. */
const POOR_RECORD = 0.4;
const EXAMPLES = 3;

/** Of four one may be a slip. */
const mostMisfits = (tallies: number): number => (tallies >= 4 ? Math.max(1, MOST_MISFITS * tallies) : 0);

/** Null where the record holds no tallies. */
export function findTallyReading(
  block: CellBlock,
  mapping: Pick<LogMapping, "record" | "firstRow" | "lastRow" | "writing">,
  headingOf: (column: number) => string,
): TallyFinding | null {
  if (mapping.record?.kind !== "marks") return null;
  const columns = recordColumns(mapping.record);
  const tallies: (readonly [number, number])[] = [];
  const examples = new Set<string>();
  for (let row = mapping.firstRow; row <= mapping.lastRow; row += 1) {
    for (const column of columns) {
      const value = valueAt(block, row, column);
      const numbers = typeof value === "string" ? tallyNumbers(rewritten(value, mapping.writing)) : null;
      if (numbers === null) continue;
      tallies.push(numbers);
      if (examples.size < EXAMPLES) examples.add(String(value).trim());
    }
  }
  if (tallies.length === 0) return null;
  const fits = (reading: TallyReading): boolean =>
    tallies.filter((numbers) => readTally(numbers, reading) === null).length <= mostMisfits(tallies.length);
  const said = saidBy(columns.map(headingOf));
  const readings = READINGS.filter(fits);
  const first = said.reading !== null && fits(said.reading) ? said.reading : (readings[0] ?? USUAL);
  const sure = said.reading === first && (said.exact || !speaksAgainst(tallies, first));
  return { readings: [first, ...readings.filter((one) => one !== first)], sure, examples: [...examples] };
}

/** What the headings over the tallies say; `exact` where they name both numbers. */
function saidBy(headings: readonly string[]): { readonly reading: TallyReading | null; readonly exact: boolean } {
  const readings = new Set(headings.map((heading) => JSON.stringify(readingIn(heading))));
  const [only] = readings;
  // Two headings that say different things leave it open.
  if (readings.size !== 1 || only === undefined) return { reading: null, exact: false };
  return JSON.parse(only) as ReturnType<typeof readingIn>;
}

function readingIn(heading: string): { readonly reading: TallyReading | null; readonly exact: boolean } {
  const parts = headingParts(heading);
  const [one, other] = parts;
  if (one === undefined) return { reading: saysMarks(heading) ? USUAL : null, exact: false };
  if (other === undefined) return { reading: one === "dropped" ? "dropped/attempts" : USUAL, exact: false };
  if (parts.length > 2) return { reading: null, exact: false };
  // "Attempts caught" names one number in two words; "attempts/caught" names two.
  const exact = /[/:|]/.test(heading) || one !== "attempts";
  return { reading: `${one}/${other}` as TallyReading, exact };
}

/** A heading of marks or sets, which are written 8/10 for eight of ten; under another, or none, nobody knows. */
function saysMarks(heading: string): boolean {
  return headingScore(heading, "marks") > 0 || attemptNumber(heading) !== null;
}

/** Whether the numbers rather look like something else than what the heading says, or would be without one. */
function speaksAgainst(tallies: readonly (readonly [number, number])[], reading: TallyReading): boolean {
  if (tallies.length >= LEAST_TALLIES) {
    const sums = new Set(tallies.map(([one, other]) => one + other));
    const seconds = new Set(tallies.map(([, other]) => other));
    // 7/3, 6/4, 2/8: one set size, and both numbers are parts of it.
    if (sums.size === 1 && seconds.size > 1) return true;
  }
  let [caught, attempts] = [0, 0];
  for (const numbers of tallies) {
    const read = readTally(numbers, reading);
    caught += read?.caught ?? 0;
    attempts += read?.attempts ?? 0;
  }
  return caught < POOR_RECORD * attempts;
}
