import { FOUR_DIGITS, THREE_DIGITS, type Check } from "./check";

export interface IntervalGiven {
  readonly caught: number;
  readonly attempts: number;
  readonly confidence: number;
  readonly method: "wilson" | "exact" | "jeffreys";
}

const NEWCOMBE = "Newcombe 1998, Statistics in Medicine 17:857-872, Table I";
const BINOM = "R package binom, binom.confint, as printed in the tests of statsmodels (results_proportion.py)";
const FAGERLAND =
  "Fagerland, Lydersen and Laake 2017, Statistical Analysis of Contingency Tables, chapter 2, values printed by R package contingencytables";
const DIGITS_15 =
  "beta quantiles by R 4.2.2 qbeta and by a 60-digit continued fraction, which agree to 2e-15; computed, not published";

export const INTERVAL_CHECKS: readonly Check<IntervalGiven, readonly [number, number]>[] = [
  {
    source: `${NEWCOMBE}, method 3`,
    given: { caught: 81, attempts: 263, confidence: 0.95, method: "wilson" },
    expected: [0.2553, 0.3662],
    ...FOUR_DIGITS,
  },
  {
    source: `${NEWCOMBE}, method 5`,
    given: { caught: 81, attempts: 263, confidence: 0.95, method: "exact" },
    expected: [0.2527, 0.3676],
    ...FOUR_DIGITS,
  },
  {
    source: `${NEWCOMBE}, method 3`,
    given: { caught: 15, attempts: 148, confidence: 0.95, method: "wilson" },
    expected: [0.0624, 0.1605],
    ...FOUR_DIGITS,
  },
  {
    source: `${NEWCOMBE}, method 5`,
    given: { caught: 15, attempts: 148, confidence: 0.95, method: "exact" },
    expected: [0.0578, 0.1617],
    ...FOUR_DIGITS,
  },
  {
    source: `${NEWCOMBE}, method 3`,
    given: { caught: 1, attempts: 29, confidence: 0.95, method: "wilson" },
    expected: [0.0061, 0.1718],
    ...FOUR_DIGITS,
  },
  {
    source: `${NEWCOMBE}, method 5`,
    given: { caught: 1, attempts: 29, confidence: 0.95, method: "exact" },
    expected: [0.0009, 0.1776],
    ...FOUR_DIGITS,
  },
  {
    source: "NIST/SEMATECH e-Handbook of Statistical Methods 7.2.4.1",
    given: { caught: 4, attempts: 20, confidence: 0.9, method: "exact" },
    expected: [0.071354, 0.401029],
    within: 2e-6,
    because:
      "six printed digits, the last of the upper one off by the root finder of the page's own script (the exact limit is 0.401028)",
  },
  {
    source: BINOM,
    given: { caught: 4, attempts: 20, confidence: 0.95, method: "exact" },
    expected: [0.05733399705003284, 0.436614002996668],
    within: 1e-12,
    because: "15 printed digits",
  },
  {
    source: BINOM,
    given: { caught: 4, attempts: 20, confidence: 0.95, method: "wilson" },
    expected: [0.0806576625797981, 0.4160174322518935],
    within: 1e-12,
    because: "15 printed digits",
  },
  {
    source: BINOM,
    given: { caught: 4, attempts: 200, confidence: 0.95, method: "exact" },
    expected: [0.005475565879556443, 0.05041360908989634],
    within: 1e-12,
    because: "15 printed digits",
  },
  {
    source: BINOM,
    given: { caught: 4, attempts: 200, confidence: 0.95, method: "wilson" },
    expected: [0.00780442641634947, 0.05028708690582643],
    within: 1e-12,
    because: "15 printed digits",
  },
  {
    source: "R prop.test(73, 86, correct = FALSE), as printed in the tests of statsmodels",
    given: { caught: 73, attempts: 86, confidence: 0.95, method: "wilson" },
    expected: [0.758364348004061, 0.9094787701686766],
    within: 1e-12,
    because: "15 printed digits",
  },
  {
    source: "R documentation of binom.test, Conover 1971 page 97: 682 of 925",
    given: { caught: 682, attempts: 925, confidence: 0.95, method: "exact" },
    expected: [0.7076683, 0.7654066],
    within: 6e-8,
    because: "seven printed digits",
  },
  {
    source: FAGERLAND,
    given: { caught: 0, attempts: 10, confidence: 0.95, method: "exact" },
    expected: [0, 0.3085],
    ...FOUR_DIGITS,
  },
  {
    source: FAGERLAND,
    given: { caught: 10, attempts: 10, confidence: 0.95, method: "exact" },
    expected: [0.6915, 1],
    ...FOUR_DIGITS,
  },
  {
    source: FAGERLAND,
    given: { caught: 0, attempts: 1, confidence: 0.95, method: "exact" },
    expected: [0, 0.975],
    ...FOUR_DIGITS,
  },
  {
    source: "Newcombe 1998, Statistics in Medicine 17:873-890, the limits behind Table II cases e to h",
    given: { caught: 0, attempts: 10, confidence: 0.95, method: "wilson" },
    expected: [0, 0.2775],
    ...FOUR_DIGITS,
  },
  {
    source: "Newcombe 1998, Statistics in Medicine 17:873-890, the limits behind Table II cases e to h",
    given: { caught: 10, attempts: 10, confidence: 0.95, method: "wilson" },
    expected: [0.7225, 1],
    ...FOUR_DIGITS,
  },
  {
    source: "Agresti, An Introduction to Categorical Data Analysis, section 1.4 (from memory, reproduced)",
    given: { caught: 9, attempts: 10, confidence: 0.95, method: "wilson" },
    expected: [0.596, 0.982],
    ...THREE_DIGITS,
  },
  {
    source: `Jeffreys' interval as defined by Brown, Cai and DasGupta 2001, Statistical Science 16:101-133; ${DIGITS_15}`,
    given: { caught: 8, attempts: 10, confidence: 0.95, method: "jeffreys" },
    expected: [0.49722550356, 0.955940586447],
    within: 1e-11,
    because: "twelve digits",
  },
  {
    source: `Jeffreys' interval as defined by Brown, Cai and DasGupta 2001; ${DIGITS_15}`,
    given: { caught: 79, attempts: 100, confidence: 0.95, method: "jeffreys" },
    expected: [0.702612197474, 0.860885096901],
    within: 1e-11,
    because: "twelve digits",
  },
  {
    source: `Jeffreys' interval as defined by Brown, Cai and DasGupta 2001; ${DIGITS_15}`,
    given: { caught: 950, attempts: 1000, confidence: 0.95, method: "jeffreys" },
    expected: [0.935171544267, 0.962229867746],
    within: 1e-11,
    because: "twelve digits",
  },
  {
    source: DIGITS_15,
    given: { caught: 950, attempts: 1000, confidence: 0.95, method: "exact" },
    expected: [0.934609512085, 0.962664602395],
    within: 1e-11,
    because: "twelve digits",
  },
];

