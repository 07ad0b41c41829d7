/**
 * The Board sheet: every athlete's every trick with its status, one spilling formula over the log. Below it nothing may
 * stand, since it grows; so to its right come one trick day by day, and the stages of learning.
 */
import { formula, headingAreas, headings, put, sheetTitle, spill, statusRules, text } from "../plan/cell-plans";
import { call, cell, cells, column, leftOut, operation, product, twirl, type Formula } from "../plan/formula";
import { headingFormat } from "../plan/looks";
import type {
  AreaPlan,
  Block,
  CellAddress,
  CellPlan,
  ChartPlan,
  ChartSeries,
  NumberFormat,
  SeriesLook,
  SheetPlan,
} from "../plan/schema";
import { athleteChoice, startingFocus, trickChoice } from "./choices";
import { isJoined, logColumns, practiceColumn, practiceWhere } from "./joined-practice";
import { sheetNames, tableNames } from "./names";
import { PRACTICE } from "./practice-sheet";
import type { SeasonRecords } from "./records";
import { STAGES } from "../../trade/stages";
import { setting } from "./season-sheet";
import type { SeasonSettings } from "./settings";

export interface SpilledColumn {
  readonly heading: string;
  readonly format: NumberFormat;
  readonly width: number;
}

/** The board's columns in the order in which the formula fills them, its heading row included. */
export const COLUMNS = [
  { heading: "Athlete", format: "general", width: 11 },
  { heading: "Trick", format: "general", width: 24 },
  { heading: "Attempts", format: "whole", width: 9 },
  { heading: "Last set", format: "general", width: 8 },
  { heading: "Recent rate", format: "percent", width: 11 },
  { heading: "Low", format: "percent", width: 6 },
  { heading: "High", format: "percent", width: 6 },
  { heading: "Chance", format: "percent", width: 8 },
  { heading: "Streak", format: "whole", width: 7 },
  { heading: "Best streak", format: "whole", width: 11 },
  { heading: "Status", format: "general", width: 11 },
  { heading: "Last practised", format: "date", width: 13 },
  { heading: "Next step", format: "general", width: 90 },
] as const satisfies readonly SpilledColumn[];

export type BoardHeading = (typeof COLUMNS)[number]["heading"];

export const HISTORY_COLUMNS: readonly SpilledColumn[] = [
  { heading: "Date", format: "date", width: 14 },
  { heading: "Caught", format: "whole", width: 24 },
  { heading: "Attempts", format: "whole", width: 10 },
  { heading: "Rate", format: "percent", width: 8 },
  { heading: "Low", format: "percent", width: 8 },
  { heading: "High", format: "percent", width: 8 },
  { heading: "Standard", format: "percent", width: 10 },
];

const STAGE_COLUMNS: readonly SpilledColumn[] = [
  { heading: "Trick", format: "general", width: 26 },
  ...STAGES.flatMap((stage): readonly SpilledColumn[] => [
    { heading: stage, format: "percent", width: 12 },
    { heading: `${stage} attempts`, format: "whole", width: stage.length + 10 },
  ]),
  { heading: "Breaks at", format: "general", width: 14 },
];

/** The first heading of the days, where the spill begins. */
export const HISTORY_HEADING = { look: "heading", format: headingFormat("date") } as const;

const NO_HISTORY = "Fills itself once this athlete has logged this trick.";

/** What is said while a spill has nothing to show. */
export function whileEmpty(spill: CellAddress, words: string): Formula {
  return call("IF", operation(cell(spill.row, spill.column), "=", ""), words, "");
}

const HEADING_ROW = 4;
/** Whether every row of the log counts is said in the top line, beside the title. */
const CHECK_COLUMN = 3;

/** Athletes times tricks that the board has drawn room for; beyond it the formula still fills, undrawn. */
export const ROOM_ROWS = 400;
/** Practice days of one athlete's one trick, and tricks of a season. */
export const HISTORY_ROOM_ROWS = 200;
const STAGE_ROOM_ROWS = 200;

