/**
 * Operating characteristics of the built READINESS by simulation: whom the word passes and when, how often it cries
 * wolf, and how soon it notices a slide; at several standards and set sizes, and where days differ. Each figure has its
 * standard error behind it: about two in three lie within it of what endless simulation would give.
 */
import { loadBuiltFunctions } from "./built-functions";
import { seededRandom } from "./random";

/** What is judged: the marks, one text a set, to one word. */
type Judge = (marks: string[][], standard: number, setSize: number) => unknown;
type Random = () => number;
/** The true rate in the set of this number, from 1. */
type Rates = (set: number, random: Random) => number;

interface Question {
  readonly judge: Judge;
  readonly standard: number;
  readonly setSize: number;
  readonly athletes: number;
}

const SETS = 12;
/** Sets before a slide, and the most that are watched after it. */
const SETS_BEFORE = 12;
const SETS_WATCHED = 60;
/** The rate of a day differs from the athlete's own by this standard deviation: common practice, no source. */
const DAY_SPREAD = 0.07;

const isPassed = (word: unknown): boolean => word === "Ready" || word === "Solid";

/** One athlete's words, set by set. */
function words({ judge, standard, setSize }: Question, rates: Rates, sets: number, random: Random): unknown[] {
  const marks: string[][] = [];
  return Array.from({ length: sets }, (_, index) => {
    const rate = rates(index + 1, random);
    let set = "";
    for (let attempt = 0; attempt < setSize; attempt++) set += random() < rate ? "c" : "d";
    marks.push([set]);
    return judge(marks, standard, setSize);
  });
}

const always =
  (rate: number): Rates =>
  () =>
    rate;

/** A day's own rate: from the beta distribution with this mean and the spread of days. */
function differing(rate: number): Rates {
  // Close to the ends a rate cannot spread so much.
  const size = Math.max(1, (rate * (1 - rate)) / DAY_SPREAD ** 2 - 1);
  return (_, random) => {
    const [caught, missed] = [gamma(rate * size, random), gamma((1 - rate) * size, random)];
    return caught / (caught + missed);
  };
}

/** A draw from the gamma distribution (Marsaglia and Tsang 2000, ACM Transactions on Mathematical Software 26:363–372). */
function gamma(shape: number, random: Random): number {
  if (shape < 1) return gamma(shape + 1, random) * (1 - random()) ** (1 / shape);
  const base = shape - 1 / 3;
  for (;;) {
    const deviate = Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
    const cube = (1 + deviate / Math.sqrt(9 * base)) ** 3;
    if (cube <= 0) continue;
    if (Math.log(1 - random()) < deviate ** 2 / 2 + base * (1 - cube + Math.log(cube))) return base * cube;
  }
}

/** The rate as far from the standard, in log-odds, as `rate` is from 80 %. */
export function asFarFrom(standard: number, rate: number): number {
  const odds = ((standard / (1 - standard)) * (rate / (1 - rate))) / (0.8 / 0.2);
  return odds / (1 + odds);
}

const inPercent = (share: number, digits = 1): string => (100 * share).toFixed(digits);
const rateWords = (rate: number): string => `${inPercent(rate).replace(/\.0$/, "")} %`;

/** A share of independent athletes with its standard error. */
function shareOf(count: number, of: number): string {
  const share = count / of;
  return `${inPercent(share, share < 0.1 ? 2 : 1)} ± ${inPercent(Math.sqrt((share * (1 - share)) / of), 2)} %`;
}

/** A mean over athletes with its standard error: for sets of one athlete, which are not independent. */
function meanOf(shares: readonly number[]): string {
  const mean = shares.reduce((sum, share) => sum + share, 0) / shares.length;
  const squares = shares.reduce((sum, share) => sum + (share - mean) ** 2, 0);
  return `${inPercent(mean, 2)} ± ${inPercent(Math.sqrt(squares / (shares.length - 1) / shares.length), 2)} %`;
}

