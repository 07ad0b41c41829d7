/** The Toss lab sheet: from film to height, from counts to a toss that fits the hall, and where tosses land. */
import { date, empty, formula, headings, number, put, sheetTitle, spill, text } from "../cell-plans";
import { call, cell, cells, column, operation, product, twirl, type Formula } from "../formula";
import type { AreaPlan, CellPlan, Content, NumberFormat, SheetPlan, TableColumn, ValidationPlan } from "../schema";
import { athleteChoice, startingFocus, trickChoice } from "./choices";
import { sheetNames, tableNames } from "./names";
import type { Landing, SeasonRecords } from "./records";
import { ATHLETE_HEADING, setting } from "./season-sheet";
import type { SeasonSettings } from "./settings";
import { TRICK_HEADING } from "./tricks-sheet";

const LANDING = {
  date: "Date",
  athlete: "Athlete",
  trick: "Trick",
  sideways: "Sideways",
  forward: "Forward",
} as const;

const HEADING_ROW = 4;
const FIRST_ROW = HEADING_ROW + 1;

const FILM = { release: FIRST_ROW, caught: FIRST_ROW + 1, rate: FIRST_ROW + 2, below: FIRST_ROW + 3 } as const;
const AIRTIME_ROW = FIRST_ROW + 4;

const PLAN_HEADING_ROW = AIRTIME_ROW + 4;
const PLAN = {
  body: PLAN_HEADING_ROW + 1,
  extra: PLAN_HEADING_ROW + 2,
  travel: PLAN_HEADING_ROW + 3,
  catch: PLAN_HEADING_ROW + 4,
} as const;
const PLAN_ROW = PLAN_HEADING_ROW + 5;
const PLAN_FORMATS: readonly NumberFormat[] = [
  "general",
  "seconds",
  "twoDecimals",
  "twoDecimals",
  "twoDecimals",
  "twoDecimals",
  "oneDecimal",
  "twoDecimals",
  "general",
];
const MOST_COUNTS_ROW = PLAN_ROW + PLAN_FORMATS.length;

const LANDINGS_COLUMN = 5;
const PLACEMENT_COLUMN = 11;
const ATHLETE_ROW = FIRST_ROW;
const TRICK_ROW = FIRST_ROW + 1;
const PLACEMENT_ROW = FIRST_ROW + 2;
const PLACEMENT_FORMATS: readonly NumberFormat[] = [
  "whole",
  "twoDecimals",
  "twoDecimals",
  "twoDecimals",
  "twoDecimals",
  "twoDecimals",
  "twoDecimals",
  "general",
  "general",
];
const CAUTION_ROW = PLACEMENT_ROW + PLACEMENT_FORMATS.length + 1;

export function tossLabSheet(settings: SeasonSettings, records: SeasonRecords): SheetPlan {
  const { label } = settings;
  const focus = startingFocus(settings, records);
  const athlete = athleteChoice(label, ATHLETE_ROW, PLACEMENT_COLUMN, focus.athlete);
  const trick = trickChoice(label, TRICK_ROW, PLACEMENT_COLUMN, focus.landingTrick);
  const columns = landingColumns(label);
  return {
    name: sheetNames(label).tossLab,
    columnWidths: [25, 14, 56, 3, 14, 12, 27, 13, 12, 3, 22, 34],
    areas: areas(),
    cells: [
      ...sheetTitle(
        `Toss lab ${label}`,
        "Film a toss, plan a toss, mark where tosses land. The cells in colour are yours to change.",
      ),
      put(3, 1, formula(operation("Every height and distance here is in ", "&", setting(label, "unit"))), {
        look: "note",
      }),
      ...filmCells(label),
      ...planCells(label),
      ...headings(HEADING_ROW, PLACEMENT_COLUMN, ["Where tosses land", ""]),
      ...athlete.cells,
      ...trick.cells,
      put(PLACEMENT_ROW, PLACEMENT_COLUMN, spill(placement(label)), { look: "label" }),
      ...LANDING_CAUTIONS.map((words, index) =>
        put(CAUTION_ROW + index, PLACEMENT_COLUMN, text(words), { look: "caution" }),
      ),
      ...LANDING_CAUTIONS.map((_, index) => put(CAUTION_ROW + index, PLACEMENT_COLUMN + 1, empty, { look: "caution" })),
    ],
    tables: [
      {
        name: tableNames(label).landings,
        at: { row: HEADING_ROW, column: LANDINGS_COLUMN },
        columns,
        rows: records.landings.length === 0 ? [columns.map(() => empty)] : records.landings.map(landingRow),
      },
    ],
    validations: [athlete.validation, trick.validation, ...validations()],
    rules: [],
    frozen: { rows: HEADING_ROW, columns: 0 },
    print: {
      orientation: "landscape",
      pagesWide: 1,
      repeatRows: HEADING_ROW,
    },
  };
}

