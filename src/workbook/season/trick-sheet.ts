/**
 * The Trick sheet: one athlete's one trick on a printed page, for when it keeps failing: how it stands, since when, at
 * which stage it breaks, whether it is the first try, which way in and out is best, what could stand in for it, and what to
 * do next. Its rows of the log stand to the right, where the page's formulas read them.
 */
import { RUNNING_CATCHES } from "../../core/progression";
import { RISK_BAILS } from "../../core/readiness";
import { MOST_DIFFERENT } from "../../core/ways";
import {
  cautionRow,
  formula,
  headingAreas,
  headings,
  put,
  sheetTitle,
  spill,
  statusRules,
  text,
} from "../plan/cell-plans";
import { call, cell, cells, column, leftOut, operation, product, twirl, type Formula } from "../plan/formula";
import type { AreaPlan, CellPlan, NumberFormat, SheetPlan } from "../plan/schema";
import {
  boardColumn,
  type BoardHeading,
  HISTORY_COLUMNS,
  HISTORY_ROOM_ROWS,
  historyChart,
  ROOM_ROWS,
  spillArea,
} from "./board-sheet";
import { athleteChoice, startingFocus, trickChoice } from "./choices";
import {
  isJoined,
  isJoinedStage,
  logColumns,
  practiceColumn,
  practiceWhere,
  type PracticeHeading,
} from "./joined-practice";
import { sheetNames, tableNames } from "./names";
import { PRACTICE } from "./practice-sheet";
import type { SeasonRecords } from "./records";
import { SWAPS } from "./routine-sheet";
import { setting } from "./season-sheet";
import type { SeasonSettings } from "./settings";
import { STAGES } from "../../trade/stages";
import { TRICK_HEADING, TRICKS } from "./tricks-sheet";
import { COUNTDOWN_HEADING_ROW, countdownColumn } from "./week-sheet";

const ATHLETE_ROW = 3;
const TRICK_ROW = 4;
const CHOICE_COLUMN = 2;

/* ---- where things stand, from the top of the page ---- */

const CARD_ROW = 7;
const CARD = ["Status", "Attempts", "Last set", "Recent rate", "Low", "High", "Chance", "Streak", "Best streak", "Bails in last set", "Next step"] as const; // prettier-ignore
const CARD_FORMATS: readonly NumberFormat[] = ["general", "whole", "general", "percent", "percent", "percent", "percent", "whole", "whole", "whole", "general"]; // prettier-ignore
const CHANGE_ROW = 20;
const CHANGE_FORMATS: readonly NumberFormat[] = ["general", "date", "date", "date", "percent", "percent", "percent", "general"]; // prettier-ignore
const STEPS_ROW = 30;
const EXPERIMENT_ROW = 39;
const OUT_ROW = 44;
const STAGES_ROW = 45;
const FIRST_TRIES_ROW = 55;
const ENTRANCES_ROW = 63;
const EXITS_ROW = 76;
const CANDIDATES_ROW = 89;
const CONDITIONS_ROW = 102;
/** So many ways in or out have room under their headings on the page, those most tried; all stand to the right of it. */
const WAYS_ROOM_ROWS = 10;
/** With a row or two for what cannot be read: WAYS takes no more different ones. */
const ALL_WAYS_ROOM_ROWS = MOST_DIFFERENT + 10;
const TOLD_COLUMN = 7;
const CONDITIONS_ROOM_ROWS = 60;
const TOSS_COLUMN = 4;
const CONTEST_COLUMN = 7;
/** The labels are wider than a column. */
const CONTEST_LABEL_COLUMNS = 2;
const CONTEST_FIGURES = [
  ["Practices left", "whole"],
  ["Sets left", "whole"],
  ["Chance on the day", "percent"],
  ["Last day to swap", "date"],
  ["What to do", "general"],
] as const satisfies readonly (readonly [string, NumberFormat])[];
/** So many have room on the page, the surest first; all stand to the right of it. */
const CANDIDATES_SHOWN_ROWS = 10;
const CANDIDATES_ROOM_ROWS = 60;
/** More than any trick has: where the trick's own counts are not known, every number of counts fits. */
const MANY_COUNTS = 1000;
const PAGE_COLUMNS = 11;
const CAUTION_COLUMNS = 8;

/* ---- to the right of the page: what its formulas read ---- */

const HISTORY_COLUMN = 13;
const ROWS_COLUMN = 21;
const JOINED_COLUMN = 29;
const FITTING_COLUMN = 34;
const WAYS_COLUMN = 36;
const CANDIDATES_COLUMN = 60;
const HELPER_ROW = 7;
/** How many rows of the log there are. */
const ROWS_LOGGED = { row: 3, column: ROWS_COLUMN + 1 } as const;
/** Rows of the log of one athlete's one trick: 1,000 sets. What would go beyond is told on the page, not lost in silence. */
const LOG_ROOM_ROWS = 1000;
const TOLD_ROW = 5;