export const GAP_WIDTH = 3;
const HISTORY_COLUMN = COLUMNS.length + 2;
const HISTORY_ANCHOR = { row: HEADING_ROW, column: HISTORY_COLUMN } as const;
const CHART_COLUMN = HISTORY_COLUMN + HISTORY_COLUMNS.length + 1;
export const CHART_WIDTHS = [12, 12, 12, 12, 12, 12] as const;
const CHART_ROWS = 22;
const STAGES_COLUMN = CHART_COLUMN + CHART_WIDTHS.length + 1;
const FIRST_COLUMN = STAGES_COLUMN + STAGE_COLUMNS.length + 1;
const FIRST_ROOM_ROWS = 60;
/** In the top line, beside the log's check: what asks for attention before all else. */
const FIRST_LINE_COLUMN = 6;
/** A trick of the routine that was not practised for so long is to be warmed up: common practice, no source. */
const DAYS_NOT_PRACTISED = 14;

const FIRST_COLUMNS: readonly SpilledColumn[] = [
  { heading: "Athlete", format: "general", width: 12 },
  { heading: "Trick", format: "general", width: 26 },
  { heading: "Recent rate", format: "percent", width: 12 },
];

const FIRST_LISTS = ["At risk, in the routine", "Confirm", "Not practised for two weeks"] as const;
/** What the lists ask of each of the board's lines: asked once beside them, not by every column of every list. */
const ASKED_COLUMN = FIRST_COLUMN + FIRST_LISTS.length * (FIRST_COLUMNS.length + 1);
const ASKED_COLUMNS: readonly SpilledColumn[] = [{ heading: "In the routine", format: "whole", width: 20 }];
const LATEST_DAY = { row: 2, column: ASKED_COLUMN } as const;

const ATHLETE_ROW = 2;
const TRICK_ROW = 3;

/** One column of the board below its heading, for the formulas of other sheets: the room that the board has. */
export function boardColumn(label: string, heading: BoardHeading): Formula {
  return boardColumns(label, heading, heading);
}

/** The same of several columns side by side. */
export function boardColumns(label: string, from: BoardHeading, to: BoardHeading): Formula {
  const [first, last] = [from, to].map((heading) => COLUMNS.findIndex((one) => one.heading === heading) + 1) as [
    number,
    number,
  ];
  const row = HEADING_ROW + 1;
  return cells({ row, column: first }, { row: row + ROOM_ROWS - 1, column: last }, sheetNames(label).board);
}

/** What COUNTIFS and SUMIFS ask of the board's lines: an athlete's, with a trick or with each of several. */
export function boardLines(label: string, athlete: Formula, trick: Formula): readonly Formula[] {
  // The sign in front keeps a name that begins with one from being read as a condition.
  const is = (name: Formula): Formula => operation("=", "&", name);
  return [boardColumn(label, "Athlete"), is(athlete), boardColumn(label, "Trick"), is(trick)];
}

/** Of each of the board's lines 1 where the routine holds its trick, else 0; empty below the last line. */
export function isDanced(label: string): Formula {
  return cells(
    { row: HEADING_ROW + 1, column: ASKED_COLUMN },
    { row: HEADING_ROW + ROOM_ROWS, column: ASKED_COLUMN },
    sheetNames(label).board,
  );
}

