/**
 * The Contests sheet: what happened, against what practice said. The results' table and the athletes' both grow
 * downwards, so everything else stands to their right.
 */
import {
  date,
  empty,
  formula,
  headingAreas,
  headings,
  number,
  put,
  rowsOrEmpty,
  sheetTitle,
  spill,
  text,
} from "../plan/cell-plans";
import { call, cell, cells, column, leftOut, operation, product, thisRow, twirl, type Formula } from "../plan/formula";
import type { AreaPlan, CellPlan, Content, NumberFormat, SheetPlan, TableColumn, TablePlan } from "../plan/schema";
import { boardColumn, boardLines, HISTORY_HEADING, whileEmpty } from "./board-sheet";
import { athleteChoice, startingFocus } from "./choices";
import { athleteByDay, isJoined, marksWhere, practiceColumn } from "./joined-practice";
import { athleteColumn, dateColumn } from "./columns";
import { sheetNames, tableNames } from "./names";
import { PRACTICE } from "./practice-sheet";
import type { ContestEntry, SeasonRecords } from "./records";
import { ROUTINE } from "./routine-sheet";
import { setting } from "./season-sheet";
import type { SeasonSettings } from "./settings";

/** The headings of the contests, for what reads them. */
export const CONTEST = {
  date: "Date",
  contest: "Contest",
  athlete: "Athlete",
  tosses: "Tosses",
  drops: "Drops",
  score: "Score",
  penalties: "Penalties",
  note: "Note",
} as const;

const DROPS = {
  athlete: "Athlete",
  contests: "Contests",
  tosses: "Tosses",
  drops: "Drops",
  each: "Drops each",
  predicted: "Predicted each",
  rated: "Tosses rated",
  spread: "Spread",
} as const;

const TABLE_ROW = 5;
const DROPS_COLUMN = 10;
const COMPARE_COLUMN = 19;
const ATHLETE_ROW = TABLE_ROW + 1;
const STAGE_ROW = TABLE_ROW + 2;
const PRACTICE_ROW = TABLE_ROW + 3;
const COMPARE_ROW = TABLE_ROW + 9;
const DROPS_HEADING_ROW = COMPARE_ROW + 2;
const SEASON_HEADING_ROW = DROPS_HEADING_ROW + 4;
const SEASON_DROPS_ROW = SEASON_HEADING_ROW + 2;
const LOW_ROW = SEASON_DROPS_ROW + 2;
const DAYS_COLUMN = 25;
const DAYS_ANCHOR = { row: TABLE_ROW, column: DAYS_COLUMN } as const;
const NO_DAYS = "Fills itself once such practice is logged.";
const DAYS_ROOM_ROWS = 200;
const DAY_FORMATS: readonly NumberFormat[] = ["date", "whole", "whole", "percent", "percent", "percent", "percent"];

const COMPARE_HEADINGS = ["Contests less practice", "Low", "High", "By chance", "In words"] as const;
const COMPARE_FORMATS: readonly NumberFormat[] = ["percent", "percent", "percent", "twoDecimals", "general"];
const COMPARE_WORDS = COMPARE_HEADINGS.length - 1;

/**
 * `All joined` are the stages that the board counts, the contest itself left out; `First tries` the first attempt of each
 * day at each trick among them, since a contest's tosses are first tries.
 */
const COUNTED = ["First tries", "Run-through", "In context", "Joined", "All joined"] as const;
const [FIRST_TRIES] = COUNTED;
/** Of what FIRSTTRIES fills. */
const [TRIES_COLUMN, CAUGHT_COLUMN] = [2, 3] as const;

