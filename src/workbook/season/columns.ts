/** The columns that more than one table of a season has. */
import { DAY_EXAMPLE } from "../plan/days";
import type { TableColumn } from "../plan/schema";
import { tableNames } from "./names";
import { ATHLETE_HEADING } from "./season-sheet";
import { TRICK_HEADING } from "./tricks-sheet";

/** @param of whose day it is, such as "practice" */
export function dateColumn(heading: string, of: string): TableColumn {
  return {
    heading,
    format: "date",
    validation: {
      allowed: { kind: "date" },
      errorMessage: `Type the day of the ${of} as a date, such as ${DAY_EXAMPLE}.`,
    },
  };
}

/** A column to choose one of the season's athletes in; another name is taken after a warning. */
export function athleteColumn(label: string, heading: string): TableColumn {
  return chosen(heading, tableNames(label).athletes, ATHLETE_HEADING, "athlete", "Season");
}

/** A column to choose one of the season's tricks in; another name is taken after a warning. */
export function trickColumn(label: string, heading: string): TableColumn {
  return chosen(heading, tableNames(label).tricks, TRICK_HEADING, "trick", "Tricks");
}

function chosen(heading: string, table: string, column: string, what: string, sheet: string): TableColumn {
  return {
    heading,
    format: "text",
    validation: {
      allowed: { kind: "list", source: { kind: "column", table, column }, strict: false },
      errorMessage: `This ${what} is not on the ${sheet} sheet. A new spelling counts as a new ${what}.`,
    },
  };
}