export function boardSheet(settings: SeasonSettings, records: SeasonRecords): SheetPlan {
  const { label } = settings;
  const focus = startingFocus(settings, records);
  const athlete = athleteChoice(label, ATHLETE_ROW, HISTORY_COLUMN, focus.athlete);
  const trick = trickChoice(label, TRICK_ROW, HISTORY_COLUMN, focus.trick);
  const statusColumn = COLUMNS.findIndex(({ heading }) => heading === "Status") + 1;
  return {
    name: sheetNames(label).board,
    columnWidths: [
      ...COLUMNS.map(({ width }) => width),
      GAP_WIDTH,
      ...HISTORY_COLUMNS.map(({ width }) => width),
      GAP_WIDTH,
      ...CHART_WIDTHS,
      GAP_WIDTH,
      ...STAGE_COLUMNS.map(({ width }) => width),
      ...FIRST_LISTS.flatMap(() => [GAP_WIDTH, ...FIRST_COLUMNS.map(({ width }) => width)]),
      GAP_WIDTH,
      ...ASKED_COLUMNS.map(({ width }) => width),
    ],
    areas: [
      ...spillArea({ row: HEADING_ROW, column: 1 }, COLUMNS, ROOM_ROWS),
      ...spillArea({ row: HEADING_ROW, column: HISTORY_COLUMN }, HISTORY_COLUMNS, HISTORY_ROOM_ROWS),
      ...spillArea({ row: HEADING_ROW, column: STAGES_COLUMN }, STAGE_COLUMNS, STAGE_ROOM_ROWS),
      ...FIRST_LISTS.flatMap((_, index) =>
        spillArea({ row: HEADING_ROW, column: listColumn(index) }, FIRST_COLUMNS, FIRST_ROOM_ROWS),
      ),
      ...spillArea({ row: HEADING_ROW, column: ASKED_COLUMN }, ASKED_COLUMNS, ROOM_ROWS),
    ],
    cells: [
      ...sheetTitle(
        `Board ${label}`,
        "Fills itself from the Practice sheet. Recent rate: since the last slide, the latest attempts weighing most. Low, High: where the true rate lies, 95 in 100. Chance: that it is at the standard.",
      ),
      put(
        3,
        1,
        text(
          "Streak: catches in a row since the last tally; with a minus, misses. Body only, Toss only and Wall are practised apart and not counted. Rows that do not count stand below the last athlete. To the right: one trick by day, and the stages.",
        ),
        { look: "note" },
      ),
      put(1, CHECK_COLUMN, formula(logCheck(label)), { look: "label" }),
      put(HEADING_ROW, 1, spill(board(label)), { look: "heading" }),
      put(1, HISTORY_COLUMN, text("One trick, day by day"), { look: "title" }),
      ...athlete.cells,
      ...trick.cells,
      ...bars(label),
      put(HEADING_ROW, HISTORY_COLUMN, spill(history(label)), HISTORY_HEADING),
      // Not in the heading's own cell: set right as the days are, so long a text would be cut.
      put(TRICK_ROW, HISTORY_COLUMN + 3, formula(whileEmpty(HISTORY_ANCHOR, NO_HISTORY)), { look: "note" }),
      put(1, STAGES_COLUMN, text("Stages of learning"), { look: "title" }),
      put(
        2,
        STAGES_COLUMN,
        text(
          "Share caught at each stage, all athletes together. Breaks at: the first stage clearly below the practised one before it.",
        ),
        { look: "note" },
      ),
      put(HEADING_ROW, STAGES_COLUMN, spill(stages(label)), { look: "heading" }),
      ...firstCells(label),
    ],
    tables: [],
    validations: [athlete.validation, trick.validation],
    rules: statusRules({ row: HEADING_ROW + 1, column: statusColumn, rows: ROOM_ROWS, columns: 1 }),
    charts: [historyChart({ row: HEADING_ROW, column: HISTORY_COLUMN })],
    // No columns: beside the days and the stages, the board's own names would look like theirs.
    frozen: { rows: HEADING_ROW, columns: 0 },
    print: {
      orientation: "landscape",
      pagesWide: 1,
      repeatRows: HEADING_ROW,
      // The board on one page, the chosen trick with its chart on the next, the stages on a third.
      columns: [
        { first: 1, last: COLUMNS.length },
        { first: HISTORY_COLUMN, last: STAGES_COLUMN - 2 },
        { first: STAGES_COLUMN, last: STAGES_COLUMN + STAGE_COLUMNS.length - 1 },
        { first: FIRST_COLUMN, last: listColumn(FIRST_LISTS.length) - 2 },
      ],
    },
  };
}

/**
 * One trick by day: its rate, where the true rate lies, and the standard.
 * @param history the first heading of the days; the chart stands to their right, after a gap
 */
