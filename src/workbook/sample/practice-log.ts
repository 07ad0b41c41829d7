/** The log of the sample season: each athlete's story, told set by set. */
import type { PracticeEntry } from "../season/season";
import type { Stage } from "../../trade/stages";
import { practiceDays, SPRING_CUP, WINTER_CONTEST, type PracticeDay } from "./calendar";
import { Chance } from "./chance";
import { contestPractice } from "./contest-results";
import { stories, type AthleteStory, type Course, type Phase } from "./courses";
import { trials, withConditions } from "./experiments";
import { routine } from "./routine";

const SET = 10;
/** The body move alone is done fewer times. */
const BODY_SET = 5;
const RUN_THROUGHS = 3;
const RUN_THROUGHS_BEFORE_A_CONTEST = 2;
const AWAY_SHARE = 0.06;
/** A good day and a bad day of one athlete lie this far from a usual one, in the share caught. */
const FORM = 0.05;

/** Share caught before the trick is joined. */
const APART_RATES: Readonly<Partial<Record<Stage, number>>> = { "Body only": 0.94, "Toss only": 0.9, Wall: 0.88 };
/** What the trick before and the trick after take from the share caught. */
const LOST_IN: Readonly<Partial<Record<Stage, number>>> = { "In context": 0.01, "Run-through": 0.04 };

const FIRST_TIME: Readonly<Partial<Record<Stage, string>>> = {
  "Body only": "Start and end marked with tape",
  "Toss only": "Tosses to the end mark, at the full count",
  Wall: "A wall in front shows the drift; standing well back",
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
  "Held the catch each time",
  "Lower toss, cleaner catch",
] as const;

const REMARK_SHARE = 0.08;
const BAILS_TO_STOP = 2;

/** A course as it goes on. */
interface Progress {
  readonly course: Course;
  readonly chance: Chance;
  readonly stagesMet: Set<Stage>;
  phase: Phase | undefined;
  sets: number;
  setsInPhase: number;
  joinedSetsInPhase: number;
  /** Grows with each practice by the course's turns; the highest is worked on next. */
  due: number;
}

/** All athletes' rows by day, the contests' among them. */
export function practiceLog(): readonly PracticeEntry[] {
  const entries = [...withConditions(stories.flatMap(athleteLog)), ...trials(), ...contestPractice];
  // Sorting keeps the order of each athlete's rows within a day.
  return entries.sort((one, other) => one.date - other.date);
}

function athleteLog({ athlete, sets, courses }: AthleteStory): readonly PracticeEntry[] {
  const chance = new Chance(athlete);
  const all = courses.map((course): Progress => ({
    course,
    chance: new Chance(`${athlete} ${course.trick} ${course.draw ?? 0}`),
    stagesMet: new Set(),
    phase: undefined,
    sets: 0,
    setsInPhase: 0,
    joinedSetsInPhase: 0,
    due: 0,
  }));
  const entries = practiceDays().flatMap((day) => {
    // The same draws each day, whether or not they are used: a change to one course leaves the others as they are.
    const [away, form, effort] = [chance.happens(AWAY_SHARE), (2 * chance.next() - 1) * FORM, chance.next()];
    return away ? [] : practiceDay(day, athlete, all, form, numberOfSets(day, sets, effort));
  });
  return withLastMarks(entries, courses);
}

function numberOfSets({ isRunThrough }: PracticeDay, [least, most]: AthleteStory["sets"], effort: number): number {
  return isRunThrough ? 2 : least + Math.floor(effort * (most - least + 1));
}

function practiceDay(
  day: PracticeDay,
  athlete: string,
  all: readonly Progress[],
  form: number,
  setsToday: number,
): readonly PracticeEntry[] {
  const active = all.filter(
    ({ course, sets }) => course.phases[0].fromWeek <= day.week && sets < (course.mostSets ?? Infinity),
  );
  for (const one of active) {
    one.due += one.course.turns;
    enterPhase(one, day.week);
  }
  const today = [...active].sort((one, other) => other.due - one.due).slice(0, setsToday);
  const drilled = today.map((one) => {
    one.due = 0;
    return drill(one, day, athlete, form);
  });
  return day.isRunThrough ? [...drilled, ...runThrough(active, day, athlete, form)] : drilled;
}

function enterPhase(progress: Progress, week: number): void {
  const phase = progress.course.phases.filter(({ fromWeek }) => fromWeek <= week).at(-1);
  if (phase === progress.phase) return;
  progress.phase = phase;
  progress.setsInPhase = 0;
  progress.joinedSetsInPhase = 0;
}

