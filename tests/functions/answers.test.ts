import { readFunctionDocs } from "../../src/tools/function-docs";
import { callCell, errorOf, HostError } from "./built";

/** The help's own examples, where their arguments are plain numbers and texts. */
const examples = readFunctionDocs().flatMap(({ id, parameters, example }) => {
  const inside = /^=TWIRL\.\w+\((.*)\)$/.exec(example.formula)?.[1] ?? "";
  // References to cells and tables have nothing to stand for here.
  const args = splitOutside(inside, ",").map(readArgument);
  if (args.includes(undefined)) return [];
  return [
    {
      id,
      args: args.map((arg, place) => (parameters[place]?.matrix && !Array.isArray(arg) ? [[arg]] : arg)),
      shows: example.shows,
    },
  ];
});

/** Splits at a sign that stands outside quotes and braces. */
function splitOutside(text: string, sign: string): string[] {
  return text.split(new RegExp(`${sign}(?=(?:[^"]*"[^"]*")*[^"]*$)(?![^{]*})`));
}

/** A number, a text, or an array such as {1,2;3,4}; undefined for anything else. */
function readArgument(word: string): unknown {
  if (/^-?[\d.]+$|^"[^"]*"$/.test(word)) return JSON.parse(word) as unknown;
  if (!/^{.*}$/.test(word)) return undefined;
  return word
    .slice(1, -1)
    .split(";")
    .map((row) => row.split(",").map((cell) => JSON.parse(cell) as unknown));
}

test("most of the help's examples can be worked out here", () => {
  expect(examples.length).toBeGreaterThan(25);
});

test.each(examples)("the help's example of $id shows $shows", ({ id, args, shows }) => {
  const answer = callCell(id, ...args);
  const said = Array.isArray(answer) ? answer.flat() : [answer];
  const claims = shows.match(/\d+:\d+\.\d|\d+\/\d+|\d+(\.\d+)?|[▁-█]+|[A-Z][a-z]+( spin| risk| few)?|B better/g) ?? [];
  expect(claims.length).toBeGreaterThan(0);
  for (const claim of claims) {
    const digits = /\.(\d+)/.exec(claim)?.[1]?.length ?? 0;
    const held = said.some((value) =>
      typeof value === "number" ? value.toFixed(digits) === Number(claim).toFixed(digits) : value === claim,
    );
    expect({ claim, held }).toEqual({ claim, held: true });
  }
});

describe("arguments left out", () => {
  test.each([null, undefined, ""])("%p means left out", (nothing) => {
    expect(callCell("CATCHINTERVAL", 8, 10, nothing, nothing)).toEqual(
      callCell("CATCHINTERVAL", 8, 10, 0.95, "wilson"),
    );
    expect(callCell("READINESS", [["ccccc ccccd"]], nothing, nothing, nothing)).toBe("Ready");
    expect(callCell("STREAK", [["ccdcc"]], nothing)).toBe(2);
    expect(callCell("AIRTIME", 4, nothing, nothing, nothing)).toBe(callCell("AIRTIME", 4, 0, "m"));
    expect(callCell("TOSSPLAN", 4, 180, nothing, nothing, nothing, nothing, nothing, nothing)).toEqual(
      callCell("TOSSPLAN", 4, 180, 2, 0, 1.5, 1.5, "", "m"),
    );
    expect(callCell("CATCHRATE", [["c", nothing, "d"]], nothing, nothing)).toBe(0.5);
  });

  test("an empty cell as 0 is no attempt, except under a key that has 0", () => {
    expect(callCell("CATCHRATE", [["c"], [0], ["d"]], null, null)).toBe(0.5);
    expect(callCell("CATCHRATE", [[1], [0], [1]], null, "1/0")).toBeCloseTo(2 / 3, 15);
  });
});

describe("methods and choices without regard to case", () => {
  test("method, which, unit", () => {
    expect(callCell("CATCHINTERVAL", 8, 10, 0.95, " Exact ")).toEqual(callCell("CATCHINTERVAL", 8, 10, 0.95, "exact"));
    expect(callCell("STREAK", [["ccd"]], "BEST")).toBe(2);
    expect(callCell("TOSSHEIGHT", 2, 0, "FT")).toBeCloseTo(4.903325 / 0.3048, 10);
  });
});

