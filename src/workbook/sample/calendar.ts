/** The days of the sample season: 24 weeks of practice up to the last contest. Days are whole sheet serial numbers. */

import type { CalendarEntry } from "../season/season";

export interface PracticeDay {
  /** From 0. */
  readonly week: number;
  readonly date: number;
  /** The routine is run from beginning to end, and little else is done. */
  readonly isRunThrough: boolean;
}

export interface ContestDay {
  readonly date: number;
  readonly week: number;
  readonly name: string;
}

/** Monday 6 October 2025: the season is over, so that a set logged today comes after all that is in it. */
const FIRST_MONDAY = 45936;
export const WEEKS = 24;

const [MONDAY, WEDNESDAY, FRIDAY, SATURDAY, SUNDAY] = [0, 2, 4, 5, 6] as const;

/** 22 December to 4 January: the hall is open on the first Monday and on the last Saturday only. */
const HOLIDAY_WEEKS: ReadonlyMap<number, readonly number[]> = new Map([
  [11, [MONDAY]],
  [12, [SATURDAY]],
]);

const FIRST_RUN_THROUGH_WEEK = 12;

export function dayOf(week: number, weekday: number): number {
  return FIRST_MONDAY + 7 * week + weekday;
}

/** Saturday 7 February 2026. */
export const WINTER_CONTEST: ContestDay = { date: dayOf(17, SATURDAY), week: 17, name: "Larkfield winter contest" };

/** Sunday 22 March 2026, the last day of the last week. */
export const SPRING_CUP: ContestDay = { date: dayOf(WEEKS - 1, SUNDAY), week: WEEKS - 1, name: "Brookmere spring cup" };

/** Monday, Wednesday and Friday, and every second Saturday that is neither a contest nor the day before one. */
export function practiceDays(): readonly PracticeDay[] {
  return Array.from({ length: WEEKS }, (_, week) =>
    weekdays(week).map((weekday) => ({
      week,
      date: dayOf(week, weekday),
      isRunThrough: week >= FIRST_RUN_THROUGH_WEEK && (weekday === FRIDAY || weekday === SATURDAY),
    })),
  ).flat();
}

function weekdays(week: number): readonly number[] {
  const holiday = HOLIDAY_WEEKS.get(week);
  if (holiday !== undefined) return holiday;
  const isContestWeek = week === WINTER_CONTEST.week || week === SPRING_CUP.week;
  const usual = [MONDAY, WEDNESDAY, FRIDAY];
  return week % 2 === 1 && !isContestWeek ? [...usual, SATURDAY] : usual;
}

/** Saturday 13 June 2026, after what is logged. */
const SUMMER_GALA = { date: dayOf(35, SATURDAY), name: "Larkfield summer gala" } as const;

/** The season's contests, as its calendar has them. */
export const calendar: readonly CalendarEntry[] = [WINTER_CONTEST, SPRING_CUP, SUMMER_GALA].map(({ date, name }) => ({
  date,
  contest: name,
}));
