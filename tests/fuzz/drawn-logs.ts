/**
 * Draws a practice log that is known in full, and writes it down in a way that a club might: so that what is read can be
 * held against what was practised. Everything is invented.
 */
import type { Corrections } from "../../src/core/log-layout/find-layout";
import { columnsAround, ROWS_TOLD_BY } from "../../src/core/log-layout/block-around";
import { lastColumnOf, type CellBlock } from "../../src/core/log-layout/cell-block";
import { day, serial, sheet } from "../core/log-layout/sheets";
import { Draw } from "./draw";
import { drawDays } from "./drawn-days";
import { drawRecord } from "./drawn-records";
import { LANGUAGES, UNKNOWN_HEADINGS, WORDS, type Words } from "./drawn-words";
import { caughtIn, practise, type PractisedSet, type Written } from "./practised";

/** What one row of the sheet says truly; a row of several sets says each of them. */
export interface TrueRow {
  readonly row: number;
  readonly day: number;
  readonly athlete: string;
  readonly trick: string;
  readonly parts: readonly {
    readonly columns: readonly number[];
    readonly caught: number;
    readonly attempts: number;
  }[];
}

export interface DrawnLog {
  /** The ways that were drawn, in words. */
  readonly ways: readonly string[];
  readonly block: CellBlock;
  readonly rows: readonly TrueRow[];
  /** Rows that no one can read whole: they must not be read, and have to be told. */
  readonly spoilt: ReadonlySet<number>;
  /** What a coach who knows her log answers, where she is asked; null for what no choice can say. */
  readonly truth: Corrections & { readonly unsayable?: boolean };
}

const NO_BREAK = "\u00A0";

/** A name as several people type it. */
function asTyped(draw: Draw, name: string): string {
  if (draw.chance(0.9)) return name;
  return draw.of([name.replace(/ /g, NO_BREAK), name.replace(/ /g, "  "), ` ${name}`, `${name} `, name.toLowerCase()]);
}

const NOTES = ["", "", "", "windy hall", "new baton", "tired", "ok", "see video"];

type Place =
  | "date"
  | "athlete"
  | "trick"
  | "stage"
  | "record"
  | "minutes"
  | "note"
  | "goal"
  | "running"
  | "number"
  | "weekday"
  | "week"
  | "coach"
  | "place"
  | "born"
  | "family"
  | "rate";

/** Columns that clubs keep beside what a board needs, and what stands over them. */
const BESIDE: Readonly<Record<string, readonly string[]>> = {
  number: ["No.", "#", "Nr", "n°", "Session"],
  weekday: ["Weekday", "Wochentag", "Day of the week"],
  week: ["Week", "Semaine", "Woche"],
  coach: ["Coach", "Trainer", "Entraîneuse", "With"],
  place: ["Place", "Hall", "Salle", "Where"],
  born: ["Born", "Date of birth", "Né le", "Birthday"],
  family: ["Family name", "Surname", "Nom"],
  rate: ["%", "Rate", "Taux"],
};
const COACHES = ["Mrs Vale", "Tom H.", "Vale"];
const PLACES = ["Hall", "Gym", "Field"];
const SPOILT = ["sick", "n/a", "8/10 (wind)", "?", "absent"];

function sortedAs(
  draw: Draw,
  sets: readonly PractisedSet[],
  by: "day" | "newest first" | "athlete" | "trick" | "nothing",
): readonly PractisedSet[] {
  if (by === "day") return sets;
  if (by === "newest first") return [...sets].reverse();
  const key = ({ athlete, trick }: PractisedSet): string | number =>
    by === "athlete" ? athlete : by === "trick" ? trick : draw.next();
  const keyed = sets.map((set) => ({ set, key: key(set) }));
  return keyed.sort((one, other) => (one.key < other.key ? -1 : one.key > other.key ? 1 : 0)).map(({ set }) => set);
}

const CONTESTS: readonly Written[][] = [
  ["Date", "Contest", "Place", "Score"],
  [day("2026-05-16"), "Spring cup", 3, 7.5],
  [day("2026-06-13"), "Oxley open", 5, 8],
  [day("2026-06-20"), "Larkfield day", 1, 9],
];
const LEGEND: readonly Written[][] = [
  ["c", "caught"],
  ["d", "dropped"],
  ["b", "bailed"],
  ["✓", "caught"],
];
const REMARKS: readonly Written[][] = [
  ["Remember the new batons"],
  ["Goal: 8 of 10 by June"],
  ["Mia away until 12 May"],
];