interface LogColumn {
  readonly heading: PracticeHeading;
  readonly format: NumberFormat;
}

const ROWS: readonly LogColumn[] = [
  { heading: PRACTICE.date, format: "date" },
  { heading: PRACTICE.stage, format: "general" },
  { heading: PRACTICE.marks, format: "general" },
  { heading: PRACTICE.entrance, format: "general" },
  { heading: PRACTICE.exit, format: "general" },
  { heading: PRACTICE.condition, format: "general" },
  { heading: PRACTICE.note, format: "general" },
];
const JOINED: readonly LogColumn[] = [
  { heading: PRACTICE.date, format: "date" },
  { heading: PRACTICE.marks, format: "general" },
  { heading: PRACTICE.entrance, format: "general" },
  { heading: PRACTICE.exit, format: "general" },
];

const WAY_FORMATS: readonly NumberFormat[] = ["general", "whole", "whole", "percent", "percent", "percent", "percent", "percent", "percent", "percent", "general"]; // prettier-ignore
const CONDITION_FORMATS: readonly NumberFormat[] = ["general", "whole", "whole", "percent", "percent", "percent", "percent", "twoDecimals", "general"]; // prettier-ignore
const FIRST_TRY_FORMATS: readonly NumberFormat[] = ["general", "whole", "whole", "percent", "percent", "percent", "percent", "percent", "percent", "general"]; // prettier-ignore
const STAGE_FORMATS: readonly NumberFormat[] = ["general", "whole", "percent", "whole", "date", "general"];

export function trickSheet(settings: SeasonSettings, records: SeasonRecords): SheetPlan {
  const { label } = settings;
  const focus = startingFocus(settings, records);
  const athlete = athleteChoice(label, ATHLETE_ROW, 1, focus.athlete);
  const trick = trickChoice(label, TRICK_ROW, 1, focus.trick);
  return {
    name: sheetNames(label).trick,
    columnWidths: [
      ...[25, 24, 11, 15, 12, 10, 13, 11, 12, 11, 42, 3],
      ...HISTORY_COLUMNS.map(({ heading }) => (heading === "Date" ? 13 : 10)),
      ...[3, 13, 13, 18, 16, 16, 18, 40, 3, 13, 18, 16, 16, 3, 24],
      ...[ENTRANCES, EXITS].flatMap(() => [3, ...WAY_FORMATS.map((_, index) => (index === 0 ? 26 : 12))]),
      ...[3, 26, 12, 10, 10, 10],
    ],
    areas: areas(),
    cells: [
      ...sheetTitle(
        `Trick ${label}`,
        "One trick of one athlete that keeps failing, or is on its way back. The words are help for your judgement, never a verdict on anyone.",
      ),
      ...athlete.cells,
      ...trick.cells,
      ...cautionRow(
        3,
        4,
        CAUTION_COLUMNS,
        "Two bails end a set, and no experiment goes on through bails. Who balks at a trick is not drilled out of it: back a stage, or leave it for today.",
      ),
      ...cautionRow(
        4,
        4,
        CAUTION_COLUMNS,
        "Dizzy, in pain or struck: stop. A doctor's advice comes before this workbook's.",
      ),
      ...headings(CARD_ROW - 1, 1, ["How it stands", ""]),
      put(CARD_ROW, 1, spill(orWords(card(label), "Nothing logged yet.")), { look: "label" }),
      ...headings(CHANGE_ROW - 1, 1, ["Since when", ""]),
      put(CHANGE_ROW, 1, spill(orWords(twirl("CHANGEDAY", joined(PRACTICE.date), joined(PRACTICE.marks)), "A change can be told from the third practice day on.")), { look: "label" }), // prettier-ignore
      ...tossCells(label),
      ...contestCells(label),
      ...stepCells(),
      ...experimentCells(label),
      ...stageCells(label),
      put(FIRST_TRIES_ROW - 1, 1, text("First tries: a contest is a first toss"), { look: "label" }),
      put(FIRST_TRIES_ROW, 1, spill(orWords(twirl("FIRSTTRIES", joined(PRACTICE.date), joined(PRACTICE.marks)), "Nothing logged yet.")), { look: "heading" }), // prettier-ignore
      ...wayCells(ENTRANCES),
      ...wayCells(EXITS),
      put(
        CONDITIONS_ROW - 1,
        1,
        text("Conditions, over all tricks of this athlete: each trick is compared with itself"),
        {
          look: "label",
        },
      ),
      put(CONDITIONS_ROW, 1, spill(conditions(label)), { look: "heading" }),
      ...candidateCells(label),
      ...helperCells(label),
    ],
    tables: [],
    validations: [athlete.validation, trick.validation],
    rules: [
      ...statusRules({ row: CARD_ROW, column: 2, rows: 1, columns: 1 }),
      ...statusRules({ row: CANDIDATES_ROW + 1, column: 2, rows: CANDIDATES_SHOWN_ROWS, columns: 1 }),
    ],
    charts: [
      {
        ...historyChart({ row: HELPER_ROW - 1, column: HISTORY_COLUMN }),
        on: { row: CARD_ROW - 1, column: TOSS_COLUMN, rows: 11, columns: 8 },
      },
    ],
    frozen: { rows: TRICK_ROW, columns: 0 },
    print: {
      orientation: "portrait",
      pagesWide: 1,
      repeatRows: TRICK_ROW,
      columns: [
        { first: 1, last: PAGE_COLUMNS },
        { first: HISTORY_COLUMN, last: ROWS_COLUMN + ROWS.length - 1 },
      ],
    },
  };
}