/**
 * Coverage of the plain Wald interval, Brown, Cai and DasGupta 2001, section 2 (numbers from memory, reproduced): why
 * it is not among the methods. The test computes these from our binomial tails, and Wilson's and Jeffreys' beside them.
 */
export const WALD_COVERAGE: readonly Check<{ readonly attempts: number; readonly rate: number }, number>[] = [
  {
    source: "Brown, Cai and DasGupta 2001, section 2",
    given: { attempts: 100, rate: 0.106 },
    expected: 0.952,
    ...THREE_DIGITS,
  },
  {
    source: "Brown, Cai and DasGupta 2001, section 2",
    given: { attempts: 100, rate: 0.107 },
    expected: 0.911,
    ...THREE_DIGITS,
  },
  {
    source: "Brown, Cai and DasGupta 2001, section 2",
    given: { attempts: 30, rate: 0.2 },
    expected: 0.946,
    ...THREE_DIGITS,
  },
  {
    source: "Brown, Cai and DasGupta 2001, section 2",
    given: { attempts: 17, rate: 0.5 },
    expected: 0.951,
    ...THREE_DIGITS,
  },
  {
    source: "Brown, Cai and DasGupta 2001, section 2",
    given: { attempts: 40, rate: 0.5 },
    expected: 0.919,
    ...THREE_DIGITS,
  },
  {
    source: "Brown, Cai and DasGupta 2001, section 2",
    given: { attempts: 592, rate: 0.005 },
    expected: 0.792,
    ...THREE_DIGITS,
  },
];
