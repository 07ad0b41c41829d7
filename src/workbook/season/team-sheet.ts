/** The Team sheet: a toss that several throw at the same time. Who is in, whether all catch, and who is early or late. */
import { cautionRow, empty, formula, headings, put, sheetTitle, spill, text } from "../plan/cell-plans";
import { call, cell, column, operation, product, thisRow, twirl, type Formula } from "../plan/formula";
import type { AreaPlan, NumberFormat, SheetPlan, TableColumn, TablePlan } from "../plan/schema";
import { boardColumn, boardLines } from "./board-sheet";
import { startingFocus, trickChoice } from "./choices";
import { athleteColumn } from "./columns";
import { sheetNames, tableNames } from "./names";
import type { SeasonRecords } from "./records";
import { setting } from "./season-sheet";
import type { SeasonSettings } from "./settings";

const TEAM = {
  athlete: "Athlete",
  isIn: "In",
  rate: "Recent rate",
  attempts: "Attempts",
  allWith: "All catch with",
  allWithout: "All catch without",
  airtime: "Airtime, s",
  /** Their rate, or 1 for whoever is out: a table's columns may not hold arrays, so this is reckoned by the row. */
  factor: "Counts as",
} as const;

const TRICK_ROW = 5;
const ALL_ROW = TRICK_ROW + 1;
const CHANGE_ROW = TRICK_ROW + 2;
const TABLE_ROW = CHANGE_ROW + 2;
const LINE_COLUMN = Object.keys(TEAM).length + 2;
const LINE_HEADINGS = ["Athlete", "Airtime, s", "Counts off", "Says"] as const;
const LINE_FORMATS: readonly NumberFormat[] = ["general", "twoDecimals", "twoDecimals", "general"];
const ROOM_ROWS = 60;
const LONGEST_AIRTIME_SECONDS = 10;

export function teamSheet(settings: SeasonSettings, records: SeasonRecords): SheetPlan {
  const { label } = settings;
  const trick = trickChoice(label, TRICK_ROW, 1, startingFocus(settings, records).trick, "Tossed together");
  return {
    name: sheetNames(label).team,
    columnWidths: [26, 26, 16, 13, 18, 20, 14, 14, 3, 12, 12, 12, 12],
    areas: LINE_FORMATS.map((format, index): AreaPlan => ({
      on: { row: TABLE_ROW + 1, column: LINE_COLUMN + index, rows: ROOM_ROWS, columns: 1 },
      look: "entry",
      format,
    })),
    cells: [
      ...sheetTitle(
        `Team ${label}`,
        "A toss that several throw at the same time: say who is in. The rates are the board's, each toss taken as one on its own.",
      ),
      ...cautionRow(
        3,
        1,
        LINE_COLUMN - 2,
        "Each in a lane of their own: nobody under another's toss, or where a missed one can land.",
      ),
      ...trick.cells,
      put(ALL_ROW, 1, text("All who are in catch"), { look: "label" }),
      put(ALL_ROW, 2, formula(allCatch(label)), { look: "answer", format: "percent" }),
      put(ALL_ROW, 3, formula(whyUnknown(label))),
      put(CHANGE_ROW, 1, text("Best change"), { look: "label" }),
      put(CHANGE_ROW, 2, formula(bestChange(label))),
      put(TABLE_ROW - 2, LINE_COLUMN, text("Early and late"), { look: "label" }),
      put(TABLE_ROW - 1, LINE_COLUMN, text("Against the middle of those whose airtime is typed."), { look: "note" }),
      ...headings(TABLE_ROW, LINE_COLUMN, LINE_HEADINGS, LINE_FORMATS),
      put(TABLE_ROW + 1, LINE_COLUMN, spill(line(label)), { look: "entry" }),
    ],
    tables: [teamTable(settings)],
    validations: [trick.validation],
    rules: [],
    charts: [],
    frozen: { rows: TABLE_ROW, columns: 0 },
    print: { orientation: "landscape", pagesWide: 1, repeatRows: TABLE_ROW },
  };
}

function teamTable({ label, athletes }: SeasonSettings): TablePlan {
  const columns = teamColumns(label);
  return {
    name: tableNames(label).team,
    at: { row: TABLE_ROW, column: 1 },
    columns,
    rows: athletes.map((athlete) => [text(athlete.trim()), text("yes"), ...columns.slice(2).map(() => empty)]),
  };
}

