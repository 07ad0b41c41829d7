/**
 * A club's own older log in its own layout, to try the pane's "Use my sheet" on: other headings, caught and attempts in
 * two columns, no table, a second block beside it, and the mess that a log kept by several hands has after two seasons.
 * The club's athletes are invented, and the numbers come from a generator with a fixed seed.
 */
import { date, empty, number, put, text } from "../plan/cell-plans";
import type { CellPlan, Content, SheetPlan, WorkbookPlan } from "../plan/schema";
import { Chance } from "./chance";

export const OLDER_LOG_HEADINGS = ["Day", "Name", "Move", "What we did", "Good", "Tries", "Remark"] as const;
type Heading = (typeof OLDER_LOG_HEADINGS)[number];

/** One row of the log; nothing at all in the rows that part two stretches of practice. */
type Row = Readonly<Record<Heading, Content>>;

const HEADING_ROW = 3;
const CONTESTS_COLUMN = OLDER_LOG_HEADINGS.length + 2;

/** Tuesdays and Thursdays, with a gap at the turn of the year: the first Tuesday of each stretch, and its weeks. */
const STRETCHES = [
  // Tuesday 17 September 2024.
  { firstTuesday: 45552, weeks: 13 },
  // Tuesday 7 January 2025.
  { firstTuesday: 45664, weeks: 11 },
  // Tuesday 16 September 2025.
  { firstTuesday: 45916, weeks: 13 },
  // Tuesday 6 January 2026.
  { firstTuesday: 46028, weeks: 11 },
] as const;

interface Athlete {
  readonly name: string;
  readonly moves: readonly string[];
  /** Share caught in the first week and in the last. */
  readonly from: number;
  readonly to: number;
}

const ATHLETES: readonly Athlete[] = [
  { name: "B.F.", moves: ["2 spin", "3 spin", "Illusion", "Back catch"], from: 0.55, to: 0.85 },
  { name: "C.H.", moves: ["1 spin", "2 spin", "Flat", "Cartwheel"], from: 0.45, to: 0.8 },
  { name: "E.V.", moves: ["2 spin", "Illusion", "Flat", "Back catch"], from: 0.5, to: 0.75 },
  { name: "G.P.", moves: ["1 spin", "Flat", "Leap"], from: 0.4, to: 0.7 },
  { name: "L.O.", moves: ["3 spin", "Illusion", "Cartwheel", "Leap"], from: 0.6, to: 0.9 },
];

const WAYS = ["toss alone", "together", "together", "with music", "whole routine"] as const;
const REMARKS = ["late", "too far forward", "nice height", "left hand", "rushed", "good start", "new baton"] as const;
const USUAL_TRIES = [10, 10, 10, 10, 5, 8, 12, 15, 20] as const;

/**
 * What went wrong while the log was typed, by the number of the row from the first practice on. Words where a number or
 * a day belongs, more caught than tried, a name left out.
 */
const MESS: ReadonlyMap<number, Partial<Row>> = new Map<number, Partial<Row>>([
  [17, { Good: text("lots") }],
  [58, { Day: text("12.11.24") }],
  [73, { Good: number(11), Tries: number(10) }],
  [96, { Tries: text("10ish") }],
  [131, { Day: text("Tue 3rd") }],
  [188, { Good: text("7/10"), Tries: empty }],
  [214, { Name: empty }],
  [247, { Day: text("14th Jan") }],
  [302, { Good: text("all"), Remark: text("forgot to count") }],
  [366, { Good: number(8), Tries: number(6) }],
  [419, { Tries: empty, Remark: text("stopped early") }],
  [455, { Day: text("yesterday") }],
  [520, { Good: text("?") }],
  [548, { Good: number(12), Tries: number(10) }],
]);

/** The same athlete or move in other letters: read as the same, and no fault. */
const SPELLINGS: ReadonlyMap<number, Partial<Row>> = new Map<number, Partial<Row>>([
  [40, { Name: text("b.f.") }],
  [155, { Move: text("illusion") }],
  [260, { Name: text("L.O. ") }],
  [401, { Move: text("CARTWHEEL") }],
]);

/** The contests of the two seasons, beside the log: day, contest, name, drops. */
const CONTESTS = [
  [45696, "Larkfield winter contest", "B.F.", 2],
  [45696, "Larkfield winter contest", "L.O.", 1],
  [45731, "Brookmere spring cup", "B.F.", 1],
  [45731, "Brookmere spring cup", "E.V.", 3],
  [46060, "Larkfield winter contest", "C.H.", 1],
  [46060, "Larkfield winter contest", "L.O.", 0],
  [46095, "Brookmere spring cup", "B.F.", 0],
  [46095, "Brookmere spring cup", "L.O.", 1],
] as const;

