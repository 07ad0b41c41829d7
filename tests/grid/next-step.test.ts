/**
 * What to do next with a trick that fails stands twice: in the formulas of the sheet Trick, so that it prints and lives in
 * the workbook, and in the pane. Here both are asked about the same seasons. And the sheet's lists have room.
 */
import { calculate, type HeadlessSheet } from "../../src/grid/headless";
import { failingAnswers, type NextStep } from "../../src/taskpane/parts/pictures/failing-answers";
import { readPictures } from "../../src/taskpane/parts/pictures/picture-data";
import { builtFunctions } from "../../src/tools/build-samples";
import type { PracticeEntry, SwapEntry } from "../../src/workbook/season/records";
import { defaultSettings, noRecords, seasonPlan } from "../../src/workbook/season/season";
import type { WorkbookPlan } from "../../src/workbook/plan/schema";
import { memoryHost } from "../taskpane/memory-host";
import { firstDay, practised } from "../taskpane/small-season";
import { reader } from "./plain-values";

jest.setTimeout(300_000);

const [ATHLETE, TRICK] = ["M.K.", "Double turn"] as const;

function season(practice: readonly PracticeEntry[], swaps: readonly SwapEntry[] = []): WorkbookPlan {
  const settings = {
    ...defaultSettings,
    label: "2027",
    athletes: [ATHLETE, "A.R."],
    tricks: [TRICK, "Thumb toss"].map((name) => ({ name, bodyCounts: 2 })),
  };
  return seasonPlan(settings, { ...noRecords, practice, swaps });
}

async function trickSheet(plan: WorkbookPlan): Promise<{ at: (address: string) => string; page: HeadlessSheet }> {
  const page = (await calculate(plan, builtFunctions())).get("Trick 2027");
  if (!page) throw new Error("The sheet was not worked out.");
  const valueAt = reader(page);
  return { at: (address) => String(valueAt(address)), page };
}

const set = (day: number, marks: string, more: Partial<PracticeEntry> = {}): PracticeEntry => ({
  ...practised(ATHLETE, TRICK, "Joined", marks, firstDay + day),
  ...more,
});
const days = (marks: readonly string[]): PracticeEntry[] => marks.map((one, day) => set(day, one));

const GOOD = ["ccccc ccccd", "ccccc ccccc", "ccccd ccccc", "ccccc ccccc", "ccccc cdccc", "ccccc ccccc"];
const POOR = ["dcddc ddccd", "ddcdc dcddd", "cddcd ddcdd"];
const SLID = days([...GOOD, ...POOR]);
const RUNNING = set(20, "ccccc");
const NEIGHBOURS = set(21, "ccccc", { stage: "In context" });
const ENTRANCES = Array.from({ length: 4 }, (_, day) => [
  set(10 + day, "dddcd ddddd", { entrance: "Walk" }),
  set(10 + day, "ccccd ccccc", { entrance: "Spin" }),
  set(10 + day, "dddcd dddcd", { entrance: "Walk" }),
]).flat();
const OUT: SwapEntry = { athlete: ATHLETE, out: TRICK, in: "Thumb toss", day: firstDay + 30, back: null };
const RETRAINED = (["Body only", "Toss only", "Wall", "Joined", "In context", "Run-through"] as const).flatMap(
  (stage) => [0, 1, 2].map((day) => set(30 + day, "ccccc ccccc", { stage })),
);

/** How the sheet begins the same. */
const WORDS: Readonly<Record<NextStep, RegExp>> = {
  stop: /^Two bails: /,
  "keep warm": /^It holds: /,
  "log more": /^(?!\d|It holds|Two bails)./,
  "five running": /^1 {2}Five running: /,
  neighbours: /^2 {2}Between its neighbours: /,
  "better way": /^3 {2}Another way in or out: /,
  "safer trick": /^4 {2}A safer trick: /,
  retrain: /^5 {2}Retrain: /,
  "back in": /^6 {2}Back in: /,
};