function teamColumns(label: string): readonly TableColumn[] {
  const here = (heading: string): Formula => thisRow(tableNames(label).team, heading);
  const isKnown = call("ISNUMBER", here(TEAM.rate));
  const theirs = boardLines(label, here(TEAM.athlete), cell(TRICK_ROW, 2));
  const ofBoard = (heading: "Recent rate" | "Attempts"): Formula =>
    call(
      "IF",
      operation(call("COUNTIFS", ...theirs), "=", 0),
      "",
      call("SUMIFS", boardColumn(label, heading), ...theirs),
    );
  return [
    athleteColumn(label, TEAM.athlete),
    {
      heading: TEAM.isIn,
      format: "general",
      validation: {
        allowed: { kind: "list", source: { kind: "words", words: ["yes", "no"] }, strict: true },
        errorMessage: "Choose yes or no.",
      },
    },
    { heading: TEAM.rate, format: "percent", formula: ofBoard("Recent rate") },
    { heading: TEAM.attempts, format: "whole", formula: ofBoard("Attempts") },
    {
      heading: TEAM.allWith,
      format: "percent",
      formula: call(
        "IF",
        call("AND", isKnown, call("ISNUMBER", here(TEAM.allWithout))),
        product(here(TEAM.allWithout), here(TEAM.rate)),
        "",
      ),
    },
    { heading: TEAM.allWithout, format: "percent", formula: withoutThisOne(label) },
    {
      heading: TEAM.airtime,
      format: "number",
      validation: {
        allowed: { kind: "number", least: 0.1, most: LONGEST_AIRTIME_SECONDS, whole: false },
        errorMessage: `Type seconds from release to catch, from 0.1 to ${String(LONGEST_AIRTIME_SECONDS)}, or leave it empty.`,
      },
    },
    {
      heading: TEAM.factor,
      format: "percent",
      formula: call("IF", call("AND", operation(here(TEAM.isIn), "=", "yes"), isKnown), here(TEAM.rate), 1),
    },
  ];
}

function of(label: string, heading: (typeof TEAM)[keyof typeof TEAM]): Formula {
  return column(tableNames(label).team, heading);
}

function isIn(label: string): Formula {
  return operation(of(label, TEAM.isIn), "=", "yes");
}

/** The chance that all of these catch; 1 where there is nobody. */
function chance(label: string, who: Formula): Formula {
  return call("IFNA", twirl("CLEANCHANCE", call("FILTER", of(label, TEAM.rate), who, "")), 1);
}

/** Nothing where another who is in has not logged the toss: what is not known is not taken for certain. */
function withoutThisOne(label: string): Formula {
  const factors = of(label, TEAM.factor);
  const own = thisRow(tableNames(label).team, TEAM.factor);
  const isOwnUnknown = product(
    operation(thisRow(tableNames(label).team, TEAM.isIn), "=", "yes"),
    operation(thisRow(tableNames(label).team, TEAM.rate), "=", ""),
  );
  // By logarithms, with those who catch none of them counted apart: their own rate could not be taken out again.
  const zeros = operation(call("SUMPRODUCT", product(operation(factors, "=", 0), 1)), "-", operation(own, "=", 0));
  const all = call("EXP", call("SUMPRODUCT", call("LN", operation(factors, "+", operation(factors, "=", 0)))));
  const others = operation(all, "/", operation(own, "+", operation(own, "=", 0)));
  return call(
    "IF",
    operation(operation(notLogged(label), "-", isOwnUnknown), ">", 0),
    "",
    call("IF", operation(zeros, ">", 0), 0, others),
  );
}

/** How many of those who are in have not logged the toss. */
function notLogged(label: string): Formula {
  return call("SUMPRODUCT", product(isIn(label), operation(of(label, TEAM.rate), "=", "")));
}

function allCatch(label: string): Formula {
  return call("IF", operation(cell(ALL_ROW, 3), "=", ""), chance(label, isIn(label)), "");
}

function whyUnknown(label: string): Formula {
  const nobody = operation(call("COUNTIFS", of(label, TEAM.isIn), "yes"), "=", 0);
  const isUnknown = operation(notLogged(label), ">", 0);
  return call("IF", nobody, "Nobody is in.", call("IF", isUnknown, "Somebody who is in has not logged it.", ""));
}

/** The weakest of those who are in gives way to the best of those who are out. */
function bestChange(label: string): Formula {
  const rates = of(label, TEAM.rate);
  const isKnown = call("ISNUMBER", rates);
  const isOut = operation(of(label, TEAM.isIn), "<>", "yes");
  const [weakest, best] = [
    call("MIN", call("FILTER", rates, product(isIn(label), isKnown), 1)),
    call("MAX", call("FILTER", rates, product(isOut, isKnown), 0)),
  ];
  const named = (rate: Formula, who: Formula): Formula =>
    call("INDEX", call("FILTER", of(label, TEAM.athlete), product(who, operation(rates, "=", rate)), ""), 1);
  const out = named(weakest, isIn(label));
  const after = product(chance(label, product(isIn(label), operation(of(label, TEAM.athlete), "<>", out))), best);
  const words = operation(
    operation(operation(named(best, isOut), "&", " in for "), "&", out),
    "&",
    operation(": all catch ", "&", call("TEXT", after, "0%")),
  );
  return call(
    "IF",
    call("ISNUMBER", cell(ALL_ROW, 2)),
    call("IF", operation(best, ">", weakest), words, "None of those who are out is likelier to catch."),
    "",
  );
}

function line(label: string): Formula {
  const isTyped = call("ISNUMBER", of(label, TEAM.airtime));
  const typed = (heading: typeof TEAM.athlete | typeof TEAM.airtime): Formula =>
    call("FILTER", of(label, heading), isTyped, "");
  const answer = twirl("LINESPREAD", typed(TEAM.athlete), typed(TEAM.airtime), setting(label, "countsPerMinute"));
  return call("IFNA", answer, "Type airtimes beside the athletes.");
}
