/** The Season sheet: the settings that every other sheet reads, how to type marks, what the statuses mean, the cautions. */
import { date, empty, headings, number, put, rowsOrEmpty, sheetTitle, statusRules, text } from "../plan/cell-plans";
import { DAY_EXAMPLE } from "../plan/days";
import { cell, type Formula } from "../plan/formula";
import type { Status } from "../../trade/statuses";
import { STATUSES } from "../../trade/statuses";
import type {
  Block,
  CellPlan,
  Content,
  NumberFormat,
  SheetPlan,
  TableColumn,
  TablePlan,
  Validation,
  ValidationPlan,
} from "../plan/schema";
import { sheetNames, tableNames } from "./names";
import type { SeasonRecords } from "./records";
import { settingLimits, type SeasonSettings } from "./settings";

/** The settings in the order of the sheet. Two are asked for on the sheet alone and start with a usual value. */
const SETTING_ORDER = [
  "label",
  "contestDate",
  "standard",
  "setSize",
  "countsPerMinute",
  "ceiling",
  "unit",
  "releaseHeight",
  "clearance",
  "dropCost",
  "practicesAWeek",
] as const;

export type SheetSetting = (typeof SETTING_ORDER)[number];

const HEADING_ROW = 4;
const FIRST_SETTING_ROW = HEADING_ROW + 1;
const LABEL_COLUMN = 1;
const VALUE_COLUMN = 2;
const EXPLANATION_COLUMN = 3;
const ATHLETES_COLUMN = 5;
const CONDITIONS_COLUMN = 8;
const DAYS_OFF_COLUMN = 10;
const CALENDAR_COLUMN = 14;

/** Where a setting's value stands on the Season sheet. */
export function settingAddress(setting: SheetSetting): { readonly row: number; readonly column: number } {
  return { row: FIRST_SETTING_ROW + SETTING_ORDER.indexOf(setting), column: VALUE_COLUMN };
}

/** An absolute reference to a setting of this season, for any sheet's formula. */
export function setting(label: string, name: SheetSetting): Formula {
  const { row, column } = settingAddress(name);
  return cell(row, column, sheetNames(label).season);
}

export const ATHLETE_HEADING = "Athlete";
/** Of one athlete, where they are not everybody's: the plan of the club's week reads them. */
export const MINUTES_HEADING = "Minutes or away";
export const CONDITION_HEADING = "Condition";
/** Of the contests to come. */
export const CALENDAR = { day: "Contest on", contest: "Contest" } as const;
/** Of the times without practice. */
export const DAYS_OFF = { from: "No practice from", to: "Up to", why: "Why" } as const;

/** To start with; the list is the coach's to change. What commonly makes a difference: common practice, no source. */
const USUAL_CONDITIONS = ["left hand", "outdoors", "low ceiling", "other floor", "first set", "tired", "in costume"];

interface SettingRow {
  readonly words: string;
  readonly content: Content;
  readonly format: NumberFormat;
  readonly explanation: string;
  readonly validation?: Validation;
}

/** Release at hip to chest height and half a metre of air under the ceiling: common practice, no source. */
const usualHeights = { m: { release: 1.5, clearance: 0.5 }, ft: { release: 5, clearance: 1.5 } } as const;

function settingRows(settings: SeasonSettings): Readonly<Record<SheetSetting, SettingRow>> {
  return { ...practiceRows(settings), ...tossRows(settings), ...scoreRows(settings), ...weekRows() };
}

/** The season and what is asked of a trick. */
function practiceRows(
  settings: SeasonSettings,
): Readonly<Record<"label" | "contestDate" | "standard" | "setSize", SettingRow>> {
  return {
    label: {
      words: "Season",
      content: text(settings.label),
      format: "text",
      explanation: "The label at the end of every sheet's name in this season.",
    },
    contestDate: {
      words: "Contest date",
      content: settings.contestDate === null ? empty : date(settings.contestDate),
      format: "date",
      explanation: "The day that the season works towards. Further contests: to the right. May stay empty.",
      validation: {
        allowed: { kind: "date" },
        errorMessage: `Type a date, such as ${DAY_EXAMPLE}, or leave it empty.`,
      },
    },
    standard: {
      words: "Catch standard",
      content: number(settings.standard),
      format: "percent",
      explanation: "The share of catches that makes a trick good enough for the routine. 80 % is 8 of 10.",
      validation: {
        allowed: { kind: "number", ...settingLimits.standard, whole: false },
        errorMessage: "Type a share from 10 % to 99 %.",
      },
    },
    setSize: {
      words: "Set size",
      content: number(settings.setSize),
      format: "whole",
      explanation: "Attempts in a set. The last set is the latest attempts, this many.",
      validation: {
        allowed: { kind: "number", ...settingLimits.setSize, whole: true },
        errorMessage: `Type a whole number from ${settingLimits.setSize.least} to ${settingLimits.setSize.most}.`,
      },
    },
  };
}

