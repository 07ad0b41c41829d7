/** A season with three athletes, four tricks and some practice, for the tests of the pane. */
import { defaultSettings, noRecords, seasonPlan, type PracticeEntry } from "../../src/workbook/season/season";
import type { Stage } from "../../src/trade/stages";
import type { WorkbookPlan } from "../../src/workbook/plan/schema";

/** 5 January 2026 as a sheet counts: over by now, so that a set logged today comes last. */
export const firstDay = 46027;

export function practised(
  athlete: string,
  trick: string,
  stage: Stage,
  marks: string,
  date: number = firstDay,
): PracticeEntry {
  return { date, athlete, trick, stage, marks, minutes: null, note: "" };
}

/** What M.K. has practised of the Double turn: a poor set, then a good one, with one at the wall between them. */
export const usualPractice: readonly PracticeEntry[] = [
  practised("M.K.", "Double turn", "Joined", "ddcdc cdcdd"),
  practised("A.R.", "Double turn", "Joined", "ccccc ccccc"),
  practised("M.K.", "Double turn", "Wall", "ddddd ddddd", firstDay + 1),
  practised("M.K.", "Double turn", "Joined", "ccdcc ccdcc", firstDay + 2),
];

export function smallSeason(
  label = "2027",
  practice: readonly PracticeEntry[] = usualPractice,
  tricks: readonly string[] = ["Double turn", "Thumb toss", "+1 spin", "Illusion"],
): WorkbookPlan {
  const settings = {
    ...defaultSettings,
    label,
    athletes: ["M.K.", "A.R.", "J.T."],
    tricks: tricks.map((name) => ({ name, bodyCounts: null })),
  };
  return seasonPlan(settings, { ...noRecords, practice });
}
