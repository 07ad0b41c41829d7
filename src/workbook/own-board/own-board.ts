/**
 * A board over a club's own log, on a sheet of its own: nothing of the log is changed, and rows added to it later count.
 * What can be set stands on the new sheet: the standard, the set size, and what is left out.
 */
import { LAST_ROW } from "../../core/sheet";
import { empty, formula, number, put, sheetTitle, spill, statusRules, text } from "../plan/cell-plans";
import {
  call,
  cell,
  cells,
  leftOut,
  operation,
  product,
  twirl,
  type Formula,
  type FormulaInput,
} from "../plan/formula";
import { headingFormat } from "../plan/looks";
import { logReferences, type LogReferences } from "./log-references";
import type { OwnLog } from "./own-log";
import { inRowsRead, readableRows, type OwnCells, type ReadableRows } from "./readable-rows";
import { ReadingColumns } from "./reading-columns";
import type { AreaPlan, CellPlan, Content, ValidationPlan, WorkbookPlan } from "../plan/schema";
import {
  CHART_WIDTHS,
  COLUMNS,
  GAP_WIDTH,
  HISTORY_COLUMNS,
  HISTORY_HEADING,
  HISTORY_ROOM_ROWS,
  historyChart,
  ROOM_ROWS,
  spillArea,
  whileEmpty,
} from "../season/board-sheet";
import { settingLimits } from "../season/settings";

export type { OwnLog, OwnTable } from "./own-log";

interface OwnBoardChoices {
  /** A name that no sheet and no table has: see `ownBoardName`. */
  readonly sheetName: string;
  /** Share of catches, 0.1 to 0.99. */
  readonly standard: number;
  readonly setSize: number;
  /** The athlete and trick that are shown day by day at first. */
  readonly focus: { readonly athlete: string; readonly trick: string };
  /** Those that can be chosen instead; others can be typed. */
  readonly athletes: readonly string[];
  readonly tricks: readonly string[];
  /** Texts in the columns of marks that are no marks: sick, n/a. The coach can add to them on the sheet. */
  readonly marksLeftOut: readonly string[];
  /** Stages in which body and toss are practised apart: not counted. The coach can change the list on the sheet. */
  readonly stagesApart: readonly string[];
  /** Free rows that are read below a log that is no table, at least; 3000 when left out. */
  readonly roomRows?: number;
}

const LONGEST_SHEET_NAME = 31;

/**
 * A name for the new sheet: `Board (Log)`, or with a number where that is taken.
 * @param taken the names of all sheets and tables
 */
export function ownBoardName(logSheet: string, taken: readonly string[]): string {
  const used = new Set(taken.map((name) => name.toLowerCase()));
  for (let attempt = 1; ; attempt += 1) {
    const ending = attempt === 1 ? ")" : `) ${String(attempt)}`;
    const room = LONGEST_SHEET_NAME - "Board (".length - ending.length;
    const name = `Board (${shortened(logSheet, room)}${ending}`;
    if (!used.has(name.toLowerCase())) return name;
  }
}

/** So many of a text's UTF-16 units, as the host counts them, without half a character at the end. */
function shortened(text: string, room: number): string {
  let short = "";
  for (const character of text) {
    if (short.length + character.length > room) break;
    short += character;
  }
  return short.trim();
}

/* ---- where things stand ---- */

const HEADING_ROW = 8;
const FIRST_ROW = HEADING_ROW + 1;
const STANDARD = { row: 4, column: 2 } as const;
const SET_SIZE = { row: 5, column: 2 } as const;
const OWN_ATHLETE = { row: 6, column: 2 } as const;
const OWN_TRICK = { row: 7, column: 2 } as const;
const FIGURES_COLUMN = 4;
/** Beside the figures: whether every row of the log counts, and why the first does not. */
const CHECK = { row: 5, column: FIGURES_COLUMN + 4 } as const;
const HISTORY_COLUMN = COLUMNS.length + 2;
const CHOSEN_ATHLETE = { row: 4, column: HISTORY_COLUMN + 1 } as const;
const CHOSEN_TRICK = { row: 5, column: HISTORY_COLUMN + 1 } as const;
const HISTORY = { row: HEADING_ROW, column: HISTORY_COLUMN } as const;
const NO_HISTORY = "Nothing is logged for this athlete and trick yet.";
const LISTS_COLUMN = HISTORY_COLUMN + HISTORY_COLUMNS.length + 1 + CHART_WIDTHS.length + 1;
/** Beside the lists; a third list moves it. */
const readColumnOf = ({ sums }: OwnLog): number => LISTS_COLUMN + 3 + (sums ? 1 : 0);