function answer(row: number, words: string, tree: Formula, format: NumberFormat): readonly CellPlan[] {
  return [put(row, 1, text(words), { look: "label" }), put(row, 2, formula(tree), { look: "answer", format })];
}

function typed(row: number, words: string, content: Content): readonly CellPlan[] {
  return [put(row, 1, text(words), { look: "label" }), put(row, 2, content, { look: "input" })];
}

const at = (row: number): Formula => cell(row, 2);

/* ---- from film to height ---- */

/** The example of a toss on film: 66 frames at 30 a second. */
const EXAMPLE_FRAMES = { release: 112, caught: 178, framesPerSecond: 30 } as const;

function filmCells(label: string): readonly CellPlan[] {
  const airtime = at(AIRTIME_ROW);
  const complete = operation(
    call("COUNT", cells({ row: FILM.release, column: 2 }, { row: FILM.rate, column: 2 })),
    "=",
    3,
  );
  const timed = (tree: Formula): Formula => call("IF", call("ISNUMBER", airtime), tree, "");
  return [
    ...headings(HEADING_ROW, 1, ["From film to height", "", ""]),
    ...typed(FILM.release, "Release in frame", number(EXAMPLE_FRAMES.release)),
    ...typed(FILM.caught, "Catch in frame", number(EXAMPLE_FRAMES.caught)),
    ...typed(FILM.rate, "Frames per second", number(EXAMPLE_FRAMES.framesPerSecond)),
    ...typed(FILM.below, "Catch below release by", empty),
    put(AIRTIME_ROW, 1, text("Airtime, and ±"), { look: "label" }),
    put(
      AIRTIME_ROW,
      2,
      spill(
        call("IF", complete, twirl("FILMTIME", at(FILM.release), at(FILM.caught), at(FILM.rate)), "Type the frames."),
      ),
      { look: "answer", format: "seconds" },
    ),
    ...answer(
      AIRTIME_ROW + 1,
      "Rise above the hand",
      timed(twirl("TOSSHEIGHT", airtime, at(FILM.below), setting(label, "unit"))),
      "twoDecimals",
    ),
    ...answer(
      AIRTIME_ROW + 2,
      "Counts in the air",
      timed(twirl("TIMECOUNTS", airtime, setting(label, "countsPerMinute"))),
      "oneDecimal",
    ),
    put(FILM.release, 3, text("The frame in which the baton leaves the hand,"), {
      look: "note",
    }),
    put(FILM.caught, 3, text("and the frame in which it is caught."), { look: "note" }),
    put(FILM.below, 3, text("With a minus where it is caught higher. Empty: level."), { look: "note" }),
  ];
}

/* ---- the toss plan ---- */

function planCells(label: string): readonly CellPlan[] {
  const tossplan = twirl(
    "TOSSPLAN",
    at(PLAN.body),
    setting(label, "countsPerMinute"),
    at(PLAN.extra),
    at(PLAN.travel),
    setting(label, "releaseHeight"),
    // An empty cell would arrive as a catch at the floor.
    call("IF", operation(at(PLAN.catch), "=", ""), "", at(PLAN.catch)),
    setting(label, "ceiling"),
    setting(label, "unit"),
  );
  const ceiling = setting(label, "ceiling");
  const mostCounts = twirl(
    "CEILINGCOUNTS",
    ceiling,
    setting(label, "countsPerMinute"),
    setting(label, "releaseHeight"),
    setting(label, "clearance"),
    setting(label, "unit"),
  );
  return [
    ...headings(PLAN_HEADING_ROW, 1, ["Toss plan", "", "Take care"]),
    ...typed(PLAN.body, "Body counts", number(4)),
    ...typed(PLAN.extra, "Extra counts", number(2)),
    ...typed(PLAN.travel, "Travel under the toss", number(0)),
    ...typed(PLAN.catch, "Catch at height", empty),
    put(PLAN_ROW, 1, spill(call("IF", operation(at(PLAN.body), "=", ""), "Type the body counts.", tossplan)), {
      look: "label",
    }),
    ...answer(
      MOST_COUNTS_ROW,
      "Most counts in this hall",
      call("IF", operation(ceiling, "=", ""), "", mostCounts),
      "whole",
    ),
    ...CEILING_CAUTIONS.map((words, index) => put(PLAN.body + index, 3, text(words), { look: "caution" })),
  ];
}

const CEILING_CAUTIONS = [
  "Measure to the lowest beam, light or net before a higher toss.",
  "A toss that comes close is tried lower first.",
  "The body move is safe on its own before a baton is over it.",
  "Empty: caught at the release height.",
];

