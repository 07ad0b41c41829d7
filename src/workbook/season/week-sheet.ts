/** The Week sheet: what to practise in the attempts there is time for, the days to the contest, and the practice load. */
import { empty, formula, headings, number, put, sheetTitle, spill, statusRules, text } from "../plan/cell-plans";
import { DAY_EXAMPLE } from "../plan/days";
import { call, cell, cells, columns, leftOut, operation, product, twirl, type Formula } from "../plan/formula";
import type { AreaPlan, CellPlan, Content, NumberFormat, SheetPlan, ValidationPlan } from "../plan/schema";
import {
  boardColumn,
  HISTORY_COLUMNS,
  ROOM_ROWS as BOARD_ROWS,
  spillArea,
  isDanced,
  type BoardHeading,
  type SpilledColumn,
} from "./board-sheet";
import { calendarColumn, nextContest } from "./calendar";
import { athleteChoice, startingFocus } from "./choices";
import { athleteByDay, logColumns, practiceColumn, practiceWhere } from "./joined-practice";
import { sheetNames, tableNames } from "./names";
import { PRACTICE } from "./practice-sheet";
import type { SeasonRecords } from "./records";
import { CALENDAR, DAYS_OFF, setting } from "./season-sheet";
import type { SeasonSettings } from "./settings";
import { PLANNED_SETS, WEIGHT_OUTSIDE } from "../../core/week";
import { DAY_MINUTES } from "../../trade/limits";
import { USUAL_ATTEMPTS_A_MINUTE } from "../../trade/usual";

const TAPER_ROW = 3;
const HEADING_ROW = 4;
const FIRST_ROW = HEADING_ROW + 1;
const MINUTES_ROW = FIRST_ROW + 1;
const PACE_ROW = FIRST_ROW + 2;
const TYPED_ATTEMPTS_ROW = FIRST_ROW + 3;
const ATTEMPTS_ROW = FIRST_ROW + 4;
const AGE_ROW = FIRST_ROW + 5;
const TYPED_DAY_ROW = FIRST_ROW + 6;
const DAY_ROW = FIRST_ROW + 7;
const NEXT_CONTEST_ROW = FIRST_ROW + 8;
const CONTEST_ROW = FIRST_ROW + 9;
const LOAD_HEADING_ROW = FIRST_ROW + 11;
const LOAD_ROW = LOAD_HEADING_ROW + 1;
const CALENDAR_HEADING_ROW = LOAD_ROW + 9;
const CALENDAR_ROOM_ROWS = 20;

const PLAN_COLUMN = 4;
const LATELY_COLUMN = 8;
const ROOM_ROWS = 60;
const COUNTDOWN_COLUMN = 14;
export const COUNTDOWN_HEADING_ROW = HEADING_ROW;
const HISTORY_ATTEMPTS = HISTORY_COLUMNS.findIndex(({ heading }) => heading === "Attempts") + 1;

/** What COUNTDOWN fills, its heading row included. */
const COUNTDOWN_COLUMNS = [
  { heading: "Athlete", format: "general", width: 12 },
  { heading: "Trick", format: "general", width: 26 },
  { heading: "Status", format: "general", width: 13 },
  { heading: "Practices left", format: "whole", width: 13 },
  { heading: "Sets left", format: "whole", width: 10 },
  { heading: "Chance on the day", format: "percent", width: 17 },
  { heading: "Rate on the day", format: "percent", width: 15 },
  { heading: "Low", format: "percent", width: 8 },
  { heading: "High", format: "percent", width: 8 },
  { heading: "Last day to swap", format: "date", width: 16 },
  { heading: "What to do", format: "general", width: 90 },
] as const satisfies readonly SpilledColumn[];

type CountdownHeading = (typeof COUNTDOWN_COLUMNS)[number]["heading"];

/** Of one practice. */
export const MINUTES_LIMIT = { least: 0, most: DAY_MINUTES } as const;

/** Bosquet, Montpetit, Arvisais and Mujika 2007, Medicine and Science in Sports and Exercise 39:1358-1365. */
const TAPER_DAYS = 14;
const TAPER_WORDS =
  "The last two weeks: about half the attempts, as often and as full out as before (Bosquet 2007, of other sports); nothing new (common practice).";

