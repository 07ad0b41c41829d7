import { countdownStep } from "../../src/core/advice";
import { BoardLog } from "../../src/core/board";
import { CAUGHT, DROPPED } from "../../src/core/attempt-log";
import { countdown } from "../../src/core/countdown";
import { DaysOff } from "../../src/core/days-off";

const START = 46000;

/** A set of ten on each of these days, so many caught. */
function board(sets: readonly (readonly [trick: string, day: number, caught: number])[]) {
  const log = new BoardLog();
  for (const [trick, day, caught] of sets) {
    const record = log.recordOf(START + day, "A.K.", trick, undefined, Infinity);
    if (!record) throw new Error("A row without a stage always counts.");
    const before = record.asRead.entries;
    for (let attempt = 0; attempt < 10; attempt++) record.asRead.add(attempt < caught ? CAUGHT : DROPPED);
    record.noteDay(START + day, before);
  }
  return log.rows(0.8, 10);
}

const evenly = (trick: string, days: readonly number[], caught: number) =>
  days.map((day) => [trick, day, caught] as const);
/** Eight practices in the latest four weeks. */
const DAYS = [1, 4, 8, 11, 15, 18, 22, 28];

describe("by hand", () => {
  test("the pace of four weeks, carried on to the contest", () => {
    const [row] = countdown(board(evenly("Flat", DAYS, 9)), START + 28, START + 42, 0.8, 10);
    // Eight practices and eight sets in 28 days, half as many in 14; five sets take 17.5 days at that pace.
    expect(row).toMatchObject({ practicesLeft: 4, setsLeft: 4, lastDayToSwap: START + 42 - 18 });
  });

  test("an older practice is not in the pace", () => {
    const older = evenly("Flat", [-20, -10, 0], 9);
    const [row] = countdown(board([...older, ...evenly("Flat", DAYS, 9)]), START + 28, START + 42, 0.8, 10);
    expect(row?.practicesLeft).toBe(4);
    const [none] = countdown(board(older), START + 28, START + 42, 0.8, 10);
    expect(none).toMatchObject({ practicesLeft: 0, setsLeft: 0, lastDayToSwap: undefined });
  });

  test("days off are in neither the pace nor what is left", () => {
    const sets = board(evenly("Flat", DAYS, 9));
    const count = (...off: (readonly [first: number, last: number])[]) =>
      countdown(
        sets,
        START + 28,
        START + 42,
        0.8,
        10,
        new DaysOff(off.map(([first, last]) => ({ first: START + first, last: START + last }))),
      )[0];
    // A week off ahead: seven days at eight practices in 28 days.
    expect(count([30, 36])).toMatchObject({ practicesLeft: 2, setsLeft: 2, lastDayToSwap: START + 42 - 18 - 7 });
    // The same days told twice, in part, are off once.
    expect(count([33, 36], [30, 34], [31, 31])).toEqual(count([30, 36]));
    // Half of the latest four weeks off: eight practices in 14 days, so that 14 more have eight; five sets take 8.75 days.
    expect(count([2, 3], [5, 7], [9, 10], [12, 14], [16, 17], [19, 20])).toMatchObject({
      practicesLeft: 8,
      setsLeft: 8,
      lastDayToSwap: START + 42 - 9,
    });
    // The contest day itself off, and days beyond it: the first goes, the others are nothing to it.
    expect(count([42, 60])).toMatchObject({ practicesLeft: 3, lastDayToSwap: START + 42 - 18 - 1 });
    expect(count([43, 60])).toEqual(count());
  });

  test("on the contest day nothing is left", () => {
    const [row] = countdown(board(evenly("Flat", DAYS, 9)), START + 28, START + 28, 0.8, 10);
    expect(row).toMatchObject({ practicesLeft: 0, setsLeft: 0 });
  });

  test("most pressing first: at risk, then what is not ready, then by the chance on the day", () => {
    const rows = countdown(
      board([
        ...evenly("Solid", DAYS, 10),
        ...evenly("Ready", DAYS, 9),
        ...evenly("Building", DAYS, 5),
        ...evenly("Falling", DAYS.slice(0, -1), 10),
        ["Falling", 28, 3],
      ]),
      START + 28,
      START + 42,
      0.8,
      10,
    );
    expect(rows.map(({ trick, status }) => [trick, status])).toEqual([
      ["Falling", "At risk"],
      ["Building", "Building"],
      ["Ready", "Solid"],
      ["Solid", "Solid"],
    ]);
  });
});

describe("what to do", () => {
  const step = (caught: number, contest: number, days: readonly number[] = DAYS) => {
    const [row] = countdown(board(evenly("Flat", days, caught)), START + 28, START + contest, 0.8, 10);
    return row && countdownStep(row, START + 28);
  };
  test("in words", () => {
    expect(step(10, 42)).toBe("On its way: keep it warm.");
    // 46000 is 9 December 2025 (1900 system): day 37 is 15 January 2026.
    expect(step(5, 55)).toBe("Work on it until 15 January 2026; not Ready by then, choose another trick.");
    expect(step(5, 42)).toMatch(/^Too late to make another trick ready at this pace/);
    expect(step(5, 42, [-40, -10, 0])).toMatch(/^Not practised in four weeks/);
    expect(step(10, 120)).toMatch(/^On its way: keep it warm\. The contest is 92 days after the last practice/);
  });
});
