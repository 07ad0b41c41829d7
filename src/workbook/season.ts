/** A season as plain data: what the coach says goes in, the description of its sheets comes out. */
import type { WorkbookPlan } from "./schema";
import { boardSheet } from "./season/board-sheet";
import { contestsSheet } from "./season/contests-sheet";
import { sheetNames } from "./season/names";
import { practiceSheet } from "./season/practice-sheet";
import { noRecords, type SeasonRecords } from "./season/records";
import { routineSheet } from "./season/routine-sheet";
import { seasonSheet } from "./season/season-sheet";
import type { SeasonSettings } from "./season/settings";
import { tossLabSheet } from "./season/toss-lab-sheet";
import { tricksSheet } from "./season/tricks-sheet";
import { weekSheet } from "./season/week-sheet";

export { sheetNames, tableNames, type SheetNames, type TableNames } from "./season/names";
export { CONTEST } from "./season/contests-sheet";
export { LOG_HEADINGS, PRACTICE } from "./season/practice-sheet";
export {
  noRecords,
  STAGES,
  type ContestEntry,
  type Focus,
  type Landing,
  type PracticeEntry,
  type RoutineEntry,
  type SeasonRecords,
  type Stage,
  type TrickDetails,
} from "./season/records";
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
} from "./season/settings";

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
      routineSheet(tidied, records),
      weekSheet(tidied, records),
      tossLabSheet(tidied, records),
      contestsSheet(tidied, records),
    ],
    active: sheetNames(tidied.label).season,
  };
}