/** What stands below a log and is no part of it. */
function below(draw: Draw, rows: Written[][]): string {
  const what = draw.of(["notes", "a legend", "contests"] as const);
  const gap = draw.chance(0.7);
  if (gap) rows.push([]);
  rows.push(...{ notes: REMARKS, "a legend": LEGEND, contests: CONTESTS }[what].map((row) => [...row]));
  return `below${gap ? ", after an empty row" : ""}: ${what}`;
}

/** A second list beside the log. */
function beside(draw: Draw, rows: Written[][]): string {
  const what = draw.of(["notes", "a legend", "contests"] as const);
  const gap = draw.whole(0, 2);
  const width = Math.max(...rows.map(({ length }) => length)) + gap;
  const first = draw.whole(0, 3);
  ({ notes: REMARKS, "a legend": LEGEND, contests: CONTESTS })[what].forEach((cells, index) => {
    const row = rows[first + index];
    if (row === undefined) return;
    while (row.length < width) row.push(null);
    row.push(...cells);
  });
  return `beside, ${String(gap)} empty columns between: ${what}`;
}

/** The columns that the pane reads where a cell of this one is selected. */
function aroundColumn(block: CellBlock, selected: number): CellBlock {
  const part = (rows: number, from: number, to: number): CellBlock => {
    const cut = <Cell>(grid: readonly (readonly Cell[])[]): readonly (readonly Cell[])[] =>
      grid.slice(0, rows).map((row) => row.slice(from - block.column, to - block.column + 1));
    const { numberFormats = [], texts = [] } = block;
    return {
      row: block.row,
      column: from,
      values: cut(block.values),
      numberFormats: cut(numberFormats),
      texts: cut(texts),
    };
  };
  const span = columnsAround(part(ROWS_TOLD_BY, block.column, lastColumnOf(block)), selected);
  return span === null ? block : part(block.values.length, span.first, span.last);
}