/* ---- what is read ---- */

const ATHLETE = cell(ATHLETE_ROW, CHOICE_COLUMN);
const TRICK = cell(TRICK_ROW, CHOICE_COLUMN);

function orWords(answer: Formula, words: string): Formula {
  return call("IFNA", answer, words);
}

function isChosen(label: string): Formula {
  return product(
    operation(practiceColumn(label, PRACTICE.athlete), "=", ATHLETE),
    operation(practiceColumn(label, PRACTICE.trick), "=", TRICK),
  );
}

function helperColumn(columns: readonly LogColumn[], first: number, heading: PracticeHeading): Formula {
  const at = first + columns.findIndex((one) => one.heading === heading);
  return cells({ row: HELPER_ROW, column: at }, { row: HELPER_ROW + LOG_ROOM_ROWS - 1, column: at });
}

/** A column of the rows that count for the joined trick, as they stand to the right of the page. */
function joined(heading: PracticeHeading): Formula {
  return helperColumn(JOINED, JOINED_COLUMN, heading);
}

/** A column of all the trick's rows. */
function all(heading: PracticeHeading): Formula {
  return helperColumn(ROWS, ROWS_COLUMN, heading);
}

function card(label: string): Formula {
  return twirl(
    "READINESSCARD",
    joined(PRACTICE.marks),
    setting(label, "standard"),
    setting(label, "setSize"),
    leftOut,
    joined(PRACTICE.date),
  );
}

function cardValue(word: (typeof CARD)[number]): Formula {
  return cell(CARD_ROW + CARD.indexOf(word), 2);
}

/** The number in a cell, 0 where there is none: an empty text would be more than any number. */
function numberIn(at: Formula): Formula {
  return call("IF", call("ISNUMBER", at), at, 0);
}

/** The ways in, or out: where the page shows those most tried, and where all stand. */
interface Ways {
  readonly heading: PracticeHeading;
  readonly title: string;
  readonly titleOfAll: string;
  readonly none: string;
  readonly row: number;
  readonly column: number;
}

const ENTRANCES: Ways = {
  heading: PRACTICE.entrance,
  title: "Entrances, compared on the days on which both were tried",
  titleOfAll: "All entrances",
  none: "No entrance is noted yet.",
  row: ENTRANCES_ROW,
  column: WAYS_COLUMN,
};
const EXITS: Ways = {
  heading: PRACTICE.exit,
  title: "Exits, compared on the days on which both were tried",
  titleOfAll: "All exits",
  none: "No exit is noted yet.",
  row: EXITS_ROW,
  column: WAYS_COLUMN + WAY_FORMATS.length + 1,
};

/** One column of all the ways, below its heading. */
function allWays({ column: first }: Ways, column: number): Formula {
  const at = first + column - 1;
  return cells({ row: HELPER_ROW, column: at }, { row: HELPER_ROW + ALL_WAYS_ROOM_ROWS - 1, column: at });
}

function wayCells(of: Ways): readonly CellPlan[] {
  const shown = { row: of.row, rows: WAYS_ROOM_ROWS, columns: WAY_FORMATS.length, all: of.column };
  return shownFirst(of.title, shown, allWays(of, 1));
}

interface ShownFirst {
  readonly row: number;
  readonly rows: number;
  readonly columns: number;
  /** The column where all of them stand. */
  readonly all: number;
}

