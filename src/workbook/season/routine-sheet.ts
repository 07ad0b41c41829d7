/**
 * The Routine sheet: the routine in order, each toss with the chosen athlete's rate from the board, and what follows from
 * it. The table grows downwards, so everything else stands to its right.
 */
import {
  date,
  empty,
  formula,
  headings,
  number,
  put,
  rowsOrEmpty,
  sheetTitle,
  spill,
  statusRules,
  text,
} from "../plan/cell-plans";
import { call, cell, cells, column, operation, product, thisRow, twirl, type Formula } from "../plan/formula";
import type { AreaPlan, CellPlan, Content, NumberFormat, SheetPlan, TableColumn, TablePlan } from "../plan/schema";
import { boardColumn } from "./board-sheet";
import { athleteChoice, startingFocus, trickChoice } from "./choices";
import { athleteColumn, dateColumn, trickColumn } from "./columns";
import { LIMITS, limitCells, limitsPassed, limitsTable } from "./limits";
import { sheetNames, tableNames } from "./names";
import type { RoutineEntry, SeasonRecords, SwapEntry } from "./records";
import { setting } from "./season-sheet";
import type { SeasonSettings } from "./settings";
import { TRICK_HEADING, TRICKS } from "./tricks-sheet";

/** The headings of the routine, for the formulas that read it. */
export const ROUTINE = {
  order: "Order",
  trick: "Trick",
  now: "Danced now",
  ownCounts: "Own counts",
  counts: "Counts",
  value: "Value",
  rate: "Rate",
  status: "Status",
  boardLine: "Board line",
} as const;

const ATHLETE_ROW = 3;
const LIMIT = { row: 3, column: 4 } as const;
const TABLE_ROW = 6;
const FIRST_ROW = TABLE_ROW + 1;

/** The headings of the swaps, for the formulas that read them. */
export const SWAPS = {
  athlete: "Athlete",
  out: "Trick out",
  in: "Trick in",
  day: "Out since",
  back: "Back on",
} as const;

/** Where the time limit stands, from the first heading of the table: rows below and columns to the right of it. */
export const LIMIT_FROM_TABLE = { rows: LIMIT.row - TABLE_ROW, columns: LIMIT.column - 1 } as const;

const FIGURES_COLUMN = 11;
const WEAK_COLUMN = 14;
const TIME_COLUMN = 20;
const LAST_COLUMN = TIME_COLUMN + 3;
const SWAPS_COLUMN = LAST_COLUMN + 2;
const LIMITS_COLUMN = SWAPS_COLUMN + Object.keys(SWAPS).length + 1;
const ROOM_ROWS = 60;
const SPREAD_ROOM_ROWS = 20;

const WEAK_HEADINGS = ["Weakest first", "Rate", "Drops to expect", "Clean if sure", "Gain"];
const WEAK_FORMATS: readonly NumberFormat[] = ["general", "percent", "twoDecimals", "percent", "percent"];
const TIME_HEADINGS = ["In time", "Counts", "Starts at", "Ends at"];
/** Minutes and seconds come as texts, and stand as numbers do. */
const TIME_FORMATS: readonly NumberFormat[] = ["general", "number", "number", "number"];

const SCORE_ROW = FIRST_ROW + 3;
const SWAP_HEADING_ROW = SCORE_ROW + 5;
const SWAP_ROW = SWAP_HEADING_ROW + 7;
const SPREAD_HEADING_ROW = SWAP_ROW + 6;

/** A solo's usual longest time, to start with; each federation and age group has its own. */
const STARTING_LIMIT_SECONDS = 150;

