/**
 * What the Log a set part can be doing, and how it gets from one to the next. Knows nothing of the document.
 *
 * Two promises hold whatever happens to the page or the host: a counted attempt is on this computer before the count is
 * shown, and it stays there until its row has been seen in the log; and no set becomes two rows.
 */
import type { DayLog } from "../../../core/day-log";
import type { Assessment } from "../../../core/readiness";
import { assessWithSet } from "../../../core/set-in-hand";
import { stageCalled } from "../../../core/stages";
import { MOST_MINUTES } from "../../../trade/limits";
import { isApart, STAGES } from "../../../trade/stages";
import { USUAL_STAGE } from "../../../trade/usual";
import { serialOfDay } from "../../words/day";
import type { WorkbookHost } from "../../host/host";
import { numberFromText } from "../../words/number-text";
import { reasonOf } from "../../words/reason";
import { seasonInView, type SeasonInView } from "../../season/season-in-view";
import type { Drafts } from "../../host/storage";
import { texts } from "../../words/texts";
import { typedDay } from "../../words/typed-day";
import { PRACTICE, WAY_HEADINGS } from "../../../workbook/season/season";
import { keptSets, type KeptSets } from "./kept-sets";
import {
  listed,
  readLog,
  readSeason,
  seasonKey,
  seasonsAmong,
  type SeasonData,
  type SeasonKey,
  withLog,
} from "../../season/season-data";
import {
  cellsOf,
  holdsSomething,
  loggedRow,
  marksInFives,
  newSet,
  outcomes,
  rowsLike,
  type Choice,
  type Mark,
  type SetInHand,
  type SetRow,
  type SetWords,
} from "./set-in-hand";

/** Longer than a busy workbook takes; after it the coach is told that nobody answers. */
const patienceMilliseconds = 8000;

type Book =
  | { readonly kind: "reading" }
  | { readonly kind: "failed"; readonly reason: string }
  /** The workbook holds no season. */
  | { readonly kind: "none" }
  | { readonly kind: "ready"; readonly seasons: readonly SeasonKey[]; readonly data: SeasonData };

/** What the board says: before the set, and with it. */
export type Live =
  | {
      readonly kind: "judged";
      /** The stage is practised apart, so that the set changes nothing on the board. */
      readonly apart: boolean;
      readonly before: Assessment;
      readonly now: Assessment;
      /** Catches in a row since the last tally, with a minus misses; undefined where the log ends with a tally. */
      readonly streak: number | undefined;
      /** The latest day on which this trick is logged, where that is later than the set's: the set stands before it. */
      readonly laterDay: number | undefined;
    }
  /** No status, for the reason in the words. */
  | { readonly kind: "unreadable"; readonly words: string };

/** `unsure`: the order to save was given, and nobody has said what came of it. */
type Saving = "no" | "saving" | "unsure";

export type Field =
  "season" | "athlete" | "trick" | "stage" | "marks" | "minutes" | "dayTyped" | "entrance" | "exit" | "condition";
export type FieldProblems = { readonly [Name in Field]?: string | undefined };

interface Outcome {
  readonly kind: "right" | "note" | "wrong";
  readonly words: string;
}

export interface LogSetState {
  /** The name of the workbook that is open. */
  readonly workbook: string;
  readonly book: Book;
  readonly set: SetInHand;
  readonly live: Live | null;
  readonly saving: Saving;
  readonly problems: FieldProblems;
  readonly outcome: Outcome | null;
  /** Kept sets other than the one in hand: put aside, or counted in another workbook. */
  readonly aside: readonly SetInHand[];
  /** This computer keeps nothing: closing the pane would lose the set. */
  readonly forgetful: boolean;
}

/** What the log holds of one athlete's one trick: looked up once, not at every tap. */
interface LoggedRecord {
  readonly athlete: string;
  readonly trick: string;
  readonly data: SeasonData;
  readonly logged: DayLog | undefined;
  readonly assessment: Assessment;
}

interface LogSetParts {
  readonly host: WorkbookHost;
  readonly drafts: Drafts;
  /** Told every new state, and what a screen reader is to say of it, if anything. */
  readonly tell: (state: LogSetState, words: string | null) => void;
  /** Told once a row is in the log, with what the board says of its athlete and trick then. */
  readonly saved?: (row: SetRow, judged: Assessment | undefined) => void;
  readonly now?: () => Date;
  readonly patience?: number;
}

