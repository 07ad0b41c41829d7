/**
 * Is the trick reliable enough for the routine? Ready once two sets are logged, the last is at the standard and the
 * chance that the true rate is at the standard is at least 82 %; at risk when the last set, or the last two together, is
 * poorer than the athlete's own record brings once in 150 sets, when the chance falls under 25 %, or after two bails.
 *
 * The bare rule of practice (8 of 10) passes a true 70 % trick in 38 % of sets; what this one does is measured by
 * `npm run bench -- readiness` and stands in DEVELOPERS.md.
 */
import type { Status } from "../trade/statuses";
import { CAUGHT, type AttemptLog, type Tallied } from "./attempt-log";
import { isRarerThan } from "./beta-binomial";
import { chanceAbove, type Interval } from "./catch-rate";
import { streaks, type Streaks } from "./streak";
import { isChanceFrom, middleOfRate, Threshold } from "./true-rate";

/** An attempt this many attempts ago weighs half as much as the latest. */
const HALF_LIFE_ATTEMPTS = 30;
const DECAY = Math.pow(2, -1 / HALF_LIFE_ATTEMPTS);
/** One set of 10 of 10 comes to a true 70 % trick in 2.8 %: two sets at the least. */
const SETS_TO_BE_READY = 2;
/** The chance asked for to be Ready for the first time. */
export const READY_CHANCE = 0.82;
/** Under this a trick that was Ready no longer has its record behind it, and from it on it has again. */
export const EVEN_CHANCE = 0.5;
/** Under one in four. */
export const RISK_CHANCE = 0.25;
const SOLID_CHANCE = 0.9;
const READY_FROM = new Threshold(READY_CHANCE);
const EVEN_FROM = new Threshold(EVEN_CHANCE);
const RISK_FROM = new Threshold(RISK_CHANCE);
/** A slide is what the athlete's own record brings once in this many sets. */
const SETS_TO_A_FALSE_SLIDE = 150;
/** The own record begins with the latest sets, without the time of learning, */
const OWN_SETS = 3;
/** and counts as no more attempts than these, so that it stays current over a season. */
const OWN_MOST_ATTEMPTS = 120;
/** Two bails in a set are a reason to stop, whatever the catches say. */
export const RISK_BAILS = 2;

/** Rates typed as 1 − 0.2 must not fail by their last digit. */
const ROUNDING = 1e-9;

/** Why the status is what it is. */
export type Reason =
  | { readonly kind: "nothing logged" }
  /** Too few: so many attempts are missing to a set. */
  | { readonly kind: "set not full"; readonly missing: number }
  /** Building: never Ready, and the last set is below the standard. */
  | { readonly kind: "below the standard"; readonly standard: number }
  /** Confirm: never Ready, the last set is at the standard, and fewer than two sets are logged. */
  | { readonly kind: "one set only" }
  /** Confirm: never Ready, the last set is at the standard, and the chance is under that asked for. */
  | { readonly kind: "not shown yet"; readonly chance: number }
  /** Confirm: it was Ready, and the chance is less than even. */
  | { readonly kind: "record fallen"; readonly chance: number }
  /** At risk: so few caught, in the last set or the last two, where the own record has the usual rate. */
  | { readonly kind: "slide"; readonly caught: number; readonly attempts: number; readonly usual: number }
  /** At risk: the chance is under one in four. */
  | { readonly kind: "low chance"; readonly chance: number }
  /** At risk: bails in the last set. */
  | { readonly kind: "bails"; readonly bails: number }
  /** Ready and Solid: what the word rests on. The last set may be below the standard while it is no slide. */
  | { readonly kind: "holds"; readonly chance: number; readonly lastSetAtStandard: boolean };

/** The status and what it was judged by. */
export interface Judgement {
  readonly status: Status;
  readonly reason: Reason;
  readonly lastSet: Tallied;
  /** The chance that the true rate is at the standard; undefined without attempts. */
  readonly chance: number | undefined;
}

export interface Assessment extends Judgement {
  readonly attempts: number;
  /** Share caught since the last slide, the latest attempts weighing most; undefined without attempts. */
  readonly recentRate: number | undefined;
  /** The middle 95 % of what the true rate may be, from the same weights as rate and chance. */
  readonly recentInterval: Interval | undefined;
  /** Over the marks since the last tally, which hides its order; undefined where the log ends with a tally. */
  readonly streaks: Streaks | undefined;
}

/**
 * Only the status; see `assess`.
 *
 * @param standard share to be caught, 0 to 1
 * @param setSize attempts in a set, whole, at least 1
 */