export function routineSheet(settings: SeasonSettings, records: SeasonRecords): SheetPlan {
  const { label } = settings;
  const focus = startingFocus(settings, records);
  const athlete = athleteChoice(label, ATHLETE_ROW, 1, focus.athlete);
  const keep = trickChoice(label, SWAP_HEADING_ROW + 1, FIGURES_COLUMN, focus.keepTrick, "Trick now");
  const swap = trickChoice(label, SWAP_HEADING_ROW + 2, FIGURES_COLUMN, focus.swapTrick, "Trick instead");
  const columns = routineColumns(label);
  const statusColumn = columns.findIndex(({ heading }) => heading === ROUTINE.status) + 1;
  return {
    name: sheetNames(label).routine,
    columnWidths: [
      ...[12, 27, 17, 27, 13, 12, 11, 13, 17, 3, 24, 30, 3, 26, 8, 16, 16, 8, 3, 26, 9, 11, 24],
      ...[3, 14, 26, 26, 17, 17],
      ...[3, 16, 16, 11, 17, 12],
    ],
    areas: areas(),
    cells: [
      ...sheetTitle(
        `Routine ${label}`,
        "One row a toss, in order; rows between them may hold anything that takes counts. The tinted columns come from the Tricks sheet and the board.",
      ),
      ...athlete.cells,
      put(LIMIT.row, LIMIT.column - 1, text("Limit, seconds"), { look: "label" }),
      put(LIMIT.row, LIMIT.column, number(STARTING_LIMIT_SECONDS), { look: "input", format: "number" }),
      put(
        4,
        1,
        text(
          "A trick that this athlete has not logged has no rate and is left out of the chances. Tosses are taken as independent: nerves are in none of these figures.",
        ),
        { look: "note" },
      ),
      put(5, 1, formula(limitsPassed(label)), { look: "label" }),
      ...figureCells(label),
      ...keep.cells,
      ...swap.cells,
      ...swapCells(label),
      ...spreadCells(label),
      ...headings(TABLE_ROW, WEAK_COLUMN, WEAK_HEADINGS, WEAK_FORMATS),
      put(
        FIRST_ROW,
        WEAK_COLUMN,
        spill(call("IFNA", twirl("WEAKLINK", rated(label, ROUTINE.now), rated(label, ROUTINE.rate)), NOTHING_YET)),
        { look: "entry" },
      ),
      ...headings(TABLE_ROW, TIME_COLUMN, TIME_HEADINGS, TIME_FORMATS),
      put(FIRST_ROW, TIME_COLUMN, spill(timeline(label)), { look: "entry" }),
      ...swapNotes(),
      ...limitCells(LIMITS_COLUMN),
    ],
    tables: [
      {
        name: tableNames(label).routine,
        at: { row: TABLE_ROW, column: 1 },
        columns,
        rows: rowsOrEmpty(columns, records.routine.map(routineRow)),
      },
      swapsTable(label, records.swaps ?? []),
      limitsTable(
        label,
        { row: TABLE_ROW, column: LIMITS_COLUMN },
        {
          danced: column(tableNames(label).routine, ROUTINE.now),
          counts: column(tableNames(label).routine, ROUTINE.counts),
        },
        records.limits ?? [],
      ),
    ],
    validations: [
      athlete.validation,
      keep.validation,
      swap.validation,
      {
        on: { ...LIMIT, rows: 1, columns: 1 },
        validation: {
          allowed: { kind: "number", least: 1, most: 3600, whole: false },
          inputTitle: "Time limit",
          inputMessage: "The longest time that your rules allow, in seconds. Empty: no limit is checked.",
          errorMessage: "Type seconds from 1 to 3600, or leave it empty.",
        },
      },
    ],
    rules: statusRules({ row: FIRST_ROW, column: statusColumn, rows: ROOM_ROWS, columns: 1 }),
    charts: [],
    frozen: { rows: TABLE_ROW, columns: 2 },
    print: {
      orientation: "landscape",
      pagesWide: 1,
      repeatRows: TABLE_ROW,
      // The routine with what to expect on one page, weak links and the timeline on the next.
      columns: [
        { first: 1, last: FIGURES_COLUMN + 1 },
        { first: WEAK_COLUMN, last: LAST_COLUMN },
        { first: SWAPS_COLUMN, last: LIMITS_COLUMN + Object.keys(LIMITS).length - 1 },
      ],
    },
  };
}

function swapNotes(): readonly CellPlan[] {
  return [
    put(1, SWAPS_COLUMN, text("Out and back in"), { look: "title" }),
    put(
      2,
      SWAPS_COLUMN,
      text("One row a swap of one athlete: what goes out, what comes in, the day. The routine on the left follows."),
      { look: "note" },
    ),
    put(
      3,
      SWAPS_COLUMN,
      text("What could stand in, and the way back, stand on the Trick sheet. Back again: type the day under Back on."),
      { look: "note" },
    ),
  ];
}

