import { callCell, errorOf } from "./built";

type Row = readonly unknown[];
const rows = (id: string, ...args: unknown[]): Row[] => callCell(id, ...args) as Row[];
const column = (...cells: unknown[]) => cells.map((cell) => [cell]);

describe("CONTESTCHANCE", () => {
  const given = [column(46300, 46307, 46314), column(7, 8, 9), column(10, 10, 10)] as const;

  test("one row: rate, low, high, chance, where from", () => {
    const [[rate, low, high, chance, from]] = rows("CONTESTCHANCE", ...given, 46321) as [Row];
    expect(from).toBe("level");
    expect([low, rate, high].map((share) => Number(share))).toEqual(
      [low, rate, high].map(Number).sort((one, other) => one - other),
    );
    expect(chance).toBeGreaterThan(0.3);
    expect(chance).toBeLessThan(0.6);
    const [[, wider]] = rows("CONTESTCHANCE", ...given, 46321, null, 0.99) as [Row];
    expect(Number(wider)).toBeLessThan(Number(low));
  });

  test("what cannot be told, and what is refused", () => {
    expect(errorOf("#N/A", "CONTESTCHANCE", ...given, null)).toBe("No contest day is entered yet");
    expect(errorOf("#N/A", "CONTESTCHANCE", ...given, 46400)).toMatch(
      /^The contest is 86 days after the last practice/,
    );
    expect(errorOf("#N/A", "CONTESTCHANCE", ...given, 46200)).toBe("Nothing is logged up to the contest day");
    expect(errorOf("#VALUE!", "CONTESTCHANCE", ...given, "soon")).toMatch(/^contest: found the text "soon"/);
    expect(errorOf("#VALUE!", "CONTESTCHANCE", given[0], column(7, 8, 11), given[2], 46321)).toMatch(
      /^caught, row 3, column 1: found 11 caught of 10 attempts/,
    );
  });
});

describe("COUNTDOWN", () => {
  const sets = 10;
  const dates = Array.from({ length: sets }, (_, index) => [46300 + 3 * index]);
  const log = [dates, dates.map(() => ["M.K."]), dates.map(() => ["Flat"]), dates.map(() => ["9/10"])] as const;

  test("a heading row and a row a trick, counted from the latest day", () => {
    const [heading, row, ...more] = rows("COUNTDOWN", ...log, 46340);
    expect(more).toEqual([]);
    expect(heading?.slice(0, 6)).toEqual([
      "Athlete",
      "Trick",
      "Status",
      "Practices left",
      "Sets left",
      "Chance on the day",
    ]);
    // Ten practices from 46300 to 46327, in 28 days; 13 days are left.
    expect(row?.slice(0, 5)).toEqual(["M.K.", "Flat", "Solid", 4, 4]);
    expect(row?.[9]).toBe(46340 - 14);
    expect(row?.[10]).toBe("On its way: keep it warm.");
  });

  test("the day counted from may be told, and later rows are left out", () => {
    const [, row] = rows("COUNTDOWN", ...log, 46340, null, null, null, 46310);
    // 46300, 46303, 46306, 46309: four practices in 28 days, 30 days are left.
    expect(row?.slice(3, 5)).toEqual([4, 4]);
    expect(errorOf("#VALUE!", "COUNTDOWN", ...log, 46310, null, null, null, 46340)).toMatch(
      /^asOf: found 14 November 2026, after the contest on 15 October 2026/,
    );
  });

  test("days off are left out, and a wrong one is told with its place", () => {
    const counted = (daysOff: unknown) => ["COUNTDOWN", ...log, 46340, null, null, null, 46328, null, daysOff] as const;
    const left = (daysOff: unknown) => rows(...counted(daysOff))[1]?.[3];
    // 46301 to 46328 hold nine practices; twelve days are left.
    expect(left(null)).toBe(3);
    expect(left([[46329, 46332]])).toBe(2);
    expect(left([[0, 0], [46329, ""], ["", ""]])).toBe(3); // prettier-ignore
    expect(errorOf("#VALUE!", ...counted([[46332, 46329]]))).toMatch(
      /^daysOff, row 1, column 2: found .* a day not before the first/,
    );
    expect(errorOf("#VALUE!", ...counted([["", 46329]]))).toMatch(/^daysOff, row 1, column 1: found an empty cell/);
    expect(errorOf("#VALUE!", ...counted([["soon", ""]]))).toMatch(/^daysOff, row 1, column 1: found the text "soon"/);
  });

  test("practices a week to come: as many sets in each as lately; empty is as often as lately", () => {
    const left = (weekly: unknown) =>
      rows("COUNTDOWN", ...log, 46340, null, null, null, 46328, null, null, weekly)[1]?.slice(3, 5);
    // Twelve days are left: 12 × 3.5 / 7 practices, and as many sets as in nine of the latest four weeks.
    expect(left(3.5)?.[0]).toBe(6);
    expect(Number(left(7)?.[1])).toBeGreaterThan(Number(left(3.5)?.[1]));
    for (const empty of [null, 0, ""]) expect(left(empty)).toEqual(left(null));
    expect(errorOf("#VALUE!", "COUNTDOWN", ...log, 46340, null, null, null, 46328, null, null, -1)).toMatch(
      /^practicesAWeek: found the number -1\. Accepted: a number of practices from 0\.1 to 21/,
    );
  });

  test("rows that cannot be read are told below, and where nothing is left they are why", () => {
    const wrong = log[3].map((cells, index) => (index === 2 ? ["9/x"] : cells));
    const found = rows("COUNTDOWN", log[0], log[1], log[2], wrong, 46340);
    expect(found).toHaveLength(3);
    expect(found[2]?.slice(0, 2)).toEqual(["Not counted", "row 3"]);
    expect(found[2]?.[10]).toMatch(/^marks: found the text "9\/x"/);
    expect(errorOf("#N/A", "COUNTDOWN", ...log, 46299)).toBe("Nothing is logged up to that day");
    expect(errorOf("#N/A", "COUNTDOWN", ...log, 0)).toBe("No contest day is entered yet");
  });
});