export function readiness(log: AttemptLog, standard: number, setSize: number): Status {
  return judgement(walk(log, standard, setSize)).status;
}

/**
 * The judgement of the record up to each of some entries, in one walk: what each of these beginnings would be judged as.
 *
 * @param ends how many entries each beginning has, in rising order
 */
export function judgedAfter(log: AttemptLog, standard: number, setSize: number, ends: readonly number[]): Judgement[] {
  const found: Judgement[] = [];
  walk(log, standard, setSize, ends, (record) => found.push(judgement(record)));
  return found;
}

/** The status and the figures behind it. */
export function assess(log: AttemptLog, standard: number, setSize: number): Assessment {
  const record = walk(log, standard, setSize);
  const { caughtWeight, missedWeight } = record;
  const some = log.attempts > 0;
  return {
    ...judgement(record),
    attempts: log.attempts,
    recentRate: some ? caughtWeight / (caughtWeight + missedWeight) : undefined,
    recentInterval: some ? middleOfRate(caughtWeight, missedWeight) : undefined,
    streaks: log.hasTallies && log.orderedFrom === log.entries ? undefined : streaks(log),
  };
}

/** What the record since the last slide weighs, caught and missed; both 0 without attempts. */
export function countedWeights(log: AttemptLog, standard: number, setSize: number): { caught: number; missed: number } {
  const { caughtWeight, missedWeight } = walk(log, standard, setSize);
  return { caught: caughtWeight, missed: missedWeight };
}

/**
 * Walks through the log once, judging at the entry that completes each `setSize` attempts counted from the first. For
 * single attempts that is after every set; a tally is judged at its end, since its order is unknown.
 *
 * @param ends after how many entries to tell the record as if the log ended there, in rising order
 * @returns the record judged once more at the log's end
 */
function walk(
  log: AttemptLog,
  standard: number,
  setSize: number,
  ends: readonly number[] = [],
  tell: (record: PracticeRecord) => void = () => undefined,
): PracticeRecord {
  const record = new PracticeRecord(log, standard, setSize);
  // These loops see every attempt of the club: the block's numbers are plain variables, aged and added to entry by entry,
  // and two blocks serve all judgings in turn.
  if (!log.hasTallies && ends.length === 0) return walkMarks(log, record);
  const { entries } = log;
  let block = emptyBlock();
  let caughtWeight = 0;
  let missedWeight = 0;
  let caught = 0;
  let attempts = 0;
  let start = 0;
  let left = setSize;
  let told = 0;
  let nextTold = ends[told];
  for (let entry = 0; entry < entries; entry++) {
    const tried = log.attemptsAt(entry);
    const caughtHere = log.caughtAt(entry);
    if (tried === 1) {
      caughtWeight = caughtWeight * DECAY + caughtHere;
      missedWeight = missedWeight * DECAY + (1 - caughtHere);
    } else {
      // The tally's attempts share its weights evenly: 1 + d + d² + … over its attempts.
      const aged = record.agedBy(tried);
      const weight = (1 - aged) / (1 - DECAY);
      const share = caughtHere / tried;
      caughtWeight = caughtWeight * aged + weight * share;
      missedWeight = missedWeight * aged + weight * (1 - share);
    }
    caught += caughtHere;
    attempts += tried;
    if (attempts >= left) {
      block.caught = caught;
      block.attempts = attempts;
      block.caughtWeight = caughtWeight;
      block.missedWeight = missedWeight;
      block.start = start;
      block.end = entry + 1;
      block = record.judge(block);
      start = entry + 1;
      left = setSize - (record.attempts % setSize);
      caughtWeight = missedWeight = caught = attempts = 0;
    }
    if (entry + 1 === nextTold) {
      nextTold = ends[++told];
      tell(record.asEnded({ caught, attempts, caughtWeight, missedWeight, start, end: entry + 1, isWhole: false }));
    }
  }
  return record.asEnded({ caught, attempts, caughtWeight, missedWeight, start, end: entries, isWhole: false });
}

/** The walk through a log of single attempts: each block is a set of as many entries, and all are read from one array. */
function walkMarks(log: AttemptLog, record: PracticeRecord): PracticeRecord {
  const { entries } = log;
  const { setSize } = record;
  const outcomes = log.singleOutcomes();
  let block = emptyBlock();
  for (let start = 0; ; start += setSize) {
    const end = Math.min(entries, start + setSize);
    let caughtWeight = 0;
    let missedWeight = 0;
    let caught = 0;
    for (let entry = start; entry < end; entry++) {
      const caughtHere = outcomes[entry] === CAUGHT ? 1 : 0;
      caughtWeight = caughtWeight * DECAY + caughtHere;
      missedWeight = missedWeight * DECAY + (1 - caughtHere);
      caught += caughtHere;
    }
    const attempts = end - start;
    if (attempts < setSize) {
      return record.asEnded({ caught, attempts, caughtWeight, missedWeight, start, end, isWhole: false });
    }
    block.caught = caught;
    block.attempts = attempts;
    block.caughtWeight = caughtWeight;
    block.missedWeight = missedWeight;
    block.start = start;
    block.end = end;
    block = record.judge(block);
  }
}

