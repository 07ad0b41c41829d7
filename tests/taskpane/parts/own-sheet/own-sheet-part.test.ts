/** @jest-environment jsdom */
import { mountParts } from "../../../../src/taskpane/frame/pane";
import type { WorkbookHost } from "../../../../src/taskpane/host/host";
import { memoryHost } from "../../memory-host";
import { ownSheetPart } from "../../../../src/taskpane/parts/own-sheet/own-sheet-part";
import type { ReadLog, Repairs } from "../../../../src/taskpane/host/own-sheet-host";
import { browserDrafts } from "../../../../src/taskpane/host/storage";
import { texts } from "../../../../src/taskpane/words/texts";
import { printFormula } from "../../../../src/workbook/plan/formula";
import type { WorkbookPlan } from "../../../../src/workbook/plan/schema";
import { layouts } from "../../../core/log-layout/layouts";
import { day, sheet } from "../../../core/log-layout/sheets";
import { fakeOwnSheet, messyLog, nothingRepaired, type FakeOwnSheet } from "./own-sheet-fakes";

interface FakeHost extends WorkbookHost {
  readonly plans: WorkbookPlan[];
  readonly visited: string[];
}

let root: HTMLElement;

beforeEach(() => {
  Element.prototype.scrollIntoView = () => undefined;
  root = document.createElement("main");
  document.body.replaceChildren(root);
});

function mount(
  log: ReadLog = messyLog,
  changes: Partial<WorkbookHost> = {},
  repairs: Repairs = nothingRepaired,
): FakeHost {
  const own: FakeOwnSheet = fakeOwnSheet(log, repairs);
  const host: FakeHost = {
    ...memoryHost([]),
    plans: [],
    ...own,
    namesInUse: () => {
      const sheets = host.plans.flatMap((plan) => plan.sheets.map(({ name }) => name));
      return Promise.resolve({ sheets: [log.sheet, ...sheets], tables: [] });
    },
    addSheets: (plan) => {
      host.plans.push(plan);
      return Promise.resolve();
    },
    insertFormula: () => Promise.resolve("A1"),
    ...changes,
  };
  mountParts(root, host, [ownSheetPart], browserDrafts());
  return host;
}

/** Twice: on a busy machine what is begun in a later turn would else come after the wait for it. */
const settled = (): Promise<void> => new Promise((resolve) => setTimeout(() => setTimeout(resolve, 5), 5));

const button = (name: string): HTMLButtonElement => {
  const found = [...root.querySelectorAll("button")].find((each) => each.textContent === name);
  if (!found) throw new Error(`No button ${name}`);
  return found;
};

/** A control by the words of its label. */
function control<Control extends HTMLElement = HTMLSelectElement>(words: string): Control {
  const label = [...root.querySelectorAll("label")].find((each) => each.textContent?.startsWith(words));
  const found = label?.querySelector("input") ?? document.getElementById(label?.getAttribute("for") ?? "");
  if (!found) throw new Error(`No control ${words}`);
  return found as unknown as Control;
}

function choose(words: string, start: string): void {
  const select = control(words);
  const option = [...select.options].find(({ textContent }) => textContent?.startsWith(start));
  if (!option)
    throw new Error(`${words} has no ${start}, but ${[...select.options].map((one) => one.text).join(" | ")}`);
  select.value = option.value;
  select.dispatchEvent(new Event("change", { bubbles: true }));
}

function tick(words: string): void {
  control<HTMLInputElement>(words).click();
}

const chosen = (words: string): string => control(words).selectedOptions[0]?.textContent ?? "";

const spoken = (): string =>
  [...root.querySelectorAll<HTMLElement>('[role="status"]')].map((region) => region.textContent).join(" ");

async function read(): Promise<void> {
  button(texts.ownSheetRead).click();
  await settled();
}

async function put(): Promise<void> {
  button(texts.ownSheetPut).click();
  await settled();
}

const visible = (words: string): boolean => control<HTMLElement>(words).closest("[hidden]") === null;