export function contestsSheet(settings: SeasonSettings, records: SeasonRecords): SheetPlan {
  const { label } = settings;
  const athlete = athleteChoice(label, ATHLETE_ROW, COMPARE_COLUMN, startingFocus(settings, records).athlete);
  return {
    name: sheetNames(label).contests,
    columnWidths: [
      ...[14, 30, 12, 13, 12, 12, 15, 40, 3],
      ...[12, 15, 13, 12, 17, 20, 18, 12, 3],
      ...[30, 16, 10, 10, 60, 3],
      ...[14, 10, 10, 8, 8, 8, 10],
    ],
    areas: areas(),
    cells: [
      ...sheetTitle(
        `Contests ${label}`,
        "One row an athlete and contest. To the right: what practice predicted and what happened, by athlete and over the season.",
      ),
      put(
        3,
        1,
        text(
          "A drop more or less than predicted is chance. A season of them is not: then look at nerves, hall and tempo.",
        ),
        { look: "note" },
      ),
      ...athlete.cells,
      ...compareCells(label),
      ...dropCells(label),
      put(TABLE_ROW - 1, DAYS_COLUMN, text("The practice that is counted"), { look: "label" }),
      put(TABLE_ROW, DAYS_COLUMN, spill(countedPractice(label)), HISTORY_HEADING),
      put(TABLE_ROW - 2, DAYS_COLUMN, formula(whileEmpty(DAYS_ANCHOR, NO_DAYS)), { look: "note" }),
    ],
    tables: [contestTable(label, records), dropsTable(settings)],
    validations: [
      athlete.validation,
      {
        on: { row: STAGE_ROW, column: COMPARE_COLUMN + 1, rows: 1, columns: 1 },
        validation: {
          allowed: { kind: "list", source: { kind: "words", words: COUNTED }, strict: true },
          inputTitle: "Practice counted",
          inputMessage:
            "A contest's tosses are first tries: the first attempt of the day at each trick. Run-throughs are like a contest too. All joined counts tricks that are still being learned as well.",
          errorMessage: `Choose one of: ${COUNTED.join(", ")}.`,
        },
      },
    ],
    rules: [],
    charts: [],
    frozen: { rows: TABLE_ROW, columns: 0 },
    print: {
      orientation: "landscape",
      pagesWide: 1,
      repeatRows: TABLE_ROW,
      columns: [
        { first: 1, last: DROPS_COLUMN - 2 },
        { first: DROPS_COLUMN, last: COMPARE_COLUMN - 2 },
        { first: COMPARE_COLUMN, last: DAYS_COLUMN - 2 },
        { first: DAYS_COLUMN, last: DAYS_COLUMN + 6 },
      ],
    },
  };
}

/* ---- the tables ---- */

function contestTable(label: string, records: SeasonRecords): TablePlan {
  const columns = contestColumns(label);
  return {
    name: tableNames(label).contests,
    at: { row: TABLE_ROW, column: 1 },
    columns,
    rows: rowsOrEmpty(columns, records.contests.map(contestRow)),
  };
}

function contestRow(entry: ContestEntry): readonly Content[] {
  return [
    date(entry.date),
    text(entry.contest),
    text(entry.athlete),
    number(entry.tosses),
    number(entry.drops),
    entry.score === null ? empty : number(entry.score),
    entry.penalties === null ? empty : number(entry.penalties),
    entry.note === "" ? empty : text(entry.note),
  ];
}

function contestColumns(label: string): readonly TableColumn[] {
  const counted = (heading: string, words: string): TableColumn => ({
    heading,
    format: "number",
    validation: { allowed: { kind: "number", least: 0, most: 1000, whole: true }, errorMessage: words },
  });
  const points = (heading: string): TableColumn => ({
    heading,
    format: "number",
    validation: {
      allowed: { kind: "number", least: 0, most: 1_000_000, whole: false },
      errorMessage: "Type points, or leave it empty.",
    },
  });
  return [
    dateColumn(CONTEST.date, "contest"),
    { heading: CONTEST.contest, format: "text" },
    athleteColumn(label, CONTEST.athlete),
    counted(CONTEST.tosses, "Type how many tosses the routine had."),
    counted(CONTEST.drops, "Type how many of them were dropped."),
    points(CONTEST.score),
    points(CONTEST.penalties),
    { heading: CONTEST.note, format: "text" },
  ];
}