export class LogSet {
  private readonly host: WorkbookHost;
  private readonly kept: KeptSets;
  private readonly tellView: LogSetParts["tell"];
  private readonly saved: LogSetParts["saved"];
  private readonly now: () => Date;
  private readonly patience: number;
  private readonly view: SeasonInView;

  private current: LogSetState;
  private readings = 0;
  /** Sets whose order to save has not been answered. */
  private readonly unanswered = new Set<string>();
  private made = 0;
  private record: LoggedRecord | null = null;

  constructor({ host, drafts, tell, saved, now = () => new Date(), patience = patienceMilliseconds }: LogSetParts) {
    this.host = host;
    this.view = seasonInView(host);
    this.saved = saved;
    this.kept = keptSets(drafts);
    this.tellView = tell;
    this.now = now;
    this.patience = patience;
    this.current = this.firstState(host.workbookName());
  }

  /** With what is kept of the workbook: its latest set is the one in hand. */
  private firstState(workbook: string): LogSetState {
    const all = this.kept.all();
    const own = all.find((one) => one.workbook === workbook);
    const choice = this.kept.choice(workbook) ?? { season: "", athlete: "", trick: "", stage: USUAL_STAGE };
    const set = own ?? this.freshSet(workbook, choice);
    return {
      workbook,
      book: { kind: "reading" },
      set,
      live: null,
      saving: set.rowsBefore === null ? "no" : "unsure",
      problems: {},
      outcome: own ? { kind: "note", words: texts.setRestored(set.marks.length) } : null,
      aside: all.filter((one) => one !== own),
      forgetful: false,
    };
  }

  get state(): LogSetState {
    return this.current;
  }

  /* ---- reading the workbook ---- */

  /** Reads the workbook anew. What is in hand stays in hand, whatever is found. */
  async refresh(): Promise<void> {
    this.readings += 1;
    const reading = this.readings;
    const isLatest = (): boolean => reading === this.readings;
    const patience = setTimeout(() => {
      if (isLatest() && this.current.book.kind === "reading") this.become({ book: failed(texts.hostSilent) });
    }, this.patience);
    try {
      this.followWorkbook();
      const { tables } = await this.host.namesInUse();
      // The page may have opened another workbook while it was being asked.
      this.followWorkbook();
      const seasons = seasonsAmong(tables);
      this.turnTo(await this.view.turnedTo(seasons));
      const key = this.seasonAmong(seasons);
      const data = key === undefined ? null : await readSeason(this.host, key);
      // Another reading has been asked for since, of a later state of the workbook or of another season.
      if (isLatest()) this.take(seasons, data);
    } catch (cause) {
      // What was read before still helps to count; saving reads the log again anyway.
      if (isLatest() && this.current.book.kind !== "ready") this.become({ book: failed(reasonOf(cause)) });
    } finally {
      clearTimeout(patience);
    }
  }

  /** Another workbook may have been opened in this one's place: what was counted for this one is put aside. */
  private followWorkbook(): boolean {
    const workbook = this.host.workbookName();
    const { set, aside, forgetful } = this.current;
    if (workbook === this.current.workbook) return false;
    const next = this.firstState(workbook);
    const inMemory = holdsSomething(set) ? [set, ...aside] : aside;
    this.become({ ...next, aside: forgetful ? inMemory : next.aside, forgetful });
    return true;
  }

  /** The coach looks at another season now: the next set is of it, unless one is being counted. */
  private turnTo(season: SeasonKey | undefined): void {
    const { set, saving } = this.current;
    if (season === undefined || season === set.season || saving !== "no" || holdsSomething(set)) return;
    this.become({ set: { ...set, season } });
  }

  private seasonAmong(seasons: readonly SeasonKey[]): SeasonKey | undefined {
    return listed(seasons, this.current.set.season) ?? seasons.at(-1);
  }

  private take(seasons: readonly SeasonKey[], data: SeasonData | null): void {
    if (data === null) {
      this.become({ book: { kind: "none" } });
      return;
    }
    const { set } = this.current;
    // A season that is gone stays named while there are marks for it: saving tells.
    const gone = listed(seasons, set.season) === undefined && set.season !== "" && holdsSomething(set);
    const chosen = {
      season: gone ? set.season : data.key,
      athlete: chosenAmong(data.athletes, set.athlete),
      trick: chosenAmong(data.tricks, set.trick),
    };
    this.become({ book: { kind: "ready", seasons, data }, set: { ...set, ...chosen }, aside: this.keptAside() });
    if (this.current.saving === "unsure" && !this.unanswered.has(set.id)) this.settleFromLog(data);
  }

