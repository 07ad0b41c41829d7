/** The sheet Trick over the sample season, worked out by the page's engine with the built functions, against R. */
import { calculate } from "../../src/grid/headless";
import { builtFunctions } from "../../src/tools/build-samples";
import { sampleRecords, sampleSeason, sampleSettings } from "../../src/workbook/sample/sample-season";
import { seasonPlan } from "../../src/workbook/season/season";
import type { Focus, PracticeEntry } from "../../src/workbook/season/records";
import { reader } from "./plain-values";
// Made by tests/checks/trick-sheet-from-r.R from the saved sample workbook.
import fromR from "../checks/trick-sheet-from-r.json";

jest.setTimeout(300_000);

/** Ends where the first cell of a row is empty. */
function rowsFrom(at: (address: string) => unknown, row: number, columns: string): unknown[][] {
  const rows: unknown[][] = [];
  for (let next = row; at(`A${String(next)}`) !== ""; next += 1) {
    rows.push([...columns].map((column) => at(`${column}${String(next)}`)));
  }
  return rows;
}

describe("a trick that slides", () => {
  let at: (address: string) => unknown;
  let board: (address: string) => unknown;
  beforeAll(async () => {
    const season = await calculate(sampleSeason(), builtFunctions());
    at = reader(season.get("Trick 2026"));
    board = reader(season.get("Board 2026"));
  });

  test("says since when, with the days and rates that R finds", () => {
    const change = fromR.change;
    expect(["B20", "B21", "B22", "B23"].map(at)).toEqual(["slid", change.since, change.earliest, change.latest]);
    expect(at("B24")).toBeCloseTo(change.before, 12);
    expect(at("B25")).toBeCloseTo(change.after, 12);
    expect(at("B26")).toBeCloseTo(change.chance, 9);
  });

  test("first tries", () => {
    const [first, later] = rowsFrom(at, 56, "ABCDEFGHIJ");
    const { firstTries } = fromR;
    expect(first?.slice(0, 3)).toEqual(["First of the day", firstTries.attempts, firstTries.caught]);
    expect(later?.slice(0, 3)).toEqual(["Later that day", firstTries.laterAttempts, firstTries.laterCaught]);
    [firstTries.difference, firstTries.low, firstTries.high].forEach((expected, index) =>
      expect(first?.[6 + index]).toBeCloseTo(expected, 9),
    );
  });

  test("of the entrances one is clearly better than the usual one, and one clearly worse, on the same days", () => {
    const rows = rowsFrom(at, 64, "ABCDEFGHIJK").filter(([way]) => way !== "(not noted)");
    expect(rows).toHaveLength(fromR.entrances.length);
    fromR.entrances.forEach((expected, index) => {
      const [way, attempts, caught, , low, high, , difference, diffLow, diffHigh] = rows[index] ?? [];
      expect([way, attempts, caught]).toEqual([expected.way, expected.attempts, expected.caught]);
      expect([low, high].map(Number)).toEqual([expect.closeTo(expected.low, 9), expect.closeTo(expected.high, 9)]);
      if (expected.difference === null) expect(difference).toBe("");
      else {
        expect(difference).toBeCloseTo(expected.difference, 9);
        expect(diffLow).toBeCloseTo(expected.diffLow ?? NaN, 9);
        expect(diffHigh).toBeCloseTo(expected.diffHigh ?? NaN, 9);
      }
    });
    const verdicts = new Map(rows.map((row) => [row[0], row[10]]));
    expect(verdicts).toEqual(new Map([["Walk", "usual"], ["Half turn", "better"], ["Run-up", "worse"]])); // prettier-ignore
  });

  test("a left hand that only looks worse: fewer of all are caught, and not fewer of the same tricks", () => {
    const row = rowsFrom(at, 103, "ABCDEFGHI").find(([condition]) => condition === "left hand") ?? [];
    const { leftHand } = fromR;
    expect(row.slice(1, 3)).toEqual([leftHand.attempts, leftHand.caught]);
    [leftHand.difference, leftHand.low, leftHand.high, leftHand.p].forEach((expected, index) =>
      expect(row[4 + index]).toBeCloseTo(expected, 8),
    );
    expect(row[8]).toBe("not clear yet");
    expect(leftHand.caught / leftHand.attempts).toBeLessThan(leftHand.others - 0.05);
  });

  test("stages, and the tries that an experiment takes", () => {
    const rows = rowsFrom(at, 46, "ABCD");
    expect(rows.map(([stage, attempts]) => [stage, attempts])).toEqual(
      fromR.stages.map(({ stage, attempts }) => [stage, attempts]),
    );
    for (const [index, { attempts, caught, bestRun }] of fromR.stages.entries()) {
      if (attempts > 0) expect(rows[index]?.slice(2)).toEqual([expect.closeTo(caught / attempts, 12), bestRun]);
    }
    expect(at("B40")).toBe(fromR.triesOfEach);
  });

  test("what could stand in are the athlete's own Ready and Solid tricks of no more counts", () => {
    const counts = new Map(
      sampleSettings.tricks.map(({ name, bodyCounts }) => [
        name,
        (bodyCounts ?? 0) + (sampleRecords.trickDetails.get(name)?.extraCounts ?? 0),
      ]),
    );
    const own = counts.get("Cartwheel blind catch") ?? 0;
    const lines = Array.from({ length: 400 }, (_, row) => {
      const onBoard = (column: string): unknown => board(`${column}${String(5 + row)}`);
      return {
        athlete: onBoard("A"),
        trick: onBoard("B"),
        rate: onBoard("E"),
        low: onBoard("F"),
        status: onBoard("K"),
      };
    });
    const expected = lines
      .filter(({ athlete, trick }) => athlete === sampleRecords.focus?.athlete && trick !== "Cartwheel blind catch")
      .filter(
        ({ trick, status }) => /^(?:Ready|Solid)$/.test(String(status)) && (counts.get(String(trick)) ?? 99) <= own,
      )
      .sort((one, other) => Number(other.low) - Number(one.low))
      .map(({ trick, status, rate }) => [trick, status, rate, counts.get(String(trick))]);
    expect(expected.length).toBeGreaterThan(2);
    const told = Array.from({ length: 20 }, (_, row) =>
      ["BH", "BI", "BJ", "BK"].map((column) => at(`${column}${String(7 + row)}`)),
    );
    expect(told.filter(([name]) => name !== "")).toEqual(expected);
    expect(rowsFrom(at, 90, "ABCD")).toEqual(expected.slice(0, 10));
  });

  test("shows no error anywhere", async () => {
    const sheet = (await calculate(sampleSeason(), builtFunctions())).get("Trick 2026");
    expect([...(sheet?.values ?? [])].filter(([, value]) => value.kind === "error")).toEqual([]);
  });

  test("stands with a wrong mark among its rows, and says which does not count", async () => {
    const { athlete, trick } = sampleRecords.focus as Focus;
    const day = Math.max(...sampleRecords.practice.map(({ date }) => date));
    const wrong = { ...sampleRecords.practice.find((entry) => entry.athlete === athlete && entry.trick === trick), date: day, stage: "Joined", marks: "ccxcc" } as PracticeEntry; // prettier-ignore
    const practice = [...sampleRecords.practice, wrong];
    const season = await calculate(seasonPlan(sampleSettings, { ...sampleRecords, practice }), builtFunctions());
    const page = season.get("Trick 2026");
    expect([...(page?.values ?? [])].filter(([, value]) => value.kind === "error")).toEqual([]);
    const mistaken = reader(page);
    const card = Array.from({ length: 10 }, (_, row) => `B${String(7 + row)}`);
    expect(card.map(mistaken)).toEqual(card.map(at));
    expect(mistaken("B17")).toMatch(/ 1 row does not count: /);
  });

  test("says the same of a log that stands newest first, and what the board says", async () => {
    // As a sort by day leaves it: the sets of one day stay in their order.
    const practice = [...sampleRecords.practice].sort((one, other) => other.date - one.date);
    const season = await calculate(seasonPlan(sampleSettings, { ...sampleRecords, practice }), builtFunctions());
    const turned = reader(season.get("Trick 2026"));
    const page = Array.from({ length: 160 }, (_, row) =>
      [..."ABCDEFGHIJK"].map((column) => column + String(1 + row)),
    ).flat();
    expect(Object.fromEntries(page.map((address) => [address, turned(address)]))).toEqual(
      Object.fromEntries(page.map((address) => [address, at(address)])),
    );
    const { athlete, trick } = sampleRecords.focus as Focus;
    const line = Array.from({ length: 400 }, (_, row) => String(5 + row)).find(
      (row) => board(`A${row}`) === athlete && board(`B${row}`) === trick,
    );
    // Attempts, last set, rate, low, high, chance, streak, best streak; the status stands before them on the one, after on the other.
    const onBoard = ["K", ..."CDEFGHIJ"].map((column) => board(`${column}${line ?? ""}`));
    expect(Array.from({ length: 9 }, (_, row) => at(`B${String(7 + row)}`))).toEqual(onBoard);
  });
});

