/** What a trick that fails costs to look into: the core's part of each function over a million attempts, marks read too. */
import { changeDay } from "../../src/core/change-day";
import { ConditionLog } from "../../src/core/conditions";
import { DayTallies } from "../../src/core/day-tallies";
import { FirstTriesLog } from "../../src/core/first-tries";
import { readMark } from "../../src/core/marks";
import { ProgressionLog } from "../../src/core/progression";
import { RowOfMarks } from "../../src/core/row-of-marks";
import { STAGES } from "../../src/trade/stages";
import { tellApart } from "../../src/core/tell-apart";
import { WayLog } from "../../src/core/ways";
import { median } from "./built-functions";
import { seededRandom } from "./random";

/** Columns, as a sheet hands them over. */
interface TrickLog {
  readonly rows: number;
  readonly dates: readonly number[];
  readonly marks: readonly string[];
  readonly ways: readonly string[];
  readonly athletes: readonly string[];
  readonly tricks: readonly string[];
  readonly conditions: readonly string[];
  readonly stages: readonly (typeof STAGES)[number][];
}

const ATTEMPTS = 1_000_000;
const AIM_MILLISECONDS = 500;

interface LogShape {
  readonly what: string;
  readonly attemptsInRow: number;
  readonly days: number;
  readonly ways: number;
  readonly newestFirst?: boolean;
}

const SHAPES: readonly LogShape[] = [
  { what: "rows of ten, 1,000 days, 50 ways", attemptsInRow: 10, days: 1000, ways: 50 },
  { what: "rows of one, 1,000 days, 50 ways", attemptsInRow: 1, days: 1000, ways: 50 },
  { what: "the same newest first", attemptsInRow: 1, days: 1000, ways: 50, newestFirst: true },
  { what: "rows of one, 20,000 days, 200 ways", attemptsInRow: 1, days: 20_000, ways: 200 },
];

function makeLog({ attemptsInRow, days, ways, newestFirst }: LogShape): TrickLog {
  const random = seededRandom(11);
  const rows = ATTEMPTS / attemptsInRow;
  const dayOf = (row: number) => Math.floor(((newestFirst ? rows - 1 - row : row) / rows) * days);
  // The rate goes up and down from one fifth of the days to the next, so that the change-points have work to do.
  const rateOf = (row: number) => (Math.floor((5 * dayOf(row)) / days) % 2 === 0 ? 0.75 : 0.65);
  const mark = (rate: number) => (random() < rate ? "c" : "d");
  const column = <Cell>(cell: (row: number) => Cell) => Array.from({ length: rows }, (_, row) => cell(row));
  const oneOf = <Cell>(cells: readonly Cell[]) => column(() => cells[Math.floor(random() * cells.length)] as Cell);
  const named = (count: number, name: string) => Array.from({ length: count }, (_, index) => `${name} ${index}`);
  return {
    rows,
    dates: column((row) => 45000 + dayOf(row)),
    marks: column((row) => {
      const rate = rateOf(row);
      let marks = mark(rate);
      for (let attempt = 1; attempt < attemptsInRow; attempt++) marks += mark(rate);
      return marks;
    }),
    ways: oneOf(named(ways, "way")),
    athletes: oneOf(named(12, "Athlete")),
    tricks: oneOf(named(20, "Trick")),
    conditions: oneOf(["", "tired", "left hand; outdoors", "outdoors"]),
    stages: oneOf(STAGES),
  };
}

type Look = (log: TrickLog) => unknown;

/** Reads the marks row by row as a cell function does. */
function readAll({ rows, marks }: TrickLog, use: (index: number, row: RowOfMarks) => void): void {
  const row = new RowOfMarks();
  for (let index = 0; index < rows; index++) {
    row.begin();
    readMark(marks[index] as string, "marks", index + 1, 1, row.log);
    use(index, row);
  }
}

