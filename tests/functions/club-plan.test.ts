/** Who does what in the coming practice, from the built functions. */
import { callCell, errorOf } from "./built";

type Row = readonly unknown[];
const rows = (...args: unknown[]): Row[] => callCell("CLUBPLAN", ...args) as Row[];
const column = (...cells: unknown[]) => cells.map((cell) => [cell]);

// A.R.: 20 attempts in 10 minutes, of them 10 at the wall; M.K.: 20 in 20; N.W.: no minutes are noted.
const log = [
  column(46300, 46300, 46300, 46302, 46302),
  column("A.R.", "a.r. ", "M.K.", "M.K.", "N.W."),
  column("Leap", "Leap", "Flat", "Leap", "Flat"),
  column("ccdcccdccd", "ccccc ccccc", "cccccccccc", "ddddd ccccc", "8/10"),
  column(5, 5, 10, 10, ""),
] as const;
const stages = column("Joined", "Wall", "Joined", "Joined", "Joined");
const plan = (practising: unknown = null, routine: unknown = null, minutes: unknown = 30) =>
  rows(...log, minutes, practising, null, null, stages, routine);

test("everybody in the log, A to Z: minutes, pace, attempts, then what to do first", () => {
  const [heading, ...lines] = plan();
  expect(heading).toEqual(["Athlete", "Minutes", "Attempts a minute", "Attempts", "First"]);
  // At most three sets of one trick; the wall counts for the pace alone.
  expect(lines).toEqual([
    ["A.R.", 30, 2, 60, "Leap: 30"],
    ["M.K.", 30, 1, 30, "Leap: 30"],
    ["N.W.", 30, 1, 30, "Flat: 30"],
  ]);
});

test("it gives what PRACTICEPLAN gives each", () => {
  const [, , own] = plan(null, null, 50);
  const rate = (trick: string): number => {
    const board = callCell("BOARD", ...log.slice(0, 4), null, null, stages) as Row[];
    return Number(board.find((row) => row[0] === "M.K." && row[1] === trick)?.[4]);
  };
  const given = callCell(
    "PRACTICEPLAN",
    column("Flat", "Leap"),
    column(...["Flat", "Leap"].map((trick) => Math.round(rate(trick) * 10))),
    column(10, 10),
    50,
  ) as Row[];
  expect(own?.slice(4)).toEqual(given.map(([trick, attempts]) => `${String(trick)}: ${String(attempts)}`));
});

test("who practises, in the order given: own minutes, away, and somebody of whom nothing is logged", () => {
  const lines = plan([["N.W.", ""], ["M.K.", "Away"], ["", ""], ["A.R.", 4], ["B.S.", 0]]).slice(1); // prettier-ignore
  expect(lines).toEqual([
    ["N.W.", 30, 1, 30, "Flat: 30"],
    ["M.K.", "away", "", "", ""],
    ["A.R.", 4, 2, 8, "Less than a set"],
    ["B.S.", 30, 1, 30, "Nothing logged yet: a first set of each trick"],
  ]);
});

test("minutes that are none are told in that athlete's row, and everybody else's stand", () => {
  const lines = plan([["A.R.", "ill"], ["M.K.", 2000], ["N.W.", 10]]).slice(1); // prettier-ignore
  const accepted = "Accepted: minutes from 0 to 1,440, or away.";
  expect(lines).toEqual([
    ["A.R.", "", "", "", `Minutes: found the text "ill". ${accepted}`],
    ["M.K.", "", "", "", `Minutes: found the number 2000. ${accepted}`],
    ["N.W.", 10, 1, 10, "Flat: 10"],
  ]);
});

test("a trick that the routine does not hold counts a quarter; each may have a routine of their own", () => {
  // Flat's need is 0.02 (the least) in the routine, Leap's a quarter of 0.9 less its mean outside it.
  const first = (routine: unknown) => plan(column("M.K."), routine, 10)[1]?.[4];
  expect(first(null)).toBe("Leap: 10");
  expect(first(column("Flat"))).toBe("Leap: 10");
  const mixed = (routine: unknown) => plan(column("M.K."), routine, 60)[1]?.slice(4);
  expect(mixed([["M.K.", "Leap"]])).toEqual(["Leap: 30", "Flat: 30"]);
  expect(mixed([["A.R.", "Leap"]])).toEqual(mixed(column("Something else")));
  expect(mixed(column("leap "))).toEqual(mixed([["m.k.", "LEAP"]]));
});

test("rows and minutes that cannot be read are told below, with their place", () => {
  const marks = column("ccdcccdccd", "z", "cccccccccc", "ddddd ccccc", "8/10");
  const minutes = column("5 min", 5, 10, -3, "");
  const found = rows(log[0], log[1], log[2], marks, minutes, 30);
  const below = found.slice(4).map((row) => [row[0], row[1], row[row.length - 1]]);
  expect(below).toEqual([
    ["Not counted", "row 2", expect.stringMatching(/^marks: found the text "z"/)],
    ["Not counted", "row 1", 'minutes: found the text "5 min". Accepted: minutes from 0 to 1,440.'],
    ["Not counted", "row 4", "minutes: found the number -3. Accepted: minutes from 0 to 1,440."],
  ]);
  expect(found[1]?.slice(0, 3)).toEqual(["A.R.", 30, 1]);
});

test("what is refused, and what is not there yet", () => {
  expect(errorOf("#N/A", "CLUBPLAN", ...log.map(() => column("")), 30)).toMatch(/^No attempts logged yet/);
  expect(errorOf("#VALUE!", "CLUBPLAN", ...log, -5)).toMatch(/^practiceMinutes: found the number -5/);
  expect(errorOf("#VALUE!", "CLUBPLAN", ...log.slice(0, 4), column(5), 30)).toMatch(/^minutes: found 1 rows/);
});