const NOTHING_YET = "Put tricks in the table.";

function routineRow({ trick, ownCounts }: RoutineEntry, index: number): readonly Content[] {
  const typed = [number(index + 1), text(trick), ownCounts === null ? empty : number(ownCounts)];
  return [...typed, empty, empty, empty, empty, empty, empty];
}

function routineColumns(label: string): readonly TableColumn[] {
  const names = tableNames(label);
  const here = (heading: string): Formula => thisRow(names.routine, heading);
  const onTricks = (heading: string): Formula =>
    call("XLOOKUP", here(ROUTINE.now), column(names.tricks, TRICK_HEADING), column(names.tricks, heading), "");
  const withoutTrick = operation(here(ROUTINE.trick), "=", "");
  // A cell that is empty over there would come back as 0.
  const lookedUp = (heading: string): Formula =>
    call("IF", withoutTrick, "", call("IF", operation(onTricks(heading), "=", ""), "", onTricks(heading)));
  const athlete = cell(ATHLETE_ROW, 2);
  const fromBoard = (heading: "Recent rate" | "Status"): Formula =>
    call(
      "IF",
      operation(here(ROUTINE.boardLine), "=", 0),
      "",
      call("INDEX", boardColumn(label, heading), here(ROUTINE.boardLine)),
    );
  return [
    { heading: ROUTINE.order, format: "number" },
    {
      heading: ROUTINE.trick,
      format: "text",
      validation: {
        allowed: {
          kind: "list",
          source: { kind: "column", table: names.tricks, column: TRICK_HEADING },
          strict: false,
        },
        errorMessage: "This is not on the Tricks sheet. Keep it if it is no toss: it needs counts of its own.",
      },
    },
    {
      heading: ROUTINE.ownCounts,
      format: "number",
      validation: {
        allowed: { kind: "number", least: 0, most: 1000, whole: false },
        inputTitle: "Own counts",
        inputMessage: "Only where they differ from the counts on the Tricks sheet, or where this is no toss.",
        errorMessage: "Counts are a number from 0 to 1000, or empty.",
      },
    },
    { heading: ROUTINE.now, format: "general", formula: dancedNow(label, athlete, here(ROUTINE.trick)) },
    {
      heading: ROUTINE.counts,
      format: "number",
      formula: call(
        "IF",
        operation(here(ROUTINE.ownCounts), "=", ""),
        lookedUp(TRICKS.counts),
        here(ROUTINE.ownCounts),
      ),
    },
    { heading: ROUTINE.value, format: "number", formula: lookedUp(TRICKS.value) },
    { heading: ROUTINE.rate, format: "percent", formula: fromBoard("Recent rate") },
    { heading: ROUTINE.status, format: "general", formula: fromBoard("Status") },
    {
      heading: ROUTINE.boardLine,
      format: "number",
      formula: call(
        "IF",
        call("OR", withoutTrick, operation(athlete, "=", "")),
        0,
        boardLine(label, athlete, here(ROUTINE.now)),
      ),
    },
  ];
}

/** What the chosen athlete dances in place of a trick that is out: the latest swap that has not come back. */
function dancedNow(label: string, athlete: Formula, trick: Formula): Formula {
  const { swaps } = tableNames(label);
  const of = (heading: string): Formula => column(swaps, heading);
  const open = product(
    operation(of(SWAPS.athlete), "=", athlete),
    operation(of(SWAPS.out), "=", trick),
    operation(of(SWAPS.back), "=", ""),
    operation(of(SWAPS.in), "<>", ""),
    operation(call("ROW", of(SWAPS.out)), "-", TABLE_ROW),
  );
  const latest = call("SUMPRODUCT", call("MAX", open));
  return call(
    "IF",
    operation(trick, "=", ""),
    "",
    call("IF", operation(latest, "=", 0), trick, call("INDEX", of(SWAPS.in), latest)),
  );
}

