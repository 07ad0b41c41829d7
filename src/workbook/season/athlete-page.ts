/**
 * One athlete's page, for the wall or for the family: their own record only, nothing of anybody else's and no order of
 * athletes. It reads the season's board, so it follows the log; on paper it is one page, unless the tricks are many.
 */
import { formula, headingAreas, headings, put, sheetTitle, spill, statusRules, text } from "../plan/cell-plans";
import { call, cell, leftOut, operation, product, twirl, type Formula } from "../plan/formula";
import type {
  AreaPlan,
  Block,
  ChartPlan,
  ChartSeries,
  NumberFormat,
  SeriesLook,
  SheetPlan,
  Validation,
  WorkbookPlan,
} from "../plan/schema";
import { boardColumn, HISTORY_HEADING, whileEmpty, type BoardHeading } from "./board-sheet";
import { nextContest } from "./calendar";
import { logColumns, practiceColumn } from "./joined-practice";
import { sheetNames, tableNames } from "./names";
import { PRACTICE } from "./practice-sheet";
import { CALENDAR, setting } from "./season-sheet";

interface PageColumn {
  readonly board: BoardHeading;
  readonly words: string;
  readonly format: NumberFormat;
  readonly width: number;
}

/** What of the board is handed out, in words for somebody who does not keep the workbook. */
const COLUMNS: readonly PageColumn[] = [
  { board: "Trick", words: "Trick", format: "general", width: 26 },
  { board: "Status", words: "Status", format: "general", width: 13 },
  { board: "Last set", words: "Last set", format: "general", width: 10 },
  { board: "Recent rate", words: "Caught lately", format: "percent", width: 14 },
  { board: "Best streak", words: "Best streak", format: "whole", width: 12 },
  { board: "Last practised", words: "Last practised", format: "date", width: 15 },
  { board: "Next step", words: "Next step", format: "general", width: 80 },
];

const HISTORY: readonly { readonly heading: string; readonly format: NumberFormat }[] = [
  { heading: "Date", format: "date" },
  { heading: "Caught", format: "whole" },
  { heading: "Attempts", format: "whole" },
  { heading: "Rate", format: "percent" },
  { heading: "Low", format: "percent" },
  { heading: "High", format: "percent" },
  { heading: "Standard", format: "percent" },
];

const TRICK_ROW = 5;
const CHART_ROW = 7;
const CHART_ROWS = 13;
/** Below the picture: on a page of paper nothing stands beside it. */
const HEADING_ROW = CHART_ROW + CHART_ROWS + 1;
const FIRST_ROW = HEADING_ROW + 1;
const TITLE_ROWS = 2;
/** Tricks of one athlete, and practice days of one trick, that the page has drawn room for. */
const ROOM_ROWS = 60;
const HISTORY_ROOM_ROWS = 200;

/** What the picture is drawn from, beside what is printed. */
const HISTORY_COLUMN = COLUMNS.length + 2;
const HISTORY_ANCHOR = { row: CHART_ROW - 1, column: HISTORY_COLUMN } as const;
const NO_HISTORY = "The picture fills itself once this trick has been logged.";

const WORDS = [
  "Solid, Ready: may go into the routine. Confirm: a good set that is to be shown again.",
  "Building, Too few: still being learned. At risk: was ready, and needs care now.",
  "Caught lately: the latest attempts weigh most. Best streak: since the last tally. A help for the coach, not a verdict on anyone.",
] as const;

interface AthletePageOf {
  /** As the season spells the name. */
  readonly athlete: string;
  /** The athlete's tricks: the first is shown day by day at first, and another can be chosen on the page. */
  readonly tricks: readonly string[];
  /** Free in the workbook: see `freeSheetName`. */
  readonly sheetName: string;
}

/**
 * The pages, each a sheet of its own, as a plan to be added to the season's workbook; the first is shown.
 * @param label of a season that is in the workbook
 * @param pages at least one
 * @param hasCalendar whether the season has a table of contests to come, which one from before has not
 */
export function athletePages(label: string, pages: readonly AthletePageOf[], hasCalendar: boolean): WorkbookPlan {
  const { season, board } = sheetNames(label);
  const calendar = { name: tableNames(label).calendar, columns: [CALENDAR.day] };
  return {
    sheets: pages.map((page) => pageSheet(label, page, hasCalendar)),
    active: pages[0]?.sheetName ?? "",
    reads: {
      sheets: [season, board],
      tables: [
        {
          name: tableNames(label).practice,
          columns: [PRACTICE.date, PRACTICE.athlete, PRACTICE.trick, PRACTICE.stage, PRACTICE.marks],
        },
        ...(hasCalendar ? [calendar] : []),
      ],
    },
  };
}

