/** The Practice sheet: the log, one row for each set or each attempt. */
import { cautionRow, date, empty, number, rowsOrEmpty, sheetTitle, text } from "../plan/cell-plans";
import type { Content, SheetPlan, TableColumn } from "../plan/schema";
import { athleteColumn, dateColumn, trickColumn } from "./columns";
import { sheetNames, tableNames } from "./names";
import type { PracticeEntry, SeasonRecords } from "./records";
import { CONDITION_HEADING } from "./season-sheet";
import { MOST_MINUTES } from "../../trade/limits";
import { STAGES } from "../../trade/stages";
import type { SeasonSettings } from "./settings";

/** The headings of the log, for the formulas that read it. */
export const PRACTICE = {
  date: "Date",
  athlete: "Athlete",
  trick: "Trick",
  stage: "Stage",
  marks: "Marks",
  minutes: "Minutes",
  entrance: "Entrance",
  exit: "Exit",
  condition: "Condition",
  note: "Note",
} as const;

/** The columns that a log from before may lack: how a set was done, and under which conditions. */
export const WAY_HEADINGS = [PRACTICE.entrance, PRACTICE.exit, PRACTICE.condition] as const;

/** What the log's columns are called in words about a row that does not count, by what a function calls them. */
export const LOG_HEADINGS = {
  dates: PRACTICE.date,
  athletes: PRACTICE.athlete,
  tricks: PRACTICE.trick,
  stages: PRACTICE.stage,
  ways: PRACTICE.entrance,
  conditions: PRACTICE.condition,
  marks: PRACTICE.marks,
  caught: PRACTICE.marks,
  attempts: PRACTICE.marks,
} as const;

const TABLE_ROW = 4;

export function practiceSheet(settings: SeasonSettings, records: SeasonRecords): SheetPlan {
  const { label } = settings;
  const columns = practiceColumns(label);
  return {
    name: sheetNames(label).practice,
    columnWidths: [14, 12, 26, 14, 18, 12, 16, 16, 18, 50],
    areas: [],
    cells: [
      ...sheetTitle(
        `Practice ${label}`,
        "One row a set, newest at the foot. Marks in order: c caught, d dropped, b bailed, such as ccdcc ccccd; or a tally such as 8/10.",
      ),
      ...cautionRow(
        3,
        1,
        columns.length,
        "Two bails: stop. Do not push repetitions on someone who balks; go back a stage until it feels safe.",
      ),
    ],
    tables: [
      {
        name: tableNames(label).practice,
        at: { row: TABLE_ROW, column: 1 },
        columns,
        rows: rowsOrEmpty(columns, records.practice.map(practiceRow)),
      },
    ],
    validations: [],
    rules: [],
    charts: [],
    frozen: { rows: TABLE_ROW, columns: 0 },
  };
}

function practiceRow(entry: PracticeEntry): readonly Content[] {
  return [
    date(entry.date),
    text(entry.athlete),
    text(entry.trick),
    text(entry.stage),
    text(entry.marks),
    entry.minutes === null ? empty : number(entry.minutes),
    ...[entry.entrance, entry.exit, entry.condition, entry.note].map((words = "") =>
      words === "" ? empty : text(words),
    ),
  ];
}

function practiceColumns(label: string): readonly TableColumn[] {
  return [
    dateColumn(PRACTICE.date, "practice"),
    athleteColumn(label, PRACTICE.athlete),
    trickColumn(label, PRACTICE.trick),
    {
      heading: PRACTICE.stage,
      format: "general",
      validation: {
        allowed: { kind: "list", source: { kind: "words", words: STAGES }, strict: true },
        inputTitle: "Stage",
        inputMessage: "Body only, Toss only and Wall are kept apart: the board counts the joined trick.",
        errorMessage: `Choose one of: ${STAGES.join(", ")}.`,
      },
    },
    {
      heading: PRACTICE.marks,
      format: "text",
      validation: {
        allowed: { kind: "none" },
        inputTitle: "Marks, in order",
        inputMessage:
          "c caught, d dropped, b bailed. A set in one cell: ccdcc ccccd. Totals only: 8/10. Not x and o: clubs use them either way round.",
      },
    },
    {
      heading: PRACTICE.minutes,
      format: "number",
      validation: {
        allowed: { kind: "number", least: 0, most: MOST_MINUTES, whole: false },
        errorMessage: `Minutes spent, from 0 to ${String(MOST_MINUTES)}, or empty.`,
      },
    },
    ...wayColumns(label),
    { heading: PRACTICE.note, format: "text" },
  ];
}

/** May stay empty, and be missing altogether. Nothing is refused: the words are the club's own. */
function wayColumns(label: string): readonly TableColumn[] {
  return [
    {
      heading: PRACTICE.entrance,
      format: "text",
      validation: {
        allowed: { kind: "none" },
        inputTitle: "Entrance, if it is tried",
        inputMessage: "What comes right before the toss, in the same words each time: Walk, Spin. May stay empty.",
      },
    },
    {
      heading: PRACTICE.exit,
      format: "text",
      validation: {
        allowed: { kind: "none" },
        inputTitle: "Exit, if it is tried",
        inputMessage: "What comes right after the catch, in the same words each time. May stay empty.",
      },
    },
    {
      heading: PRACTICE.condition,
      format: "text",
      validation: {
        allowed: {
          kind: "list",
          source: { kind: "column", table: tableNames(label).conditions, column: CONDITION_HEADING },
          strict: false,
        },
        inputTitle: "Condition, if it differs",
        inputMessage:
          "What was different: from the list on the Season sheet, which is yours to change. Several are parted by ;. May stay empty.",
      },
    },
  ];
}
