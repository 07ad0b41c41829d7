import type { CellValue, WorkbookHost } from "../../../../src/taskpane/host/host";
import { LogSet, type LogSetState } from "../../../../src/taskpane/parts/log-set/log-set";
import type { Mark } from "../../../../src/taskpane/parts/log-set/set-in-hand";
import { serialOfDay } from "../../../../src/taskpane/words/day";
import { texts } from "../../../../src/taskpane/words/texts";
import { memoryDrafts, type MemoryDrafts } from "../../memory-drafts";
import { memoryHost, type MemoryHost } from "../../memory-host";
import { firstDay, practised, smallSeason, usualPractice } from "../../small-season";

const log = "Practice_2027";
const today = new Date(2027, 0, 20, 18, 30);

interface Opened {
  readonly logSet: LogSet;
  readonly host: MemoryHost;
  readonly drafts: MemoryDrafts;
  /** What a screen reader was given to say, in order. */
  readonly said: string[];
  readonly state: () => LogSetState;
}

interface Given {
  readonly host?: MemoryHost;
  readonly drafts?: MemoryDrafts;
  readonly patience?: number;
  readonly now?: () => Date;
}

/** The part as it is when the pane has just been opened and the workbook read. */
async function opened(given: Given = {}): Promise<Opened> {
  const { host = memoryHost([smallSeason()]), drafts = memoryDrafts() } = given;
  const said: string[] = [];
  const logSet = new LogSet({
    host,
    drafts,
    tell: (_, words) => void (words !== null && said.push(words)),
    now: given.now ?? (() => today),
    patience: given.patience ?? 50,
  });
  await logSet.refresh();
  return { logSet, host, drafts, said, state: () => logSet.state };
}

async function chosen(given: Given = {}): Promise<Opened> {
  const all = await opened(given);
  all.logSet.choose({ athlete: "M.K.", trick: "Double turn" });
  return all;
}

function count(logSet: LogSet, marks: string): void {
  for (const mark of marks) logSet.mark(mark as Mark);
}

const settled = (milliseconds = 5): Promise<void> => new Promise((resolve) => setTimeout(resolve, milliseconds));

const lastRow = (host: MemoryHost): readonly CellValue[] | undefined => host.table(log).rows.at(-1);

describe("what the coach looks at", () => {
  const twoSeasons = (): MemoryHost => memoryHost([smallSeason("2026"), smallSeason("2027")]);
  const look = (host: MemoryHost, sheet: string): void => {
    host.selected = { sheet, block: { row: 1, column: 1, rows: 1, columns: 1 } };
  };

  test("is the season that is counted for, as soon as another one comes into view", async () => {
    const host = twoSeasons();
    look(host, "Board 2026");
    const { logSet, state } = await opened({ host });
    expect(state().set.season).toBe("2026");
    look(host, "Practice 2027");
    await logSet.refresh();
    expect(state()).toMatchObject({ set: { season: "2027" }, book: { kind: "ready", data: { key: "2027" } } });
  });

  test("does not take a set that is being counted to another season", async () => {
    const host = twoSeasons();
    look(host, "Board 2026");
    const { logSet, state } = await opened({ host });
    count(logSet, "cc");
    look(host, "Practice 2027");
    await logSet.refresh();
    expect(state().set).toMatchObject({ season: "2026", marks: ["c", "c"] });
  });

  test("does not undo a choice while the same season stays in view", async () => {
    const host = twoSeasons();
    look(host, "Board 2027");
    const { logSet, state } = await opened({ host });
    logSet.choose({ season: "2026" });
    await settled();
    look(host, "Practice 2027");
    await logSet.refresh();
    expect(state().set.season).toBe("2026");
  });

  test("is another workbook by the time that it answers: what was kept for that one is in hand", async () => {
    const drafts = memoryDrafts();
    const first = await chosen({ drafts, host: Object.assign(memoryHost([smallSeason()]), { name: "Club.xlsx" }) });
    count(first.logSet, "ccd");
    const host = Object.assign(memoryHost([smallSeason()]), { name: "season.xlsx" });
    const names = host.namesInUse;
    // The page knows only now which workbook it opens with.
    host.namesInUse = () => ((host.name = "Club.xlsx"), names());
    const { state } = await opened({ drafts, host });
    expect(state()).toMatchObject({ workbook: "Club.xlsx", set: { marks: ["c", "c", "d"] } });
  });
});

