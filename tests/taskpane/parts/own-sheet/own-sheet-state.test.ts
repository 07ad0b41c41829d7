/** Logs that were once read wrong in silence, each by its kind: now they are read right, or the coach is asked. */
import type { Corrections } from "../../../../src/core/log-layout/find-layout";
import { lookAtLog, rowsOf, type OwnSheetView } from "../../../../src/taskpane/parts/own-sheet/own-sheet-state";
import { day, sheet, turned } from "../../../core/log-layout/sheets";

type Rows = Parameters<typeof sheet>[1];

function look(rows: Rows, corrections: Corrections = {}): OwnSheetView {
  return lookAtLog({ sheet: "Log", table: null, block: sheet("A1", rows) }, corrections);
}

/** `M.K. Double turn 7/10` for each row that counts. */
function counted(view: OwnSheetView): readonly string[] {
  return rowsOf(view, view.layout.mapping).map(
    ({ athlete, trick, caught, attempts }) => `${athlete} ${trick} ${String(caught)}/${String(attempts)}`,
  );
}

const NAMES = ["M.K.", "A.R.", "J.T."];
const TRICKS = ["Double turn", "Illusion"];

/** Twelve rows of days, athletes and tricks, each with the cells that are made for it. */
function twelve(cells: (index: number) => Rows[number]): Rows {
  return Array.from({ length: 12 }, (_, index) => [
    day(`2026-03-${String(2 + Math.floor(index / 2) * 2).padStart(2, "0")}`),
    NAMES[index % 3] ?? "",
    TRICKS[index % 2] ?? "",
    ...cells(index),
  ]);
}

const HEAD = ["Date", "Athlete", "Trick"];

describe("one kind of mark, and empty cells", () => {
  const log = (sign: string | number | boolean): Rows => [
    [...HEAD, 1, 2, 3, 4],
    ...twelve((index) => [sign, index % 2 === 0 ? sign : null, sign, index % 3 === 0 ? sign : null]),
  ];

  test.each([["✓"], ["c"], ["yes"], [1], [true]])("%p: what an empty cell means is asked", (sign) => {
    const view = look(log(sign));
    expect(view.open).toEqual(["blank"]);
    const meanings = view.loneMarks?.meanings ?? [];
    expect(meanings.map(({ blank }) => blank)).toEqual(["dropped", null]);
    const [dropped, none] = meanings.map((meaning) => counted(look(log(sign), meaning)));
    expect(dropped?.slice(0, 2)).toEqual(["M.K. Double turn 4/4", "A.R. Illusion 2/4"]);
    expect(none?.slice(0, 2)).toEqual(["M.K. Double turn 4/4", "A.R. Illusion 2/2"]);
  });

  test("a cross: which it is is asked as well", () => {
    const view = look(log("x"));
    expect(view.open).toEqual(["blank"]);
    expect(view.loneMarks?.meanings).toEqual([
      { key: "x/d", blank: "dropped" },
      { key: "x/d", blank: null },
      { key: "c/x", blank: "caught" },
      { key: "c/x", blank: null },
    ]);
    expect(counted(look(log("x"), { key: "c/x", blank: "caught" })).slice(0, 2)).toEqual([
      "M.K. Double turn 0/4",
      "A.R. Illusion 2/4",
    ]);
  });

  test("one attempt a row: a row without a mark is asked about", () => {
    const view = look([[...HEAD, "Caught"], ...twelve((index) => [index % 4 === 0 ? null : "✓"])]);
    expect(view.open).toEqual(["blank"]);
    const said = look([[...HEAD, "Caught"], ...twelve((index) => [index % 4 === 0 ? null : "✓"])], { blank: "dropped", key: null }); // prettier-ignore
    expect(counted(said).slice(0, 2)).toEqual(["M.K. Double turn 0/1", "A.R. Illusion 1/1"]);
  });

  test("marks of both kinds, or no empty cell: nothing to ask", () => {
    expect(look([[...HEAD, 1, 2, 3], ...twelve((index) => ["✓", index % 2 === 0 ? "✗" : "✓", "✓"])]).open).toEqual([]);
    expect(look([[...HEAD, 1, 2, 3], ...twelve(() => ["✓", "✓", "✓"])]).open).toEqual([]);
  });
});

describe("a column of marks", () => {
  test.each([["1/10"], ["8 of 10"], ["C-D-C"]])("of %s is no name of a trick", (mark) => {
    const { mapping } = look([
      ["Date", "Athlete", "Versions", "Result"],
      ...Array.from({ length: 12 }, (_, index) => [day(`2026-03-${String(index + 1).padStart(2, "0")}`), NAMES[index % 3] ?? "", mark, "ccd"]), // prettier-ignore
    ]).layout;
    expect([mapping.athlete, mapping.trick]).toEqual([{ column: 2 }, null]);
  });
});