describe("errors say which argument, where, what was found and what is accepted", () => {
  test.each([
    [
      "CHANCEABOVE",
      [8, 10, 80],
      /^standard: found the number 80\. Accepted: a standard from 0 to 1 \(80 % is 0\.8\)\.$/,
    ],
    ["STREAKCHANCE", [60, 5, 30], /^rate: found the number 60.*80 % is 0\.8/],
    ["CATCHINTERVAL", [8, 10, 95], /^confidence: found the number 95.*80 % is 0\.8/],
    ["CATCHINTERVAL", [11, 10], /^caught: found 11 caught of 10 attempts/],
    ["CATCHINTERVAL", [8.5, 10], /^caught: found the number 8\.5.*a whole number from 0 to 10,000,000/],
    ["CATCHINTERVAL", ["8", 10], /^caught: found the text "8".*as a number and not as text/],
    [
      "CATCHINTERVAL",
      [8, 10, null, "wald"],
      /^method: found the text "wald"\. Accepted: "wilson", "exact" or "jeffreys"/,
    ],
    ["CATCHINTERVAL", [null, 10], /^caught: found an empty cell/],
    ["READINESS", [[["c"]], 0.8, 0], /^setSize: found the number 0/],
    ["READINESS", [[["c", "q"]], null, null], /^marks, row 1, column 2: found the text "q"/],
    [
      "READINESS",
      [[["c"], [{ type: "Error", basicValue: "#REF!" }]]],
      /^marks, row 2, column 1: found the error #REF!/,
    ],
    ["READINESS", [[["c"], ["#N/A"]]], /^marks, row 2, column 1: found the error #N\/A/],
    ["READINESS", [[["c"]], null, null, "x"], /^key: found the text "x"/],
    ["READINESS", [[["c"]], null, null, 7], /^key: found the number 7/],
    ["STREAK", [[["8/10"]]], /^marks, row 1, column 1: found the tally 8\/10\. Accepted: marks in order/],
    ["STREAK", [[["c"]], "longest"], /^which: found the text "longest"\. Accepted: "current", "best" or "misses"/],
    ["AIRTIME", [1, 0, "yd"], /^unit: found the text "yd"\. Accepted: "m" or "ft"/],
    ["AIRTIME", [1, -2], /^dropBelow: found a catch 2 above/],
    ["AIRTIME", [true], /^rise: found TRUE/],
    ["COUNTTIME", [6, 0], /^countsPerMinute: found the number 0.*as the athlete says them/],
    ["CHANCEABOVE", [[[1, 2]], 10], /^caught: found a range of several cells/],
  ])("%s %p", (id, args, message) => {
    expect(errorOf("#VALUE!", id, ...args)).toMatch(message);
  });

  test.each([
    ["CATCHRATE", [[[0]]]],
    ["CATCHINTERVAL", [0, 0]],
    ["CHANCEABOVE", [0, 0]],
    ["STREAK", [[[""]]]],
    ["STREAKATTEMPTS", [0, 3]],
    ["BOARD", [[[0]], [[0]], [[""]], [[null]]]],
  ])("%s %p has nothing to answer yet", (id, args) => {
    expect(errorOf("#N/A", id, ...args).length).toBeGreaterThan(20);
  });

  test("no attempts is a status, not an error", () => {
    expect(callCell("READINESS", [[""]])).toBe("No attempts");
    const card = callCell("READINESSCARD", [[null]]) as unknown[][];
    expect(card.map(([, value]) => value)).toEqual([
      "No attempts",
      0,
      "",
      "",
      "",
      "",
      "",
      "",
      "",
      "",
      "Log a first set of 10.",
    ]);
  });
});

describe("READINESSCARD", () => {
  test("holds the contract's labels and figures worked by hand", () => {
    const card = callCell("READINESSCARD", [["ccccc cccbd"]], 0.8, 10) as [string, unknown][];
    expect(card.map(([label]) => label)).toEqual([
      "Status",
      "Attempts",
      "Last set",
      "Recent rate",
      "Low",
      "High",
      "Chance",
      "Streak",
      "Best streak",
      "Bails in last set",
      "Next step",
    ]);
    const values = new Map(card);
    expect([values.get("Status"), values.get("Attempts"), values.get("Last set"), values.get("Recent rate")]).toEqual([
      "Confirm",
      10,
      "8/10",
      0.8,
    ]);
    // Wilson 95 % of 8 of 10: 0.4902 to 0.9433 (Newcombe's method 3).
    expect(values.get("Low")).toBeCloseTo(0.4902, 4);
    expect(values.get("High")).toBeCloseTo(0.9433, 4);
    expect([values.get("Streak"), values.get("Best streak"), values.get("Bails in last set")]).toEqual([-2, 8, 1]);
  });
});

describe("BOARD", () => {
  const dates = [[46300], [46301.75], [0], [46302], [""]];
  const athletes = [["M.K."], ["A.R."], [0], ["m.k."], [""]];
  const tricks = [["Two spin"], ["Illusion"], [null], ["two spin"], [""]];
  const marks = [["ccccc ccccc"], ["ccccc ddddd"], [0], ["8/10"], [""]];

  test("by hand: header, two rows, blank rows skipped, time of day dropped, streaks empty with a tally", () => {
    const rows = callCell("BOARD", dates, athletes, tricks, marks, 0.8, 10, null, null, null) as unknown[][];
    expect(rows[0]).toEqual([
      "Athlete",
      "Trick",
      "Attempts",
      "Last set",
      "Recent rate",
      "Low",
      "High",
      "Chance",
      "Streak",
      "Best streak",
      "Status",
      "Last practised",
      "Next step",
    ]);
    expect(
      rows.slice(1).map((row) => [row[0], row[1], row[2], row[3], row[4], row[8], row[9], row[10], row[11]]),
    ).toEqual([
      ["A.R.", "Illusion", 10, "5/10", 0.5, -5, 5, "Building", 46301],
      ["M.K.", "Two spin", 20, "8/10", 0.9, "", "", "Ready", 46302],
    ]);
  });

  test("stages, day and several mark columns", () => {
    const stages = [["Joined"], ["Wall"], [""], ["Run-through"], [null]];
    const rows = callCell("BOARD", dates, athletes, tricks, marks, 0.8, 10, stages, 46301, null) as unknown[][];
    expect(rows.slice(1).map((row) => [row[0], row[2]])).toEqual([["M.K.", 10]]);
    const wide = callCell(
      "BOARD",
      [[46300]],
      [["M.K."]],
      [["Flat"]],
      [["c", "d", "", "b"]],
      null,
      null,
      null,
      null,
      null,
    ) as unknown[][];
    expect(wide[1]?.slice(0, 4)).toEqual(["M.K.", "Flat", 3, "1/3"]);
  });

  test("whole columns, nearly all blank", () => {
    const column = (...cells: unknown[]) => Array.from({ length: 1_048_576 }, (_, row) => [cells[row] ?? 0]);
    const rows = callCell(
      "BOARD",
      column(46300, 0, 46301),
      column("M.K.", 0, "M.K."),
      column("Flat", 0, "Flat"),
      column("ccc", 0, "cd"),
    ) as unknown[][];
    expect(rows[1]?.slice(0, 4)).toEqual(["M.K.", "Flat", 5, "4/5"]);
    expect(callCell("STREAK", column("ccd", 0, "cc"))).toBe(2);
  });

  test.each([
    [
      { athletes: [["M.K."]] },
      /^athletes: found 1 rows where dates has 5\. Accepted: ranges with the same number of rows/,
    ],
    [
      { athletes: [["M.K."], [""], [0], ["m.k."], [""]] },
      /^athletes, row 2, column 1: found an empty cell in a row that is filled in dates/,
    ],
    [{ marks: [["ccccc"], ["cc"], [0], ["z"], [""]] }, /^marks, row 4, column 1: found the text "z"/],
    [
      { dates: [["1 March"], [46301], [0], [46302], [""]] },
      /^dates, row 1, column 1: found the text "1 March"\. Accepted: a date, not text/,
    ],
    [{ dates: [[-3], [46301], [0], [46302], [""]] }, /^dates, row 1, column 1: found the number -3\. Accepted: a date/],
    [
      { tricks: [["Two spin"], [false], [null], ["two spin"], [""]] },
      /^tricks, row 2, column 1: found FALSE\. Accepted: a name/,
    ],
    [
      { tricks: [["Two spin"], ["#REF!"], [null], ["two spin"], [""]] },
      /^tricks, row 2, column 1: found the error #REF!/,
    ],
  ])("refuses %p", (changed, message) => {
    const log = { dates, athletes, tricks, marks, ...(changed as object) };
    expect(errorOf("#VALUE!", "BOARD", log.dates, log.athletes, log.tricks, log.marks)).toMatch(message);
  });

  test("a trick named by a number keeps its digits", () => {
    const rows = callCell("BOARD", [[46300]], [["M.K."]], [[360]], [["c"]]) as unknown[][];
    expect(rows[1]?.[1]).toBe("360");
  });
});

test("a mistake of ours would still be a cell error", () => {
  // A proxy that throws whenever it is looked at: nothing that a host sends, and still no other exception.
  const hostile = new Proxy(
    {},
    {
      get: () => {
        throw new Error("no");
      },
    },
  );
  expect(callCell("READINESS", [[hostile]])).toBeInstanceOf(HostError);
});