test("shows each column that was found, by its heading and its first values", async () => {
  mount();
  await read();
  expect(chosen(texts.ownSheetHeadingRow)).toBe("Row 3: Day, Who, What, How");
  expect(chosen(texts.ownSheetDate)).toMatch(/^A Day: 1\.3\.2026, 02\/03\/2026/);
  expect(chosen(texts.athleteLabel)).toBe("B Who: M.K., A.R., J.T.");
  expect(chosen(texts.trickLabel)).toBe("C What: Double turn, Illusion");
  expect(chosen(texts.stageLabel)).toBe("D How: together, toss alone");
  expect(chosen(texts.ownSheetAttempts)).toBe(texts.ownSheetManyMarks);
  expect(chosen(texts.ownSheetFirstMarks)).toMatch(/^E T1/);
  expect(chosen(texts.ownSheetLastMarks)).toMatch(/^G T3/);
  expect(visible(texts.ownSheetCaught)).toBe(false);
  // The reader is brought to what was found.
  expect(document.activeElement?.textContent).toBe(texts.ownSheetWhere("Our log", 4, 34));
});

test("lists the cells that cannot be read, and goes to one", async () => {
  const host = mount();
  await read();
  const listed = [...root.querySelectorAll(".twirl-cells li")].map(({ textContent }) => textContent ?? "");
  // Six days as text, sick, a tally turned into a day, a missing name.
  expect([...root.querySelectorAll(".twirl-cells button")].map(({ textContent }) => textContent)).toEqual([
    "A4",
    "A9",
    "G11",
    "G13",
    "A14",
    "A19",
    "A24",
    "A29",
    "B34",
  ]);
  expect(listed[2]).toMatch(/Found the text "sick"\. Would be read: only the marks of the key/);
  expect(root.textContent).toContain(texts.ownSheetTurned(1));
  expect(root.textContent).toContain(texts.ownSheetUnknownMarks("sick (1 times)"));
  const cell = [...root.querySelectorAll("button")].find((each) => each.getAttribute("aria-label") === "Go to G11");
  cell?.click();
  expect(host.visited).toEqual(["Our log 11,7"]);
});

test("puts no board before it is known what the marks mean, and leads there", async () => {
  const host = mount();
  await read();
  await put();
  expect(host.plans).toEqual([]);
  expect(spoken()).toContain(texts.ownSheetKeyMissing);
  expect((document.activeElement as HTMLInputElement | null)?.name).toBe("twirl-own-key");

  tick(texts.ownSheetKeyTwo("o", "x"));
  await put();
  expect(host.plans.length).toBe(1);
  expect(spoken()).toContain(texts.ownSheetDone("Board (Our log)"));
  const formulas = host.plans[0]?.sheets[0]?.cells.flatMap(({ content }) =>
    content.kind === "formula" ? [printFormula(content.formula, "sheet")] : [],
  );
  expect(formulas?.find((formula) => formula.includes("TWIRL.BOARD("))).toContain('"o/x"');
});

test("the days as text are read once their order is said, and what is practised apart can be changed", async () => {
  const host = mount();
  await read();
  choose(texts.ownSheetTextDays, "day first");
  expect(root.querySelectorAll(".twirl-cells li").length).toBe(3);
  expect(chosen(texts.ownSheetTextDays)).toMatch(/^day first/);
  expect(control<HTMLInputElement>("toss alone").checked).toBe(true);
  tick("toss alone");
  tick("together");
  tick(texts.ownSheetKeyTwo("x", "o"));
  // What was ticked stays, whatever else is said.
  expect([control<HTMLInputElement>("toss alone").checked, control<HTMLInputElement>("together").checked]).toEqual([
    false,
    true,
  ]);
  await put();
  const words = host.plans[0]?.sheets[0]?.cells.flatMap(({ content }) =>
    content.kind === "text" ? [content.text] : [],
  );
  expect(words).toContain("together");
  expect(words).not.toContain("toss alone");
});

test("a correction holds, and the rest is found around it", async () => {
  const host = mount();
  await read();
  choose(texts.trickLabel, "H Remarks");
  expect(chosen(texts.trickLabel)).toMatch(/^H Remarks/);
  expect(document.getElementById("twirl-own-trick-hint")?.textContent).toBe(texts.ownSheetCorrected);
  choose(texts.trickLabel, "C What");
  choose(texts.stageLabel, texts.ownSheetNoColumn);
  expect(root.textContent).not.toContain(texts.ownSheetStagesApart);
  choose(texts.athleteLabel, texts.ownSheetOneForAll);
  expect(document.activeElement).toBe(control<HTMLInputElement>(texts.ownSheetAthleteForAll));
  tick(texts.ownSheetKeyTwo("x", "o"));
  await put();
  expect(spoken()).toContain(texts.ownSheetMissing(texts.athleteLabel));
  expect(host.plans).toEqual([]);
  const name = control<HTMLInputElement>(texts.ownSheetAthleteForAll);
  name.value = "M.K.";
  name.dispatchEvent(new Event("input", { bubbles: true }));
  await put();
  expect(host.plans.length).toBe(1);
});

