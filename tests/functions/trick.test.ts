import { callCell, errorOf } from "./built";

type Row = readonly unknown[];
const rows = (id: string, ...args: unknown[]): Row[] => callCell(id, ...args) as Row[];
const column = (...cells: unknown[]) => cells.map((cell) => [cell]);

describe("CHANGEDAY", () => {
  const dates = column(46300, 46302.75, 46305, 46307, 46309, 46312);
  const marks = column("9/10", "10/10", "9/10", "4/10", "5/10", "3/10");
  const labels = [
    ...["Change", "Since", "Earliest", "Latest", "Rate before", "Rate since", "Chance of a change", "In words"],
  ];

  test("a slide, with the labels of the contract; the rows' order changes nothing", () => {
    const found = rows("CHANGEDAY", dates, marks);
    expect(found.map(([label]) => label)).toEqual(labels);
    const values = new Map(found as [string, unknown][]);
    expect([values.get("Change"), values.get("Since")]).toEqual(["slid", 46307]);
    expect([values.get("Rate before"), values.get("Rate since")]).toEqual([28 / 30, 12 / 30]);
    expect(values.get("Chance of a change")).toBeGreaterThan(0.9);
    expect(values.get("In words")).toMatch(/40 % caught of 30, before that 93 % of 30: a slide/);
    expect(rows("CHANGEDAY", [...dates].reverse(), [...marks].reverse())).toEqual(found);
  });

  test("none seen: days and rates are empty", () => {
    const found = rows("CHANGEDAY", column(46300, 46301, 46302), column("ccdcc", "cccdc", "dcccc"));
    expect(found.slice(0, 6).map(([, value]) => value)).toEqual(["none seen", "", "", "", "", ""]);
    expect(found[7]?.[1]).toMatch(/^No change seen in 3 practice days: 80 % caught of 15/);
  });

  test("rows that cannot be read are left out and said in words; too few days says how many rows may be why", () => {
    const [more, wrong] = [
      [...dates, ["soon"], [46313], [0]],
      [...marks, ["ccccc"], [""], [0]],
    ];
    const found = rows("CHANGEDAY", more, wrong);
    expect(found.slice(0, 7)).toEqual(rows("CHANGEDAY", dates, marks).slice(0, 7));
    expect(found[7]?.[1]).toMatch(/\. 2 rows do not count: the first is row 7\.$/);
    expect(errorOf("#N/A", "CHANGEDAY", column(46300, 46301, 46302), column("c", "d", "z"))).toBe(
      "Fewer than 3 practice days: a change can be told from the third on. 1 row does not count: row 3",
    );
    // As the host tells where the ranges stand.
    const told = { parameterAddresses: ["Practice!A5:A7", "Practice!E5:E7"] };
    expect(errorOf("#N/A", "CHANGEDAY", column(46300, 46301, 46302), column("c", "d", "z"), null, told)).toMatch(
      /1 row does not count: Practice!E7$/,
    );
  });

  test("what makes no question is refused", () => {
    expect(errorOf("#VALUE!", "CHANGEDAY", dates, column("c"))).toMatch(/^marks: found 1 rows where dates has 6/);
    expect(errorOf("#VALUE!", "CHANGEDAY", dates, marks, "x")).toMatch(/^key: found the text "x"/);
    expect(errorOf("#N/A", "CHANGEDAY", column(0, ""), column(0, null))).toBe(
      "Fewer than 3 practice days: a change can be told from the third on",
    );
  });
});