/** The first of a list that stands whole to the right of the page, with its headings, and how many more there are. */
function shownFirst(words: string, { row, rows, columns, all }: ShownFirst, names: Formula): readonly CellPlan[] {
  const [top, left] = [HELPER_ROW - 1, all];
  const shown = cells({ row: top, column: left }, { row: top + rows, column: left + columns - 1 });
  const more = operation(call("SUMPRODUCT", operation(operation(names, "<>", ""), "*", 1)), "-", rows);
  const told = operation(operation("and ", "&", more), "&", " more, to the right of the page");
  return [
    put(row - 1, 1, text(words), { look: "label" }),
    put(row - 1, TOLD_COLUMN, formula(call("IF", operation(more, ">", 0), told, "")), { look: "note" }),
    put(row, 1, spill(call("IF", operation(shown, "=", ""), "", shown)), { look: "heading" }),
  ];
}

/** All the ways, to the right of the page. */
function allWayCells(of: Ways): readonly CellPlan[] {
  const answer = twirl("WAYS", joined(of.heading), joined(PRACTICE.marks), joined(PRACTICE.date));
  return [
    put(1, of.column, text(of.titleOfAll), { look: "title" }),
    put(HELPER_ROW - 1, of.column, spill(orWords(answer, of.none)), { look: "heading" }),
  ];
}

function conditions(label: string): Formula {
  const own = product(operation(practiceColumn(label, PRACTICE.athlete), "=", ATHLETE), isJoined(label));
  const of = (heading: PracticeHeading): Formula => practiceWhere(label, heading, own);
  const answer = twirl(
    "CONDITIONS",
    of(PRACTICE.condition),
    of(PRACTICE.athlete),
    of(PRACTICE.trick),
    of(PRACTICE.marks),
  );
  return orWords(answer, "No condition is noted yet.");
}

function helperCells(label: string): readonly CellPlan[] {
  const history = twirl(
    "TRICKHISTORY",
    ...logColumns(label),
    ATHLETE,
    TRICK,
    setting(label, "standard"),
    leftOut,
    practiceColumn(label, PRACTICE.stage),
  );
  const block = (
    columns: readonly LogColumn[],
    first: number,
    where: (heading: PracticeHeading) => Formula,
  ): readonly CellPlan[] =>
    columns.flatMap(({ heading: words, format }, index) => [
      ...headings(HELPER_ROW - 1, first + index, [words], [format]),
      put(HELPER_ROW, first + index, spill(where(words)), { look: "entry", format }),
    ]);
  const chosen = isChosen(label);
  const rows = cell(ROWS_LOGGED.row, ROWS_LOGGED.column);
  const told = operation(
    operation(
      operation("This trick has ", "&", rows),
      "&",
      ` rows in the log, and only the first ${String(LOG_ROOM_ROWS)} of `,
    ),
    "&",
    "them are read on this page. The board reads all.",
  );
  // A row without its day does not count on the board either.
  const counts = product(operation(all(PRACTICE.date), "<>", ""), isJoinedStage(all(PRACTICE.stage)));
  return [
    put(1, HISTORY_COLUMN, text("Day by day"), { look: "title" }),
    put(HELPER_ROW - 1, HISTORY_COLUMN, spill(orWords(history, "Fills itself once this trick is logged.")), {
      look: "heading",
    }),
    put(1, ROWS_COLUMN, text("Its rows of the log"), { look: "title" }),
    put(TOLD_ROW, 1, formula(call("IF", operation(rows, ">", LOG_ROOM_ROWS), told, "")), { look: "label" }),
    put(ROWS_LOGGED.row, ROWS_LOGGED.column - 1, text("Rows"), { look: "label" }),
    put(ROWS_LOGGED.row, ROWS_LOGGED.column, formula(call("SUMPRODUCT", call("IFERROR", chosen, 0))), {
      look: "answer",
      format: "whole",
    }),
    ...block(ROWS, ROWS_COLUMN, (heading) => rowsWhere(label, heading, chosen)),
    put(1, JOINED_COLUMN, text("Those of the joined trick"), { look: "title" }),
    // Out of the few rows beside them, not out of the whole log again. They stand as in the log: what reads them takes the days.
    ...block(JOINED, JOINED_COLUMN, (heading) =>
      call("FILTER", heading === PRACTICE.date ? all(heading) : operation(all(heading), "&", ""), counts, ""),
    ),
    put(1, FITTING_COLUMN, text("Board lines that could stand in"), { look: "title" }),
    ...headings(HELPER_ROW - 1, FITTING_COLUMN, ["Could stand in"], ["whole"]),
    put(HELPER_ROW, FITTING_COLUMN, spill(fitting(label)), { look: "entry", format: "whole" }),
    ...allWayCells(ENTRANCES),
    ...allWayCells(EXITS),
  ];
}

/** A cell that is empty would come back as 0 where words stand. */
function rowsWhere(label: string, heading: PracticeHeading, condition: Formula): Formula {
  if (heading === PRACTICE.date) return practiceWhere(label, heading, condition);
  const words = operation(practiceColumn(label, heading), "&", "");
  return call("FILTER", words, call("IFERROR", condition, 0), "");
}

