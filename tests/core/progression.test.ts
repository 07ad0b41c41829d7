import fc from "fast-check";
import { whatIsLeft } from "../../src/core/advice";
import { Missing } from "../../src/core/problem";
import { certainRun, ProgressionLog, STAGE_GOALS, type ProgressionRow } from "../../src/core/progression";
import { readiness } from "../../src/core/readiness";
import { STAGES, type Stage } from "../../src/trade/stages";
import { logOf } from "./logs";
import { readRows } from "./rows";
import { runs } from "./runs";

type Row = readonly [date: number, stage: Stage, marks: string];
const [STANDARD, SET] = [0.8, 10];

function progression(rows: readonly Row[], since?: number): ProgressionRow[] {
  const log = new ProgressionLog();
  readRows(
    rows.map(([date, stage, marks]) => [{ date, stage }, marks] as const),
    ({ date, stage }, row) => log.add(date, stage, row),
  );
  return log.rows(STANDARD, SET, since);
}

const stageOf = (rows: readonly ProgressionRow[], stage: Stage) => rows.find((row) => row.stage === stage);
const leftAt = (rows: readonly Row[], stage: Stage, since?: number) =>
  whatIsLeft(stageOf(progression(rows, since), stage) as ProgressionRow, STANDARD, SET);

test("a row a stage in the order of learning, those not begun too", () => {
  const rows = progression([[46300, "Wall", "cd"]]);
  expect(rows.map(({ stage, attempts }) => [stage, attempts])).toEqual(
    STAGES.map((stage) => [stage, stage === "Wall" ? 2 : 0]),
  );
  expect(rows.map((row) => whatIsLeft(row, STANDARD, SET))).toEqual([
    "Not begun: 5 catches running.",
    "Not begun: 5 catches running.",
    "5 more catches running.",
    "Not begun: sets of 10 at 80 % until it is Ready.",
    "Not begun: 5 catches running.",
    "Not begun: 4 of the latest 5 caught.",
    "",
  ]);
});

describe.each(STAGES.filter((stage) => STAGE_GOALS[stage] === "five running"))("%s: five caught running", (stage) => {
  test("done on the day of the fifth, also over days and rows", () => {
    const rows = progression([
      [46300, stage, "ccccdccc"],
      [46302, stage, "c"],
      [46303, stage, "cdd"],
      [46304, stage, "ccccc"],
    ]);
    expect(stageOf(rows, stage)).toMatchObject({ caught: 14, attempts: 17, bestRun: 5, done: 46303, holds: true });
    expect(leftAt([[46300, stage, "ccccd"]], stage)).toBe("5 more catches running.");
    expect(leftAt([[46300, stage, "dccb cccc"]], stage)).toBe("1 more catch running.");
    expect(leftAt([[46300, stage, "ccccc d"]], stage)).toBe("");
  });
});

describe("tallies", () => {
  test.each([
    [5, 5, 5],
    [10, 10, 10],
    [9, 10, 5],
    [8, 10, 3],
    [7, 8, 4],
    [1, 2, 1],
    [0, 4, 0],
    [19, 20, 10],
  ])("%p of %p hold at least %p running, whatever their order", (caught, attempts, run) => {
    expect(certainRun(caught, attempts)).toBe(run);
  });

  test("all orders of up to nine attempts: no more is certain, and no less", () => {
    for (let attempts = 1; attempts <= 9; attempts++) {
      const shortest = new Array<number>(attempts + 1).fill(Infinity);
      for (let order = 0; order < 2 ** attempts; order++) {
        const text = order.toString(2).padStart(attempts, "0");
        const caught = text.replaceAll("0", "").length;
        const longest = Math.max(...text.split("0").map(({ length }) => length));
        shortest[caught] = Math.min(shortest[caught] ?? NaN, longest);
      }
      shortest.forEach((run, caught) => expect(certainRun(caught, attempts)).toBe(run));
    }
  });

  test("9/10 is done; 8/10 is not, and breaks a run; a tally without a miss goes on with one", () => {
    expect(stageOf(progression([[46300, "Wall", "9/10"]]), "Wall")).toMatchObject({ bestRun: 5, done: 46300 });
    const broken = progression([
      [46300, "Wall", "cccc"],
      [46301, "Wall", "8/10"],
      [46302, "Wall", "c"],
    ]);
    expect(stageOf(broken, "Wall")).toMatchObject({ bestRun: 4, done: undefined, run: 1 });
    const joined = progression([
      [46300, "Wall", "cc"],
      [46301, "Wall", "2/2"],
      [46302, "Wall", "c"],
    ]);
    expect(stageOf(joined, "Wall")).toMatchObject({ bestRun: 5, done: 46302 });
  });
});

describe("Run-through: four of the latest five", () => {
  test.each([
    ["cccc", undefined, "4 of the latest 4 caught, 4 of 5 are asked for."],
    ["ccccd", 46300, ""],
    ["dcccc", 46300, ""],
    ["ccddc cc", undefined, "3 of the latest 5 caught, 4 of 5 are asked for."],
    ["ccddc ccc", 46300, ""],
    ["ccccc dd", 46300, "Fell back: 3 of the latest 5 caught, 4 of 5 are asked for."],
    ["8/10", 46300, ""],
    ["7/10", undefined, "7 of the latest 10 caught, 4 of 5 are asked for."],
  ])("%p", (marks, done, left) => {
    const rows: Row[] = [[46300, "Run-through", marks]];
    expect(stageOf(progression(rows), "Run-through")).toMatchObject({ done, holds: left === "" });
    expect(leftAt(rows, "Run-through")).toBe(left);
  });

  test("done on its first day, though it fell back and came again", () => {
    const rows = progression([
      [46300, "Run-through", "cccc"],
      [46301, "Run-through", "c"],
      [46302, "Run-through", "dd"],
      [46303, "Run-through", "cccc"],
    ]);
    expect(stageOf(rows, "Run-through")).toMatchObject({ done: 46301, holds: true });
  });
});

