/**
 * The flight of a tossed baton: up from the releasing hand, down to the catching hand. Lengths are metres or feet, as
 * the caller's gravity is; times are seconds; speeds are that length per second.
 *
 * Without air: rise = v²/2g and airtime T with v = gT/2 + (c − r)/T for release height r and catch height c
 * (any physics text, such as OpenStax University Physics 1, section 3.5). With quadratic air drag and terminal speed u,
 * in the form that does not overflow: time up (u/g) acos(e^(−gH/u²)), time down (u/g) arcosh(e^(gD/u²)).
 */
import { Problem } from "./problem";

export type LengthUnit = "m" | "ft";
export const LENGTH_UNITS: readonly LengthUnit[] = ["m", "ft"];

/** Standard acceleration of gravity, 3rd CGPM 1901: 9.80665 m/s² exactly. */
const GRAVITY_METRES = 9.80665;
/** International foot, 1959: 0.3048 m exactly. */
const METRES_PER_FOOT = 0.3048;

/** Hands at about the breast of a grown athlete: common practice, no source. */
export const RELEASE_METRES = 1.5;

export function gravity(unit: LengthUnit): number {
  return unit === "m" ? GRAVITY_METRES : GRAVITY_METRES / METRES_PER_FOOT;
}

/** A length given in metres, in the unit. */
export function fromMetres(metres: number, unit: LengthUnit): number {
  return unit === "m" ? metres : metres / METRES_PER_FOOT;
}

export interface Flight {
  /** How far the catch lies below the release; negative: caught higher. */
  readonly dropBelow: number;
  readonly unit: LengthUnit;
  /** The speed at which air drag balances the baton's weight; undefined: no air. */
  readonly terminalSpeed: number | undefined;
}

/**
 * Seconds up to `rise` above the releasing hand and down to the catch.
 *
 * @throws Problem where the catch would lie above the highest point
 */
export function airtime(rise: number, flight: Flight): number {
  const fall = rise + flight.dropBelow;
  if (fall < 0) {
    throw new Problem({
      argument: "dropBelow",
      found: `a catch ${-flight.dropBelow} above the release, higher than the rise of ${rise}`,
      accepted: "a catch no higher than the toss rises",
    });
  }
  const g = gravity(flight.unit);
  const speed = flight.terminalSpeed;
  if (speed === undefined) return Math.sqrt((2 * rise) / g) + Math.sqrt((2 * fall) / g);
  return (speed / g) * (angleUp((g * rise) / (speed * speed)) + logFall((g * fall) / (speed * speed)));
}

/** acos(e^−x), by atan so that a small x keeps its digits. */
function angleUp(x: number): number {
  // e^2x − 1 overflows for a toss of kilometres; there the angle is a right one to the last digit.
  return x > 300 ? Math.acos(Math.exp(-x)) : Math.atan(Math.sqrt(Math.expm1(2 * x)));
}

/** arcosh(e^x), without the overflow of e^x and with the digits of a small x. */
function logFall(x: number): number {
  return x + Math.log1p(Math.sqrt(-Math.expm1(-2 * x)));
}

/**
 * The rise above the releasing hand for an airtime: the inverse of `airtime`.
 *
 * @throws Problem where the time is too short for a toss upwards that is caught on its way down
 */
export function tossHeight(airtimeSeconds: number, flight: Flight): number {
  requireUpAndDown(airtimeSeconds, flight);
  if (flight.terminalSpeed === undefined) {
    const speed = speedWithoutAir(airtimeSeconds, flight);
    return (speed * speed) / (2 * gravity(flight.unit));
  }
  return heightInAir(airtimeSeconds, flight);
}

/** The release speed upwards for an airtime; the baton's drift sideways is not in it. */
export function tossSpeed(airtimeSeconds: number, flight: Flight): number {
  requireUpAndDown(airtimeSeconds, flight);
  if (flight.terminalSpeed === undefined) return speedWithoutAir(airtimeSeconds, flight);
  const rise = heightInAir(airtimeSeconds, flight);
  // From the energy lost on the way up: v = u √(e^(2gH/u²) − 1).
  const x = (gravity(flight.unit) * rise) / (flight.terminalSpeed * flight.terminalSpeed);
  return flight.terminalSpeed * Math.sqrt(Math.expm1(2 * x));
}

function speedWithoutAir(airtimeSeconds: number, { dropBelow, unit }: Flight): number {
  const speed = (gravity(unit) * airtimeSeconds) / 2;
  return dropBelow === 0 ? speed : Math.max(0, speed - dropBelow / airtimeSeconds);
}