/* ---- landing marks ---- */

const LANDING_CAUTIONS = [
  "A clear lane: nobody stands or walks under another's toss.",
  "Stand back from the wall: the baton comes back from it.",
  "Stop when dizzy, in pain or struck.",
];

function landingRow(landing: Landing): readonly Content[] {
  return [
    date(landing.date),
    text(landing.athlete),
    text(landing.trick),
    number(landing.sideways),
    number(landing.forward),
  ];
}

function landingColumns(label: string): readonly TableColumn[] {
  const { athletes, tricks } = tableNames(label);
  const distance = (heading: string, inputMessage: string): TableColumn => ({
    heading,
    format: "general",
    validation: {
      allowed: { kind: "number", least: -1000, most: 1000, whole: false },
      inputTitle: heading,
      inputMessage,
      errorMessage: "Type a distance from the target; 0 is on it.",
    },
  });
  return [
    {
      heading: LANDING.date,
      format: "date",
      validation: { allowed: { kind: "date" }, errorMessage: "Type the day as a date." },
    },
    {
      heading: LANDING.athlete,
      format: "text",
      validation: {
        allowed: { kind: "list", source: { kind: "column", table: athletes, column: ATHLETE_HEADING }, strict: false },
        errorMessage: "This athlete is not on the Season sheet.",
      },
    },
    {
      heading: LANDING.trick,
      format: "text",
      validation: {
        allowed: { kind: "list", source: { kind: "column", table: tricks, column: TRICK_HEADING }, strict: false },
        errorMessage: "This trick is not on the Tricks sheet.",
      },
    },
    distance(LANDING.sideways, "From the target to the right; to the left with a minus."),
    distance(LANDING.forward, "From the target forward; behind it with a minus."),
  ];
}

/** A column of the landing marks, only those of the chosen athlete and trick. */
function shown(label: string, heading: string): Formula {
  const { landings } = tableNames(label);
  const chosen = product(
    operation(column(landings, LANDING.athlete), "=", cell(ATHLETE_ROW, PLACEMENT_COLUMN + 1)),
    operation(column(landings, LANDING.trick), "=", cell(TRICK_ROW, PLACEMENT_COLUMN + 1)),
  );
  return call("FILTER", column(landings, heading), chosen, "");
}

function placement(label: string): Formula {
  const tree = twirl(
    "PLACEMENT",
    shown(label, LANDING.sideways),
    shown(label, LANDING.forward),
    setting(label, "unit"),
  );
  return call("IFNA", tree, "Mark a first landing.");
}

/* ---- what lies around ---- */

function validations(): readonly ValidationPlan[] {
  const limited = (row: number, least: number, most: number, whole: boolean, words: string): ValidationPlan => ({
    on: { row, column: 2, rows: 1, columns: 1 },
    validation: { allowed: { kind: "number", least, most, whole }, errorMessage: words },
  });
  return [
    limited(FILM.release, 0, 100_000_000, false, "Type the number of a frame."),
    limited(FILM.caught, 0, 100_000_000, false, "Type the number of a frame after the release."),
    limited(FILM.rate, 1, 100_000, false, "Type the film's frames per second, such as 30, 60 or 240."),
    limited(FILM.below, -100, 100, false, "Type a distance, or leave it empty."),
    limited(PLAN.body, 0, 1000, false, "Type the counts of the body move."),
    limited(PLAN.extra, 0, 100, false, "Type counts; 2 is usual: one to spot, one to catch."),
    limited(PLAN.travel, 0, 1000, false, "Type a distance from 0."),
    limited(PLAN.catch, 0, 100, false, "Type a height above the floor, or leave it empty."),
  ];
}

function areas(): readonly AreaPlan[] {
  const area = (
    row: number,
    columnNumber: number,
    rows: number,
    format: NumberFormat,
    look: AreaPlan["look"],
    columns = 1,
  ): AreaPlan => ({ on: { row, column: columnNumber, rows, columns }, look, format });
  return [
    area(AIRTIME_ROW, 3, 1, "plusMinusSeconds", "answer"),
    area(PLAN_ROW, 1, PLAN_FORMATS.length, "general", "label"),
    ...PLAN_FORMATS.map((format, index) => area(PLAN_ROW + index, 2, 1, format, "answer")),
    area(PLACEMENT_ROW, PLACEMENT_COLUMN, PLACEMENT_FORMATS.length, "general", "label"),
    ...PLACEMENT_FORMATS.map((format, index) => area(PLACEMENT_ROW + index, PLACEMENT_COLUMN + 1, 1, format, "answer")),
  ];
}
