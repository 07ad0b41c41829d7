/**
 * The page is killed at any moment, hundreds of times over: between two taps, in the middle of a write to the storage,
 * while the row is on its way. Afterwards each attempt that was shown as counted is in the log or kept on this computer,
 * and in one of the two only.
 */
import type { WorkbookHost } from "../../../../src/taskpane/host/host";
import { LogSet } from "../../../../src/taskpane/parts/log-set/log-set";
import { marksInFives, type Mark, type SetInHand } from "../../../../src/taskpane/parts/log-set/set-in-hand";
import { browserDrafts, type Drafts } from "../../../../src/taskpane/host/storage";
import { memoryHost, type MemoryHost } from "../../memory-host";
import { smallSeason } from "../../small-season";

const rounds = 200;
const log = "Practice_2027";

/** mulberry32: the same run every time, from a seed. */
function randomFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/**
 * A page that dies at its n-th step. A step is anything that leaves a trace: a write to the storage, a word to the host.
 * Nothing can stop a script from outside; but from its death on a page leaves no trace any more, and hears no answer.
 */
class Page {
  dead = false;
  private steps = 0;

  constructor(
    private readonly lastStep: number,
    private readonly random: () => number,
  ) {}

  /** Does the work; or dies before it or right after it. */
  private step<Answer>(work: () => Answer): Answer | undefined {
    if (this.dead) return undefined;
    this.steps += 1;
    if (this.steps < this.lastStep) return work();
    this.dead = true;
    return this.random() < 0.5 ? work() : undefined;
  }

  drafts(store: Map<string, string>): Drafts {
    const storage: Storage = {
      get length() {
        return store.size;
      },
      key: (index: number) => [...store.keys()][index] ?? null,
      getItem: (name: string) => store.get(name) ?? null,
      setItem: (name: string, value: string) => void this.step(() => store.set(name, value)),
      removeItem: (name: string) => void this.step(() => store.delete(name)),
      clear: () => undefined,
    };
    return browserDrafts(() => storage);
  }

  host(host: MemoryHost): WorkbookHost {
    const hearing = async <Answer>(ask: () => Promise<Answer>): Promise<Answer> => {
      const answer = await this.step(ask);
      return this.dead || answer === undefined ? new Promise(() => undefined) : answer;
    };
    return {
      ...host,
      namesInUse: () => hearing(() => host.namesInUse()),
      readTables: (names) => hearing(() => host.readTables(names)),
      readBlock: (sheet, block) => hearing(() => host.readBlock(sheet, block)),
      appendRow: (table, cells) => hearing(() => host.appendRow(table, cells)),
    };
  }
}

// The host in memory answers without waiting; the patience of dead pages is never to run out.
jest.useFakeTimers({ doNotFake: ["setImmediate", "queueMicrotask", "nextTick"] });
const settled = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

/** Where each counted set is now, by its note: in the log, or kept. */
function found(host: MemoryHost, store: Map<string, string>): Map<string, { place: string; marks: string }[]> {
  const places = new Map<string, { place: string; marks: string }[]>();
  const add = (note: string, place: string, marks: string): void => {
    places.set(note, [...(places.get(note) ?? []), { place, marks }]);
  };
  for (const row of host.table(log).rows) if (row[9] !== "") add(String(row[9]), "log", String(row[4]));
  for (const [name, text] of store) {
    if (!name.includes("log-set.set.")) continue;
    const set = JSON.parse(text) as SetInHand;
    add(set.note, "kept", marksInFives(set.marks));
  }
  return places;
}

test.each([1, 2, 3])("from seed %i: no attempt is lost and none is there twice", async (seed) => {
  const random = randomFrom(seed);
  const pick = <Item>(items: readonly Item[]): Item => items[Math.floor(random() * items.length)] as Item;
  const host = memoryHost([smallSeason()]);
  const store = new Map<string, string>();
  /** The marks of each set, by its note, as they were shown; while a tap is under way, as they may be instead. */
  const shown = new Map<string, string>();
  let sets = 0;
  let taps = 0;
  let diedSaving = 0;

  for (let round = 0; round < rounds; round += 1) {
    const page = new Page(3 + Math.floor(random() * 40), random);
    const logSet = new LogSet({ host: page.host(host), drafts: page.drafts(store), tell: () => undefined });
    void logSet.refresh();
    await settled();
    /** The tap that was under way when the page died: it may count or not. */
    let under = { note: "", before: "", after: "" };
    let action = "";
    while (!page.dead) {
      const { set, aside, saving } = logSet.state;
      const marks = shown.get(set.note) ?? "";
      const change = (after: string, work: () => void): void => {
        under = { note: set.note, before: marks, after };
        work();
        if (!page.dead) shown.set(set.note, after);
      };
      action = pick(["mark", "mark", "mark", "mark", "undo", "save", "aside", "take"]);
      if (saving !== "no") {
        await logSet.findOut();
      } else if (set.note === "") {
        sets += 1;
        action = "begin";
        shown.set(`set ${String(sets)}`, "");
        logSet.choose({ athlete: pick(["M.K.", "A.R."]), trick: "Double turn", stage: "Joined" });
        logSet.write({ note: `set ${String(sets)}` });
      } else if (action === "mark") {
        const mark = pick<Mark>(["c", "d", "b"]);
        change(marks + mark, () => logSet.mark(mark));
        taps += 1;
      } else if (action === "undo") {
        change(marks.slice(0, -1), () => logSet.undo());
      } else if (action === "save") {
        logSet.save();
      } else if (action === "aside") {
        logSet.putAside();
      } else if (aside.length > 0) {
        logSet.takeUp(pick(aside).id);
      }
      await settled();
      if (!page.dead) under = { note: "", before: "", after: "" };
    }
    if (action === "save") diedSaving += 1;
    await settled();

    // The pane is opened again, and this time lives long enough to look.
    const alive = new Page(Infinity, random);
    const next = new LogSet({ host: alive.host(host), drafts: alive.drafts(store), tell: () => undefined });
    await next.refresh();
    await settled();
    // A set that was put aside while its row was on its way is looked for when it is taken up.
    for (const { id, rowsBefore } of next.state.aside) {
      if (rowsBefore === null) continue;
      next.putAside();
      next.takeUp(id);
      await settled();
    }

    const places = found(host, store);
    const wrong: unknown[] = [];
    for (const [note, marks] of shown) {
      const allowed = under.note === note ? [under.before, under.after] : [marks];
      const there = places.get(note) ?? [];
      // A set without any mark may have been interrupted before its note was kept.
      if (there.length === 0 && allowed.includes("")) continue;
      const bare = there[0]?.marks.replaceAll(" ", "") ?? "";
      if (there.length !== 1 || !allowed.includes(bare)) wrong.push({ round, note, allowed, there });
      shown.set(note, bare);
    }
    expect(wrong).toEqual([]);
  }
  // The test did what it says: hundreds of taps, dozens of rows, and deaths while a row was on its way.
  expect(taps).toBeGreaterThan(400);
  expect(host.table(log).rows.length).toBeGreaterThan(20);
  expect(diedSaving).toBeGreaterThan(10);
});