describe("opening", () => {
  test("a workbook without a season says so", async () => {
    const { state } = await opened({ host: memoryHost() });
    expect(state().book).toEqual({ kind: "none" });
  });

  test("the newest of several seasons is taken, until another is chosen; the choice is kept", async () => {
    const host = memoryHost([smallSeason("2026"), smallSeason("2027")]);
    const { logSet, state, drafts } = await opened({ host });
    expect(state().set.season).toBe("2027");
    logSet.choose({ season: "2026", athlete: "A.R." });
    await settled();
    expect(state().book).toMatchObject({ kind: "ready", data: { key: "2026" }, seasons: ["2026", "2027"] });
    const next = await opened({ host, drafts });
    expect(next.state().set).toMatchObject({ season: "2026", athlete: "A.R.", marks: [] });
  });

  test("what the last set was of is chosen again, and only in the same workbook", async () => {
    const { logSet, drafts, host } = await chosen();
    logSet.choose({ stage: "In context" });
    count(logSet, "c");
    logSet.save();
    await settled();
    expect((await opened({ host, drafts })).state().set).toMatchObject({
      athlete: "M.K.",
      trick: "Double turn",
      stage: "In context",
      marks: [],
    });
    host.name = "Another.xlsx";
    expect((await opened({ host, drafts })).state().set).toMatchObject({ athlete: "", stage: "Joined" });
  });

  test("a workbook that cannot be read says why, lets count, and can be read again", async () => {
    let broken = true;
    const host = memoryHost([smallSeason()]);
    const names = host.namesInUse;
    host.namesInUse = () => (broken ? Promise.reject(new Error("It is busy.")) : names());
    const { logSet, state } = await opened({ host });
    expect(state().book).toEqual({ kind: "failed", reason: "It is busy." });
    count(logSet, "cd");
    expect(state().set.marks).toEqual(["c", "d"]);
    broken = false;
    await logSet.refresh();
    expect(state()).toMatchObject({ book: { kind: "ready" }, set: { marks: ["c", "d"] } });
  });

  test("a workbook that never answers is told, and its late answer is taken", async () => {
    let answer = (): void => undefined;
    const host = memoryHost([smallSeason()]);
    const names = host.namesInUse;
    host.namesInUse = () => new Promise((resolve) => (answer = () => resolve(names())));
    const logSet = new LogSet({ host, drafts: memoryDrafts(), tell: () => undefined, patience: 10 });
    void logSet.refresh();
    await settled(30);
    expect(logSet.state.book).toEqual({ kind: "failed", reason: texts.hostSilent });
    answer();
    await settled();
    expect(logSet.state.book.kind).toBe("ready");
  });

  test("an answer that comes after that to a later question is left aside", async () => {
    const { logSet, host, state } = await opened();
    const slow: (() => void)[] = [];
    const read = host.readTables;
    host.readTables = async (names) => {
      const found = await read(names);
      await new Promise<void>((resolve) => slow.push(resolve));
      return found;
    };
    void logSet.refresh();
    await settled();
    host.table("Athletes_2027").rows.push(["N.N."]);
    host.readTables = read;
    await logSet.refresh();
    slow.forEach((go) => go());
    await settled();
    expect(state().book).toMatchObject({ data: { athletes: ["M.K.", "A.R.", "J.T.", "N.N."] } });
  });
});