  /* ---- counting ---- */

  mark(mark: Mark): void {
    if (this.refuseWhileSaving()) return;
    const { set } = this.current;
    const day = set.marks.length === 0 ? serialOfDay(this.now()) : set.day;
    const marks = [...set.marks, mark];
    this.change({ marks, day }, { marks: undefined });
    const { live } = this.current;
    this.say(
      texts.counted(
        texts.markWords[mark],
        marks.length,
        this.setSize,
        live?.kind === "judged" ? spokenStatus(live.now) : null,
      ),
    );
  }

  undo(): void {
    if (this.refuseWhileSaving()) return;
    const { set } = this.current;
    const last = set.marks.at(-1);
    if (last === undefined) {
      this.say(texts.nothingToUndo);
      return;
    }
    const marks = set.marks.slice(0, -1);
    this.change({ marks, day: marks.length === 0 ? null : set.day }, {});
    this.say(texts.undone(texts.markWords[last], marks.length, this.setSize));
  }

  /** Says what the set is of. With marks in hand it is a correction: they go along. */
  choose(choice: Partial<Choice>): void {
    if (this.refuseWhileSaving()) return;
    const before = this.current.set;
    const cleared = Object.fromEntries(Object.keys(choice).map((field) => [field, undefined]));
    this.change(choice, cleared);
    const { set } = this.current;
    this.kept.keepChoice(this.current.workbook, set);
    if (set.marks.length > 0 && (set.athlete !== before.athlete || set.trick !== before.trick)) {
      this.become({ outcome: { kind: "note", words: texts.marksGoAlong(set.marks.length, set.athlete, set.trick) } });
    }
    if (set.season !== before.season) void this.refresh();
  }

  /** A season has just been built: the next set is of it, unless another one is being counted. */
  beginIn(label: string): void {
    const { set, saving } = this.current;
    if (saving !== "no" || holdsSomething(set)) return;
    this.choose({ season: seasonKey(label), athlete: "", trick: "" });
  }

  write(words: Partial<SetWords>): void {
    if (this.refuseWhileSaving()) return;
    this.change(words, Object.fromEntries(Object.keys(words).map((field) => [field, undefined])));
  }

  /** Gives a log from before the columns that it lacks, and changes nothing else. */
  async addColumns(): Promise<void> {
    const { book } = this.current;
    if (book.kind !== "ready") return;
    try {
      await this.host.addColumns(book.data.table, WAY_HEADINGS);
      await this.refresh();
      this.become({ outcome: { kind: "right", words: texts.columnsAdded }, problems: {} }, texts.columnsAdded);
    } catch (cause) {
      const words = texts.columnsNotAdded(reasonOf(cause));
      this.become({ outcome: { kind: "wrong", words } }, words);
    }
  }

  private get setSize(): number | null {
    const { book } = this.current;
    return book.kind === "ready" ? book.data.setSize : null;
  }

  /** Kept first and shown afterwards: between the two the page may be gone. */
  private change(changes: Partial<SetInHand>, cleared: Partial<Record<Field, undefined>>): void {
    const set: SetInHand = { ...this.current.set, ...changes, changed: this.now().getTime() };
    const keeps = this.kept.keep(set);
    this.become({ set, forgetful: !keeps, outcome: null, problems: { ...this.current.problems, ...cleared } });
  }

  private refuseWhileSaving(): boolean {
    const { saving } = this.current;
    if (saving === "no") return false;
    const words = saving === "saving" ? texts.waitForSaving : texts.firstFindOut;
    this.become({ outcome: { kind: "wrong", words } }, words);
    return true;
  }

  /* ---- saving ---- */

  save(): void {
    if (this.current.saving !== "no") return;
    if (this.followWorkbook()) {
      void this.refresh();
      return;
    }
    const { book, set } = this.current;
    if (book.kind !== "ready") {
      this.become({ outcome: { kind: "wrong", words: texts.notReadYet } }, texts.notReadYet);
      return;
    }
    const row = this.checkedRow(book);
    if (row === null) return;
    this.become({ saving: "saving", outcome: null }, texts.savingSet);
    void this.carryOut(set, row, book.data.table);
  }

