import { PairLog } from "../../src/core/pair-board";
import { Missing, Problem } from "../../src/core/problem";
import { RowOfMarks } from "../../src/core/row-of-marks";

function logged(exchanges: readonly (readonly [thrower: string, catcher: string, caught: number, of: number])[]) {
  const log = new PairLog();
  const row = new RowOfMarks();
  for (const [thrower, catcher, caught, of] of exchanges) {
    row.begin();
    row.log.addTally(caught, of, 1, 1);
    log.add(thrower, catcher, row);
  }
  return log;
}

test("each way counts for itself, names in any case, A to Z", () => {
  const board = logged([
    ["R.S.", "A.K.", 3, 10],
    ["A.K.", "M.K.", 9, 10],
    ["a.k. ", "M.K.", 7, 10],
    ["M.K.", "A.K.", 8, 10],
  ]).board();
  expect(board.catchers).toEqual(["A.K.", "M.K."]);
  expect(
    board.rows.map(({ thrower, pairs }) => [thrower, ...pairs.map((pair) => pair && [pair.caught, pair.attempts])]),
  ).toEqual([
    ["A.K.", undefined, [16, 20]],
    ["M.K.", [8, 10], undefined],
    ["R.S.", [3, 10], undefined],
  ]);
});

test("nothing logged, and more catchers than can be read", () => {
  expect(() => logged([]).board()).toThrow(Missing);
  const many = Array.from({ length: 101 }, (_, index) => ["A.K.", `Athlete ${index}`, 1, 2] as const);
  expect(() => logged(many.slice(1)).board()).not.toThrow();
  expect(() => logged(many).board()).toThrow(Problem);
});

test("a name that would not fit its heading is refused, with its length", () => {
  const named = (length: number): PairLog => logged([["A.K.", "x".repeat(length), 8, 10]]);
  expect(named(255).board().catchers).toEqual(["x".repeat(255)]);
  expect(() => named(256).board()).toThrow(new Problem({ argument: "catchers", found: "a name of 256 characters", accepted: "names of at most 255 characters" })); // prettier-ignore
});
