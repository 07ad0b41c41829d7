/** When will the trick be at the standard? A logistic curve through the log, and no answer without a clear trend. */
import { DayTallies } from "./day-tallies";
import { LAST_DAY } from "./sheet";
import { Missing } from "./problem";
import { twoSidedDeviate } from "./tails";

export interface PracticeDay {
  /** Whole sheet serial. */
  readonly date: number;
  readonly caught: number;
  readonly attempts: number;
}

interface ReadyDate {
  readonly date: number;
  readonly earliest: number;
  readonly latest: number;
}

export interface LogisticFit {
  readonly intercept: number;
  readonly slope: number;
  /** Covariance of intercept and slope: their variances and what they share. */
  readonly varianceIntercept: number;
  readonly varianceSlope: number;
  readonly covariance: number;
}

const MOST_STEPS = 100;
const CONVERGED = 1e-12;
/** Log odds beyond this mean that the curve jumps from never to always. */
const STEEPEST_LOG_ODDS = 30;
const FEWEST_DAYS = 3;
/** A forecast is asked for with less confidence than a fact: at 95 % hardly any log of a season has an answer. */
export const FORECAST_CONFIDENCE = 0.8;

/**
 * Logistic regression of caught of attempts on x by maximum likelihood (Newton's method, which is iteratively weighted
 * least squares: McCullagh and Nelder, Generalized Linear Models, 1989, section 4.4). Undefined where the likelihood
 * has no maximum, since all misses lie on one side and all catches on the other.
 */
export function fitLogistic(
  points: readonly { readonly x: number; readonly caught: number; readonly attempts: number }[],
): LogisticFit | undefined {
  let [intercept, slope] = [0, 0];
  for (let step = 0; step < MOST_STEPS; step++) {
    let [g0, g1, h00, h01, h11] = [0, 0, 0, 0, 0];
    for (const { x, caught, attempts } of points) {
      const logOdds = intercept + slope * x;
      if (Math.abs(logOdds) > STEEPEST_LOG_ODDS) return undefined;
      const rate = 1 / (1 + Math.exp(-logOdds));
      const weight = attempts * rate * (1 - rate);
      const residual = caught - attempts * rate;
      g0 += residual;
      g1 += residual * x;
      h00 += weight;
      h01 += weight * x;
      h11 += weight * x * x;
    }
    const determinant = h00 * h11 - h01 * h01;
    if (!(determinant > 0)) return undefined;
    const up0 = (h11 * g0 - h01 * g1) / determinant;
    const up1 = (h00 * g1 - h01 * g0) / determinant;
    intercept += up0;
    slope += up1;
    if (Math.abs(up0) + Math.abs(up1) < CONVERGED * (1 + Math.abs(intercept) + Math.abs(slope))) {
      return {
        intercept,
        slope,
        varianceIntercept: h11 / determinant,
        varianceSlope: h00 / determinant,
        covariance: -h01 / determinant,
      };
    }
  }
  return undefined;
}

/**
 * The first whole day on which the fitted curve is at the standard, and its interval by inverse prediction (Fieller's
 * theorem: Finney, Probit Analysis, 1971, section 4.6; Draper and Smith, Applied Regression Analysis, section 3.2).
 *
 * @param rows any order, several rows a day allowed; attempts at least 1
 * @throws Missing with the reason where there is no such day
 */
export function readyDate(rows: readonly PracticeDay[], standard: number, confidence: number): ReadyDate {
  const days = byDay(rows);
  if (days.length < FEWEST_DAYS) throw new Missing("Fewer than 3 practice days: log some more first");
  const caught = days.reduce((sum, day) => sum + day.caught, 0);
  const attempts = days.reduce((sum, day) => sum + day.attempts, 0);
  if (caught === attempts) throw new Missing("No misses are logged, so there is no trend to follow");
  if (caught === 0) throw new Missing("No catches are logged, so there is no trend to follow");
  if (standard === 0) throw new Missing("The trick is at the standard already");
  if (standard === 1) throw new Missing("No curve ever reaches a standard of 100 %");

  // Days from the middle of the log in half its length: the sums stay near 1 and keep their digits.
  let [first, last] = [Infinity, -Infinity];
  for (const { date } of days) [first, last] = [Math.min(first, date), Math.max(last, date)];
  const [middle, scale] = [(first + last) / 2, (last - first) / 2];
  const fit = fitLogistic(
    days.map((day) => ({ x: (day.date - middle) / scale, caught: day.caught, attempts: day.attempts })),
  );
  if (!fit)
    throw new Missing("The record turns from missed to caught at once, so no curve can be fitted: log some more");
  const deviate = twoSidedDeviate(confidence);
  if (!(fit.slope / Math.sqrt(fit.varianceSlope) >= deviate) || fit.slope <= 0) {
    throw new Missing("There is no clear upward trend, so no date can be told");
  }
  const target = Math.log(standard / (1 - standard));
  if (fit.intercept + fit.slope >= target) throw new Missing("The trick is at the standard already on the latest day");

  const [low, high] = fieller(fit, target, deviate);
  const dayOf = (x: number): number => Math.ceil(middle + scale * x - 1e-9);
  const date = dayOf((target - fit.intercept) / fit.slope);
  const latest = dayOf(high);
  if (!(latest <= LAST_DAY)) throw new Missing("The trend is so slow or unsure that no date can be told");
  return { date, earliest: Math.max(1, dayOf(low)), latest };
}

/** The two x where the target lies at the edge of the curve's own interval; the slope is clear, so both are finite. */
export function fieller(fit: LogisticFit, target: number, deviate: number): [number, number] {
  const squared = deviate * deviate;
  const above = fit.intercept - target;
  const a = fit.slope * fit.slope - squared * fit.varianceSlope;
  const b = above * fit.slope - squared * fit.covariance;
  const c = above * above - squared * fit.varianceIntercept;
  const root = Math.sqrt(Math.max(0, b * b - a * c));
  return [(-b - root) / a, (-b + root) / a];
}

/** Rows of one day together, in order of time: the likelihood is the same, and a log of many rows has few days. */
export function byDay(rows: readonly PracticeDay[]): PracticeDay[] {
  const days = new DayTallies();
  for (const row of rows) days.add(row.date, row);
  return days.days();
}