test("attempts as numbers: the columns that the kind needs, and no board without them", async () => {
  const host = mount();
  await read();
  choose(texts.ownSheetAttempts, texts.ownSheetCaughtDropped);
  expect(
    [texts.ownSheetCaught, texts.ownSheetDropped, texts.ownSheetTried, texts.ownSheetFirstMarks].map(visible),
  ).toEqual([true, true, false, false]);
  await put();
  expect(spoken()).toContain(texts.ownSheetMissing(texts.ownSheetAttempts));
  choose(texts.ownSheetCaught, "E T1");
  choose(texts.ownSheetDropped, "F T2");
  // Crosses and rounds are no numbers: a board of nothing is not put, and it is said why.
  await put();
  expect(host.plans).toEqual([]);
  expect(spoken()).toContain(texts.ownSheetNothingRead(31));
});

test("attempts that are not found are never called readable", async () => {
  mount({
    sheet: "Log",
    table: null,
    block: sheet("A1", [
      ["Date", "Athlete", "Trick", "Note"],
      ...Array.from({ length: 6 }, (_, index) => [day(`2026-03-0${String(index + 1)}`), "M.K.", "Illusion", "well"]),
    ]),
  });
  await read();
  expect(spoken()).toContain(texts.ownSheetNotAllFound(texts.ownSheetAttempts));
  expect(root.textContent).not.toContain(texts.ownSheetRows(6, 6));
});

test("the log that is read next begins without the choices that were made for the one before", async () => {
  let log = messyLog;
  mount(messyLog, { readLog: () => Promise.resolve(log) });
  await read();
  choose(texts.ownSheetAttempts, texts.ownSheetCaughtDropped);
  log = {
    sheet: "Other log",
    table: null,
    block: sheet("A1", [
      ["Date", "Athlete", "Trick"],
      ...Array.from({ length: 6 }, (_, index) => [day(`2026-03-0${String(index + 1)}`), "M.K.", "Illusion"]),
    ]),
  };
  await read();
  expect(chosen(texts.ownSheetAttempts)).toBe(texts.ownSheetMarks);
});

describe("another workbook", () => {
  test("takes what was read of the one before out of sight, and nothing is put over it", async () => {
    let workbook = "one.xlsx";
    const memory = memoryHost([]);
    const host = mount(messyLog, {
      workbookName: () => workbook,
      whenChanged: memory.whenChanged,
      sheetInView: () => Promise.resolve(messyLog.sheet),
    });
    await read();
    tick(texts.ownSheetKeyTwo("x", "o"));
    workbook = "two.xlsx";
    await memory.change();
    expect(root.querySelector<HTMLElement>(".twirl-found")?.hidden).toBe(true);
    expect(spoken()).toContain(texts.ownSheetOtherWorkbook);
    await put();
    expect(host.plans).toEqual([]);
  });

  test("without such a sheet has no board put, and that is said", async () => {
    const host = mount(messyLog, { namesInUse: () => Promise.resolve({ sheets: ["Other"], tables: [] }) });
    await read();
    tick(texts.ownSheetKeyTwo("x", "o"));
    await put();
    expect(host.plans).toEqual([]);
    expect(spoken()).toContain(texts.sheetGone(messyLog.sheet));
  });

  test("a board whose sheet is not there afterwards is not called done", async () => {
    mount(messyLog, { namesInUse: () => Promise.resolve({ sheets: [messyLog.sheet], tables: [] }) });
    await read();
    tick(texts.ownSheetKeyTwo("x", "o"));
    await put();
    expect(spoken()).toContain(texts.ownSheetNotThere("Board (Our log)"));
    expect(spoken()).not.toContain(texts.ownSheetDone("Board (Our log)"));
  });
});