describe("PAIRBOARD", () => {
  const given = [
    column("A.K.", "A.K.", "M.K."),
    column("M.K.", "R.S.", "A.K."),
    column("9/10", "6/10", "ccdcc"),
  ] as const;

  test("throwers down, catchers across, the rate with the attempts beside it", () => {
    expect(rows("PAIRBOARD", ...given)).toEqual([
      ["Thrower", "A.K.", "A.K. attempts", "M.K.", "M.K. attempts", "R.S.", "R.S. attempts"],
      ["A.K.", "", "", 0.9, 10, 0.6, 10],
      ["M.K.", 0.8, 5, "", "", "", ""],
    ]);
  });

  test("a row that cannot be read is left out and told by its own columns' names and the sheet's cell", () => {
    const [throwers, catchers, marks] = [
      [...given[0], ["M.K."], [true]],
      [...given[1], [""], ["A.K."]],
      [...given[2], ["cc"], ["cz"]],
    ];
    const told = { parameterAddresses: ["Duo!A2:A6", "Duo!B2:B6", "Duo!C2:C6"] };
    const found = rows("PAIRBOARD", throwers, catchers, marks, null, told);
    expect(found).toHaveLength(5);
    expect(found[3]?.slice(0, 3)).toEqual(["Not counted", "Duo!B5: Not complete yet: nothing in catchers.", ""]);
    expect(found[4]?.[1]).toMatch(/^Duo!A6: throwers: found TRUE\. Accepted: a name\. marks: found/);
  });

  test("what is refused", () => {
    expect(errorOf("#VALUE!", "PAIRBOARD", given[0], column("M.K."), given[2])).toMatch(
      /^catchers: found 1 rows where throwers has 3/,
    );
    expect(errorOf("#N/A", "PAIRBOARD", column(""), column(""), column(""))).toBe("No exchanges are logged yet");
    expect(errorOf("#N/A", "PAIRBOARD", column("A.K."), column("M.K."), column("z"))).toBe(
      "No exchanges are logged yet. 1 row does not count: row 1",
    );
  });
});
