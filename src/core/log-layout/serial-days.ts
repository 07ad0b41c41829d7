/** Days as a sheet counts them, in the 1900 system from March 1900 on, and as the calendar has them, in universal time. */
const MILLISECONDS_IN_DAY = 86_400_000;
/** The day before the first, as if 1900 had been a leap year, which the system takes it for. */
const DAY_ZERO = Date.UTC(1899, 11, 30);

/** Midnight of the day; a time of day is kept. */
export function dateOfSerial(serial: number): Date {
  return new Date(DAY_ZERO + serial * MILLISECONDS_IN_DAY);
}

/** @param month from 1 for January */
export function serialOfDate(year: number, month: number, day: number): number {
  return (Date.UTC(year, month - 1, day) - DAY_ZERO) / MILLISECONDS_IN_DAY;
}
