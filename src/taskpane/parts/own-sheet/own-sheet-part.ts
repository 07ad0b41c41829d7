/** The Use my sheet part: reads a club's own log, shows what was found, and puts a board over it. */
import { isError, lastRowOf, shownAt, valueAt } from "../../../core/log-layout/cell-block";
import type { Corrections } from "../../../core/log-layout/find-layout";
import type { FoundRole } from "../../../core/log-layout/findings";
import { dateOfSerial } from "../../../core/log-layout/serial-days";
import { columnLetters } from "../../../core/sheet";
import { cellName } from "../../../workbook/plan/address";
import type { CellAddress } from "../../../workbook/plan/schema";
import { element, say, setAttribute } from "../../ui/dom";
import type { WorkbookHost } from "../../host/host";
import type { NeededRole } from "./own-log";
import { columnChoices } from "./own-sheet-columns";
import type { ReadLog } from "../../host/own-sheet-host";
import { readingChoices } from "./own-sheet-reading";
import { lookAtLog, putBoard, type OwnSheetView, type PutState } from "./own-sheet-state";
import type { Part, PartContext } from "../part";
import { reasonOf } from "../../words/reason";
import { repairSection } from "./repair-section";
import { texts } from "../../words/texts";

export const ownSheetPart: Part = {
  id: "own-sheet",
  get title() {
    return texts.ownSheetTitle;
  },
  mount,
};

function mount(panel: HTMLElement, { host, whenChanged }: PartContext): void {
  const hint = element("p", { id: "twirl-own-read-hint", class: "twirl-hint" }, texts.ownSheetReadHint);
  const read = element(
    "button",
    { type: "button", class: "twirl-button twirl-button-main", "aria-describedby": hint.id },
    texts.ownSheetRead,
  );
  const status = element("p", { role: "status", class: "twirl-status" });
  const found = foundLog(host);
  panel.append(
    element("h2", {}, texts.ownSheetTitle),
    element("p", { class: "twirl-quiet" }, texts.ownSheetIntro),
    element("div", { class: "twirl-actions" }, read),
    hint,
    status,
    found.block,
    repairSection(host),
  );

  let reading = false;
  let workbook = "";
  whenChanged(async () => {
    const shown = found.shown();
    if (!reading && shown !== null && host.workbookName() !== workbook) {
      // What was said of one workbook's log is never put over another's.
      found.clear();
      status.textContent = texts.ownSheetOtherWorkbook;
      return;
    }
    if (reading || shown === null || (await host.sheetInView()) !== shown.sheet) return;
    found.renew(await host.readLog());
  });
  read.addEventListener("click", () => {
    if (reading) return;
    reading = true;
    setAttribute(read, "aria-disabled", "true");
    status.textContent = texts.ownSheetReading;
    workbook = host.workbookName();
    host
      .readLog((rows, of) => {
        if (rows > 0) status.textContent = texts.ownSheetReadingRows(rows, of);
      })
      .then(
        (log) => {
          status.textContent = "";
          found.begin(log);
        },
        (cause: unknown) => {
          found.clear();
          say(status, `${texts.ownSheetNotRead} ${reasonOf(cause)}`);
        },
      )
      .finally(() => {
        reading = false;
        setAttribute(read, "aria-disabled", null);
      });
  });
}

/* ---- what was found ---- */

interface FoundLog {
  readonly block: HTMLElement;
  /** Shows a log that was just read, and brings it to the reader. */
  begin(log: ReadLog): void;
  /** Shows nothing any more: there is no such log. */
  clear(): void;
  /** The log that is shown; null where there is none, or while a board is put over it. */
  shown(): ReadLog | null;
  /** Shows what the same log holds now, with what the coach has said of it; nothing moves where nothing has changed. */
  renew(log: ReadLog): void;
}