/** Plain sums, a row an athlete: predicted is what EXPECTEDDROPS says of the same rates. */
function dropsTable({ label, athletes }: SeasonSettings): TablePlan {
  const names = tableNames(label);
  const here = (heading: string): Formula => thisRow(names.dropsByAthlete, heading);
  const results = (heading: string): Formula => column(names.contests, heading);
  const summed = (heading: string): Formula =>
    call("SUMIFS", results(heading), results(CONTEST.athlete), here(DROPS.athlete));
  // The athlete's line of the board for each line of the routine: its tosses are few, the board's lines many.
  const linesOf = boardLines(label, here(DROPS.athlete), column(names.routine, ROUTINE.trick));
  return {
    name: names.dropsByAthlete,
    at: { row: TABLE_ROW, column: DROPS_COLUMN },
    columns: [
      { heading: DROPS.athlete, format: "text" },
      {
        heading: DROPS.contests,
        format: "number",
        formula: call("COUNTIFS", results(CONTEST.athlete), here(DROPS.athlete)),
      },
      { heading: DROPS.tosses, format: "number", formula: summed(CONTEST.tosses) },
      { heading: DROPS.drops, format: "number", formula: summed(CONTEST.drops) },
      {
        heading: DROPS.each,
        format: "twoDecimals",
        formula: call(
          "IF",
          operation(here(DROPS.contests), "=", 0),
          "",
          operation(here(DROPS.drops), "/", here(DROPS.contests)),
        ),
      },
      {
        heading: DROPS.predicted,
        format: "twoDecimals",
        formula: call(
          "IF",
          operation(here(DROPS.rated), "=", 0),
          "",
          operation(
            here(DROPS.rated),
            "-",
            call("SUMPRODUCT", call("SUMIFS", boardColumn(label, "Recent rate"), ...linesOf)),
          ),
        ),
      },
      { heading: DROPS.rated, format: "number", formula: call("SUMPRODUCT", call("COUNTIFS", ...linesOf)) },
      { heading: DROPS.spread, format: "twoDecimals", formula: spreadOfOne(label, here) },
    ],
    rows: athletes.map((athlete) => [text(athlete.trim()), ...Array.from({ length: 7 }, () => empty)]),
  };
}

/**
 * How far one routine's drops lie from the predicted, by chance alone: the standard deviation of a Poisson binomial
 * distribution (Hong 2013, Computational Statistics and Data Analysis 59:41-51), tosses taken as independent.
 */
function spreadOfOne(label: string, here: (heading: string) => Formula): Formula {
  const rate = boardColumn(label, "Recent rate");
  const theirs = product(operation(boardColumn(label, "Athlete"), "=", here(DROPS.athlete)), timesInRoutine(label));
  const caught = operation(here(DROPS.rated), "-", here(DROPS.predicted));
  const squares = call("SUMPRODUCT", theirs, rate, rate);
  // Rounding may leave less than nothing where every toss is caught.
  const variance = call("MAX", 0, operation(caught, "-", squares));
  return call("IF", operation(here(DROPS.rated), "=", 0), "", call("SQRT", variance));
}

/** How often each line of the board has its trick in the routine. */
function timesInRoutine(label: string): Formula {
  // The sign in front keeps a trick whose name begins with one from being read as a condition.
  const trick = operation("=", "&", boardColumn(label, "Trick"));
  return call("COUNTIFS", column(tableNames(label).routine, ROUTINE.trick), trick);
}

/* ---- practice against contest ---- */

const chosenAthlete = cell(ATHLETE_ROW, COMPARE_COLUMN + 1);
const value = (row: number): Formula => cell(row, COMPARE_COLUMN + 1);

const isFirstTries = operation(value(STAGE_ROW), "=", FIRST_TRIES);

/** 1 in each row of the log that is counted: the chosen athlete's, of the chosen stage. */
function countedRows(label: string): Formula {
  const stage = practiceColumn(label, PRACTICE.stage);
  const counted = value(STAGE_ROW);
  const allJoined = product(operation(stage, "<>", "Contest"), isJoined(label));
  const isOneStage = product(operation(counted, "<>", "All joined"), operation(counted, "<>", FIRST_TRIES));
  return product(
    operation(practiceColumn(label, PRACTICE.athlete), "=", chosenAthlete),
    call("IF", operation(isOneStage, "=", 0), allJoined, operation(stage, "=", counted)),
  );
}