describe("a trick that is out of the routine", () => {
  test("is counted from the day on which it was taken out, says what is left, and may come back once nothing is", async () => {
    const focus = { ...(sampleRecords.focus as Focus), athlete: "D.L.", trick: "Leap back catch" };
    const plan = seasonPlan(sampleSettings, { ...sampleRecords, focus });
    const at = reader((await calculate(plan, builtFunctions())).get("Trick 2026"));
    const swap = sampleRecords.swaps?.find(({ athlete, back }) => athlete === "D.L." && back === null);
    expect(at("B44")).toBe(swap?.day);
    const since = sampleRecords.practice.filter(
      ({ athlete, trick, date }) =>
        athlete === "D.L." && trick === "Leap back catch" && date >= (swap?.day ?? Infinity),
    );
    const joined = since
      .filter(({ stage }) => stage === "Joined")
      .map(({ marks }) => marks.replaceAll(" ", ""))
      .join("");
    const rows = rowsFrom(at, 46, "ABCDEF");
    expect(rows[3]?.slice(0, 2)).toEqual(["Joined", joined.length]);
    expect(String(at("B36"))).toMatch(/^5 {2}Retrain: /);
    expect(at("B37")).not.toBe("");
  });

  test("gives its place in the routine to the other while it is out, and no longer once it is back", async () => {
    const [first] = sampleRecords.routine.filter(({ trick }) => trick === "Cartwheel blind catch");
    const swapped = async (back: number | null): Promise<unknown[]> => {
      const swaps = [{ athlete: "M.K.", out: "Cartwheel blind catch", in: "Cartwheel", day: 46090, back }];
      const plan = seasonPlan(sampleSettings, { ...sampleRecords, swaps });
      const at = reader((await calculate(plan, builtFunctions())).get("Routine 2026"));
      const row = 7 + sampleRecords.routine.indexOf(first as (typeof sampleRecords.routine)[number]);
      return ["D", "E", "F", "G"].map((column) => at(`${column}${String(row)}`));
    };
    const [out, back] = [await swapped(null), await swapped(46095)];
    // Both take six counts; Cartwheel is worth 1.4 and the other 1.9.
    expect(out.slice(0, 3)).toEqual(["Cartwheel", 6, 1.4]);
    expect(back.slice(0, 3)).toEqual(["Cartwheel blind catch", 6, 1.9]);
    expect(Number(out[3])).toBeGreaterThan(Number(back[3]));
  });
});