export function drawLog(seed: number): DrawnLog {
  const draw = new Draw(seed);
  const words = WORDS[draw.of(LANGUAGES)];
  const record = drawRecord(draw, words);
  const days = drawDays(draw);
  const sets = practise(draw, record.setSize, record.sameSize, record.bails);
  const structure = draw.of(["plain", "plain", "plain", "blocks", "filled once", "day rows", "one athlete"] as const);
  const headed = structure === "blocks" || draw.chance(0.85);
  const known = draw.chance(0.92);
  const ways = [record.name, days.name, structure, headed ? (known ? "headings" : "unknown headings") : "no headings"];
  const hasAthlete = structure !== "blocks" && structure !== "one athlete";
  const hasStage = draw.chance(0.2);
  const order: Place[] = ["date"];
  if (hasAthlete) order.push("athlete");
  order.push("trick");
  if (draw.chance(0.2)) order.reverse();
  if (hasStage) order.push("stage");
  order.push("record");
  if (record.spoils === false && record.record(1)?.kind === "tally") {
    if (draw.chance(0.2)) order.push("goal");
    if (draw.chance(0.2)) order.splice(draw.whole(order.indexOf("record"), order.length), 0, "running");
  }
  if (draw.chance(0.3)) order.push("minutes");
  if (draw.chance(0.4)) order.push("note");
  const extras = ["number", "weekday", "week", "coach", "place", "born", "family", "rate"] as const;
  for (const extra of extras) {
    if (!draw.chance(0.05) || (extra === "family" && !hasAthlete)) continue;
    const after = extra === "family" ? order.indexOf("athlete") + 1 : draw.whole(0, order.length);
    order.splice(after, 0, extra);
    ways.push(`beside: ${extra}`);
  }
  if (order.includes("goal")) ways.push("goals");
  if (order.includes("running")) ways.push("running totals");

  const firstColumn = draw.whole(1, 3);
  const widthOf = (place: Place): number => (place === "record" ? record.headings.length : 1);
  const columnAt = (place: Place): number => {
    let column = firstColumn;
    for (const one of order) {
      if (one === place) return column;
      column += widthOf(one);
    }
    return 0;
  };
  let unknowns = 0;
  const mixed = draw.chance(0.1);
  if (mixed) ways.push("headings in several languages");
  const headings = order.flatMap((place): readonly (string | number)[] => {
    if (place === "record") return known ? record.headings : record.headings.map(unknown);
    const own = BESIDE[place] ?? (mixed ? WORDS[draw.of(LANGUAGES)] : words)[place as keyof Words];
    return [known ? draw.of(own) : unknown()];
  });
  function unknown(): string {
    unknowns += 1;
    return UNKNOWN_HEADINGS[unknowns % UNKNOWN_HEADINGS.length] ?? "";
  }

  const rows: Written[][] = [];
  const firstRow = draw.whole(1, 3);
  const pushed = (cells: Written[]): number => {
    rows.push(cells);
    return firstRow + rows.length - 1;
  };
  if (headed && draw.chance(0.3)) pushed(["Larkfield Twirlers"]);
  if (headed && draw.chance(0.2)) pushed([]);

  const trueRows: TrueRow[] = [];
  const spoilt = new Set<number>();
  let running = 0;
  let before: PractisedSet | undefined;
  const filled = structure === "filled once" ? draw.of([["date"], ["date", "athlete"], ["athlete"]] as const) : [];
  const sorted =
    structure === "blocks" || (filled as readonly string[])[0] === "athlete"
      ? [...sets].sort((one, other) => (one.athlete < other.athlete ? -1 : one.athlete > other.athlete ? 1 : 0))
      : sets;
  const kept = structure === "one athlete" ? sorted.filter(({ athlete }) => athlete === sorted[0]?.athlete) : sorted;
  const sortedBy = structure === "plain" || structure === "one athlete" ? draw.of(["day", "day", "day", "newest first", "athlete", "trick", "nothing"] as const) : "day"; // prettier-ignore
  if (sortedBy !== "day") ways.push(`sorted by ${sortedBy}`);
  const list = sortedAs(draw, kept, sortedBy);
  const again = headed && draw.chance(0.1);
  const repeats = structure === "blocks" ? draw.chance(0.5) : again;
  const sumsNow = draw.chance(0.15) && record.record(1)?.kind === "tally" && hasAthlete;
  if (sumsNow) ways.push("weekly totals");
  const mistakes = draw.chance(0.3);
  if (mistakes) ways.push("mistakes");
  const namesTyped = draw.chance(0.3);
  if (namesTyped) ways.push("names typed in several ways");

  if (headed && !(structure === "blocks" && repeats)) {
    const upper = known && record.headings.length >= 2 && draw.chance(0.25);
    if (upper) {
      const merged = draw.chance(0.5);
      ways.push(merged ? "headings in two rows, merged" : "a group's name over the headings");
      const group = draw.of(words.tries);
      const at = order.slice(0, order.indexOf("record")).reduce((sum, place) => sum + widthOf(place), 0);
      const isOfRecord = (index: number): boolean => index >= at && index < at + record.headings.length;
      pushed(headings.map((heading, index) => (index === at ? group : merged && !isOfRecord(index) ? heading : null)));
      pushed(headings.map((heading, index) => (merged && !isOfRecord(index) ? null : heading)));
    } else pushed([...headings]);
  }
  for (const [index, set] of list.entries()) {
    if (structure === "blocks" && before?.athlete !== set.athlete) {
      if (draw.chance(0.5) && rows.length > 1) pushed([]);
      pushed([set.athlete]);
      if (repeats) pushed([...headings]);
    } else if (again && structure === "plain" && index > 0 && index % 15 === 0) pushed([...headings]);
    if (structure === "day rows" && before?.day !== set.day) {
      const alone: Written[] = order.flatMap((place) =>
        place === "date" ? [days.cell(set.day, index)] : Array.from({ length: widthOf(place) }, () => null),
      );
      pushed(alone);
    }
    const caught = caughtIn(set.marks);
    running += caught;
    const cells = order.flatMap((place): readonly Written[] => {
      const same = (filled as readonly string[]).includes(place) && before !== undefined;
      switch (place) {
        case "date":
          return [structure === "day rows" || (same && before?.day === set.day && (filled[0] !== "athlete" || before.athlete === set.athlete)) ? null : days.cell(set.day, index)]; // prettier-ignore
        case "athlete":
          return [same && before?.athlete === set.athlete && (filled[0] === "athlete" || before.day === set.day) ? null : namesTyped ? asTyped(draw, set.athlete) : set.athlete]; // prettier-ignore
        case "trick":
          return [namesTyped ? asTyped(draw, set.trick) : set.trick];
        case "stage":
          return [set.apart ? "Toss only" : "Joined"];
        case "record":
          return record.cells(set, index);
        case "goal":
          return [8];
        case "running":
          return [running];
        case "minutes":
          return [draw.whole(2, 9) * 5];
        case "note":
          return [draw.of(NOTES)];
        case "number":
          return [index + 1];
        case "week":
          return [1 + Math.floor(index / 6)];
        case "weekday":
          return [new Intl.DateTimeFormat("en-GB", { weekday: "short", timeZone: "UTC" }).format(Date.parse(set.day))];
        case "coach":
          return [draw.of(COACHES)];
        case "place":
          return [draw.of(PLACES)];
        case "born":
          return [day(`201${String(set.athlete.length % 6)}-0${String(1 + (set.athlete.charCodeAt(0) % 9))}-14`)];
        case "family":
          return [`${set.athlete.slice(-2, -1).toUpperCase()}onrad`];
        case "rate":
          return [{ value: caught / set.marks.length, format: "0%", text: `${String(Math.round((100 * caught) / set.marks.length))}%` }]; // prettier-ignore
        default:
          return [null];
      }
    });
    const row = firstRow + rows.length;
    let isSpoilt = false;
    if (mistakes && draw.chance(0.06) && structure === "plain") {
      const at = columnAt(draw.of(["date", "athlete", "trick"] as const)) - firstColumn;
      cells[at] = null;
      isSpoilt = true;
    } else if (mistakes && record.spoils && record.headings.length === 1 && draw.chance(0.06)) {
      cells[columnAt("record") - firstColumn] = draw.of(
        record.answers.tally === undefined || record.answers.tally === "caught/attempts"
          ? [...SPOILT, "12/10"]
          : SPOILT,
      );
      isSpoilt = true;
    }
    pushed([...cells]);
    const first = columnAt("record");
    const own = record.headings.map((_, at) => first + at);
    const parts = record
      .parts?.(set)
      .map((part) => ({ columns: [first + part.at], caught: part.caught, attempts: part.attempts })) ?? [
      { columns: own, caught, attempts: set.marks.length },
    ];
    if (isSpoilt) spoilt.add(row);
    else if (!(hasStage && set.apart)) {
      trueRows.push({
        row,
        day: serial(set.day),
        athlete: set.athlete,
        trick: set.trick,
        parts,
      });
    }
    const isFree = mistakes && draw.chance(0.04) && order[0] === "date";
    if (isFree) pushed([days.cell(set.day, index), draw.of(["Holiday", "no practice", "Ferien"])]); // prettier-ignore
    if (sumsNow && index % 6 === 5) {
      const inName = draw.chance(0.5);
      pushed(
        order.flatMap((place): readonly Written[] => {
          if (place === "date") return [days.cell(set.day, index)];
          if (place === (inName ? "athlete" : "trick")) return [draw.of(words.weekTotal)];
          if (place === "record") return record.headings.map((_, at) => 60 + (at % 2) * 5);
          return [place === "athlete" ? set.athlete : null];
        }),
      );
    }
    // After a free day the next one is written anew.
    before = isFree && structure !== "blocks" ? undefined : set;
  }
  if (draw.chance(0.25)) {
    ways.push("a sum at the foot");
    pushed(order.flatMap((place, at): readonly Written[] => (at === 0 ? [draw.of(words.total)] : place === "record" ? record.headings.map(() => 99) : [null]))); // prettier-ignore
  }

  if (draw.chance(0.15)) ways.push(below(draw, rows));
  if (draw.chance(0.15)) ways.push(beside(draw, rows));

  const own = (place: Place) => ({ column: columnAt(place) });
  const source = record.record(columnAt("record"));
  const truth: DrawnLog["truth"] = {
    date: columnAt("date"),
    athlete: hasAthlete
      ? own("athlete")
      : structure === "one athlete"
        ? { name: list[0]?.athlete ?? "" }
        : { over: firstColumn },
    trick: own("trick"),
    stage: hasStage ? columnAt("stage") : null,
    record: source,
    filledDown: structure === "day rows" ? ["date"] : (filled as readonly ("date" | "athlete")[]),
    ...record.answers,
    ...days.answers,
    unsayable: days.unreadable,
  };
  const whole = sheet(`${"ABC".charAt(firstColumn - 1)}${String(firstRow)}`, rows);
  const block = aroundColumn(whole, columnAt("trick"));
  return { ways, block, rows: trueRows, spoilt, truth };
}
