/** @jest-environment jsdom */
import { picturesPart } from "../../../../src/taskpane/parts/pictures/pictures-part";
import { mountParts } from "../../../../src/taskpane/frame/pane";
import { texts } from "../../../../src/taskpane/words/texts";
import { memoryDrafts } from "../../memory-drafts";
import { memoryHost, type MemoryHost } from "../../memory-host";
import { withAnswers } from "../../season-with-answers";
import { firstDay, practised, smallSeason, usualPractice } from "../../small-season";

let root: HTMLElement;
let drafts = memoryDrafts();

beforeEach(() => {
  drafts = memoryDrafts();
});

const settled = (): Promise<void> => new Promise((resolve) => setTimeout(() => setTimeout(resolve, 10), 10));
async function open(host: MemoryHost): Promise<void> {
  root = document.createElement("main");
  document.body.replaceChildren(root);
  mountParts(root, host, [picturesPart], drafts);
  await settled();
}
const select = (key: string): HTMLSelectElement => root.querySelector(`#twirl-pictures-${key}`) as HTMLSelectElement;
const options = (key: string): readonly string[] => [...select(key).options].map(({ value }) => value);
const choose = (key: string, value: string): void => {
  select(key).value = value;
  select(key).dispatchEvent(new Event("change"));
};
const look = (kind: string): void => {
  const input = root.querySelector(`#twirl-picture-${kind}`) as HTMLInputElement;
  input.checked = true;
  input.dispatchEvent(new Event("change"));
};
const title = (): string | undefined => root.querySelector("figure h3")?.textContent ?? undefined;
const said = (): string => root.querySelector('[role="status"]')?.textContent ?? "";

const fullSeason = (): MemoryHost => withAnswers(memoryHost([smallSeason()]));

test("the record of the latest practised athlete and trick, of those that have one", async () => {
  await open(fullSeason());
  expect(options("athlete")).toEqual(["A.R.", "M.K."]);
  expect(title()).toBe("A trick’s record: A.R., Double turn");
  choose("athlete", "M.K.");
  expect(title()).toBe("A trick’s record: M.K., Double turn");
  // The set at the wall is practised apart, and in no record.
  expect(root.querySelectorAll("tbody tr")).toHaveLength(2);
  expect(root.querySelector("figcaption")?.textContent).toContain("Spring cup");
  expect(said()).toBe(title());
});

test("each picture offers what it has something to show of", async () => {
  await open(fullSeason());
  look("landings");
  expect([options("athlete"), options("trick")]).toEqual([["A.R."], ["Thumb toss"]]);
  expect(root.querySelectorAll("tbody tr")).toHaveLength(1);
  look("routine");
  expect(options("athlete")).toEqual(["M.K.", "A.R.", "J.T."]);
  expect(select("trick").closest(".twirl-field")?.hasAttribute("hidden")).toBe(true);
  expect([...root.querySelectorAll("tbody tr th + td")].map(({ textContent }) => textContent)).toEqual([
    "Double turn",
    "Walk",
    "Pose",
  ]);
  expect(root.querySelector("figcaption")?.textContent).toContain(texts.routineNoCounts(1));
  look("toss");
  expect(options("trick")).toEqual(["Double turn"]);
  expect(root.querySelector(".twirl-care")?.textContent).toBe(texts.tossFits["ceiling not known"]);
});

test("what was looked at is looked at again, and the open table stays open", async () => {
  const host = fullSeason();
  await open(host);
  look("toss");
  await open(host);
  expect(title()).toBe("A toss and the ceiling: Double turn");
  const details = root.querySelector("details") as HTMLDetailsElement;
  details.open = true;
  look("routine");
  expect(root.querySelector("details")?.open).toBe(true);
});

test("coming back from the sheet draws anew what has changed, and leaves alone what has not", async () => {
  const host = fullSeason();
  await open(host);
  const drawn = root.querySelector("figure");
  const comeBack = async (): Promise<void> => {
    select("trick").dispatchEvent(new FocusEvent("focusin", { bubbles: true }));
    await settled();
  };
  await comeBack();
  // The same element: a press that has begun on it still ends on it.
  expect(root.querySelector("figure")).toBe(drawn);
  host.table("Practice_2027").rows.push([firstDay + 9, "A.R.", "Double turn", "Joined", "ddddd", "", ""]);
  await comeBack();
  expect(root.querySelectorAll("tbody tr")).toHaveLength(2);
});

