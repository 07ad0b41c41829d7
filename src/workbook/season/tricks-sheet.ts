/** The Tricks sheet: the list of toss tricks, and from their counts the time in the air, the rise and the ceiling. */
import { USUAL_EXTRA_COUNTS } from "../../trade/usual";
import { empty, formula, number, put, sheetTitle, text } from "../plan/cell-plans";
import { call, operation, thisRow, type Formula } from "../plan/formula";
import type { Content, SheetPlan, StatusRule, TableColumn, Validation } from "../plan/schema";
import { sheetNames, tableNames } from "./names";
import type { SeasonRecords } from "./records";
import { setting } from "./season-sheet";
import { settingLimits, type SeasonSettings } from "./settings";

export const TRICK_HEADING = "Trick";
/** Headings of the columns that other sheets read. */
export const TRICKS = { trick: TRICK_HEADING, travel: "Travel", counts: "Counts", value: "Value" } as const;

const TABLE_ROW = 5;
/** Tricks that a colour has been thought of for. */
const ROOM_ROWS = 200;
/** A toss that would hit the ceiling, and one that comes close to it. */
const CEILING_WARNINGS = ["no", "close"] as const;

const STANDARD_GRAVITY_METRES = 9.80665;
const METRES_IN_A_FOOT = 0.3048;

export function tricksSheet(settings: SeasonSettings, records: SeasonRecords): SheetPlan {
  const { label } = settings;
  const lengths = operation("Travel and Rise in ", "&", setting(label, "unit"));
  const columns = tricksColumns(settings);
  const unitNote = operation(lengths, "&", "; Rise is above the releasing hand.");
  return {
    name: sheetNames(label).tricks,
    columnWidths: [26, 13, 20, 13, 10, 18, 18, 13, 12, 14, 13, 17, 11, 18],
    areas: [],
    cells: [
      ...sheetTitle(
        `Tricks ${label}`,
        "One row a trick. A new trick goes in the first free row. The tinted columns are worked out.",
      ),
      put(3, 1, formula(unitNote), { look: "note" }),
    ],
    tables: [
      {
        name: tableNames(label).tricks,
        at: { row: TABLE_ROW, column: 1 },
        columns,
        rows: settings.tricks.map(({ name, bodyCounts }) => {
          const details = records.trickDetails.get(name);
          return [
            text(name.trim()),
            orEmpty(details?.release),
            orEmpty(details?.body),
            orEmpty(details?.catch),
            orEmpty(details?.hand),
            numberOrEmpty(bodyCounts),
            numberOrEmpty(details?.extraCounts ?? (bodyCounts === null ? null : USUAL_EXTRA_COUNTS)),
            numberOrEmpty(details?.travel),
            numberOrEmpty(details?.value),
            details === undefined || details.inRoutine === null ? empty : text(details.inRoutine ? "yes" : "no"),
            empty,
            empty,
            empty,
            empty,
          ];
        }),
      },
    ],
    validations: [],
    rules: CEILING_WARNINGS.map((words): StatusRule => ({
      on: {
        row: TABLE_ROW + 1,
        column: columns.findIndex(({ heading }) => heading === "Clears ceiling") + 1,
        rows: ROOM_ROWS,
        columns: 1,
      },
      text: words,
      look: "caution",
    })),
    charts: [],
    frozen: { rows: TABLE_ROW, columns: 1 },
  };
}

function orEmpty(words: string | undefined): Content {
  return words === undefined || words === "" ? empty : text(words);
}

function numberOrEmpty(value: number | null | undefined): Content {
  return value === null || value === undefined ? empty : number(value);
}

function suggestion(words: readonly string[]): Validation {
  return {
    allowed: { kind: "list", source: { kind: "words", words }, strict: false },
    errorMessage: "This word is not in the list. Keep it if your club says it so.",
  };
}

function choice(words: readonly string[]): Validation {
  return {
    allowed: { kind: "list", source: { kind: "words", words }, strict: true },
    errorMessage: `Choose one of: ${words.join(", ")}.`,
  };
}