describe("Joined: Ready by the rule", () => {
  const days: Row[] = Array.from({ length: 12 }, (_, day) => [
    46300 + day,
    "Joined",
    day < 5 ? "ccdcd cdccd" : "ccccc ccccc",
  ]);

  test("the first day that ends with Ready or Solid", () => {
    const firstReady = days.findIndex((_, day) => {
      const word = readiness(logOf(days.slice(0, day + 1).map(([, , marks]) => marks)), STANDARD, SET);
      return word === "Ready" || word === "Solid";
    });
    expect(firstReady).toBeGreaterThan(4);
    const joined = stageOf(progression(days), "Joined");
    expect(joined).toMatchObject({ done: 46300 + firstReady, holds: true });
    expect(leftAt(days, "Joined")).toBe("");
    const before = days.slice(0, firstReady);
    expect(stageOf(progression(before), "Joined")).toMatchObject({ done: undefined, holds: false });
    expect(leftAt(before, "Joined")).toMatch(
      /^Now Confirm \(\d+ of 10; chance \d+ %, 82 % is asked for\): sets of 10 at 80 % until it is Ready\.$/,
    );
  });

  test("too few", () => {
    expect(leftAt([[46300, "Joined", "ccc"]], "Joined")).toBe(
      "Now Too few (7 more to a whole set): sets of 10 at 80 % until it is Ready.",
    );
  });

  test("fallen back since: the day stays, and it is said", () => {
    const slid: Row[] = [...days, [46400, "Joined", "ddddd ddddd"]];
    const joined = stageOf(progression(slid), "Joined");
    expect(joined).toMatchObject({
      done: stageOf(progression(days), "Joined")?.done,
      judgement: { status: "At risk" },
      holds: false,
    });
    expect(leftAt(slid, "Joined")).toMatch(
      /^Fell back: now At risk \(0 of 10; \d+ % is usual\): sets of 10 at 80 % until it is Ready again\.$/,
    );
  });

  test("the way back: only what was since counts", () => {
    const slid: Row[] = [...days, [46400, "Joined", "ddddd ddddd"], [46401, "Wall", "ccccc"]];
    const rows = progression(slid, 46400);
    expect(stageOf(rows, "Joined")).toMatchObject({ attempts: 10, caught: 0, bestRun: 0, done: undefined });
    expect(stageOf(rows, "Wall")).toMatchObject({ done: 46401 });
    expect(stageOf(progression(slid, 46401), "Joined")).toMatchObject({ attempts: 0 });
  });
});

test("a contest asks for nothing", () => {
  expect(stageOf(progression([[46300, "Contest", "ccccccc"]]), "Contest")).toMatchObject({
    attempts: 7,
    bestRun: 7,
    done: undefined,
    goal: "none",
  });
});

test("no attempts, and none since", () => {
  expect(() => progression([])).toThrow(Missing);
  expect(() => progression([[46300, "Wall", ""]])).toThrow("No attempts logged yet: log the first set");
  expect(() => progression([[46300, "Wall", "c"]], 46301)).toThrow(Missing);
  expect(() => progression([[46300, "Wall", "c"]], 46301)).toThrow("No attempts since that day: log the first set");
});

test("the days may come in any order; the same rows a year later are done a year later; a row that cannot be read leaves no trace", () => {
  const row = fc.tuple(
    fc.integer({ min: 46300, max: 46315 }),
    fc.constantFrom(...STAGES),
    fc.stringMatching(/^([cdb]{1,8}|[0-5]\/[5-9])$/),
  );
  fc.assert(
    fc.property(fc.array(row, { minLength: 1, maxLength: 40 }), (rows) => {
      const found = progression(rows);
      expect(progression([...rows].sort(([one], [other]) => other - one))).toEqual(found);
      const later = progression(rows.map(([date, stage, marks]): Row => [date + 365, stage, marks]));
      expect(later).toEqual(
        found.map((one) => ({ ...one, done: one.done === undefined ? undefined : one.done + 365 })),
      );
      const log = new ProgressionLog();
      readRows(
        rows.flatMap(([date, stage, marks]) => [[undefined, "ccccccc"] as const, [{ date, stage }, marks] as const]),
        (place, read) => {
          if (place) log.add(place.date, place.stage, read);
        },
      );
      expect(log.rows(STANDARD, SET)).toEqual(found);
    }),
    runs(150),
  );
});

test("a log longer than the first reserve of rows", () => {
  const rows: Row[] = Array.from({ length: 1000 }, (_, index) => [46300 + index, "Joined", index % 3 ? "c" : "d"]);
  expect(stageOf(progression(rows), "Joined")).toMatchObject({ attempts: 1000, caught: 666, bestRun: 2 });
});