const LEAST_LISTED = 20;
const MOST_LISTED = 50;
const STAGE_ROOM = 10;

const at = ({ row, column }: { readonly row: number; readonly column: number }): Formula => cell(row, column);

/** @param log what the club keeps; the sheet and the table have to be in the workbook */
export function ownBoardPlan(log: OwnLog, choices: OwnBoardChoices): WorkbookPlan {
  const references = logReferences(log, isReadFirst(log), choices.roomRows);
  const { farRow } = references;
  const reading = new ReadingColumns(FIRST_ROW, readColumnOf(log), farRow === null ? null : farRow - log.firstRow + 1);
  const listed = Math.min(MOST_LISTED, Math.max(LEAST_LISTED, choices.marksLeftOut.length + 5));
  const own: OwnCells = {
    athlete: at(OWN_ATHLETE),
    trick: at(OWN_TRICK),
    marksLeftOut: block(FIRST_ROW, LISTS_COLUMN, listed),
    stagesLeftOut: block(FIRST_ROW, LISTS_COLUMN + 1, STAGE_ROOM),
    sumsLeftOut: block(FIRST_ROW, LISTS_COLUMN + 2, LEAST_LISTED),
  };
  const rows = readableRows(log, own, references, reading);
  return {
    sheets: [
      {
        name: choices.sheetName,
        columnWidths: [
          ...COLUMNS.map(({ width }, index) => (index === 0 ? 16 : width)),
          GAP_WIDTH,
          ...HISTORY_COLUMNS.map(({ width }) => width),
          GAP_WIDTH,
          ...CHART_WIDTHS,
          GAP_WIDTH,
          ...(log.sums ? [22, 22, 22] : [22, 22]),
          GAP_WIDTH,
          ...reading.columns.flatMap(({ width }) => Array.from({ length: width }, () => (width === 1 ? 14 : 6))),
        ],
        areas: [
          ...spillArea({ row: HEADING_ROW, column: 1 }, COLUMNS, ROOM_ROWS),
          ...spillArea(HISTORY, HISTORY_COLUMNS, HISTORY_ROOM_ROWS),
          ...dayAreas(log, reading),
        ],
        cells: [
          ...sheetTitle(`Board over ${log.sheet}`, where(log, references)),
          put(3, 1, text(leftOutNote(log)), { look: "note" }),
          ...settings(log, choices),
          ...figures(log, rows, references),
          put(CHECK.row, CHECK.column, formula(logCheck(rows, farRow !== null)), { look: "label" }),
          put(HEADING_ROW, 1, spill(board(rows)), { look: "heading" }),
          ...history(choices, rows),
          ...lists(log, choices, listed),
          ...readingCells(log, reading),
        ],
        tables: [],
        validations: [...settingChecks(), ...choiceLists(choices)],
        rules: statusRules({
          row: FIRST_ROW,
          column: COLUMNS.findIndex(({ heading }) => heading === "Status") + 1,
          rows: ROOM_ROWS,
          columns: 1,
        }),
        charts: [historyChart(HISTORY)],
        frozen: { rows: HEADING_ROW, columns: 2 },
        print: {
          orientation: "landscape",
          pagesWide: 1,
          repeatRows: HEADING_ROW,
          columns: [
            { first: 1, last: COLUMNS.length },
            { first: HISTORY_COLUMN, last: LISTS_COLUMN - 2 },
          ],
        },
      },
    ],
    active: choices.sheetName,
    reads: {
      sheets: [log.sheet],
      tables: log.table === null ? [] : [{ name: log.table.name, columns: [...log.table.headings.values()] }],
    },
  };
}

/** Whether something has to be worked out of the log's cells in columns of the new sheet, before the board reads them. */
function isReadFirst({
  dateText,
  filledDown,
  athlete,
  trick,
  blank,
  tally,
  turned,
  numberTexts,
  writing,
}: OwnLog): boolean {
  if (dateText !== null || filledDown.length > 0 || blank || turned || numberTexts || writing) return true;
  return "over" in athlete || "over" in trick || (tally ?? "caught/attempts") !== "caught/attempts";
}