/**
 * With air the height has no closed form from the time; the time has one from the height and grows with it, so the
 * height is found by halving the bracket between the flight without air above and the lowest possible rise below.
 */
function heightInAir(airtimeSeconds: number, flight: Flight): number {
  let low = Math.max(0, -flight.dropBelow);
  let high = low + 1;
  while (airtime(high, flight) < airtimeSeconds) {
    low = high;
    high *= 2;
  }
  // Each halving gains one binary digit; it ends when no number lies between.
  for (;;) {
    const middle = low + (high - low) / 2;
    if (middle <= low || middle >= high) return middle;
    if (airtime(middle, flight) < airtimeSeconds) low = middle;
    else high = middle;
  }
}

/** The shortest time from a standing start: a drop to a lower hand, or a toss that just reaches a higher one. */
function requireUpAndDown(
  airtimeSeconds: number,
  flight: Flight,
  argument = "airtime",
  found = `${airtimeSeconds} s`,
): void {
  const shortest = airtime(Math.max(0, -flight.dropBelow), flight);
  // A time that was itself computed from the lowest rise may lie a last digit below it.
  if (airtimeSeconds < shortest * (1 - 1e-12)) {
    throw new Problem({
      argument,
      found,
      accepted: `at least ${shortest.toPrecision(3)} s, the time that a toss to that catch height takes at the least`,
    });
  }
}

export interface TossPlan {
  readonly counts: number;
  readonly airtimeSeconds: number;
  readonly rise: number;
  readonly peakAboveFloor: number;
  readonly releaseSpeed: number;
  readonly driftSpeed: number;
  readonly leanDegrees: number;
  /** Undefined where no ceiling was given. */
  readonly ceilingRoom: number | undefined;
}

export interface TossQuestion {
  /** Counts that the toss lasts: those of the body move and those to spot and to catch. */
  readonly counts: number;
  readonly airtimeSeconds: number;
  /** How far the athlete travels under the toss. */
  readonly travel: number;
  readonly releaseHeight: number;
  readonly catchHeight: number;
  readonly ceiling: number | undefined;
  readonly unit: LengthUnit;
}

/** The toss that a body move needs. */
export function planToss(question: TossQuestion): TossPlan {
  const flight: Flight = {
    dropBelow: question.releaseHeight - question.catchHeight,
    unit: question.unit,
    terminalSpeed: undefined,
  };
  const inCounts = `${question.counts} counts, which last ${question.airtimeSeconds} s`;
  requireUpAndDown(question.airtimeSeconds, flight, "bodyCounts", inCounts);
  const releaseSpeed = tossSpeed(question.airtimeSeconds, flight);
  const rise = tossHeight(question.airtimeSeconds, flight);
  const driftSpeed = question.airtimeSeconds === 0 ? 0 : question.travel / question.airtimeSeconds;
  const peakAboveFloor = question.releaseHeight + rise;
  return {
    counts: question.counts,
    airtimeSeconds: question.airtimeSeconds,
    rise,
    peakAboveFloor,
    releaseSpeed,
    driftSpeed,
    leanDegrees: (Math.atan2(driftSpeed, releaseSpeed) * 180) / Math.PI,
    ceilingRoom: question.ceiling === undefined ? undefined : question.ceiling - peakAboveFloor,
  };
}

export interface FlightPoint {
  readonly seconds: number;
  /** How far along the athlete's travel. */
  readonly across: number;
  /** Above the floor. */
  readonly height: number;
}

/**
 * Where the baton is so many seconds after the release, without air (OpenStax University Physics 1, section 4.3): the
 * path of the toss that `planToss` plans.
 *
 * @param seconds each from 0 to the airtime
 */
export function flightAt(question: TossQuestion, seconds: readonly number[]): FlightPoint[] {
  const { releaseSpeed, driftSpeed } = planToss(question);
  const fall = gravity(question.unit) / 2;
  return seconds.map((time) => ({
    seconds: time,
    across: driftSpeed * time,
    height: question.releaseHeight + releaseSpeed * time - fall * time * time,
  }));
}

/**
 * The same at equal steps of time, the release and the catch included.
 *
 * @param steps whole, at least 1
 */
export function flightPath(question: TossQuestion, steps: number): FlightPoint[] {
  return flightAt(
    question,
    Array.from({ length: steps + 1 }, (_, step) => (question.airtimeSeconds * step) / steps),
  );
}