export function weekSheet(settings: SeasonSettings, records: SeasonRecords): SheetPlan {
  const { label } = settings;
  const focus = startingFocus(settings, records);
  const athlete = athleteChoice(label, FIRST_ROW, 1, focus.athlete);
  return {
    name: sheetNames(label).week,
    columnWidths: [
      ...[28, 18, 3, 26, 16, 52, 3, 26, 15, 17, 13, 12, 3],
      ...COUNTDOWN_COLUMNS.map(({ width }) => width),
    ],
    areas: areas(),
    cells: [
      ...sheetTitle(
        `Week ${label}`,
        "The coming practice of one athlete: choose who, and how many minutes there are. To the right: every athlete's every trick by the contest.",
      ),
      put(TAPER_ROW, 1, formula(taper()), { look: "note" }),
      ...headings(HEADING_ROW, 1, ["For whom", ""]),
      ...athlete.cells,
      ...typed(MINUTES_ROW, "Minutes of practice", number(focus.weekMinutes), "whole"),
      ...answered(PACE_ROW, "Attempts a minute, so far", pace(label), "twoDecimals"),
      ...typed(TYPED_ATTEMPTS_ROW, "Attempts (empty: by minutes)", empty, "whole"),
      ...answered(ATTEMPTS_ROW, "Attempts to share out", attemptsToShare(), "whole"),
      ...typed(AGE_ROW, "Age in years", number(focus.ageYears), "whole"),
      ...typed(TYPED_DAY_ROW, "Counted on (empty: latest)", empty, "date"),
      ...answered(DAY_ROW, "The day of this plan", day(label), "date"),
      ...answered(NEXT_CONTEST_ROW, "The next contest", nextContest(label, cell(DAY_ROW, 2)), "date"),
      ...answered(CONTEST_ROW, "Days to the contest", daysToContest(), "whole"),
      ...headings(LOAD_HEADING_ROW, 1, ["Practice load", ""]),
      put(LOAD_ROW, 1, spill(load(label)), { look: "label" }),
      ...LOAD_CAUTIONS.map((words, index) => put(LOAD_ROW + 6 + index, 1, text(words), { look: "caution" })),
      ...headings(CALENDAR_HEADING_ROW, 1, ["Contests to come", "Days to go"], ["general", "whole"]),
      ...contestsToCome(label).map((tree, index) =>
        put(CALENDAR_HEADING_ROW + 1, 1 + index, spill(tree), {
          look: "entry",
          format: index === 0 ? "general" : "whole",
        }),
      ),
      ...headings(HEADING_ROW, PLAN_COLUMN, ["Practise", "Attempts to do", "Why"], PLAN_FORMATS),
      put(FIRST_ROW, PLAN_COLUMN, spill(plan(label)), { look: "entry" }),
      ...headings(HEADING_ROW, LATELY_COLUMN, LATELY_HEADINGS, LATELY_FORMATS),
      ...latelyFormulas(label).map((answer, index) =>
        put(FIRST_ROW, LATELY_COLUMN + index, spill(answer), {
          look: "entry",
          format: LATELY_FORMATS[index] ?? "general",
        }),
      ),
      put(1, COUNTDOWN_COLUMN, text("By the contest"), { look: "title" }),
      put(
        2,
        COUNTDOWN_COLUMN,
        text(
          "All athletes, the most pressing first. Sets left: at the pace of the latest four weeks, days off left out. A contest brings its own nerves: no figure here knows them.",
        ),
        { look: "note" },
      ),
      put(HEADING_ROW, COUNTDOWN_COLUMN, spill(toTheContest(label)), { look: "heading" }),
    ],
    tables: [],
    validations: [athlete.validation, ...validations()],
    rules: [
      ...statusRules({ row: FIRST_ROW, column: LATELY_COLUMN + 3, rows: ROOM_ROWS, columns: 1 }),
      ...statusRules({ row: FIRST_ROW, column: COUNTDOWN_COLUMN + 2, rows: BOARD_ROWS, columns: 1 }),
    ],
    charts: [],
    frozen: { rows: HEADING_ROW, columns: 0 },
    print: {
      orientation: "landscape",
      pagesWide: 1,
      repeatRows: HEADING_ROW,
      columns: [
        { first: 1, last: LATELY_COLUMN - 2 },
        { first: LATELY_COLUMN, last: LATELY_COLUMN + LATELY_HEADINGS.length - 1 },
        { first: COUNTDOWN_COLUMN, last: COUNTDOWN_COLUMN + COUNTDOWN_COLUMNS.length - 1 },
      ],
    },
  };
}