describe("the pane and the sheet Trick name the same step", () => {
  test.each<readonly [string, NextStep, readonly PracticeEntry[], readonly SwapEntry[]]>([
    ["it holds", "keep warm", days(GOOD), []],
    ["never Ready yet", "log more", days(["ccdcd cddcc"]), []],
    ["one bail is not two", "five running", [...SLID, set(12, "cb")], []],
    ["two bails in the last set", "stop", [...SLID, set(12, "cbb")], []],
    ["two bails, even where it is out", "stop", [...SLID, set(31, "bb")], [OUT]],
    ["two bails before the last set", "five running", [...SLID, set(12, "ccbb"), set(13, "cdcdc dcdcd")], []],
    ["four running", "five running", [...SLID, set(12, "dcccc")], []],
    ["five running", "neighbours", [...SLID, set(12, "ccccc")], []],
    ["nothing logged since it was taken out", "retrain", SLID, [OUT]],
    ["body and toss first", "retrain", [...SLID, set(31, "ccccc", { stage: "Body only" })], [OUT]],
    ["out, and every stage done since", "back in", [...SLID, ...RETRAINED], [OUT]],
    ["back in, and counted as a whole again", "five running", SLID, [{ ...OUT, back: firstDay + 40 }]],
    ["an entrance that is better", "better way", [...SLID, ...ENTRANCES, RUNNING, NEIGHBOURS], []],
    ["no way is better", "safer trick", [...SLID, RUNNING, NEIGHBOURS], []],
  ])("%s: %s", async (_, step, practice, swaps) => {
    const plan = season(practice, swaps);
    const { next } = failingAnswers(await readPictures(memoryHost([plan]), "2027"), ATHLETE, TRICK);
    const { at } = await trickSheet(plan);
    expect([next, at("B36")]).toEqual([step, expect.stringMatching(WORDS[step])]);
  });
});

describe("a page of many words", () => {
  // The first is the most tried, and the one that is better the least.
  const ways = Array.from({ length: 14 }, (_, index) => `Way ${String(1 + index)}`);
  const tried = ways.flatMap((entrance, index) =>
    Array.from({ length: 20 - index }, (_, day) =>
      set(day, index === 13 ? "ccccc ccccc" : "dcddc ddccd", { entrance, exit: `${entrance} out` }),
    ),
  );
  const wrong = Array.from({ length: 12 }, (_, day) => set(day, "cczcc"));

  test("shows the ten ways most tried, says how many more there are, and finds the better one among all", async () => {
    const { at, page } = await trickSheet(season([...tried, ...wrong]));
    expect([...page.values].filter(([, value]) => value.kind === "error")).toEqual([]);
    const shown = (first: number): string[] => ways.slice(0, 10).map((_, row) => at(`A${String(first + row)}`));
    expect(shown(64)).toEqual(ways.slice(0, 10));
    expect(shown(77)).toEqual(ways.slice(0, 10).map((way) => `${way} out`));
    // Twelve rows of marks that nobody can read stand below the ways, told one by one or as so many more.
    expect(at("G62")).toMatch(/^and \d+ more, to the right of the page$/);
    expect(ways.map((_, row) => at(`AJ${String(7 + row)}`))).toEqual(ways);
    expect(at("AT20")).toBe("better");
    expect(at("B32")).toBe("Entrance Way 14 is caught more often than the usual one: take it.");
    expect(at("B17")).toMatch(/ 12 rows do not count: /);
  });

  test("says nothing of more where all stand on the page", async () => {
    const { at } = await trickSheet(season(tried.filter(({ entrance }) => ways.indexOf(entrance ?? "") < 10)));
    expect([at("G62"), at("G75"), at("A73"), at("A74")]).toEqual(["", "", "Way 10", ""]);
  });

  test("says on the page when the log has more rows of the trick than it reads", async () => {
    const rows = (count: number): PracticeEntry[] => Array.from({ length: count }, (_, row) => set(row % 200, "c"));
    expect((await trickSheet(season(rows(1000)))).at("A5")).toBe("");
    const { at } = await trickSheet(season(rows(1001)));
    expect(at("A5")).toMatch(/^This trick has 1001 rows in the log, and only the first 1000 of them are read/);
    expect([at("B8"), at("V3")]).toEqual(["1000", "1001"]);
  });
});
