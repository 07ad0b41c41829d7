/**
 * A season to look at: the invented club Larkfield Twirlers, three athletes, eight toss tricks, ten weeks of practice.
 * The marks come from a small generator with a fixed seed, so that the season is the same each time it is built.
 */
import type { WorkbookPlan } from "./schema";
import {
  seasonPlan,
  sheetNames,
  type ContestEntry,
  type Landing,
  type PracticeEntry,
  type RoutineEntry,
  type SeasonRecords,
  type SeasonSettings,
  type Stage,
  type TrickDetails,
} from "./season";

export const SAMPLE_LABEL = "2027";

/** Monday 4 January 2027, as a sheet serial number. */
const FIRST_MONDAY = 46391;
const WEEKS = 10;
const SEED = 2035;

/** An invented winter contest, on a Saturday. */
const WINTER_CONTEST = { date: FIRST_MONDAY + 7 * 7 + 5, name: "Larkfield winter contest" };
/** Another, two weeks later. */
const CUP = { date: FIRST_MONDAY + 7 * 9 + 5, name: "Brookmere spring cup" };

export const sampleSettings: SeasonSettings = {
  label: SAMPLE_LABEL,
  // Sunday 21 March 2027.
  contestDate: 46467,
  athletes: ["A.R.", "J.T.", "M.K."],
  tricks: [
    { name: "Double spin", bodyCounts: 3 },
    { name: "Triple spin", bodyCounts: 5 },
    { name: "Single illusion", bodyCounts: 4 },
    { name: "Double illusion", bodyCounts: 7 },
    { name: "Cartwheel blind catch", bodyCounts: 4 },
    { name: "Front walkover", bodyCounts: 6 },
    { name: "Open hand back catch", bodyCounts: 1 },
    { name: "Flat under-leg", bodyCounts: 1 },
  ],
  standard: 0.8,
  setSize: 10,
  countsPerMinute: 200,
  ceiling: 9,
  unit: "m",
  dropCost: 0.5,
};

function details(
  release: string,
  body: string,
  caught: string,
  hand: string,
  travel: number,
  value: number,
  inRoutine: boolean,
): TrickDetails {
  return { release, body, catch: caught, hand, extraCounts: 2, travel, value, inRoutine };
}

const trickDetails: ReadonlyMap<string, TrickDetails> = new Map([
  ["Double spin", details("Thumb", "2 spins", "Hand", "right", 0, 1.2, true)],
  ["Triple spin", details("Thumb", "3 spins", "Hand", "right", 0, 1.8, true)],
  ["Single illusion", details("Thumb", "illusion", "Hand", "left", 0.5, 1.6, true)],
  ["Double illusion", details("Thumb", "2 illusions", "Hand", "left", 1, 2.4, false)],
  ["Cartwheel blind catch", details("Backhand", "cartwheel", "Blind", "left", 2, 1.9, true)],
  ["Front walkover", details("Open hand", "front walkover", "Hand", "right", 2.5, 2.1, false)],
  ["Open hand back catch", details("Open hand", "half turn", "Back", "left", 0, 1, true)],
  ["Flat under-leg", details("Flat", "leg lift", "Under-leg", "right", 0, 0.8, true)],
]);

/** How one athlete learns one trick. */
interface Course {
  readonly trick: string;
  /** The week, from 0, in which it is taken up. */
  readonly firstWeek: number;
  /** How often it is worked on compared with the athlete's other tricks. */
  readonly turns: number;
  /** How many sets each stage takes before the next begins; the last one goes on to the end. */
  readonly path: readonly (readonly [Stage, number])[];
  /** True catch rate at the first joined set, and the one it tends to, with the sets it takes to come two thirds of the way. */
  readonly rate: { readonly first: number; readonly last: number; readonly pace: number };
  /** From a week on the trick slides. */
  readonly slide?: { readonly fromWeek: number; readonly rate: number; readonly bails: number };
  /** No more than this many sets. */
  readonly mostSets?: number;
  /** The marks of the last set, for a story that chance would not tell by itself. */
  readonly lastMarks?: string;
}

