/** @jest-environment jsdom */
import { handOutPart } from "../../../../src/taskpane/parts/hand-out/hand-out-part";
import { mountParts } from "../../../../src/taskpane/frame/pane";
import { serialOfDay } from "../../../../src/taskpane/words/day";
import { texts } from "../../../../src/taskpane/words/texts";
import { boxes } from "../../../../src/workbook/season/gym-sheet";
import { memoryDrafts } from "../../memory-drafts";
import { memoryHost, type MemoryHost } from "../../memory-host";
import { smallSeason } from "../../small-season";

const settled = (): Promise<void> => new Promise((resolve) => setTimeout(() => setTimeout(resolve, 30), 10));
const GYM = "Gym 2027";
const TODAY = serialOfDay(new Date());
let root: HTMLElement;
let host: MemoryHost;

beforeEach(async () => {
  host = memoryHost([smallSeason("2027")]);
  root = document.createElement("main");
  document.body.replaceChildren(root);
  mountParts(root, host, [handOutPart], memoryDrafts());
  await settled();
});

async function press(words: string): Promise<string> {
  const button = [...root.querySelectorAll("button")].find(({ textContent }) => textContent === words);
  button?.closest("form")?.requestSubmit();
  await settled();
  await host.change();
  return root.querySelector("[aria-labelledby=twirl-gym-title] [role=status]")?.textContent ?? "";
}

const type = (row: number, column: number, value: string | number): unknown =>
  host.cells.set(`${GYM} ${String(row)},${String(column)}`, value);
const log = () => host.table("Practice_2027").rows.slice(4);
const faults = (): (string | null)[] =>
  [...root.querySelectorAll("[aria-labelledby=twirl-gym-title] li")].map(({ textContent }) => textContent);

test("ten boxes are two fives", () => {
  expect([boxes(10), boxes(5), boxes(12), boxes(1)]).toEqual(["□□□□□ □□□□□", "□□□□□", "□□□□□ □□□□□ □□", "□"]);
});

test("the sheet has each athlete's planned tricks and a free line, with boxes for each planned set", async () => {
  expect(await press(texts.gymMake)).toBe(texts.gymMade(GYM));
  const cell = (row: number, column: number) => host.cells.get(`${GYM} ${String(row)},${String(column)}`) ?? "";
  expect(cell(3, 2)).toBe(TODAY);
  const lines = Array.from({ length: 5 }, (_, index) => [1, 2, 3, 4, 5].map((column) => cell(6 + index, column)));
  const set = boxes(10);
  // Only M.K. and A.R. have logged something: three sets of one trick are the most.
  expect(lines).toEqual([
    ["M.K.", "Double turn", set, set, set],
    ["M.K.", "", set, set, set],
    ["A.R.", "Double turn", set, set, set],
    ["A.R.", "", set, set, set],
    ["J.T.", "", set, set, set],
  ]);
});

test("marks typed over the boxes go into the log, set by set, once", async () => {
  await press(texts.gymMake);
  expect(await press(texts.gymTake)).toBe(texts.gymNothing(GYM));
  type(3, 2, 46100);
  type(6, 3, "ccdcc ccccd");
  type(6, 4, "ccc□□ □□□□□");
  type(6, 6, 12);
  type(6, 7, "wind");
  type(10, 2, "Thumb toss");
  type(10, 4, "8/10");
  expect(await press(texts.gymTake)).toBe("3 sets are in the log.");
  expect(log()).toEqual([
    [46100, "M.K.", "Double turn", "Joined", "ccdcc ccccd", 12, "", "", "", "wind"],
    [46100, "M.K.", "Double turn", "Joined", "ccc", "", "", "", "", ""],
    [46100, "J.T.", "Thumb toss", "Joined", "8/10", "", "", "", "", ""],
  ]);
  expect(await press(texts.gymTake)).toBe("0 sets are in the log. 3 were there already.");
  // The same marks twice are two sets.
  type(6, 5, "CCDCCCCCCD");
  expect(await press(texts.gymTake)).toBe("1 set is in the log. 3 were there already.");
  expect(log()).toHaveLength(4);
});

test("while a cell cannot be read nothing is logged, and every such cell is told", async () => {
  await press(texts.gymMake);
  type(3, 2, "last Tuesday");
  type(6, 3, "ccccc ccccc");
  type(6, 4, "ccxcc");
  type(8, 6, "ten");
  type(10, 3, "ccccc");
  expect(await press(texts.gymTake)).toBe(texts.gymFaults(4));
  expect(log()).toEqual([]);
  expect(faults()).toEqual([
    expect.stringMatching(/^Gym 2027!B3: .*last Tuesday/),
    expect.stringMatching(/^Gym 2027!F8: .*ten/),
    expect.stringMatching(/^Gym 2027!D6: .*ccxcc/),
    expect.stringMatching(/^Gym 2027!C10: /),
  ]);
});

test("what was taken before it stopped is passed over the next time", async () => {
  await press(texts.gymMake);
  type(6, 3, "ccccc");
  type(6, 4, "ccccd");
  const append = host.appendRow.bind(host);
  let calls = 0;
  host.appendRow = (table, cells) =>
    ++calls === 2 ? Promise.reject(new Error("The sheet is protected.")) : append(table, cells);
  expect(await press(texts.gymTake)).toContain("1 of 2 sets are in the log, then it stopped: The sheet is protected.");
  expect(await press(texts.gymTake)).toBe("1 set is in the log. 1 was there already.");
  expect(log().map((row) => row[4])).toEqual(["ccccc", "ccccd"]);
});