/** Median and nine in ten of numbers of sets; Infinity where it did not come within those watched. */
function spreadOf(sets: readonly number[], watched = SETS_WATCHED): string {
  const sorted = [...sets].sort((one, other) => one - other);
  const at = (share: number): string => {
    const found = sorted[Math.ceil(share * sorted.length) - 1] ?? NaN;
    return found === Infinity ? `over ${watched}` : String(found);
  };
  return `${at(0.5)} / ${at(0.9)}`;
}

interface Passing {
  readonly everPassed: number;
  readonly passedAtEnd: number;
  /** Set of the first pass, by athlete. */
  readonly first: readonly number[];
  /** Share of sets at risk, by athlete. */
  readonly alarms: readonly number[];
}

function passing(question: Question, rates: Rates, seed: number): Passing {
  const random = seededRandom(seed);
  const first: number[] = [];
  const alarms: number[] = [];
  let passedAtEnd = 0;
  for (let athlete = 0; athlete < question.athletes; athlete++) {
    const said = words(question, rates, SETS, random);
    const passedAt = said.findIndex(isPassed);
    first.push(passedAt < 0 ? Infinity : passedAt + 1);
    alarms.push(said.filter((word) => word === "At risk").length / SETS);
    if (isPassed(said.at(-1))) passedAtEnd++;
  }
  return { everPassed: first.filter(Number.isFinite).length, passedAtEnd, first, alarms };
}

/**
 * Sets after this one until the word is said, for athletes of whom it is right to ask; 0 where it is said by then.
 *
 * @param before the set from which they are counted
 */
function noticed(
  question: Question,
  rates: Rates,
  { before, asked, seen }: { before: number; asked: (word: unknown) => boolean; seen: (word: unknown) => boolean },
  seed: number,
): number[] {
  const random = seededRandom(seed);
  const found: number[] = [];
  for (let athlete = 0; athlete < question.athletes; athlete++) {
    const marks: string[][] = [];
    for (let set = 1; ; set++) {
      const rate = rates(set, random);
      let text = "";
      for (let attempt = 0; attempt < question.setSize; attempt++) text += random() < rate ? "c" : "d";
      marks.push([text]);
      if (set < before) continue;
      const word = question.judge(marks, question.standard, question.setSize);
      if (set === before) {
        if (!asked(word)) break;
        if (!seen(word)) continue;
      }
      if (seen(word) || set - before >= SETS_WATCHED) {
        found.push(seen(word) ? set - before : Infinity);
        break;
      }
    }
  }
  return found;
}

const slideTo =
  (from: number, to: number): Rates =>
  (set) =>
    set <= SETS_BEFORE ? from : to;