  private checkedRow({ seasons, data }: Extract<Book, { kind: "ready" }>): SetRow | null {
    const { set } = this.current;
    const [athlete, trick] = [listed(data.athletes, set.athlete), listed(data.tricks, set.trick)];
    const stage = listed(STAGES, set.stage);
    const minutes = minutesTyped(set);
    const problems = this.problemsOf(set, { seasons, data });
    const count = Object.keys(problems).length;
    if (count > 0 || athlete === undefined || trick === undefined || stage === undefined) {
      this.become({ problems, outcome: null }, problems.marks ?? texts.problemsFound(count));
      return null;
    }
    return {
      season: data.key,
      athlete,
      trick,
      stage,
      day: this.dayOf(set),
      marks: marksInFives(set.marks),
      minutes,
      ...wordsOf(set),
    };
  }

  private problemsOf(
    set: SetInHand,
    { seasons, data }: Pick<Extract<Book, { kind: "ready" }>, "seasons" | "data">,
  ): LogSetState["problems"] {
    const minutes = minutesTyped(set);
    const problems: { [Name in Field]?: string } = {};
    if (set.season !== data.key) {
      problems.season = listed(seasons, set.season) === undefined ? texts.seasonGone(set.season) : texts.notReadYet;
    }
    if (listed(data.athletes, set.athlete) === undefined) {
      problems.athlete = texts.notAnAthlete(set.athlete.trim());
    }
    if (listed(data.tricks, set.trick) === undefined) problems.trick = texts.notATrick(set.trick.trim());
    if (listed(STAGES, set.stage) === undefined) problems.stage = texts.chooseStage;
    if (set.marks.length === 0) problems.marks = texts.noMarksYet;
    if (minutes !== null && !(minutes >= 0 && minutes <= MOST_MINUTES))
      problems.minutes = texts.notMinutes(MOST_MINUTES);
    const day = this.dayTyped(set);
    if (day?.kind === "wrong") problems.dayTyped = day.words;
    for (const name of ["entrance", "exit", "condition"] as const) {
      if (set[name].trim() !== "" && data.lackingColumns.includes(PRACTICE[name])) problems[name] = texts.columnLacking;
    }
    return problems;
  }

  private dayTyped({ dayTyped }: SetInHand): ReturnType<typeof typedDay> | null {
    return dayTyped.trim() === "" ? null : typedDay(dayTyped, { of: "log", now: this.now() });
  }

  /** The day that the set is logged under: as typed, else that of its first mark, else today. */
  private dayOf(set: SetInHand): number {
    const typed = this.dayTyped(set);
    return typed?.kind === "day" ? typed.serial : (set.day ?? serialOfDay(this.now()));
  }

  /** From the order to what came of it, however late. */
  private async carryOut({ id, workbook }: SetInHand, row: SetRow, table: string): Promise<void> {
    this.unanswered.add(id);
    const patience = setTimeout(() => {
      if (this.current.set.id === id) this.becomeUnsure(texts.saveUnanswered);
    }, this.patience);
    try {
      const before = await this.rowsLike(row, table, workbook);
      // From here on the row may be in the log without our knowing.
      this.amend(id, { rowsBefore: before });
      try {
        const address = await this.host.appendRow(table, cellsOf(row));
        this.settleSaved(id, row, address);
      } catch (cause) {
        const reason = reasonOf(cause);
        await this.afterRefusal(id, row, reason, async () => (await this.rowsLike(row, table, workbook)) > before);
      }
    } catch (cause) {
      // The log could not even be read, so nothing was written.
      this.settleUnsaved(id, texts.notSaved(reasonOf(cause)));
    } finally {
      clearTimeout(patience);
      this.unanswered.delete(id);
    }
  }

  /** A host that gives up may have written the row all the same: only the log knows. */
  private async afterRefusal(
    id: string,
    row: SetRow,
    reason: string,
    hasArrived: () => Promise<boolean>,
  ): Promise<void> {
    let arrived: boolean;
    try {
      arrived = await hasArrived();
    } catch {
      if (this.current.set.id === id) this.becomeUnsure(texts.saveUnclear(reason));
      return;
    }
    if (arrived) this.settleSaved(id, row, null);
    else this.settleUnsaved(id, texts.notSaved(reason));
  }

  /** How many rows of the log are like this one; refused where another workbook has taken the place of the set's. */
  private async rowsLike(row: SetRow, table: string, workbook: string): Promise<number> {
    const log = await readLog(this.host, table);
    if (this.host.workbookName() !== workbook) throw new Error(texts.workbookChanged);
    return rowsLike(log, row);
  }

