/** What the pane answers about a trick that fails; the figures behind it are held by the tests of the core. */
import { failingAnswers, firstLeft, type NextStep } from "../../../../src/taskpane/parts/pictures/failing-answers";
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
  expect(entrances.map(({ way, attempts, caught }) => [way, attempts, caught])).toEqual([
    ["Spin", 40, 36],
    ["Walk", 40, 12],
    ["(not noted)", 5, 3],
  ]);
  expect(entrances[1]?.verdict).toBe("worse");
  expect(exits).toEqual([]);
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