function foundLog(host: WorkbookHost): FoundLog {
  let view: OwnSheetView | null = null;
  const correct = (corrections: Corrections): void => {
    if (view) show(lookAtLog(view.log, corrections));
  };
  const where = element("p", { class: "twirl-quiet", tabindex: -1 });
  const headings = headingChoice((headingRow) => correct({ ...view?.corrections, headingRow }));
  const columns = columnChoices(correct);
  const reading = readingChoices(correct);
  const summary = element("p", { class: "twirl-note", id: "twirl-own-summary" });
  const unused = element("p", { class: "twirl-note" });
  const unreadable = unreadableList(host);
  const put = element("button", { type: "button", class: "twirl-button twirl-button-main" }, texts.ownSheetPut);
  const status = element("p", { role: "status", class: "twirl-status" });
  const outcome = element("div", { role: "status" });
  const block = element(
    "div",
    { hidden: true, class: "twirl-found" },
    where,
    headings.block,
    columns.block,
    unused,
    reading.block,
    unreadable.block,
    summary,
    element("div", { class: "twirl-actions" }, put),
    status,
    outcome,
  );

  const show = (next: OwnSheetView): void => {
    view = next;
    const { log, layout } = next;
    where.textContent =
      log.table === null
        ? texts.ownSheetWhere(log.sheet, layout.mapping.firstRow, layout.mapping.lastRow)
        : texts.ownSheetTable(log.sheet, log.table.name);
    headings.show(next);
    columns.show(next);
    reading.show(next);
    unreadable.show(next);
    unused.textContent = unusedWords(next);
    summary.textContent = next.missing.length > 0 ? "" : summaryWords(next);
    for (const line of [unused, summary]) line.hidden = line.textContent === "";
    status.textContent = "";
    outcome.replaceChildren();
  };

  let working = false;
  const tell = (state: PutState): void => {
    working = state.kind === "working";
    setAttribute(put, "aria-disabled", working ? "true" : null);
    status.textContent = working ? texts.ownSheetPutting : "";
    if (state.kind === "done") {
      message(outcome, "twirl-message", [texts.ownSheetDone(state.sheet), texts.ownSheetDoneNext]);
    } else if (state.kind === "failed") {
      message(outcome, "twirl-message twirl-message-wrong", [texts.ownSheetFailed, state.reason]);
    }
  };
  put.addEventListener("click", () => {
    if (!view || working) return;
    outcome.replaceChildren();
    const [first] = view.missing;
    const [question] = view.open;
    if (first !== undefined) {
      say(status, texts.ownSheetMissing(view.missing.map((role) => roleNames()[role]).join(", ")));
      columns.focus(first);
    } else if (question === "columns") {
      say(status, texts.ownSheetColumnsOpen(view.layout.unsure.map((role) => foundNames()[role]).join(", ")));
      columns.focusConfirm();
    } else if (question !== undefined) {
      say(status, question === "key" ? texts.ownSheetKeyMissing : texts.ownSheetQuestionOpen);
      reading.focus(question);
    } else if (view.summary.rows === 0 && view.unreadable.entries > 0) {
      say(status, texts.ownSheetNothingRead(view.unreadable.entries));
    } else {
      void putBoard(view, reading.stagesApart(), host, tell);
    }
  });

  return {
    block,
    clear: () => {
      view = null;
      block.hidden = true;
      outcome.replaceChildren();
    },
    shown: () => (working ? null : (view?.log ?? null)),
    renew: (log) => {
      if (view === null || working || same(log, view.log)) return;
      if (isOfSameCells(log, view.log)) show(lookAtLog(log, view.corrections));
      else status.textContent = texts.ownSheetStale;
    },
    begin: (log) => {
      show(lookAtLog(log, {}));
      block.hidden = false;
      // What was read stands below the button: the reader is brought there, by eye and by ear.
      where.focus();
    },
  };
}

function same(one: ReadLog, other: ReadLog): boolean {
  return JSON.stringify(one.block) === JSON.stringify(other.block);
}

/** Another part of the sheet is selected by now: what it holds is no news of the log that is shown. */
function isOfSameCells(one: ReadLog, other: ReadLog): boolean {
  return (
    one.sheet === other.sheet &&
    one.table?.name === other.table?.name &&
    one.block.row === other.block.row &&
    one.block.column === other.block.column &&
    one.block.values[0]?.length === other.block.values[0]?.length
  );
}

const roleNames = (): Readonly<Record<NeededRole, string>> => ({
  date: texts.ownSheetDate,
  athlete: texts.athleteLabel,
  trick: texts.trickLabel,
  record: texts.ownSheetAttempts,
});

const foundNames = (): Readonly<Record<FoundRole, string>> => ({ ...roleNames(), stage: texts.stageLabel });

function unusedWords({ layout }: OwnSheetView): string {
  const { endsAt } = layout.mapping;
  const names = layout.unused.map(({ column, heading }) => [columnLetters(column), heading].join(" ").trim());
  return [
    ...(names.length > 0 ? [texts.ownSheetUnused(names.join(", "))] : []),
    ...(endsAt === null ? [] : [texts.ownSheetEndsAt(endsAt + 1)]),
  ].join(" ");
}

function summaryWords({ summary }: OwnSheetView): string {
  const { rows, caught, attempts, athletes, tricks, days } = summary;
  if (days === null) return "";
  const [first, last] = days.map(dayWords) as [string, string];
  return texts.ownSheetSummary(caught, attempts, rows, athletes, tricks, first, last);
}

/** A day of the sheet as people write it, with the month as a word: no order of numbers to be mistaken. */
function dayWords(serial: number): string {
  const day = dateOfSerial(serial);
  return new Intl.DateTimeFormat(document.documentElement.lang || "en", { dateStyle: "long", timeZone: "UTC" }).format(
    day,
  );
}

function message(outcome: HTMLElement, className: string, words: readonly string[]): void {
  const box = element("div", { class: className }, ...words.map((sentence) => element("p", {}, sentence)));
  outcome.replaceChildren(box);
  box.scrollIntoView({ block: "nearest" });
}

