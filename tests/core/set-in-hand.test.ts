import fc from "fast-check";
import { BAILED, CAUGHT, DROPPED, type Outcome } from "../../src/core/attempt-log";
import { BoardLog, STAGES_APART } from "../../src/core/board";
import { readMark } from "../../src/core/marks";
import { Problem } from "../../src/core/problem";
import { assessWithSet, isApart } from "../../src/core/set-in-hand";
import { STAGES } from "../../src/core/stages";

test("the stages practised apart are those that the board leaves out", () => {
  expect(STAGES.filter(isApart)).toEqual([...STAGES_APART]);
  expect(isApart(" toss ONLY ")).toBe(true);
  expect(isApart("")).toBe(false);
});

const outcome = fc.constantFrom<Outcome>(CAUGHT, CAUGHT, CAUGHT, DROPPED, BAILED);
const letters = "dcb";
const run = fc
  .array(outcome, { minLength: 1, maxLength: 14 })
  .map((outcomes) => outcomes.map((one) => letters[one]).join(""));
const cell = fc.oneof({ weight: 6, arbitrary: run }, { weight: 1, arbitrary: fc.constant("8/10") });

/** The board over the same log with the set as one more row. */
test("says what the board says once the set is a row of the log", () => {
  fc.assert(
    fc.property(
      fc.array(cell, { maxLength: 12 }),
      fc.array(outcome, { minLength: 1, maxLength: 12 }),
      fc.constantFrom(0.6, 0.8, 0.9),
      fc.constantFrom(5, 10),
      (logged, set, standard, setSize) => {
        const board = new BoardLog();
        const rows = [...logged, set.map((one) => letters[one]).join("")];
        rows.forEach((marks, index) => {
          readMark(
            marks,
            "marks",
            index + 1,
            1,
            board.logFor(46000 + index, "M.K.", "Double turn", "Joined", Infinity),
          );
        });
        const [row] = board.rows(standard, setSize);
        const found = assessWithSet(
          logged.map((marks, index) => ({ cell: marks, row: index + 1 })),
          set,
          standard,
          setSize,
        );
        expect(found).toEqual(row?.assessment);
      },
    ),
  );
});

test("a set of nothing on a log of nothing has no attempts", () => {
  expect(assessWithSet([], [], 0.8, 10)).toMatchObject({ status: "No attempts", attempts: 0 });
});

test("a cell that cannot be read is told with its row", () => {
  expect(() => assessWithSet([{ cell: "maybe", row: 7 }], [CAUGHT], 0.8, 10)).toThrow(Problem);
  expect(() => assessWithSet([{ cell: "maybe", row: 7 }], [CAUGHT], 0.8, 10)).toThrow(/Marks.*row 7/);
});
