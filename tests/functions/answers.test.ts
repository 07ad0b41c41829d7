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
    expect(callCell("READINESS", [["ccccc ccccd"]], nothing, nothing, nothing)).toBe("Confirm");
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
    expect([values.get("Status"), values.get("Attempts"), values.get("Last set")]).toEqual(["Confirm", 10, "8/10"]);
    // By hand: with d = 2^(-1/30) the weights of the ten attempts are d^9 to 1, and the missed are the last two: 1 + d of
    // (1 - d^10) / (1 - d). Low and High are R's qbeta(c(.025, .975), caught + .5, missed + .5) of these weights.
    const d = Math.pow(2, -1 / 30);
    const all = (1 - Math.pow(d, 10)) / (1 - d);
    expect(values.get("Recent rate")).toBeCloseTo(1 - (1 + d) / all, 12);
    expect(values.get("Low")).toBeCloseTo(0.46028, 5);
    expect(values.get("High")).toBeCloseTo(0.95195, 5);
    expect([values.get("Streak"), values.get("Best streak"), values.get("Bails in last set")]).toEqual([-2, 8, 1]);
  });

  test("with days takes the rows in their order, leaves out what cannot be read, and says so", () => {
    const sets = ["ccccc ccccc", "ccccc cccbd", "ddddd ddddd", "ccccc ccccd"];
    const inOrder = callCell("READINESSCARD", sets.map((set) => [set])) as [string, unknown][]; // prettier-ignore
    const turned = [...sets].reverse();
    const dates = [[46304], [46303], [46302], [46301]];
    const marks = turned.map((set) => [set]);
    expect(callCell("READINESSCARD", marks, null, null, null, dates)).toEqual(inOrder);
    const withWrong = callCell("READINESSCARD", [...marks, ["ccxcc"]], null, null, null, [...dates, [46305]]) as [
      string,
      string,
    ][];
    expect(withWrong.slice(0, -1)).toEqual(inOrder.slice(0, -1));
    expect(withWrong.at(-1)?.[1]).toBe(`${String(inOrder.at(-1)?.[1])} 1 row does not count: row 5.`);
    expect(callCell("READINESSCARD", [["ccccc"]], null, null, null, [[46301], [46302]])).toMatchObject({
      code: "#VALUE!",
    });
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
    expect(rows.slice(1).map((row) => [row[0], row[1], row[2], row[3], row[8], row[9], row[10], row[11]])).toEqual([
      ["A.R.", "Illusion", 10, "5/10", -5, 5, "Building", 46301],
      ["M.K.", "Two spin", 20, "8/10", "", "", "Confirm", 46302],
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
  ])("refuses %p", (changed, message) => {
    const log = { dates, athletes, tricks, marks, ...(changed as object) };
    expect(errorOf("#VALUE!", "BOARD", log.dates, log.athletes, log.tricks, log.marks)).toMatch(message);
  });

  const days = [[46300], [46301], [46302], [46303]];
  const names = [["M.K."], ["A.R."], ["M.K."], ["M.K."]];
  const twoSpin = [["Two spin"], ["Two spin"], ["Two spin"], ["Two spin"]];
  const runs = [["ccccc ccccc"], ["ccccc"], ["ccccc"], ["dd"]];

  test.each([
    ["no marks yet", { marks: [["ccccc ccccc"], ["ccccc"], [""], ["dd"]] }, /^Not complete yet: nothing in marks\.$/],
    [
      "only a date",
      {
        athletes: [["M.K."], ["A.R."], [0], ["M.K."]],
        tricks: [["Two spin"], ["Two spin"], [null], ["Two spin"]],
        marks: [["ccccc ccccc"], ["ccccc"], [0], ["dd"]],
      },
      /^Not complete yet: nothing in athletes, tricks and marks\.$/,
    ],
    [
      "a wrong mark",
      { marks: [["ccccc ccccc"], ["ccccc"], ["ccq"], ["dd"]] },
      /^marks: found the text "ccq"\. Accepted: c, d or b/,
    ],
    [
      "a date as text",
      { dates: [[46300], [46301], ["1 March"], [46303]] },
      /^dates: found the text "1 March"\. Accepted: a date, not text/,
    ],
    [
      "a date that is none",
      { dates: [[46300], [46301], [-3], [46303]] },
      /^dates: found the number -3\. Accepted: a date\.$/,
    ],
    [
      "a truth value",
      { tricks: [["Two spin"], ["Two spin"], [false], ["Two spin"]] },
      /^tricks: found FALSE\. Accepted: a name\.$/,
    ],
    ["an error", { tricks: [["Two spin"], ["Two spin"], ["#REF!"], ["Two spin"]] }, /^tricks: found the error #REF!/],
    [
      "two faults",
      { dates: [[46300], [46301], ["soon"], [46303]], marks: [["ccccc ccccc"], ["ccccc"], ["x"], ["dd"]] },
      /^dates: found the text "soon"\..* marks: found the text "x"\./,
    ],
    [
      "an unknown stage",
      { stages: [["Joined"], ["Joined"], ["Jonied"], ["Contest"]] },
      /^stages: found the text "Jonied"\. Accepted: Body only, Toss only/,
    ],
  ])("a row with %s is left out and told, and every other row counts", (_what, changed, words) => {
    const log: Record<string, unknown> = {
      dates: days,
      athletes: names,
      tricks: twoSpin,
      marks: runs,
      stages: null,
      ...changed,
    };
    const call = [log["dates"], log["athletes"], log["tricks"], log["marks"], 0.8, 10, log["stages"]];
    const rows = callCell("BOARD", ...call) as unknown[][];
    expect(rows.slice(1, 3).map((row) => [row[0], row[2], row[8]])).toEqual([
      ["A.R.", 5, 5],
      ["M.K.", 12, -2],
    ]);
    expect(rows).toHaveLength(4);
    expect(rows[3]?.slice(0, 2)).toEqual(["Not counted", "row 3"]);
    expect(rows[3]?.[12]).toMatch(words);
    expect(rows[3]?.slice(2, 12).every((cell) => cell === "")).toBe(true);
    const checked = callCell("LOGCHECK", ...call.slice(0, 4), log["stages"]) as unknown[][];
    expect(checked).toEqual([
      ["1 of 4 rows does not count", ""],
      ["row 3", expect.stringMatching(words)],
    ]);
  });

  test("the sheet's own cell is named where the host tells it, whatever its way of writing it", () => {
    const wrong = [["ccccc ccccc"], ["ccccc"], ["ccq"], ["dd"]];
    const args = [days, names, twoSpin, wrong, null, null, null, null, null];
    const place = (addresses: readonly unknown[]) =>
      (callCell("BOARD", ...args, { parameterAddresses: addresses }) as unknown[][])[3]?.[1];
    expect(place(["Practice!A5:A8", "Practice!B5:B8", "Practice!C5:C8", "Practice!E5:E8"])).toBe("Practice!E7");
    expect(place(["", "", "", "'Été ''27'!$E$5:$E$8"])).toBe("Été '27!E7");
    expect(place(["", "", "", "Log!AZ:AZ"])).toBe("Log!AZ3");
    expect(place(["", "", "", "E5:E8"])).toBe("E7");
    for (const unknown of [undefined, null, "", 7, "Log!", "Log!#REF!"])
      expect(place(["", "", "", unknown])).toBe("row 3");
    expect((callCell("BOARD", ...args, undefined) as unknown[][])[3]?.[1]).toBe("row 3");
  });

  test("the order of the rows changes nothing, also between two columns of marks", () => {
    const order = [3, 0, 2, 1];
    const turned = (rows: unknown[][]) => order.map((row) => rows[row] as unknown[]);
    const args = [days, names, twoSpin, runs];
    expect(callCell("BOARD", ...args.map(turned))).toEqual(callCell("BOARD", ...args));
    expect(callCell("TRICKHISTORY", ...args.map(turned), "M.K.", "Two spin")).toEqual(
      callCell("TRICKHISTORY", ...args, "M.K.", "Two spin"),
    );
    const numbers = [
      [[10], [5], [5], [0]],
      [[10], [5], [5], [2]],
    ];
    expect(callCell("TALLYBOARD", ...[days, names, twoSpin, ...numbers].map(turned))).toEqual(
      callCell("TALLYBOARD", days, names, twoSpin, ...numbers),
    );
  });

  test("twenty rows are told, and how many more", () => {
    const many = Array.from({ length: 1200 }, () => ["?"]);
    const of = (value: unknown) => many.map(() => [value]);
    const rows = callCell("BOARD", of(46300), of("M.K."), of("Flat"), many) as unknown[][];
    expect(rows).toHaveLength(22);
    expect(rows[21]?.slice(0, 2)).toEqual(["Not counted", "and 1,180 more"]);
    const checked = callCell("LOGCHECK", of(46300), of("M.K."), of("Flat"), many) as unknown[][];
    expect(checked).toHaveLength(1002);
    expect(checked[0]).toEqual(["1,200 of 1,200 rows do not count", ""]);
    expect(checked[1001]?.[0]).toBe("and 200 more");
  });

  test("a wrong mark at a stage practised apart is not looked at by the board, and told by LOGCHECK", () => {
    const stages = [["Joined"], ["Joined"], ["Toss only"], ["Joined"]];
    const wrong = [["ccccc ccccc"], ["ccccc"], ["ccq"], ["dd"]];
    expect(callCell("BOARD", days, names, twoSpin, wrong, null, null, stages)).toHaveLength(3);
    expect((callCell("LOGCHECK", days, names, twoSpin, wrong, stages) as unknown[][])[1]?.[0]).toBe("row 3");
  });

  test("LOGCHECK over whole rows, and over nothing", () => {
    expect(callCell("LOGCHECK", days, names, twoSpin, runs)).toEqual([["All 4 rows count"]]);
    expect(callCell("LOGCHECK", [[46300]], [["M.K."]], [["Flat"]], [["c"]])).toEqual([["The one row counts"]]);
    const thousands = Array.from({ length: 2110 }, () => [46300]);
    const of = (value: string) => thousands.map(() => [value]);
    expect(callCell("LOGCHECK", thousands, of("M.K."), of("Flat"), of("cd"))).toEqual([["All 2,110 rows count"]]);
    expect(errorOf("#N/A", "LOGCHECK", [[""]], [[0]], [[null]], [[0]])).toMatch(/^Nothing is logged|^No attempts/);
    expect(errorOf("#VALUE!", "LOGCHECK", days, names, twoSpin, [["c"]])).toMatch(/^marks: found 1 rows/);
    expect(errorOf("#VALUE!", "LOGCHECK", days, names, twoSpin, runs, null, "x/x")).toMatch(/^key: found/);
  });

  test("CATCHBARS with days puts the sets in their order and leaves out what cannot be read", () => {
    const marks = [["ddddd ddddd"], ["ccccc ccccc"], ["maybe"]];
    expect(callCell("CATCHBARS", marks.slice(0, 2), 10)).toBe("▁█");
    expect(callCell("CATCHBARS", marks, 10, null, [[46302], [46300], [46301]])).toBe("█▁");
    expect(errorOf("#VALUE!", "CATCHBARS", marks, 10)).toMatch(/^marks, row 3/);
  });

  test("TRICKHISTORY leaves out what is practised apart where it is given the stages", () => {
    const stages = [["Wall"], ["Joined"], ["Joined"], ["Contest"]];
    const history = callCell("TRICKHISTORY", days, names, twoSpin, runs, "M.K.", "Two spin", 0.8, null, stages);
    expect((history as unknown[][]).slice(1).map((row) => row.slice(0, 3))).toEqual([
      [46302, 5, 5],
      [46303, 0, 2],
    ]);
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

describe("the record of practice, further", () => {
  test("TALLYREADINESS reads a set a row; a row of 0 attempts is empty; a bad row is named", () => {
    expect(callCell("TALLYREADINESS", [[9], [0], [10]], [[10], [0], [10]])).toBe("Solid");
    expect(callCell("TALLYREADINESS", [[9], [null], [10]], [[10], [null], [10]])).toBe("Solid");
    expect(callCell("TALLYREADINESS", [[0]], [[0]])).toBe("No attempts");
    expect(callCell("TALLYREADINESS", [[0], [0]], [[6], [6]])).toBe("Building");
    expect(errorOf("#VALUE!", "TALLYREADINESS", [[9], [11]], [[10], [10]])).toMatch(
      /^caught, row 2, column 1: found 11 caught of 10/,
    );
    expect(errorOf("#VALUE!", "TALLYREADINESS", [[9], [5]], [[10], [0]])).toMatch(/^caught, row 2, column 1/);
    expect(errorOf("#VALUE!", "TALLYREADINESS", [[9], [5.5]], [[10], [10]])).toMatch(
      /^caught, row 2, column 1: found the number 5.5/,
    );
    expect(errorOf("#VALUE!", "TALLYREADINESS", [[9], [null]], [[10], [10]])).toMatch(
      /^caught, row 2, column 1: found an empty cell/,
    );
  });

  test("TALLYBOARD is BOARD with tallies, without streaks", () => {
    const args = [
      [[46300], [46301], [0]],
      [["M.K."], ["m.k."], [""]],
      [["Flat"], ["flat"], [""]],
    ];
    const tallied = callCell("TALLYBOARD", ...args, [[8], [9], [0]], [[10], [10], [0]]) as unknown[][];
    expect(tallied).toEqual(callCell("BOARD", ...args, [["8/10"], ["9/10"], [0]]));
    expect(tallied[1]?.slice(8, 10)).toEqual(["", ""]);
    const told = (caught: unknown, attempts: unknown) => {
      const rows = callCell("TALLYBOARD", ...args, [[8], [caught], [0]], [[10], [attempts], [0]]) as unknown[][];
      expect(rows[1]?.slice(0, 3)).toEqual(["M.K.", "Flat", 10]);
      return rows.slice(2).map((row) => [row[0], row[1], row[12]]);
    };
    expect(told("nine", 10)).toEqual([
      ["Not counted", "row 2", expect.stringMatching(/^caught: found the text "nine"\./)],
    ]);
    expect(told(11, 10)).toEqual([["Not counted", "row 2", expect.stringMatching(/^caught: found 11 caught of 10/)]]);
    expect(told(9.5, 10)).toEqual([["Not counted", "row 2", expect.stringMatching(/^caught: found the number 9\.5/)]]);
    // Some hosts hand an empty cell over as 0: both are the same row.
    for (const nothing of [0, null, ""]) {
      expect(told(5, nothing)).toEqual([["Not counted", "row 2", "Not complete yet: nothing in attempts."]]);
      expect(told(nothing, nothing)).toEqual([]);
    }
  });

  test("SLUMP: labels, signal, limits and what is refused", () => {
    expect(callCell("SLUMP", [["cc d c d d c d"]])).toEqual([
      ["Signal", "slump"],
      ["Since attempt", 3],
      ["Score", 13],
      ["Limit", 13],
    ]);
    expect(callCell("SLUMP", [["ccccc"]])).toEqual([
      ["Signal", "steady"],
      ["Since attempt", ""],
      ["Score", 0],
      ["Limit", 13],
    ]);
    expect(errorOf("#VALUE!", "SLUMP", [["c"]], 0.7, 0.9)).toMatch(
      /^slumped: found 0.9, with a usual rate of 0.7\. Accepted: a rate below the usual one/,
    );
    expect(errorOf("#VALUE!", "SLUMP", [["c"]], 1)).toMatch(/^usual: found the number 1.*from 0.001 to 0.999/);
    expect(errorOf("#VALUE!", "SLUMP", [["8/10"]])).toMatch(/^marks, row 1, column 1: found the tally 8\/10/);
    expect(errorOf("#N/A", "SLUMP", [[""]])).toMatch(/log the first set/);
  });

  test("COMPARE names A and B in its errors", () => {
    expect(errorOf("#VALUE!", "COMPARE", 11, 10, 5, 10)).toMatch(/^caughtA: found 11 caught of 10/);
    expect(errorOf("#VALUE!", "COMPARE", 5, 10, 11, 10)).toMatch(/^caughtB: found 11 caught of 10/);
    expect(errorOf("#VALUE!", "COMPARE", 5, 10, 5, "ten")).toMatch(/^attemptsB: found the text "ten"/);
    expect(errorOf("#N/A", "COMPARE", 0, 0, 5, 10)).toMatch(/one of the two ways/);
  });

  test("READYDATE answers whole dates, asks for 0.8 by default, and says why it does not answer", () => {
    const dates = [0, 2, 5, 7, 9, 12, 14, 16, 19, 21].map((day) => [46400.4 + day]);
    const caught = [3, 4, 4, 5, 5, 6, 5, 7, 7, 7].map((count) => [count]);
    const attempts = caught.map(() => [10]);
    // R 4.2.2, glm and Fieller's interval: tests/checks/curves-from-r.R, the third curve.
    expect(callCell("READYDATE", dates, caught, attempts)).toEqual([[46427, 46421, 46445]]);
    expect(callCell("READYDATE", dates, caught, attempts, 0.8, 0.8)).toEqual([[46427, 46421, 46445]]);
    expect(errorOf("#N/A", "READYDATE", dates.slice(0, 2), caught.slice(0, 2), attempts.slice(0, 2))).toMatch(
      /Fewer than 3 practice days/,
    );
    expect(errorOf("#VALUE!", "READYDATE", [["soon"], ...dates.slice(1)], caught, attempts)).toMatch(
      /^dates, row 1, column 1: found the text "soon"/,
    );
  });

  test("TRICKHISTORY is for one athlete's one trick, by day", () => {
    const rows = callCell(
      "TRICKHISTORY",
      [[46301], [46300], [46301], [46301]],
      [["M.K."], ["m.k."], ["A.R."], ["M.K."]],
      [["Flat"], ["FLAT"], ["Flat"], ["Other"]],
      [["ccd"], ["c"], ["ddd"], ["d"]],
      " M.K. ",
      "flat",
      0.9,
    ) as unknown[][];
    expect(rows[0]).toEqual(["Date", "Caught", "Attempts", "Rate", "Low", "High", "Standard"]);
    expect(rows.slice(1).map((row) => [row[0], row[1], row[2], row[6]])).toEqual([
      [46300, 1, 1, 0.9],
      [46301, 2, 3, 0.9],
    ]);
    expect(errorOf("#N/A", "TRICKHISTORY", [[46300]], [["M.K."]], [["Flat"]], [["c"]], "A.R.", "Flat")).toMatch(
      /Nothing is logged for this athlete and trick/,
    );
    expect(errorOf("#VALUE!", "TRICKHISTORY", [[46300]], [["M.K."]], [["Flat"]], [["c"]], "", "Flat")).toMatch(
      /^athlete: found an empty cell/,
    );
  });

  test("STAGEBOARD is one rectangle with a heading", () => {
    const rows = callCell(
      "STAGEBOARD",
      [["Flat"], ["Flat"]],
      [["Joined"], ["Contest"]],
      [["45/50"], ["20/50"]],
    ) as unknown[][];
    expect(rows.map((row) => row.length)).toEqual([16, 16]);
    expect(rows[0]?.slice(0, 3)).toEqual(["Trick", "Body only", "Body only attempts"]);
    expect(rows[1]).toEqual(["Flat", "", "", "", "", "", "", 0.9, 50, "", "", "", "", 0.4, 50, "Contest"]);
  });
});

describe("the toss, further", () => {
  /** The design's table: ceiling, hand at 1.5 m, 0.5 m clear, to the longest airtime in seconds; worked out there. */
  test.each([
    [5, 1.56],
    [6, 1.81],
    [7, 2.02],
    [8, 2.21],
    [9, 2.39],
    [10, 2.55],
  ])("under %p m a toss lasts at most %p s", (ceiling, seconds) => {
    // At 600 counts a minute a count is a tenth of a second.
    expect(callCell("CEILINGCOUNTS", ceiling, 600)).toBe(Math.floor(seconds * 10));
    const rise = ceiling - 2;
    expect(callCell("AIRTIME", rise) as number).toBeCloseTo(seconds, 2);
  });

  test("CEILINGCOUNTS is the most counts that TOSSPLAN still finds room for", () => {
    for (const ceiling of [4, 6.3, 9, 14]) {
      const counts = callCell("CEILINGCOUNTS", ceiling, 190) as number;
      const room = (more: number) =>
        (callCell("TOSSPLAN", counts + more, 190, 0, 0, null, null, ceiling) as unknown[][])[7]?.[1] as number;
      expect(room(0)).toBeGreaterThanOrEqual(0.5 - 1e-9);
      expect(room(1)).toBeLessThan(0.5);
    }
    expect(callCell("CEILINGCOUNTS", 1.8, 180)).toBe(0);
    expect(callCell("CEILINGCOUNTS", 7 / 0.3048, 180, null, null, "ft")).toBe(callCell("CEILINGCOUNTS", 7, 180));
  });

  test("turns: OpenStax College Physics, example 10.4: 6.0 turns a minute for 2.0 minutes are 12", () => {
    expect(callCell("BATONTURNS", 120, 0.1)).toBeCloseTo(12, 12);
    expect(callCell("TURNRATE", 12, 120)).toBeCloseTo(0.1, 12);
    // OpenStax University Physics 1, example 10.2: 250 a minute are 26.2 rad/s; Check Your Understanding 10.3: 7000 are 733.
    expect(2 * Math.PI * (callCell("TURNRATE", 250, 60) as number)).toBeCloseTo(26.2, 1);
    expect(2 * Math.PI * (callCell("TURNRATE", 7000, 60) as number)).toBeCloseTo(733, 0);
    expect(callCell("BATONTURNS", 60, 250 / 60)).toBeCloseTo(250, 10);
    // A filmed toss of four spins: 2.21 s and 10.4 turns are 4.7 a second (one weak source).
    expect(callCell("TURNRATE", 10.4, 2.21)).toBeCloseTo(4.7, 1);
    expect(errorOf("#VALUE!", "TURNRATE", 3, 0)).toMatch(/^airtime: found the number 0/);
  });

  test("FILMTIME refuses a catch before the release", () => {
    expect(errorOf("#VALUE!", "FILMTIME", 178, 112, 30)).toMatch(
      /^catchFrame: found frame 112, with the release in frame 178/,
    );
  });

  test("PLACEMENT: a landing on the target counts, empty rows at the end do not, blanks between are skipped", () => {
    const tosses = (sideways: unknown[], forward: unknown[]) =>
      (
        callCell(
          "PLACEMENT",
          sideways.map((x) => [x]),
          forward.map((y) => [y]),
        ) as unknown[][]
      )[0]?.[1];
    expect(tosses([1, 0, 2, 0, 0], [1, 0, 0, 0, 0])).toBe(3);
    expect(tosses([1, null, 2], [1, "", 0])).toBe(2);
    expect(errorOf("#N/A", "PLACEMENT", [[0], [0]], [[0], [0]])).toMatch(/No landing/);
    expect(errorOf("#VALUE!", "PLACEMENT", [[1], [2]], [[1], [null]])).toMatch(
      /^forward, row 2, column 1: found an empty cell/,
    );
    expect(errorOf("#VALUE!", "PLACEMENT", [[1]], [[1]], "inch")).toMatch(/^unit: found the text "inch"/);
  });

  test("LINESPREAD", () => {
    expect(callCell("LINESPREAD", [["M.K."], ["A.R."], ["J.T."], [0]], [[2], [2.5], [2], [0]], 180)).toEqual([
      ["M.K.", 2, 0, ""],
      ["A.R.", 2.5, 1.5, "late"],
      ["J.T.", 2, 0, ""],
    ]);
    expect(errorOf("#VALUE!", "LINESPREAD", [["M.K."], ["A.R."]], [[2], [0]], 180)).toMatch(/^airtimes, row 2/);
  });
});

describe("the routine and the week", () => {
  test("in a range of rates 0 is a rate, and only what is empty is skipped", () => {
    expect(callCell("CLEANCHANCE", [[0.9, 0]])).toBe(0);
    expect(
      callCell("CLEANCHANCE", [
        [0.9, null],
        ["", 0.5],
      ]),
    ).toBe(0.45);
    expect(errorOf("#VALUE!", "CLEANCHANCE", [[0.9], [90]])).toMatch(
      /^rates, row 2, column 1: found the number 90.*80 % is 0.8/,
    );
    expect(errorOf("#VALUE!", "EXPECTEDDROPS", [[0.9], ["#DIV/0!"]])).toMatch(
      /^rates, row 2, column 1: found the error #DIV\/0!/,
    );
    expect(errorOf("#N/A", "DROPSPREAD", [[null]])).toMatch(/No tosses/);
    expect(errorOf("#VALUE!", "DROPCHANCE", [[0.9]], 1.5)).toMatch(/^drops: found the number 1.5/);
  });

  test("a long routine: 2,000 tosses", () => {
    const rates = Array.from({ length: 2000 }, () => [0.999]);
    // Binomial with 2,000 tosses and 0.1 % misses: R's pbinom(2, 2000, 0.001) = 0.6766764.
    expect(callCell("DROPCHANCE", rates, 2) as number).toBeCloseTo(0.6766764, 7);
    expect(
      errorOf(
        "#VALUE!",
        "DROPCHANCE",
        Array.from({ length: 5001 }, () => [0.9]),
        2,
      ),
    ).toMatch(/at most 5000/);
  });

  test("WEAKLINK: largest gain first; values and dropCost together or not at all", () => {
    const rows = callCell(
      "WEAKLINK",
      [["Flat"], ["Two spin"], [0]],
      [[0.9], [0.8], [0]],
      [[3], [1], [0]],
      0.5,
    ) as unknown[][];
    expect(rows.map(([trick]) => trick)).toEqual(["Flat", "Two spin"]);
    expect(rows[0]?.[4]).toBeCloseTo(0.35, 12);
    expect(errorOf("#VALUE!", "WEAKLINK", [["Flat"]], [[0.9]], [[3]])).toMatch(
      /^dropCost: found nothing\. Accepted: both/,
    );
    expect(errorOf("#VALUE!", "WEAKLINK", [["Flat"]], [[0.9]], null, 0.5)).toMatch(/^values: found nothing/);
    expect(errorOf("#VALUE!", "WEAKLINK", [["Flat"], [""]], [[0.9], [0.8]])).toMatch(/^tricks, row 2/);
  });

  test("ROUTINESCORE says when it is not exact", () => {
    const label = (tosses: number) =>
      (
        callCell(
          "ROUTINESCORE",
          Array.from({ length: tosses }, () => [0.9]),
          Array.from({ length: tosses }, (_, toss) => [Math.sqrt(toss + 2)]),
          0.5,
        ) as unknown[][]
      )[2]?.[0];
    expect([label(10), label(30)]).toEqual(["Worst in ten", "Worst in ten (normal approximation)"]);
  });

  test("TIMELINE: the last row against the limit", () => {
    const last = (limit: unknown) =>
      (callCell("TIMELINE", [["Flat"], ["Two spin"]], [[6], [9]], 180, limit) as unknown[][])[2];
    expect(last(4)).toEqual(["Total", 15, "0:05.0", "0:01.0 over the limit"]);
    expect(last(90)).toEqual(["Total", 15, "0:05.0", "1:25.0 under the limit"]);
    expect(last(5)).toEqual(["Total", 15, "0:05.0", "at the limit"]);
    expect(last(null)).toEqual(["Total", 15, "0:05.0", ""]);
  });

  test("PRACTICEPLAN with weights; TRAININGLOAD with its day", () => {
    const plan = callCell(
      "PRACTICEPLAN",
      [["Flat"], ["Two spin"], ["New"]],
      [[19], [12], [0]],
      [[20], [20], [0]],
      50,
      null,
      null,
      [[1], [2], [1]],
    ) as unknown[][];
    expect(plan.map((row) => row.slice(0, 2))).toEqual([
      ["Two spin", 30],
      ["Flat", 20],
    ]);
    const load = (asOf: unknown) =>
      callCell("TRAININGLOAD", [[46400], [46407], [46407.5]], [[60], [30], [45]], 13, asOf) as unknown[][];
    expect(load(null).slice(0, 2)).toEqual([
      ["Hours in 7 days", 1.25],
      ["Rest days in 7", 6],
    ]);
    expect(load(0)).toEqual(load(null));
    expect(load(46400).slice(0, 2)).toEqual([
      ["Hours in 7 days", 1],
      ["Rest days in 7", 6],
    ]);
    expect(errorOf("#VALUE!", "TRAININGLOAD", [[46400]], [[2000]], 13)).toMatch(
      /^minutes, row 1, column 1: found the number 2000/,
    );
  });
});

describe("what hostile arguments have found", () => {
  const full = (cell: unknown, ...tops: unknown[]): unknown[][] => {
    const rest = [cell];
    return Array.from({ length: 1_048_576 }, (_, row) => (row < tops.length ? [tops[row]] : rest));
  };

  test("a message names what cannot be seen in a text, and is one line", () => {
    expect(errorOf("#VALUE!", "STREAK", [["c"]], "be\u202est")).toMatch(/^which: found the text "be\[U\+202E\]st"/);
    expect(errorOf("#VALUE!", "READINESS", [["c\nx\td\u202e"]])).toMatch(
      /the text "c\[line end\]x\[tab\]d\[U\+202E\]"/,
    );
    expect(errorOf("#VALUE!", "READINESS", [["\ud83d"]])).toMatch(/the text "\[U\+D83D\]"/);
  });

  test("a long key or a tally with many spaces does not make a message long", () => {
    const key = `${"a".repeat(16_000)}/${"b".repeat(16_000)}`;
    expect(errorOf("#VALUE!", "READINESS", [["c"]], null, null, key).length).toBeLessThan(200);
    expect(errorOf("#VALUE!", "READINESS", [[`8${" ".repeat(32_000)}/2`]])).toMatch(/found the tally 8\/2, which/);
  });

  test("an error names an argument of the function that was called", () => {
    expect(errorOf("#VALUE!", "WEAKLINK", [["Flat"]], [[0.5]], [[1]], "M.K.")).toMatch(/^dropCost: found the text/);
    // Up to a hand that is 30 m higher takes 2.47 s at the least, and 6 counts at 200 a minute are 1.8 s.
    expect(errorOf("#VALUE!", "TOSSPLAN", 4, 200, 2, 0, 0, 30)).toMatch(
      /^bodyCounts: found 6 counts, which last 1\.8 s\. Accepted: at least 2\.47 s/,
    );
  });

  test("READYDATE of a million rows is that of its days", () => {
    const dates = full(46_303, 46_300, 46_301, 46_302);
    const [caught, attempts] = [full(9, 2, 5, 7), full(10, 10, 10, 10)];
    const many = 1_048_576 - 3;
    const days = [[46_300], [46_301], [46_302], [46_303]];
    const summed = [[2], [5], [7], [9 * many]];
    expect(callCell("READYDATE", dates, caught, attempts, 0.95)).toEqual(
      callCell("READYDATE", days, summed.map(([count]) => [Math.min(count ?? 0, 9_000_000)]), [[10], [10], [10], [10_000_000]], 0.95), // prettier-ignore
    );
  });

  test("more tosses than any routine has are refused at once", () => {
    for (const [id, ...args] of [
      ["CLEANCHANCE", full(0.9)],
      ["ROUTINESCORE", full(0.9), full(1), 0.5],
    ] as const) {
      expect(errorOf("#VALUE!", id, ...args)).toMatch(/^rates: found more than 5000 tosses/);
    }
    expect(errorOf("#VALUE!", "WEAKLINK", full("Flat"), full(0.9))).toMatch(/^tricks: found more than 5000 tosses/);
    expect(errorOf("#VALUE!", "LINESPREAD", full("M.K."), full(1), 200)).toMatch(/^names: found more than 5000 names/);
    expect(errorOf("#VALUE!", "TIMELINE", full("Flat"), full(4), 200)).toMatch(/^tricks: found more than 5000 tosses/);
    expect(errorOf("#VALUE!", "PRACTICEPLAN", full("Flat"), full(4), full(9), 100)).toMatch(
      /^tricks: found more than 5000 tricks/,
    );
  });
});
