/** A day in words, the same everywhere: figures alone are read in two ways, 3/4 as March and as April. */
export const MONTHS = [
  "January",
  "February",
  "March",
  "April",
  "May",
  "June",
  "July",
  "August",
  "September",
  "October",
  "November",
  "December",
];
const MONTH_LENGTHS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
const FIRST_YEAR = 1900;
/** The 1900 system has a 29 February 1900, serial 60, which no calendar has: the days before it are one further on. */
const DAY_THAT_NEVER_WAS = 60;

/**
 * A sheet serial as `14 March 2026`. Worked out here: the language's own dates come with a clock, which cell functions
 * are kept from.
 *
 * @param serial whole, 1 to 2,958,465 (1900 system)
 */
export function dayInWords(serial: number): string {
  const day = (serial < DAY_THAT_NEVER_WAS ? serial + 1 : serial) - 2;
  // No year is longer than 366 days, so the search begins early enough.
  let year = FIRST_YEAR + Math.floor(day / 366);
  while (firstDayOf(year + 1) <= day) year += 1;
  let rest = day - firstDayOf(year);
  let month = 0;
  for (; rest >= lengthOf(month, year); month++) rest -= lengthOf(month, year);
  return `${rest + 1} ${MONTHS[month]} ${year}`;
}

/** Days from 1 January 1900 to that of a year. */
function firstDayOf(year: number): number {
  return 365 * (year - FIRST_YEAR) + leapYearsBefore(year) - leapYearsBefore(FIRST_YEAR);
}

function leapYearsBefore(year: number): number {
  const past = year - 1;
  return Math.floor(past / 4) - Math.floor(past / 100) + Math.floor(past / 400);
}

/** @param month from 0 for January */
function lengthOf(month: number, year: number): number {
  const isLeap = leapYearsBefore(year + 1) > leapYearsBefore(year);
  return (MONTH_LENGTHS[month] as number) + (month === 1 && isLeap ? 1 : 0);
}