function leftOutNote({ table, firstRow }: OwnLog): string {
  const first = table === null ? `row ${String(firstRow)} of the log` : "the first row of the table";
  return `A row without a day, an athlete, a trick or marks that can be read is left out until it is whole. In messages row 1 is ${first}. The log itself is never changed.`;
}

function where(log: OwnLog, { farRow }: LogReferences): string {
  return farRow === null
    ? `Reads the table ${log.table?.name ?? ""} on ${log.sheet}: rows that are added to it count at once.`
    : `Reads ${log.sheet} from row ${String(log.firstRow)} to row ${String(farRow)}: rows that are added there count at once.`;
}

function block(row: number, column: number, rows: number): Formula {
  return cells({ row, column }, { row: row + rows - 1, column });
}

/* ---- settings and figures ---- */

function settings(log: OwnLog, choices: OwnBoardChoices): readonly CellPlan[] {
  const label = (row: number, words: string): CellPlan => put(row, 1, text(words), { look: "label" });
  const name = (at: { readonly row: number; readonly column: number }, typed: string): CellPlan =>
    put(at.row, at.column, text(typed), { look: "input", format: "text" });
  return [
    label(STANDARD.row, "Catch standard"),
    put(STANDARD.row, STANDARD.column, number(choices.standard), { look: "input", format: "percent" }),
    label(SET_SIZE.row, "Set size"),
    put(SET_SIZE.row, SET_SIZE.column, number(choices.setSize), { look: "input", format: "whole" }),
    ...("name" in log.athlete ? [label(OWN_ATHLETE.row, "Athlete"), name(OWN_ATHLETE, log.athlete.name)] : []),
    ...("name" in log.trick ? [label(OWN_TRICK.row, "Trick"), name(OWN_TRICK, log.trick.name)] : []),
  ];
}

function settingChecks(): readonly ValidationPlan[] {
  const { standard, setSize } = settingLimits;
  return [
    {
      on: { ...STANDARD, rows: 1, columns: 1 },
      validation: {
        allowed: { kind: "number", ...standard, whole: false },
        errorMessage: "Type a percentage from 10 % to 99 %.",
      },
    },
    {
      on: { ...SET_SIZE, rows: 1, columns: 1 },
      validation: {
        allowed: { kind: "number", ...setSize, whole: true },
        errorMessage: `Type a whole number from ${String(setSize.least)} to ${String(setSize.most)}.`,
      },
    },
  ];
}

/** How many rows are read and left out, the first of these, and whether the log has outgrown what is read. */
function figures(log: OwnLog, rows: ReadableRows, references: LogReferences): readonly CellPlan[] {
  const answer = FIGURES_COLUMN + 2;
  const figure = (row: number, words: string, tree: Formula): readonly CellPlan[] => [
    put(row, FIGURES_COLUMN, text(words), { look: "label" }),
    put(row, answer, formula(tree), { look: "answer", format: "whole" }),
  ];
  const position = call("MATCH", 1, rows.leftOut, 0);
  const first = call("IFERROR", operation(firstRowNumber(log, references), "+", operation(position, "-", 1)), "");
  const cellsOut = rows.marksLeftOut;
  return [
    ...figure(4, "Rows read", call("SUMPRODUCT", rows.reads)),
    ...figure(5, "Rows left out", call("SUMPRODUCT", rows.leftOut)),
    ...figure(6, "First of these: row", first),
    ...(cellsOut === null ? [] : figure(7, "Marks left out", call("SUMPRODUCT", operation(cellsOut, "*", 1)))),
    ...outgrown(log, references),
  ];
}

function firstRowNumber(log: OwnLog, references: LogReferences): Formula {
  // A table may be moved; cells of a plain log move with the formula's own reference.
  return call("MIN", call("ROW", references.column(log.date)));
}

/** Looked at below the last row that is read. */
const ROWS_BEYOND = 1000;

function outgrown(log: OwnLog, { farRow }: LogReferences): readonly CellPlan[] {
  if (farRow === null || farRow >= LAST_ROW || log.endsAt) return [];
  const last = Math.min(LAST_ROW, farRow + ROWS_BEYOND);
  const beyond = cells({ row: farRow + 1, column: log.date }, { row: last, column: log.date }, log.sheet);
  const words = `The log has grown below row ${String(farRow)}: put a new board over it.`;
  return [
    put(4, FIGURES_COLUMN + 4, formula(call("IF", operation(call("COUNTA", beyond), ">", 0), words, "")), {
      look: "label",
    }),
  ];
}

