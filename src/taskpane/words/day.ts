/** Days as sheets count them. */
import { texts } from "./texts";

const millisecondsInDay = 86_400_000;
/** Day 0 of the 1900 date system as it counts from March 1900 on. */
const serialDayZero = Date.UTC(1899, 11, 30);

/** The sheet serial of the day that it is here at this moment. */
export function serialOfDay(moment: Date): number {
  return (Date.UTC(moment.getFullYear(), moment.getMonth(), moment.getDate()) - serialDayZero) / millisecondsInDay;
}

/** Midnight of the day, in universal time. */
export function dateOfSerial(serial: number): Date {
  return new Date(serialDayZero + serial * millisecondsInDay);
}

/** The day in the reader's own way of writing it, with the month as a word. */
export function dayInWords(serial: number): string {
  const day = dateOfSerial(serial);
  return day.toLocaleDateString(texts.locale, { timeZone: "UTC", day: "numeric", month: "short", year: "numeric" });
}

/** Day and month alone, for where there is little room. */
export function dayInShort(serial: number): string {
  const day = dateOfSerial(serial);
  return day.toLocaleDateString(texts.locale, { timeZone: "UTC", day: "numeric", month: "short" });
}

export function weekdayInWords(serial: number): string {
  const day = dateOfSerial(serial);
  return day.toLocaleDateString(texts.locale, { timeZone: "UTC", weekday: "long" });
}
