/**
 * What the Use my sheet part knows of a club's log: what was found in it, what the coach has said, and what still
 * stands against a board. Knows nothing of the document.
 */
import { isSumRow, rowsAsRead, type ReadRow } from "../../../core/log-layout/as-read";
import { findLayout, type Corrections, type LogLayout } from "../../../core/log-layout/find-layout";
import { repeatsHeadings } from "../../../core/log-layout/heading-rows";
import { findLoneMarks, type LoneMarks } from "../../../core/log-layout/lone-marks";
import type { LogMapping } from "../../../core/log-layout/mapping";
import { stagesInLog, type StageInLog } from "../../../core/log-layout/stages";
import { suggestKey, type KeySuggestion } from "../../../core/log-layout/suggest-key";
import { turnedDays, type TurnedDays } from "../../../core/log-layout/turned-days";
import { maybeEntry, unreadableCells, type UnreadableCells } from "../../../core/log-layout/unreadable-cells";
import { comparable } from "../../../core/text";
import { ownBoardName, ownBoardPlan } from "../../../workbook/own-board/own-board";
import { defaultSettings } from "../../../workbook/season/season";
import type { WorkbookHost } from "../../host/host";
import { missingRoles, namesInLog, namesOfRow, ownLogOf, type NeededRole } from "./own-log";
import type { ReadLog } from "../../host/own-sheet-host";
import { reasonOf } from "../../words/reason";
import { texts } from "../../words/texts";

/** What the coach has to say before anything is counted, since it can be read in several ways. */
const openQuestions = ["columns", "key", "blank", "tally"] as const;
type OpenQuestion = (typeof openQuestions)[number];

/** What the board will count, in a few numbers that a coach can hold against what she knows. */
interface ReadSummary {
  readonly rows: number;
  readonly caught: number;
  readonly attempts: number;
  readonly athletes: number;
  readonly tricks: number;
  /** The sheet's numbers of the first and last day; null where no row is read. */
  readonly days: readonly [first: number, last: number] | null;
}

export interface OwnSheetView {
  readonly log: ReadLog;
  readonly corrections: Corrections;
  readonly layout: LogLayout;
  readonly unreadable: UnreadableCells;
  /** Days that the spreadsheet has probably turned round when they were typed. */
  readonly turnedDays: TurnedDays;
  /** The club's own signs, where its marks are not the usual ones. */
  readonly suggestion: KeySuggestion | null;
  readonly stages: readonly StageInLog[];
  readonly missing: readonly NeededRole[];
  /** Whether the coach has to say what the marks mean before anything can be counted. */
  readonly isKeyOpen: boolean;
  /** What an empty cell may mean; null where it means no attempt. */
  readonly loneMarks: LoneMarks | null;
  readonly open: readonly OpenQuestion[];
  readonly summary: ReadSummary;
}

/** Looks at a log with the coach's corrections. */
export function lookAtLog(log: ReadLog, corrections: Corrections): OwnSheetView {
  const { block, table } = log;
  // A table has its headings in its first row, whatever they look like.
  const said = table === null ? corrections : { ...corrections, headingRow: block.row };
  const found = findLayout(block, said);
  const suggestion = suggestKey(block, found.mapping, found.headingRows);
  const sureKey = corrections.key === undefined && suggestion?.sure === true ? (suggestion.keys[0] ?? null) : null;
  const layout = sureKey === null ? found : { ...found, mapping: { ...found.mapping, key: sureKey } };
  const isKeyOpen = suggestion !== null && !suggestion.sure && corrections.key === undefined;
  const entries = (row: number): boolean =>
    maybeEntry(block, layout.mapping, row) &&
    !repeatsHeadings(block, row, layout.headingRows) &&
    !isSumRow(block, layout.mapping.sums, row);
  const loneMarks = isKeyOpen ? null : findLoneMarks(block, layout.mapping, entries);
  const isBlankOpen = loneMarks !== null && loneMarks.meanings.length > 0 && corrections.blank === undefined;
  const isOpen: Readonly<Record<OpenQuestion, boolean>> = {
    columns: layout.unsure.length > 0,
    key: isKeyOpen,
    blank: isBlankOpen,
    tally: layout.tallies?.sure === false && corrections.tally === undefined,
  };
  // Whichever way round the club's signs are, the same cells can be read.
  const readWith = {
    ...layout.mapping,
    ...(isKeyOpen ? { key: suggestion.keys[0] ?? null } : {}),
    ...(isBlankOpen ? loneMarks.meanings[0] : {}),
  };
  const unreadable = unreadableCells(block, readWith, layout.headingRows);
  const stages = stagesInLog(block, layout.mapping);
  return {
    log,
    corrections,
    layout,
    unreadable,
    turnedDays: turnedDays(block, layout.mapping),
    suggestion,
    stages,
    missing: missingRoles(layout),
    isKeyOpen,
    loneMarks,
    open: openQuestions.filter((question) => isOpen[question]),
    summary: summaryOf(rowsOf({ log, unreadable, stages }, readWith)),
  };
}