/* ---- which row holds the headings ---- */

const ROWS_OFFERED = 15;
const WORDS_SHOWN = 4;

function headingChoice(correct: (row: number) => void): {
  readonly block: HTMLElement;
  show(view: OwnSheetView): void;
} {
  const id = "twirl-own-headings";
  const select = element("select", { id });
  const block = element(
    "div",
    { class: "twirl-field" },
    element("label", { for: id }, texts.ownSheetHeadingRow),
    select,
  );
  let shown: ReadLog | null = null;
  select.addEventListener("change", () => correct(Number(select.value)));
  return {
    block,
    show: ({ log, layout }) => {
      // A table's headings are its first row.
      block.hidden = log.table !== null;
      if (shown !== log) {
        shown = log;
        select.replaceChildren(
          element("option", { value: 0 }, texts.ownSheetNoHeadings),
          ...rowsWithWords(log).map(({ row, words }) =>
            element("option", { value: row }, texts.ownSheetRowNumber(row, words)),
          ),
        );
      }
      select.value = String(layout.headingRows[0] ?? 0);
    },
  };
}

function rowsWithWords({ block }: ReadLog): readonly { readonly row: number; readonly words: string }[] {
  const rows: { readonly row: number; readonly words: string }[] = [];
  for (let row = block.row; row <= lastRowOf(block) && rows.length < ROWS_OFFERED; row += 1) {
    const words = (block.values[row - block.row] ?? [])
      .map((_, at) => valueAt(block, row, block.column + at))
      .filter((value) => value !== null && !isError(value))
      .map(String);
    if (words.length > 0) rows.push({ row, words: words.slice(0, WORDS_SHOWN).join(", ") });
  }
  return rows;
}

/* ---- what cannot be read ---- */

/** So many unknown texts are named in the pane; all of them stand on the sheet. */
const UNKNOWN_NAMED = 6;

function unreadableList(host: WorkbookHost): { readonly block: HTMLElement; show(view: OwnSheetView): void } {
  const summary = element("p", { role: "status" });
  const notes = element("div", {});
  const list = element("ul", { class: "twirl-cells" });
  const trouble = element("p", { role: "status", class: "twirl-status" });
  const block = element("div", {}, element("h3", {}, texts.ownSheetUnreadable), summary, notes, list, trouble);
  return {
    block,
    show: ({ log, unreadable, turnedDays, missing }) => {
      const { cells, count, entries, readable } = unreadable;
      const words =
        entries === 0
          ? texts.ownSheetNoRows
          : missing.length > 0
            ? texts.ownSheetNotAllFound(missing.map((role) => roleNames()[role]).join(", "))
            : texts.ownSheetRows(entries, readable);
      if (summary.textContent !== words) summary.textContent = words;
      const unknown = unreadable.unknownMarks
        .slice(0, UNKNOWN_NAMED)
        .map((mark) => texts.ownSheetSignCount(mark.text, mark.count));
      notes.replaceChildren(
        ...[
          turnedDays.count > 0 ? texts.ownSheetTurnedDays(turnedDays.count) : null,
          unreadable.talliesTurnedToDays > 0 ? texts.ownSheetTurned(unreadable.talliesTurnedToDays) : null,
          unknown.length > 0 ? texts.ownSheetUnknownMarks(unknown.join(", ")) : null,
          count > cells.length ? texts.ownSheetFirstOnly(cells.length, count) : null,
        ].flatMap((note) => (note === null ? [] : [element("p", { class: "twirl-note" }, note)])),
      );
      trouble.textContent = "";
      block.hidden = missing.length > 0 && entries === 0;
      const doubtful = turnedDays.cells.map((cell) => ({ cell, words: doubtWords(log, cell) }));
      const wrong = cells.map((cell) => ({ cell, words: texts.ownSheetCellProblem(cell.found, cell.accepted) }));
      const all = [...wrong, ...doubtful];
      list.hidden = all.length === 0;
      list.replaceChildren(...all.map(({ cell, words }) => listed(cell, words, log.sheet, host, trouble)));
    },
  };
}

function doubtWords({ block }: ReadLog, { row, column }: CellAddress): string {
  const shown = shownAt(block, row, column) ?? "";
  return texts.ownSheetDoubtfulDay(shown === "" ? String(valueAt(block, row, column)) : shown);
}

function listed(
  cell: CellAddress,
  words: string,
  sheet: string,
  host: WorkbookHost,
  trouble: HTMLElement,
): HTMLElement {
  const address = cellName(cell);
  const button = element(
    "button",
    { type: "button", class: "twirl-cell", "aria-label": texts.ownSheetCellGoTo(address) },
    address,
  );
  button.addEventListener("click", () => {
    host.goToCell(sheet, cell).catch((cause: unknown) => say(trouble, reasonOf(cause)));
  });
  return element("li", {}, button, element("span", {}, words));
}