  /** Looks into the log for a set of which nobody has said what came of it. */
  async findOut(): Promise<void> {
    const { book, saving, set } = this.current;
    if (saving !== "unsure") return;
    if (book.kind !== "ready") return this.refresh();
    this.become({}, texts.lookingInLog);
    try {
      const log = await readLog(this.host, book.data.table);
      if (this.current.set.id === set.id) this.settleFromLog(withLog(book.data, log));
    } catch (cause) {
      this.become({ outcome: { kind: "wrong", words: texts.saveUnclear(reasonOf(cause)) } }, reasonOf(cause));
    }
  }

  private settleFromLog(data: SeasonData): void {
    const { set, saving } = this.current;
    if (saving !== "unsure") return;
    const row = this.rowOf(set);
    if (set.rowsBefore !== null && rowsLike(data.log, row) > set.rowsBefore) {
      this.settleSaved(set.id, row, null);
    } else if (this.unanswered.has(set.id)) {
      this.becomeUnsure(texts.notInLogYet);
    } else {
      this.settleUnsaved(set.id, texts.notInLog);
    }
  }

  /** The row of a set that was found right when it was ordered. */
  private rowOf(set: SetInHand): SetRow {
    const { season, athlete, trick, stage } = set;
    const minutes = minutesTyped(set);
    return {
      ...{ season, athlete, trick, stage, minutes },
      day: this.dayOf(set),
      marks: marksInFives(set.marks),
      ...wordsOf(set),
    };
  }

  private settleSaved(id: string, row: SetRow, address: string | null): void {
    const { set, book, aside, saving } = this.current;
    const inHand = set.id === id;
    const saved = inHand ? set : aside.find((one) => one.id === id);
    // Settled before, when it was found in the log.
    if (!saved) return;
    this.kept.forget(id);
    const words = texts.setSaved(row.athlete, row.trick, row.marks, address);
    this.become(
      {
        set: inHand ? this.freshSet(set.workbook, set) : set,
        saving: inHand ? "no" : saving,
        aside: aside.filter((one) => one.id !== id),
        problems: inHand ? {} : this.current.problems,
        outcome: { kind: "right", words },
        // Counted at once; the reading below makes it certain.
        book:
          book.kind === "ready" && book.data.key === row.season && saved.workbook === this.current.workbook
            ? { ...book, data: withLog(book.data, [...book.data.log, loggedRow(row)]) }
            : book,
      },
      words,
    );
    const { live } = this.current;
    if (inHand) this.saved?.(row, live?.kind === "judged" ? live.now : undefined);
    void this.refresh();
  }

  private settleUnsaved(id: string, words: string): void {
    const inHand = this.current.set.id === id;
    if (!inHand && !this.current.aside.some((one) => one.id === id)) return;
    this.amend(id, { rowsBefore: null });
    this.become({ saving: inHand ? "no" : this.current.saving, outcome: { kind: "wrong", words } }, words);
  }

  private becomeUnsure(words: string): void {
    this.become({ saving: "unsure", outcome: { kind: "wrong", words } }, words);
  }

  /** Changes a kept set, in hand or aside. */
  private amend(id: string, changes: Partial<SetInHand>): void {
    const amended = (set: SetInHand): SetInHand => {
      if (set.id !== id) return set;
      const changed = { ...set, ...changes };
      this.kept.keep(changed);
      return changed;
    };
    this.current = {
      ...this.current,
      set: amended(this.current.set),
      aside: this.current.aside.map(amended),
    };
  }

  /* ---- sets put aside ---- */

  /** Begins another set; the one in hand stays kept. */
  putAside(): void {
    const { set, aside, saving } = this.current;
    if (saving === "saving" || !holdsSomething(set)) return;
    this.become({
      set: this.freshSet(set.workbook, set),
      aside: [set, ...aside],
      saving: "no",
      outcome: null,
      problems: {},
    });
  }

  /** As they are kept now: another window may have saved one. Where nothing can be kept, as they are known here. */
  private keptAside(): readonly SetInHand[] {
    const { aside, set, forgetful } = this.current;
    return forgetful ? aside : this.kept.all().filter(({ id }) => id !== set.id);
  }