const LEARNED: Course["path"] = [
  ["Joined", 4],
  ["In context", 6],
  ["Run-through", Infinity],
];
const FROM_THE_START: Course["path"] = [
  ["Body only", 2],
  ["Toss only", 3],
  ["Wall", 1],
  ["Joined", 9],
  ["In context", Infinity],
];

/** Share caught before the trick is joined. */
const APART_RATES: Readonly<Partial<Record<Stage, number>>> = { "Body only": 0.9, "Toss only": 0.84, Wall: 0.78 };

const courses: Readonly<Record<string, readonly Course[]>> = {
  "M.K.": [
    { trick: "Double spin", firstWeek: 0, turns: 1, path: LEARNED, rate: { first: 0.93, last: 0.98, pace: 4 } },
    { trick: "Single illusion", firstWeek: 0, turns: 1.1, path: LEARNED, rate: { first: 0.82, last: 0.96, pace: 4 } },
    { trick: "Triple spin", firstWeek: 0, turns: 1.2, path: LEARNED, rate: { first: 0.66, last: 0.87, pace: 6 } },
    {
      trick: "Cartwheel blind catch",
      firstWeek: 0,
      turns: 1.2,
      path: LEARNED,
      rate: { first: 0.78, last: 0.92, pace: 4 },
      slide: { fromWeek: 7, rate: 0.52, bails: 0.12 },
    },
    {
      trick: "Front walkover",
      firstWeek: 1,
      turns: 1,
      path: FROM_THE_START,
      rate: { first: 0.3, last: 0.68, pace: 8 },
    },
    {
      trick: "Double illusion",
      firstWeek: 6,
      turns: 0.6,
      path: [
        ["Body only", 2],
        ["Toss only", 2],
        ["Joined", Infinity],
      ],
      rate: { first: 0.35, last: 0.5, pace: 6 },
      mostSets: 5,
      lastMarks: "dcddc d",
    },
  ],
  "A.R.": [
    { trick: "Double spin", firstWeek: 0, turns: 1, path: LEARNED, rate: { first: 0.84, last: 0.95, pace: 5 } },
    { trick: "Single illusion", firstWeek: 0, turns: 1.2, path: LEARNED, rate: { first: 0.6, last: 0.85, pace: 6 } },
    { trick: "Open hand back catch", firstWeek: 0, turns: 1, path: LEARNED, rate: { first: 0.5, last: 0.7, pace: 8 } },
    { trick: "Triple spin", firstWeek: 2, turns: 1, path: FROM_THE_START, rate: { first: 0.35, last: 0.65, pace: 8 } },
    {
      trick: "Flat under-leg",
      firstWeek: 3,
      turns: 0.9,
      path: FROM_THE_START,
      rate: { first: 0.4, last: 0.62, pace: 8 },
      mostSets: 11,
      lastMarks: "ccccd ccccc",
    },
  ],
  "J.T.": [
    {
      trick: "Double spin",
      firstWeek: 0,
      turns: 1.2,
      path: FROM_THE_START,
      rate: { first: 0.62, last: 0.86, pace: 4 },
    },
    {
      trick: "Flat under-leg",
      firstWeek: 0,
      turns: 1,
      path: FROM_THE_START,
      rate: { first: 0.4, last: 0.64, pace: 8 },
    },
    {
      trick: "Open hand back catch",
      firstWeek: 2,
      turns: 1,
      path: FROM_THE_START,
      rate: { first: 0.3, last: 0.6, pace: 8 },
    },
    {
      trick: "Single illusion",
      firstWeek: 7,
      turns: 0.8,
      path: [
        ["Body only", 2],
        ["Toss only", 2],
        ["Joined", Infinity],
      ],
      rate: { first: 0.3, last: 0.4, pace: 8 },
      mostSets: 5,
      lastMarks: "ddcdd",
    },
  ],
};

const FIRST_TIME: Readonly<Partial<Record<Stage, string>>> = {
  "Body only": "Start and end marked with tape",
  "Toss only": "Tosses to the end mark, at the full count",
  Joined: "First time joined",
  "In context": "With the trick before and the trick after",
  "Run-through": "In the run-through from now on",
};