describe("WAYS", () => {
  test("Newcombe 1998, Statistics in Medicine 17:873-890, Table II (a): 56 of 70 less 48 of 80, 0.0524 to 0.3339", () => {
    const [heading, usual, walk, blank, ...more] = rows(
      "WAYS",
      column("Spin in", "Walk in", "", 0, "walk IN "),
      column("48/80", "50/60", "ccd", "c", "6/10"),
    );
    expect(heading?.join()).toBe(
      "Way,Attempts,Caught,Rate,Low,High,Chance best,Difference,Diff low,Diff high,Verdict", // the contract's
    );
    expect(usual?.slice(0, 4)).toEqual(["Spin in", 80, 48, 0.6]);
    expect(usual?.slice(7)).toEqual(["", "", "", "usual"]);
    expect(walk?.slice(0, 4)).toEqual(["Walk in", 70, 56, 0.8]);
    expect(walk?.[8]).toBeCloseTo(0.0524, 4);
    expect(walk?.[9]).toBeCloseTo(0.3339, 4);
    expect(walk?.[10]).toBe("better");
    expect((usual?.[6] as number) + (walk?.[6] as number)).toBeCloseTo(1, 6);
    expect(blank).toEqual(["(not noted)", 4, 3, 0.75, expect.any(Number), expect.any(Number), "", "", "", "", ""]);
    expect(more).toEqual([]);
  });

  test("with dates only days that both share are compared; without any it is said", () => {
    const [ways, marks] = [column("Spin", "Walk", "Walk"), column("5/20", "9/10", "10/10")];
    expect(rows("WAYS", ways, marks, column(46300, 46301, 46301))[2]?.[10]).toBe("never on the same day");
    const [, , walk] = rows("WAYS", ways, marks, column(46300, 46300, 46301));
    expect([walk?.[1], walk?.[7], walk?.[10]]).toEqual([20, expect.closeTo(0.9 - 0.25, 12), "better"]);
  });

  test("2 of 2 against 0 of 2 is not clear yet", () => {
    expect(rows("WAYS", column("a", "b"), column("cc", "dd")).map((row) => row[10])).toEqual([
      "Verdict",
      "usual",
      "not clear yet",
    ]);
  });

  test("rows that cannot be read stand below with place and reason; a row that waits is told calmly; blank rows are none", () => {
    const invocation = { parameterAddresses: ["Practice!G5:G9", "Practice!E5:E9"] };
    const found = rows(
      "WAYS",
      column("Spin", 0, "Spin", "#REF!", true, "Walk"),
      column("ccd", "", "z", "ccc", "c", ""),
      null,
      null,
      invocation,
    );
    expect(found.slice(1).map(([first, second, ...others]) => [first, second, others.at(-1)])).toEqual([
      ["Spin", 3, "usual"],
      ["Not counted", "Practice!E7", expect.stringMatching(/^marks: found the text "z"\. Accepted: /)],
      [
        "Not counted",
        "Practice!G8",
        "ways: found the error #REF!. Accepted: cells without errors: mend that cell first.",
      ],
      ["Not counted", "Practice!G9", "ways: found TRUE. Accepted: words."],
      ["Not counted", "Practice!E10", "Not complete yet: nothing in marks."],
    ]);
  });

  test("nothing to answer, and what is refused", () => {
    expect(errorOf("#N/A", "WAYS", column("", 0), column("ccd", "c"))).toBe(
      "No way is noted yet: note beside the marks how the trick was done",
    );
    expect(errorOf("#N/A", "WAYS", column("Spin"), column("z"))).toMatch(/1 row does not count: row 1$/);
    const remarks = Array.from({ length: 201 }, (_, row) => [`remark ${row}`]);
    expect(
      errorOf(
        "#VALUE!",
        "WAYS",
        remarks,
        remarks.map(() => ["c"]),
      ),
    ).toMatch(/^ways: found more than 200 different ways\. Accepted: a few ways/);
    expect(errorOf("#VALUE!", "WAYS", column("a", "b"), column("c"))).toMatch(/^marks: found 1 rows where ways has 2/);
  });
});

describe("CONDITIONS", () => {
  // R 4.2.2, mantelhaen.test(UCBAdmissions, correct = FALSE): p = 0.2169; metafor's risk difference -0.0184.
  const men: readonly [string, number, number, number, number][] = [
    ["A", 512, 825, 89, 108],
    ["B", 353, 560, 17, 25],
    ["C", 120, 325, 202, 593],
    ["D", 138, 417, 131, 375],
    ["E", 53, 191, 94, 393],
    ["F", 22, 373, 24, 341],
  ];
  const log = men.flatMap(([trick, k, n, without, others]) => [
    ["men", "x", trick, `${k}/${n}`],
    ["", "x", trick, `${without}/${others}`],
  ]);
  const columnsOf = (all: readonly Row[]) => [0, 1, 2, 3].map((place) => all.map((row) => [row[place]]));

  test("within athlete and trick, as R has it", () => {
    const [heading, row, ...more] = rows("CONDITIONS", ...columnsOf(log));
    expect(heading?.join()).toBe("Condition,Attempts,Caught,Rate,Difference,Diff low,Diff high,p,Verdict");
    expect(row?.slice(0, 4)).toEqual(["men", 2691, 1198, 1198 / 2691]);
    expect(row?.[4]).toBeCloseTo(-0.0184, 4);
    expect(row?.[7]).toBeCloseTo(0.2169, 4);
    expect(row?.[8]).toBe("not clear yet");
    expect(more).toEqual([]);
  });

  test("several in a cell; never without it; rows that cannot be read stand below", () => {
    const found = rows(
      "CONDITIONS",
      ...columnsOf([
        ["tired; outdoors", "Lea B.", "Flat", "ccddd"],
        [0, "lea b.", "flat", "ccccc"],
        ["Tired", "Zoé K.", "Flat", "ccc"],
        ["tired", "Zoé K.", "", "ccc"],
        ["tired", "Zoé K.", "Flat", "8 of 10"],
      ]),
    );
    expect(found.slice(1).map((row) => [row[0], row[1], row[2], row[8]])).toEqual([
      ["tired", 8, 5, "worse"],
      ["outdoors", 5, 2, "worse"],
      ["Not counted", "row 4", "", "Not complete yet: nothing in tricks."],
      ["Not counted", "row 5", "", expect.stringMatching(/^marks: found the text "8 of 10"/)],
    ]);
    expect(rows("CONDITIONS", ...columnsOf([["tired", "Lea B.", "Flat", "ccddd"]]))[1]?.slice(4)).toEqual([
      ...["", "", "", "", "never without it"],
    ]);
    expect(errorOf("#N/A", "CONDITIONS", ...columnsOf([["", "Lea B.", "Flat", "ccddd"]]))).toMatch(
      /^No condition is noted yet/,
    );
  });
});