describe("tallies", () => {
  const drops = (heading: string, tally: (index: number) => string): Rows => [
    [...HEAD, heading],
    ...twelve((index) => [tally(index)]),
  ];

  test.each<[heading: string, first: string, second: string, read: readonly string[]]>([
    ["Drops", "2/10", "3/10", ["8/10", "7/10"]],
    ["Not caught", "2/10", "3/10", ["8/10", "7/10"]],
    ["Caught/dropped", "3/7", "6/4", ["3/10", "6/10"]],
    ["Chutes/essais", "2/10", "3/10", ["8/10", "7/10"]],
    ["Gefallen/gefangen", "2/8", "3/7", ["8/10", "7/10"]],
    ["Tried/caught", "10/8", "10/7", ["8/10", "7/10"]],
    ["Caught", "8/10", "7/10", ["8/10", "7/10"]],
    ["Result", "8/10", "7/10", ["8/10", "7/10"]],
  ])("under %s %s and %s are read right", (heading, first, second, read) => {
    const view = look(drops(heading, (index) => (index === 0 ? first : second)));
    expect(view.open).toEqual([]);
    expect(counted(view).slice(0, 2)).toEqual([`M.K. Double turn ${read[0] ?? ""}`, `A.R. Illusion ${read[1] ?? ""}`]);
  });

  test.each<[because: string, heading: string, tally: (index: number) => string]>([
    ["the sums are all ten", "Result", (index) => `${String(4 + (index % 5))}/${String(6 - (index % 5))}`],
    ["the record would be poor", "Result", (index) => `${String(1 + (index % 3))}/10`],
    ["more caught than tried", "Caught", (index) => (index % 2 === 0 ? "7/3" : "4/6")],
  ])("where %s, the coach is asked", (_, heading, tally) => {
    const view = look(drops(heading, tally));
    expect(view.open).toEqual(["tally"]);
    expect(view.layout.tallies?.readings.length).toBeGreaterThan(1);
  });

  test("that became dates are read back as the coach says", () => {
    const rows: Rows = [
      [...HEAD, "Result"],
      ...twelve((index) => [index % 2 === 0 ? turned("2026-10-08", "8-Oct") : "9/10"]),
    ];
    expect(counted(look(rows)).length).toBe(6);
    expect(look(rows).unreadable.talliesTurnedToDays).toBe(6);
    expect(counted(look(rows, { turned: "day/month" }))[0]).toBe("M.K. Double turn 8/10");
    // 10 of 8 is no tally: it stays unreadable, and says so.
    const other = look(rows, { turned: "month/day" });
    expect([counted(other).length, other.unreadable.count]).toEqual([6, 6]);
  });
});

describe("numbers", () => {
  test("bails in a column of their own are attempts", () => {
    const rows: Rows = [[...HEAD, "Caught", "Dropped", "Bails"], ...twelve((index) => [7, 2, index === 1 ? null : 1])];
    const view = look(rows);
    expect(view.open).toEqual([]);
    expect(counted(view).slice(0, 2)).toEqual(["M.K. Double turn 7/10", "A.R. Illusion 7/9"]);
  });

  test.each([["Goal"], ["Ziel"], ["Running total"], ["Cumul"]])(
    "%s is no number of attempts, and is named",
    (heading) => {
      const rows: Rows = [[...HEAD, "Caught", heading, "Tried"], ...twelve((index) => [7, 8 + index, 10])];
      const view = look(rows);
      expect(counted(view)[0]).toBe("M.K. Double turn 7/10");
      expect(view.layout.unused).toEqual([{ column: 5, heading, holds: "numbers" }]);
    },
  );

  test("a number that only rises is asked about, whatever stands over it", () => {
    const rows: Rows = [[...HEAD, "Caught", "Total"], ...twelve((index) => [7, 7 * (index + 1)])];
    expect(look(rows).layout.unsure).toEqual(["record"]);
    expect(look(rows).open).toEqual(["columns"]);
  });

  test("columns told by their values alone have to be called right", () => {
    const rows: Rows = [["Alfa", "Bravo", "Ceda", "Delta", "Echo"], ...twelve((index) => [6 + (index % 4), 10])];
    expect(look(rows).open).toEqual(["columns"]);
  });
});