interface Counts {
  readonly caught: number;
  readonly attempts: number;
}

interface Weights {
  readonly caughtWeight: number;
  readonly missedWeight: number;
}

/** What was logged since the judging before: the entries from `start` to `end`. */
interface Block extends Counts, Weights {
  caught: number;
  attempts: number;
  caughtWeight: number;
  missedWeight: number;
  start: number;
  end: number;
  /** False where the log ends between two judgings. */
  readonly isWhole: boolean;
}

type Slide = Extract<Reason, { readonly kind: "slide" }>;

function emptyBlock(): Block {
  return { caught: 0, attempts: 0, caughtWeight: 0, missedWeight: 0, start: 0, end: 0, isWhole: true };
}

/** One trick's record as the walk has come to know it. */
class PracticeRecord {
  /** All that are logged, and in how many entries, up to the latest judging. */
  attempts = 0;
  end = 0;
  /** Since the last slide. */
  caughtWeight = 0;
  missedWeight = 0;
  wasReady = false;
  /** The slide that the latest judging found. */
  slide: Slide | undefined;
  /** Whether it is Ready with nothing seen against it: only then a slide is looked for. */
  private stands = false;
  /** What the athlete usually catches, while it stands; and that record without the last block. */
  private ownCaught = 0;
  private ownAttempts = 0;
  private ownCaughtBeforeLast = 0;
  private ownAttemptsBeforeLast = 0;
  private last = emptyBlock();
  /** From this entry on the record counts: the last slide's first. */
  private start = 0;

  /** For how many attempts `agedBy` was asked last, and its answer. */
  private agedAttempts = 0;
  private agedFactor = 1;

  constructor(
    readonly log: AttemptLog,
    readonly standard: number,
    readonly setSize: number,
  ) {}

  /** What a weight is worth so many attempts later. A log's sets are mostly of one size. */
  agedBy(attempts: number): number {
    if (attempts !== this.agedAttempts) {
      this.agedAttempts = attempts;
      this.agedFactor = Math.pow(DECAY, attempts);
    }
    return this.agedFactor;
  }

  /** The record as it is shown where the log ends with this block; this one goes on unchanged. */
  asEnded(block: Block): PracticeRecord {
    if (block.attempts === 0) return this;
    const ended = Object.assign(new PracticeRecord(this.log, this.standard, this.setSize), this);
    ended.judge(block);
    return ended;
  }

  /**
   * Keeps the block until the next judging.
   *
   * @returns the block kept so far, which nobody needs any longer
   */
  judge(block: Block): Block {
    const { last } = this;
    this.attempts += block.attempts;
    this.end = block.end;
    this.slide = undefined;
    if (this.stands) this.lookForSlide(block);
    if (this.slide === undefined) {
      this.weigh(this, block);
      if (!this.stands) this.lookWhetherReady(block);
      else if (this.hasChanceFrom(RISK_FROM)) this.addToOwn(block);
      else this.stands = false;
    }
    this.last = block;
    return last;
  }

  /** The latest entries that are a set at least. */
  lastSet(): Tallied {
    return this.log.latest(this.setSize, this.end);
  }

  /** The rule of practice: a whole set, and the share caught in it at the standard. */
  isAtStandard({ caught, attempts }: Counts): boolean {
    return attempts >= this.setSize && caught >= this.standard * attempts - ROUNDING;
  }

  private lookForSlide(block: Block): void {
    const { last } = this;
    if (block.isWhole && this.isSlide(block.caught, block.attempts, this.ownCaught, this.ownAttempts, 1)) {
      this.start = block.start;
      this.caughtWeight = block.caughtWeight;
      this.missedWeight = block.missedWeight;
      return;
    }
    const [caught, attempts] = [last.caught + block.caught, last.attempts + block.attempts];
    if (this.isSlide(caught, attempts, this.ownCaughtBeforeLast, this.ownAttemptsBeforeLast, 2)) {
      this.start = last.start;
      this.weigh(last, block);
    }
  }

