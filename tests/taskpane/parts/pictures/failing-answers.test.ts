/** @jest-environment jsdom */
/** What the pane answers about a trick that fails; the figures behind it are held by the tests of the core. */
import {
  failingAnswers,
  firstLeft,
  type Noted,
  type NextStep,
} from "../../../../src/taskpane/parts/pictures/failing-answers";
import { Problem } from "../../../../src/core/problem";
import { answerFor } from "../../../../src/taskpane/parts/pictures/picture-answers";
import { readPictures } from "../../../../src/taskpane/parts/pictures/picture-data";
import type { CellValue } from "../../../../src/taskpane/host/host";
import { memoryHost, type MemoryHost } from "../../memory-host";
import { firstDay, practised, smallSeason } from "../../small-season";

const TRICK = "Double turn";

function seasonWith(days: readonly string[], rows: readonly CellValue[][] = []): MemoryHost {
  const host = memoryHost([
    smallSeason(
      "2027",
      days.map((marks, day) => practised("M.K.", TRICK, "Joined", marks, firstDay + day)),
    ),
  ]);
  host.table("Practice_2027").rows.push(...rows);
  return host;
}

const answersOf = async (host: MemoryHost): Promise<ReturnType<typeof failingAnswers>> =>
  failingAnswers(await readPictures(host, "2027"), "m.k.", TRICK);

function told<Row>(noted: Noted<Row>): readonly Row[] {
  if (noted instanceof Problem) throw noted;
  return noted;
}

const GOOD = ["ccccc ccccd", "ccccc ccccc", "ccccd ccccc", "ccccc ccccc", "ccccc cdccc", "ccccc ccccc"];
const POOR = ["dcddc ddccd", "ddcdc dcddd", "cddcd ddcdd"];

test("the day of the slide, the rates before and since, and the first step", async () => {
  const { change, judged, next, firstTry, later } = await answersOf(seasonWith([...GOOD, ...POOR]));
  expect(change).toMatchObject({ change: "slid", told: { since: firstDay + 6, before: { caught: 57, attempts: 60 } } });
  expect(judged.status).toBe("At risk");
  // Nine first tries: six caught and one; the others of the same days.
  expect([firstTry?.caught, firstTry?.attempts, later?.attempts]).toEqual([7, 9, 81]);
  expect(next).toBe("five running");
});

test.each<readonly [string, readonly string[], NextStep]>([
  ["nothing fails", GOOD, "keep warm"],
  ["two bails end it, whatever else there is", [...GOOD, ...POOR, "cbb"], "stop"],
  ["five are running, and its neighbours come next", [...GOOD, ...POOR, "ccccc"], "neighbours"],
  ["never Ready yet", ["ccdcd cddcc"], "log more"],
])("what next: %s", async (_, days, next) => {
  expect((await answersOf(seasonWith(days))).next).toBe(next);
});

test("of two entrances the better one, compared on the days on which both were tried, by the columns' headings", async () => {
  const host = seasonWith(["ccdcd"]);
  const table = host.table("Practice_2027");
  // Another order of the columns than a new season has.
  const order = [9, 8, 7, 6, 5, 4, 3, 2, 1, 0];
  table.headings = order.map((at) => table.headings[at] ?? "");
  table.rows = table.rows.map((row) => order.map((at) => row[at] ?? ""));
  for (let day = 1; day <= 4; day += 1) {
    for (const [entrance, marks] of [
      ["Walk", "dcddc ddcdd"],
      ["Spin", "ccccc ccccd"],
    ] as const) {
      const row = [firstDay + day, "M.K.", TRICK, "Joined", marks, "", entrance, "", "", ""];
      table.rows.push(order.map((at) => row[at] ?? ""));
    }
  }
  const { entrances, exits } = await answersOf(host);
  expect(told(entrances).map(({ way, attempts, caught }) => [way, attempts, caught])).toEqual([
    ["Spin", 40, 36],
    ["Walk", 40, 12],
    ["(not noted)", 5, 3],
  ]);
  expect(told(entrances)[1]?.verdict).toBe("worse");
  expect(exits).toEqual([]);
});

