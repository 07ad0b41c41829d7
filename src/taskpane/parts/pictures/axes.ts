/** The axes of pictures: how far they reach and where their ticks stand, with d3-array and d3-time. */
import { extent, nice, ticks } from "d3-array";
import { utcTicks } from "d3-time";

export type Scale = "number" | "percent" | "day";

export interface PictureAxis {
  readonly title: string;
  /** Days are sheet serial numbers. */
  readonly scale: Scale;
  /** Left out: as far as the points go. */
  readonly least?: number;
  readonly most?: number;
}

export interface DrawnAxis {
  readonly from: number;
  readonly to: number;
  readonly ticks: readonly { readonly at: number; readonly words: string }[];
}

export type Span = readonly [from: number, to: number];

/** As far as the points go, where the axis itself does not say it. */
export function span({ least, most, scale }: PictureAxis, values: readonly number[]): Span {
  const [first, last] = extent(values);
  const from = least ?? first ?? 0;
  const to = most ?? last ?? from;
  if (to > from) return [from, to];
  // One day or one value alone: room on both sides of it.
  const room = scale === "percent" ? 0.1 : 1;
  return [from - room, from + room];
}

export function axis({ scale, least, most }: PictureAxis, [from, to]: Span, wanted: number): DrawnAxis {
  const count = Math.max(2, Math.round(wanted));
  if (scale === "day") {
    const found = utcTicks(dayOf(from), dayOf(to), count).filter((day) => Number.isInteger(serialOf(day)));
    const severalYears = dayOf(from).getUTCFullYear() !== dayOf(to).getUTCFullYear();
    // The year where it begins, not at every day: they would run into each other.
    const saysYear = (day: Date, index: number): boolean =>
      severalYears && day.getUTCFullYear() !== found[index - 1]?.getUTCFullYear();
    return {
      from,
      to,
      ticks: found.map((day, index) => ({ at: serialOf(day), words: dayWords(day, saysYear(day, index)) })),
    };
  }
  const [niceFrom, niceTo] = nice(from, to, count);
  const ends = { from: least ?? niceFrom, to: most ?? niceTo };
  return {
    ...ends,
    ticks: ticks(ends.from, ends.to, count).map((at) => ({ at, words: numberWords(at, scale) })),
  };
}

/** Sheet serial number 25,569 is 1 January 1970. */
const DAY_ZERO_SERIAL = 25_569;
const DAY_MILLISECONDS = 86_400_000;

function dayOf(serial: number): Date {
  return new Date((serial - DAY_ZERO_SERIAL) * DAY_MILLISECONDS);
}

function serialOf(day: Date): number {
  return day.getTime() / DAY_MILLISECONDS + DAY_ZERO_SERIAL;
}

/** The month as a word: 3/4 is two different days in two countries. */
function dayWords(day: Date, withYear: boolean): string {
  const year = withYear ? ({ year: "numeric" } as const) : {};
  return day.toLocaleDateString("en-GB", { day: "numeric", month: "short", ...year, timeZone: "UTC" });
}

function numberWords(value: number, scale: Scale): string {
  return scale === "percent" ? `${String(Math.round(value * 100))}%` : String(value).replace("-", "−");
}
