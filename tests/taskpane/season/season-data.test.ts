import { assessWithSet } from "../../../src/core/set-in-hand";
import { listed, readLog, readSeason, seasonsAmong } from "../../../src/taskpane/season/season-data";
import { texts } from "../../../src/taskpane/words/texts";
import { memoryHost } from "../memory-host";
import { firstDay, smallSeason } from "../small-season";

test.each([
  { because: "no table at all", tables: [], seasons: [] },
  {
    because: "a season, its tables in any order and case",
    tables: ["tricks_2027", "Other", "Athletes_2027", "Practice_2027"],
    seasons: ["2027"],
  },
  { because: "a log without its lists is no season", tables: ["Practice_2027", "Tricks_2027"], seasons: [] },
  {
    because: "several, in the workbook's order",
    tables: ["Practice_B", "Athletes_B", "Tricks_B", "Practice_A_2", "Athletes_A_2", "Tricks_A_2"],
    seasons: ["B", "A_2"],
  },
  { because: "a name of nothing but the start", tables: ["Practice_", "Tricks_", "Athletes_"], seasons: [] },
])("$because", ({ tables, seasons }) => {
  expect(seasonsAmong(tables)).toEqual(seasons);
});

describe("a season", () => {
  test("is read with its lists, its settings and its log", async () => {
    const data = await readSeason(memoryHost([smallSeason("2027 B")]), "2027_B");
    expect(data).toMatchObject({
      key: "2027_B",
      table: "Practice_2027_B",
      sheet: "Practice 2027 B",
      athletes: ["M.K.", "A.R.", "J.T."],
      tricks: ["Double turn", "Thumb toss", "+1 spin", "Illusion"],
      standard: 0.8,
      setSize: 10,
      usualSettings: false,
    });
    expect(data.log).toHaveLength(4);
    expect(data.log[0]).toEqual({
      date: firstDay,
      athlete: "M.K.",
      trick: "Double turn",
      stage: "Joined",
      marks: "ddcdc cdcdd",
      minutes: "",
      entrance: "",
      exit: "",
      condition: "",
      note: "",
    });
    expect(data.conditions).toContain("left hand");
    expect(data.lackingColumns).toEqual([]);
  });

  test("from before there were ways is read all the same, and says which columns it lacks", async () => {
    const host = memoryHost([smallSeason()]);
    const log = host.table("Practice_2027");
    for (const row of [log.headings, ...log.rows]) row.splice(6, 3);
    host.tables.splice(host.tables.findIndex(({ name }) => name === "Conditions_2027"), 1); // prettier-ignore
    const data = await readSeason(host, "2027");
    expect(data).toMatchObject({ lackingColumns: ["Entrance", "Exit", "Condition"], conditions: [] });
    expect(data.log[0]).toMatchObject({ marks: "ddcdc cdcdd", entrance: "", exit: "", condition: "", note: "" });
    expect(data.records.reading.leftOut).toBe(0);
  });

  test("its settings are found under another name of the sheet, and below rows that the coach put in", async () => {
    const host = memoryHost([smallSeason()]);
    const [season] = host.tables;
    if (!season) throw new Error("no table");
    host.cells.clear();
    host.cells.set("Our season 9,2", 0.9);
    host.cells.set("Our season 10,2", 8);
    season.sheet = "Our season";
    season.at.row += 2;
    await expect(readSeason(host, "2027")).resolves.toMatchObject({ standard: 0.9, setSize: 8, usualSettings: false });
  });

  test.each([
    { standard: 80, setSize: 10 },
    { standard: "0.8", setSize: 10 },
    { standard: 0.8, setSize: 2.5 },
    { standard: 0.8, setSize: "" },
  ])("with a standard of $standard and sets of $setSize the usual ones stand in, and that is known", async (given) => {
    const host = memoryHost([smallSeason()]);
    host.cells.set("Season 2027 7,2", given.standard);
    host.cells.set("Season 2027 8,2", given.setSize);
    await expect(readSeason(host, "2027")).resolves.toMatchObject({ standard: 0.8, setSize: 10, usualSettings: true });
  });

  test.each(["Date", "Athlete", "Trick", "Stage", "Marks"])("a log without %s is told", async (heading) => {
    const host = memoryHost([smallSeason()]);
    const log = host.table("Practice_2027");
    log.headings[log.headings.indexOf(heading)] = "Other";
    await expect(readLog(host, "Practice_2027")).rejects.toThrow(texts.tableLacksColumn("Practice_2027", heading));
  });

  test("a log without minutes and notes is read, and columns may stand in another order", async () => {
    const host = memoryHost([smallSeason()]);
    const log = host.table("Practice_2027");
    log.headings.splice(5);
    log.headings.reverse();
    log.rows = log.rows.map((row) => row.slice(0, 5).reverse());
    const [first] = await readLog(host, "Practice_2027");
    expect(first).toMatchObject({ date: firstDay, athlete: "M.K.", marks: "ddcdc cdcdd", minutes: "", note: "" });
  });

  test("empty and repeated names are left out of its lists", async () => {
    const host = memoryHost([smallSeason()]);
    host.table("Athletes_2027").rows.push([""], [" m.k. "], ["  "], [7]);
    await expect(readSeason(host, "2027")).resolves.toMatchObject({ athletes: ["M.K.", "A.R.", "J.T.", "7"] });
  });
});

test("the marks that count are the joined ones of this athlete and trick, and a row that does not count is told", async () => {
  const host = memoryHost([smallSeason()]);
  host
    .table("Practice_2027")
    .rows.push(
      [firstDay + 3, " m.k. ", "DOUBLE TURN", "In context", "8/10", "", ""],
      [firstDay + 3, "M.K.", "Thumb toss", "Joined", "c", "", ""],
      ["", "", "", "", "", "", ""],
      [firstDay + 3, "M.K.", "Double turn", "Joined", "", "", ""],
    );
  const { records, cellOf } = await readSeason(host, "2027");
  const record = records.recordOf("M.K.", "Double turn");
  expect(assessWithSet(record, [], 0, 0.8, 10).attempts).toBe(30);
  expect(record?.byDay().map(({ day }) => day)).toEqual([...(record?.byDay() ?? [])].map(({ day }) => day).sort());
  // The row without marks is told, and every other one counts.
  expect(records.reading).toMatchObject({ filled: 7, leftOut: 1 });
  expect(records.reading.told).toEqual([
    expect.objectContaining({ row: 8, isWaiting: true, words: "Not complete yet: nothing in Marks." }),
  ]);
  expect(cellOf(8, "Marks")).toMatch(/^Practice 2027![A-Z]+\d+$/);
});

test("a name is found in whatever way it is typed, and answered as the list spells it", () => {
  const names = ["M.K.", "Zoé"];
  expect(listed(names, " m.k. ")).toBe("M.K.");
  expect(listed(names, "ZOE\u0301")).toBe("Zoé");
  expect(listed(names, "MK")).toBeUndefined();
});