const REMARKS = [
  "Drifting forward",
  "Spotting late",
  "Shoulders square today",
  "Good height",
  "Released off the midline",
  "Tired after school",
  "Counts rushed",
] as const;

/** Numbers from 0 to 1 that look random: the multiplicative generator of Park and Miller, modulus 2³¹ − 1, with its later multiplier. */
class Chance {
  private state: number;

  constructor(seed: number) {
    this.state = seed % 2_147_483_647;
  }

  next(): number {
    this.state = (this.state * 48_271) % 2_147_483_647;
    return this.state / 2_147_483_647;
  }

  happens(share: number): boolean {
    return this.next() < share;
  }

  pick<Item>(items: readonly Item[]): Item {
    const item = items[Math.floor(this.next() * items.length)];
    if (item === undefined) throw new Error("There is nothing to pick from.");
    return item;
  }
}

/** A course as it goes on. */
interface Progress {
  readonly course: Course;
  sets: number;
  joinedSets: number;
  /** Grows with each practice by the course's turns; the highest is worked on next. */
  due: number;
}

/** Ten weeks of Monday, Wednesday and Friday, and every second Saturday. */
function practiceDays(): readonly { readonly week: number; readonly date: number }[] {
  return Array.from({ length: WEEKS }, (_, week) =>
    (week % 2 === 1 ? [0, 2, 4, 5] : [0, 2, 4]).map((day) => ({ week, date: FIRST_MONDAY + week * 7 + day })),
  ).flat();
}

function samplePractice(): readonly PracticeEntry[] {
  const chance = new Chance(SEED);
  const entries: PracticeEntry[] = [];
  const progress = new Map(
    sampleSettings.athletes.map((athlete) => [
      athlete,
      (courses[athlete] ?? []).map((course): Progress => ({ course, sets: 0, joinedSets: 0, due: 0 })),
    ]),
  );
  for (const { week, date } of practiceDays()) {
    for (const [athlete, all] of progress) {
      // Now and then somebody is away.
      if (chance.happens(0.06)) continue;
      const active = all.filter(({ course, sets }) => course.firstWeek <= week && sets < (course.mostSets ?? Infinity));
      for (const one of active) one.due += one.course.turns;
      const today = [...active].sort((one, other) => other.due - one.due).slice(0, chance.happens(0.5) ? 4 : 3);
      for (const one of today) {
        one.due = 0;
        entries.push(...practise(one, week, date, athlete, chance));
      }
    }
  }
  return entries;
}

function practise(
  progress: Progress,
  week: number,
  date: number,
  athlete: string,
  chance: Chance,
): readonly PracticeEntry[] {
  const { course } = progress;
  const { stage, isFirst } = stageOf(course, progress.sets);
  const apart = APART_RATES[stage];
  const { first, last, pace } = course.rate;
  const learned = last - (last - first) * Math.exp(-progress.joinedSets / pace);
  const slide = course.slide !== undefined && week >= course.slide.fromWeek ? course.slide : undefined;
  const rate = apart ?? slide?.rate ?? learned;

  progress.sets += 1;
  if (apart === undefined) progress.joinedSets += 1;
  const isLast = progress.sets === course.mostSets;
  const marks =
    isLast && course.lastMarks !== undefined
      ? course.lastMarks
      : inFives(attempts(stage === "Body only" ? 5 : 10, rate, slide?.bails ?? 0, chance));
  const bails = [...marks].filter((mark) => mark === "b").length;
  // Drawn whether or not it is used, so that a note elsewhere does not change the marks after it.
  const remark = chance.happens(0.08) ? chance.pick(REMARKS) : "";
  const note =
    bails >= 2 ? "Two bails: stopped, back to body and toss apart" : isFirst ? (FIRST_TIME[stage] ?? "") : remark;
  const minutes = Math.round(marks.replaceAll(" ", "").length * (0.6 + 0.4 * chance.next()));
  const base = { date, athlete, trick: course.trick };
  const entry: PracticeEntry = { ...base, stage, marks, minutes, note };
  if (date !== WINTER_CONTEST.date || stage !== "Run-through") return [entry];
  // On the contest's day the routine is done once, instead of a set.
  return [{ ...base, stage: "Contest", marks: marks.charAt(0), minutes: null, note: WINTER_CONTEST.name }];
}