/** The rows as the board will count them, with the stages left out that sound practised apart. */
export function rowsOf(
  { log, unreadable, stages }: Pick<OwnSheetView, "log" | "unreadable" | "stages">,
  mapping: LogMapping,
): readonly ReadRow[] {
  return rowsAsRead(log.block, mapping, {
    marks: unreadable.unknownMarks.map(({ text }) => text),
    stages: stages.filter(({ soundsApart }) => soundsApart).map(({ stage }) => stage),
  });
}

function summaryOf(rows: readonly ReadRow[]): ReadSummary {
  const different = (of: (row: ReadRow) => string): number => new Set(rows.map((row) => comparable(of(row)))).size;
  const sum = (of: (row: ReadRow) => number): number => rows.reduce((total, row) => total + of(row), 0);
  const first = rows.reduce((day, row) => Math.min(day, row.day), Infinity);
  const last = rows.reduce((day, row) => Math.max(day, row.day), -Infinity);
  return {
    rows: rows.length,
    caught: sum(({ caught }) => caught),
    attempts: sum(({ attempts }) => attempts),
    athletes: different(({ athlete }) => athlete),
    tricks: different(({ trick }) => trick),
    days: rows.length === 0 ? null : [first, last],
  };
}

export type PutState =
  | { readonly kind: "working" }
  | { readonly kind: "done"; readonly sheet: string }
  | { readonly kind: "failed"; readonly reason: string };

/**
 * Puts a board over the log, as far as it is known.
 * @param stagesApart the club's stages that do not count
 */
export async function putBoard(
  view: OwnSheetView,
  stagesApart: readonly string[],
  host: WorkbookHost,
  tell: (state: PutState) => void,
): Promise<void> {
  const { log, layout, unreadable } = view;
  const own = ownLogOf(log.sheet, log.table, layout);
  if (own === null || view.open.length > 0) return;
  tell({ kind: "working" });
  try {
    const names = await host.namesInUse();
    // Another workbook may be open by now, or the sheet gone.
    if (!names.sheets.includes(log.sheet)) throw new Error(texts.sheetGone(log.sheet));
    const sheetName = ownBoardName(log.sheet, [...names.sheets, ...names.tables]);
    const plan = ownBoardPlan(own, {
      sheetName,
      standard: defaultSettings.standard,
      setSize: defaultSettings.setSize,
      focus: namesOfRow(log.block, layout, unreadable.latestRow),
      athletes: namesInLog(log.block, layout, "athlete"),
      tricks: namesInLog(log.block, layout, "trick"),
      marksLeftOut: unreadable.unknownMarks.map(({ text }) => text),
      stagesApart,
    });
    await host.addSheets(plan);
    const after = await host.namesInUse();
    if (!after.sheets.includes(sheetName)) throw new Error(texts.ownSheetNotThere(sheetName));
    tell({ kind: "done", sheet: sheetName });
  } catch (cause) {
    tell({ kind: "failed", reason: reasonOf(cause) });
  }
}