/** The music and the hall, from which tosses are worked out. */
function tossRows(
  settings: SeasonSettings,
): Readonly<Record<"countsPerMinute" | "ceiling" | "unit" | "releaseHeight" | "clearance", SettingRow>> {
  const { unit } = settings;
  const usual = usualHeights[unit];
  return {
    countsPerMinute: {
      words: "Counts per minute",
      content: number(settings.countsPerMinute),
      format: "whole",
      explanation: "How fast the counts are spoken, often faster than the music's beats.",
      validation: {
        allowed: { kind: "number", ...settingLimits.countsPerMinute, whole: false },
        errorMessage: `Type a number from ${settingLimits.countsPerMinute.least} to ${settingLimits.countsPerMinute.most}.`,
      },
    },
    ceiling: {
      words: "Ceiling height",
      content: settings.ceiling === null ? empty : number(settings.ceiling),
      format: "oneDecimal",
      explanation: "Floor to the lowest beam, light or net, in the unit below. Empty: no ceiling is checked.",
      validation: {
        allowed: { kind: "number", ...settingLimits.ceiling[unit], whole: false },
        errorMessage: "Type a height in the unit of this season, or leave it empty.",
      },
    },
    unit: {
      words: "Unit of lengths",
      content: text(unit),
      format: "general",
      explanation:
        "m or ft, for every height and distance of this season. Change the heights here as well when you change it.",
      validation: {
        allowed: { kind: "list", source: { kind: "words", words: ["m", "ft"] }, strict: true },
        errorMessage: "Choose m or ft.",
      },
    },
    releaseHeight: {
      words: "Release height",
      content: number(usual.release),
      format: "oneDecimal",
      explanation: "Floor to the releasing hand. The rise of a toss is counted from there.",
      validation: {
        allowed: { kind: "number", least: 0, most: 10, whole: false },
        errorMessage: "Type the height of the releasing hand, from 0 to 10.",
      },
    },
    clearance: {
      words: "Room under the ceiling",
      content: number(usual.clearance),
      format: "oneDecimal",
      explanation: "The air that a toss should leave. With less it is called close, with none it does not clear.",
      validation: {
        allowed: { kind: "number", least: 0, most: 20, whole: false },
        errorMessage: "Type a distance from 0 to 20.",
      },
    },
  };
}

function scoreRows(settings: SeasonSettings): Readonly<Record<"dropCost", SettingRow>> {
  return {
    dropCost: {
      words: "Points lost for a drop",
      content: number(settings.dropCost),
      format: "twoDecimals",
      explanation: "As your federation's rules of this season have it.",
      validation: {
        allowed: { kind: "number", ...settingLimits.dropCost, whole: false },
        errorMessage: "Type the points lost for one drop.",
      },
    },
  };
}

function weekRows(): Readonly<Record<"practicesAWeek", SettingRow>> {
  return {
    practicesAWeek: {
      words: "Practices a week",
      content: empty,
      format: "oneDecimal",
      explanation: "Of each athlete, from now to the contest. Empty: as often as in the latest four weeks.",
      validation: {
        allowed: { kind: "number", least: 0.1, most: 21, whole: false },
        errorMessage: "Type how many practices a week there will be, or leave it empty.",
      },
    },
  };
}

type ThreeColumns = readonly [string, string, string];

const MARKS: readonly ThreeColumns[] = [
  ["Caught", "c", "Also read: caught, catch, y, yes, 1, ✓."],
  ["Dropped", "d", "Also read: drop, dropped, n, no, 0, ✗."],
  ["Bailed", "b", "Started and given up: the toss not made, or not chased. Not a catch, and counted apart as well."],
  [
    "A set in order",
    "ccdcc ccccd",
    "One cell may hold a whole set. Spaces and commas are yours. The order shows streaks and slides.",
  ],
  ["A tally", "8/10", "8 caught of 10, when only the totals are known. Streaks are counted from the marks after it."],
  ["Not read", "x o", "Clubs use these two either way round, so they are refused rather than guessed."],
];