describe("counting", () => {
  test("the status and the streak move with each mark, as the board would have them", async () => {
    const { logSet, state } = await chosen();
    // The latest set of the log was 8 of 10 after one of 3 of 10: the rule holds, the record does not.
    expect(state().live).toMatchObject({ kind: "judged", now: { status: "Confirm", attempts: 20 }, streak: 2 });
    // The latest ten are 7 of 10 with a miss more, 8 of 10 with a catch in its place.
    count(logSet, "d");
    expect(state().live).toMatchObject({
      now: { status: "Building", attempts: 21 },
      before: { status: "Confirm" },
      streak: -1,
    });
    logSet.undo();
    count(logSet, "c");
    expect(state().live).toMatchObject({ now: { status: "Confirm" }, streak: 3 });
    expect(state().set.marks).toEqual(["c"]);
  });

  test.each(["Body only", "Toss only", "Wall"])(
    "at the stage %s the status stays, and the streak is the set's",
    async (stage) => {
      const { logSet, state } = await chosen();
      logSet.choose({ stage });
      count(logSet, "cccb");
      expect(state().live).toMatchObject({
        apart: true,
        now: { status: "Confirm", attempts: 20 },
        before: { status: "Confirm" },
        streak: -1,
      });
    },
  );

  test("an athlete who has not logged the trick starts from nothing", async () => {
    const { logSet, state } = await chosen();
    logSet.choose({ athlete: "J.T." });
    expect(state().live).toMatchObject({ now: { status: "No attempts" } });
    count(logSet, "c");
    expect(state().live).toMatchObject({ now: { status: "Too few" }, streak: 1 });
  });

  test("where the log holds totals, the streak is not known", async () => {
    const { state } = await chosen({
      host: memoryHost([smallSeason("2027", [practised("M.K.", "Double turn", "Joined", "8/10")])]),
    });
    expect(state().live).toMatchObject({ kind: "judged", streak: undefined });
  });

  test("a row of the log that cannot be read is told, and every other one counts", async () => {
    const { logSet, state } = await chosen({
      host: memoryHost([smallSeason("2027", [practised("M.K.", "Double turn", "Joined", "maybe"), ...usualPractice])]),
    });
    count(logSet, "cc");
    expect(state().live).toMatchObject({ kind: "judged", before: { attempts: 20 }, now: { attempts: 22 } });
    const { book } = state();
    expect(book.kind === "ready" && book.data.records.reading).toMatchObject({
      leftOut: 1,
      told: [{ row: 1, words: expect.stringContaining("maybe") as string }],
    });
  });

  test("a set of today stands before what is logged on a later day, and says so", async () => {
    const later = practised("M.K.", "Double turn", "Joined", "ccccc", firstDay + 100_000);
    const { logSet, state } = await chosen({ host: memoryHost([smallSeason("2027", [...usualPractice, later])]) });
    count(logSet, "dd");
    expect(state().live).toMatchObject({ kind: "judged", streak: 5, laterDay: firstDay + 100_000 });
  });

  test("no status is shown for a name that is not in the lists", async () => {
    const { logSet, state } = await chosen();
    logSet.choose({ trick: "Unheard of" });
    expect(state().live).toBeNull();
  });

  test("each mark and each undo is spoken with the count and the status", async () => {
    const { logSet, said } = await chosen();
    said.length = 0;
    count(logSet, "cbb");
    logSet.undo();
    logSet.undo();
    logSet.undo();
    logSet.undo();
    expect(said).toEqual([
      texts.counted(texts.markWords.c, 1, 10, "Confirm"),
      texts.counted(texts.markWords.b, 2, 10, "Building"),
      texts.counted(texts.markWords.b, 3, 10, "Building"),
      texts.undone(texts.markWords.b, 2, 10),
      texts.undone(texts.markWords.b, 1, 10),
      texts.undone(texts.markWords.c, 0, 10),
      texts.nothingToUndo,
    ]);
  });

  test("another athlete or trick takes the marks along, and says so", async () => {
    const { logSet, state } = await chosen();
    count(logSet, "ccd");
    logSet.choose({ athlete: "A.R." });
    expect(state()).toMatchObject({
      set: { athlete: "A.R.", marks: ["c", "c", "d"] },
      outcome: { kind: "note", words: texts.marksGoAlong(3, "A.R.", "Double turn") },
    });
  });

  test("the log is not read at a mark", async () => {
    const host = memoryHost([smallSeason()]);
    const { logSet } = await chosen({ host });
    let readings = 0;
    for (const method of ["namesInUse", "readTables", "readBlock"] as const) {
      const original = host[method] as (...asked: never[]) => Promise<never>;
      host[method] = ((...asked: never[]) => ((readings += 1), original(...asked))) as never;
    }
    count(logSet, "ccdccbccdc");
    logSet.undo();
    await settled();
    expect(readings).toBe(0);
  });
});