/** One set at the stage that the trick has come to. */
function drill(progress: Progress, day: PracticeDay, athlete: string, form: number): PracticeEntry {
  const { course, chance } = progress;
  const phase = phaseOf(progress);
  const stage = stageOf(phase, progress.setsInPhase);
  const isFirstOfPhase = progress.setsInPhase === 0;
  const marks = inFives(
    attempts(stage === "Body only" ? BODY_SET : SET, rateNow(progress, stage, form), phase.bails ?? 0, chance),
  );
  progress.sets += 1;
  progress.setsInPhase += 1;
  if (APART_RATES[stage] === undefined) progress.joinedSetsInPhase += 1;
  const minutes = Math.round(marks.replaceAll(" ", "").length * (0.6 + 0.4 * chance.next()));
  const remark = chance.happens(REMARK_SHARE) ? chance.pick(REMARKS) : "";
  const firstTime = firstTimeWords(progress, stage);
  const note = stopWords(marks) ?? (isFirstOfPhase ? phase.note : undefined) ?? firstTime ?? remark;
  return { date: day.date, athlete, trick: course.trick, stage, marks, minutes, note };
}

/** The routine a few times from beginning to end: each of its tosses comes as often. */
function runThrough(
  active: readonly Progress[],
  day: PracticeDay,
  athlete: string,
  form: number,
): readonly PracticeEntry[] {
  const tosses = active
    .filter(({ course: { inRoutine }, stagesMet }) => {
      if (!inRoutine || !stagesMet.has("In context")) return false;
      return inRoutine.fromWeek <= day.week && day.week <= (inRoutine.untilWeek ?? Infinity);
    })
    .sort((one, other) => placeInRoutine(one.course.trick) - placeInRoutine(other.course.trick));
  const isBeforeContest = [WINTER_CONTEST, SPRING_CUP].some(({ week }) => week === day.week);
  const times = isBeforeContest ? RUN_THROUGHS_BEFORE_A_CONTEST : RUN_THROUGHS;
  return tosses.map((progress, index): PracticeEntry => {
    const { course, chance } = progress;
    const marks = attempts(times, rateNow(progress, "Run-through", form), phaseOf(progress).bails ?? 0, chance);
    const note = stopWords(marks) ?? firstTimeWords(progress, "Run-through") ?? "";
    // The whole routine's minutes stand beside its first toss.
    const minutes = index === 0 ? 4 * times : null;
    return { date: day.date, athlete, trick: course.trick, stage: "Run-through", marks, minutes, note };
  });
}

/** Where the toss comes in the routine; one that was taken out stood before the leap that took its place. */
function placeInRoutine(trick: string): number {
  const place = routine.findIndex((line) => line.trick === trick);
  return place >= 0 ? place : routine.findIndex((line) => line.trick === "Leap");
}

function phaseOf({ phase, course }: Progress): Phase {
  if (phase === undefined) throw new Error(`${course.trick} is practised before it is taken up.`);
  return phase;
}

function stageOf({ path }: Phase, sets: number): Stage {
  let before = 0;
  for (const [stage, count] of path) {
    if (sets < before + count) return stage;
    before += count;
  }
  throw new Error(`The path has no stage for set ${sets + 1}.`);
}

function rateNow(progress: Progress, stage: Stage, form: number): number {
  const { first, last, pace } = phaseOf(progress).rate;
  const learned = last - (last - first) * Math.exp(-progress.joinedSetsInPhase / pace);
  return (APART_RATES[stage] ?? learned - (LOST_IN[stage] ?? 0)) + form;
}

/** What is noted the first time that a trick is practised at a stage; nothing afterwards. */
function firstTimeWords(progress: Progress, stage: Stage): string | undefined {
  if (progress.stagesMet.has(stage)) return undefined;
  progress.stagesMet.add(stage);
  return FIRST_TIME[stage];
}

function stopWords(marks: string): string | undefined {
  const bails = [...marks].filter((mark) => mark === "b").length;
  return bails >= BAILS_TO_STOP ? "Two bails: stopped, back to body and toss apart" : undefined;
}

/** Attempts in order, until the set is full or the second bail ends it. */
function attempts(count: number, rate: number, bailShare: number, chance: Chance): string {
  let marks = "";
  let bails = 0;
  while (marks.length < count && bails < BAILS_TO_STOP) {
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

function withLastMarks(entries: readonly PracticeEntry[], courses: readonly Course[]): readonly PracticeEntry[] {
  const lastMarks = new Map(courses.flatMap(({ trick, lastMarks: marks }) => (marks ? [[trick, marks] as const] : [])));
  return entries.map((entry, index) => {
    const marks = lastMarks.get(entry.trick);
    const isLast = !entries.slice(index + 1).some(({ trick }) => trick === entry.trick);
    return marks !== undefined && isLast ? { ...entry, marks } : entry;
  });
}
