/** A season as plain data: what the coach says goes in, the description of its sheets comes out. */
import type { SheetPlan, WorkbookPlan } from "../plan/schema";
import { boardSheet } from "./board-sheet";
import { clubWeekSheet } from "./club-week-sheet";
import { contestsSheet } from "./contests-sheet";
import { sheetNames } from "./names";
import { exchangesSheet } from "./exchanges-sheet";
import { practiceSheet } from "./practice-sheet";
import { noRecords, type SeasonRecords } from "./records";
import { routineSheet } from "./routine-sheet";
import { seasonSheet } from "./season-sheet";
import type { SeasonSettings } from "./settings";
import { teamSheet } from "./team-sheet";
import { tossLabSheet } from "./toss-lab-sheet";
import { trickSheet } from "./trick-sheet";
import { tricksSheet } from "./tricks-sheet";
import { weekSheet } from "./week-sheet";

export { freeSheetName, sheetNames, tableNames } from "./names";
export { CONTEST } from "./contests-sheet";
export { LOG_HEADINGS, PRACTICE, WAY_HEADINGS } from "./practice-sheet";
export {
  noRecords,
  type CalendarEntry,
  type ContestEntry,
  type Landing,
  type PracticeEntry,
  type RoutineEntry,
  type SeasonRecords,
  type LimitEntry,
  type SwapEntry,
  type TrickDetails,
} from "./records";
export {
  checkSeasonSettings,
  defaultSettings,
  settingLimits,
  type NamesInUse,
  type SeasonSettings,
  type SettingsField,
  type SettingsProblem,
  type TrickEntry,
} from "./settings";

/** The sheets in the order of their tabs; the tests walk those of a plan. */
const seasonSheets: readonly ((settings: SeasonSettings, records: SeasonRecords) => SheetPlan)[] = [
  seasonSheet,
  tricksSheet,
  practiceSheet,
  boardSheet,
  trickSheet,
  routineSheet,
  weekSheet,
  clubWeekSheet,
  tossLabSheet,
  contestsSheet,
];

/** Further ones, where the season has duos or a team. */
const togetherSheets: typeof seasonSheets = [exchangesSheet, teamSheet];

/**
 * The sheets of a season.
 * @param settings checked by `checkSeasonSettings` before
 * @param records what the season holds from the start; an empty season when left out
 */
export function seasonPlan(settings: SeasonSettings, records: SeasonRecords = noRecords): WorkbookPlan {
  const tidied: SeasonSettings = { ...settings, label: settings.label.normalize("NFC").trim() };
  return {
    sheets: [...seasonSheets, ...(tidied.exchanges ? togetherSheets : [])].map((sheet) => sheet(tidied, records)),
    active: sheetNames(tidied.label).season,
  };
}