export function historyChart(history: CellAddress): ChartPlan {
  const block = (heading: string): Block => ({
    row: history.row + 1,
    column: history.column + HISTORY_COLUMNS.findIndex((one) => one.heading === heading),
    rows: HISTORY_ROOM_ROWS,
    columns: 1,
  });
  const line = (heading: string, look: SeriesLook, name = heading): ChartSeries => ({
    name,
    across: block("Date"),
    up: block(heading),
    look,
  });
  return {
    name: "Rate by day",
    title: "Share caught, day by day",
    description:
      "The chosen athlete's rate on the chosen trick for each practice day, the low and high ends of where the true rate lies, and the standard.",
    on: {
      row: history.row + 1,
      column: history.column + HISTORY_COLUMNS.length + 1,
      rows: CHART_ROWS,
      columns: CHART_WIDTHS.length,
    },
    across: { title: "Practice day", format: "date" },
    up: { title: "Share caught", format: "percent", least: 0, most: 1 },
    series: [line("High", "limit"), line("Low", "limit"), line("Standard", "standard"), line("Rate", "rate")],
  };
}

/** The heading row and the room below it, each column in its own format. */
export function spillArea(
  { row, column: at }: CellAddress,
  columns: readonly SpilledColumn[],
  rows: number,
): readonly AreaPlan[] {
  return [
    ...headingAreas(
      { row, column: at },
      columns.map(({ format }) => format),
    ),
    ...columns.map(({ format }, index): AreaPlan => ({
      on: { row: row + 1, column: at + index, rows, columns: 1 },
      look: "entry",
      format,
    })),
  ];
}

/* ---- what needs attention first ---- */

function listColumn(index: number): number {
  return FIRST_COLUMN + index * (FIRST_COLUMNS.length + 1);
}

/** Three short lists: what slips in the routine, what is to be shown again, what was left lying. */
function firstCells(label: string): readonly CellPlan[] {
  const status = boardColumn(label, "Status");
  const last = boardColumn(label, "Last practised");
  const isTrick = operation(boardColumn(label, "Trick"), "<>", "");
  const inRoutine = operation(isDanced(label), ">", 0);
  const lately = cell(LATEST_DAY.row, LATEST_DAY.column);
  const atRisk = product(operation(status, "=", "At risk"), isTrick, inRoutine);
  const confirm = product(operation(status, "=", "Confirm"), isTrick);
  const long = product(
    isTrick,
    inRoutine,
    call("ISNUMBER", last),
    operation(last, "<=", operation(lately, "-", DAYS_NOT_PRACTISED)),
  );
  const [risky, shownAgain, lying] = [atRisk, confirm, long].map((condition) => call("IFERROR", condition, 0));
  const columnsOf: readonly BoardHeading[] = ["Athlete", "Trick", "Recent rate"];
  const list = (index: number, condition: Formula, by: BoardHeading): readonly CellPlan[] => [
    put(HEADING_ROW - 1, listColumn(index), text(FIRST_LISTS[index] ?? ""), { look: "label" }),
    ...columnsOf.flatMap((heading, at) => [
      ...headings(HEADING_ROW, listColumn(index) + at, [heading], [FIRST_COLUMNS[at]?.format ?? "general"]),
      put(
        HEADING_ROW + 1,
        listColumn(index) + at,
        spill(call("IFERROR", inOrder(label, heading, condition, by), at === 0 ? "None" : "")),
        { look: "entry", format: at === 2 ? "percent" : "general" },
      ),
    ]),
  ];
  const first = (index: number, words: string, otherwise: Formula): Formula => {
    const [athlete, trick] = [0, 1].map((at) => cell(HEADING_ROW + 1, listColumn(index) + at)) as [Formula, Formula];
    const told = operation(operation(operation(words, "&", athlete), "&", ", "), "&", trick);
    return call("IF", operation(trick, "=", ""), otherwise, told);
  };
  const nothing: Formula = { kind: "text", text: "First: nothing is urgent" };
  return [
    put(1, FIRST_COLUMN, text("What needs attention first"), { look: "title" }),
    put(2, FIRST_COLUMN, text("The weakest of each list first; what was left lying longest first."), { look: "note" }),
    ...list(0, risky as Formula, "Recent rate"),
    ...list(1, shownAgain as Formula, "Recent rate"),
    ...list(2, lying as Formula, "Last practised"),
    put(
      1,
      FIRST_LINE_COLUMN,
      formula(
        first(0, "First, at risk: ", first(1, "First, to show again: ", first(2, "First, left lying: ", nothing))),
      ),
      { look: "label" },
    ),
    ...askedCells(label),
  ];
}