const STATUS_MEANINGS: Readonly<Record<Status, readonly [short: string, meaning: string]>> = {
  "No attempts": ["Nothing yet", "Nothing is logged."],
  "Too few": ["Too early", "Fewer attempts than one set."],
  Building: ["Not yet", "The last set is below the standard, and the trick has not been ready before."],
  Confirm: [
    "Show again",
    "Never ready yet: the last set is at the standard, and two sets and a chance of 82 % are asked for. Or it was ready, and the chance is under 50 % now.",
  ],
  Ready: [
    "Yes",
    "Two sets were logged, the last at the standard, with a chance of 82 %; it has not slid since, and the chance is 50 % at least.",
  ],
  Solid: ["Yes, firmly", "As Ready, with the last set at the standard and a chance of 90 % at least."],
  "At risk": [
    "Slipping",
    "It was ready, and the last set, or the last two, is poorer than its own record brings once in 150 sets; or the chance is under 25 %; or there were two bails.",
  ],
};

const CAUTIONS: readonly (readonly [string, string])[] = [
  ["Your judgement", "A status sums up what was logged. Whether an athlete is ready is the coach's judgement, always."],
  [
    "Ceiling and lights",
    "Measure them before a higher toss. Try a toss that the Tricks sheet calls close lower first.",
  ],
  [
    "Clear lane",
    "Nobody stands or walks under another's toss, or where a missed one can land. A baton can injure an eye.",
  ],
  ["Walls", "Start a little way off: the baton comes back from the wall."],
  ["Stop", "Stop when dizzy, in pain or struck. A doctor's advice comes before this workbook's."],
  [
    "Body first",
    "Illusions, walkovers, cartwheels and leaps are safe on their own first, and taught by a qualified coach.",
  ],
  ["Bails", "Do not push repetitions on someone who balks. Go back a stage until it feels safe."],
  ["Load", "Keep at least two days a week free of practice, and no more hours a week than the athlete's age in years."],
  ["Rules", "The rules of your federation and of the hall come first."],
  [
    "Young athletes",
    "Initials are enough. No birth dates or medical notes in the log, a parent's consent, no public rankings.",
  ],
];

export function seasonSheet(settings: SeasonSettings, records: SeasonRecords): SheetPlan {
  const rows = settingRows(settings);
  const cells: CellPlan[] = [
    ...sheetTitle(
      `Season ${settings.label}`,
      "The cells in colour are yours to change: every sheet of this season reads them from here.",
    ),
    ...headings(HEADING_ROW, LABEL_COLUMN, ["Setting", "Value", "What it does"], ["general", "number"]),
  ];
  const validations: ValidationPlan[] = [];
  for (const name of SETTING_ORDER) {
    const { words, content, format, explanation, validation } = rows[name];
    const at = settingAddress(name);
    cells.push(
      put(at.row, LABEL_COLUMN, text(words), { look: "label" }),
      put(at.row, VALUE_COLUMN, content, { look: name === "label" ? "plain" : "input", format }),
      put(at.row, EXPLANATION_COLUMN, text(explanation), { wrap: true }),
    );
    if (validation !== undefined) validations.push({ on: { ...at, rows: 1, columns: 1 }, validation });
  }

  const marksHeadingRow = FIRST_SETTING_ROW + SETTING_ORDER.length + 1;
  cells.push(...headings(marksHeadingRow, LABEL_COLUMN, ["Marks", "Type", "How it is read"]));
  MARKS.forEach(([words, typed, reading], index) => {
    const row = marksHeadingRow + 1 + index;
    cells.push(
      put(row, LABEL_COLUMN, text(words), { look: "label" }),
      put(row, VALUE_COLUMN, text(typed), { format: "text" }),
      put(row, EXPLANATION_COLUMN, text(reading), { wrap: true }),
    );
  });

  const statusHeadingRow = marksHeadingRow + MARKS.length + 2;
  cells.push(...headings(statusHeadingRow, LABEL_COLUMN, ["Status", "In short", "What it means"]));
  STATUSES.forEach((word, index) => {
    const row = statusHeadingRow + 1 + index;
    const [short, meaning] = STATUS_MEANINGS[word];
    cells.push(
      put(row, LABEL_COLUMN, text(word)),
      put(row, VALUE_COLUMN, text(short)),
      put(row, EXPLANATION_COLUMN, text(meaning), { wrap: true }),
    );
  });
  const statusWords: Block = {
    row: statusHeadingRow + 1,
    column: LABEL_COLUMN,
    rows: STATUSES.length,
    columns: 1,
  };

  const cautionHeadingRow = statusHeadingRow + STATUSES.length + 2;
  cells.push(...headings(cautionHeadingRow, LABEL_COLUMN, ["Take care", "", ""]));
  CAUTIONS.forEach(([words, caution], index) => {
    const row = cautionHeadingRow + 1 + index;
    cells.push(
      put(row, LABEL_COLUMN, text(words), { look: "caution" }),
      put(row, VALUE_COLUMN, empty, { look: "caution" }),
      put(row, EXPLANATION_COLUMN, text(caution), { look: "caution", wrap: true }),
    );
  });

  return {
    name: sheetNames(settings.label).season,
    // All three in sight beside an open pane on a laptop; what is longer takes another line.
    columnWidths: [24, 16, 88, 3, 22, 18, 3, 22, 3, 20, 14, 30, 3, 14, 30],
    areas: [],
    cells,
    tables: [
      athletesTable(settings),
      conditionsTable(settings),
      daysOffTable(settings),
      calendarTable(settings, records),
    ],
    validations,
    rules: statusRules(statusWords),
    charts: [],
    frozen: { rows: HEADING_ROW, columns: 0 },
  };
}

