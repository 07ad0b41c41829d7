/**
 * Reads drawn logs as the pane does, answers what it asks as a coach would who knows her log, and holds what the board
 * would count against what was practised.
 */
import { chosenColumns, type Corrections } from "../../src/core/log-layout/find-layout";
import { lastColumnOf } from "../../src/core/log-layout/cell-block";
import { recordColumns } from "../../src/core/log-layout/mapping";
import type { FoundRole } from "../../src/core/log-layout/findings";
import { comparable } from "../../src/core/text";
import { lookAtLog, rowsOf, type OwnSheetView } from "../../src/taskpane/parts/own-sheet/own-sheet-state";
import type { ReadLog } from "../../src/taskpane/host/own-sheet-host";
import { drawLog, type DrawnLog } from "./drawn-logs";

/** What became of one log. */
export type Outcome =
  /** Every row is counted as it was practised, and nothing had to be chosen. */
  | "right"
  /** The same, after the pane's questions were answered. */
  | "right after choices"
  /** What is counted is right, and what is not is listed or named. */
  | "told"
  /** The pane asks for something that the log does not hold as it can be read. */
  | "refused"
  /** A board without a word of what is wrong in it. */
  | "wrong";

export interface Judged {
  readonly outcome: Outcome;
  readonly asked: readonly string[];
  /** The first thing that is wrong. */
  readonly why: string;
}

const MOST_QUESTIONS = 12;

export function judge(drawn: DrawnLog): Judged {
  const log: ReadLog = { sheet: "Log", table: null, block: drawn.block };
  const asked: string[] = [];
  let view = lookAtLog(log, {});
  for (let round = 0; round < MOST_QUESTIONS; round += 1) {
    const said = answer(view, drawn, asked);
    if (said === "nothing asked") break;
    if (said === "cannot say") return { outcome: "refused", asked, why: "" };
    view = lookAtLog(log, said);
  }
  if (view.missing.length > 0 || view.open.length > 0) return { outcome: "refused", asked, why: "asked without end" };
  // A board of nothing is not put, and it is said why.
  if (view.summary.rows === 0) return { outcome: "refused", asked, why: "nothing can be read" };
  const found = compare(view, drawn);
  if (found.wrong !== "") return { outcome: "wrong", asked, why: found.wrong };
  if (found.told) return { outcome: "told", asked, why: "" };
  return { outcome: asked.length === 0 ? "right" : "right after choices", asked, why: "" };
}

type Answer = Corrections | "nothing asked" | "cannot say";

/** The coach answers what is asked, and nothing else. */
function answer(view: OwnSheetView, { truth, rows }: DrawnLog, asked: string[]): Answer {
  const { corrections, layout, missing, open } = view;
  const [role] = missing;
  // Columns that the pane does not read cannot be chosen.
  const beyond = recordColumns(truth.record ?? null).some((column) => column > lastColumnOf(view.log.block));
  const rightFor = (one: FoundRole): Corrections | null =>
    truth[one] === undefined || truth[one] === null || (one === "record" && beyond) ? null : ({ [one]: truth[one] } as Corrections); // prettier-ignore
  if (role !== undefined) {
    asked.push(role);
    const said = rightFor(role);
    if (said === null || (role === "date" && truth.unsayable === true)) return "cannot say";
    const athletes = new Set(rows.map(({ athlete }) => athlete));
    const isOver = said[role] !== null && typeof said[role] === "object" && "over" in said[role];
    // What is not offered cannot be chosen.
    if (isOver && layout.namesOver === null) {
      const [only] = athletes;
      return athletes.size === 1 && only !== undefined ? { ...corrections, [role]: { name: only } } : "cannot say";
    }
    return { ...corrections, ...said };
  }
  const [question] = open;
  if (question === undefined) return offered(view, truth, asked);
  asked.push(question);
  switch (question) {
    case "columns": {
      const wrong = layout.unsure.filter((one) => JSON.stringify(layout.mapping[one]) !== JSON.stringify(truth[one]));
      const corrected: Corrections = Object.assign({}, corrections, ...wrong.map(rightFor)) as Corrections;
      if (wrong.length > 0) return JSON.stringify(corrected) === JSON.stringify(corrections) ? "cannot say" : corrected;
      return { ...corrections, confirmed: chosenColumns(layout.mapping) };
    }
    case "key":
      return truth.key !== undefined && (truth.key === null || view.suggestion?.keys.includes(truth.key) === true)
        ? { ...corrections, key: truth.key }
        : "cannot say";
    case "blank": {
      // Each answer says how many attempts a row then has.
      const { record } = truth;
      const width = record?.kind === "marks" ? record.last - record.first + 1 : null;
      if (record && view.loneMarks?.width !== width && beyond) return "cannot say";
      if (record && truth.blank && view.loneMarks?.width !== width) return { ...corrections, record };
      const meant = view.loneMarks?.meanings.find((one) => one.blank === (truth.blank ?? null) && (truth.blank === undefined || truth.blank === null || one.key === (truth.key ?? null))); // prettier-ignore
      return meant === undefined ? "cannot say" : { ...corrections, key: meant.key, blank: meant.blank };
    }
    case "tally":
      return truth.tally === undefined ? "cannot say" : { ...corrections, tally: truth.tally };
    default:
      return "cannot say";
  }
}