const LOOKS: Readonly<Record<string, Look>> = {
  CHANGEDAY: (log) => {
    const days = new DayTallies();
    readAll(log, (index, row) => days.add(log.dates[index] as number, row));
    return changeDay(days.days());
  },
  WAYS: (log) => {
    const ways = new WayLog();
    readAll(log, (index, row) => ways.add(log.ways[index], row, log.dates[index]));
    return ways.rows(true);
  },
  CONDITIONS: (log) => {
    const conditions = new ConditionLog();
    readAll(log, (index, row) =>
      conditions.add(log.conditions[index], log.athletes[index] as string, log.tricks[index] as string, row),
    );
    return conditions.rows();
  },
  FIRSTTRIES: (log) => {
    const days = new FirstTriesLog();
    readAll(log, (index, row) => days.add(log.dates[index] as number, row));
    return days.rows(7);
  },
  PROGRESSION: (log) => {
    const stages = new ProgressionLog();
    readAll(log, (index, row) => stages.add(log.dates[index] as number, log.stages[index] ?? "Joined", row));
    return stages.rows(0.8, 10);
  },
  "the marks alone": (log) => readAll(log, () => undefined),
};

/** Milliseconds of processor time, all threads together: the clock would tell what else the machine does. */
function processorTime(work: () => unknown): number {
  const before = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

/** What CHANGEDAY sees where there is something, and where there is nothing: ten attempts a day, by simulation. */
function changeCharacteristics(print: (line: string) => void, records = 4000): void {
  const random = seededRandom(3);
  const spread = () => 0.07 * Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
  const cases: readonly { what: string; days: number; change?: number; rate: (day: number) => number }[] = [
    { what: "85 % throughout, 20 days", days: 20, rate: () => 0.85 },
    { what: "85 % throughout, 60 days", days: 60, rate: () => 0.85 },
    { what: "85 %, days that differ by 7 points, 20 days", days: 20, rate: () => 0.85 + spread() },
    { what: "85 %, days that differ by 7 points, 60 days", days: 60, rate: () => 0.85 + spread() },
    { what: "90 to 70 % on day 21, 5 days of it", days: 25, change: 21, rate: (day) => (day < 21 ? 0.9 : 0.7) },
    { what: "90 to 70 % on day 21, 10 days of it", days: 30, change: 21, rate: (day) => (day < 21 ? 0.9 : 0.7) },
    { what: "95 to 60 % on day 21, 2 days of it", days: 22, change: 21, rate: (day) => (day < 21 ? 0.95 : 0.6) },
    { what: "95 to 60 % on day 21, 4 days of it", days: 24, change: 21, rate: (day) => (day < 21 ? 0.95 : 0.6) },
  ];
  const percent = (count: number, of: number) => (of === 0 ? "" : `${((100 * count) / of).toFixed(1)} %`);
  print(`CHANGEDAY over ${records} simulated records a row, seeded`);
  print("| true rate | slide told | rise told | true day between earliest and latest |");
  print("| --- | --- | --- | --- |");
  for (const { what, days, change, rate } of cases) {
    let [slid, risen, between] = [0, 0, 0];
    for (let record = 0; record < records; record++) {
      const found = changeDay(
        Array.from({ length: days }, (_, day) => {
          const today = rate(day + 1);
          let caught = 0;
          for (let attempt = 0; attempt < 10; attempt++) if (random() < today) caught += 1;
          return { date: day + 1, caught, attempts: 10 };
        }),
      );
      if (found.change === "risen") risen += 1;
      if (found.change !== "slid") continue;
      slid += 1;
      if (found.told && change && found.told.earliest <= change && change <= found.told.latest) between += 1;
    }
    print(
      `| ${what} | ${percent(slid, records)} | ${percent(risen, records)} | ${change ? percent(between, slid) : ""} |`,
    );
  }
}

export function trickBenchmark(print: (line: string) => void): void {
  print(
    `${ATTEMPTS.toLocaleString("en")} attempts, medians of 5 in ms of processor time; aim at most ${AIM_MILLISECONDS}`,
  );
  print(`| | ${Object.keys(LOOKS).join(" | ")} |`);
  print(`| --- |${" --- |".repeat(Object.keys(LOOKS).length)}`);
  for (const shape of SHAPES) {
    const log = makeLog(shape);
    const times = Object.values(LOOKS).map((look) => {
      const time = median(Array.from({ length: 5 }, () => processorTime(() => look(log))));
      return `${time.toFixed(0)}${time > AIM_MILLISECONDS ? " MISSED" : ""}`;
    });
    print(`| ${shape.what} | ${times.join(" | ")} |`);
  }
  const calls = 1000;
  const time = processorTime(() => {
    for (let call = 1; call <= calls; call++) tellApart(0.7, 0.7 + 0.2 * (call / calls), 0.8, 0.95);
  });
  print(`TELLAPART: ${((1000 * time) / calls).toFixed(1)} µs a call`);
  changeCharacteristics(print);
}
