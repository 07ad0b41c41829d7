/** The Toss lab sheet: from film to height, from counts to a toss that fits the hall, and where tosses land. */
import { date, empty, formula, headings, number, put, rowsOrEmpty, sheetTitle, spill, text } from "../plan/cell-plans";
import { call, cell, cells, column, operation, product, twirl, wholeColumn, type Formula } from "../plan/formula";
import { headingFormat } from "../plan/looks";
import type {
  AreaPlan,
  Block,
  CellPlan,
  ChartPlan,
  ChartSeries,
  Content,
  NumberFormat,
  SeriesLook,
  SheetPlan,
  TableColumn,
  ValidationPlan,
} from "../plan/schema";
import { athleteChoice, startingFocus, trickChoice } from "./choices";
import { athleteColumn, dateColumn, trickColumn } from "./columns";
import { sheetNames, tableNames } from "./names";
import type { Landing, SeasonRecords } from "./records";
import { setting } from "./season-sheet";
import type { SeasonSettings } from "./settings";

/** The headings of the landing marks. */
export const LANDING = {
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
  "number",
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
const WITHIN_50_ROW = PLACEMENT_ROW + 5;
const WITHIN_90_ROW = PLACEMENT_ROW + 6;

/** The chart's own cells, right of all that is printed. */
const CHART_COLUMN = PLACEMENT_COLUMN + 3;
/** Landing marks of one athlete's one trick that the chart has room for. */
const CHART_ROOM_ROWS = 500;
/** A circle of so many corners looks round; the first one comes again at the end. */
const CIRCLE_POINTS = 37;

export function tossLabSheet(settings: SeasonSettings, records: SeasonRecords): SheetPlan {
  const { label } = settings;
  const focus = startingFocus(settings, records);
  const athlete = athleteChoice(label, ATHLETE_ROW, PLACEMENT_COLUMN, focus.athlete);
  const trick = trickChoice(label, TRICK_ROW, PLACEMENT_COLUMN, focus.landingTrick);
  const columns = landingColumns(label);
  return {
    name: sheetNames(label).tossLab,
    columnWidths: [25, 17, 56, 3, 14, 12, 27, 15, 15, 3, 22, 34, 3, ...CHART_CELLS.map(() => 12)],
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
      ...chartCells(label),
      ...LANDING_CAUTIONS.map((_, index) => put(CAUTION_ROW + index, PLACEMENT_COLUMN + 1, empty, { look: "caution" })),
    ],
    tables: [
      {
        name: tableNames(label).landings,
        at: { row: HEADING_ROW, column: LANDINGS_COLUMN },
        columns,
        rows: rowsOrEmpty(columns, records.landings.map(landingRow)),
      },
    ],
    validations: [athlete.validation, trick.validation, ...validations()],
    rules: [],
    charts: [landingChart()],
    frozen: { rows: HEADING_ROW, columns: 0 },
    print: {
      orientation: "portrait",
      pagesWide: 1,
      repeatRows: HEADING_ROW,
      columns: [
        { first: 1, last: LANDINGS_COLUMN - 2 },
        { first: LANDINGS_COLUMN, last: PLACEMENT_COLUMN - 2 },
        { first: PLACEMENT_COLUMN, last: PLACEMENT_COLUMN + 1 },
      ],
    },
  };
}

function answer(row: number, words: string, tree: Formula, format: NumberFormat): readonly CellPlan[] {
  return [put(row, 1, text(words), { look: "label" }), put(row, 2, formula(tree), { look: "answer", format })];
}

function typed(row: number, words: string, content: Content): readonly CellPlan[] {
  return [put(row, 1, text(words), { look: "label" }), put(row, 2, content, { look: "input", format: "number" })];
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
    ...units(label, AIRTIME_ROW + 1, ["length", "counts"]),
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
    ...units(label, PLAN_ROW, PLAN_UNITS),
    ...CEILING_CAUTIONS.map((words, index) => put(PLAN.body + index, 3, text(words), { look: "caution" })),
  ];
}

