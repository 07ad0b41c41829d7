/** A season as plain data: what the coach says goes in, the description of its sheets comes out. */
import type { WorkbookPlan } from "../plan/schema";
import { boardSheet } from "./board-sheet";
import { contestsSheet } from "./contests-sheet";
import { sheetNames } from "./names";
import { practiceSheet } from "./practice-sheet";
import { noRecords, type SeasonRecords } from "./records";
import { routineSheet } from "./routine-sheet";
import { seasonSheet } from "./season-sheet";
import type { SeasonSettings } from "./settings";
import { tossLabSheet } from "./toss-lab-sheet";
import { trickSheet } from "./trick-sheet";
import { tricksSheet } from "./tricks-sheet";
import { weekSheet } from "./week-sheet";

export { sheetNames, tableNames, type SheetNames, type TableNames } from "./names";
export { CONTEST } from "./contests-sheet";
export { LOG_HEADINGS, PRACTICE, WAY_HEADINGS, type WayHeading } from "./practice-sheet";
export {
  noRecords,
  type ContestEntry,
  type Focus,
  type Landing,
  type PracticeEntry,
  type RoutineEntry,
  type SeasonRecords,
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
  type SettingsProblemKind,
  type TrickEntry,
} from "./settings";

/**
 * The sheets of a season.
 * @param settings checked by `checkSeasonSettings` before
 * @param records what the season holds from the start; an empty season when left out
 */
export function seasonPlan(settings: SeasonSettings, records: SeasonRecords = noRecords): WorkbookPlan {
  const tidied: SeasonSettings = { ...settings, label: settings.label.normalize("NFC").trim() };
  return {
    sheets: [
      seasonSheet(tidied),
      tricksSheet(tidied, records),
      practiceSheet(tidied, records),
      boardSheet(tidied, records),
      trickSheet(tidied, records),
      routineSheet(tidied, records),
      weekSheet(tidied, records),
      tossLabSheet(tidied, records),
      contestsSheet(tidied, records),
    ],
    active: sheetNames(tidied.label).season,
  };
}
