/**
 * The Gym sheet: a blank log of one practice, to be printed, filled in by pencil and typed in afterwards over its boxes.
 * Words alone, no formula: what was planned on the day stays as it was printed.
 */
import { date, empty, headings, put, sheetTitle, text } from "../plan/cell-plans";
import { DAY_EXAMPLE } from "../plan/days";
import type { CellPlan, SheetPlan, WorkbookPlan } from "../plan/schema";
import { freeSheetName } from "./names";

/** A trick that is planned, with how many sets of it. */
interface GymLine {
  readonly trick: string;
  readonly sets: number;
}

/** What one athlete has before them, in the order in which to do it. */
export interface GymAthlete {
  readonly athlete: string;
  readonly lines: readonly GymLine[];
}

interface GymSheetOf {
  readonly label: string;
  /** The day of the practice, as a sheet counts. */
  readonly day: number;
  readonly setSize: number;
  readonly athletes: readonly GymAthlete[];
  /** Free in the workbook: see `gymSheetName`. */
  readonly sheetName: string;
}

/** A box to be ticked, crossed or lettered; boxes are what a cell holds until marks are typed over them. */
export const BOX = "□";
const BOXES_TOGETHER = 5;
export const GYM_SETS = 3;
const FREE_LINES = 1;

/** Where things stand, for what reads the sheet back. */
export const GYM = {
  dayRow: 3,
  dayColumn: 2,
  headingRow: 5,
  athleteColumn: 1,
  trickColumn: 2,
  setColumn: 3,
  minutesColumn: 3 + GYM_SETS,
} as const;

/** Boxes of one set: ten are two fives, so that a coach sees at a glance where they are. */
export function boxes(setSize: number): string {
  const fives = Array.from({ length: Math.ceil(setSize / BOXES_TOGETHER) }, (_, five) =>
    BOX.repeat(Math.min(BOXES_TOGETHER, setSize - five * BOXES_TOGETHER)),
  );
  return fives.join(" ");
}

export function gymSheetName(label: string, taken: readonly string[]): string {
  return freeSheetName("Gym", label, taken);
}

export function gymSheet({ label, day, setSize, athletes, sheetName }: GymSheetOf): WorkbookPlan {
  const sets = Array.from({ length: GYM_SETS }, (_, index) => `Set ${String(index + 1)}`);
  const lines = athletes.flatMap(({ athlete, lines: planned }) => [
    ...planned.map((line) => ({ athlete, ...line })),
    // What comes up on the day.
    ...Array.from({ length: FREE_LINES }, () => ({ athlete, trick: "", sets: GYM_SETS })),
  ]);
  const sheet: SheetPlan = {
    name: sheetName,
    columnWidths: [12, 30, ...sets.map(() => 30), 10, 24],
    areas: [],
    cells: [
      ...sheetTitle(`Gym ${label}`, "In order: c caught, d dropped, b bailed; or 8/10. Two bails: stop. Afterwards, type the marks over the boxes and press Take into the log in the pane."), // prettier-ignore
      put(GYM.dayRow, 1, text("Day"), { look: "label" }),
      put(GYM.dayRow, GYM.dayColumn, date(day), { look: "input", format: "date" }),
      ...headings(GYM.headingRow, 1, ["Athlete", "Trick", ...sets, "Minutes", "Note"]),
      ...lines.flatMap((line, index): CellPlan[] => [
        put(GYM.headingRow + 1 + index, GYM.athleteColumn, text(line.athlete), { look: "box" }),
        put(GYM.headingRow + 1 + index, GYM.trickColumn, line.trick === "" ? empty : text(line.trick), { look: "box" }),
        ...sets.map((_, set) =>
          put(GYM.headingRow + 1 + index, GYM.setColumn + set, set < line.sets ? text(boxes(setSize)) : empty, {
            look: "box",
            format: "text",
          }),
        ),
        put(GYM.headingRow + 1 + index, GYM.minutesColumn, empty, { look: "box" }),
        put(GYM.headingRow + 1 + index, GYM.minutesColumn + 1, empty, { look: "box" }),
      ]),
    ],
    tables: [],
    validations: [
      {
        on: { row: GYM.dayRow, column: GYM.dayColumn, rows: 1, columns: 1 },
        validation: {
          allowed: { kind: "date" },
          errorMessage: `Type the day of the practice, such as ${DAY_EXAMPLE}.`,
        },
      },
    ],
    rules: [],
    charts: [],
    frozen: { rows: GYM.headingRow, columns: 0 },
    print: { orientation: "landscape", pagesWide: 1, repeatRows: GYM.headingRow },
  };
  return { sheets: [sheet], active: sheetName };
}