test("a condition, over all tricks of this athlete and nobody else's, each compared with itself", async () => {
  const host = seasonWith(["ccccc ccccc", "ccccc ccccd"]);
  const rows = host.table("Practice_2027").rows;
  const set = (athlete: string, trick: string, stage: string, marks: string, condition: string): CellValue[] =>
    [firstDay + 3, athlete, trick, stage, marks, "", "", "", condition, ""]; // prettier-ignore
  rows.push(
    set("M.K.", TRICK, "Joined", "cccdd ccddd", "left hand"),
    set("M.K.", "Thumb toss", "Joined", "ccccc ccccc", ""),
    set("M.K.", "Thumb toss", "Joined", "ccddd ccddd", "Left hand; tired"),
    // Practised apart, and somebody else's.
    set("M.K.", TRICK, "Body only", "ddddd ddddd", "left hand"),
    set("A.R.", TRICK, "Joined", "ddddd ddddd", "left hand"),
  );
  const { conditions } = await answersOf(host);
  expect(
    told(conditions).map(({ condition, attempts, caught, verdict }) => [condition, attempts, caught, verdict]),
  ).toEqual([
    ["left hand", 20, 9, "worse"],
    ["tired", 10, 4, "worse"],
  ]);
  const answer = answerFor(await readPictures(host, "2027"), { kind: "failing", athlete: "M.K.", trick: TRICK }, 600);
  // By hand: 5 of 10 against 19 of 20, weight 20/3; 4 of 10 against 10 of 10, weight 5: minus 51.4 %.
  expect(answer).toHaveProperty(
    "picture.sentences",
    expect.arrayContaining([
      expect.stringMatching(
        /^Conditions, over all tricks of this athlete: “left hand” 9 of 20: 51\s% fewer are caught than of the same tricks without it\. “tired” 4 of 10: /,
      ),
    ]),
  );
});

test("entrances that are all different words are told as that, and everything else is answered", async () => {
  const host = seasonWith(GOOD);
  for (let word = 0; word <= 200; word += 1) {
    const day = firstDay + 10 + (word % 20);
    const remark = `remark ${String(word)}`;
    host.table("Practice_2027").rows.push([day, "M.K.", TRICK, "Joined", "ccccd", "", remark, "", remark, ""]);
  }
  const { entrances, exits, conditions, judged } = await answersOf(host);
  expect([entrances, conditions]).toEqual([expect.any(Problem), expect.any(Problem)]);
  expect(told(exits)).toEqual([]);
  expect(judged.lastSet.attempts).toBe(10);
  const answer = answerFor(await readPictures(host, "2027"), { kind: "failing", athlete: "M.K.", trick: TRICK }, 600);
  expect(answer).toHaveProperty(
    "picture.sentences",
    expect.arrayContaining([expect.stringContaining("so many different words that nothing can be compared")]),
  );
});

test("a trick that is out is counted from its day, and may come back once nothing is left", async () => {
  const host = seasonWith([...GOOD, ...POOR]);
  const out = firstDay + 20;
  host.table("Swaps_2027").rows.push(["M.K.", TRICK, "Thumb toss", out, ""]);
  const set = (day: number, stage: string, marks: string): CellValue[] =>
    [out + day, "M.K.", TRICK, stage, marks, "", "", "", "", ""]; // prettier-ignore
  host.table("Practice_2027").rows.push(set(0, "Body only", "ccccc"), set(1, "Toss only", "ccdcc"));
  const before = await answersOf(host);
  expect([before.outSince, before.next, firstLeft(before.stages)?.stage]).toEqual([out, "retrain", "Toss only"]);
  host
    .table("Practice_2027")
    .rows.push(
      set(2, "Toss only", "ccccc"),
      set(2, "Wall", "ccccc"),
      ...[3, 4, 5].map((day) => set(day, "Joined", "ccccc ccccc")),
      set(6, "In context", "ccccc"),
      set(7, "Run-through", "ccccc"),
    );
  const after = await answersOf(host);
  expect([after.next, firstLeft(after.stages)]).toEqual(["back in", undefined]);
  // Back again by its day: nothing is counted apart any more.
  host
    .table("Swaps_2027")
    .rows.at(-1)
    ?.splice(4, 1, out + 8);
  expect((await answersOf(host)).outSince).toBeUndefined();
});

test("a season from before there were swaps and entrances is answered all the same", async () => {
  const host = seasonWith([...GOOD, ...POOR]);
  const table = host.table("Practice_2027");
  for (const row of [table.headings, ...table.rows]) row.splice(6, 3);
  host.tables.splice(
    host.tables.findIndex(({ name }) => name === "Swaps_2027"),
    1,
  );
  const { change, entrances, outSince } = await answersOf(host);
  expect([change?.change, entrances, outSince]).toEqual(["slid", [], undefined]);
});
