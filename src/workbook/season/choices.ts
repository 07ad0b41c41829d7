/** The cells in which a coach chooses an athlete or a trick for the figures beside them. */
import { put, text } from "../plan/cell-plans";
import type { CellPlan, ValidationPlan } from "../plan/schema";
import { tableNames } from "./names";
import type { Focus, SeasonRecords } from "./records";
import { ATHLETE_HEADING } from "./season-sheet";
import type { SeasonSettings } from "./settings";
import { TRICK_HEADING } from "./tricks-sheet";

interface Choice {
  readonly cells: readonly CellPlan[];
  readonly validation: ValidationPlan;
}

/** Only a number of years: neither a birth date nor anything else of a young athlete is asked for. */
const STARTING_AGE_YEARS = 12;

/** A practice of an hour. */
const STARTING_MINUTES = 60;

/** What the choosing cells show first: what the records say, or the season's first athlete and tricks. */
export function startingFocus(settings: SeasonSettings, records: SeasonRecords): Focus {
  if (records.focus !== null) return records.focus;
  const [first = "", second = first] = settings.tricks.map(({ name }) => name.trim());
  return {
    athlete: settings.athletes[0]?.trim() ?? "",
    trick: first,
    landingTrick: first,
    keepTrick: first,
    swapTrick: second,
    ageYears: STARTING_AGE_YEARS,
    weekMinutes: STARTING_MINUTES,
  };
}

/** A label, and beside it a cell with the season's athletes to choose from. */
export function athleteChoice(label: string, row: number, column: number, athlete: string): Choice {
  return choice({ row, column, words: "Athlete", chosen: athlete }, tableNames(label).athletes, ATHLETE_HEADING);
}

/** A label, and beside it a cell with the season's tricks to choose from. */
export function trickChoice(label: string, row: number, column: number, trick: string, words = "Trick"): Choice {
  return choice({ row, column, words, chosen: trick }, tableNames(label).tricks, TRICK_HEADING);
}

interface ChoiceCell {
  readonly row: number;
  readonly column: number;
  readonly words: string;
  readonly chosen: string;
}

function choice({ row, column, words, chosen }: ChoiceCell, table: string, heading: string): Choice {
  return {
    cells: [
      put(row, column, text(words), { look: "label" }),
      put(row, column + 1, text(chosen), { look: "input", format: "text" }),
    ],
    validation: {
      on: { row, column: column + 1, rows: 1, columns: 1 },
      validation: {
        allowed: { kind: "list", source: { kind: "column", table, column: heading }, strict: false },
        inputTitle: words,
        inputMessage: "Choose from the list: the figures follow.",
        errorMessage: "This name is not in the season's list.",
      },
    },
  };
}