/** The days that are counted; or the first tries and the others, where those are. */
function countedPractice(label: string): Formula {
  const tree = athleteByDay(label, chosenAthlete, countedRows(label), setting(label, "standard"));
  const firstTries = twirl(
    "FIRSTTRIES",
    practiceColumn(label, PRACTICE.date),
    marksWhere(label, countedRows(label)),
    leftOut,
    leftOut,
    practiceColumn(label, PRACTICE.trick),
  );
  return call("IFNA", call("IF", isFirstTries, firstTries, tree), "");
}

/** Words, and beside them what is worked out. */
function line(row: number, words: string, tree: Formula, format: NumberFormat): readonly CellPlan[] {
  return [
    put(row, COMPARE_COLUMN, text(words), { look: "label" }),
    put(row, COMPARE_COLUMN + 1, formula(tree), { look: "answer", format }),
  ];
}

function compareCells(label: string): readonly CellPlan[] {
  const { contests } = tableNames(label);
  const day = (index: number): Formula =>
    cells(
      { row: TABLE_ROW + 1, column: DAYS_COLUMN + index },
      { row: TABLE_ROW + DAYS_ROOM_ROWS, column: DAYS_COLUMN + index },
    );
  const atContests = (heading: string): Formula =>
    call("SUMIFS", column(contests, heading), column(contests, CONTEST.athlete), chosenAthlete);
  // By day caught stands before attempts; in FIRSTTRIES behind them, and its first row alone counts.
  const practised = (byDay: number, ofTries: number): Formula =>
    call("IF", isFirstTries, call("MAX", cell(TABLE_ROW + 1, DAYS_COLUMN + ofTries - 1)), call("SUM", day(byDay)));
  const rows: readonly (readonly [string, Formula])[] = [
    ["Practice: caught", practised(1, CAUGHT_COLUMN)],
    ["Practice: attempts", practised(2, TRIES_COLUMN)],
    ["Contests: caught", operation(atContests(CONTEST.tosses), "-", atContests(CONTEST.drops))],
    ["Contests: tosses", atContests(CONTEST.tosses)],
  ];
  const compare = twirl("COMPARE", ...rows.map((_, index) => value(PRACTICE_ROW + index)));
  return [
    ...headings(TABLE_ROW, COMPARE_COLUMN, ["Practice against contest", "", "", "", ""]),
    put(STAGE_ROW, COMPARE_COLUMN, text("Practice counted"), { look: "label" }),
    put(STAGE_ROW, COMPARE_COLUMN + 1, text(COUNTED[0]), { look: "input" }),
    ...rows.flatMap(([words, tree], index) => line(PRACTICE_ROW + index, words, tree, "whole")),
    ...headings(COMPARE_ROW - 1, COMPARE_COLUMN, COMPARE_HEADINGS, COMPARE_FORMATS),
    ...COMPARE_FORMATS.slice(0, COMPARE_WORDS).map((format, index) =>
      put(
        COMPARE_ROW,
        COMPARE_COLUMN + index,
        formula(
          call("IFERROR", call("INDEX", compare, 1, index + 1), index === 0 ? "Needs practice and a contest." : ""),
        ),
        { look: "entry", format },
      ),
    ),
    put(COMPARE_ROW, COMPARE_COLUMN + COMPARE_WORDS, formula(inWords()), { look: "entry" }),
  ];
}

/** What COMPARE's interval says, for whoever does not read intervals: clear is what leaves nought out. */
function inWords(): Formula {
  const shown = (heading: (typeof COMPARE_HEADINGS)[number]): Formula =>
    cell(COMPARE_ROW, COMPARE_COLUMN + COMPARE_HEADINGS.indexOf(heading));
  const clear = call(
    "IF",
    operation(shown("High"), "<", 0),
    "Fewer caught at contests than in practice: more than chance. Look at nerves, hall and tempo.",
    call(
      "IF",
      operation(shown("Low"), ">", 0),
      "More caught at contests than in practice: more than chance.",
      "No clear difference so far: chance alone may give it.",
    ),
  );
  return call("IF", call("ISNUMBER", shown("Contests less practice")), clear, "");
}