describe("names and sums", () => {
  test("spaces that nobody sees make no second trick", () => {
    const typed = ["Double turn", "Double\u00A0turn", "Double  turn", " double turn"];
    const view = look([
      [...HEAD, "Marks"],
      ...Array.from({ length: 8 }, (_, index) => [day(`2026-03-0${String(index + 1)}`), "M.K.", typed[index % 4] ?? "", "ccd"]), // prettier-ignore
    ]);
    expect(view.summary.tricks).toBe(1);
  });

  test("a week's total with a date is no athlete, and can be counted all the same", () => {
    const rows: Rows = [
      [...HEAD, "Caught", "Tried"],
      ...twelve(() => [7, 10]),
      [day("2026-03-20"), "Week total", null, 84, 120],
      [day("2026-03-20"), "Week total", "Double turn", 84, 120],
    ];
    const view = look(rows);
    expect(counted(view).length).toBe(12);
    expect(view.layout.sums?.texts).toEqual([{ text: "Week total", count: 2 }]);
    expect(counted(look(rows, { sums: [] })).length).toBe(13);
  });

  test("half a turn in Spanish is no mean", () => {
    const rows: Rows = [["Fecha", "Alumna", "Truco", "Marcas"], [day("2026-03-20"), "C.V.", "Media vuelta", "ccd"], [day("2026-03-21"), "C.V.", "Media vuelta", "ccd"], [day("2026-03-22"), "C.V.", "Giro", "ccd"]]; // prettier-ignore
    expect(counted(look(rows)).length).toBe(3);
  });
});

describe("days and blocks", () => {
  test("the number of a week is no day of January 1900", () => {
    const rows: Rows = [
      ["Week", "Athlete", "Trick", "Marks"],
      ...Array.from({ length: 8 }, (_, index) => [index + 1, "M.K.", "Illusion", "ccd"]),
    ];
    const view = look(rows, { date: 1 });
    expect([counted(view).length, view.unreadable.readable, view.unreadable.count]).toEqual([0, 0, 8]);
  });

  const blocks = (again: boolean): Rows => {
    const head = ["Date", "Trick", "Marks"];
    return ["M.K.", "A.R.", "J.T."].flatMap((name, at): Rows => [
      ...(again || at > 0 ? [] : [head]),
      [name],
      ...(again ? [head] : []),
      [day("2026-03-02"), "Double turn", "ccd"],
      [day("2026-03-04"), "Illusion", "cdd"],
      [],
    ]);
  };

  test.each([[true], [false]])("an athlete's name stands over her rows (headings once more: %p)", (again) => {
    const view = look(blocks(again));
    expect(view.missing).toEqual(["athlete"]);
    expect(view.layout.namesOver?.names).toEqual(["M.K.", "A.R.", "J.T."]);
    const said = look(blocks(again), { athlete: { over: 1 } });
    expect(said.open).toEqual([]);
    expect(counted(said)).toEqual([
      "M.K. Double turn 2/3",
      "M.K. Illusion 1/3",
      "A.R. Double turn 2/3",
      "A.R. Illusion 1/3",
      "J.T. Double turn 2/3",
      "J.T. Illusion 1/3",
    ]);
  });

  test("one name for all over a log in blocks has to be called right", () => {
    expect(look(blocks(true), { athlete: { name: "M.K." } }).open).toEqual(["columns"]);
  });
});

describe("days in rows of their own, and headings that no word tells", () => {
  const rows: Rows = [
    ["Bravo", "Ceda", "Delta", "Echo", "Faro", "Golf"],
    [day("2026-05-02")],
    [null, "M.K.", "Orion", "✓", "✓", "-"],
    [null, "M.K.", "Nova", "✓", "-", "-"],
    [day("2026-05-03")],
    [null, "M.K.", "Orion", "✓", "-", "✓"],
    [null, "M.K.", "Nova", "-", "✓"],
    [day("2026-05-07")],
    [null, "M.K.", "Orion", "✓", "✓", "✓"],
  ];

  test("ticks and dashes are told from the headings, and a dash counts as dropped", () => {
    const view = look(rows, { record: { kind: "marks", first: 4, last: 6 } });
    expect(view.layout.headingRows).toEqual([1]);
    expect(view.layout.mapping.key).toBe("✓/-");
    expect(counted(view)).toEqual(["M.K. Orion 2/3", "M.K. Nova 1/3", "M.K. Orion 2/3", "M.K. Nova 1/2", "M.K. Orion 3/3"]); // prettier-ignore
  });

  test("a row below a day that is counted is not listed as one without a day", () => {
    const { count } = look(rows, { record: { kind: "marks", first: 4, last: 6 } }).unreadable;
    expect(count).toBe(0);
  });
});

