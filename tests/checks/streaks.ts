import { FOUR_DIGITS, type Check } from "./check";

const FELLER = "Feller, An Introduction to Probability Theory and Its Applications, volume 1, XIII.7";

export const STREAK_CHANCE_CHECKS: readonly Check<{ rate: number; length: number; attempts: number }, number>[] = [
  {
    source: `${FELLER}, table of q(n) for runs of 2 in coin tosses: q(2) = 0.75`,
    given: { rate: 0.5, length: 2, attempts: 2 },
    expected: 1 - 0.75,
    within: 1e-15,
    because: "exact fraction",
  },
  {
    source: `${FELLER}, q(3) = 0.625`,
    given: { rate: 0.5, length: 2, attempts: 3 },
    expected: 1 - 0.625,
    within: 1e-15,
    because: "exact fraction",
  },
  {
    source: `${FELLER}, q(4) = 0.5`,
    given: { rate: 0.5, length: 2, attempts: 4 },
    expected: 0.5,
    within: 1e-15,
    because: "exact fraction",
  },
  {
    source: `${FELLER}, q(5) = 0.40625`,
    given: { rate: 0.5, length: 2, attempts: 5 },
    expected: 1 - 0.40625,
    within: 1e-15,
    because: "exact fraction",
  },
  {
    source:
      "Wikipedia, Feller's coin-tossing constants: no run of two heads in ten tosses has the exact probability 0.140625",
    given: { rate: 0.5, length: 2, attempts: 10 },
    expected: 1 - 0.140625,
    within: 1e-15,
    because: "exact fraction",
  },
  {
    source:
      "Popular streak (run) questions (a public page of exact fractions): 32751/131072 for five heads in a row in 20 tosses",
    given: { rate: 0.5, length: 5, attempts: 20 },
    expected: 32751 / 131072,
    within: 1e-15,
    because: "exact fraction",
  },
  {
    source: "The same page: 64183494979494598846972364275/79228162514264337593543950336 for five in 100",
    given: { rate: 0.5, length: 5, attempts: 100 },
    expected: 0.810109599196358,
    within: 1e-14,
    because: "15 digits of the exact fraction",
  },
  {
    source: "The same page: 6289139215543317778531752497/19807040628566084398385987584 for seven in 100",
    given: { rate: 0.5, length: 7, attempts: 100 },
    expected: 0.3175203874966058,
    within: 1e-14,
    because: "16 digits of the exact fraction",
  },
  {
    source: "Schilling, as quoted by the Chance project, Dartmouth: a run of four heads or more in ten tosses, 0.245",
    given: { rate: 0.5, length: 4, attempts: 10 },
    expected: 0.245,
    within: 0.0005,
    because: "three printed digits",
  },
  {
    source: "NIST SP 800-22 rev 1a, section 3.4, blocks of 8: longest run at least 4 in 0.1875",
    given: { rate: 0.5, length: 4, attempts: 8 },
    expected: 0.1875,
    ...FOUR_DIGITS,
  },
  {
    source: "NIST SP 800-22 rev 1a, section 3.4, blocks of 8: longest run at most 1 in 0.2148",
    given: { rate: 0.5, length: 2, attempts: 8 },
    expected: 1 - 0.2148,
    ...FOUR_DIGITS,
  },
  {
    source: "NIST SP 800-22 rev 1a, section 3.4, blocks of 128: longest run at most 4 in 0.1174",
    given: { rate: 0.5, length: 5, attempts: 128 },
    expected: 1 - 0.1174,
    ...FOUR_DIGITS,
  },
  {
    source: "NIST SP 800-22 rev 1a, section 3.4, blocks of 128: longest run at least 9 in 0.1124",
    given: { rate: 0.5, length: 9, attempts: 128 },
    expected: 0.1124,
    ...FOUR_DIGITS,
  },
];

/** Feller prints times at one trial a second; cells from memory, kept where they agreed with his formula. */
export const STREAK_ATTEMPTS_CHECKS: readonly Check<{ rate: number; length: number }, number>[] = [
  {
    source: `${FELLER}, mean waiting time: 6 for two heads`,
    given: { rate: 0.5, length: 2 },
    expected: 6,
    within: 1e-12,
    because: "exact",
  },
  {
    source: `${FELLER}, mean waiting time: 14 for three heads`,
    given: { rate: 0.5, length: 3 },
    expected: 14,
    within: 1e-12,
    because: "exact",
  },
  {
    source: `${FELLER}, table: 5 in a row at 1/2 after 1 minute`,
    given: { rate: 0.5, length: 5 },
    expected: 60,
    within: 3,
    because: "one printed digit of minutes: 62 s",
  },
  {
    source: `${FELLER}, table: 10 in a row at 1/2 after 34.1 minutes`,
    given: { rate: 0.5, length: 10 },
    expected: 34.1 * 60,
    within: 3,
    because: "three printed digits of minutes",
  },
  {
    source: `${FELLER}, table: 15 in a row at 1/2 after 18.2 hours`,
    given: { rate: 0.5, length: 15 },
    expected: 18.2 * 3600,
    within: 180,
    because: "three printed digits of hours",
  },
  {
    source: `${FELLER}, table: 15 in a row at 0.6 after 1.5 hours`,
    given: { rate: 0.6, length: 15 },
    expected: 1.5 * 3600,
    within: 180,
    because: "two printed digits of hours",
  },
  {
    source: `${FELLER}, table: 10 in a row at 1/3 after 24.6 hours`,
    given: { rate: 1 / 3, length: 10 },
    expected: 24.6 * 3600,
    within: 180,
    because: "three printed digits of hours",
  },
];