/** The table's rows: what is asked, and the answer. */
export function readinessRows(question: Question): (readonly [string, string])[] {
  const { standard, athletes } = question;
  const rate = (at80: number): number => asFarFrom(standard, at80);
  const [short, farShort, over, high] = [rate(0.7), rate(0.6), rate(0.9), rate(0.95)];
  const shorts = passing(question, always(short), 1);
  const far = passing(question, always(farShort), 2);
  const border = passing(question, always(standard), 3);
  const good = passing(question, always(over), 4);
  const shortDays = passing(question, differing(short), 5);
  const goodDays = passing(question, differing(over), 6);
  const passed = { before: SETS_BEFORE, asked: isPassed, seen: (word: unknown) => word === "At risk" };
  const slide = noticed(question, slideTo(high, farShort), passed, 7);
  const partSlide = noticed(question, slideTo(high, rate(0.75)), passed, 8);
  const within = (sets: number): string => shareOf(slide.filter((seen) => seen <= sets).length, slide.length);
  const drift: Rates = (set) => {
    const way = Math.min(1, Math.max(0, (set - SETS_BEFORE) / 10));
    return high + way * (rate(0.65) - high);
  };
  const [low, top] = [rate(0.5), rate(0.92)];
  const climb: Rates = (set) => low + Math.min(1, (set - 1) / 14) * (top - low);
  const below85 = Array.from({ length: 15 }, (_, index) => index + 1).filter((set) => climb(set, () => 0) < rate(0.85));
  const climbing = { before: below85.length + 1, asked: () => true, seen: isPassed };
  return [
    [`true ${rateWords(short)}: passed after ${SETS} sets`, shareOf(shorts.passedAtEnd, athletes)],
    [`true ${rateWords(short)}: passed ever in ${SETS} sets`, shareOf(shorts.everPassed, athletes)],
    [`true ${rateWords(farShort)}: passed ever`, shareOf(far.everPassed, athletes)],
    [`true ${rateWords(standard)}, at the border: passed after ${SETS} sets`, shareOf(border.passedAtEnd, athletes)],
    [`true ${rateWords(standard)}, at the border: passed ever`, shareOf(border.everPassed, athletes)],
    [`true ${rateWords(over)}: passed after ${SETS} sets`, shareOf(good.passedAtEnd, athletes)],
    [`true ${rateWords(over)}: sets to the first pass, median / nine in ten`, spreadOf(good.first, SETS)],
    [`true ${rateWords(over)}: At risk, of sets`, meanOf(good.alarms)],
    [`true ${rateWords(over)}: At risk, athletes ever`, shareOf(good.alarms.filter(Boolean).length, athletes)],
    [`slide ${rateWords(high)} to ${rateWords(farShort)}: seen after, median / nine in ten`, spreadOf(slide)],
    ["the same: seen after one set", within(1)],
    ["the same: seen within two sets", within(2)],
    [`slide ${rateWords(high)} to ${rateWords(rate(0.75))}: seen after`, spreadOf(partSlide)],
    [
      `drift ${rateWords(high)} to ${rateWords(rate(0.65))} over ten sets: seen after, from its start`,
      spreadOf(noticed(question, drift, passed, 9)),
    ],
    [
      `improving ${rateWords(low)} to ${rateWords(top)} over 15 sets: passed, sets after ${rateWords(rate(0.85))}`,
      spreadOf(noticed(question, climb, climbing, 10)),
    ],
    [`days that differ, true ${rateWords(short)}: passed ever`, shareOf(shortDays.everPassed, athletes)],
    [`days that differ, true ${rateWords(over)}: passed after ${SETS} sets`, shareOf(goodDays.passedAtEnd, athletes)],
    [`days that differ, true ${rateWords(over)}: At risk, of sets`, meanOf(goodDays.alarms)],
    [
      `days that differ, true ${rateWords(over)}: At risk, athletes ever`,
      shareOf(goodDays.alarms.filter(Boolean).length, athletes),
    ],
  ];
}

const STANDARDS = [0.8, 0.7, 0.9, 0.95];
const SET_SIZES = [10, 5, 20];

/** @param athletes simulated for each figure of the usual standard and set size; a quarter of them for the others */
export function readinessBenchmark(print: (line: string) => void, athletes = 20_000): void {
  const judge = loadBuiltFunctions().get("READINESS") as Judge | undefined;
  if (!judge) throw new Error("READINESS is not in dist/functions.js");
  print(
    `READINESS from the built functions.js, seeded; passed: Ready or Solid. ${athletes} simulated athletes a figure at 80 % in sets of 10, ${athletes / 4} elsewhere`,
  );
  print("At other standards than 80 % the true rates lie as far from it in log-odds.");
  for (const standard of STANDARDS) {
    const tables = SET_SIZES.map((setSize) => {
      const isUsual = standard === 0.8 && setSize === 10;
      return readinessRows({ judge, standard, setSize, athletes: isUsual ? athletes : athletes / 4 });
    });
    print(`\n### Standard ${rateWords(standard)}\n`);
    print(`| | ${SET_SIZES.map((setSize) => `sets of ${setSize}`).join(" | ")} |`);
    print(`| --- | ${SET_SIZES.map(() => "---").join(" | ")} |`);
    tables[0]?.forEach(([what], row) =>
      print(`| ${what} | ${tables.map((table) => table[row]?.[1] ?? "").join(" | ")} |`),
    );
  }
}
