/**
 * What the sheet says in words. One place, so that the words stay short, plain and the trade's own, and the cautions
 * stand where the work can hurt. The order of acting on a trick that fails (repeat it for five catches, run it between
 * its neighbours, change the way in or out, put in a safer trick) is common practice, no source.
 */
import type { ChangeDay } from "./change-day";
import type { CountdownRow } from "./countdown";
import { dayInWords } from "./day-text";
import type { FirstTries } from "./first-tries";
import type { Placement } from "./placement";
import { LATEST_CAUGHT, LATEST_TRIES, RUNNING_CATCHES, type ProgressionRow } from "./progression";
import { EVEN_CHANCE, READY_CHANCE, RISK_BAILS, RISK_CHANCE, type Assessment, type Judgement } from "./readiness";
import type { Swap } from "./routine";
import { isReady } from "../trade/statuses";
import type { PlannedTrick, TrainingLoad } from "./week";

/** Why a status is what it is, in a few words that go with it: `6 of 10; 95 % is usual`. */
export function reasonInWords({ reason, lastSet }: Judgement): string {
  const set = `${lastSet.caught} of ${lastSet.attempts}`;
  switch (reason.kind) {
    case "nothing logged":
      return "nothing logged yet";
    case "set not full":
      return `${reason.missing} more to a whole set`;
    case "below the standard":
      return `${set}; the standard is ${inPercent(reason.standard)}`;
    case "one set only":
      return `${set}, and one set only so far`;
    case "not shown yet":
      return `${set}; chance ${percentUnder(reason.chance, READY_CHANCE)} %, ${inPercent(READY_CHANCE)} is asked for`;
    case "record fallen":
      return `was Ready; chance ${percentUnder(reason.chance, EVEN_CHANCE)} % now`;
    case "slide":
      return [
        `${reason.caught} of ${reason.attempts}; ${inPercent(reason.usual)} is usual`,
        ...(lastSet.bails >= RISK_BAILS ? [bailsInWords(lastSet.bails)] : []),
      ].join("; ");
    case "low chance":
      return [
        `chance ${percentUnder(reason.chance, RISK_CHANCE)} %`,
        ...(lastSet.bails >= RISK_BAILS ? [bailsInWords(lastSet.bails)] : []),
      ].join("; ");
    case "bails":
      return bailsInWords(reason.bails);
    case "holds":
      return `${set}${reason.lastSetAtStandard ? "" : ", no slide"}; chance ${inPercent(reason.chance)}`;
  }
}

/** Whole per cent; with a digit more where a chance under a limit would be rounded up to it. */
export function percentUnder(chance: number, limit: number): number {
  const whole = Math.round(100 * chance);
  return whole < Math.round(100 * limit) ? whole : Math.floor(1000 * chance) / 10;
}

function bailsInWords(bails: number): string {
  return bails === 2 ? "two bails" : `${bails} bails`;
}