function swapsTable(label: string, swaps: readonly SwapEntry[]): TablePlan {
  const columns: readonly TableColumn[] = [
    athleteColumn(label, SWAPS.athlete),
    trickColumn(label, SWAPS.out),
    trickColumn(label, SWAPS.in),
    dateColumn(SWAPS.day, "swap"),
    dateColumn(SWAPS.back, "return"),
  ];
  return {
    name: tableNames(label).swaps,
    at: { row: TABLE_ROW, column: SWAPS_COLUMN },
    columns,
    rows: rowsOrEmpty(
      columns,
      swaps.map(({ athlete, out, in: instead, day, back }) => [
        text(athlete),
        text(out),
        text(instead),
        date(day),
        back === null ? empty : date(back),
      ]),
    ),
  };
}

/** Which line of the board holds this athlete and trick; 0 for none. A pair stands there once. */
function boardLine(label: string, athlete: Formula, trick: Formula): Formula {
  const lines = boardColumn(label, "Athlete");
  return call(
    "SUMPRODUCT",
    product(
      operation(lines, "=", athlete),
      operation(boardColumn(label, "Trick"), "=", trick),
      operation(call("ROW", lines), "-", FIRST_BOARD_ROW - 1),
    ),
  );
}

const FIRST_BOARD_ROW = 5;

/* ---- the figures ---- */

/** A column of the routine, only the rows whose trick has a rate. */
function rated(label: string, heading: string, alsoWithValue = false): Formula {
  const { routine } = tableNames(label);
  const hasRate = call("ISNUMBER", column(routine, ROUTINE.rate));
  const condition = alsoWithValue ? product(hasRate, call("ISNUMBER", column(routine, ROUTINE.value))) : hasRate;
  return call("FILTER", column(routine, heading), condition, "");
}

/** The catch rates of the routine's tosses for the chosen athlete. */
/** Only what is a number: a rate that is an empty text reaches a function as 0 in some spreadsheets. */
function routineRates(label: string): Formula {
  return rated(label, ROUTINE.rate);
}

function figureCells(label: string): readonly CellPlan[] {
  const { routine } = tableNames(label);
  const figure = (row: number, words: string, answer: Formula, format: NumberFormat): readonly CellPlan[] => [
    put(row, FIGURES_COLUMN, text(words), { look: "label" }),
    put(row, FIGURES_COLUMN + 1, formula(answer), { look: "answer", format }),
  ];
  const score = twirl(
    "ROUTINESCORE",
    rated(label, ROUTINE.rate, true),
    rated(label, ROUTINE.value, true),
    setting(label, "dropCost"),
  );
  const withoutRate = call(
    "SUMPRODUCT",
    product(operation(column(routine, ROUTINE.trick), "<>", ""), operation(column(routine, ROUTINE.rate), "=", "")),
  );
  return [
    ...headings(TABLE_ROW, FIGURES_COLUMN, ["What to expect", ""]),
    ...figure(FIRST_ROW, "Chance of no drop", call("IFNA", twirl("CLEANCHANCE", routineRates(label)), ""), "percent"),
    ...figure(
      FIRST_ROW + 1,
      "Drops to expect",
      call("IFNA", twirl("EXPECTEDDROPS", routineRates(label)), ""),
      "twoDecimals",
    ),
    ...figure(FIRST_ROW + 2, "Rows without a rate", withoutRate, "whole"),
    put(SCORE_ROW, FIGURES_COLUMN, spill(call("IFNA", score, "Points: values are missing.")), { look: "label" }),
  ];
}