const PLAN_FORMATS: readonly NumberFormat[] = ["general", "whole", "general"];
const LATELY_HEADINGS = ["At the board's recent rate", "Would catch", "Of attempts", "Status", "Weight"];

const LOAD_CAUTIONS = [
  "Prompts to ask, not a verdict: how the athlete feels counts first,",
  "and a doctor's advice comes before anything on this sheet.",
];

function typed(row: number, words: string, content: Content, format: NumberFormat): readonly CellPlan[] {
  return [put(row, 1, text(words), { look: "label" }), put(row, 2, content, { look: "input", format })];
}

function answered(row: number, words: string, answer: Formula, format: NumberFormat): readonly CellPlan[] {
  return [put(row, 1, text(words), { look: "label" }), put(row, 2, formula(answer), { look: "answer", format })];
}

/* ---- the formulas ---- */

const chosenAthlete = cell(FIRST_ROW, 2);

/** The day that the coach typed, or the log's latest. Not today's: the same workbook shows the same figures tomorrow. */
function day(label: string): Formula {
  // A day that is no date must not hide the others.
  const latest = call("MAX", call("IFERROR", practiceColumn(label, PRACTICE.date), 0));
  const typedDay = cell(TYPED_DAY_ROW, 2);
  return call("IF", operation(typedDay, "<>", ""), typedDay, call("IF", operation(latest, "=", 0), "", latest));
}

function daysToContest(): Formula {
  const [contest, from] = [cell(NEXT_CONTEST_ROW, 2), cell(DAY_ROW, 2)];
  const isKnown = call("AND", call("ISNUMBER", contest), call("ISNUMBER", from));
  return call("IF", isKnown, operation(contest, "-", from), "");
}

/** The calendar's contests from the plan's day on, the next first: which, and in how many days. */
function contestsToCome(label: string): readonly Formula[] {
  const [day, name] = [calendarColumn(label, CALENDAR.day), calendarColumn(label, CALENDAR.contest)];
  const from = call("MAX", cell(DAY_ROW, 2));
  const isAhead = product(call("ISNUMBER", day), operation(day, ">=", from));
  const sorted = (what: Formula, otherwise: string): Formula => {
    const [shown, days] = [what, day].map((one) => call("FILTER", one, isAhead)) as [Formula, Formula];
    return call("IFERROR", call("SORTBY", shown, days), otherwise);
  };
  // A contest without a name is empty, not 0.
  const named = call("IF", operation(name, "=", ""), "Contest", name);
  return [sorted(named, "None on the Season sheet"), sorted(operation(day, "-", from), "")];
}

/** What other sheets show of this one: the day of the next contest, and the prompt for the last two weeks. */
export function nextContestOf(label: string): Formula {
  const contest = cell(NEXT_CONTEST_ROW, 2, sheetNames(label).week);
  return call("IF", operation(contest, "=", ""), "", contest);
}

export function taperOf(label: string): Formula {
  return operation(cell(TAPER_ROW, 1, sheetNames(label).week), "&", "");
}

/** A prompt, no rule: the figures are those of a meta-analysis of competitive athletes, mostly of endurance. */
function taper(): Formula {
  const toGo = cell(CONTEST_ROW, 2);
  const isSoon = call("AND", call("ISNUMBER", toGo), operation(toGo, ">=", 0), operation(toGo, "<=", TAPER_DAYS));
  return call("IF", isSoon, TAPER_WORDS, "");
}