describe("FIRSTTRIES", () => {
  const days = Array.from({ length: 12 }, (_, day) => 46300 + day);

  test("cold is worse: 2 of 12 firsts against 10 of 12 later", () => {
    const found = rows("FIRSTTRIES", column(...days), column(...days.map((_, day) => (day < 2 ? "cd" : "dc"))));
    expect(found[0]?.join()).toBe("When,Attempts,Caught,Rate,Low,High,Difference,Diff low,Diff high,Verdict");
    expect(found.slice(1).map((row) => [row[0], row[1], row[2], row[9]])).toEqual([
      ["First of the day", 12, 2, "worse"],
      ["Later that day", 12, 10, ""],
      ["First day back", 0, 0, ""],
      ["Other days", 24, 12, ""],
    ]);
    expect(found[1]?.[6]).toBeCloseTo(-8 / 12, 12);
    expect(found[3]?.slice(3)).toEqual(["", "", "", "", "", "", ""]);
  });

  test("a break is 7 days off when left out; a day that begins with a tally is said", () => {
    const log = [column(46300, 46308, 46310), column("ccd", "dd", "3/4")] as const;
    const found = rows("FIRSTTRIES", ...log);
    expect(found.slice(1).map((row) => row[1])).toEqual([2, 3, 2, 7, ""]);
    expect(found[5]).toEqual([
      "Not counted",
      ...Array.from({ length: 8 }, () => ""),
      "1 day begins with a tally, which does not say how the first try went: left out of the first two rows.",
    ]);
    expect(rows("FIRSTTRIES", ...log, 8)[3]?.[1]).toBe(0);
    expect(rows("FIRSTTRIES", ...log, 1)[3]?.[1]).toBe(6);
    expect(errorOf("#VALUE!", "FIRSTTRIES", ...log, 0)).toMatch(
      /^breakDays: found the number 0\. Accepted: a whole number of days from 1 to 10,000/,
    );
    expect(errorOf("#N/A", "FIRSTTRIES", column(""), column(0))).toMatch(/^No attempts logged yet/);
  });

  test("of several tricks the first attempt of a day at each is a first try; days off are days without any", () => {
    const dates = column(46300, 46300, 46300, 46309, 46309, 46310);
    const marks = column("dcc", "cd", "d", "c", "3/4", "dd");
    const tricks = column("Flat", "Leap", "flat ", "Flat", "Leap", "Leap");
    // 46300: Flat d, Leap c; the second row of Flat is later. 46309: Flat c; Leap in a tally. 46310: Leap d.
    const found = rows("FIRSTTRIES", dates, marks, null, null, tricks);
    expect(found.slice(1).map((row) => row.slice(0, 3))).toEqual([
      ["First of the day", 4, 2],
      ["Later that day", 5, 2],
      ["First day back", 5, 4],
      ["Other days", 8, 3],
      ["Not counted", "", ""],
    ]);
    expect(rows("FIRSTTRIES", dates, marks).slice(1, 3).map((row) => row.slice(1, 3))).toEqual([[3, 1], [10, 6]]); // prettier-ignore
    expect(errorOf("#VALUE!", "FIRSTTRIES", dates, marks, null, null, column("Flat"))).toMatch(
      /^(tricks|marks): found \d rows/,
    );
  });
});