  /** The weights of what came before, aged, with those of the block. */
  private weigh(before: Weights, block: Block): void {
    const aged = this.agedBy(block.attempts);
    this.caughtWeight = before.caughtWeight * aged + block.caughtWeight;
    this.missedWeight = before.missedWeight * aged + block.missedWeight;
  }

  /**
   * Whether so few catches come to the own record less than once in 150 sets. One set at the standard is added to that
   * record, and one attempt of either kind, so that a short record does not cry wolf.
   *
   * The numbers come one by one: a board asks this twice a set.
   *
   * @param caught in the window of so many attempts, which is so many sets
   */
  private isSlide(caught: number, attempts: number, ownCaught: number, ownAttempts: number, sets: number): boolean {
    const { standard, setSize } = this;
    if (caught >= standard * attempts - ROUNDING) return false;
    const a = ownCaught + standard * setSize + 1;
    const b = ownAttempts - ownCaught + (1 - standard) * setSize + 1;
    if (!isRarerThan(sets / SETS_TO_A_FALSE_SLIDE, caught, attempts, a, b)) return false;
    const usual = ownAttempts > 0 ? ownCaught / ownAttempts : standard;
    this.slide = { kind: "slide", caught, attempts, usual };
    this.stands = false;
    return true;
  }

  private lookWhetherReady(block: Block): void {
    if (this.wasReady ? !this.hasChanceFrom(EVEN_FROM) : !this.isReadyFirst(block)) return;
    this.wasReady = true;
    this.stands = true;
    const { caught, attempts } = this.log.latest(OWN_SETS * this.setSize, this.end, this.start);
    const isLonger = attempts > block.attempts;
    this.setOwn(isLonger ? caught - block.caught : 0, isLonger ? attempts - block.attempts : 0);
    this.setOwn(caught, attempts);
  }

  private isReadyFirst(block: Block): boolean {
    if (this.attempts < SETS_TO_BE_READY * this.setSize) return false;
    // Mostly the block is the last set, and need not be summed once more.
    const isSet = block.attempts === this.setSize && block.end - block.start === this.setSize;
    return this.isAtStandard(isSet ? block : this.lastSet()) && this.hasChanceFrom(READY_FROM);
  }

  private addToOwn(block: Block): void {
    this.setOwn(this.ownCaught + block.caught, this.ownAttempts + block.attempts);
  }

  /** The own record from now on, kept current; the one so far is that without the last block. */
  private setOwn(caught: number, attempts: number): void {
    this.ownCaughtBeforeLast = this.ownCaught;
    this.ownAttemptsBeforeLast = this.ownAttempts;
    const isLong = attempts > OWN_MOST_ATTEMPTS;
    this.ownCaught = isLong ? (caught * OWN_MOST_ATTEMPTS) / attempts : caught;
    this.ownAttempts = isLong ? OWN_MOST_ATTEMPTS : attempts;
  }

  private hasChanceFrom(least: Threshold): boolean {
    return isChanceFrom(least, this.caughtWeight, this.missedWeight, this.standard);
  }
}

/** The words: the first that applies. */
function judgement(record: PracticeRecord): Judgement {
  const { attempts, setSize, standard, caughtWeight, missedWeight, slide } = record;
  const lastSet = record.lastSet();
  if (attempts === 0) {
    return { status: "No attempts", reason: { kind: "nothing logged" }, lastSet, chance: undefined };
  }
  const chance = chanceAbove(caughtWeight, missedWeight, standard);
  const judged = (status: Status, reason: Reason): Judgement => ({ status, reason, lastSet, chance });
  if (attempts < setSize) return judged("Too few", { kind: "set not full", missing: setSize - attempts });
  const lastSetAtStandard = record.isAtStandard(lastSet);
  if (!record.wasReady) {
    if (!lastSetAtStandard) return judged("Building", { kind: "below the standard", standard });
    const isOneSet = attempts < SETS_TO_BE_READY * setSize;
    return judged("Confirm", isOneSet ? { kind: "one set only" } : { kind: "not shown yet", chance });
  }
  if (slide) return judged("At risk", slide);
  if (chance < RISK_CHANCE) return judged("At risk", { kind: "low chance", chance });
  if (lastSet.bails >= RISK_BAILS) return judged("At risk", { kind: "bails", bails: lastSet.bails });
  if (chance < EVEN_CHANCE) return judged("Confirm", { kind: "record fallen", chance });
  const isSolid = chance >= SOLID_CHANCE && lastSetAtStandard;
  return judged(isSolid ? "Solid" : "Ready", { kind: "holds", chance, lastSetAtStandard });
}
