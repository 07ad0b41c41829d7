/**
 * How surely one trick will be at the standard on the contest day. What the season's learning curves of single athletes
 * do is not known beforehand: a rise mostly ends on a plateau, so it is not carried further than the last practice, and
 * a fall that goes on is. A rise that is carried on says 70 to 80 % where 22 to 40 % come true; `npm run bench -- contest`
 * prints what this rule does, and DEVELOPERS.md has its table.
 */
import { AttemptLog } from "./attempt-log";
import { chanceAbove } from "./catch-rate";
import { Missing } from "./problem";
import { countedWeights } from "./readiness";
import { byDay, fitLogistic, FORECAST_CONFIDENCE, type LogisticFit, type PracticeDay } from "./ready-date";
import { betaQuantile, betaQuantileAbove, normalOutside, twoSidedDeviate } from "./tails";

/** No forecast reaches further: common practice, no source. */
const MOST_DAYS_AHEAD = 56;
/** The trend is that of the latest eight weeks: what was learned before them is learned. */
const TREND_DAYS = 56;
const FEWEST_TREND_DAYS = 3;
/** How clear a trend must be, on both sides. */
const TREND_DEVIATE = twoSidedDeviate(FORECAST_CONFIDENCE);
/** What a day does to the rate by itself, as a variance of the log-odds: a standard deviation of a half in eight weeks. */
const VARIANCE_A_DAY = 0.005;

export interface ContestForecast {
  /** The rate that is expected on the day. */
  readonly rate: number;
  readonly low: number;
  readonly high: number;
  /** The chance that the true rate is at the standard on that day. */
  readonly chance: number;
  readonly from: "trend" | "level";
}

/**
 * @param rows any order, several rows a day allowed in the order of the day; attempts at least 1
 * @param contest whole sheet serial; rows of later days are left out
 * @throws Missing with the reason where the contest is too far ahead for this log
 */
export function contestChance(
  rows: readonly PracticeDay[],
  contest: number,
  standard: number,
  setSize: number,
  confidence: number,
): ContestForecast {
  const ordered = rows.filter(({ date }) => date <= contest).sort((one, other) => one.date - other.date);
  const [first, last] = [ordered[0], ordered[ordered.length - 1]];
  if (!first || !last) throw new Missing("Nothing is logged up to the contest day");
  const ahead = contest - last.date;
  const reach = Math.min(MOST_DAYS_AHEAD, last.date - first.date);
  if (ahead > reach) throw new Missing(tooFarAhead(ahead, last.date - first.date));
  return (
    fromTrend(ordered, last.date, ahead, standard, confidence) ?? fromLevel(ordered, standard, setSize, confidence)
  );
}

function tooFarAhead(ahead: number, back: number): string {
  const asked = `The contest is ${inDays(ahead)} after the last practice, and the log reaches back ${inDays(back)}`;
  return ahead > MOST_DAYS_AHEAD
    ? `${asked}: no forecast reaches further than ${MOST_DAYS_AHEAD} days`
    : `${asked}: a forecast reaches no further ahead than the log reaches back`;
}

function inDays(days: number): string {
  return days === 1 ? "1 day" : `${days} days`;
}

/**
 * The logistic curve through the latest eight weeks, normal on the log-odds; undefined where no trend is clear. Days
 * differ by more than luck: the variances are widened by Pearson's statistic over its degrees of freedom (McCullagh and
 * Nelder, Generalized Linear Models, 1989, section 4.5).
 */
function fromTrend(
  rows: readonly PracticeDay[],
  last: number,
  ahead: number,
  standard: number,
  confidence: number,
): ContestForecast | undefined {
  const days = byDay(rows.filter(({ date }) => date > last - TREND_DAYS));
  if (days.length < FEWEST_TREND_DAYS) return undefined;
  // In weeks from the last practice: the intercept is the level of today.
  const points = days.map((day) => ({ x: (day.date - last) / 7, caught: day.caught, attempts: day.attempts }));
  const fit = fitLogistic(points);
  if (!fit) return undefined;
  const scatter = scatterOf(fit, points);
  if (!(Math.abs(fit.slope) >= TREND_DEVIATE * Math.sqrt(fit.varianceSlope * scatter))) return undefined;
  const deviate = twoSidedDeviate(confidence);
  const weeks = fit.slope > 0 ? 0 : ahead / 7;
  const middle = fit.intercept + fit.slope * weeks;
  const variance =
    (fit.varianceIntercept + 2 * weeks * fit.covariance + weeks * weeks * fit.varianceSlope) * scatter +
    VARIANCE_A_DAY * ahead;
  const spread = Math.sqrt(variance);
  return {
    rate: shareOf(middle),
    low: shareOf(middle - deviate * spread),
    high: shareOf(middle + deviate * spread),
    chance: normalAbove((Math.log(standard / (1 - standard)) - middle) / spread),
    from: "trend",
  };
}

/** How much more the days scatter about the curve than luck alone brings; at least 1. */
function scatterOf(
  { intercept, slope }: LogisticFit,
  points: readonly { readonly x: number; readonly caught: number; readonly attempts: number }[],
): number {
  let sum = 0;
  for (const { x, caught, attempts } of points) {
    const rate = shareOf(intercept + slope * x);
    sum += (caught - attempts * rate) ** 2 / (attempts * rate * (1 - rate));
  }
  return Math.max(1, sum / (points.length - 2));
}

/** The level of the record as READINESS weighs it. */
function fromLevel(
  rows: readonly PracticeDay[],
  standard: number,
  setSize: number,
  confidence: number,
): ContestForecast {
  const log = new AttemptLog();
  rows.forEach(({ caught, attempts }, index) => log.addTally(caught, attempts, index + 1, 1));
  const { caught, missed } = countedWeights(log, standard, setSize);
  const outside = (1 - confidence) / 2;
  return {
    rate: caught / (caught + missed),
    low: betaQuantile(outside, caught + 0.5, missed + 0.5),
    high: betaQuantileAbove(outside, caught + 0.5, missed + 0.5),
    chance: chanceAbove(caught, missed, standard),
    from: "level",
  };
}

function shareOf(logOdds: number): number {
  return 1 / (1 + Math.exp(-logOdds));
}

function normalAbove(deviate: number): number {
  const outside = normalOutside(Math.abs(deviate)) / 2;
  return deviate > 0 ? outside : 1 - outside;
}
