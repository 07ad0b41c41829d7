/** A day in words, the same everywhere: figures alone are read in two ways, 3/4 as March and as April. */
const MONTHS = [
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
const DAY_ZERO = Date.UTC(1899, 11, 30);
const DAY_MILLISECONDS = 86_400_000;
/** The 1900 system has a 29 February 1900, serial 60, which no calendar has: the days before it are one further on. */
const DAY_THAT_NEVER_WAS = 60;

/**
 * A sheet serial as `14 March 2026`.
 *
 * @param serial whole, 1 to 2,958,465 (1900 system)
 */
export function dayInWords(serial: number): string {
  const day = new Date(DAY_ZERO + (serial < DAY_THAT_NEVER_WAS ? serial + 1 : serial) * DAY_MILLISECONDS);
  return `${day.getUTCDate()} ${MONTHS[day.getUTCMonth()]} ${day.getUTCFullYear()}`;
}
