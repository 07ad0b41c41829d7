/** The ways in which clubs write days down, as `drawn-logs.ts` draws from. */
import type { Corrections } from "../../src/core/log-layout/find-layout";
import { day, serial } from "../core/log-layout/sheets";
import type { Draw } from "./draw";
import type { Written } from "./practised";

export interface DayWay {
  readonly name: string;
  readonly cell: (iso: string, index: number) => Written;
  readonly answers: Corrections;
  readonly unreadable: boolean;
}

/** A day with its month in words. */
interface InWords {
  readonly name: string;
  readonly locale: string;
  readonly options: Intl.DateTimeFormatOptions;
}

const IN_WORDS: readonly InWords[] = [
  { name: "Mon 7 Sep 2026", locale: "en-GB", options: { weekday: "short", day: "numeric", month: "short", year: "numeric" } }, // prettier-ignore
  { name: "7 September 2026", locale: "en-GB", options: { day: "numeric", month: "long", year: "numeric" } },
  { name: "September 7, 2026", locale: "en-US", options: { day: "numeric", month: "long", year: "numeric" } },
  { name: "Mon, Sep 7, 2026", locale: "en-US", options: { weekday: "short", day: "numeric", month: "short", year: "numeric" } }, // prettier-ignore
  { name: "lun. 7 sept. 2026", locale: "fr", options: { weekday: "short", day: "numeric", month: "short", year: "numeric" } }, // prettier-ignore
  { name: "Mo., 7. September 2026", locale: "de", options: { weekday: "short", day: "numeric", month: "long", year: "numeric" } }, // prettier-ignore
  { name: "7 de septiembre de 2026", locale: "es", options: { day: "numeric", month: "long", year: "numeric" } },
  { name: "7 set 2026", locale: "it", options: { day: "numeric", month: "short", year: "numeric" } },
];

type MakeDays = (draw: Draw) => DayWay;

const partsOf = (iso: string): readonly [string, string, string] => {
  const [year = "", month = "", date = ""] = iso.split("-");
  return [year, month, date];
};
const bare = (text: string): string => String(Number(text));
const utc = (iso: string): Date => new Date(`${iso}T00:00:00Z`);
const plain: DayWay = { name: "real days", cell: (iso) => day(iso), answers: {}, unreadable: false };

const WAYS: readonly MakeDays[] = [
  (draw) => {
    const separator = draw.of([".", "/", "-"]);
    return {
      ...plain,
      name: "days as text, the day first",
      cell: (iso) => {
        const [year, month, date] = partsOf(iso);
        return [bare(date), bare(month), year].join(separator);
      },
      answers: { dateText: { order: "dmy", separator } },
    };
  },
  () => ({
    ...plain,
    name: "days as text, the month first",
    cell: (iso) => {
      const [year, month, date] = partsOf(iso);
      return [bare(month), bare(date), year].join("/");
    },
    answers: { dateText: { order: "mdy", separator: "/" } },
  }),
  () => ({
    ...plain,
    name: "days as text, the year first",
    cell: (iso) => iso,
    answers: { dateText: { order: "ymd", separator: "-" } },
  }),
  () => ({
    ...plain,
    name: "days as text, two digits for the year",
    cell: (iso) => {
      const [year, month, date] = partsOf(iso);
      return [date, month, year.slice(2)].join(".");
    },
    answers: { dateText: { order: "dmy", separator: "." } },
  }),
  (draw) => {
    const { name, locale, options } = draw.of(IN_WORDS);
    const format = new Intl.DateTimeFormat(locale, { ...options, timeZone: "UTC" });
    return { ...plain, name: `days in words: ${name}`, cell: (iso) => format.format(utc(iso)) };
  },
  (draw) => {
    const ending = draw.of(["T17:30:00Z", "T17:30:00", " 17:30", " 17:30:00", "T17:30:00.000+02:00"]);
    return { ...plain, name: `time stamps, ${ending}`, cell: (iso) => `${iso}${ending}` };
  },
  () => ({
    ...plain,
    name: "days as text with a time, the day first",
    cell: (iso) => {
      const [year, month, date] = partsOf(iso);
      return `${date}/${month}/${year} 17:30`;
    },
    answers: { dateText: { order: "dmy", separator: "/", timed: true } },
  }),
  () => ({ ...plain, name: "serial numbers as texts", cell: (iso) => String(serial(iso)), unreadable: true }),
  () => ({
    ...plain,
    name: "days without a year",
    cell: (iso) => {
      const [, month, date] = partsOf(iso);
      return `${bare(date)}.${bare(month)}.`;
    },
    unreadable: true,
  }),
  () => ({
    ...plain,
    name: "real days with a time",
    cell: (iso) => ({ value: serial(iso) + 0.73, format: "dd/mm/yyyy hh:mm", text: `${iso} 17:31` }),
  }),
  () => ({ ...plain, name: "numbers of weeks", cell: (_, index) => 1 + Math.floor(index / 4), unreadable: true }),
  () => ({ ...plain, name: "numbers of days", cell: (_, index) => 1 + Math.floor(index / 3), unreadable: true }),
  () => ({
    ...plain,
    name: "weekdays alone",
    cell: (iso) => new Intl.DateTimeFormat("en-GB", { weekday: "short", timeZone: "UTC" }).format(utc(iso)),
    unreadable: true,
  }),
  () => ({
    ...plain,
    name: "days that the spreadsheet has turned round",
    cell: (iso) => {
      const [year, month, date] = partsOf(iso);
      return Number(date) <= 12 ? day(`${year}-${date}-${month}`) : `${date}/${month}/${year}`;
    },
    unreadable: true,
  }),
];

export function drawDays(draw: Draw): DayWay {
  return draw.chance(0.55) ? plain : draw.of(WAYS)(draw);
}
