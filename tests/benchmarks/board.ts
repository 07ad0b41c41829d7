/** BOARD against a plain loop over the same cells in the same run, and how it grows with the log. */
import { loadBuiltFunctions, median, milliseconds } from "./built-functions";
import { seededRandom } from "./random";

interface Log {
  readonly dates: number[][];
  readonly athletes: string[][];
  readonly tricks: string[][];
  readonly marks: string[][];
}

function makeLog(rows: number): Log {
  const random = seededRandom(5);
  const log: Log = { dates: [], athletes: [], tricks: [], marks: [] };
  for (let row = 0; row < rows; row++) {
    log.dates.push([46000 + Math.floor((row / rows) * 300)]);
    log.athletes.push([`A${Math.floor(random() * 12)}.`]);
    log.tricks.push([`Trick ${Math.floor(random() * 20)}`]);
    log.marks.push([Array.from({ length: 10 }, () => (random() < 0.85 ? "c" : "d")).join("")]);
  }
  return log;
}

/** What a plain loop does at the least: reads every cell, groups by athlete and trick, counts the catches. */
function plainLoop({ dates, athletes, tricks, marks }: Log): number {
  const groups = new Map<string, { caught: number; attempts: number; last: number }>();
  for (let row = 0; row < dates.length; row++) {
    const name = `${athletes[row]?.[0]}\t${tricks[row]?.[0]}`;
    let group = groups.get(name);
    if (!group) groups.set(name, (group = { caught: 0, attempts: 0, last: 0 }));
    const cell = marks[row]?.[0] ?? "";
    for (let index = 0; index < cell.length; index++) {
      group.attempts++;
      if (cell.charCodeAt(index) === 99) group.caught++;
    }
    group.last = Math.max(group.last, dates[row]?.[0] ?? 0);
  }
  return groups.size;
}

type Order = "in order" | "newest first" | "in any order";

/** The same rows, turned round or shuffled. */
function ordered(log: Log, order: Order): Log {
  const random = seededRandom(6);
  const rows = [...log.dates.keys()];
  if (order === "newest first") rows.reverse();
  if (order === "in any order") {
    for (let row = rows.length - 1; row > 0; row--) {
      const other = Math.floor(random() * (row + 1));
      [rows[row], rows[other]] = [rows[other] as number, rows[row] as number];
    }
  }
  const taken = <Cell>(cells: Cell[][]): Cell[][] => rows.map((row) => cells[row] as Cell[]);
  return {
    dates: taken(log.dates),
    athletes: taken(log.athletes),
    tricks: taken(log.tricks),
    marks: taken(log.marks),
  };
}

/** The same log with marks in every hundredth row that are none. */
function withUnreadable(log: Log): Log {
  return { ...log, marks: log.marks.map((cells, row) => (row % 100 === 99 ? ["ccxdc?"] : cells)) };
}

const ROWS = 500_000;
const ROUNDS = 8;
/** The first runs are slower: the program is still being compiled. */
const WARM_UP = 2;

const CASES: readonly { readonly what: string; readonly aim: number; readonly log: (log: Log) => Log }[] = [
  { what: "in order", aim: 3, log: (log) => log },
  { what: "newest first", aim: 5, log: (log) => ordered(log, "newest first") },
  { what: "in any order", aim: 5, log: (log) => ordered(log, "in any order") },
  { what: "in order, 1 % of the rows unreadable", aim: 5, log: withUnreadable },
];

export function boardBenchmark(print: (line: string) => void): void {
  const board = loadBuiltFunctions().get("BOARD");
  if (!board) throw new Error("BOARD is not in dist/functions.js");
  const run = (log: Log) => board(log.dates, log.athletes, log.tricks, log.marks, 0.8, 10, null, null, null);
  print(
    "BOARD from the built functions.js, rows of ten attempts, 12 athletes and 20 tricks, medians of interleaved runs; the plain loop reads the same rows",
  );
  const whole = makeLog(ROWS);
  let inOrder = NaN;
  for (const { what, aim, log } of CASES) {
    const rows = log(whole);
    const times = { plain: [] as number[], ours: [] as number[] };
    for (let round = 0; round < ROUNDS; round++) {
      const plain = milliseconds(() => plainLoop(rows));
      const ours = milliseconds(() => run(rows));
      if (round < WARM_UP) continue;
      times.plain.push(plain);
      times.ours.push(ours);
    }
    const [plain, ours] = [median(times.plain), median(times.ours)];
    if (what === "in order") inOrder = ours;
    print(
      `500,000 rows ${what}: plain loop ${plain.toFixed(0)} ms, BOARD ${ours.toFixed(0)} ms, ${(ours / plain).toFixed(2)} times the loop (aim: at most ${aim})`,
    );
  }
  const small = makeLog(ROWS / 10);
  const times = Array.from({ length: ROUNDS + WARM_UP }, () => milliseconds(() => run(small))).slice(WARM_UP);
  print(
    `50,000 rows: BOARD ${median(times).toFixed(1)} ms; ten times the rows take ${(inOrder / median(times)).toFixed(2)} times as long (aim: at most 12)`,
  );
}