describe("numbers that stand as texts", () => {
  test("caught and attempts are read as the numbers, and a ten is no run of a one and a nought", () => {
    const view = look([[...HEAD, "Caught", "Attempts"], ...twelve((index) => [String(7 + (index % 4)), "10"])]);
    expect(view.layout.mapping).toMatchObject({ record: { kind: "tally", caught: 4, attempts: 5 }, numberTexts: true });
    expect(view.unreadable.count).toBe(0);
    expect(counted(view).slice(0, 4)).toEqual(["M.K. Double turn 7/10", "A.R. Illusion 8/10", "J.T. Double turn 9/10", "M.K. Illusion 10/10"]); // prettier-ignore
  });

  test("one number alone, of which nobody knows of how many, is counted nowhere", () => {
    const rows: Rows = [[...HEAD, "Marks"], ...twelve((index) => [String(7 + (index % 4))])];
    const view = look(rows, { record: { kind: "marks", first: 4, last: 4 } });
    expect(counted(view)).toEqual([]);
    expect(view.unreadable.count).toBe(12);
  });

  test("runs of ones and noughts stay runs", () => {
    const view = look([[...HEAD, "Marks"], ...twelve((index) => [index % 2 === 0 ? "1101" : "0110"])]);
    expect(counted(view).slice(0, 2)).toEqual(["M.K. Double turn 3/4", "A.R. Illusion 2/4"]);
  });
});

test("one attempt a row, a 1 or nothing, days and athletes written once: what an empty cell means is asked", () => {
  const view = look([
    [...HEAD, "Essais"],
    ...twelve((index) => [index === 1 || index === 7 ? null : 1]).map((row, index) =>
      index % 2 === 0 ? row : [null, null, ...row.slice(2)],
    ),
  ]);
  expect(view.layout.mapping.filledDown).toEqual(["date", "athlete"]);
  expect(view.open).toEqual(["blank"]);
});

test("a day of birth beside names that stand once is not taken for the day of the practice", () => {
  const [anna, zoe] = [day("2010-05-14"), day("2010-01-14")];
  const rows: Rows = [
    [anna, 1, "A.B.", "Double turn", 2, 2, 1, "Fri"],
    [anna, 1, null, "Illusion", 0, 1, 0, "Fri"],
    [anna, 1, null, "Double turn", 1, 1, 1, "Tue"],
    [anna, 2, null, "Illusion", 5, 6, 5 / 6, "Wed"],
    [zoe, 2, "Z.M.", "Double turn", 2, 4, 0.5, "Fri"],
    [null, 2, "Z.M.", "Total", 10, 14, 10 / 14, null],
    [zoe, 2, null, "Illusion", 3, 4, 0.75, "Tue"],
    [zoe, 3, null, "Double turn", 4, 4, 1, "Wed"],
    [zoe, 3, null, "Illusion", 3, 4, 0.75, "Wed"],
  ];
  // The weekdays are no athletes: once that is said, the days are asked about.
  expect(look(rows).open).toContain("columns");
  expect(look(rows, { athlete: { column: 3 } }).layout.unsure).toContain("date");
});

test("ones and noughts beside how many were tried are asked about, as texts too", () => {
  const rows: Rows = [
    [day("2026-09-13"), "L.M.", "Double turn", "1", "3 ", 30],
    [day("2026-09-22"), "L.M.", "Double turn", "1", "3", 15],
    [day("2026-09-28"), "L.M.", "Double turn", "0", "3", 30],
    [day("2026-09-29"), "L.M.", "Double turn", "1", "3", 25],
  ];
  expect(look(rows, { athlete: { column: 2 }, trick: { column: 3 } }).layout.unsure).toContain("record");
});

test("days over a legend of the marks are not taken for marks", () => {
  const rows: Rows = [
    [day("2025-01-09"), "Double turn", day("2026-10-05"), 45],
    [day("2025-01-13"), "Double turn", day("2026-10-06"), 30],
    [day("2025-01-14"), "Double turn", day("2026-10-05"), 30],
    [day("2025-01-15"), "Double turn", day("2026-10-05"), 20],
    ["Sum", null, 99, null],
    ["c", "caught", null, null],
    ["d", "dropped", null, null],
    ["b", "bailed", null, null],
    ["✓", "caught", null, null],
  ];
  const view = look(rows, { athlete: { name: "L.B." }, trick: { column: 2 } });
  expect(view.layout.unsure).toContain("date");
});

test("a tally with a comma is a tally where it is no run of ones and noughts", () => {
  const head = ["Date", "Athlete", "Trick", "Caught"];
  const log = (...marks: readonly string[]): Rows => [head, ...marks.map((mark, index) => [day(`2026-09-1${String(index)}`), "M.K.", "Illusion", mark])]; // prettier-ignore
  const tallies = look(log("10,10", "9,10", "8,10", "10,10"), { athlete: { column: 2 }, trick: { column: 3 } });
  expect(counted(tallies)).toEqual(["10/10", "9/10", "8/10", "10/10"].map((tally) => `M.K. Illusion ${tally}`));
  const marks = look(log("10,10", "11,10", "01,11", "10,10"), { athlete: { column: 2 }, trick: { column: 3 } });
  expect(counted(marks)).toEqual(["2/4", "3/4", "3/4", "2/4"].map((tally) => `M.K. Illusion ${tally}`));
});