/* ---- the toss ---- */

function onTricks(label: string, heading: string): Formula {
  const { tricks } = tableNames(label);
  const found = call("XLOOKUP", TRICK, column(tricks, TRICK_HEADING), column(tricks, heading), "");
  return call("IF", operation(found, "=", ""), "", found);
}

function tossCells(label: string): readonly CellPlan[] {
  const figures: readonly (readonly [string, string, NumberFormat])[] = [
    ["Counts", TRICKS.counts, "number"],
    ["Airtime (s)", "Airtime (s)", "twoDecimals"],
    ["Rise", "Rise", "oneDecimal"],
    ["Travel", TRICKS.travel, "oneDecimal"],
    ["Clears ceiling", "Clears ceiling", "general"],
  ];
  return [
    ...headings(CHANGE_ROW - 1, TOSS_COLUMN, ["Its toss", ""]),
    ...figures.flatMap(([words, of, format], index) => [
      put(CHANGE_ROW + index, TOSS_COLUMN, text(words), { look: "label" }),
      put(CHANGE_ROW + index, TOSS_COLUMN + 1, formula(onTricks(label, of)), { look: "answer", format }),
    ]),
  ];
}

/* ---- by the contest ---- */

/** What the Week sheet counts down for this athlete's trick; empty while it does not stand there. */
function contestCells(label: string): readonly CellPlan[] {
  const line = cell(CHANGE_ROW + CONTEST_FIGURES.length, CONTEST_COLUMN + CONTEST_LABEL_COLUMNS);
  const theirs = product(
    operation(countdownColumn(label, "Athlete"), "=", ATHLETE),
    operation(countdownColumn(label, "Trick"), "=", TRICK),
  );
  const place = operation(call("ROW", countdownColumn(label, "Athlete")), "-", COUNTDOWN_HEADING_ROW);
  const value = (heading: (typeof CONTEST_FIGURES)[number][0]): Formula =>
    call("IF", operation(line, "=", 0), "", call("INDEX", countdownColumn(label, heading), line));
  return [
    ...headings(CHANGE_ROW - 1, CONTEST_COLUMN, ["By the contest", "", ""]),
    ...CONTEST_FIGURES.flatMap(([heading, format], index) => [
      put(CHANGE_ROW + index, CONTEST_COLUMN, text(heading), { look: "label" }),
      put(CHANGE_ROW + index, CONTEST_COLUMN + CONTEST_LABEL_COLUMNS, formula(value(heading)), {
        look: "answer",
        format,
      }),
    ]),
    put(CHANGE_ROW + CONTEST_FIGURES.length, CONTEST_COLUMN, text("Line on the Week sheet"), { look: "note" }),
    put(
      CHANGE_ROW + CONTEST_FIGURES.length,
      CONTEST_COLUMN + CONTEST_LABEL_COLUMNS,
      formula(call("SUMPRODUCT", product(theirs, place))),
      { look: "answer", format: "whole" },
    ),
  ];
}

/* ---- what to do next ---- */

function betterWay(of: Ways): { readonly found: Formula; readonly name: Formula; readonly tried: Formula } {
  const verdicts = allWays(of, WAY_FORMATS.length);
  return {
    found: call("COUNTIFS", verdicts, "better"),
    name: call("INDEX", allWays(of, 1), call("MATCH", "better", verdicts, 0)),
    tried: operation(
      call("COUNTIFS", verdicts, "not clear yet"),
      "+",
      call("COUNTIFS", verdicts, "never on the same day"),
    ),
  };
}

const OUT = cell(OUT_ROW, 2);
const IS_OUT = call("ISNUMBER", OUT);

function stageCell(stage: (typeof STAGES)[number], column: number): Formula {
  return cell(STAGES_ROW + 1 + STAGES.indexOf(stage), column);
}

const text0: Formula = { kind: "text", text: "" };

/** The first stage with something left, in words; empty where all are done. */
function firstLeft(): Formula {
  return [...STAGES].reverse().reduce<Formula>((after, stage) => {
    if (stage === "Contest") return after;
    const left = stageCell(stage, STAGE_FORMATS.length);
    return call("IF", operation(left, "<>", ""), operation(`${stage}: `, "&", left), after);
  }, text0);
}

/** Where nothing is logged since it was taken out there are no stages, and not everything is done. */
function leftSince(): Formula {
  const isCounted = operation(cell(STAGES_ROW + 1, 1), "=", STAGES[0]);
  return call("IF", isCounted, firstLeft(), "Nothing logged since then: begin with Body only.");
}