/** Where cells are listed as unreadable, the coach takes what is offered beside them. */
function offered(view: OwnSheetView, truth: DrawnLog["truth"], asked: string[]): Answer {
  const { corrections, layout, unreadable } = view;
  if (unreadable.count === 0) return "nothing asked";
  const { dateText, turned, filledDown = [] } = truth;
  const isForm = layout.dateTexts.forms.some((form) => JSON.stringify(form) === JSON.stringify(dateText));
  if (isForm && corrections.dateText === undefined && layout.mapping.dateText === null) {
    asked.push("days as text");
    return { ...corrections, dateText: dateText ?? null };
  }
  if (turned && corrections.turned === undefined && unreadable.talliesTurnedToDays > 0) {
    asked.push("tallies that became days");
    return { ...corrections, turned };
  }
  const down = filledDown.filter((role) => layout.filledDownOffered.includes(role));
  if (down.some((role) => !layout.mapping.filledDown.includes(role)) && corrections.filledDown === undefined) {
    asked.push("cells filled once");
    return { ...corrections, filledDown: down };
  }
  return "nothing asked";
}

function compare(view: OwnSheetView, { rows, spoilt }: DrawnLog): { readonly wrong: string; readonly told: boolean } {
  const read = new Map(rowsOf(view, view.layout.mapping).map((row) => [row.row, row]));
  const { cells, count } = view.unreadable;
  const listed = new Set(cells.map(({ row }) => row));
  // Of very many cells the first are listed, and the others counted.
  const firstCounted = count > cells.length ? (cells.at(-1)?.row ?? 0) : Infinity;
  const named = new Set(view.layout.unused.map(({ column }) => column));
  let told = false;
  const wrong = (words: string): { readonly wrong: string; readonly told: boolean } => ({ wrong: words, told: false });
  for (const row of rows) {
    const found = read.get(row.row);
    read.delete(row.row);
    if (found === undefined) {
      // The pane says where another list begins, and that nothing is read from there on.
      if (row.row > (view.layout.mapping.endsAt ?? Infinity)) {
        told = true;
        continue;
      }
      if (!listed.has(row.row) && row.row < firstCounted)
        return wrong(`row ${String(row.row)} is left out without a word`);
      told = true;
      continue;
    }
    if (found.day !== row.day) {
      // The pane names such days, and what they probably were.
      if (view.turnedDays.count > 0) return { wrong: "", told: true };
      return wrong(`row ${String(row.row)}: the day ${String(found.day)} for ${String(row.day)}`);
    }
    for (const role of ["athlete", "trick"] as const) {
      if (comparable(found[role]) !== comparable(row[role])) {
        return wrong(`row ${String(row.row)}: the ${role} ${found[role]} for ${row[role]}`);
      }
    }
    const counted = row.parts.filter(({ columns }) => !columns.every((column) => named.has(column)));
    if (counted.length < row.parts.length) told = true;
    const caught = counted.reduce((sum, part) => sum + part.caught, 0);
    const attempts = counted.reduce((sum, part) => sum + part.attempts, 0);
    const ofRow = view.unreadable.cells.filter((cell) => cell.row === row.row);
    const cells = ofRow.length;
    const alarm = ofRow.find(({ role }) => role === "date" || role === "athlete" || role === "trick");
    if (alarm !== undefined) return wrong(`row ${String(row.row)}: the ${alarm.role} is listed and counted`);
    if (row.row >= firstCounted) {
      told = true;
      continue;
    }
    if (cells > 0 && found.attempts + cells === attempts && found.caught <= caught) {
      told = true;
      continue;
    }
    if (found.caught !== caught || found.attempts !== attempts) {
      return wrong(`row ${String(row.row)}: ${String(found.caught)} of ${String(found.attempts)} for ${String(caught)} of ${String(attempts)}`); // prettier-ignore
    }
  }
  for (const row of spoilt) {
    if (row > (view.layout.mapping.endsAt ?? Infinity)) continue;
    if (read.has(row)) return wrong(`row ${String(row)} is read although it is not whole`);
    if (!listed.has(row)) return wrong(`row ${String(row)} is not whole, and left out without a word`);
  }
  const [extra] = read.keys();
  if (extra !== undefined) return wrong(`row ${String(extra)} is counted and is no practice`);
  return { wrong: "", told };
}

export interface Shares {
  readonly seed: number;
  readonly layouts: number;
  readonly outcomes: Readonly<Record<Outcome, number>>;
  /** The first ones that are wrong, with the seed of each. */
  readonly wrong: readonly { readonly seed: number; readonly ways: string; readonly why: string }[];
  /** For each way in which logs were written, how many were drawn and what became of them. */
  readonly byWay: ReadonlyMap<string, Readonly<Record<Outcome, number>>>;
}

const none = (): Record<Outcome, number> => ({ right: 0, "right after choices": 0, told: 0, refused: 0, wrong: 0 });
const MOST_SHOWN = 60;

/** @param from the seed of the first log; the next one has the next seed */
export function judgeMany(from: number, layouts: number): Shares {
  const outcomes = none();
  const wrong: { seed: number; ways: string; why: string }[] = [];
  const byWay = new Map<string, Record<Outcome, number>>();
  for (let seed = from; seed < from + layouts; seed += 1) {
    const drawn = drawLog(seed);
    if (drawn.rows.length < 3) continue;
    const { outcome, why, asked } = judge(drawn);
    outcomes[outcome] += 1;
    for (const way of drawn.ways) {
      const counted = byWay.get(way) ?? none();
      counted[outcome] += 1;
      byWay.set(way, counted);
    }
    if (outcome === "wrong" && wrong.length < MOST_SHOWN) {
      wrong.push({
        seed,
        ways: drawn.ways.join("; "),
        why: `${why}${asked.length > 0 ? `; asked: ${asked.join(", ")}` : ""}`,
      });
    }
  }
  return { seed: from, layouts, outcomes, wrong, byWay };
}
