/** The Board sheet: every athlete's every trick with its status, one spilling formula over the log. */
import { put, sheetTitle, spill, statusRules, text } from "../cell-plans";
import { column, twirl } from "../formula";
import type { AreaPlan, NumberFormat, SheetPlan } from "../schema";
import { sheetNames, tableNames } from "./names";
import { PRACTICE } from "./practice-sheet";
import { setting } from "./season-sheet";
import type { SeasonSettings } from "./settings";

/** The board's columns in the order in which the formula fills them, its heading row included. */
const COLUMNS: readonly { readonly heading: string; readonly format: NumberFormat; readonly width: number }[] = [
  { heading: "Athlete", format: "general", width: 12 },
  { heading: "Trick", format: "general", width: 26 },
  { heading: "Attempts", format: "whole", width: 10 },
  { heading: "Last set", format: "general", width: 10 },
  { heading: "Recent rate", format: "percent", width: 12 },
  { heading: "Low", format: "percent", width: 8 },
  { heading: "High", format: "percent", width: 8 },
  { heading: "Chance", format: "percent", width: 9 },
  { heading: "Streak", format: "whole", width: 8 },
  { heading: "Best streak", format: "whole", width: 12 },
  { heading: "Status", format: "general", width: 13 },
  { heading: "Last practised", format: "date", width: 15 },
  { heading: "Next step", format: "general", width: 90 },
];

const HEADING_ROW = 4;

/** Athletes times tricks that the board has drawn room for; beyond it the formula still fills, undrawn. */
const ROOM_ROWS = 400;

export function boardSheet(settings: SeasonSettings): SheetPlan {
  const { label } = settings;
  const { practice } = tableNames(label);
  const board = twirl(
    "BOARD",
    column(practice, PRACTICE.date),
    column(practice, PRACTICE.athlete),
    column(practice, PRACTICE.trick),
    column(practice, PRACTICE.marks),
    setting(label, "standard"),
    setting(label, "setSize"),
    column(practice, PRACTICE.stage),
  );
  const statusColumn = COLUMNS.findIndex(({ heading }) => heading === "Status") + 1;
  const room: readonly AreaPlan[] = COLUMNS.map(({ format }, index) => ({
    on: { row: HEADING_ROW + 1, column: index + 1, rows: ROOM_ROWS, columns: 1 },
    look: "entry",
    format,
  }));
  return {
    name: sheetNames(label).board,
    columnWidths: COLUMNS.map(({ width }) => width),
    areas: [
      { on: { row: HEADING_ROW, column: 1, rows: 1, columns: COLUMNS.length }, look: "heading", format: "general" },
      ...room,
    ],
    cells: [
      ...sheetTitle(
        `Board ${label}`,
        "Fills itself from the Practice sheet; #N/A until a first set is logged. Low and High: where the true rate lies, 95 times in 100. Chance: that it is at the standard.",
      ),
      put(
        3,
        1,
        text(
          "Streak: catches in a row up to now; with a minus, misses. Body only, Toss only and Wall are practised apart and not counted.",
        ),
        { look: "note" },
      ),
      put(HEADING_ROW, 1, spill(board), { look: "heading" }),
    ],
    tables: [],
    validations: [],
    rules: statusRules({ row: HEADING_ROW + 1, column: statusColumn, rows: ROOM_ROWS, columns: 1 }),
    frozen: { rows: HEADING_ROW, columns: 2 },
  };
}