function swapCells(label: string): readonly CellPlan[] {
  const firstRow = SWAP_HEADING_ROW + 1;
  const value = (row: number): Formula => cell(row, FIGURES_COLUMN + 1);
  const athlete = cell(ATHLETE_ROW, 2);
  const rate = (trick: Formula): Formula => {
    const isIt = product(
      operation(boardColumn(label, "Athlete"), "=", athlete),
      operation(boardColumn(label, "Trick"), "=", trick),
    );
    const found = call("SUMPRODUCT", isIt, boardColumn(label, "Attempts"));
    const nobody = call("OR", operation(athlete, "=", ""), operation(trick, "=", ""));
    return call(
      "IF",
      nobody,
      "",
      call("IF", operation(found, "=", 0), "", call("SUMPRODUCT", isIt, boardColumn(label, "Recent rate"))),
    );
  };
  const worth = (trick: Formula): Formula => {
    const { tricks } = tableNames(label);
    const found = call("XLOOKUP", trick, column(tricks, TRICK_HEADING), column(tricks, TRICKS.value), "");
    return call("IF", operation(found, "=", ""), "", found);
  };
  const row = (at: number, words: string, answer: Formula, format: NumberFormat): readonly CellPlan[] => [
    put(at, FIGURES_COLUMN, text(words), { look: "label" }),
    put(at, FIGURES_COLUMN + 1, formula(answer), { look: "answer", format }),
  ];
  const known = call(
    "COUNT",
    cells({ row: firstRow + 2, column: FIGURES_COLUMN + 1 }, { row: firstRow + 5, column: FIGURES_COLUMN + 1 }),
  );
  const verdict = twirl(
    "KEEPORSWAP",
    value(firstRow + 2),
    value(firstRow + 3),
    value(firstRow + 4),
    value(firstRow + 5),
    setting(label, "dropCost"),
  );
  return [
    ...headings(SWAP_HEADING_ROW, FIGURES_COLUMN, ["Keep or swap", ""]),
    ...row(firstRow + 2, "Rate now", rate(value(firstRow)), "percent"),
    ...row(firstRow + 3, "Value now", worth(value(firstRow)), "number"),
    ...row(firstRow + 4, "Rate instead", rate(value(firstRow + 1)), "percent"),
    ...row(firstRow + 5, "Value instead", worth(value(firstRow + 1)), "number"),
    put(
      SWAP_ROW,
      FIGURES_COLUMN,
      spill(call("IF", operation(known, "<", 4), "Both need a rate and a value.", verdict)),
      {
        look: "label",
      },
    ),
  ];
}

function spreadCells(label: string): readonly CellPlan[] {
  return [
    ...headings(SPREAD_HEADING_ROW, FIGURES_COLUMN, ["Drops", "How likely"], ["whole", "percent"]),
    put(
      SPREAD_HEADING_ROW + 1,
      FIGURES_COLUMN,
      spill(call("IFNA", twirl("DROPSPREAD", routineRates(label)), NOTHING_YET)),
      { look: "entry", format: "whole" },
    ),
  ];
}

function timeline(label: string): Formula {
  const { routine } = tableNames(label);
  const answer = twirl(
    "TIMELINE",
    column(routine, ROUTINE.now),
    column(routine, ROUTINE.counts),
    setting(label, "countsPerMinute"),
    cell(LIMIT.row, LIMIT.column),
  );
  return call("IFNA", answer, NOTHING_YET);
}

function areas(): readonly AreaPlan[] {
  const area = (
    row: number,
    at: number,
    rows: number,
    format: NumberFormat,
    look: AreaPlan["look"] = "entry",
  ): AreaPlan => ({
    on: { row, column: at, rows, columns: 1 },
    look,
    format,
  });
  return [
    ...WEAK_FORMATS.map((format, index) => area(FIRST_ROW, WEAK_COLUMN + index, ROOM_ROWS, format)),
    ...TIME_FORMATS.map((format, index) => area(FIRST_ROW, TIME_COLUMN + index, ROOM_ROWS, format)),
    area(SCORE_ROW, FIGURES_COLUMN, 4, "general", "label"),
    area(SCORE_ROW, FIGURES_COLUMN + 1, 4, "twoDecimals", "answer"),
    area(SWAP_ROW, FIGURES_COLUMN, 5, "general", "label"),
    area(SWAP_ROW, FIGURES_COLUMN + 1, 3, "twoDecimals", "answer"),
    area(SWAP_ROW + 3, FIGURES_COLUMN + 1, 1, "percent", "answer"),
    area(SWAP_ROW + 4, FIGURES_COLUMN + 1, 1, "general", "answer"),
    area(SPREAD_HEADING_ROW + 1, FIGURES_COLUMN, SPREAD_ROOM_ROWS, "whole"),
    area(SPREAD_HEADING_ROW + 1, FIGURES_COLUMN + 1, SPREAD_ROOM_ROWS, "percent"),
  ];
}