function numberFrom(least: number, most: number, words: string): Validation {
  return {
    allowed: { kind: "number", least, most, whole: false },
    errorMessage: `${words}: a number from ${least} to ${most}, or empty.`,
  };
}

function tricksColumns(settings: SeasonSettings): readonly TableColumn[] {
  const { least, most } = settingLimits.bodyCounts;
  return [
    { heading: TRICK_HEADING, format: "text" },
    {
      heading: "Release",
      format: "general",
      validation: suggestion(["Thumb", "Open hand", "Backhand", "Flat", "End"]),
    },
    { heading: "Body", format: "text" },
    {
      heading: "Catch",
      format: "general",
      validation: suggestion(["Hand", "Backhand", "Blind", "Back", "Under-leg", "Head", "Flat"]),
    },
    { heading: "Hand", format: "general", validation: choice(["right", "left", "either"]) },
    {
      heading: "Body counts",
      format: "number",
      validation: {
        ...numberFrom(least, most, "Body counts"),
        inputTitle: "Body counts",
        inputMessage: "Counts that the body move takes under the toss.",
      },
    },
    {
      heading: "Extra counts",
      format: "number",
      validation: {
        ...numberFrom(0, 10, "Extra counts"),
        inputTitle: "Extra counts",
        inputMessage: "Usually 2: one to spot the baton, one to catch it. Empty counts as 2.",
      },
    },
    { heading: TRICKS.travel, format: "number", validation: numberFrom(0, 100, "Travel") },
    { heading: "Value", format: "number", validation: numberFrom(0, 100, "Value") },
    { heading: "In routine", format: "general", validation: choice(["yes", "no"]) },
    ...workedOutColumns(settings.label),
  ];
}

/**
 * Plain arithmetic rather than our own functions: a column of single calls would wait for the functions once a row, and
 * these three lines are plain to read in the formula bar.
 */
function workedOutColumns(label: string): readonly TableColumn[] {
  const table = tableNames(label).tricks;
  const here = (heading: string): Formula => thisRow(table, heading);
  const blankWhenBlank = (heading: string, answer: Formula): Formula =>
    call("IF", operation(here(heading), "=", ""), "", answer);

  const extraCounts = call("IF", operation(here("Extra counts"), "=", ""), USUAL_EXTRA_COUNTS, here("Extra counts"));
  const airtimeSeconds = operation(operation(here("Counts"), "*", 60), "/", setting(label, "countsPerMinute"));

  // Rise above the hand, g T² / 8: up and down take equal times when hand and catch are level.
  const gravity = call(
    "IF",
    operation(setting(label, "unit"), "=", "ft"),
    operation(STANDARD_GRAVITY_METRES, "/", METRES_IN_A_FOOT),
    STANDARD_GRAVITY_METRES,
  );
  const airtime = here("Airtime (s)");
  const rise = operation(operation(operation(gravity, "*", airtime), "*", airtime), "/", 8);

  const room = operation(operation(setting(label, "ceiling"), "-", setting(label, "releaseHeight")), "-", here("Rise"));
  const clears = call(
    "IF",
    call("OR", operation(setting(label, "ceiling"), "=", ""), operation(here("Rise"), "=", "")),
    "",
    call(
      "IF",
      operation(room, "<", 0),
      CEILING_WARNINGS[0],
      call("IF", operation(room, "<", setting(label, "clearance")), CEILING_WARNINGS[1], "yes"),
    ),
  );

  return [
    {
      heading: "Counts",
      format: "number",
      formula: blankWhenBlank("Body counts", operation(here("Body counts"), "+", extraCounts)),
    },
    { heading: "Airtime (s)", format: "twoDecimals", formula: blankWhenBlank("Counts", airtimeSeconds) },
    { heading: "Rise", format: "oneDecimal", formula: blankWhenBlank("Airtime (s)", rise) },
    { heading: "Clears ceiling", format: "general", formula: clears },
  ];
}
