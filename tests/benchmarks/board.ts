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

export function boardBenchmark(print: (line: string) => void): void {
  const board = loadBuiltFunctions().get("BOARD");
  if (!board) throw new Error("BOARD is not in dist/functions.js");
  const run = (log: Log) => board(log.dates, log.athletes, log.tricks, log.marks, 0.8, 10, null, null, null);
  const small = makeLog(50_000);
  const large = makeLog(500_000);
  print(
    "BOARD from the built functions.js, rows of ten attempts, 12 athletes and 20 tricks, medians of interleaved runs",
  );
  const times = { plain: [] as number[], small: [] as number[], large: [] as number[] };
  for (let round = 0; round < 12; round++) {
    const plain = milliseconds(() => plainLoop(small));
    const ours = milliseconds(() => run(small));
    const tenfold = round % 2 === 0 ? milliseconds(() => run(large)) : undefined;
    if (round < 2) continue;
    times.plain.push(plain);
    times.small.push(ours);
    if (tenfold !== undefined) times.large.push(tenfold);
  }
  const [plain, ours, tenfold] = [median(times.plain), median(times.small), median(times.large)];
  print(
    `50,000 rows: plain loop ${plain.toFixed(1)} ms, BOARD ${ours.toFixed(1)} ms, ${(ours / plain).toFixed(2)} times the loop (aim: at most 5)`,
  );
  print(
    `500,000 rows: BOARD ${tenfold.toFixed(1)} ms, ${(tenfold / ours).toFixed(2)} times the 50,000 rows (aim: at most 12)`,
  );
}
