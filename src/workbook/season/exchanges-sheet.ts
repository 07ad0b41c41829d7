/** The Exchanges sheet, for duos and teams: who threw to whom, logged by the set, and how much of it was caught. */
import {
  cautionRow,
  empty,
  formula,
  headingAreas,
  put,
  rowsOrEmpty,
  sheetTitle,
  spill,
  text,
} from "../plan/cell-plans";
import { call, cell, column, operation, twirl, type Formula } from "../plan/formula";
import type { AreaPlan, NumberFormat, SheetPlan, TableColumn } from "../plan/schema";
import { athleteColumn, dateColumn } from "./columns";
import { sheetNames, tableNames } from "./names";
import type { SeasonSettings } from "./settings";

const EXCHANGES = {
  date: "Date",
  exchange: "Exchange",
  thrower: "Thrower",
  catcher: "Catcher",
  marks: "Marks",
  note: "Note",
} as const;

const TABLE_ROW = 5;
const PAIRS_COLUMN = 8;
const CHECK_ROW = 2;
const CHOICE_ROW = 3;
/** Drawn for so many catchers and throwers; beyond them the formula still fills, undrawn. */
const ROOM = { catchers: 12, rows: 40 } as const;

export function exchangesSheet({ label }: SeasonSettings): SheetPlan {
  const columns = exchangeColumns(label);
  const pairFormats: readonly NumberFormat[] = [
    "general",
    ...Array.from({ length: ROOM.catchers }, (): readonly NumberFormat[] => ["percent", "whole"]).flat(),
  ];
  return {
    name: sheetNames(label).exchanges,
    columnWidths: [14, 24, 12, 12, 18, 40, 3, 24, ...pairFormats.slice(1).map(() => 16)],
    areas: [
      ...headingAreas({ row: TABLE_ROW, column: PAIRS_COLUMN }, pairFormats),
      ...pairFormats.map((format, index): AreaPlan => ({
        on: { row: TABLE_ROW + 1, column: PAIRS_COLUMN + index, rows: ROOM.rows, columns: 1 },
        look: "entry",
        format,
      })),
    ],
    cells: [
      ...sheetTitle(
        `Exchanges ${label}`,
        "One row a set of an exchange: who threw, who caught, the marks. To the right: each thrower to each catcher.",
      ),
      ...cautionRow(3, 1, columns.length, "Nobody stands under another's toss, or where a missed one can land."),
      put(1, PAIRS_COLUMN, text("Who throws to whom"), { look: "title" }),
      put(CHECK_ROW, PAIRS_COLUMN, formula(logCheck(label)), { look: "label" }),
      put(CHOICE_ROW, PAIRS_COLUMN, text("Exchange (empty: all)"), { look: "label" }),
      put(CHOICE_ROW, PAIRS_COLUMN + 1, empty, { look: "input", format: "text" }),
      put(TABLE_ROW, PAIRS_COLUMN, spill(pairs(label)), { look: "heading" }),
    ],
    tables: [
      {
        name: tableNames(label).exchanges,
        at: { row: TABLE_ROW, column: 1 },
        columns,
        rows: rowsOrEmpty(columns, []),
      },
    ],
    validations: [
      {
        on: { row: CHOICE_ROW, column: PAIRS_COLUMN + 1, rows: 1, columns: 1 },
        validation: {
          allowed: {
            kind: "list",
            source: { kind: "column", table: tableNames(label).exchanges, column: EXCHANGES.exchange },
            strict: false,
          },
          inputTitle: "Exchange",
          inputMessage: "One of those that are logged, or empty for all of them together.",
          errorMessage: "This exchange is not logged yet.",
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
        { first: 1, last: columns.length },
        { first: PAIRS_COLUMN, last: PAIRS_COLUMN + pairFormats.length - 1 },
      ],
    },
  };
}

function exchangeColumns(label: string): readonly TableColumn[] {
  return [
    dateColumn(EXCHANGES.date, "practice"),
    {
      heading: EXCHANGES.exchange,
      format: "text",
      validation: {
        allowed: { kind: "none" },
        inputTitle: "Exchange",
        inputMessage: "What is exchanged, in the same words each time: Cross toss, Round the circle. May stay empty.",
      },
    },
    athleteColumn(label, EXCHANGES.thrower),
    athleteColumn(label, EXCHANGES.catcher),
    {
      heading: EXCHANGES.marks,
      format: "text",
      validation: {
        allowed: { kind: "none" },
        inputTitle: "Marks of this one's catches",
        inputMessage: "c caught, d dropped, b bailed: ccdcc. Totals only: 8/10. A row for each direction.",
      },
    },
    { heading: EXCHANGES.note, format: "text" },
  ];
}

function logged(label: string, heading: (typeof EXCHANGES)[keyof typeof EXCHANGES]): Formula {
  return column(tableNames(label).exchanges, heading);
}

/** Whether every row counts: the catcher stands where another log has its trick. */
function logCheck(label: string): Formula {
  const columns = [EXCHANGES.date, EXCHANGES.thrower, EXCHANGES.catcher, EXCHANGES.marks];
  const check = twirl("LOGCHECK", ...columns.map((heading) => logged(label, heading)));
  return call("IFNA", call("INDEX", check, 1, 1), "");
}

/** While none is chosen the log's own columns are given: a row that does not count is told with its cell then. */
function pairs(label: string): Formula {
  const chosen = cell(CHOICE_ROW, PAIRS_COLUMN + 1);
  const isChosen = operation(logged(label, EXCHANGES.exchange), "=", chosen);
  const given = [EXCHANGES.thrower, EXCHANGES.catcher, EXCHANGES.marks].map((one) => logged(label, one));
  // A cell that is empty would come back as 0.
  const ofChosen = given.map((one) => call("IF", isChosen, operation(one, "&", ""), ""));
  const answer = call("IF", operation(chosen, "=", ""), twirl("PAIRBOARD", ...given), twirl("PAIRBOARD", ...ofChosen));
  return call("IFNA", answer, "Fills itself with the first exchange that is logged.");
}