  takeUp(id: string): void {
    if (this.current.saving !== "no" && this.refuseWhileSaving()) return;
    const { set, aside } = this.current;
    const taken = this.keptAside().find((one) => one.id === id);
    if (!taken) {
      // Saved or thrown away in another window.
      this.become({ aside: aside.filter((one) => one.id !== id) }, texts.setGone);
      return;
    }
    if (this.unanswered.has(id)) {
      this.become({ outcome: { kind: "wrong", words: texts.notInLogYet } }, texts.notInLogYet);
      return;
    }
    const here: SetInHand = { ...taken, workbook: this.current.workbook, changed: this.now().getTime() };
    this.kept.keep(here);
    const others = aside.filter((one) => one.id !== id);
    const words = texts.setTakenUp(here.athlete, here.trick, here.marks.length);
    this.become(
      {
        set: here,
        aside: holdsSomething(set) ? [set, ...others] : others,
        saving: here.rowsBefore === null ? "no" : "unsure",
        problems: {},
        outcome: { kind: "note", words },
      },
      words,
    );
    // Whether it is in the log by now, and perhaps of another season.
    void this.refresh();
  }

  throwAway(id: string): void {
    if (this.unanswered.has(id)) {
      this.become({ outcome: { kind: "wrong", words: texts.notInLogYet } }, texts.notInLogYet);
      return;
    }
    this.kept.forget(id);
    this.become({ aside: this.current.aside.filter((one) => one.id !== id) }, texts.setThrownAway);
  }

  /* ---- state ---- */

  private freshSet(workbook: string, choice: Choice): SetInHand {
    this.made += 1;
    const id = `${String(this.now().getTime())}-${String(this.made)}-${Math.random().toString(36).slice(2, 10)}`;
    return newSet(id, workbook, choice);
  }

  private become(changes: Partial<LogSetState>, words: string | null = null): void {
    const next = { ...this.current, ...changes };
    this.current = { ...next, live: this.judge(next) };
    this.tellView(this.current, words);
  }

  private say(words: string): void {
    this.tellView(this.current, words);
  }

  private judge({ book, set }: LogSetState): Live | null {
    if (book.kind !== "ready" || book.data.key !== set.season) return null;
    const { data } = book;
    if (listed(data.athletes, set.athlete) === undefined || listed(data.tricks, set.trick) === undefined) return null;
    try {
      const { logged, assessment: before } = this.recordOf(data, set);
      const attempts = set.marks.map((mark) => outcomes[mark]);
      const stage = stageCalled(set.stage);
      const apart = stage !== undefined && isApart(stage);
      const day = this.dayOf(set);
      const withSet = (record: DayLog | undefined): Assessment =>
        assessWithSet(record, attempts, day, data.standard, data.setSize);
      const now = apart ? before : withSet(logged);
      const ofSet = apart ? withSet(undefined) : now;
      const laterDay = logged !== undefined && logged.lastDay > day ? logged.lastDay : undefined;
      return { kind: "judged", apart, before, now, streak: ofSet.streaks?.current, laterDay };
    } catch {
      // Whatever it is, such as a file of the functions that did not come: it must not stop the counting.
      return { kind: "unreadable", words: texts.statusUnavailable };
    }
  }

  private recordOf(data: SeasonData, { athlete, trick }: SetInHand): LoggedRecord {
    const { record } = this;
    if (record && record.data === data && record.athlete === athlete && record.trick === trick) return record;
    const logged = data.records.recordOf(athlete, trick);
    const assessment = assessWithSet(logged, [], 0, data.standard, data.setSize);
    this.record = { athlete, trick, data, logged, assessment };
    return this.record;
  }
}

function wordsOf(set: SetInHand): Pick<SetRow, "entrance" | "exit" | "condition" | "note"> {
  const [entrance, exit, condition, note] = [set.entrance, set.exit, set.condition, set.note].map((one) => one.trim());
  return { entrance: entrance ?? "", exit: exit ?? "", condition: condition ?? "", note: note ?? "" };
}

/** A word that asks for care is never said without its reason. */
function spokenStatus(judged: Assessment): string {
  return judged.status === "At risk" ? `${judged.status}, ${texts.reasonInWords(judged)}` : judged.status;
}

/** As the list spells it; and where nothing is chosen yet and there is one alone, that one. */
function chosenAmong(names: readonly string[], chosen: string): string {
  const only = chosen === "" && names.length === 1 ? names[0] : undefined;
  return listed(names, chosen) ?? only ?? chosen;
}

const failed = (reason: string): Book => ({ kind: "failed", reason });

/** Null where none are typed, NaN where they are no number. */
function minutesTyped({ minutes }: SetInHand): number | null {
  return minutes.trim() === "" ? null : numberFromText(minutes);
}