function athletesTable(settings: SeasonSettings): TablePlan {
  return {
    name: tableNames(settings.label).athletes,
    at: { row: HEADING_ROW, column: ATHLETES_COLUMN },
    columns: [
      { heading: ATHLETE_HEADING, format: "text" },
      {
        heading: MINUTES_HEADING,
        format: "number",
        validation: {
          allowed: { kind: "none" },
          inputTitle: MINUTES_HEADING,
          inputMessage: "Only where this athlete's next practice is not as long as everybody's: the minutes, or away.",
        },
      },
    ],
    rows: settings.athletes.map((athlete) => [text(athlete.trim()), empty]),
  };
}

/** The words that the log suggests in its column Condition. */
function conditionsTable(settings: SeasonSettings): TablePlan {
  return {
    name: tableNames(settings.label).conditions,
    at: { row: HEADING_ROW, column: CONDITIONS_COLUMN },
    columns: [{ heading: CONDITION_HEADING, format: "text" }],
    rows: USUAL_CONDITIONS.map((words) => [text(words)]),
  };
}

/** A column of days that are typed. */
function dayColumn(heading: string, inputMessage: string): TableColumn {
  return {
    heading,
    format: "date",
    validation: {
      allowed: { kind: "date" },
      inputTitle: heading,
      inputMessage,
      errorMessage: `Type a date, such as ${DAY_EXAMPLE}.`,
    },
  };
}

/** The contests of the season, beside or instead of the one day of the settings: the next of them is counted down. */
function calendarTable({ label }: SeasonSettings, { calendar = [] }: SeasonRecords): TablePlan {
  const columns: readonly TableColumn[] = [
    dayColumn(CALENDAR.day, "Week counts down to the next of these and of the contest date of the settings."),
    { heading: CALENDAR.contest, format: "text" },
  ];
  return {
    name: tableNames(label).calendar,
    at: { row: HEADING_ROW, column: CALENDAR_COLUMN },
    columns,
    rows: rowsOrEmpty(
      columns,
      calendar.map((entry) => [date(entry.date), text(entry.contest)]),
    ),
  };
}

/** Holidays and the like, which the countdown to the contest leaves out. */
function daysOffTable({ label }: SeasonSettings): TablePlan {
  const columns: readonly TableColumn[] = [
    dayColumn(DAYS_OFF.from, "The first day without practice: holidays, exams, a closed hall. Week leaves them out."),
    dayColumn(DAYS_OFF.to, "The last such day. May stay empty where it is one day."),
    { heading: DAYS_OFF.why, format: "text" },
  ];
  return {
    name: tableNames(label).daysOff,
    at: { row: HEADING_ROW, column: DAYS_OFF_COLUMN },
    columns,
    rows: rowsOrEmpty(columns, []),
  };
}