const NOTES = [
  "How we count",
  "Good: caught clean, on count, in the hand that was meant. A catch after a step does not count.",
  "Tries: every toss of the set, the first one too.",
  "toss alone: without the body move. together: both. with music: in its part of the routine.",
  "From the paper sheets; some pages of November 2024 are missing.",
] as const;

function practiceRows(): readonly Row[] {
  const chance = new Chance("older log");
  const weeks = STRETCHES.reduce((sum, stretch) => sum + stretch.weeks, 0);
  let weeksBefore = 0;
  let rows = 0;
  const log: Row[] = [];
  for (const { firstTuesday, weeks: inStretch } of STRETCHES) {
    if (log.length > 0) log.push(nothing);
    for (let day = 0; day < 2 * inStretch; day++) {
      const week = Math.floor(day / 2);
      const progress = (weeksBefore + week) / (weeks - 1);
      for (const athlete of ATHLETES.filter(() => chance.happens(0.8))) {
        const sets = chance.happens(0.55) ? 2 : 1;
        for (let set = 0; set < sets; set++) {
          const row = practiceRow(firstTuesday + 7 * week + (day % 2) * 2, athlete, progress, chance);
          log.push({ ...row, ...SPELLINGS.get(rows), ...MESS.get(rows) });
          rows += 1;
        }
      }
    }
    weeksBefore += inStretch;
  }
  return log;
}

const nothing: Row = {
  Day: empty,
  Name: empty,
  Move: empty,
  "What we did": empty,
  Good: empty,
  Tries: empty,
  Remark: empty,
};

function practiceRow(day: number, { name, moves, from, to }: Athlete, progress: number, chance: Chance): Row {
  const rate = from + (to - from) * progress;
  const tries = chance.pick(USUAL_TRIES);
  const good = Array.from({ length: tries }, () => chance.happens(rate)).filter(Boolean).length;
  return {
    Day: date(day),
    Name: text(name),
    Move: text(chance.pick(moves)),
    "What we did": text(chance.pick(WAYS)),
    Good: number(good),
    Tries: number(tries),
    Remark: chance.happens(0.12) ? text(chance.pick(REMARKS)) : empty,
  };
}

function logSheet(): SheetPlan {
  const rows = practiceRows();
  return {
    ...plainSheet("Log", [12, 8, 14, 15, 7, 7, 24, 3, 12, 26, 8, 8]),
    cells: [
      put(1, 1, text("PRACTICE LOG 2024/25 and 2025/26, all groups"), { look: "label" }),
      ...headingCells(1, OLDER_LOG_HEADINGS),
      ...rows.flatMap((row, index) =>
        OLDER_LOG_HEADINGS.flatMap((heading, column) => cellFor(HEADING_ROW + 1 + index, 1 + column, row[heading])),
      ),
      ...headingCells(CONTESTS_COLUMN, ["When", "Contest", "Who", "Drops"]),
      ...CONTESTS.flatMap(([day, contest, who, drops], index) =>
        [date(day), text(contest), text(who), number(drops)].flatMap((content, column) =>
          cellFor(HEADING_ROW + 1 + index, CONTESTS_COLUMN + column, content),
        ),
      ),
    ],
    frozen: { rows: HEADING_ROW, columns: 0 },
  };
}

function headingCells(firstColumn: number, words: readonly string[]): readonly CellPlan[] {
  return words.map((word, index) => put(HEADING_ROW, firstColumn + index, text(word), { look: "label" }));
}

function cellFor(row: number, column: number, content: Content): readonly CellPlan[] {
  if (content.kind === "empty") return [];
  return [put(row, column, content, content.kind === "date" ? { format: "date" } : {})];
}

function plainSheet(name: string, columnWidths: readonly number[]): Omit<SheetPlan, "cells" | "frozen"> {
  return { name, columnWidths, areas: [], tables: [], charts: [], validations: [], rules: [] };
}

/** The club's own older workbook: its log, and a sheet of notes. */
export function olderLog(): WorkbookPlan {
  return {
    sheets: [
      logSheet(),
      {
        ...plainSheet("Notes", [90]),
        cells: NOTES.map((words, index) => put(1 + index, 1, text(words), { look: index === 0 ? "label" : "plain" })),
        frozen: { rows: 0, columns: 0 },
      },
    ],
    active: "Log",
  };
}