test("each picture that has nothing to show says what to do", async () => {
  await open(memoryHost([smallSeason("2027", [])]));
  expect(said()).toBe(texts.recordNothing);
  expect(root.querySelector(".twirl-actions button")?.textContent).toBe(texts.logSetTitle);
  for (const [kind, words] of [
    ["landings", texts.landingsNothing],
    ["routine", texts.routineNothing],
    ["toss", texts.tossNothing],
  ] as const) {
    look(kind);
    expect([kind, said()]).toEqual([kind, words]);
    expect(root.querySelector("figure")).toBeNull();
  }
});

test("without a season it leads to building one, and a workbook that cannot be read says why", async () => {
  await open(memoryHost());
  expect(said()).toBe(texts.picturesNoSeason);
  expect(root.querySelector(".twirl-actions button")?.textContent).toBe(texts.goToNewSeason);
  await open(memoryHost([], { namesInUse: () => Promise.reject(new Error(texts.hostBusy)) }));
  expect(said()).toBe(texts.picturesNotRead(texts.hostBusy));
});

test("what could not be read once is drawn when it can be read again", async () => {
  const host = fullSeason();
  await open(host);
  const { namesInUse } = host;
  const comeBack = async (): Promise<void> => {
    select("trick").dispatchEvent(new FocusEvent("focusin", { bubbles: true }));
    await settled();
  };
  host.namesInUse = () => Promise.reject(new Error(texts.hostBusy));
  await comeBack();
  expect(said()).toBe(texts.picturesNotRead(texts.hostBusy));
  host.namesInUse = namesInUse;
  await comeBack();
  expect(title()).toBe("A trick’s record: A.R., Double turn");
});

test("a row that cannot be read is told with its place, and every picture is there", async () => {
  const host = fullSeason();
  host.table("Practice_2027").rows.push([firstDay + 9, "A.R.", "Double turn", "Joined", "maybe", "", ""]);
  await open(host);
  expect(title()).toContain("A.R., Double turn");
  expect(document.querySelector(".twirl-left-out:not([hidden]) li")?.textContent).toMatch(
    /^Practice 2027!E9 – Marks: found/,
  );
  look("toss");
  expect(title()).toContain("Double turn");
});

test("two bails in the last set bring their caution, and one does not", async () => {
  const withSet = async (marks: string): Promise<string | undefined> => {
    await open(memoryHost([smallSeason("2027", [...usualPractice, practised("M.K.", "Thumb toss", "Joined", marks)])]));
    choose("athlete", "M.K.");
    choose("trick", "Thumb toss");
    return root.querySelector(".twirl-care")?.textContent;
  };
  expect(await withSet("ccccc cccbb")).toBe(texts.bailCaution);
  expect(await withSet("ccccc ccccb")).toBeUndefined();
});

test("a table that was deleted counts as empty", async () => {
  const host = fullSeason();
  host.tables.splice(
    host.tables.findIndex(({ name }) => name === "Landings_2027"),
    1,
  );
  await open(host);
  expect(title()).toContain("Double turn");
  look("landings");
  expect(said()).toBe(texts.landingsNothing);
});

test("a trick called as markup is text", async () => {
  await open(memoryHost([smallSeason("2027", [practised("M.K.", "<b>Flat</b>", "Joined", "ccc")])]));
  expect(title()).toBe("A trick’s record: M.K., <b>Flat</b>");
  expect(root.querySelector("b")).toBeNull();
});

test("a row that is typed into the log is in the picture without a touch of the pane", async () => {
  const host = fullSeason();
  await open(host);
  choose("athlete", "M.K.");
  host.table("Practice_2027").rows.push([firstDay + 3, "M.K.", "Double turn", "Joined", "ccccc ccccc", "", ""]);
  await host.change();
  expect(root.querySelectorAll("tbody tr")).toHaveLength(3);
});

test("another season's sheet in view brings its pictures", async () => {
  const host = withAnswers(memoryHost([smallSeason("2026"), smallSeason("2027")]));
  host.selected = { sheet: "Board 2026", block: { row: 1, column: 1, rows: 1, columns: 1 } };
  await open(host);
  expect(select("season").value).toBe("2026");
  host.selected = { ...host.selected, sheet: "Practice 2027" };
  await host.change();
  expect(select("season").value).toBe("2027");
});