const BAILED = operation(numberIn(cardValue("Bails in last set")), ">=", RISK_BAILS);
const STOP = "Two bails: do not push repetitions. Body and toss apart until both feel safe.";
const STREAK = call("MAX", 0, numberIn(cardValue("Streak")));
const [ENTRANCE, EXIT] = [betterWay(ENTRANCES), betterWay(EXITS)];
/** What is left between its neighbours, and of every stage since it was taken out. */
const BETWEEN = stageCell("In context", STAGE_FORMATS.length);
const LEFT = cell(STEPS_ROW + 7, 2);

/** What each step of the trade says now, in the order in which the trade acts. */
function stepAnswers(): readonly (readonly [string, Formula])[] {
  const running = call(
    "IF",
    operation(STREAK, ">=", RUNNING_CATCHES),
    operation(operation("Done: ", "&", STREAK), "&", " caught running."),
    operation(operation(operation("", "&", STREAK), "&", " caught running: "), "&", operation(operation(RUNNING_CATCHES, "-", STREAK), "&", " more. Two bails end it.")), // prettier-ignore
  );
  const neighbours = call(
    "IF",
    operation(BETWEEN, "<>", ""),
    BETWEEN,
    call(
      "IF",
      call("ISNUMBER", stageCell("In context", 5)),
      "Done: five running with the trick before and the trick after.",
      "Not begun: five running with the trick before and the trick after.",
    ),
  );
  const candidate = cell(HELPER_ROW, CANDIDATES_COLUMN);
  const safer = call(
    "IF",
    operation(cell(HELPER_ROW, CANDIDATES_COLUMN + 1), "=", ""),
    "None of this athlete's tricks is Ready and has as few counts.",
    operation(candidate, "&", " could stand in: see the list below. Write the swap on the Routine sheet."),
  );
  const retrain = call(
    "IF",
    IS_OUT,
    call("IF", operation(LEFT, "=", ""), "Done: every stage since it was taken out.", LEFT),
    "Once it is out: body and toss apart, then joined, then between its neighbours. No pressure of the routine meanwhile.",
  );
  const back = call(
    "IF",
    IS_OUT,
    call(
      "IF",
      operation(LEFT, "=", ""),
      "It may come back: write the day under Back on, on the Routine sheet.",
      "Not yet: see the stages below.",
    ),
    "It is not out of the routine.",
  );
  return [
    ["1  Five running", call("IF", BAILED, STOP, running)],
    ["2  Between its neighbours", call("IF", BAILED, "Not now.", neighbours)],
    ["3  Another way in or out", call("IF", BAILED, "Not now: no experiment goes on through bails.", anotherWay())],
    ["4  A safer trick", safer],
    ["5  Retrain", retrain],
    ["6  Back in", back],
  ];
}

function anotherWay(): Formula {
  const better = ({ found, name }: ReturnType<typeof betterWay>, what: string, otherwise: Formula): Formula =>
    call("IF", operation(found, ">", 0), operation(operation(`${what} `, "&", name), "&", " is caught more often than the usual one: take it."), otherwise); // prettier-ignore
  const undecided = call(
    "IF",
    operation(operation(ENTRANCE.tried, "+", EXIT.tried), ">", 0),
    "Not clear yet: go on alternating the two within a practice, as below.",
    "One way only so far: try another, alternating the two within a practice, as below.",
  );
  return better(ENTRANCE, "Entrance", better(EXIT, "Exit", undecided));
}

/** The one step that comes next. */
function nextStep(steps: readonly (readonly [string, Formula])[]): Formula {
  const at = (step: number): Formula => operation(steps[step - 1]?.[0] ?? "", "&", operation(": ", "&", cell(STEPS_ROW + step - 1, 2))); // prettier-ignore
  const status = cardValue("Status");
  const holds = call("OR", operation(status, "=", "Ready"), operation(status, "=", "Solid"));
  const foundBetter = operation(operation(ENTRANCE.found, "+", EXIT.found), ">", 0);
  const atRisk = call(
    "IF",
    operation(STREAK, "<", RUNNING_CATCHES),
    at(1),
    call("IF", operation(BETWEEN, "<>", ""), at(2), call("IF", foundBetter, at(3), at(4))),
  );
  const inRoutine = call(
    "IF",
    holds,
    "It holds: keep it warm with one set a practice.",
    call("IF", operation(status, "<>", "At risk"), cardValue("Next step"), atRisk),
  );
  const out = call("IF", operation(LEFT, "=", ""), at(6), at(5));
  return call("IF", BAILED, STOP, call("IF", IS_OUT, out, inRoutine));
}