function dropCells(label: string): readonly CellPlan[] {
  const names = tableNames(label);
  const rates = call(
    "FILTER",
    boardColumn(label, "Recent rate"),
    product(operation(boardColumn(label, "Athlete"), "=", chosenAthlete), operation(timesInRoutine(label), ">", 0)),
    "",
  );
  const entries = call("COUNTIFS", column(names.contests, CONTEST.athlete), chosenAthlete);
  const drops = call(
    "SUMIFS",
    column(names.contests, CONTEST.drops),
    column(names.contests, CONTEST.athlete),
    chosenAthlete,
  );
  const all = (heading: string): Formula => column(names.dropsByAthlete, heading);
  return [
    ...headings(DROPS_HEADING_ROW, COMPARE_COLUMN, ["Drops in a routine", ""]),
    ...line(
      DROPS_HEADING_ROW + 1,
      "Predicted from the board",
      call("IFNA", twirl("EXPECTEDDROPS", rates), ""),
      "twoDecimals",
    ),
    ...line(
      DROPS_HEADING_ROW + 2,
      "Happened, each contest",
      call("IF", operation(entries, "=", 0), "", operation(drops, "/", entries)),
      "twoDecimals",
    ),
    ...headings(SEASON_HEADING_ROW, COMPARE_COLUMN, ["The season, all athletes", ""]),
    ...line(SEASON_HEADING_ROW + 1, "Routines at contests", call("SUM", all(DROPS.contests)), "whole"),
    ...line(SEASON_DROPS_ROW, "Drops that happened", call("SUM", all(DROPS.drops)), "whole"),
    ...line(
      SEASON_DROPS_ROW + 1,
      "Drops predicted",
      call("SUMPRODUCT", all(DROPS.contests), all(DROPS.predicted)),
      "oneDecimal",
    ),
    ...seasonByChance(all),
  ];
}

/** 95 seasons of 100 lie within two standard deviations, where each toss is caught as often as the board says. */
function seasonByChance(all: (heading: string) => Formula): readonly CellPlan[] {
  const variance = call("SUMPRODUCT", all(DROPS.contests), all(DROPS.spread), all(DROPS.spread));
  // Half a drop further, since drops are whole.
  const off = operation(product(1.96, call("SQRT", variance)), "+", 0.5);
  const [drops, predicted] = [value(SEASON_DROPS_ROW), value(SEASON_DROPS_ROW + 1)];
  const [low, high] = [value(LOW_ROW), value(LOW_ROW + 1)];
  const isPredicted = operation(predicted, ">", 0);
  const unlessNone = (answer: Formula): Formula => call("IF", isPredicted, answer, "");
  const least = call("MAX", 0, call("ROUND", operation(predicted, "-", off), 0));
  const most = call("ROUND", operation(predicted, "+", off), 0);
  const says = call(
    "IF",
    operation(drops, ">", high),
    "More drops than chance gives at the rates of practice. Look at nerves, hall and tempo.",
    call(
      "IF",
      operation(drops, "<", low),
      "Fewer drops than chance gives at the rates of practice.",
      "Within what chance gives: nothing more can be read from these contests.",
    ),
  );
  return [
    ...line(LOW_ROW, "Chance alone gives from", unlessNone(least), "whole"),
    ...line(LOW_ROW + 1, "up to, in 95 of 100 seasons", unlessNone(most), "whole"),
    put(LOW_ROW + 2, COMPARE_COLUMN, formula(unlessNone(says)), { look: "note" }),
  ];
}

function areas(): readonly AreaPlan[] {
  return [
    ...headingAreas(DAYS_ANCHOR, DAY_FORMATS),
    ...DAY_FORMATS.map((format, index): AreaPlan => ({
      on: { row: TABLE_ROW + 1, column: DAYS_COLUMN + index, rows: DAYS_ROOM_ROWS, columns: 1 },
      look: "entry",
      format,
    })),
    ...COMPARE_FORMATS.map((format, index): AreaPlan => ({
      on: { row: COMPARE_ROW, column: COMPARE_COLUMN + index, rows: 1, columns: 1 },
      look: "entry",
      format,
    })),
  ];
}