describe("saving", () => {
  test("keeps how the set was done, and on which day, in the log's own columns", async () => {
    const { logSet, host, state } = await chosen();
    count(logSet, "ccd");
    logSet.write({ entrance: "Walk ", exit: "Kneel", condition: "left hand; tired", dayTyped: "19 Jan 2027" });
    logSet.save();
    await settled();
    expect(lastRow(host)).toEqual([
      serialOfDay(new Date(2027, 0, 19)),
      "M.K.",
      "Double turn",
      "Joined",
      "ccd",
      "",
      "Walk",
      "Kneel",
      "left hand; tired",
      "",
    ]);
    expect(state().set).toMatchObject({ marks: [], entrance: "", exit: "", condition: "", dayTyped: "" });
  });

  test("refuses a way for which the log has no column, and saves once the columns are added", async () => {
    const host = memoryHost([smallSeason()]);
    const table = host.table(log);
    for (const row of [table.headings, ...table.rows]) row.splice(6, 3);
    const before = table.rows.map((row) => [...row]);
    const { logSet, state } = await chosen({ host });
    count(logSet, "ccd");
    logSet.write({ entrance: "Walk" });
    logSet.save();
    expect(state()).toMatchObject({ saving: "no", problems: { entrance: texts.columnLacking } });
    await logSet.addColumns();
    expect(table.headings.slice(-3)).toEqual(["Entrance", "Exit", "Condition"]);
    expect(table.rows).toEqual(before.map((row) => [...row, "", "", ""]));
    logSet.save();
    await settled();
    expect(lastRow(host)?.slice(4)).toEqual(["ccd", "", "", "Walk", "", ""]);
  });

  test("adds one row of today to the log and begins the next set of the same athlete and trick", async () => {
    const { logSet, host, state, said } = await chosen();
    count(logSet, "ccdccccccd");
    logSet.write({ minutes: "7,5", note: " felt good " });
    logSet.save();
    expect(state().saving).toBe("saving");
    await settled();
    expect(host.table(log).rows).toHaveLength(5);
    expect(lastRow(host)).toEqual([
      serialOfDay(today),
      "M.K.",
      "Double turn",
      "Joined",
      "ccdcc ccccd",
      7.5,
      "",
      "",
      "",
      "felt good",
    ]);
    expect(state()).toMatchObject({
      saving: "no",
      set: { athlete: "M.K.", trick: "Double turn", marks: [], minutes: "", note: "", day: null },
      outcome: {
        kind: "right",
        words: texts.setSaved("M.K.", "Double turn", "ccdcc ccccd", "'Practice 2027'!A9"),
      },
      live: { before: { attempts: 30 } },
    });
    expect(said.at(-1)).toContain("A9");
  });

  test("a name that looks like a formula stays a name", async () => {
    const { logSet, host } = await chosen();
    let kind = "";
    const append = host.appendRow;
    host.appendRow = (table, cells) => ((kind = cells.get("Trick")?.kind ?? ""), append(table, cells));
    logSet.choose({ trick: "+1 spin" });
    count(logSet, "c");
    logSet.save();
    await settled();
    expect([kind, lastRow(host)?.[2]]).toEqual(["text", "+1 spin"]);
  });

  test("two presses of Save are one row", async () => {
    const { logSet, host } = await chosen();
    count(logSet, "cc");
    logSet.save();
    logSet.save();
    await settled(1);
    logSet.save();
    await settled();
    logSet.save();
    await settled();
    expect(host.table(log).rows).toHaveLength(5);
  });

  test("the same set twice is two rows", async () => {
    const { logSet, host } = await chosen();
    for (let time = 0; time < 2; time += 1) {
      count(logSet, "ccccc");
      logSet.save();
      await settled();
    }
    expect(
      host
        .table(log)
        .rows.slice(-2)
        .map((row) => row[4]),
    ).toEqual(["ccccc", "ccccc"]);
  });

  test.each([
    { what: "no mark", before: (one: LogSet) => one.choose({}), problems: { marks: texts.noMarksYet } },
    {
      what: "no athlete",
      before: (one: LogSet) => (count(one, "c"), one.choose({ athlete: "" })),
      problems: { athlete: texts.notAnAthlete("") },
    },
    {
      what: "an athlete who is not in the list",
      before: (one: LogSet) => (count(one, "c"), one.choose({ athlete: "MK" })),
      problems: { athlete: texts.notAnAthlete("MK") },
    },
    {
      what: "a trick that is not in the list",
      before: (one: LogSet) => (count(one, "c"), one.choose({ trick: "Double" })),
      problems: { trick: texts.notATrick("Double") },
    },
    {
      what: "no stage",
      before: (one: LogSet) => (count(one, "c"), one.choose({ stage: "" })),
      problems: { stage: texts.chooseStage },
    },
    {
      what: "minutes that are none",
      before: (one: LogSet) => (count(one, "c"), one.write({ minutes: "ten" })),
      problems: { minutes: texts.notMinutes(600) },
    },
    {
      what: "a day that is none",
      before: (one: LogSet) => (count(one, "c"), one.write({ dayTyped: "soon" })),
      problems: { dayTyped: expect.stringContaining(texts.notADay("soon")) as unknown },
    },
    {
      what: "minutes beyond reason",
      before: (one: LogSet) => (count(one, "c"), one.write({ minutes: "601" })),
      problems: { minutes: texts.notMinutes(600) },
    },
  ])("with $what nothing is written, and it is told at its place", async ({ before, problems }) => {
    const { logSet, host, state, drafts } = await chosen();
    before(logSet);
    const { marks } = state().set;
    logSet.save();
    await settled();
    expect(host.table(log).rows).toHaveLength(4);
    expect(state()).toMatchObject({ saving: "no", problems, set: { marks } });
    expect(drafts.names().filter((name) => name.startsWith("log-set.set."))).toHaveLength(marks.length > 0 ? 1 : 0);
  });

  test("a spelling in another case is saved as the list has it", async () => {
    const { logSet, host } = await chosen();
    logSet.choose({ athlete: " m.k.", trick: "DOUBLE TURN" });
    count(logSet, "c");
    logSet.save();
    await settled();
    expect(lastRow(host)?.slice(1, 3)).toEqual(["M.K.", "Double turn"]);
  });

  test("while it is saved no mark goes in unseen", async () => {
    const { logSet, state, host } = await chosen();
    count(logSet, "cc");
    logSet.save();
    logSet.mark("d");
    logSet.undo();
    logSet.choose({ athlete: "A.R." });
    expect(state()).toMatchObject({
      set: { athlete: "M.K.", marks: ["c", "c"] },
      outcome: { kind: "wrong", words: texts.waitForSaving },
    });
    await settled();
    expect(lastRow(host)?.slice(1, 5)).toEqual(["M.K.", "Double turn", "Joined", "cc"]);
  });

  test("a host that refuses leaves the set as it was, says why, and the next try saves it once", async () => {
    const host = memoryHost([smallSeason()]);
    const append = host.appendRow;
    host.appendRow = () => Promise.reject(new Error("The sheet is protected."));
    const { logSet, state, drafts } = await chosen({ host });
    count(logSet, "ccd");
    logSet.save();
    await settled();
    expect(state()).toMatchObject({
      saving: "no",
      set: { marks: ["c", "c", "d"], rowsBefore: null },
      outcome: { kind: "wrong", words: texts.notSaved("The sheet is protected.") },
    });
    expect((await opened({ host, drafts })).state().set.marks).toEqual(["c", "c", "d"]);
    host.appendRow = append;
    logSet.save();
    await settled();
    expect(host.table(log).rows).toHaveLength(5);
  });

  test("a host that cannot read the log is given no row", async () => {
    const host = memoryHost([smallSeason()]);
    const { logSet, state } = await chosen({ host });
    count(logSet, "c");
    host.readTables = () => Promise.reject(new Error("It is busy."));
    logSet.save();
    await settled();
    expect(state().outcome?.words).toBe(texts.notSaved("It is busy."));
    expect(host.table(log).rows).toHaveLength(4);
  });

  test("a host that refuses after it has written is found out: one row, and the set is saved", async () => {
    const host = memoryHost([smallSeason()]);
    const append = host.appendRow;
    host.appendRow = async (...asked) => {
      await append(...asked);
      throw new Error("The connection is gone.");
    };
    const { logSet, state } = await chosen({ host });
    count(logSet, "ccd");
    logSet.save();
    await settled();
    expect(state()).toMatchObject({ saving: "no", set: { marks: [] }, outcome: { kind: "right" } });
    expect(host.table(log).rows).toHaveLength(5);
  });
});