/* ---- board and history ---- */

function board(rows: ReadableRows): Formula {
  const only = (value: Formula): Formula => inRowsRead(rows, value);
  const common = [only(rows.date), only(rows.athlete), only(rows.trick)];
  const answer =
    rows.tally === null
      ? twirl("BOARD", ...common, only(rows.marks), at(STANDARD), at(SET_SIZE), leftOut, leftOut, keyOf(rows))
      : twirl("TALLYBOARD", ...common, only(rows.tally.caught), only(rows.tally.attempts), at(STANDARD), at(SET_SIZE));
  const [leftOutRows, firstLeftOut] = [5, 6].map((row) => at({ row, column: FIGURES_COLUMN + 2 })) as [
    Formula,
    Formula,
  ];
  const why = operation(
    operation("No row can be read yet. The first that is left out is row ", "&", firstLeftOut),
    "&",
    " of the log: look at its day, its names and its attempts.",
  );
  const words = call("IF", operation(leftOutRows, ">", 0), why, "Log a first set: the board fills itself.");
  return call("IFNA", answer, words);
}

/**
 * The rows that are read and those that are left out, as the board's functions read them.
 *
 * @param isKept whether the conditions stand on the sheet: else the formula would outgrow its cell, and a table has no
 * rows of months or sums between its own that would have to be told apart
 */
function logCheck(rows: ReadableRows, isKept: boolean): Formula {
  const begun = operation(rows.reads, "+", rows.leftOut);
  const only = (value: Formula): Formula => (isKept ? call("IF", begun, value, "") : value);
  const check = twirl(
    "LOGCHECK",
    only(rows.date),
    only(rows.athlete),
    only(rows.trick),
    only(rows.marks),
    leftOut,
    keyOf(rows),
  );
  return call("IFNA", call("INDEX", check, 1, 1), "");
}

function keyOf({ key }: ReadableRows): FormulaInput {
  return key ?? leftOut;
}

function history(choices: OwnBoardChoices, rows: ReadableRows): readonly CellPlan[] {
  const only = (value: Formula): Formula => inRowsRead(rows, value);
  const days = twirl(
    "TRICKHISTORY",
    only(rows.date),
    only(rows.athlete),
    only(rows.trick),
    only(rows.marks),
    at(CHOSEN_ATHLETE),
    at(CHOSEN_TRICK),
    at(STANDARD),
    keyOf(rows),
  );
  const chosen = product(
    rows.reads,
    operation(seen(rows.athlete), "=", seen(at(CHOSEN_ATHLETE))),
    operation(seen(rows.trick), "=", seen(at(CHOSEN_TRICK))),
  );
  const bars = twirl("CATCHBARS", call("IF", call("IFERROR", chosen, 0), rows.marks, ""), at(SET_SIZE), keyOf(rows));
  const choice = (to: { readonly row: number; readonly column: number }, words: string, name: string) => [
    put(to.row, to.column - 1, text(words), { look: "label" as const }),
    put(to.row, to.column, text(name), { look: "input" as const, format: "text" as const }),
  ];
  return [
    put(1, HISTORY_COLUMN, text("One trick, day by day"), { look: "title" }),
    put(2, HISTORY_COLUMN, text("Choose or type another athlete and trick: the days follow."), { look: "note" }),
    ...choice(CHOSEN_ATHLETE, "Athlete", choices.focus.athlete),
    ...choice(CHOSEN_TRICK, "Trick", choices.focus.trick),
    put(6, HISTORY_COLUMN, text("Sets"), { look: "label" }),
    put(6, HISTORY_COLUMN + 1, formula(call("IFNA", bars, ""))),
    put(HISTORY.row, HISTORY.column, spill(call("IFNA", days, "")), HISTORY_HEADING),
    put(HISTORY.row - 1, HISTORY.column, formula(whileEmpty(HISTORY, NO_HISTORY)), { look: "note" }),
  ];
}

/** A name as it is seen: with one plain space where others, or several, stand between its words, as our functions read it. */
function seen(name: Formula): Formula {
  return call("TRIM", call("SUBSTITUTE", call("SUBSTITUTE", name, "\u00A0", " "), "\u202F", " "));
}

