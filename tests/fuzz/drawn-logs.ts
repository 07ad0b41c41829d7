/**
 * Draws a practice log that is known in full, and writes it down in a way that a club might: so that what is read can be
 * held against what was practised. Everything is invented.
 */
import type { Corrections } from "../../src/core/log-layout/find-layout";
import type { RecordColumns, TallyReading } from "../../src/core/log-layout/mapping";
import type { CellBlock } from "../../src/core/log-layout/cell-block";
import { day, serial, sheet } from "../core/log-layout/sheets";
import { ATHLETES, LANGUAGES, TRICKS, UNKNOWN_HEADINGS, WORDS, type Words } from "./drawn-words";

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

/** Numbers that look random and are the same for the same seed. Mulberry32, public domain. */
export class Draw {
  private state: number;

  constructor(seed: number) {
    this.state = seed | 0;
  }

  next(): number {
    this.state = (this.state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(this.state ^ (this.state >>> 15), 1 | this.state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  }

  whole(least: number, most: number): number {
    return least + Math.floor(this.next() * (most - least + 1));
  }

  chance(share: number): boolean {
    return this.next() < share;
  }

  of<Item>(items: readonly Item[]): Item {
    const found = items[Math.floor(this.next() * items.length)];
    if (found === undefined) throw new Error("Nothing to draw from.");
    return found;
  }
}

type Written = Parameters<typeof sheet>[1][number][number];

/** A set as it was practised: c, d and b in order. */
interface PractisedSet {
  readonly day: string;
  readonly athlete: string;
  readonly trick: string;
  readonly apart: boolean;
  readonly marks: string;
}

const MILLISECONDS_IN_DAY = 86_400_000;

function practise(draw: Draw, setSize: number, sameSize: boolean, bails: boolean): readonly PractisedSet[] {
  const athletes = draw.of(ATHLETES).slice(0, draw.whole(1, 4));
  const tricks = draw.of(TRICKS).slice(0, draw.whole(1, 4));
  const sets: PractisedSet[] = [];
  let at = Date.UTC(2025, draw.whole(0, 11), draw.whole(1, 28));
  const days = draw.whole(3, 12);
  const skill = 0.4 + 0.55 * draw.next();
  for (let count = 0; count < days; count += 1) {
    for (const athlete of athletes) {
      for (const trick of tricks) {
        if (!draw.chance(0.7)) continue;
        const size = sameSize ? setSize : Math.max(1, setSize + draw.whole(-3, 3));
        const marks = Array.from({ length: size }, () =>
          draw.chance(skill) ? "c" : bails && draw.chance(0.3) ? "b" : "d",
        );
        sets.push({
          day: new Date(at).toISOString().slice(0, 10),
          athlete,
          trick,
          apart: draw.chance(0.2),
          marks: marks.join(""),
        });
      }
    }
    at += draw.whole(1, 5) * MILLISECONDS_IN_DAY;
  }
  return sets;
}

const caughtIn = (marks: string): number => [...marks].filter((mark) => mark === "c").length;
const droppedIn = (marks: string): number => [...marks].filter((mark) => mark === "d").length;
const bailedIn = (marks: string): number => [...marks].filter((mark) => mark === "b").length;

/* ---- how the attempts are written ---- */

interface RecordWay {
  readonly name: string;
  readonly setSize: number;
  readonly sameSize: boolean;
  readonly bails: boolean;
  /** Over each of its columns; `number` where the headings are 1, 2, 3. */
  readonly headings: readonly (string | number)[];
  readonly cells: (set: PractisedSet, row: number) => readonly Written[];
  readonly record: (first: number) => RecordColumns | null;
  readonly answers: Corrections;
  /** The columns of the record that hold the attempts, from the first of them. */
  readonly parts?: (
    set: PractisedSet,
  ) => readonly { readonly at: number; readonly caught: number; readonly attempts: number }[];
  /** A mark that is none may take a cell's place. */
  readonly spoils: boolean;
}

const replaced = (marks: string, [caught, dropped]: readonly [string, string]): string =>
  [...marks].map((mark) => (mark === "c" ? caught : mark === "d" ? dropped : mark)).join("");

function drawRecord(draw: Draw, words: Words): RecordWay {
  const setSize = draw.of([3, 5, 8, 10, 10, 10]);
  const one = (first: number): RecordColumns => ({ kind: "marks", first, last: first });
  const common = { setSize, sameSize: draw.chance(0.7), bails: false, answers: {}, spoils: true, record: one };
  const kind = draw.whole(0, 13);
  switch (kind) {
    case 0:
    case 1: {
      const upper = draw.chance(0.3);
      return {
        ...common,
        name: "a run of c and d",
        bails: draw.chance(0.3),
        headings: [draw.of(words.marks)],
        cells: ({ marks }) => [upper ? marks.toUpperCase() : marks],
      };
    }
    case 2: {
      const [signs, key] = draw.of<readonly [readonly [string, string], string | null]>([
        [["x", "o"], "x/o"],
        [["o", "x"], "o/x"],
        [["✓", "✗"], null],
        [["+", "-"], "+/-"],
        [["+", "o"], "+/o"],
        [["j", "n"], "j/n"],
      ]);
      return {
        ...common,
        name: `a run of ${signs.join(" and ")}`,
        headings: [draw.of(words.marks)],
        cells: ({ marks }) => [`${replaced(marks, signs)}`],
        answers: { key },
      };
    }
    case 3: {
      const spaced = draw.chance(0.2);
      return {
        ...common,
        name: "a tally of caught",
        headings: [draw.of([...words.marks, ...words.caught])],
        cells: ({ marks }) => [`${String(caughtIn(marks))}${spaced ? " / " : "/"}${String(marks.length)}`],
        answers: { tally: "caught/attempts" },
      };
    }
    case 4: {
      const reading: TallyReading = draw.of([
        "dropped/attempts",
        "caught/dropped",
        "dropped/caught",
        "attempts/caught",
      ]);
      const [first, second] = reading.split("/") as ["caught", "dropped"];
      const exact = draw.chance(0.7);
      const heading = exact ? `${draw.of(words[first])}/${draw.of(words[second]).toLowerCase()}` : reading === "dropped/attempts" ? draw.of(words.dropped) : draw.of(words.marks); // prettier-ignore
      const number = (part: string, marks: string): number =>
        part === "caught" ? caughtIn(marks) : part === "attempts" ? marks.length : marks.length - caughtIn(marks);
      return {
        ...common,
        name: `a tally of ${reading} under ${heading}`,
        // Where no heading says it, the sizes do: nobody could tell 2/8 and 3/9 of drops from a poor record.
        sameSize: exact ? common.sameSize : true,
        headings: [heading],
        cells: ({ marks }) => [`${String(number(first, marks))}/${String(number(second, marks))}`],
        answers: { tally: reading },
      };
    }
    case 5:
    case 6: {
      const [one, other] = draw.of([
        ["caught", "attempts"],
        ["attempts", "caught"],
        ["caught", "dropped"],
        ["attempts", "dropped"],
        ["caught", "notCaught"],
      ] as const);
      const bails = one !== "attempts" && other !== "attempts" && draw.chance(0.3);
      const number = (part: string, marks: string): number =>
        part === "caught" ? caughtIn(marks) : part === "attempts" ? marks.length : part === "notCaught" ? marks.length - caughtIn(marks) : droppedIn(marks); // prettier-ignore
      const roleOf = (part: string): string => (part === "notCaught" ? "dropped" : part);
      const isBails = bails && other !== "notCaught";
      return {
        ...common,
        name: `numbers: ${one}, ${other}${isBails ? ", bails" : ""}`,
        bails: isBails,
        headings: [draw.of(words[one]), draw.of(words[other]), ...(isBails ? [draw.of(words.bailed)] : [])],
        cells: ({ marks }) => [
          number(one, marks),
          number(other, marks),
          ...(isBails ? [bailedIn(marks) === 0 && draw.chance(0.5) ? null : bailedIn(marks)] : []),
        ],
        record: (first) =>
          ({
            kind: "tally",
            [roleOf(one)]: first,
            [roleOf(other)]: first + 1,
            ...(isBails ? { bailed: first + 2 } : {}),
          }) as unknown as RecordColumns,
        spoils: false,
      };
    }
    case 7:
    case 8:
    case 9: {
      const width = Math.min(setSize, 10);
      const [signs, answers] = draw.of<readonly [readonly [Written, Written], Corrections]>([
        [["c", "d"], { key: null, blank: null }],
        [["✓", "✗"], { key: null, blank: null }],
        [["✓", null], { key: null, blank: "dropped" }],
        [[1, 0], { key: "1/0", blank: null }],
        [[1, null], { key: "1/0", blank: "dropped" }],
        [["x", null], { key: "x/d", blank: "dropped" }],
        [[null, "x"], { key: "c/x", blank: "caught" }],
        [["x", "o"], { key: "x/o", blank: null }],
        [[true, false], { key: null, blank: null }],
        [[true, null], { key: null, blank: "dropped" }],
        [["✓", "-"], { key: "✓/-", blank: null }],
      ]);
      const lone = answers.blank !== null;
      const stem = draw.of(words.tries);
      const heading = draw.of<(index: number) => string | number>([
        (index) => index + 1,
        (index) => `${stem} ${String(index + 1)}`,
        (index) => (index === 0 ? stem : ""),
      ]);
      return {
        ...common,
        name: `one attempt a column, ${signs.map(String).join(" and ")}`,
        setSize: width,
        sameSize: lone,
        headings: Array.from({ length: lone ? width : width + 3 }, (_, index) => heading(index)),
        cells: ({ marks }) =>
          Array.from({ length: lone ? width : width + 3 }, (_, index) =>
            index >= marks.length ? null : marks[index] === "c" ? signs[0] : signs[1],
          ),
        record: (first) => ({ kind: "marks", first, last: first + (lone ? width : width + 3) - 1 }),
        answers,
        spoils: !lone,
      };
    }
    case 10: {
      const sets = draw.whole(2, 4);
      return {
        ...common,
        name: "a set a column, as tallies",
        headings: Array.from({ length: sets }, (_, index) => `Set ${String(index + 1)}`),
        cells: ({ marks }) => Array.from({ length: sets }, () => `${String(caughtIn(marks))}/${String(marks.length)}`),
        record: (first) => ({ kind: "marks", first, last: first + sets - 1 }),
        answers: { tally: "caught/attempts" },
        parts: ({ marks }) =>
          Array.from({ length: sets }, (_, at) => ({ at, caught: caughtIn(marks), attempts: marks.length })),
      };
    }
    case 11: {
      const order = draw.of(["day/month", "month/day"] as const);
      return {
        ...common,
        name: `tallies that became days, ${order}`,
        setSize: 10,
        sameSize: true,
        headings: [draw.of(words.marks)],
        cells: ({ marks }) => {
          const caught = caughtIn(marks);
          if (caught === 0) return [`0/${String(marks.length)}`];
          const [date, month] = order === "day/month" ? [caught, marks.length] : [marks.length, caught];
          const iso = `2026-${String(month).padStart(2, "0")}-${String(date).padStart(2, "0")}`;
          return [{ value: serial(iso), format: "d-mmm", text: `${String(date)}-${String(month)}` }];
        },
        answers: { turned: order, tally: "caught/attempts" },
        spoils: false,
      };
    }
    case 12: {
      const way = draw.of(["of", "dash"] as const);
      return {
        ...common,
        name: way === "of" ? "8 of 10" : "C-D-C",
        headings: [draw.of(words.marks)],
        cells: ({ marks }) => [
          way === "of" ? `${String(caughtIn(marks))} of ${String(marks.length)}` : [...marks.toUpperCase()].join("-"),
        ],
        spoils: false,
      };
    }
    default: {
      const hands = draw.of([
        ["Right", "Left"],
        ["Droite", "Gauche"],
        ["A", "B"],
      ] as const);
      return {
        ...common,
        name: "two hands side by side",
        headings: [...hands],
        cells: ({ marks }) => [`${String(caughtIn(marks))}/${String(marks.length)}`, `${String(marks.length - 1)}/${String(marks.length)}`], // prettier-ignore
        record: (first) => ({ kind: "marks", first, last: first + 1 }),
        answers: { tally: "caught/attempts" },
        parts: ({ marks }) => [
          { at: 0, caught: caughtIn(marks), attempts: marks.length },
          { at: 1, caught: marks.length - 1, attempts: marks.length },
        ],
      };
    }
  }
}

/* ---- how the days are written ---- */

interface DayWay {
  readonly name: string;
  readonly cell: (iso: string, index: number) => Written;
  readonly answers: Corrections;
  readonly unreadable: boolean;
}

function drawDays(draw: Draw): DayWay {
  const parts = (iso: string): readonly [string, string, string] => {
    const [year = "", month = "", date = ""] = iso.split("-");
    return [year, month, date];
  };
  const plain: DayWay = { name: "real days", cell: (iso) => day(iso), answers: {}, unreadable: false };
  if (draw.chance(0.6)) return plain;
  const separator = draw.of([".", "/", "-"]);
  const bare = (text: string): string => String(Number(text));
  switch (draw.whole(0, 5)) {
    case 0:
      return {
        ...plain,
        name: "days as text, the day first",
        cell: (iso) => {
          const [year, month, date] = parts(iso);
          return [bare(date), bare(month), year].join(separator);
        },
        answers: { dateText: { order: "dmy", separator } },
      };
    case 1:
      return {
        ...plain,
        name: "days as text, the month first",
        cell: (iso) => {
          const [year, month, date] = parts(iso);
          return [bare(month), bare(date), year].join("/");
        },
        answers: { dateText: { order: "mdy", separator: "/" } },
      };
    case 2:
      return { ...plain, name: "days as text, the year first", cell: (iso) => iso, answers: { dateText: { order: "ymd", separator: "-" } } }; // prettier-ignore
    case 3:
      return { ...plain, name: "days in words", cell: (iso) => new Date(`${iso}T00:00:00Z`).toUTCString().slice(0, 16), unreadable: true }; // prettier-ignore
    case 4:
      return { ...plain, name: "time stamps", cell: (iso) => `${iso}T17:30:00Z`, unreadable: true };
    default:
      return { ...plain, name: "numbers of weeks", cell: (_, index) => 1 + Math.floor(index / 4), unreadable: true };
  }
}

/* ---- the sheet ---- */

const NO_BREAK = "\u00A0";

/** A name as several people type it. */
function asTyped(draw: Draw, name: string): string {
  if (draw.chance(0.9)) return name;
  return draw.of([name.replace(/ /g, NO_BREAK), name.replace(/ /g, "  "), ` ${name}`, `${name} `, name.toLowerCase()]);
}

const NOTES = ["", "", "", "windy hall", "new baton", "tired", "ok", "see video"];

type Place = "date" | "athlete" | "trick" | "stage" | "record" | "minutes" | "note" | "goal" | "running";

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
  const headings = order.flatMap((place): readonly (string | number)[] => {
    if (place === "record") return known ? record.headings : record.headings.map(unknown);
    return [known ? draw.of(words[place]) : unknown()];
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
  const list = structure === "one athlete" ? sorted.filter(({ athlete }) => athlete === sorted[0]?.athlete) : sorted;
  const again = headed && draw.chance(0.1);
  const repeats = structure === "blocks" ? draw.chance(0.5) : again;
  const sumsNow = draw.chance(0.15) && record.record(1)?.kind === "tally" && hasAthlete;
  if (sumsNow) ways.push("weekly totals");
  const mistakes = draw.chance(0.3);
  if (mistakes) ways.push("mistakes");
  const namesTyped = draw.chance(0.3);
  if (namesTyped) ways.push("names typed in several ways");

  if (headed && !(structure === "blocks" && repeats)) pushed(headings);
  for (const [index, set] of list.entries()) {
    if (structure === "blocks" && before?.athlete !== set.athlete) {
      if (draw.chance(0.5) && rows.length > 1) pushed([]);
      pushed([set.athlete]);
      if (repeats) pushed(headings);
    } else if (again && structure === "plain" && index > 0 && index % 15 === 0) pushed(headings);
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
      cells[columnAt("record") - firstColumn] = "sick";
      isSpoilt = true;
    }
    pushed([...cells]);
    const first = columnAt("record");
    const parts = record.parts?.(set) ?? [{ at: 0, caught, attempts: set.marks.length }];
    if (isSpoilt) spoilt.add(row);
    else if (!(hasStage && set.apart)) {
      trueRows.push({
        row,
        day: serial(set.day),
        athlete: set.athlete,
        trick: set.trick,
        parts: parts.map((part) => ({ columns: [first + part.at], caught: part.caught, attempts: part.attempts })),
      });
    }
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
    before = set;
  }
  if (draw.chance(0.25)) {
    ways.push("a sum at the foot");
    pushed(order.flatMap((place, at): readonly Written[] => (at === 0 ? [draw.of(words.total)] : place === "record" ? record.headings.map(() => 99) : [null]))); // prettier-ignore
  }

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
    unsayable: days.unreadable || record.name === "8 of 10" || record.name === "C-D-C",
  };
  const block = sheet(`${"ABC".charAt(firstColumn - 1)}${String(firstRow)}`, rows);
  return { ways, block, rows: trueRows, spoilt, truth };
}