function stepCells(): readonly CellPlan[] {
  const steps = stepAnswers();
  return [
    ...headings(STEPS_ROW - 1, 1, ["What to do, in this order", ""]),
    ...steps.flatMap(([words, answer], index) => [
      put(STEPS_ROW + index, 1, text(words), { look: "label" }),
      put(STEPS_ROW + index, 2, formula(answer), { look: "entry" }),
    ]),
    put(STEPS_ROW + 6, 1, text("Next"), { look: "label" }),
    put(STEPS_ROW + 6, 2, formula(nextStep(steps)), { look: "label" }),
    put(STEPS_ROW + 7, 1, text("Left since it is out"), { look: "note" }),
    put(STEPS_ROW + 7, 2, formula(call("IF", IS_OUT, leftSince(), "")), { look: "note" }),
  ];
}

/** How many tries of each of two ways it takes to tell the rate now from the one that is hoped for. */
function experimentCells(label: string): readonly CellPlan[] {
  const now = cardValue("Recent rate");
  const hoped = cell(EXPERIMENT_ROW, 2);
  const tries = call("IF", call("ISNUMBER", now), orWords(twirl("TELLAPART", now, hoped), ""), "");
  return [
    ...headings(EXPERIMENT_ROW - 1, 1, ["An experiment", ""]),
    put(EXPERIMENT_ROW, 1, text("Rate hoped for"), { look: "label" }),
    put(EXPERIMENT_ROW, 2, formula(setting(label, "standard")), { look: "input", format: "percent" }),
    put(EXPERIMENT_ROW + 1, 1, text("Tries of each way"), { look: "label" }),
    put(EXPERIMENT_ROW + 1, 2, formula(tries), { look: "answer", format: "whole" }),
    put(
      EXPERIMENT_ROW + 1,
      3,
      text(
        "to tell that rate from the present one, eight times in ten. Small differences take hundreds: then choose by feel.",
      ),
      { look: "note" },
    ),
    put(
      EXPERIMENT_ROW + 2,
      1,
      text(
        "Two ways, named alike each time in the log; a few tries of one, a few of the other, within each practice, never one a day. What came of it stands under Entrances and Exits.",
      ),
      { look: "note" },
    ),
  ];
}

/* ---- the stages ---- */

function stageCells(label: string): readonly CellPlan[] {
  const { swaps } = tableNames(label);
  const open = product(
    operation(column(swaps, SWAPS.athlete), "=", ATHLETE),
    operation(column(swaps, SWAPS.out), "=", TRICK),
    operation(column(swaps, SWAPS.back), "=", ""),
    column(swaps, SWAPS.day),
  );
  const since = call("MAX", call("IFERROR", open, 0));
  const progression = twirl(
    "PROGRESSION",
    all(PRACTICE.date),
    all(PRACTICE.stage),
    all(PRACTICE.marks),
    setting(label, "standard"),
    setting(label, "setSize"),
    call("IF", IS_OUT, OUT, 0),
  );
  return [
    put(OUT_ROW, 1, text("Out of the routine since"), { look: "label" }),
    put(OUT_ROW, 2, formula(call("IF", operation(since, ">", 0), since, "")), { look: "answer", format: "date" }),
    put(OUT_ROW, 3, formula(call("IF", IS_OUT, "Its way back: only what was logged from that day on counts below.", "Stages of learning: done, and what is left.")), { look: "note" }), // prettier-ignore
    put(STAGES_ROW, 1, spill(orWords(progression, "Nothing logged yet, or nothing since it was taken out.")), {
      look: "heading",
    }),
  ];
}

/* ---- what could stand in ---- */

/** Of each line of the board 1 where it is this athlete's, holds, and has no more counts than the trick has; else 0. */
function fitting(label: string): Formula {
  const { tricks } = tableNames(label);
  const [trick, status] = [boardColumn(label, "Trick"), boardColumn(label, "Status")];
  const own = cell(CHANGE_ROW, TOSS_COLUMN + 1);
  const most = call("IF", call("ISNUMBER", own), own, MANY_COUNTS);
  // "" where the trick or its counts are not known, and a text is more than any number.
  const counts = call("XLOOKUP", trick, column(tricks, TRICK_HEADING), column(tricks, TRICKS.counts), "");
  const fits = product(call("ISNUMBER", counts), operation(counts, "<=", most));
  return product(
    operation(boardColumn(label, "Athlete"), "=", ATHLETE),
    operation(trick, "<>", TRICK),
    operation(operation(status, "=", "Ready"), "+", operation(status, "=", "Solid")),
    operation(fits, ">", 0),
  );
}

const CANDIDATE_FORMATS: readonly NumberFormat[] = ["general", "general", "percent", "number", "number"];

