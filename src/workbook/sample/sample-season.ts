/**
 * A finished season to look at: the invented club Larkfield Twirlers, six athletes, twenty toss tricks, twenty-four weeks
 * of practice up to the second of two contests. The marks come from small generators with fixed seeds, so that the
 * season is the same each time it is built. What it holds stands in `sample/`, a topic a file.
 */
import { calendar, SPRING_CUP } from "./calendar";
import { contests } from "./contest-results";
import { stories } from "./courses";
import { landings } from "./landings";
import { practiceLog } from "./practice-log";
import { limits, routine, swaps } from "./routine";
import { sampleTricks } from "./tricks";
import type { WorkbookPlan } from "../plan/schema";
import { seasonPlan, sheetNames, type SeasonRecords, type SeasonSettings } from "../season/season";

export const SAMPLE_LABEL = "2026";

export const sampleSettings: SeasonSettings = {
  label: SAMPLE_LABEL,
  contestDate: SPRING_CUP.date,
  athletes: stories.map(({ athlete }) => athlete),
  tricks: sampleTricks.map(({ name, bodyCounts }) => ({ name, bodyCounts })),
  standard: 0.8,
  setSize: 10,
  countsPerMinute: 200,
  ceiling: 9,
  unit: "m",
  dropCost: 0.5,
  exchanges: false,
};

export const sampleRecords: SeasonRecords = {
  trickDetails: new Map(sampleTricks.map((trick) => [trick.name, trick])),
  practice: practiceLog(),
  routine,
  swaps,
  limits,
  landings,
  contests,
  calendar,
  focus: {
    athlete: "M.K.",
    trick: "Cartwheel blind catch",
    landingTrick: "Triple spin",
    keepTrick: "Cartwheel blind catch",
    swapTrick: "Cartwheel",
    ageYears: 13,
    weekMinutes: 60,
  },
};

/** The finished sample season, shown from its board. */
export function sampleSeason(): WorkbookPlan {
  return { ...seasonPlan(sampleSettings, sampleRecords), active: sheetNames(SAMPLE_LABEL).board };
}
