import fc from "fast-check";
import { catchInterval } from "../../src/core/catch-rate";
import { chancesToBeBest } from "../../src/core/chance-best";
import type { Tally } from "../../src/core/compare";
import { StratifiedComparison } from "../../src/core/mantel-haenszel";
import { Missing, Problem } from "../../src/core/problem";
import { NOT_NOTED, verdictOf, WayLog, type WayRow } from "../../src/core/ways";
import { runs } from "./runs";

type Row = readonly [way: string | undefined, caught: number, attempts: number, date?: number];

function rowsOf(rows: readonly Row[], dated = false): WayRow[] {
  const log = new WayLog();
  for (const [way, caught, attempts, date] of rows) log.add(way, { caught, attempts }, date);
  return log.rows(dated);
}

const tally = (caught: number, attempts: number): Tally => ({ caught, attempts });

describe("without days", () => {
  // Newcombe 1998, Statistics in Medicine 17:873-890, Table II (a): 56 of 70 less 48 of 80, 0.0524 to 0.3339.
  const rows = rowsOf([
    ["spin in", 48, 80],
    ["walk in", 56, 70],
    [undefined, 9, 9],
    [" ", 1, 1],
    [NOT_NOTED, 0, 2],
  ]);

  test("most tried first, what was not noted last and never best", () => {
    expect(rows.map(({ way, caught, attempts, verdict }) => [way, caught, attempts, verdict])).toEqual([
      ["spin in", 48, 80, "usual"],
      ["walk in", 56, 70, "better"],
      [NOT_NOTED, 10, 12, undefined],
    ]);
    expect(rows[2]).toMatchObject({ chanceBest: undefined, difference: undefined });
    expect(rows[0]?.difference).toBeUndefined();
  });

  test("the difference from the usual way as Newcombe prints it", () => {
    expect(rows[1]?.difference?.difference).toBeCloseTo(0.2, 12);
    expect(rows[1]?.difference?.low).toBeCloseTo(0.0524, 4);
    expect(rows[1]?.difference?.high).toBeCloseTo(0.3339, 4);
  });

  test("intervals are Wilson's, chances those of the ways noted", () => {
    expect(rows[0]?.interval).toEqual(catchInterval(48, 80, 0.95, "wilson"));
    expect([rows[0]?.chanceBest, rows[1]?.chanceBest]).toEqual(chancesToBeBest([tally(48, 80), tally(56, 70)]));
  });

  test("worse, and not clear yet", () => {
    // Newcombe's (a) the other way round, and (f): 0 of 10 against 0 of 10 from -0.2775 to 0.2775.
    expect(
      rowsOf([
        ["a", 80, 100],
        ["b", 42, 70],
      ])[1],
    ).toMatchObject({ way: "b", verdict: "worse" });
    const [, same] = rowsOf([
      ["a", 0, 10],
      ["b", 0, 10],
    ]);
    expect(same).toMatchObject({ way: "b", verdict: "not clear yet" });
    expect(same?.difference?.high).toBeCloseTo(0.2775, 4);
  });

  test("an interval that touches 0 is not clear", () => {
    expect(verdictOf({ low: 0, high: 0.2 }, 100)).toBe("not clear yet");
    expect(verdictOf({ low: -0.2, high: 0 }, 100)).toBe("not clear yet");
    expect(verdictOf({ low: 1e-9, high: 0.2 }, 100)).toBe("better");
    expect(verdictOf({ low: -0.2, high: -1e-9 }, 100)).toBe("worse");
  });

  test("fewer than 5 attempts on a side are never clear: 2 of 2 against 0 of 2, whose interval leaves out 0", () => {
    expect(verdictOf({ low: 0.1, high: 0.2 }, 4)).toBe("not clear yet");
    expect(verdictOf({ low: 0.1, high: 0.2 }, 5)).toBe("better");
    const against = (tries: number): WayRow | undefined =>
      rowsOf([
        ["a", 0, 20],
        ["b", tries, tries],
      ])[1];
    expect(against(4)?.difference?.low).toBeGreaterThan(0);
    expect([against(4)?.verdict, against(5)?.verdict]).toEqual(["not clear yet", "better"]);
    expect(
      rowsOf([
        ["a", 0, 2],
        ["b", 2, 2],
      ])[1],
    ).toMatchObject({ verdict: "not clear yet" });
  });
});

