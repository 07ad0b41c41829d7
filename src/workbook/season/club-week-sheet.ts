/** The Club week sheet: what everybody practises next, a line an athlete, to be hung up in the gym. */
import { formula, number, put, sheetTitle, spill, text } from "../plan/cell-plans";
import { call, cell, columns, operation, twirl, type Formula } from "../plan/formula";
import type { SheetPlan } from "../plan/schema";
import { boardColumns, isDanced, spillArea, type SpilledColumn } from "./board-sheet";
import { startingFocus } from "./choices";
import { logColumns, practiceColumn } from "./joined-practice";
import { sheetNames, tableNames } from "./names";
import { PRACTICE } from "./practice-sheet";
import type { SeasonRecords } from "./records";
import { ATHLETE_HEADING, MINUTES_HEADING, setting } from "./season-sheet";
import type { SeasonSettings } from "./settings";
import { MINUTES_LIMIT, nextContestOf, taperOf } from "./week-sheet";

const MINUTES_ROW = 4;
const TAPER_ROW = 3;
const HEADING_ROW = 6;
const ROOM_ROWS = 80;
/** Tricks beside each other that the sheet has drawn room for; more go on to the right. */
const TRICKS = 6;

const COLUMNS: readonly SpilledColumn[] = [
  { heading: "Athlete", format: "general", width: 12 },
  { heading: "Minutes", format: "whole", width: 9 },
  { heading: "Attempts a minute", format: "twoDecimals", width: 17 },
  { heading: "Attempts", format: "whole", width: 11 },
  ...Array.from({ length: TRICKS }, (_, index): SpilledColumn => ({
    heading: index === 0 ? "First" : "Then",
    format: "general",
    width: 25,
  })),
];

export function clubWeekSheet(settings: SeasonSettings, records: SeasonRecords): SheetPlan {
  const { label } = settings;
  const atMinutes = { row: MINUTES_ROW, column: 2 } as const;
  return {
    name: sheetNames(label).clubWeek,
    columnWidths: COLUMNS.map(({ width }) => width),
    areas: spillArea({ row: HEADING_ROW, column: 1 }, COLUMNS, ROOM_ROWS),
    cells: [
      ...sheetTitle(
        `Club week ${label}`,
        "Everybody's next practice: what to do first stands at the left, with its attempts. Somebody's own minutes, or away: beside the name on the Season sheet. Two bails: stop.",
      ),
      put(TAPER_ROW, 1, formula(taperOf(label)), { look: "note" }),
      put(MINUTES_ROW, 1, text("Minutes"), { look: "label" }),
      put(MINUTES_ROW, 2, number(startingFocus(settings, records).weekMinutes), { look: "input", format: "whole" }),
      put(MINUTES_ROW, 4, text("Next contest"), { look: "label" }),
      put(MINUTES_ROW, 5, formula(nextContestOf(label)), { look: "answer", format: "date" }),
      put(HEADING_ROW, 1, spill(plan(label)), { look: "heading" }),
    ],
    tables: [],
    validations: [
      {
        on: { ...atMinutes, rows: 1, columns: 1 },
        validation: {
          allowed: { kind: "number", ...MINUTES_LIMIT, whole: false },
          inputTitle: "Minutes",
          inputMessage: "For tricks, without warm-up and run-throughs: everybody's who has no own on the Season sheet.",
          errorMessage: "Type the minutes, from 0 to 1,440.",
        },
      },
    ],
    rules: [],
    charts: [],
    frozen: { rows: HEADING_ROW, columns: 1 },
    print: {
      orientation: "landscape",
      pagesWide: 1,
      repeatRows: HEADING_ROW,
      columns: [{ first: 1, last: COLUMNS.length }],
    },
  };
}

function plan(label: string): Formula {
  const minutes = cell(MINUTES_ROW, 2);
  const answer = twirl(
    "CLUBPLAN",
    ...logColumns(label),
    practiceColumn(label, PRACTICE.minutes),
    minutes,
    columns(tableNames(label).athletes, ATHLETE_HEADING, MINUTES_HEADING),
    setting(label, "standard"),
    setting(label, "setSize"),
    practiceColumn(label, PRACTICE.stage),
    routineOfEach(label),
  );
  const words = "Fills itself once a set is logged.";
  return call("IFNA", call("IF", operation(minutes, "=", ""), "Type the minutes.", answer), words);
}

/** Athlete and trick of each line of the board that the athlete's own routine holds; swaps count. */
function routineOfEach(label: string): Formula {
  return call(
    "FILTER",
    boardColumns(label, "Athlete", "Trick"),
    call("IFERROR", operation(isDanced(label), ">", 0), 0),
    "",
  );
}
