import type { Check } from "./check";

/** The books use g = 9.8 m/s²; ours is 9.80665, which moves a height or time by less than 0.07 %. */
const G = "the book's g = 9.8 against 9.80665 and its printed digits";
const BOOK1 = "OpenStax University Physics volume 1";

export const AIRTIME_CHECKS: readonly Check<{ rise: number; dropBelow?: number; terminalSpeed?: number }, number>[] = [
  {
    source: `${BOOK1}, Example 3.15, baseball back after 5.0 s from 30.6 m`,
    given: { rise: 30.6 },
    expected: 5.0,
    within: 0.005,
    because: G,
  },
  {
    source: `${BOOK1}, Check Your Understanding 3.7, ice falls 30.0 m in 2.47 s`,
    given: { rise: 0, dropBelow: 30 },
    expected: 2.47,
    within: 0.006,
    because: G,
  },
  {
    source: `${BOOK1}, chapter 3 problem, 2.50 m jump, 1.43 s in the air unrounded (the book rounds the half first: 1.44)`,
    given: { rise: 2.5 },
    expected: 1.44,
    within: 0.0125,
    because: "the book rounds half the time first",
  },
  {
    source: `${BOOK1}, Example 4.7, fireworks: 6.90 s up to 233 m; down again the same`,
    given: { rise: 233 },
    expected: 13.8,
    within: 0.02,
    because: G,
  },
  {
    source: "OpenStax College Physics, Example 3.5, hot rock: 14.3 m/s up (rise 10.5 m) and 20.0 m lower after 3.96 s",
    given: { rise: 10.5, dropBelow: 20 },
    expected: 3.96,
    within: 0.02,
    because: `${G}, rise rounded to three digits`,
  },
];

export const SPEED_CHECKS: readonly Check<{ airtime: number; dropBelow?: number }, number>[] = [
  {
    source: `${BOOK1}, Example 3.15, 24.5 m/s for 5.0 s`,
    given: { airtime: 5 },
    expected: 24.5,
    within: 0.02,
    because: G,
  },
  {
    source: "OpenStax College Physics, Example 3.5, hot rock: up speed 14.3 m/s, 20.0 m lower after 3.96 s",
    given: { airtime: 3.96, dropBelow: 20 },
    expected: 14.3,
    within: 0.08,
    because: `${G}, airtime to three digits`,
  },
  {
    source: "OpenStax College Physics, chapter 2 problem 47, 8.00 m/s up, 8.26 m lower after 2.35 s",
    given: { airtime: 2.35, dropBelow: 8.26 },
    expected: 8.0,
    within: 0.02,
    because: G,
  },
  {
    source: `${BOOK1}, chapter 3 problem, shot up at 11.0 m/s from 2.20 m, 1.80 m high after 2.28 s`,
    given: { airtime: 2.28, dropBelow: 0.4 },
    expected: 11.0,
    within: 0.05,
    because: `${G}, airtime to three digits`,
  },
];

export const HEIGHT_CHECKS: readonly Check<{ airtime: number }, number>[] = [
  {
    source: `${BOOK1}, Example 3.15, 30.6 m for 5.0 s`,
    given: { airtime: 5 },
    expected: 30.6,
    within: 0.06,
    because: G,
  },
  {
    source: `${BOOK1}, Example 4.7, fireworks at 233 m after 6.90 s up`,
    given: { airtime: 13.8 },
    expected: 233,
    within: 0.7,
    because: G,
  },
  {
    source:
      "OpenStax College Physics, chapter 2 problem 41, 15.0 m/s up: 11.5 m after 1.5 s, nearly at the top (2 × 1.53 s)",
    given: { airtime: 3.06 },
    expected: 11.5,
    within: 0.05,
    because: G,
  },
];

/** Any mechanics text: H = (u²/2g) ln(1 + v²/u²), up (u/g) atan(v/u), down (u/g) arcosh(e^(gH/u²)); times checked by an ODE solver. */
export const DRAG = {
  source:
    "closed form of a vertical throw with quadratic drag, v = 7 m/s, u = 15 m/s, g = 9.80665; computed, checked by SciPy's solve_ivp",
  rise: 2.2602638741,
  terminalSpeed: 15,
  airtime: 1.35799866,
  speed: 7,
} as const;