describe("a host that hangs", () => {
  interface Hanging extends Opened {
    /** Has the hanging order carried out after all, or refused. */
    readonly go: (refusal?: string) => Promise<void>;
  }

  async function hanging(): Promise<Hanging> {
    const host = memoryHost([smallSeason()]);
    const append = host.appendRow;
    let go: Hanging["go"] = () => Promise.resolve();
    host.appendRow = (...asked) =>
      new Promise((resolve, reject) => {
        host.appendRow = append;
        go = async (refusal) => {
          if (refusal !== undefined) reject(new Error(refusal));
          else resolve(await append(...asked));
          await settled();
        };
      });
    const all = await chosen({ host, patience: 20 });
    count(all.logSet, "ccdcc");
    all.logSet.save();
    await settled(60);
    return { ...all, go: (refusal) => go(refusal) };
  }

  test("leaves the set unsaved and says so; no mark goes in, and Save orders no second row", async () => {
    const { logSet, host, state } = await hanging();
    expect(state()).toMatchObject({
      saving: "unsure",
      set: { marks: ["c", "c", "d", "c", "c"] },
      outcome: { kind: "wrong", words: texts.saveUnanswered },
    });
    logSet.mark("c");
    logSet.save();
    await settled();
    expect(state().set.marks).toHaveLength(5);
    expect(state().outcome?.words).toBe(texts.firstFindOut);
    expect(host.table(log).rows).toHaveLength(4);
  });

  test("and answers late: the set is saved, once", async () => {
    const { logSet, host, state, go } = await hanging();
    await go();
    expect(state()).toMatchObject({ saving: "no", set: { marks: [] }, outcome: { kind: "right" } });
    count(logSet, "d");
    logSet.save();
    await settled();
    expect(
      host
        .table(log)
        .rows.slice(4)
        .map((row) => row[4]),
    ).toEqual(["ccdcc", "d"]);
  });

  test("and refuses late: the set can be saved again", async () => {
    const { logSet, host, state, go } = await hanging();
    await go("It was cancelled.");
    expect(state()).toMatchObject({ saving: "no", outcome: { words: texts.notSaved("It was cancelled.") } });
    logSet.save();
    await settled();
    expect(host.table(log).rows).toHaveLength(5);
  });

  test("looking in the log while it hangs finds nothing and still orders no second row", async () => {
    const { logSet, host, state, go } = await hanging();
    await logSet.findOut();
    expect(state()).toMatchObject({ saving: "unsure", outcome: { words: texts.notInLogYet } });
    await go();
    expect(state().set.marks).toEqual([]);
    expect(host.table(log).rows).toHaveLength(5);
  });

  test("looking in the log finds the row that was written without an answer", async () => {
    const { logSet, host, state } = await hanging();
    host.table(log).rows.push([serialOfDay(today), "M.K.", "Double turn", "Joined", "ccdcc", "", ""]);
    await logSet.findOut();
    expect(state()).toMatchObject({ saving: "no", set: { marks: [] }, outcome: { kind: "right" } });
  });

  test("does not stop the next set: the one that hangs is put aside, and leaves when it is saved", async () => {
    const { logSet, host, state, go } = await hanging();
    logSet.putAside();
    expect(state()).toMatchObject({
      saving: "no",
      set: { marks: [], athlete: "M.K." },
      aside: [{ marks: { length: 5 } }],
    });
    count(logSet, "dd");
    const [waiting] = state().aside;
    logSet.takeUp(waiting?.id ?? "");
    logSet.throwAway(waiting?.id ?? "");
    expect(state()).toMatchObject({ set: { marks: ["d", "d"] }, aside: [{ id: waiting?.id }] });
    await go();
    expect(state()).toMatchObject({ set: { marks: ["d", "d"] }, aside: [], outcome: { kind: "right" } });
    logSet.save();
    await settled();
    expect(
      host
        .table(log)
        .rows.slice(4)
        .map((row) => row[4]),
    ).toEqual(["ccdcc", "dd"]);
  });

  test("over the end of the page: the row that came through is found, and not ordered again", async () => {
    const { host, drafts, go } = await hanging();
    // The page is closed here; the host carries the order out all the same.
    await go();
    drafts.kept.clear();
    const kept = await hanging();
    const draft = new Map(kept.drafts.kept);
    await kept.go();
    const restored = memoryDrafts();
    for (const [name, value] of draft) restored.keep(name, value);
    const again = await opened({ host: kept.host, drafts: restored });
    expect(again.state()).toMatchObject({ saving: "no", set: { marks: [] }, outcome: { kind: "right" } });
    expect(kept.host.table(log).rows).toHaveLength(5);
    expect(host.table(log).rows).toHaveLength(5);
  });

  test("over the end of the page: the set whose row never came is there to be saved", async () => {
    const { host, drafts } = await hanging();
    const again = await opened({ host, drafts });
    expect(again.state()).toMatchObject({
      saving: "no",
      set: { marks: { length: 5 }, rowsBefore: null },
      outcome: { words: texts.notInLog },
    });
    again.logSet.save();
    await settled();
    expect(host.table(log).rows).toHaveLength(5);
  });
});