test("a question that is open is asked before a board is put, and the answer stands in it", async () => {
  const host = mount({
    sheet: "Log",
    table: null,
    block: sheet("A1", [
      ["Date", "Athlete", "Trick", 1, 2],
      ...Array.from({ length: 6 }, (_, index) => [
        day(`2026-03-0${String(index + 1)}`),
        "M.K.",
        "Illusion",
        "✓",
        index % 2 === 0 ? "✓" : null,
      ]),
    ]),
  });
  await read();
  await put();
  expect(host.plans).toEqual([]);
  expect(spoken()).toContain(texts.ownSheetQuestionOpen);
  expect((document.activeElement as HTMLInputElement | null)?.name).toBe("twirl-own-blank");
  tick(texts.ownSheetEmptyDropped(2));
  expect(control<HTMLInputElement>(texts.ownSheetEmptyDropped(2)).checked).toBe(true);
  expect(root.textContent).toContain("9 caught of 12 attempts");
  await put();
  expect(host.plans.length).toBe(1);
});

test("another row of headings is another log", async () => {
  mount();
  await read();
  choose(texts.ownSheetHeadingRow, "There are none");
  expect(chosen(texts.ownSheetHeadingRow)).toBe(texts.ownSheetNoHeadings);
  choose(texts.ownSheetHeadingRow, "Row 3");
  expect(chosen(texts.ownSheetDate)).toMatch(/^A Day/);
});

test("a table is named, and its headings are not asked for", async () => {
  const block = sheet("A1", [
    ["Date", "Athlete", "Trick", "Marks"],
    [day("2026-03-02"), "M.K.", "Two spin", "ccd"],
    [day("2026-03-02"), "A.R.", "Two spin", "cdd"],
  ]);
  const headings = new Map([
    [1, "Date"],
    [2, "Athlete"],
    [3, "Trick"],
    [4, "Marks"],
  ]);
  const host = mount({ sheet: "Log", table: { name: "Our_log", headings }, block });
  await read();
  expect(visible(texts.ownSheetHeadingRow)).toBe(false);
  expect(root.textContent).toContain(texts.ownSheetTable("Log", "Our_log"));
  expect(root.textContent).toContain(texts.ownSheetRows(2, 2));
  await put();
  expect(host.plans[0]?.reads?.tables[0]?.name).toBe("Our_log");
});

test.each(layouts.map((layout) => [layout.name, layout.block] as const))(
  "%s: can be read and shown",
  async (_, block) => {
    mount({ sheet: "Log", table: null, block });
    await read();
    expect(spoken()).not.toContain(texts.ownSheetNotRead);
    expect(chosen(texts.ownSheetDate)).not.toBe(texts.ownSheetChoose);
  },
);

test("what the workbook refuses is told", async () => {
  mount(messyLog, { readLog: () => Promise.reject(new Error("The sheet is busy")) });
  await read();
  await settled();
  expect(spoken()).toContain(`${texts.ownSheetNotRead} The sheet is busy.`);
});

test("a board that was not put is told, and can be tried again", async () => {
  let refuse = true;
  const plans: WorkbookPlan[] = [];
  mount(messyLog, {
    namesInUse: () => {
      const sheets = plans.flatMap((plan) => plan.sheets.map(({ name }) => name));
      return Promise.resolve({ sheets: [messyLog.sheet, ...sheets], tables: [] });
    },
    addSheets: (plan) => {
      if (refuse) return Promise.reject(new Error("The workbook is read-only"));
      plans.push(plan);
      return Promise.resolve();
    },
  });
  await read();
  tick(texts.ownSheetKeyTwo("x", "o"));
  await put();
  expect(spoken()).toContain(texts.ownSheetFailed);
  expect(spoken()).toContain("The workbook is read-only.");
  refuse = false;
  await put();
  expect(plans.length).toBe(1);
});

describe("a host that hangs", () => {
  /** An answer that comes when the test says so, and how often it was asked for. */
  function late<Answer>(): { asked: number; ask: () => Promise<Answer>; answer: (value: Answer) => void } {
    let answer: (value: Answer) => void = () => undefined;
    const promise = new Promise<Answer>((resolve) => {
      answer = resolve;
    });
    const deferred = {
      asked: 0,
      ask: () => {
        deferred.asked += 1;
        return promise;
      },
      answer,
    };
    return deferred;
  }

  test("is asked for one board, however often one presses, and the late answer is told", async () => {
    const adding = late<undefined>();
    const sheets = [messyLog.sheet];
    mount(messyLog, {
      addSheets: async (plan) => {
        await adding.ask();
        sheets.push(...plan.sheets.map(({ name }) => name));
      },
      namesInUse: () => Promise.resolve({ sheets, tables: [] }),
    });
    await read();
    tick(texts.ownSheetKeyTwo("x", "o"));
    await put();
    await put();
    await put();
    expect(adding.asked).toBe(1);
    expect(spoken()).not.toContain(texts.ownSheetFailed);
    adding.answer(undefined);
    await settled();
    expect(spoken()).toContain(texts.ownSheetDone(`Board (${messyLog.sheet})`));
  });

  test("is asked to read once", async () => {
    const reading = late<ReadLog>();
    mount(messyLog, { readLog: reading.ask });
    await read();
    await read();
    expect(reading.asked).toBe(1);
    reading.answer(messyLog);
    await settled();
    expect(chosen(texts.athleteLabel)).not.toBe("");
  });

  test("is asked to repair once, and what it did is told when it is known", async () => {
    const repairing = late<Repairs>();
    mount(messyLog, { repairFormulas: repairing.ask });
    button(texts.repairButton).click();
    await settled();
    button(texts.repairButton).click();
    await settled();
    expect(repairing.asked).toBe(1);
    repairing.answer({ ...nothingRepaired, repaired: 2 });
    await settled();
    expect(root.textContent).toContain(texts.repairDone(2));
  });
});