/** The athlete's own over all rows with minutes; the usual one until there are any. */
function pace(label: string): Formula {
  const minutes = practiceColumn(label, PRACTICE.minutes);
  const timed = product(
    operation(practiceColumn(label, PRACTICE.athlete), "=", chosenAthlete),
    call("ISNUMBER", minutes),
    operation(minutes, ">", 0),
  );
  const attempts = call("SUM", call("INDEX", athleteByDay(label, chosenAthlete, timed), 0, HISTORY_ATTEMPTS));
  const all = call("SUM", call("IF", call("IFERROR", timed, 0), minutes, 0));
  return call("IFERROR", operation(attempts, "/", all), USUAL_ATTEMPTS_A_MINUTE);
}

function attemptsToShare(): Formula {
  const [minutes, typedAttempts] = [cell(MINUTES_ROW, 2), cell(TYPED_ATTEMPTS_ROW, 2)];
  const byMinutes = call("IF", operation(minutes, "=", ""), "", call("INT", product(minutes, cell(PACE_ROW, 2))));
  return call("IF", operation(typedAttempts, "<>", ""), typedAttempts, byMinutes);
}

function toTheContest(label: string): Formula {
  const contest = cell(NEXT_CONTEST_ROW, 2);
  const answer = twirl(
    "COUNTDOWN",
    ...logColumns(label),
    contest,
    setting(label, "standard"),
    setting(label, "setSize"),
    practiceColumn(label, PRACTICE.stage),
    cell(DAY_ROW, 2),
    leftOut,
    columns(tableNames(label).daysOff, DAYS_OFF.from, DAYS_OFF.to),
    setting(label, "practicesAWeek"),
  );
  const toGo = cell(CONTEST_ROW, 2);
  const isOver = call("AND", call("ISNUMBER", toGo), operation(toGo, "<", 0));
  return call(
    "IF",
    operation(contest, "=", ""),
    "Type a contest's date on the Season sheet.",
    call(
      "IF",
      isOver,
      "The contests of the Season sheet are over.",
      call("IFNA", answer, "Fills itself with the first set that is logged."),
    ),
  );
}

/** One column of what is left up to the contest, below its heading, for the formulas of other sheets. */
export function countdownColumn(label: string, heading: CountdownHeading): Formula {
  const column = COUNTDOWN_COLUMN + COUNTDOWN_COLUMNS.findIndex((one) => one.heading === heading);
  return cells({ row: FIRST_ROW, column }, { row: FIRST_ROW + BOARD_ROWS - 1, column }, sheetNames(label).week);
}

function load(label: string): Formula {
  const practised = product(
    operation(practiceColumn(label, PRACTICE.athlete), "=", chosenAthlete),
    operation(practiceColumn(label, PRACTICE.minutes), ">", 0),
    // A text is greater than any number, and no day.
    call("ISNUMBER", practiceColumn(label, PRACTICE.minutes)),
    call("ISNUMBER", practiceColumn(label, PRACTICE.date)),
  );
  const answer = twirl(
    "TRAININGLOAD",
    practiceWhere(label, PRACTICE.date, practised),
    practiceWhere(label, PRACTICE.minutes, practised),
    cell(AGE_ROW, 2),
    cell(DAY_ROW, 2),
  );
  return call(
    "IFNA",
    call("IF", operation(cell(AGE_ROW, 2), "=", ""), "Type the age.", answer),
    "Fills itself with logged minutes.",
  );
}

/** Three sets, or what is logged while that is less. */
function plannedAttempts(label: string): Formula {
  const attempts = boardColumn(label, "Attempts");
  const most = operation(PLANNED_SETS, "*", setting(label, "setSize"));
  return operation(
    product(operation(attempts, "<", most), attempts),
    "+",
    product(operation(attempts, ">=", most), most),
  );
}

const LATELY_FORMATS: readonly NumberFormat[] = ["general", "whole", "whole", "general", "twoDecimals"];