describe("TELLAPART", () => {
  test("R's power.prop.test(p1 = .50, p2 = .75, power = .90) gives 76.7; power 0.8 and confidence 0.95 when left out", () => {
    expect(callCell("TELLAPART", 0.5, 0.75, 0.9)).toBe(77);
    expect(callCell("TELLAPART", 0.75, 0.5, 0.9, null)).toBe(77);
    expect(callCell("TELLAPART", 0.6, 0.8)).toBe(callCell("TELLAPART", 0.6, 0.8, 0.8, 0.95));
  });

  test.each([
    [[50, 0.75], "#VALUE!", /^rateA: found the number 50.*80 % is 0\.8/],
    [[0.5, 75], "#VALUE!", /^rateB: found the number 75.*80 % is 0\.8/],
    [[0.5, 0.75, 80], "#VALUE!", /^power: found the number 80\. Accepted: a power from 0 to 1/],
    [[0.5, 0.5], "#N/A", /^Two equal rates can never be told apart$/],
    [[0.5, 0.6, 1], "#N/A", /power below 1/],
  ])("%p is %s", (args, code, message) => {
    expect(errorOf(code, "TELLAPART", ...args)).toMatch(message);
  });
});

describe("PROGRESSION", () => {
  const log = [
    column(46302, 46300, 46301, 46310),
    column("Joined", "wall", "Wall", "In context"),
    column("ccdcd", "ccdcc", "cccdc", "ccc"),
  ] as const;

  test("stages in the order of learning; five running over two days are done on the second", () => {
    const found = rows("PROGRESSION", ...log);
    expect(found.map((row) => row.slice(0, 5))).toEqual([
      ["Stage", "Attempts", "Rate", "Best run", "Done"],
      ["Body only", 0, "", "", ""],
      ["Toss only", 0, "", "", ""],
      ["Wall", 10, 0.8, 5, 46301],
      ["Joined", 5, 0.6, 2, ""],
      ["In context", 3, 1, 3, ""],
      ["Run-through", 0, "", "", ""],
      ["Contest", 0, "", "", ""],
    ]);
    expect(found.map((row) => row[5])).toEqual([
      "What is left",
      "Not begun: 5 catches running.",
      "Not begun: 5 catches running.",
      "",
      expect.stringMatching(/until it is Ready\.$/),
      "2 more catches running.",
      "Not begun: 4 of the latest 5 caught.",
      "",
    ]);
  });

  test("since a day only later rows count; bad rows are left out", () => {
    expect(rows("PROGRESSION", ...log, null, null, 46301.5).map((row) => row[1])).toEqual([
      ...["Attempts", 0, 0, 5, 5, 3, 0, 0],
    ]);
    expect(errorOf("#N/A", "PROGRESSION", ...log, null, null, 46400)).toMatch(/^No attempts since that day/);
    const [dates, stages, marks] = log;
    expect(rows("PROGRESSION", [...dates, [46311]], [...stages, ["warm-up"]], [...marks, ["ccc"]])).toEqual(
      rows("PROGRESSION", ...log),
    );
    expect(errorOf("#VALUE!", "PROGRESSION", ...log, null, null, "March")).toMatch(/^since: found the text "March"/);
    expect(errorOf("#VALUE!", "PROGRESSION", dates, null, marks)).toMatch(/^stages: found 1 rows where dates has 4/);
  });
});

describe("STAGEBOARD by athlete", () => {
  const tricks = column("Flat", "Flat", "flat", "Flat", "Flat");
  const stages = column("Joined", "Contest", "Joined", "Contest", "Wall");
  const marks = column("45/50", "20/50", "20/50", "45/50", "z");
  const athletes = column("Zoé K.", "zoé k. ", "Lea B.", "Lea B.", "Lea B.");

  test("a row for each athlete and trick shows what the club together hides", () => {
    const together = rows("STAGEBOARD", tricks, stages, marks);
    expect(together[1]?.at(-1)).toBe("");
    const found = rows("STAGEBOARD", tricks, stages, marks, null, athletes);
    expect(new Set(found.map((row) => row.length))).toEqual(new Set([17]));
    expect(found[0]?.slice(0, 3)).toEqual(["Athlete", "Trick", "Body only"]);
    expect(found.slice(1).map((row) => [row[0], row[1], row.at(-1)])).toEqual([
      ["Lea B.", "Flat", ""],
      ["Zoé K.", "Flat", "Contest"],
      ["Not counted", "row 5", expect.stringMatching(/^marks: found the text "z"/)],
    ]);
    expect(rows("STAGEBOARD", tricks, stages, marks, null, "")).toEqual(together);
  });
});

test("whole columns, nearly all blank, are answered", () => {
  const whole = (...cells: unknown[]) => Array.from({ length: 1_048_576 }, (_, row) => [cells[row] ?? 0]);
  const found = rows("WAYS", whole("Spin", 0, "Walk"), whole("ccd", 0, "cd"), whole(46300, 0, 46300));
  expect(found.map((row) => row[1])).toEqual(["Attempts", 3, 2]);
  expect(rows("WAYS", whole("Spin", 0, "Walk"), whole("ccd", 0, "cd"))).toHaveLength(3);
});