type Unit = "length" | "speed" | "counts" | "degrees" | null;

/** As the figures of the plan stand; seconds say theirs themselves, and the verdict has none. */
const PLAN_UNITS: readonly Unit[] = [
  "counts",
  null,
  "length",
  "length",
  "speed",
  "speed",
  "degrees",
  "length",
  null,
  "counts",
];

/** Beside each figure what it is counted in, from the season's own unit of length. */
function units(label: string, firstRow: number, of: readonly Unit[]): readonly CellPlan[] {
  const length = setting(label, "unit");
  return of.flatMap((unit, index) => {
    if (unit === null) return [];
    const words =
      unit === "length" ? formula(length) : unit === "speed" ? formula(operation(length, "&", "/s")) : text(unit);
    return [put(firstRow + index, 3, words, { look: "note" })];
  });
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
  const distance = (heading: string, inputMessage: string): TableColumn => ({
    heading,
    format: "number",
    validation: {
      allowed: { kind: "number", least: -1000, most: 1000, whole: false },
      inputTitle: heading,
      inputMessage,
      errorMessage: "Type a distance from the target; 0 is on it.",
    },
  });
  return [
    dateColumn(LANDING.date, "landing marks"),
    athleteColumn(label, LANDING.athlete),
    trickColumn(label, LANDING.trick),
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

/* ---- the chart of the landing marks ---- */

/** The columns of the chart's own cells, in their order. */
const CHART_CELLS = [
  "Sideways",
  "Forward",
  "Circle across",
  "Circle up",
  "Half across",
  "Half up",
  "Nine tenths across",
  "Nine tenths up",
  "Frame",
  "Target",
] as const;

function chartColumn(heading: (typeof CHART_CELLS)[number]): number {
  return CHART_COLUMN + CHART_CELLS.indexOf(heading);
}

function chartBlock(heading: (typeof CHART_CELLS)[number], rows: number): Block {
  return { row: FIRST_ROW, column: chartColumn(heading), rows, columns: 1 };
}

/**
 * A sheet's chart draws what stands in cells: the chosen landing marks, two circles worked out from a circle of radius
 * 1, and a frame as wide as the marks reach, which gives both axes the same scale.
 */
function chartCells(label: string): readonly CellPlan[] {
  const marks = (heading: string): Formula => {
    const { landings } = tableNames(label);
    const chosen = product(
      operation(wholeColumn(landings, LANDING.athlete), "=", cell(ATHLETE_ROW, PLACEMENT_COLUMN + 1)),
      operation(wholeColumn(landings, LANDING.trick), "=", cell(TRICK_ROW, PLACEMENT_COLUMN + 1)),
    );
    // The heading comes along, so that there is something to answer when nothing is marked yet.
    const itself = operation(wholeColumn(landings, heading), "=", heading);
    return call("FILTER", wholeColumn(landings, heading), operation(itself, "+", chosen));
  };
  const unit = (heading: "Circle across" | "Circle up"): Formula => {
    const { row, column: at } = chartBlock(heading, CIRCLE_POINTS);
    return cells({ row, column: at }, { row: row + CIRCLE_POINTS - 1, column: at });
  };
  const circle = (radiusRow: number, heading: "Circle across" | "Circle up"): Formula => {
    const radius = cell(radiusRow, PLACEMENT_COLUMN + 1);
    return operation(call("IF", call("ISNUMBER", radius), radius, 0), "*", unit(heading));
  };
  const reach = (heading: "Sideways" | "Forward"): Formula => {
    const { row, column: at, rows } = chartBlock(heading, CHART_ROOM_ROWS);
    return cells({ row, column: at }, { row: row + rows - 1, column: at });
  };
  const furthest = call(
    "MAX",
    0.5,
    call("MAX", reach("Sideways")),
    operation(0, "-", call("MIN", reach("Sideways"))),
    call("MAX", reach("Forward")),
    operation(0, "-", call("MIN", reach("Forward"))),
  );
  const turns = [...Array(CIRCLE_POINTS).keys()].map((point) => (2 * Math.PI * point) / (CIRCLE_POINTS - 1));
  const points = (heading: (typeof CHART_CELLS)[number], values: readonly number[]): readonly CellPlan[] =>
    values.map((value, index) => put(FIRST_ROW + index, chartColumn(heading), number(value), QUIET));
  return [
    put(HEADING_ROW - 1, CHART_COLUMN, text("What the chart is drawn from; nothing here is to be changed."), {
      look: "note",
    }),
    put(HEADING_ROW, chartColumn("Sideways"), spill(marks(LANDING.sideways)), QUIET_HEADING),
    put(HEADING_ROW, chartColumn("Forward"), spill(marks(LANDING.forward)), QUIET_HEADING),
    ...headings(HEADING_ROW, chartColumn("Circle across"), CHART_CELLS.slice(2), CHART_FORMATS),
    ...points(
      "Circle across",
      turns.map((turn) => round(Math.cos(turn))),
    ),
    ...points(
      "Circle up",
      turns.map((turn) => round(Math.sin(turn))),
    ),
    put(FIRST_ROW, chartColumn("Half across"), spill(circle(WITHIN_50_ROW, "Circle across")), QUIET),
    put(FIRST_ROW, chartColumn("Half up"), spill(circle(WITHIN_50_ROW, "Circle up")), QUIET),
    put(FIRST_ROW, chartColumn("Nine tenths across"), spill(circle(WITHIN_90_ROW, "Circle across")), QUIET),
    put(FIRST_ROW, chartColumn("Nine tenths up"), spill(circle(WITHIN_90_ROW, "Circle up")), QUIET),
    put(FIRST_ROW, chartColumn("Frame"), formula(furthest), QUIET),
    put(FIRST_ROW + 1, chartColumn("Frame"), formula(operation(0, "-", cell(FIRST_ROW, chartColumn("Frame")))), QUIET),
    put(FIRST_ROW, chartColumn("Target"), number(0), QUIET),
  ];
}

const QUIET = { look: "figure", format: "twoDecimals" } as const;
const QUIET_HEADING = { look: "heading", format: headingFormat(QUIET.format) } as const;
const CHART_FORMATS = CHART_CELLS.map(() => QUIET.format);

/** Without the last digits of a cosine: -1.8E-16 is 0. */
function round(value: number): number {
  return Math.round(value * 1e9) / 1e9 + 0;
}

function landingChart(): ChartPlan {
  const series = (
    name: string,
    across: (typeof CHART_CELLS)[number],
    up: (typeof CHART_CELLS)[number],
    rows: number,
    look: SeriesLook,
  ): ChartSeries => ({ name, across: chartBlock(across, rows), up: chartBlock(up, rows), look });
  return {
    name: "Landing marks",
    title: "Where the tosses land",
    description:
      "The landing marks of the chosen athlete and trick around the target, with the circles about the target that hold half and nine tenths of them.",
    on: { row: CAUTION_ROW + LANDING_CAUTIONS.length + 1, column: PLACEMENT_COLUMN, rows: 25, columns: 2 },
    across: { title: "Left (-) and right of the target", format: "general" },
    up: { title: "Behind (-) and in front of it", format: "general" },
    series: [
      series("Half of the tosses", "Half across", "Half up", CIRCLE_POINTS, "innerCircle"),
      series("Nine tenths", "Nine tenths across", "Nine tenths up", CIRCLE_POINTS, "outerCircle"),
      series("Target", "Target", "Target", 1, "target"),
      series("Landing marks", "Sideways", "Forward", CHART_ROOM_ROWS, "landings"),
      series("Frame", "Frame", "Frame", 2, "frame"),
    ],
  };
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
    area(FIRST_ROW, chartColumn("Sideways"), CHART_ROOM_ROWS, QUIET.format, QUIET.look, 2),
    area(FIRST_ROW, chartColumn("Half across"), CIRCLE_POINTS, QUIET.format, QUIET.look, 4),
  ];
}