describe("what is kept on this computer", () => {
  test("a set that was not saved is there again, with what it is of", async () => {
    const { logSet, host, drafts } = await chosen();
    logSet.choose({ stage: "Run-through" });
    count(logSet, "ccb");
    logSet.write({ minutes: "3", note: "left" });
    const again = await opened({ host, drafts });
    expect(again.state()).toMatchObject({
      set: {
        athlete: "M.K.",
        trick: "Double turn",
        stage: "Run-through",
        marks: ["c", "c", "b"],
        minutes: "3",
        note: "left",
      },
      outcome: { kind: "note", words: texts.setRestored(3) },
    });
  });

  test("before the workbook has been read, or without its answer", async () => {
    const { logSet, drafts } = await chosen();
    count(logSet, "ccb");
    const silent: Partial<WorkbookHost> = { namesInUse: () => new Promise(() => undefined) };
    const again = new LogSet({ host: memoryHost([], silent), drafts, tell: () => undefined });
    expect(again.state.set.marks).toEqual(["c", "c", "b"]);
  });

  test("its day is that of its first mark, even when it is saved on another", async () => {
    let now = today;
    const { logSet, host, state } = await chosen({ now: () => now });
    count(logSet, "cc");
    now = new Date(2027, 0, 21, 0, 10);
    count(logSet, "c");
    expect(state().set.day).toBe(serialOfDay(today));
    logSet.save();
    await settled();
    expect(lastRow(host)?.[0]).toBe(serialOfDay(today));
    count(logSet, "c");
    logSet.undo();
    count(logSet, "c");
    expect(state().set.day).toBe(serialOfDay(now));
  });

  test("a set of another workbook is not in hand here, but can be taken up", async () => {
    const { logSet, host, drafts } = await chosen();
    count(logSet, "ccb");
    host.name = "Saved under another name.xlsx";
    const again = await opened({ host, drafts });
    expect(again.state()).toMatchObject({ set: { marks: [] }, aside: [{ workbook: "Larkfield.xlsx" }] });
    again.logSet.takeUp(again.state().aside[0]?.id ?? "");
    await settled();
    expect(again.state()).toMatchObject({ set: { marks: ["c", "c", "b"] }, aside: [] });
    again.logSet.save();
    await settled();
    expect(lastRow(host)?.[4]).toBe("ccb");
    expect(drafts.names().filter((name) => name.startsWith("log-set.set."))).toEqual([]);
  });

  test("another workbook opened in this one's place gets none of its marks, and gives them back later", async () => {
    const { logSet, host, state } = await chosen();
    count(logSet, "ccb");
    host.name = "Other club.xlsx";
    // Before anything has been read: the order to save must not go to the other log.
    logSet.save();
    await settled();
    expect(host.table(log).rows).toHaveLength(4);
    expect(state()).toMatchObject({
      workbook: "Other club.xlsx",
      saving: "no",
      set: { marks: [], workbook: "Other club.xlsx", athlete: "" },
      aside: [{ marks: ["c", "c", "b"], workbook: "Larkfield.xlsx" }],
    });
    logSet.choose({ athlete: "A.R.", trick: "Illusion" });
    count(logSet, "d");
    host.name = "Larkfield.xlsx";
    await logSet.refresh();
    expect(state()).toMatchObject({
      set: { athlete: "M.K.", trick: "Double turn", marks: ["c", "c", "b"] },
      aside: [{ athlete: "A.R.", marks: ["d"] }],
      book: { kind: "ready" },
    });
  });

  test("another workbook that is opened while a set is being saved does not get its row", async () => {
    const { logSet, host, state } = await chosen();
    count(logSet, "ccb");
    const read = host.readTables;
    host.readTables = async (names) => {
      const found = await read(names);
      host.name = "Other club.xlsx";
      return found;
    };
    logSet.save();
    await settled();
    expect(host.table(log).rows).toHaveLength(4);
    expect(state()).toMatchObject({
      set: { marks: ["c", "c", "b"], rowsBefore: null },
      outcome: { words: texts.notSaved(texts.workbookChanged) },
    });
  });

  test("and where nothing can be kept, they wait in memory", async () => {
    const { logSet, host, state } = await chosen({ drafts: { ...memoryDrafts(), keep: () => false } });
    count(logSet, "cc");
    host.name = "Other club.xlsx";
    await logSet.refresh();
    expect(state()).toMatchObject({ set: { marks: [] }, aside: [{ marks: ["c", "c"] }] });
  });

  test("a set that is put aside makes room for another, and comes back", async () => {
    const { logSet, state } = await chosen();
    count(logSet, "cc");
    logSet.putAside();
    logSet.choose({ athlete: "A.R." });
    count(logSet, "d");
    logSet.takeUp(state().aside[0]?.id ?? "");
    expect(state()).toMatchObject({
      set: { athlete: "M.K.", marks: ["c", "c"] },
      aside: [{ athlete: "A.R.", marks: ["d"] }],
    });
    logSet.throwAway(state().aside[0]?.id ?? "");
    expect(state().aside).toEqual([]);
  });

  test("a set that another window has saved meanwhile cannot be taken up a second time", async () => {
    const { logSet, state, drafts, said } = await chosen();
    count(logSet, "cc");
    logSet.putAside();
    const [one] = state().aside;
    drafts.forget(`log-set.set.${one?.id ?? ""}`);
    logSet.takeUp(one?.id ?? "");
    expect(state()).toMatchObject({ set: { marks: [] }, aside: [] });
    expect(said.at(-1)).toBe(texts.setGone);
  });

  test("where nothing can be kept, that is known, and saving works", async () => {
    const drafts = { ...memoryDrafts(), keep: () => false };
    const { logSet, state, host } = await chosen({ drafts });
    count(logSet, "cc");
    expect(state().forgetful).toBe(true);
    logSet.putAside();
    count(logSet, "d");
    logSet.save();
    await settled();
    expect(lastRow(host)?.[4]).toBe("d");
    expect(state().aside).toMatchObject([{ marks: ["c", "c"] }]);
  });

  test.each([
    { what: "nothing", draft: null },
    { what: "a word", draft: "ccd" },
    { what: "marks that are none", draft: { marks: ["c", "x"] } },
    { what: "a set of another make", draft: { id: "1", workbook: "Larkfield.xlsx", marks: ["c"] } },
  ])("$what in a set's place does no harm", async ({ draft }) => {
    const drafts = memoryDrafts();
    drafts.keep("log-set.set.1", draft);
    drafts.keep("log-set.choice.Larkfield.xlsx", draft);
    const { state } = await opened({ drafts });
    expect(state().set.marks).toEqual([]);
    expect(state().book.kind).toBe("ready");
  });

  test("marks of a season that is not in the workbook are kept and not written elsewhere", async () => {
    const { logSet, drafts } = await chosen();
    count(logSet, "cc");
    const other = memoryHost([smallSeason("2030")]);
    const again = await opened({ host: other, drafts });
    expect(again.state().set).toMatchObject({ season: "2027", marks: ["c", "c"] });
    again.logSet.save();
    await settled();
    expect(again.state().problems.season).toBe(texts.seasonGone("2027"));
    expect(other.table("Practice_2030").rows).toHaveLength(4);
    again.logSet.choose({ season: "2030" });
    await settled();
    again.logSet.save();
    await settled();
    expect(other.table("Practice_2030").rows.at(-1)?.[4]).toBe("cc");
  });
});

test("the first day of the tests' season is the day that it says", () => {
  expect(serialOfDay(new Date(2026, 0, 5))).toBe(firstDay);
});
