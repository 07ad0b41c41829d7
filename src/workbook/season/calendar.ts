/** The contests that are still to come: the Season sheet's own contest date, and its table of further ones. */
import { call, column, operation, type Formula, type FormulaInput } from "../plan/formula";
import { tableNames } from "./names";
import { CALENDAR, setting } from "./season-sheet";

export function calendarColumn(label: string, heading: (typeof CALENDAR)[keyof typeof CALENDAR]): Formula {
  return column(tableNames(label).calendar, heading);
}

/**
 * The earliest contest on a day or after it; the latest one where all are over, and an empty text without any. Cells that
 * hold no day are passed over.
 */
export function nextContest(label: string, day: Formula): Formula {
  const own = setting(label, "contestDate");
  const listed = calendarColumn(label, CALENDAR.day);
  // An empty day is before any.
  const from = call("MAX", day);
  const isAhead = call("AND", call("ISNUMBER", own), operation(own, ">=", from));
  const ownAhead = call("IF", isAhead, own, 0);
  // Without any some hosts answer an empty cell for the least of them, not 0.
  const listedAhead = call("IFERROR", call("MAX", 0, call("MINIFS", listed, listed, operation(">=", "&", from))), 0);
  const latest = call("IFERROR", call("MAX", own, listed), own);
  const unless = (one: Formula, other: FormulaInput, otherwise: FormulaInput): Formula =>
    call("IF", operation(one, "=", 0), other, otherwise);
  return unless(
    listedAhead,
    unless(ownAhead, unless(latest, "", latest), ownAhead),
    unless(ownAhead, listedAhead, call("MIN", ownAhead, listedAhead)),
  );
}
