/**
 * What the Use my sheet part knows of a club's log: what was found in it, what the coach has said, and what still
 * stands against a board. Knows nothing of the document.
 */
import { findLayout, type Corrections, type LogLayout } from "../../../core/log-layout/find-layout";
import { stagesInLog, type StageInLog } from "../../../core/log-layout/stages";
import { suggestKey, type KeySuggestion } from "../../../core/log-layout/suggest-key";
import { turnedDays, type TurnedDays } from "../../../core/log-layout/turned-days";
import { unreadableCells, type UnreadableCells } from "../../../core/log-layout/unreadable-cells";
import { ownBoardName, ownBoardPlan } from "../../../workbook/own-board/own-board";
import { defaultSettings } from "../../../workbook/season/season";
import type { WorkbookHost } from "../../host/host";
import { missingRoles, namesInLog, namesOfRow, ownLogOf, type NeededRole } from "./own-log";
import type { ReadLog } from "../../host/own-sheet-host";
import { reasonOf } from "../../words/reason";

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
}

/** Looks at a log with the coach's corrections. */
export function lookAtLog(log: ReadLog, corrections: Corrections): OwnSheetView {
  const { block, table } = log;
  // A table has its headings in its first row, whatever they look like.
  const said = table === null ? corrections : { ...corrections, headingRow: block.row };
  const found = findLayout(block, said);
  const suggestion = suggestKey(block, found.mapping);
  const sureKey = corrections.key === undefined && suggestion?.sure === true ? (suggestion.keys[0] ?? null) : null;
  const layout = sureKey === null ? found : { ...found, mapping: { ...found.mapping, key: sureKey } };
  const isKeyOpen = suggestion !== null && !suggestion.sure && corrections.key === undefined;
  // Whichever way round the club's signs are, the same cells can be read.
  const readWith = isKeyOpen ? { ...layout.mapping, key: suggestion.keys[0] ?? null } : layout.mapping;
  return {
    log,
    corrections,
    layout,
    unreadable: unreadableCells(block, readWith, layout.headingRows),
    turnedDays: turnedDays(block, layout.mapping),
    suggestion,
    stages: stagesInLog(block, layout.mapping),
    missing: missingRoles(layout),
    isKeyOpen,
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
  if (own === null || view.isKeyOpen) return;
  tell({ kind: "working" });
  try {
    const names = await host.namesInUse();
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
    tell({ kind: "done", sheet: sheetName });
  } catch (cause) {
    tell({ kind: "failed", reason: reasonOf(cause) });
  }
}