describe("repairing formulas", () => {
  test.each<[because: string, repairs: Partial<Repairs>, words: readonly string[]]>([
    ["nothing to do", {}, [texts.repairNone]],
    ["all done", { repaired: 4 }, [texts.repairDone(4)]],
    [
      "some left",
      { repaired: 1, stillUnknown: 2, refused: 3, protectedSheets: [{ sheet: "Safe", cells: 5 }] },
      [texts.repairDone(1), texts.repairUnknown(2), texts.repairRefused(3), texts.repairProtected("Safe", 5)],
    ],
  ])("%s", async (_, repairs, words) => {
    mount(messyLog, {}, { ...nothingRepaired, ...repairs });
    button(texts.repairButton).click();
    await settled();
    expect([...root.querySelectorAll(".twirl-section .twirl-status p")].map(({ textContent }) => textContent)).toEqual(
      words,
    );
  });

  test("a refusal is told", async () => {
    mount(messyLog, { repairFormulas: () => Promise.reject(new Error("Busy")) });
    button(texts.repairButton).click();
    await settled();
    expect(spoken()).toContain(texts.repairFailed("Busy."));
  });
});

describe("a log that changes while it is shown", () => {
  const changedLog = (cell: string): ReadLog => ({
    ...messyLog,
    block: {
      ...messyLog.block,
      values: messyLog.block.values.map((row, index) => (index === 3 ? [...row.slice(0, -1), cell] : row)),
    },
  });

  test("is read again, with what the coach has said of it", async () => {
    let log = messyLog;
    const read = jest.fn(() => Promise.resolve(log));
    const host = { ...memoryHost([]), ...fakeOwnSheet(messyLog) };
    const mounted = mount(messyLog, {
      readLog: read,
      sheetInView: () => Promise.resolve(messyLog.sheet),
      whenChanged: host.whenChanged,
    });
    expect(mounted.plans).toEqual([]);
    button(texts.ownSheetRead).click();
    await settled();
    const stage = control(texts.stageLabel);
    stage.value = [...stage.options][0]?.value ?? "";
    stage.dispatchEvent(new Event("change"));
    const chosen = stage.value;
    const before = root.querySelector(".twirl-found")?.textContent;
    // Nothing has changed in the log: nothing moves.
    await host.change();
    expect(read).toHaveBeenCalledTimes(2);
    expect(root.querySelector(".twirl-found")?.textContent).toBe(before);
    log = { ...messyLog, block: { ...messyLog.block, values: messyLog.block.values.slice(0, -10) } };
    await host.change();
    expect(root.querySelector(".twirl-found")?.textContent).not.toBe(before);
    expect(stage.value).toBe(chosen);
  });

  test("is not taken for another part of the sheet, and not read from another sheet", async () => {
    let log = messyLog;
    let inView = messyLog.sheet;
    const read = jest.fn(() => Promise.resolve(log));
    const host = memoryHost([]);
    mount(messyLog, { readLog: read, sheetInView: () => Promise.resolve(inView), whenChanged: host.whenChanged });
    await host.change();
    expect(read).not.toHaveBeenCalled();
    button(texts.ownSheetRead).click();
    await settled();
    inView = "Board";
    await host.change();
    expect(read).toHaveBeenCalledTimes(1);
    inView = messyLog.sheet;
    log = { ...changedLog("new"), block: { ...changedLog("new").block, column: 4 } };
    await host.change();
    expect(root.textContent).toContain(texts.ownSheetStale);
  });
});