/** Attempts in order, until the set is full or the second bail ends it. */
function attempts(count: number, rate: number, bailShare: number, chance: Chance): string {
  let marks = "";
  let bails = 0;
  while (marks.length < count && bails < 2) {
    if (chance.happens(bailShare)) {
      bails += 1;
      marks += "b";
    } else marks += chance.happens(rate) ? "c" : "d";
  }
  return marks;
}

/** `ccdccccccd` as a coach writes it: `ccdcc ccccd`. */
function inFives(marks: string): string {
  return marks.replace(/(.{5})(?=.)/g, "$1 ");
}

function stageOf(course: Course, sets: number): { readonly stage: Stage; readonly isFirst: boolean } {
  let before = 0;
  for (const [stage, count] of course.path) {
    // A trick that is joined from the season's first set on was learned before.
    if (sets < before + count) return { stage, isFirst: sets === before && (before > 0 || stage === "Body only") };
    before += count;
  }
  throw new Error(`The course of ${course.trick} has no stage for set ${sets + 1}.`);
}

/** M.K.'s solo: between the tosses rolls and contact material take their counts. */
const routine: readonly RoutineEntry[] = [
  { trick: "Opening and salute", ownCounts: 16 },
  { trick: "Double spin", ownCounts: null },
  { trick: "Contact material", ownCounts: 96 },
  { trick: "Single illusion", ownCounts: null },
  { trick: "Rolls", ownCounts: 128 },
  { trick: "Cartwheel blind catch", ownCounts: null },
  { trick: "Contact material", ownCounts: 104 },
  { trick: "Triple spin", ownCounts: null },
  { trick: "Finish", ownCounts: 32 },
];

/** Triple spins of one evening, in metres from the tape: forward and to the right of it. */
const landings: readonly Landing[] = (
  [
    [0.4, 0.7],
    [0.1, 0.9],
    [0.6, 0.5],
    [0.3, 1.1],
    [-0.1, 0.6],
    [0.5, 0.8],
    [0.2, 0.4],
    [0.4, 1.0],
    [0.0, 0.7],
    [0.3, 0.8],
  ] as const
).map(([sideways, forward]) => ({
  date: FIRST_MONDAY + 7 * 6 + 2,
  athlete: "M.K.",
  trick: "Triple spin",
  sideways,
  forward,
}));

const contests: readonly ContestEntry[] = [
  contest(WINTER_CONTEST, "A.R.", 3, 1, 61.5, ""),
  contest(WINTER_CONTEST, "J.T.", 2, 1, 54, "First contest"),
  contest(WINTER_CONTEST, "M.K.", 4, 0, 68, ""),
  contest(CUP, "A.R.", 3, 0, 64, ""),
  contest(CUP, "J.T.", 2, 1, 56.5, "Low ceiling over the side lane"),
  contest(CUP, "M.K.", 4, 2, 63.5, "Blind catch dropped, then the triple"),
];

function contest(
  { date, name }: { readonly date: number; readonly name: string },
  athlete: string,
  tosses: number,
  drops: number,
  score: number,
  note: string,
): ContestEntry {
  return { date, contest: name, athlete, tosses, drops, score, penalties: 0, note };
}

export const sampleRecords: SeasonRecords = {
  trickDetails,
  practice: samplePractice(),
  routine,
  landings,
  contests,
  focus: {
    athlete: "M.K.",
    trick: "Cartwheel blind catch",
    landingTrick: "Triple spin",
    keepTrick: "Cartwheel blind catch",
    swapTrick: "Double spin",
    ageYears: 13,
  },
};

/** The finished sample season, shown from its board. */
export function sampleSeason(): WorkbookPlan {
  return { ...seasonPlan(sampleSettings, sampleRecords), active: sheetNames(SAMPLE_LABEL).board };
}