function candidateCells(label: string): readonly CellPlan[] {
  const { tricks } = tableNames(label);
  const fits = cells(
    { row: HELPER_ROW, column: FITTING_COLUMN },
    { row: HELPER_ROW + ROOM_ROWS - 1, column: FITTING_COLUMN },
  );
  const found = cells(
    { row: HELPER_ROW, column: CANDIDATES_COLUMN },
    { row: HELPER_ROW + CANDIDATES_ROOM_ROWS - 1, column: CANDIDATES_COLUMN },
  );
  const lines = (heading: BoardHeading): Formula => call("FILTER", boardColumn(label, heading), fits);
  // The one that is surest to be caught first.
  const onBoard = (heading: BoardHeading, otherwise: string): Formula =>
    call("IFERROR", call("SORTBY", lines(heading), lines("Low"), -1), otherwise);
  const ofTrick = (heading: string): Formula => {
    const known = call("XLOOKUP", found, column(tricks, TRICK_HEADING), column(tricks, heading), "");
    return call("IF", operation(found, "=", ""), "", known);
  };
  const columns: readonly (readonly [string, Formula])[] = [
    ["What could stand in", onBoard("Trick", "None that is Ready")],
    ["Status", onBoard("Status", "")],
    ["Rate", onBoard("Recent rate", "")],
    ["Counts", ofTrick(TRICKS.counts)],
    ["Value", operation(ofTrick(TRICKS.value), "&", "")],
  ];
  const shown = { row: CANDIDATES_ROW, rows: CANDIDATES_SHOWN_ROWS, columns: columns.length, all: CANDIDATES_COLUMN };
  return [
    ...shownFirst("What could stand in: this athlete's own Ready and Solid tricks of no more counts", shown, found),
    put(1, CANDIDATES_COLUMN, text("All that could stand in"), { look: "title" }),
    ...columns.flatMap(([words, values], index) => [
      ...headings(HELPER_ROW - 1, CANDIDATES_COLUMN + index, [words], [CANDIDATE_FORMATS[index] ?? "general"]),
      put(HELPER_ROW, CANDIDATES_COLUMN + index, spill(values), {
        look: "entry",
        format: CANDIDATE_FORMATS[index] ?? "general",
      }),
    ]),
  ];
}

/* ---- what lies around ---- */

function areas(): readonly AreaPlan[] {
  const down = (row: number, formats: readonly NumberFormat[], column: number): readonly AreaPlan[] =>
    formats.map((format, index) => ({ on: { row: row + index, column, rows: 1, columns: 1 }, look: "answer", format }));
  const labels = (row: number, rows: number): AreaPlan => ({
    on: { row, column: 1, rows, columns: 1 },
    look: "label",
    format: "general",
  });
  const table = (row: number, formats: readonly NumberFormat[], rows: number, column = 1): readonly AreaPlan[] => [
    ...headingAreas({ row, column }, formats),
    ...formats.map((format, index): AreaPlan => ({
      on: { row: row + 1, column: column + index, rows, columns: 1 },
      look: "entry",
      format,
    })),
  ];
  const block = (columns: readonly LogColumn[], first: number): readonly AreaPlan[] =>
    columns.map(({ format }, index) => ({
      on: { row: HELPER_ROW, column: first + index, rows: LOG_ROOM_ROWS, columns: 1 },
      look: "entry",
      format,
    }));
  return [
    labels(CARD_ROW, CARD.length),
    ...down(CARD_ROW, CARD_FORMATS, 2),
    labels(CHANGE_ROW, CHANGE_FORMATS.length),
    ...down(CHANGE_ROW, CHANGE_FORMATS, 2),
    ...table(STAGES_ROW, STAGE_FORMATS, STAGES.length),
    ...table(FIRST_TRIES_ROW, FIRST_TRY_FORMATS, 5),
    ...table(ENTRANCES_ROW, WAY_FORMATS, WAYS_ROOM_ROWS),
    ...table(EXITS_ROW, WAY_FORMATS, WAYS_ROOM_ROWS),
    ...[ENTRANCES, EXITS].flatMap((of) => table(HELPER_ROW - 1, WAY_FORMATS, ALL_WAYS_ROOM_ROWS, of.column)),
    ...table(CONDITIONS_ROW, CONDITION_FORMATS, CONDITIONS_ROOM_ROWS),
    ...table(CANDIDATES_ROW, CANDIDATE_FORMATS, CANDIDATES_SHOWN_ROWS),
    ...table(HELPER_ROW - 1, CANDIDATE_FORMATS, CANDIDATES_ROOM_ROWS, CANDIDATES_COLUMN),
    ...spillArea({ row: HELPER_ROW - 1, column: HISTORY_COLUMN }, HISTORY_COLUMNS, HISTORY_ROOM_ROWS),
    ...block(ROWS, ROWS_COLUMN),
    ...block(JOINED, JOINED_COLUMN),
    {
      on: { row: HELPER_ROW, column: FITTING_COLUMN, rows: ROOM_ROWS, columns: 1 },
      look: "entry",
      format: "whole",
    },
  ];
}