function pageSheet(label: string, { athlete, tricks, sheetName }: AthletePageOf, hasCalendar: boolean): SheetPlan {
  return {
    name: sheetName,
    columnWidths: [...COLUMNS.map(({ width }) => width), 3, ...HISTORY.map(() => 13)],
    areas: areas(),
    cells: [
      ...sheetTitle(
        `${athlete}, season ${label}`,
        "One athlete's own record. Nothing of anybody else is on this page.",
      ),
      put(3, 1, text("Practised last on"), { look: "label" }),
      put(3, 2, formula(lastPractice(label, athlete)), { look: "answer", format: "date" }),
      put(4, 1, text("Days to the contest"), { look: "label" }),
      put(4, 2, formula(daysLeft(label, hasCalendar)), { look: "answer", format: "whole" }),
      put(TRICK_ROW, 1, text("One trick, day by day"), { look: "label" }),
      put(TRICK_ROW, 2, text(tricks[0] ?? ""), { look: "input", format: "text" }),
      ...WORDS.map((words, index) => put(3 + index, 4, text(words), { look: "note" })),
      put(CHART_ROW - 1, 1, formula(whileEmpty(HISTORY_ANCHOR, NO_HISTORY)), { look: "note" }),
      ...headings(
        HEADING_ROW,
        1,
        COLUMNS.map(({ words }) => words),
        COLUMNS.map(({ format }) => format),
      ),
      ...COLUMNS.map(({ board, format }, index) =>
        put(FIRST_ROW, 1 + index, spill(ownColumn(label, athlete, board, index === 0)), { look: "entry", format }),
      ),
      put(HISTORY_ANCHOR.row - 1, HISTORY_COLUMN, text("What the picture is drawn from"), { look: "label" }),
      put(HISTORY_ANCHOR.row, HISTORY_COLUMN, spill(history(label, athlete)), HISTORY_HEADING),
    ],
    tables: [],
    validations: [{ on: { row: TRICK_ROW, column: 2, rows: 1, columns: 1 }, validation: trickChoice(tricks) }],
    rules: statusRules({ row: FIRST_ROW, column: 2, rows: ROOM_ROWS, columns: 1 }),
    charts: [chart()],
    frozen: { rows: TITLE_ROWS, columns: 0 },
    print: {
      orientation: "landscape",
      pagesWide: 1,
      repeatRows: TITLE_ROWS,
      columns: [{ first: 1, last: COLUMNS.length }],
    },
  };
}

/* ---- the formulas ---- */

/** The board's rows of this athlete, one column of them. */
function ownColumn(label: string, athlete: string, heading: BoardHeading, says: boolean): Formula {
  const own = operation(boardColumn(label, "Athlete"), "=", athlete);
  return call("FILTER", boardColumn(label, heading), own, says ? "Nothing logged yet" : "");
}

function lastPractice(label: string, athlete: string): Formula {
  const own = product(
    operation(practiceColumn(label, PRACTICE.athlete), "=", athlete),
    practiceColumn(label, PRACTICE.date),
  );
  // A day that is no date must not hide the others.
  const latest = call("MAX", call("IFERROR", own, 0));
  return call("IF", operation(latest, ">", 0), latest, "");
}

/** Until the season's next contest; nothing where there is no date or all are over. */
function daysLeft(label: string, hasCalendar: boolean): Formula {
  const contest = hasCalendar ? nextContest(label, call("TODAY")) : setting(label, "contestDate");
  const days = call("IFERROR", operation(contest, "-", call("TODAY")), -1);
  return call("IF", operation(days, ">=", 0), days, "");
}

const CHOSEN_TRICK = cell(TRICK_ROW, 2);

function history(label: string, athlete: string): Formula {
  const answer = twirl(
    "TRICKHISTORY",
    ...logColumns(label),
    athlete,
    CHOSEN_TRICK,
    setting(label, "standard"),
    leftOut,
    practiceColumn(label, PRACTICE.stage),
  );
  return call("IFNA", answer, "");
}

/* ---- what lies around ---- */

/** A list of words holds 255 characters and no commas; where the tricks do not fit, the cell only says what to type. */
const LONGEST_LIST = 255;

function trickChoice(tricks: readonly string[]): Validation {
  const words = {
    inputTitle: "Trick",
    inputMessage: "One of this athlete's tricks: the picture below follows.",
  };
  const fits =
    tricks.length > 0 && tricks.join(",").length <= LONGEST_LIST && !tricks.some((name) => name.includes(","));
  return fits
    ? { allowed: { kind: "list", source: { kind: "words", words: tricks }, strict: false }, ...words }
    : { allowed: { kind: "none" }, ...words };
}

function areas(): readonly AreaPlan[] {
  return [
    ...COLUMNS.map(({ format }, index): AreaPlan => ({
      on: { row: FIRST_ROW, column: 1 + index, rows: ROOM_ROWS, columns: 1 },
      look: "entry",
      format,
    })),
    ...headingAreas(
      HISTORY_ANCHOR,
      HISTORY.map(({ format }) => format),
    ),
    ...HISTORY.map(({ format }, index): AreaPlan => ({
      on: { row: HISTORY_ANCHOR.row + 1, column: HISTORY_COLUMN + index, rows: HISTORY_ROOM_ROWS, columns: 1 },
      look: "entry",
      format,
    })),
  ];
}

function chart(): ChartPlan {
  const block = (heading: string): Block => ({
    row: HISTORY_ANCHOR.row + 1,
    column: HISTORY_COLUMN + HISTORY.findIndex((one) => one.heading === heading),
    rows: HISTORY_ROOM_ROWS,
    columns: 1,
  });
  const line = (heading: string, look: SeriesLook): ChartSeries => ({
    name: heading,
    across: block("Date"),
    up: block(heading),
    look,
  });
  return {
    name: "Rate by day",
    title: "Share caught, day by day",
    description: "This athlete's rate on the chosen trick for each practice day, and the standard.",
    on: { row: CHART_ROW, column: 1, rows: CHART_ROWS, columns: COLUMNS.length },
    across: { title: "Practice day", format: "date" },
    up: { title: "Share caught", format: "percent", least: 0, most: 1 },
    series: [line("Standard", "standard"), line("Rate", "rate")],
  };
}