/** The chosen athlete's lines of the board: trick, what its recent rate comes to in three sets, status. */
function latelyFormulas(label: string): readonly Formula[] {
  const theirs = product(
    operation(boardColumn(label, "Athlete"), "=", chosenAthlete),
    operation(boardColumn(label, "Athlete"), "<>", ""),
  );
  const lines = (what: Formula): Formula => call("FILTER", what, theirs, "");
  const of = (heading: BoardHeading): Formula => boardColumn(label, heading);
  const caught = call("ROUND", product(of("Recent rate"), plannedAttempts(label)), 0);
  const weight = call("IF", operation(isDanced(label), ">", 0), 1, WEIGHT_OUTSIDE);
  return [lines(of("Trick")), lines(caught), lines(plannedAttempts(label)), lines(of("Status")), lines(weight)];
}

function plan(label: string): Formula {
  const lately = (index: number): Formula =>
    cells(
      { row: FIRST_ROW, column: LATELY_COLUMN + index },
      { row: FIRST_ROW + ROOM_ROWS - 1, column: LATELY_COLUMN + index },
    );
  const answer = twirl(
    "PRACTICEPLAN",
    lately(0),
    lately(1),
    lately(2),
    cell(ATTEMPTS_ROW, 2),
    setting(label, "standard"),
    setting(label, "setSize"),
    lately(4),
  );
  const words = "Fills itself once this athlete has logged a trick.";
  return call("IFNA", call("IF", operation(cell(ATTEMPTS_ROW, 2), "=", ""), "Type the minutes.", answer), words);
}

/* ---- what lies around ---- */

function validations(): readonly ValidationPlan[] {
  const at = (row: number): ValidationPlan["on"] => ({ row, column: 2, rows: 1, columns: 1 });
  return [
    {
      on: at(MINUTES_ROW),
      validation: {
        allowed: { kind: "number", ...MINUTES_LIMIT, whole: false },
        inputTitle: "Minutes",
        inputMessage:
          "For tricks, without warm-up and run-throughs. They become attempts by this athlete's own logged minutes.",
        errorMessage: "Type the minutes, from 0 to 1,440.",
      },
    },
    {
      on: at(TYPED_ATTEMPTS_ROW),
      validation: {
        allowed: { kind: "number", least: 0, most: 10_000, whole: true },
        inputTitle: "Attempts",
        inputMessage:
          "Instead of the minutes: all attempts of the practice together. The plan shares them out in whole sets.",
        errorMessage: "Type a whole number of attempts, or leave it empty for what the minutes allow.",
      },
    },
    {
      on: at(AGE_ROW),
      validation: {
        allowed: { kind: "number", least: 1, most: 120, whole: true },
        inputTitle: "Age",
        inputMessage: "Whole years are enough; no birth date belongs in this workbook.",
        errorMessage: "Type the age in whole years.",
      },
    },
    {
      on: at(TYPED_DAY_ROW),
      validation: {
        allowed: { kind: "date" },
        errorMessage: `Type a date, such as ${DAY_EXAMPLE}, or leave it empty for the latest practice.`,
      },
    },
  ];
}

function areas(): readonly AreaPlan[] {
  const area = (row: number, column: number, rows: number, format: NumberFormat, look: AreaPlan["look"]): AreaPlan => ({
    on: { row, column, rows, columns: 1 },
    look,
    format,
  });
  const loadFormats: readonly NumberFormat[] = ["oneDecimal", "whole", "oneDecimal", "percent", "general"];
  return [
    area(LOAD_ROW, 1, loadFormats.length, "general", "label"),
    ...loadFormats.map((format, index) => area(LOAD_ROW + index, 2, 1, format, "answer")),
    area(CALENDAR_HEADING_ROW + 1, 1, CALENDAR_ROOM_ROWS, "general", "entry"),
    area(CALENDAR_HEADING_ROW + 1, 2, CALENDAR_ROOM_ROWS, "whole", "entry"),
    ...PLAN_FORMATS.map((format, index) => area(FIRST_ROW, PLAN_COLUMN + index, ROOM_ROWS, format, "entry")),
    ...LATELY_FORMATS.map((format, index) => area(FIRST_ROW, LATELY_COLUMN + index, ROOM_ROWS, format, "entry")),
    ...spillArea({ row: HEADING_ROW, column: COUNTDOWN_COLUMN }, COUNTDOWN_COLUMNS, BOARD_ROWS),
  ];
}