describe("with days", () => {
  test("a good day is not taken for a good way", () => {
    // On the good day all goes well and the left hand is used more, on the bad day less: within each day it is worse.
    const rows: Row[] = [
      ["right", 28, 30, 46300],
      ["left", 72, 80, 46300],
      ["right", 50, 90, 46301],
      ["left", 5, 10, 46301],
    ];
    const [, pooled] = rowsOf(rows);
    expect(pooled).toMatchObject({ way: "left", verdict: "better" });
    const [, onDays] = rowsOf(rows, true);
    expect(onDays?.difference?.difference).toBeLessThan(0);
    expect(onDays?.verdict).toBe("not clear yet");
  });

  test("only days on which both were tried count for the difference; Modern Epidemiology 2008, table 15-1: 0.0349", () => {
    const [, tolbutamide] = rowsOf(
      [
        ["placebo", 5, 120, 1],
        ["tolbutamide", 8, 106, 1],
        ["tolbutamide", 10, 50, 2],
        ["placebo", 16, 85, 2],
        ["tolbutamide", 12, 48, 2],
        ["placebo", 0, 300, 3],
      ],
      true,
    );
    expect(tolbutamide).toMatchObject({ way: "tolbutamide", attempts: 204, verdict: "not clear yet" });
    expect(tolbutamide?.difference?.difference).toBeCloseTo(0.0349, 4);
    const days = new StratifiedComparison();
    days.add(tally(8, 106), tally(5, 120));
    days.add(tally(22, 98), tally(16, 85));
    expect(tolbutamide?.difference).toEqual(days.difference(0.95));
  });

  test("the 5 attempts are those on the days that both share", () => {
    const shared = (tries: number): WayRow | undefined =>
      rowsOf(
        [
          ["a", 0, 20, 46300],
          ["b", tries, tries, 46300],
          ["b", 10, 10, 46301],
        ],
        true,
      )[1];
    expect(shared(4)?.difference?.low).toBeGreaterThan(0);
    expect([shared(4)?.verdict, shared(5)?.verdict]).toEqual(["not clear yet", "better"]);
  });

  test("never on the same day: Newcombe's interval, and it is said, however far it is from 0", () => {
    const rows: Row[] = [
      ["a", 10, 100, 46300],
      ["b", 50, 50, 46301],
      [undefined, 50, 50, 46300],
    ];
    const [, apart] = rowsOf(rows, true);
    expect(apart?.verdict).toBe("never on the same day");
    expect(apart?.difference).toEqual(rowsOf(rows)[1]?.difference);
  });
});

test("spelled as met first; case, spaces and Unicode form make no other way; ties A to Z; empty rows are none", () => {
  const rows = rowsOf([
    ["Élan", 1, 2],
    [" e\u0301LAN ", 1, 2],
    ["élan", 0, 1],
    ["b", 1, 5],
    ["a", 1, 5],
    ["c", 0, 0],
  ]);
  expect(rows.map(({ way, attempts }) => [way, attempts])).toEqual([
    ["a", 5],
    ["b", 5],
    ["Élan", 5],
  ]);
});

test("one way alone is the usual one and surely the best", () => {
  expect(rowsOf([["a", 3, 4]])).toMatchObject([{ verdict: "usual", chanceBest: 1, difference: undefined }]);
});

describe("errors", () => {
  test("nothing noted", () => {
    const message = "No way is noted yet: note beside the marks how the trick was done";
    expect(() => rowsOf([])).toThrow(Missing);
    expect(() =>
      rowsOf([
        [undefined, 3, 4],
        ["  ", 1, 1],
      ]),
    ).toThrow(message);
  });

  test("a column of remarks", () => {
    const log = new WayLog("entrances");
    for (let way = 1; way <= 200; way++) log.add(`way ${way}`, tally(1, 1));
    log.add("WAY 200", tally(1, 1));
    expect(() => log.add("one more", tally(1, 1))).toThrow(Problem);
    expect(() => log.add("one more", tally(1, 1))).toThrow(/^entrances: found more than 200 different ways\./);
    expect(log.rows(false)).toHaveLength(200);
  });
});

test("the order of the log changes nothing but the spelling", () => {
  const row = fc.tuple(
    fc.constantFrom("a", "b", "c", undefined),
    fc.integer({ min: 0, max: 9 }),
    fc.integer({ min: 46300, max: 46304 }),
  );
  fc.assert(
    fc.property(fc.array(row, { minLength: 1, maxLength: 30 }), (given) => {
      const rows = given.map(([way, caught, date]): Row => [way, caught, 10, date]);
      if (rows.every(([way]) => way === undefined)) return;
      const there = rowsOf(rows, true);
      const back = rowsOf([...rows].reverse(), true);
      expect(back.map(({ way, caught, attempts, verdict }) => [way, caught, attempts, verdict])).toEqual(
        there.map(({ way, caught, attempts, verdict }) => [way, caught, attempts, verdict]),
      );
      there.forEach(({ difference }, index) => {
        if (difference) expect(back[index]?.difference?.low).toBeCloseTo(difference.low, 11);
        else expect(back[index]?.difference).toBeUndefined();
      });
    }),
    runs(200),
  );
});
