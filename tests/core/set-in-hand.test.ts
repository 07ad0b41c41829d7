import fc from "fast-check";
import { BAILED, CAUGHT, DROPPED, type Outcome } from "../../src/core/attempt-log";
import { BoardLog } from "../../src/core/board";
import type { DayLog } from "../../src/core/day-log";
import { readMark } from "../../src/core/marks";
import { assessWithSet } from "../../src/core/set-in-hand";
import { isApart, STAGES } from "../../src/trade/stages";
import { recordOf } from "./logs";

test("the stages practised apart are those that the board leaves out", () => {
  const counted = STAGES.filter((stage) => new BoardLog().recordOf(46000, "M.K.", "Flat", stage, Infinity));
  expect(STAGES.filter((stage) => !isApart(stage))).toEqual(counted);
  // Common practice, no source.
  expect(counted).toEqual(["Joined", "In context", "Run-through", "Contest"]);
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
          const record = board.recordOf(46000 + index, "M.K.", "Double turn", "Joined", Infinity) as DayLog;
          const before = record.asRead.entries;
          readMark(marks, "marks", index + 1, 1, record.asRead);
          record.noteDay(46000 + index, before);
        });
        const [row] = board.rows(standard, setSize);
        const record = recordOf(logged.map((marks, index) => [46000 + index, marks]));
        const before = JSON.stringify(record);
        const found = assessWithSet(record, set, 46000 + logged.length, standard, setSize);
        // What is logged already stays as it is: the next tap asks it again.
        expect(JSON.stringify(record)).toBe(before);
        expect(found).toEqual(row?.assessment);
      },
    ),
  );
});

test("a set of nothing on a log of nothing has no attempts", () => {
  expect(assessWithSet(undefined, [], 46000, 0.8, 10)).toMatchObject({ status: "No attempts", attempts: 0 });
});

test("a set of an earlier day stands before what was logged since", () => {
  const record = recordOf([[46010, "ccccc ccccc"]]);
  const late = assessWithSet(record, [DROPPED, DROPPED], 46005, 0.8, 10);
  expect(late.streaks?.current).toBe(10);
  expect(assessWithSet(record, [DROPPED, DROPPED], 46010, 0.8, 10).streaks?.current).toBe(-2);
});
