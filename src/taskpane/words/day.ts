/** Days as sheets count them. */
import { dateOfSerial, serialOfDate } from "../../core/log-layout/serial-days";
import { texts } from "./texts";

/** The sheet serial of the day that it is here at this moment. */
export function serialOfDay(moment: Date): number {
  return serialOfDate(moment.getFullYear(), moment.getMonth() + 1, moment.getDate());
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