/** A list of words may be so long, commas between them included. */
const LONGEST_WORD_LIST = 255;

function choiceLists({ athletes, tricks }: OwnBoardChoices): readonly ValidationPlan[] {
  return [
    { cell: CHOSEN_ATHLETE, names: athletes },
    { cell: CHOSEN_TRICK, names: tricks },
  ].flatMap(({ cell: { row, column }, names }) => {
    const words = listWords(names);
    if (words.length === 0) return [];
    return [
      {
        on: { row, column, rows: 1, columns: 1 },
        validation: {
          allowed: { kind: "list" as const, source: { kind: "words" as const, words }, strict: false },
          errorMessage: "This name was not in the log when the board was made.",
        },
      },
    ];
  });
}

/** As many names as a list holds; a name with a comma would be two. */
function listWords(names: readonly string[]): readonly string[] {
  const words: string[] = [];
  let length = 0;
  for (const name of names) {
    if (name.includes(",")) continue;
    length += name.length + 1;
    if (length > LONGEST_WORD_LIST) break;
    words.push(name);
  }
  return words;
}

/* ---- what is left out ---- */

function lists(log: OwnLog, choices: OwnBoardChoices, listed: number): readonly CellPlan[] {
  const entries = (column: number, words: readonly string[], room: number): readonly CellPlan[] =>
    Array.from({ length: room }, (_, index) =>
      put(FIRST_ROW + index, column, textOrEmpty(words[index]), { look: "input", format: "text" }),
    );
  const marks = log.attempts.kind === "marks";
  const { sums } = log;
  if (!marks && log.stage === null && !sums) return [];
  return [
    put(1, LISTS_COLUMN, text("Left out"), { look: "title" }),
    put(2, LISTS_COLUMN, text("What stands here is not counted. Type more, or take some away."), { look: "note" }),
    ...(marks
      ? [
          put(HEADING_ROW, LISTS_COLUMN, text("Marks that are none"), { look: "heading" }),
          ...entries(LISTS_COLUMN, choices.marksLeftOut.slice(0, listed), listed),
        ]
      : []),
    ...(log.stage === null
      ? []
      : [
          put(HEADING_ROW, LISTS_COLUMN + 1, text("Stages apart"), { look: "heading" }),
          ...entries(LISTS_COLUMN + 1, choices.stagesApart.slice(0, STAGE_ROOM), STAGE_ROOM),
        ]),
    ...(sums
      ? [
          put(HEADING_ROW, LISTS_COLUMN + 2, text("Rows of sums"), { look: "heading" }),
          ...entries(LISTS_COLUMN + 2, sums.texts.slice(0, LEAST_LISTED), LEAST_LISTED),
        ]
      : []),
  ];
}

function textOrEmpty(words: string | undefined): Content {
  return words === undefined ? empty : text(words);
}

/* ---- columns that are read before the board reads them ---- */

function dayAreas(log: OwnLog, { columns, rows }: ReadingColumns): readonly AreaPlan[] {
  let column = readColumnOf(log);
  return columns.flatMap(({ width, format }): readonly AreaPlan[] => {
    const on = { row: FIRST_ROW, column, rows: rows ?? 1, columns: width };
    column += width;
    return format === "date" ? [{ on, look: "plain", format }] : [];
  });
}

function readingCells(log: OwnLog, { columns, rows }: ReadingColumns): readonly CellPlan[] {
  if (columns.length === 0 || rows === null) return [];
  const note = `Row ${String(FIRST_ROW)} here is row ${String(log.firstRow)} of ${log.sheet}, and so on. Left out: 1 in each row that is begun and cannot be read yet.`;
  const readColumn = readColumnOf(log);
  let next = readColumn;
  return [
    put(1, readColumn, text("Read from the log"), { look: "title" }),
    put(2, readColumn, text(note), { look: "note" }),
    // The sheet has to reach down to here: not every spreadsheet has a million rows from the start.
    put(FIRST_ROW + rows - 1, readColumn, empty),
    ...columns.flatMap(({ heading, width, format, tree }) => {
      const column = next;
      next += width;
      return [
        ...Array.from({ length: width }, (_, index) =>
          put(HEADING_ROW, column + index, index === 0 ? text(heading) : empty, {
            look: "heading",
            format: headingFormat(format),
          }),
        ),
        put(FIRST_ROW, column, spill(tree)),
      ];
    }),
  ];
}