/** The next step for a status and its reason, one short sentence; At risk always tells why. */
export function nextStep(assessment: Assessment, setSize: number): string {
  const { status, reason, attempts, lastSet } = assessment;
  const why = capital(reasonInWords(assessment));
  if (lastSet.bails >= RISK_BAILS) {
    const told = status === "At risk" ? why : capital(bailsInWords(lastSet.bails));
    return `${told}: do not push repetitions; back to body and toss apart until both feel safe.`;
  }
  switch (status) {
    case "No attempts":
      return `Log a first set of ${setSize}.`;
    case "Too few":
      return `Log ${setSize - attempts} more to judge it.`;
    case "Building":
      return "Body and toss apart, then joined: five catches running before the next step.";
    case "Confirm":
      if (reason.kind === "record fallen") {
        return `${why}: show another set at the standard before it goes on in the routine.`;
      }
      return `Never Ready yet, ${
        reason.kind === "not shown yet"
          ? `chance ${percentUnder(reason.chance, READY_CHANCE)} % of ${inPercent(READY_CHANCE)}`
          : "one set only"
      }: show another set at the standard, best on another day.`;
    case "Ready":
      return `${why}: run it with the trick before and the trick after, then in the run-through.`;
    case "Solid":
      return `${why}: keep it warm with one set a practice; spend the time on weaker tricks.`;
    case "At risk":
      return `${why}: repeat for five catches running, then between its neighbours; else another way in or out, or a safer trick.`;
  }
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** Room under the ceiling that a toss should leave: common practice, no source. */
export const CLEARANCE_METRES = 0.5;

/** How a planned toss goes with its hall. */
type TossFit = "ceiling not known" | "hits" | "close" | "travels far" | "fits";

/**
 * How the toss fits.
 *
 * @param ceilingRoom from the baton's highest point to the ceiling; undefined where no ceiling was given
 * @param clearance what should be left, in the same unit
 */
export function tossFit(ceilingRoom: number | undefined, clearance: number, leanDegrees: number): TossFit {
  if (ceilingRoom === undefined) return "ceiling not known";
  if (ceilingRoom < 0) return "hits";
  if (ceilingRoom < clearance) return "close";
  return leanDegrees > STEEP_LEAN_DEGREES ? "travels far" : "fits";
}

/** The verdict on a planned toss; see `tossFit`. */
export function tossVerdict(ceilingRoom: number | undefined, clearance: number, leanDegrees: number): string {
  switch (tossFit(ceilingRoom, clearance, leanDegrees)) {
    case "ceiling not known":
      return "Measure the ceiling and its lights before this toss; keep the lane clear.";
    case "hits":
      return "Hits the ceiling: fewer counts, faster counts or another hall.";
    case "close":
      return "Too close to the ceiling or its lights: fewer counts or faster counts.";
    case "travels far":
      return "Fits, but travels far for its height: keep the lane clear and check the landing mark.";
    case "fits":
      return "Fits under this ceiling; keep the lane clear.";
  }
}

/** Beyond this the toss drifts more than it rises near the hand: common practice, no source. */
const STEEP_LEAN_DEGREES = 20;

/** Why a trick gets the attempts it gets in the week's plan. */
export function planReason({ attempts, reason, mean }: PlannedTrick, standard: number, setSize: number): string {
  switch (reason) {
    case "keeps warm":
      return attempts > setSize
        ? "Meets the standard: there is time to make it surer."
        : "Meets the standard: one set keeps it warm.";
    case "short of the standard":
      return `About ${inPercent(standard - mean)} short of the standard.`;
    case "no set left":
      return attempts === 0 && mean >= standard
        ? "Meets the standard; no set left for it this time."
        : `About ${inPercent(standard - mean)} short; no set of ${setSize} left for it this time.`;
    case "not asked for":
      return "Its weight is 0.";
  }
}

/** What the way to the contest asks for, one short sentence or two. */
export function countdownStep(row: CountdownRow, asOf: number): string {
  const { status, forecast, lastDayToSwap } = row;
  const unsure = typeof forecast === "string" ? ` ${forecast}.` : "";
  if (isReady(status) && (typeof forecast === "string" || forecast.chance >= EVEN_CHANCE)) {
    return `On its way: keep it warm.${unsure}`;
  }
  if (lastDayToSwap === undefined) {
    return `Not practised in four weeks: practise it, or choose a trick that is Ready already.${unsure}`;
  }
  if (lastDayToSwap < asOf) {
    return `Too late to make another trick ready at this pace: more sets, or one that is Ready already.${unsure}`;
  }
  return `Work on it until ${dayInWords(lastDayToSwap)}; not Ready by then, choose another trick.${unsure}`;
}

function inPercent(share: number): string {
  return `${Math.round(100 * share)} %`;
}

/** Where the tosses drift to from the target. */
type Drift =
  | { readonly kind: "too few"; readonly more: number }
  | { readonly kind: "none" }
  | {
      readonly kind: "drift";
      /** Undefined where the drift is nearly all along the other way. */
      readonly along: "forward" | "back" | undefined;
      readonly across: "right" | "left" | undefined;
    };

export function driftOf({ tosses, meanSideways, meanForward, biasClear }: Placement): Drift {
  if (biasClear === undefined) return { kind: "too few", more: FEWEST_LANDINGS - tosses };
  if (!biasClear) return { kind: "none" };
  const across = Math.abs(meanSideways) >= Math.abs(meanForward) / 2;
  const along = Math.abs(meanForward) >= Math.abs(meanSideways) / 2;
  return {
    kind: "drift",
    along: along ? (meanForward > 0 ? "forward" : "back") : undefined,
    across: across ? (meanSideways > 0 ? "right" : "left") : undefined,
  };
}

const FEWEST_LANDINGS = 4;

/** What the landing marks say about the release. */
export function placementAdvice(placement: Placement): string {
  const drift = driftOf(placement);
  if (drift.kind === "too few") return `Mark ${drift.more} more landings before reading a drift from them.`;
  if (drift.kind === "none") return "No clear drift: work on landing closer together, at the same count each time.";
  const sides = [
    ...(drift.along === undefined ? [] : [drift.along]),
    ...(drift.across === undefined ? [] : [`to the ${drift.across}`]),
  ];
  const wall = drift.along === undefined ? "" : " A wall in front shows it; stand back, the baton returns.";
  return `Drifts ${sides.join(" and ")}: release from the midline, hips and shoulders square.${wall}`;
}

/** Whether to keep the present trick or take the other, in expected points. */
export function swapVerdict({ difference, breakEvenRate }: Swap): string {
  if (Math.abs(difference) < 1e-9) return "Both bring the same: keep the one the athlete is sure of.";
  if (difference < 0) return "Keep the present trick.";
  return breakEvenRate === undefined
    ? "Swap: at no rate does the present trick bring as much."
    : `Swap until the present trick is caught ${inPercent(breakEvenRate)} of the time; retrain it apart.`;
}

/** A jump this far above the four weeks before is worth a question: common practice, no source. */
const JUMP = 0.3;
const FEWEST_REST_DAYS = 2;

/**
 * Prompts on practice load, never a risk score: weekly hours in one sport above the age in years, and fewer than two rest
 * days, are those of the National Athletic Trainers' Association's position statement of 2019.
 */
export function loadPrompt({ hours, restDays, change }: TrainingLoad, age: number): string {
  const prompts = [
    ...(hours > age ? ["More hours in seven days than the age in years."] : []),
    ...(restDays < FEWEST_REST_DAYS ? ["Fewer than two rest days in seven."] : []),
    ...(change !== undefined && change > JUMP ? ["A jump above the four weeks before."] : []),
  ];
  if (prompts.length === 0) return "Nothing stands out; pain and tiredness count before any number.";
  return `${prompts.join(" ")} Ask how the athlete feels; a doctor's advice comes first.`;
}

/** Below this a change is not worth a coach's thought. */
const UNLIKELY_CHANGE = 0.25;

/** Since when a trick goes worse or better, in one sentence. */
export function changeInWords({ change, chance, days, caught, attempts, told }: ChangeDay): string {
  if (!told) {
    const meaning =
      chance < UNLIKELY_CHANGE ? "its ups and downs are what luck brings" : "not clear yet, log some more days";
    return `No change seen in ${days} practice days: ${inPercent(caught / attempts)} caught of ${attempts}; ${meaning} (chance of a change ${chanceInPercent(chance)}).`;
  }
  const { since, earliest, latest, before, after } = told;
  const when =
    earliest === latest
      ? `Since ${dayInWords(since)}`
      : `Since ${dayInWords(since)} (between ${dayInWords(earliest)} and ${dayInWords(latest)})`;
  const what = change === "slid" ? "a slide and not just a bad day" : "a rise and not just a good day";
  return `${when} ${inPercent(after.rate)} caught of ${after.attempts}, before that ${inPercent(before.rate)} of ${before.attempts}: ${what}, with a chance of ${chanceInPercent(chance)}.`;
}

/** Never certain: nothing in a record is. */
function chanceInPercent(chance: number): string {
  if (chance >= 0.995) return "over 99 %";
  return chance < 0.005 ? "under 1 %" : inPercent(chance);
}

/** What is left to do at a stage; empty where it is done. */
export function whatIsLeft(row: ProgressionRow, standard: number, setSize: number): string {
  if (row.holds || row.goal === "none") return "";
  switch (row.goal) {
    case "five running":
      if (row.attempts === 0) return `Not begun: ${RUNNING_CATCHES} catches running.`;
      return `${RUNNING_CATCHES - row.run} more ${RUNNING_CATCHES - row.run === 1 ? "catch" : "catches"} running.`;
    case "four of five":
      if (row.attempts === 0) return `Not begun: ${LATEST_CAUGHT} of the latest ${LATEST_TRIES} caught.`;
      return `${row.done === undefined ? "" : "Fell back: "}${row.latestCaught} of the latest ${row.latestTries} caught, ${LATEST_CAUGHT} of ${LATEST_TRIES} are asked for.`;
    case "ready":
      if (!row.judgement) return `Not begun: sets of ${setSize} at ${inPercent(standard)} until it is Ready.`;
      return [
        row.done === undefined ? "Now" : "Fell back: now",
        `${row.judgement.status} (${reasonInWords(row.judgement)}): sets of ${setSize} at ${inPercent(standard)}`,
        row.done === undefined ? "until it is Ready." : "until it is Ready again.",
      ].join(" ");
  }
}

/** Days that are not in the first two rows of the first tries, and why; empty where there are none. */
export function leftOutOfFirstTries({ daysBegunWithTally }: FirstTries): string {
  if (daysBegunWithTally === 0) return "";
  const days = daysBegunWithTally === 1 ? "1 day begins" : `${daysBegunWithTally} days begin`;
  return `${days} with a tally, which does not say how the first try went: left out of the first two rows.`;
}