function askedCells(label: string): readonly CellPlan[] {
  const trick = boardColumn(label, "Trick");
  const routine = column(tableNames(label).routine, "Trick");
  // Looked up, not counted: counting reads the whole routine for each of the board's lines.
  const inRoutine = call("IF", operation(call("XLOOKUP", trick, routine, routine, ""), "=", ""), 0, 1);
  const lately = call("MAX", call("IFERROR", product(practiceColumn(label, PRACTICE.date), 1), 0));
  const ofLines = ASKED_COLUMNS.map(({ heading }) => heading);
  return [
    put(LATEST_DAY.row - 1, LATEST_DAY.column, text("Latest day in the log"), { look: "label" }),
    put(LATEST_DAY.row, LATEST_DAY.column, formula(lately), { look: "answer", format: "date" }),
    ...headings(
      HEADING_ROW,
      ASKED_COLUMN,
      ofLines,
      ASKED_COLUMNS.map(({ format }) => format),
    ),
    put(HEADING_ROW + 1, ASKED_COLUMN, spill(call("IF", operation(trick, "=", ""), "", inRoutine)), {
      look: "entry",
      format: "whole",
    }),
  ];
}

/** A column of the board's lines for which the condition holds, the least of another column first. */
function inOrder(label: string, heading: BoardHeading, condition: Formula, by: BoardHeading): Formula {
  const where = (of: BoardHeading): Formula => call("FILTER", boardColumn(label, of), condition);
  return call("SORTBY", where(heading), where(by), 1);
}

/* ---- the formulas ---- */

function board(label: string): Formula {
  const answer = twirl(
    "BOARD",
    ...logColumns(label),
    setting(label, "standard"),
    setting(label, "setSize"),
    practiceColumn(label, PRACTICE.stage),
  );
  return call("IFNA", answer, "Log a first set on the Practice sheet: the board fills itself.");
}

/** Whether every row of the log counts; which do not stands at the foot of the board. */
function logCheck(label: string): Formula {
  const check = twirl("LOGCHECK", ...logColumns(label), practiceColumn(label, PRACTICE.stage));
  return call("IFNA", call("INDEX", check, 1, 1), "");
}

const chosenAthlete = cell(ATHLETE_ROW, HISTORY_COLUMN + 1);
const chosenTrick = cell(TRICK_ROW, HISTORY_COLUMN + 1);

function history(label: string): Formula {
  const answer = twirl(
    "TRICKHISTORY",
    ...logColumns(label),
    chosenAthlete,
    chosenTrick,
    setting(label, "standard"),
    leftOut,
    practiceColumn(label, PRACTICE.stage),
  );
  return call("IFNA", answer, "");
}

/** The chosen trick's sets as little bars, beside the athlete's name. */
function bars(label: string): readonly CellPlan[] {
  const chosen = product(
    operation(practiceColumn(label, PRACTICE.athlete), "=", chosenAthlete),
    operation(practiceColumn(label, PRACTICE.trick), "=", chosenTrick),
    isJoined(label),
  );
  const answer = twirl(
    "CATCHBARS",
    practiceWhere(label, PRACTICE.marks, chosen),
    setting(label, "setSize"),
    leftOut,
    practiceWhere(label, PRACTICE.date, chosen),
  );
  const at = HISTORY_COLUMN + 3;
  return [
    put(ATHLETE_ROW, at, text("Sets"), { look: "label" }),
    put(ATHLETE_ROW, at + 1, formula(call("IFNA", answer, ""))),
  ];
}

function stages(label: string): Formula {
  const answer = twirl(
    "STAGEBOARD",
    practiceColumn(label, PRACTICE.trick),
    practiceColumn(label, PRACTICE.stage),
    practiceColumn(label, PRACTICE.marks),
  );
  return call("IFNA", answer, "Fills itself with the first set that is logged.");
}
