import { BoardLog } from "../../src/core/board";
import { comparable, compareNames } from "../../src/core/text";
import { readMark } from "../../src/core/marks";
import { stageCalled } from "../../src/core/stages";

interface Row {
  readonly date: number;
  readonly athlete: string;
  readonly trick: string;
  readonly marks: string;
  readonly stage?: string;
}

function boardOf(rows: readonly Row[], asOf = Infinity) {
  const board = new BoardLog();
  rows.forEach(({ date, athlete, trick, marks, stage }, row) => {
    const named = stage === undefined ? undefined : stageCalled(stage);
    const record = board.recordOf(date, athlete, trick, named, asOf);
    if (!record) return;
    const before = record.asRead.entries;
    readMark(marks, "marks", row + 1, 1, record.asRead);
    record.noteDay(date, before);
  });
  return board.rows(0.8, 10);
}

const set = (date: number, athlete: string, trick: string, marks: string, stage?: string): Row =>
  stage === undefined ? { date, athlete, trick, marks } : { date, athlete, trick, marks, stage };

/** Worked by hand. */
test("groups by athlete and trick whatever the spelling, shows that of the earliest day, orders A to Z", () => {
  const rows = boardOf([
    set(46300, "M.K.", "Two spin", "ccccc ccccc"),
    set(46301, "a.r.", "Illusion", "ccccc ddddd"),
    set(46302, " m.k. ", "TWO SPIN", "ccccc"),
    set(46299, "A.R.", "Élan", "c"),
    set(46303, "M.K.", "blind catch", "ddddd ddddd"),
  ]);
  expect(rows.map(({ athlete, trick, lastPractised }) => [athlete, trick, lastPractised])).toEqual([
    ["A.R.", "Élan", 46299],
    ["A.R.", "Illusion", 46301],
    ["M.K.", "blind catch", 46303],
    ["M.K.", "Two spin", 46302],
  ]);
  expect(rows.map(({ assessment }) => [assessment.status, assessment.attempts])).toEqual([
    ["Too few", 1],
    ["Building", 10],
    ["Building", 10],
    ["Confirm", 15],
  ]);
});

test("leaves out rows later than the day, and practice apart", () => {
  const rows = boardOf(
    [
      set(46300, "M.K.", "Two spin", "ccccc ccccc", "Joined"),
      set(46301, "M.K.", "Two spin", "ddddd", "wall"),
      set(46301, "M.K.", "Two spin", "ddddd", " Body only "),
      set(46301, "M.K.", "Flat", "ddddd", "TOSS ONLY"),
      set(46310, "M.K.", "Two spin", "ddddd", "Joined"),
    ],
    46309,
  );
  expect(rows.map(({ trick, assessment }) => [trick, assessment.attempts])).toEqual([["Two spin", 10]]);
});

test("the last day counts though the log is out of order, and a row on the board's own day belongs to it", () => {
  const log = [
    set(46302, " M.K. ", "  Flat ", "c"),
    set(46300, "M.K.", "Flat", "c"),
    set(46303, "M.K.", "Illusion", "c"),
    set(46301, "A.R.", "FLAT", "c"),
  ];
  expect(boardOf(log, 46302).map(({ athlete, trick, lastPractised }) => [athlete, trick, lastPractised])).toEqual([
    ["A.R.", "Flat", 46301],
    ["M.K.", "Flat", 46302],
  ]);
});

test("no two names that look alike are two athletes", () => {
  expect(comparable("É.B.")).toBe(comparable("e\u0301.b.  "));
  expect(compareNames("Zoë", "zoe")).not.toBe(0);
  expect([compareNames("a", "a"), compareNames("a", "A"), compareNames("A", "a")]).toEqual([0, 1, -1]);
  expect(compareNames(" b", "a")).toBe(1);
  expect(comparable("\u1E9E")).toBe(comparable("ß"));
  expect(["b", "Ä", "a", "B"].sort(compareNames)).toEqual(["a", "Ä", "B", "b"]);
});

test("the order of the rows changes nothing: newest first, by athlete, or old sets typed at the foot", () => {
  const day = (date: number, marks: string) => set(date, "M.K.", "Two spin", marks);
  const season = [
    day(46290, "ddddd ddcdd"),
    day(46291, "ccddd cdcdd"),
    ...Array.from({ length: 6 }, (_, index) => day(46300 + index, "ccccc ccccc")),
    set(46303, "A.R.", "Flat", "cccdc"),
    day(46300, "ccccd"),
  ];
  const inOrder = [...season].sort((one, other) => one.date - other.date);
  // The record itself stands as the rows do; what is answered from it may not.
  const answered = (rows: typeof season) => boardOf(rows).map(({ record: _, ...row }) => row);
  const expected = answered(inOrder);
  expect(expected[1]?.assessment).toMatchObject({ attempts: 85, streaks: { current: 50 } });
  const [firstTwo, rest] = [season.slice(0, 2), season.slice(2)];
  expect(answered([...rest, ...firstTwo])).toEqual(expected);
  // Within a day the log's order is kept: a sort by day, newest first, keeps it too.
  expect(answered([...season].sort((one, other) => other.date - one.date))).toEqual(expected);
  expect(answered([...season].sort((one, other) => compareNames(other.athlete, one.athlete)))).toEqual(expected);
});
